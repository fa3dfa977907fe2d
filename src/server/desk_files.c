/* Photos, sounds and logs: parts that come and go, each with its place (RFC 9110, 14), called by the SHA-256 of all of it. */
#include "base/document.h"
#include "server/desk.h"
#include "server/handlers.h"
#include "server/reply.h"

#include <string.h>

/* ---- places ---- */

/* Takes the digits at @p *at, as a number; false where there are none, or too many. */
static bool take_number(const char **at, uint64_t *number)
{
    size_t digits = 0;
    *number = 0;
    while (qll_is_digit((*at)[digits]) && digits < 18) {
        *number = 10 * *number + (uint64_t)((*at)[digits] - '0');
        digits += 1;
    }
    *at += digits;
    return digits > 0;
}

static bool take_word(const char **at, const char *word)
{
    const size_t size = strlen(word);
    const bool is_there = strncmp(*at, word, size) == 0;
    *at += is_there ? size : 0;
    return is_there;
}

/* "bytes 0-1048575/4194304", and as many bytes as that. */
static bool read_place(const qll_http_request *request, qll_store_part *part)
{
    const char *at = qll_http_field_of(request, "content-range");
    uint64_t last = 0;
    return at != NULL && take_word(&at, "bytes ") && take_number(&at, &part->begins)
           && take_word(&at, "-") && take_number(&at, &last) && take_word(&at, "/")
           && take_number(&at, &part->size) && at[0] == '\0' && last >= part->begins
           && last < part->size && last - part->begins + 1 == request->body.size;
}

/* ---- parts ---- */

static void reply_held(qll_exchange *exchange, const qll_store_held *held)
{
    const char *mark = held->is_whole ? qll_desk_mark_of_attachment(exchange) : "";
    if (mark == NULL) {
        return;
    }
    qll_writer writer = qll_writer_new(exchange->arena);
    qll_json json = qll_json_new(&writer);
    qll_json_open_object(&json);
    qll_json_put_text(&json, "quell", "held/1");
    qll_json_put_whole(&json, "size", (long long)held->size);
    qll_json_put_whole(&json, "held", (long long)held->held);
    qll_json_put_bool(&json, "whole", held->is_whole);
    if (held->is_whole) {
        qll_json_put_text(&json, "mark", mark);
    }
    qll_json_close_object(&json);
    (void)qll_exchange_reply_json(exchange, 200, &writer);
}

void qll_desk_put_part(qll_exchange *exchange)
{
    qll_store_part part = {.sha256 = exchange->rest, .bytes = exchange->request.body};
    qll_store_held held = {0};
    qll_said why;
    if (!read_place(&exchange->request, &part)) {
        (void)qll_exchange_refuse(exchange, QLL_REFUSAL_PART);
        return;
    }
    const qll_status status = qll_store_put_part(exchange->server->at_desk, &part, &held, &why);
    if (status == QLL_REFUSED) {
        (void)qll_exchange_refuse_with(
            exchange, &(qll_refusing){.refusal = QLL_REFUSAL_PART_REFUSED,
                                      .arguments = {qll_as_said(exchange->arena, why)}});
    } else if (qll_desk_is_well(exchange, status, &why)) {
        reply_held(exchange, &held);
    }
}

void qll_desk_get_held(qll_exchange *exchange)
{
    qll_store_held held = {0};
    qll_said why;
    const qll_status status =
        qll_store_attachment(exchange->server->at_desk, exchange->rest, &held, &why);
    if (qll_desk_is_well(exchange, status, &why)) {
        reply_held(exchange, &held);
    }
}

/* From where on it is asked for: Range: bytes=N-, whose end counts for nothing, as a part is no longer than it may be. */
static bool read_range(const qll_http_request *request, uint64_t size, uint64_t *begins)
{
    const char *at = qll_http_field_of(request, "range");
    *begins = 0;
    if (at == NULL) {
        return size <= QLL_STORE_PART_SIZE;
    }
    return take_word(&at, "bytes=") && take_number(&at, begins) && take_word(&at, "-")
           && *begins < size;
}

void qll_desk_get_part(qll_exchange *exchange)
{
    qll_store *store = exchange->server->at_desk;
    qll_arena *arena = exchange->arena;
    qll_store_held held = {0};
    qll_said why;
    qll_text bytes = {0};
    uint64_t begins = 0;
    qll_status status = qll_store_attachment(store, exchange->rest, &held, &why);
    if (!qll_desk_is_well(exchange, status, &why)) {
        return;
    }
    if (!held.is_whole) {
        (void)qll_exchange_refuse(exchange, QLL_REFUSAL_NO_RECORD);
        return;
    }
    if (!read_range(&exchange->request, held.size, &begins)) {
        (void)qll_exchange_refuse(exchange, QLL_REFUSAL_RANGE);
        return;
    }
    status = qll_store_read_attachment(store, exchange->rest, begins, arena, &bytes, &why);
    if (!qll_desk_is_well(exchange, status, &why)) {
        return;
    }
    qll_http_reply *reply = &exchange->reply;
    const bool is_part = qll_http_field_of(&exchange->request, "range") != NULL;
    qll_writer range = qll_writer_new(arena);
    qll_write_format(&range, "bytes %zu-%zu/%zu", (size_t)begins, (size_t)begins + bytes.size - 1,
                     (size_t)held.size);
    reply->status = is_part ? 206 : 200;
    /* Whoever opens it as a page gets nothing that could run. */
    reply->type = "application/octet-stream";
    reply->body = bytes;
    if (is_part) {
        qll_http_reply_field(reply, "Content-Range", qll_writer_text(&range).bytes);
    }
}
