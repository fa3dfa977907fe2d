/* Records: keeping one, and handing out what came. */
#include "base/document.h"
#include "documents/write_records.h"
#include "server/desk.h"
#include "server/handlers.h"
#include "server/limits.h"
#include "server/reply.h"

#include <string.h>

/* So many records at once, and no more bytes of them than that but for one. */
static const long long changes_most = 500;
static const size_t changes_size = (size_t)4 * 1024 * 1024;

/* ---- keeping one ---- */

/* The record in the body; false after a reply that says why it is none that may be kept. */
static bool read_record(qll_exchange *exchange, qll_record *record)
{
    const qll_input input = {"record", exchange->request.body.bytes, exchange->request.body.size};
    qll_answer answer = {0};
    const qll_status status =
        qll_record_read(exchange->server->tables, &input, qll_language_words[exchange->language],
                        exchange->arena, record, &answer);
    if (status != QLL_OK) {
        return !qll_exchange_refuse_with(
            exchange, &(qll_refusing){.refusal = status == QLL_NO_MEMORY ? QLL_REFUSAL_NO_MEMORY
                                                                         : QLL_REFUSAL_RECORD,
                                      .problems = answer.problems,
                                      .problem_count = answer.problem_count});
    }
    if (strcmp(record->id, exchange->rest) != 0) {
        return !qll_exchange_refuse_with(
            exchange, &(qll_refusing){.refusal = QLL_REFUSAL_RECORD_ID,
                                      .arguments = {qll_as_quoted(qll_text_of(record->id))}});
    }
    if (exchange->who != NULL && strcmp(record->who, exchange->who) != 0) {
        return !qll_exchange_refuse_with(
            exchange, &(qll_refusing){.refusal = QLL_REFUSAL_RECORD_WHO,
                                      .arguments = {qll_as_quoted(qll_text_of(record->who)),
                                                    qll_as_quoted(qll_text_of(exchange->who))}});
    }
    return true;
}

static bool names(const qll_record *record, qll_text id)
{
    size_t at = 0;
    while (at < record->parent_count && !qll_text_is(id, record->parents[at])) {
        at += 1;
    }
    return at < record->parent_count;
}

/* If-Match names the versions that this one comes from, "id", "id": what the writer saw, said where HTTP has it (RFC 9110,
 * 13.1.1), and the same as in the record. */
static bool check_match(qll_exchange *exchange, const qll_record *record)
{
    const char *match = qll_http_field_of(&exchange->request, "if-match");
    if (record->parent_count == 0) {
        return match == NULL || !qll_exchange_refuse(exchange, QLL_REFUSAL_RECORD_PARENTS);
    }
    if (match == NULL) {
        return !qll_exchange_refuse(exchange, QLL_REFUSAL_RECORD_MATCH);
    }
    size_t count = 0;
    bool is_same = true;
    while (match[0] != '\0' && is_same) {
        match += strspn(match, " ,\t");
        const char *close = match[0] == '"' ? strchr(match + 1, '"') : NULL;
        if (close == NULL) {
            is_same = match[0] == '\0';
            break;
        }
        is_same = names(record, (qll_text){match + 1, (size_t)(close - match) - 1});
        count += 1;
        match = close + 1;
    }
    return (is_same && count == record->parent_count)
           || !qll_exchange_refuse(exchange, QLL_REFUSAL_RECORD_PARENTS);
}

/* It is kept beside the others, and whoever sent it is told that they stand, with all of them. */
static void reply_conflict(qll_exchange *exchange, const qll_record *record, const qll_put *put,
                           const char *mark)
{
    qll_arena *arena = exchange->arena;
    const qll_wording wording = {.language = exchange->language};
    const qll_said says = {QLL_TEXT_REPLY_CONFLICT, {qll_as_whole(put->head_count)}};
    qll_records heads = {0};
    qll_said why;
    const qll_status status =
        qll_store_heads(exchange->server->at_desk, record->document, arena, &heads, &why);
    if (!qll_desk_is_well(exchange, status, &why)) {
        return;
    }
    qll_writer writer = qll_writer_new(arena);
    qll_json json = qll_json_new(&writer);
    qll_json_open_object(&json);
    qll_json_put_text(&json, "type", "about:blank");
    qll_json_put_text(&json, "title", qll_http_reason(412));
    qll_json_put_whole(&json, "status", 412);
    qll_json_put_text(&json, "code", "conflict");
    qll_json_put_text(&json, "detail", qll_said_text(arena, &wording, &says));
    qll_json_put_whole(&json, "receipt", put->receipt);
    qll_json_put_text(&json, "mark", mark);
    qll_json_put_list(&json, "versions");
    for (size_t i = 0; i < heads.count; i++) {
        qll_json_text(&json, heads.list[i].id);
    }
    qll_json_close_list(&json);
    qll_json_close_object(&json);
    (void)qll_exchange_reply_json(exchange, 412, &writer);
    exchange->reply.type = "application/problem+json";
}

static void reply_kept(qll_exchange *exchange, const qll_put *put, const char *mark)
{
    qll_writer writer = qll_writer_new(exchange->arena);
    qll_json json = qll_json_new(&writer);
    qll_json_open_object(&json);
    qll_json_put_text(&json, "quell", "kept/1");
    qll_json_put_whole(&json, "receipt", put->receipt);
    qll_json_put_text(&json, "mark", mark);
    qll_json_close_object(&json);
    (void)qll_exchange_reply_json(exchange, put->outcome == QLL_PUT_NEW ? 201 : 200, &writer);
}

