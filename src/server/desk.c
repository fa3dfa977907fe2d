#include "server/desk.h"

#include "host/host.h"
#include "server/handlers.h"
#include "server/reply.h"
#include "server/routes.h"

#include <math.h>
#include <string.h>

/* The exchange waits, and nobody but the desk touches it meanwhile. */
typedef struct desk_errand {
    qll_errand errand;
    qll_exchange *exchange;
} desk_errand;

static void work(qll_task *task)
{
    desk_errand *one = (desk_errand *)(void *)task;
    if (qll_desk_knows_mark(one->exchange)) {
        one->exchange->route->at_desk(one->exchange);
    }
    qll_errand_done(&one->errand);
}

static void reply_made(qll_errand *errand, qll_exchange *exchange)
{
    (void)errand;
    (void)exchange; /* it has its reply */
}

static void drop(qll_errand *errand)
{
    (void)errand; /* it lies in the exchange's arena */
}

bool qll_handle_records(qll_exchange *exchange)
{
    qll_server *server = exchange->server;
    if (server->at_desk == NULL) {
        return qll_exchange_refuse(exchange, QLL_REFUSAL_NO_STORE);
    }
    desk_errand *one = qll_arena_take(exchange->arena, 1, sizeof *one);
    if (one == NULL) {
        return qll_exchange_refuse(exchange, QLL_REFUSAL_NO_MEMORY);
    }
    *one = (desk_errand){.errand = {.task = {.work = work},
                                    .server = server,
                                    .waiter = exchange,
                                    .reply = reply_made,
                                    .drop = drop},
                         .exchange = exchange};
    qll_exchange_await(exchange, &one->errand, INFINITY);
    if (!qll_crew_take(server->clerk, &one->errand.task)) {
        exchange->errand = NULL;
        return qll_exchange_refuse(exchange, QLL_REFUSAL_BUSY);
    }
    return false;
}

bool qll_desk_is_well(qll_exchange *exchange, qll_status status, const qll_said *why)
{
    if (status != QLL_OK) {
        qll_reply_refuse_store(&exchange->reply, status, why, exchange->language, exchange->arena);
    }
    return status == QLL_OK;
}

qll_telling qll_desk_telling(const qll_exchange *exchange)
{
    const char *now = qll_host_created(exchange->arena);
    return (qll_telling){.form = QLL_FORM_JSON,
                         .units = qll_http_argument_of(&exchange->request, "units"),
                         .language = qll_language_words[exchange->language],
                         .today = qll_arena_copy(exchange->arena, now, strnlen(now, 10))};
}

void qll_desk_reply(qll_exchange *exchange, qll_status status, const qll_answer *answer)
{
    qll_http_reply *reply = &exchange->reply;
    if (status == QLL_NO_MEMORY) {
        (void)qll_exchange_refuse(exchange, QLL_REFUSAL_NO_MEMORY);
    } else if (answer->bytes == NULL) {
        (void)qll_exchange_refuse_with(exchange,
                                       &(qll_refusing){.refusal = QLL_REFUSAL_QUESTION,
                                                       .problems = answer->problems,
                                                       .problem_count = answer->problem_count});
    } else {
        reply->status = 200;
        reply->type = "application/json";
        reply->body = (qll_text){answer->bytes, answer->size};
    }
}

bool qll_desk_number(qll_exchange *exchange, const char *name, long long otherwise,
                     long long *number)
{
    const char *word = qll_http_argument_of(&exchange->request, name);
    *number = otherwise;
    if (word == NULL) {
        return true;
    }
    const size_t digits = strlen(word);
    bool is_number = digits > 0 && digits <= 18;
    *number = 0;
    for (size_t i = 0; i < digits && is_number; i++) {
        is_number = qll_is_digit(word[i]);
        *number = 10 * *number + (word[i] - '0');
    }
    if (!is_number) {
        (void)qll_exchange_refuse_with(exchange, &(qll_refusing){.refusal = QLL_REFUSAL_ARGUMENT,
                                                                 .arguments = {qll_as_is(name)}});
    }
    return is_number;
}
