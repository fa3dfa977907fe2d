#include "server/handlers.h"

#include "quell/quell.h"

#include "base/document.h"
#include "server/reply.h"
#include "server/routes.h"
#include "server/server.h"

#include <string.h>

bool qll_handle_question(qll_exchange *exchange)
{
    return qll_run_begin(exchange, exchange->route->asked);
}

bool qll_handle_rank(qll_exchange *exchange)
{
    return exchange->server->at_desk == NULL ? qll_exchange_refuse(exchange, QLL_REFUSAL_NO_STORE)
                                             : qll_handle_question(exchange);
}

bool qll_handle_run(qll_exchange *exchange)
{
    qll_run_show(exchange, exchange->rest);
    return true;
}

bool qll_handle_run_stop(qll_exchange *exchange)
{
    qll_run_stop(exchange, exchange->rest);
    return true;
}

bool qll_handle_health(qll_exchange *exchange)
{
    size_t working = 0;
    size_t waiting = 0;
    qll_crew_count(exchange->server->engine, &working, &waiting);
    qll_writer writer = qll_writer_new(exchange->arena);
    qll_json json = qll_json_new(&writer);
    qll_json_open_object(&json);
    qll_json_put_text(&json, "quell", "health/1");
    qll_json_put_text(&json, "version", qll_version());
    qll_json_put_whole(&json, "working", (long long)working);
    qll_json_put_whole(&json, "waiting", (long long)waiting);
    qll_json_close_object(&json);
    return qll_exchange_reply_json(exchange, 200, &writer);
}

/* Whether the browser unpacks Brotli: "gzip, deflate, br", but not "br;q=0" (RFC 9110 12.5.3). */
static bool takes_packed(const qll_http_request *request)
{
    const char *taken = qll_http_field_of(request, "accept-encoding");
    qll_text rest = qll_text_of(taken == NULL ? "" : taken);
    qll_text coding;
    while (qll_text_take_item(&rest, &coding)) {
        if (qll_http_same(coding, "br")) {
            return true;
        }
    }
    return false;
}

bool qll_handle_page(qll_exchange *exchange)
{
    const qll_page_file *file =
        qll_page_files_find(&exchange->server->plan.page, exchange->request.path);
    if (file == NULL) {
        return qll_exchange_refuse(exchange, QLL_REFUSAL_NOT_FOUND);
    }
    const bool is_packed = file->packed.size > 0 && takes_packed(&exchange->request);
    const char *tag = is_packed ? file->packed_tag : file->tag;
    const char *known = qll_http_field_of(&exchange->request, "if-none-match");
    qll_http_reply *reply = &exchange->reply;
    /* Asked for anew each time, so that a newer page is seen at once; what was not changed is not sent again. */
    qll_http_reply_field(reply, "Cache-Control", "no-cache");
    qll_http_reply_field(reply, "ETag", tag);
    if (file->packed.size > 0) {
        qll_http_reply_field(reply, "Vary", "Accept-Encoding");
    }
    reply->is_lasting = true;
    if (known != NULL && strstr(known, tag) != NULL) {
        reply->status = 304;
        return true;
    }
    reply->status = 200;
    reply->type = file->type;
    reply->body = is_packed ? file->packed : file->bytes;
    if (is_packed) {
        qll_http_reply_field(reply, "Content-Encoding", "br");
    }
    return true;
}
