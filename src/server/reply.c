#include "server/reply.h"

#include "base/document.h"
#include "documents/write_common.h"
#include "wording/wording.h"

typedef struct refusal_entry {
    const char *word;
    int status;
    qll_text_id says;
} refusal_entry;

static const refusal_entry refusals[QLL_REFUSAL_COUNT] = {
#define QLL_REFUSAL_ENTRY(name, status, word) \
    [QLL_REFUSAL_##name] = {(word), (status), QLL_TEXT_REPLY_##name},
    QLL_REFUSAL_LIST(QLL_REFUSAL_ENTRY)
#undef QLL_REFUSAL_ENTRY
};

/* What whoever was told this may do, and when. */
static void put_advice(qll_http_reply *reply, qll_refusal refusal)
{
    if (refusal == QLL_REFUSAL_BUSY || refusal == QLL_REFUSAL_STORE_BUSY
        || refusal == QLL_REFUSAL_STORE_AWAY) {
        qll_http_reply_field(reply, "Retry-After", "1");
    }
    if (refusal == QLL_REFUSAL_LOGIN || refusal == QLL_REFUSAL_WRONG_PASSWORD) {
        /* RFC 9110 asks for a scheme; ours is none that a browser would ask a password for. */
        qll_http_reply_field(reply, "WWW-Authenticate", "quell");
    }
}

void qll_reply_refuse(qll_http_reply *reply, const qll_refusing *refusing, qll_language language,
                      qll_arena *arena)
{
    const refusal_entry *entry = &refusals[refusing->refusal];
    const qll_wording wording = {.language = language};
    const qll_said says = {entry->says, {refusing->arguments[0], refusing->arguments[1]}};
    qll_writer writer = qll_writer_new(arena);
    qll_json json = qll_json_new(&writer);
    qll_json_open_object(&json);
    qll_json_put_text(&json, "type", "about:blank");
    qll_json_put_text(&json, "title", qll_http_reason(entry->status));
    qll_json_put_whole(&json, "status", entry->status);
    qll_json_put_text(&json, "code", entry->word);
    qll_json_put_said(&json, "detail", &wording, &says);
    if (refusing->problems != NULL) {
        qll_json_put_list(&json, "problems");
        for (size_t i = 0; i < refusing->problem_count; i++) {
            qll_json_problem(&json, &refusing->problems[i]);
        }
        qll_json_close_list(&json);
    }
    qll_json_close_object(&json);
    qll_write(&writer, "\n");
    reply->status = entry->status;
    reply->type = "application/problem+json";
    reply->body = qll_writer_text(&writer);
    put_advice(reply, refusing->refusal);
}

bool qll_exchange_refuse_with(qll_exchange *exchange, const qll_refusing *refusing)
{
    qll_reply_refuse(&exchange->reply, refusing, exchange->language, exchange->arena);
    return true;
}

bool qll_exchange_refuse(qll_exchange *exchange, qll_refusal refusal)
{
    return qll_exchange_refuse_with(exchange, &(qll_refusing){.refusal = refusal});
}

void qll_reply_refuse_store(qll_http_reply *reply, qll_status status, const qll_said *why,
                            qll_language language, qll_arena *arena)
{
    qll_refusing refusing = {.refusal = QLL_REFUSAL_STORE, .arguments = {qll_as_said(arena, *why)}};
    if (status == QLL_NO_MEMORY) {
        refusing = (qll_refusing){.refusal = QLL_REFUSAL_NO_MEMORY};
    } else if (status == QLL_BUSY) {
        refusing = (qll_refusing){.refusal = QLL_REFUSAL_STORE_BUSY};
    } else if (why->id == QLL_TEXT_STORE_NO_CONNECTION) {
        refusing.refusal = QLL_REFUSAL_STORE_AWAY;
    }
    qll_reply_refuse(reply, &refusing, language, arena);
}

void qll_reply_refuse_found(qll_http_reply *reply, qll_refusal refusal, const qll_problems *found,
                            qll_language language, qll_arena *arena)
{
    const qll_wording wording = {.language = language};
    qll_problem problems[QLL_PROBLEMS_KEPT];
    for (size_t i = 0; i < found->kept_count; i++) {
        problems[i] = qll_wording_problem(arena, &wording, &found->kept[i]);
    }
    qll_reply_refuse(reply,
                     &(qll_refusing){.refusal = refusal,
                                     .problems = problems,
                                     .problem_count = found->kept_count},
                     language, arena);
}

bool qll_exchange_reply_json(qll_exchange *exchange, int status, qll_writer *writer)
{
    qll_write(writer, "\n");
    exchange->reply.status = status;
    exchange->reply.type = "application/json";
    exchange->reply.body = qll_writer_text(writer);
    return true;
}

const char *qll_reply_type(qll_form form)
{
    switch (form) {
    case QLL_FORM_JSON: return "application/json";
    case QLL_FORM_HTML: return "text/html; charset=utf-8";
    case QLL_FORM_SVG: return "image/svg+xml";
    case QLL_FORM_SCHEMA: return "application/schema+json";
    case QLL_FORM_TEXT: break;
    }
    return "text/plain; charset=utf-8";
}