void qll_desk_put_record(qll_exchange *exchange)
{
    qll_record record;
    qll_put put;
    qll_said why;
    if (!read_record(exchange, &record) || !check_match(exchange, &record)) {
        return;
    }
    const qll_status status = qll_store_put(exchange->server->at_desk, &record, 1, QLL_PUT_BESIDE,
                                            exchange->arena, &put, &why);
    if (!qll_desk_is_well(exchange, status, &why)) {
        return;
    }
    if (put.outcome == QLL_PUT_REFUSED) {
        (void)qll_exchange_refuse_with(
            exchange, &(qll_refusing){.refusal = QLL_REFUSAL_RECORD_OTHER,
                                      .arguments = {qll_as_said(exchange->arena, put.why)}});
        return;
    }
    const char *mark = qll_desk_mark(exchange, put.receipt);
    if (mark != NULL && record.document != NULL && put.head_count > 1) {
        reply_conflict(exchange, &record, &put, mark);
    } else if (mark != NULL) {
        reply_kept(exchange, &put, mark);
    }
}

/* ---- handing out ---- */

/* The member @p key with records as they were sent, each with its receipt. */
static void put_records(qll_json *json, const char *key, const qll_records *records, size_t count)
{
    qll_json_put_list(json, key);
    for (size_t i = 0; i < count; i++) {
        qll_writer one = qll_writer_new(json->writer->arena);
        qll_record_json(&one, &records->list[i], true);
        qll_json_literal(json, qll_text_trimmed(qll_writer_text(&one)));
    }
    qll_json_close_list(json);
}

static void reply_records(qll_exchange *exchange, const char *name, const qll_records *records)
{
    qll_writer writer = qll_writer_new(exchange->arena);
    qll_json json = qll_json_new(&writer);
    qll_json_open_object(&json);
    qll_json_put_text(&json, "quell", name);
    put_records(&json, "records", records, records->count);
    qll_json_close_object(&json);
    (void)qll_exchange_reply_json(exchange, 200, &writer);
}

void qll_desk_get_record(qll_exchange *exchange)
{
    qll_records found = {0};
    qll_said why;
    const qll_status status =
        qll_store_get(exchange->server->at_desk, exchange->rest, exchange->arena, &found, &why);
    if (!qll_desk_is_well(exchange, status, &why)) {
        return;
    }
    if (found.count == 0) {
        (void)qll_exchange_refuse(exchange, QLL_REFUSAL_NO_RECORD);
        return;
    }
    qll_writer writer = qll_writer_new(exchange->arena);
    qll_record_json(&writer, &found.list[0], true);
    (void)qll_exchange_reply_json(exchange, 200, &writer);
}

void qll_desk_get_document(qll_exchange *exchange)
{
    qll_records heads = {0};
    qll_said why;
    const qll_status status =
        qll_store_heads(exchange->server->at_desk, exchange->rest, exchange->arena, &heads, &why);
    if (!qll_desk_is_well(exchange, status, &why)) {
        return;
    }
    if (heads.count == 0) {
        (void)qll_exchange_refuse(exchange, QLL_REFUSAL_NO_RECORD);
    } else {
        reply_records(exchange, "versions/1", &heads);
    }
}

/* So many of them as fit into a reply; one at least. */
static size_t fitting(const qll_records *records)
{
    size_t count = 0;
    size_t size = 0;
    while (count < records->count && (count == 0 || size < changes_size)) {
        size += records->list[count].body.size;
        count += 1;
    }
    return count > 1 && size > changes_size ? count - 1 : count;
}

void qll_desk_list_changes(qll_exchange *exchange)
{
    long long since = 0;
    long long most = 0;
    qll_records found = {0};
    qll_said why;
    if (!qll_desk_number(exchange, "since", 0, &since)
        || !qll_desk_number(exchange, "most", changes_most, &most)) {
        return;
    }
    most = most < 1 || most > changes_most ? changes_most : most;
    const qll_status status = qll_store_changes(exchange->server->at_desk, since, (size_t)most,
                                                exchange->arena, &found, &why);
    if (!qll_desk_is_well(exchange, status, &why)) {
        return;
    }
    const size_t count = fitting(&found);
    /* Where to go on. */
    const long long receipt = count == 0 ? since : found.list[count - 1].receipt;
    const char *mark = qll_desk_mark(exchange, receipt);
    if (mark == NULL) {
        return;
    }
    if (mark[0] == '\0') {
        (void)qll_exchange_refuse(exchange, QLL_REFUSAL_OTHER_STORE);
        return;
    }
    qll_writer writer = qll_writer_new(exchange->arena);
    qll_json json = qll_json_new(&writer);
    qll_json_open_object(&json);
    qll_json_put_text(&json, "quell", "changes/1");
    put_records(&json, "records", &found, count);
    qll_json_put_whole(&json, "receipt", receipt);
    qll_json_put_text(&json, "mark", mark);
    qll_json_put_bool(&json, "more", count < found.count || (long long)count == most);
    qll_json_close_object(&json);
    (void)qll_exchange_reply_json(exchange, 200, &writer);
}
