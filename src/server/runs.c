#include "server/runs.h"

#include "quell/report.h"

#include "base/document.h"
#include "host/host.h"
#include "server/limits.h"
#include "server/question_body.h"
#include "server/reply.h"
#include "server/run_rank.h"
#include "server/server.h"
#include "server/verbs.h"
#include "wording/wording.h"

#include <math.h>
#include <string.h>

static qll_engine_run *run_of(qll_errand *errand)
{
    return (qll_engine_run *)(void *)errand;
}

static void lock(qll_server *server)
{
    (void)pthread_mutex_lock(&server->lock);
}

static void unlock(qll_server *server)
{
    (void)pthread_mutex_unlock(&server->lock);
}

/* ---- on a thread of the crew ---- */

static bool go_on(double share, void *context)
{
    qll_engine_run *run = context;
    qll_server *server = run->errand.server;
    lock(server);
    /* Several threads may tell of one run, and be late. */
    run->share = share > run->share ? share : run->share;
    const bool goes_on = !run->is_stopped && !server->is_stopping;
    unlock(server);
    return goes_on;
}

static qll_language language_of(const char *code, qll_language otherwise)
{
    int language = 0;
    while (language < QLL_LANGUAGE_COUNT
           && (code == NULL || strcmp(code, qll_language_words[language]) != 0)) {
        language += 1;
    }
    return language < QLL_LANGUAGE_COUNT ? (qll_language)language : otherwise;
}

static void refuse(qll_engine_run *run, qll_refusal refusal)
{
    qll_reply_refuse(&run->reply, &(qll_refusing){.refusal = refusal}, run->language, run->home);
}

static void reply_bytes(qll_engine_run *run, int status, const char *type, qll_text bytes)
{
    const char *kept = qll_arena_copy(run->home, bytes.bytes, bytes.size);
    run->reply.status = status;
    run->reply.type = type;
    run->reply.body = (qll_text){kept, bytes.size};
}

/* Sheets on paper, with the bytes of the command line. One thread at a time draws: what it leans on ends the program where there is no
 * memory for it, so that no more is asked for than was seen to be there. */
static qll_status print(qll_engine_run *run, const qll_question *question, qll_answer *answer)
{
    qll_server *server = run->errand.server;
    qll_made_report made;
    qll_status status = qll_make_report(question, QLL_SHEETS_PDF, run->work, &made, answer);
    if (status != QLL_OK) {
        return status;
    }
    qll_text bytes = {0};
    const char *why = "";
    (void)pthread_mutex_lock(&server->paper);
    /* Others may have drawn for a while. */
    status = go_on(1.0, run) ? server->plan.print(&made, run->work, &bytes, &why) : QLL_STOPPED;
    (void)pthread_mutex_unlock(&server->paper);
    if (status == QLL_OK) {
        reply_bytes(run, 200, "application/pdf", bytes);
    } else if (status == QLL_IO) {
        qll_reply_refuse(
            &run->reply,
            &(qll_refusing){.refusal = QLL_REFUSAL_PAPER, .arguments = {qll_as_is(why)}},
            run->language, run->home);
    }
    return status;
}

/* The answer's own bytes where there are some, as the command line prints them; else why there are none. */
static void reply_answer(qll_engine_run *run, qll_status status, qll_form form,
                         const qll_answer *answer)
{
    if (status == QLL_NO_MEMORY) {
        refuse(run, QLL_REFUSAL_NO_MEMORY);
        return;
    }
    if (status == QLL_STOPPED) {
        refuse(run, QLL_REFUSAL_STOPPED);
        return;
    }
    if (run->reply.status != 0) {
        return; /* by whom it was asked of */
    }
    if (answer->bytes == NULL) {
        qll_reply_refuse(&run->reply,
                         &(qll_refusing){.refusal = status == QLL_WRONG_USE ? QLL_REFUSAL_QUESTION
                                                                            : QLL_REFUSAL_DOCUMENTS,
                                         .problems = answer->problems,
                                         .problem_count = answer->problem_count},
                         run->language, run->home);
        return;
    }
    reply_bytes(run, status == QLL_OK ? 200 : 422, qll_reply_type(form),
                (qll_text){answer->bytes, answer->size});
}

/* Of the records; what the store says against it is the reply. */
static qll_status rank(qll_engine_run *run, const qll_question *question, qll_answer *answer)
{
    const qll_ranking_plan plan = {
        .telling = {.form = question->form,
                    .units = question->units,
                    .language = qll_language_words[run->language],
                    .today = question->date},
        .catalogue = question->catalogue,
        .progress = go_on,
        .progress_context = run,
    };
    qll_said why;
    const qll_status status =
        qll_run_rank(run->errand.server->plan.store, plan, run->work, answer, &why);
    if (why.id != QLL_TEXT_NONE) {
        qll_reply_refuse_store(&run->reply, status, &why, run->language, run->home);
    }
    return status;
}

static void ask(qll_engine_run *run)
{
    qll_question_body read;
    qll_problems problems = qll_problems_none(run->work);
    qll_status status = qll_question_body_read(run->body, run->asked, run->work, &read, &problems);
    run->language = language_of(read.question.language, run->language);
    if (status == QLL_REFUSED) {
        qll_reply_refuse_found(&run->reply, QLL_REFUSAL_QUESTION, &problems, run->language,
                               run->home);
    } else {
        qll_answer answer = {0};
        read.question.progress = go_on;
        read.question.progress_context = run;
        if (status == QLL_OK) {
            status = run->asked == QLL_ASKED_RANK ? rank(run, &read.question, &answer)
                     : read.on_paper              ? print(run, &read.question, &answer)
                                                  : qll_ask(&read.question, run->work, &answer);
        }
        reply_answer(run, status, read.question.form, &answer);
    }
    qll_question_body_close(&read);
    if (qll_arena_refused(run->home) > 0) {
        /* What there is of it lacks something; this fits into what is left or into nothing. */
        run->reply = (qll_http_reply){.status = 503};
    }
}

static void work(qll_task *task)
{
    qll_engine_run *run = (qll_engine_run *)(void *)task;
    qll_server *server = run->errand.server;
    lock(server);
    const bool is_stopped = run->is_stopped || server->is_stopping;
    unlock(server);
    if (is_stopped) {
        refuse(run, QLL_REFUSAL_STOPPED);
    } else {
        ask(run);
    }
    qll_arena_close(run->work);
    run->work = NULL;
    qll_engine_run *dropped = NULL;
    const double now_s = qll_host_now_s();
    lock(server);
    server->bodies_size -= run->reserved_size;
    run->share = 1.0;
    run->done_s = now_s;
    (void)qll_runs_sweep(&server->runs, now_s, &dropped);
    unlock(server);
    qll_runs_free(dropped);
    qll_errand_done(&run->errand);
}

/* ---- on the thread of the exchanges ---- */

/* Takes @p run out of the list, if it is there; under the lock. */
static void take_out(qll_runs *runs, const qll_engine_run *run)
{
    qll_engine_run **link = &runs->first;
    while (*link != NULL && *link != run) {
        link = &(*link)->next;
    }
    if (*link != NULL) {
        *link = run->next;
    }
}

static void drop(qll_errand *errand)
{
    qll_engine_run *run = run_of(errand);
    qll_server *server = errand->server;
    lock(server);
    take_out(&server->runs, run);
    unlock(server);
    run->next = NULL;
    qll_runs_free(run);
}

static void reply_run(qll_errand *errand, qll_exchange *exchange)
{
    qll_engine_run *run = run_of(errand);
    lock(errand->server);
    take_out(&errand->server->runs, run);
    unlock(errand->server);
    exchange->reply = run->reply;
}

static qll_engine_run *make(qll_exchange *exchange, unsigned asked)
{
    qll_arena *home = qll_arena_open(QLL_EXCHANGE_SIZE);
    qll_engine_run *run = home == NULL ? NULL : qll_arena_take(home, 1, sizeof *run);
    const char *who = run == NULL || exchange->who == NULL
                          ? NULL
                          : qll_arena_copy(home, exchange->who, strlen(exchange->who));
    if (run == NULL || (who == NULL && exchange->who != NULL)) {
        qll_arena_close(home);
        return NULL;
    }
    *run = (qll_engine_run){.errand = {.task = {.work = work},
                                       .server = exchange->server,
                                       .waiter = exchange,
                                       .reply = reply_run,
                                       .drop = drop},
                            .home = home,
                            .work = exchange->body_arena,
                            .reserved_size = exchange->reserved_size,
                            .who = who,
                            .asked = asked,
                            .body = exchange->request.body,
                            .language = exchange->language};
    qll_secret_token(run->id, sizeof run->id);
    exchange->body_arena = NULL;
    exchange->reserved_size = 0;
    return run;
}

/* Gives back one that no crew has taken; true where the server is being stopped. */
static bool unmake(qll_server *server, qll_engine_run *run)
{
    lock(server);
    const bool is_stopping = server->is_stopping;
    take_out(&server->runs, run);
    server->bodies_size -= run->reserved_size;
    unlock(server);
    qll_arena_close(run->work);
    drop(&run->errand);
    return is_stopping;
}

bool qll_run_begin(qll_exchange *exchange, unsigned asked)
{
    qll_server *server = exchange->server;
    qll_engine_run *run = make(exchange, asked);
    if (run == NULL) {
        return qll_exchange_refuse(exchange, QLL_REFUSAL_NO_MEMORY);
    }
    qll_writer at = qll_writer_new(exchange->arena);
    qll_write_format(&at, "/api/runs/%s", run->id);
    exchange->later = qll_writer_text(&at).bytes;
    lock(server);
    run->next = server->runs.first;
    server->runs.first = run;
    unlock(server);
    qll_exchange_await(exchange, &run->errand, qll_host_now_s() + server->plan.patience_s);
    if (qll_crew_take(server->engine, &run->errand.task)) {
        return false;
    }
    exchange->errand = NULL;
    const bool is_stopping = unmake(server, run);
    return qll_exchange_refuse(exchange, is_stopping ? QLL_REFUSAL_STOPPED : QLL_REFUSAL_BUSY);
}

static bool is_same_person(const char *a, const char *b)
{
    return a == NULL || b == NULL ? a == b : strcmp(a, b) == 0;
}

/* The run called @p id, if @p exchange may see it; under the lock. */
static qll_engine_run *find(const qll_exchange *exchange, const char *id)
{
    qll_engine_run *run = exchange->server->runs.first;
    while (run != NULL && (strcmp(run->id, id) != 0 || !is_same_person(run->who, exchange->who))) {
        run = run->next;
    }
    return run;
}

static void reply_share(qll_exchange *exchange, const char *id, double share)
{
    qll_writer writer = qll_writer_new(exchange->arena);
    qll_json json = qll_json_new(&writer);
    qll_json_open_object(&json);
    qll_json_put_text(&json, "quell", "run/1");
    qll_json_put_text(&json, "id", id);
    qll_json_put_number(&json, "share", share);
    qll_json_close_object(&json);
    (void)qll_exchange_reply_json(exchange, 202, &writer);
    qll_http_reply_field(&exchange->reply, "Retry-After", "1");
}

void qll_run_reply_later(qll_exchange *exchange)
{
    const char *id = strrchr(exchange->later, '/');
    reply_share(exchange, id == NULL ? "" : id + 1, 0.0);
    qll_http_reply_field(&exchange->reply, "Location", exchange->later);
}

/* Copies the answer, which others may fetch again, and which may be thrown away meanwhile. */
static void copy_reply(qll_exchange *exchange, const qll_engine_run *run)
{
    exchange->reply = run->reply;
    exchange->reply.body.bytes =
        qll_arena_copy(exchange->arena, run->reply.body.bytes == NULL ? "" : run->reply.body.bytes,
                       run->reply.body.size);
    exchange->reply.body.size = exchange->reply.body.bytes == NULL ? 0 : run->reply.body.size;
}

void qll_run_show(qll_exchange *exchange, const char *id)
{
    lock(exchange->server);
    const qll_engine_run *run = find(exchange, id);
    const bool is_done = run != NULL && run->errand.is_done;
    const double share = run == NULL ? 0.0 : run->share;
    if (is_done) {
        copy_reply(exchange, run);
    }
    unlock(exchange->server);
    if (run == NULL) {
        (void)qll_exchange_refuse(exchange, QLL_REFUSAL_NO_RUN);
    } else if (!is_done) {
        reply_share(exchange, id, share);
    }
}

void qll_run_stop(qll_exchange *exchange, const char *id)
{
    qll_server *server = exchange->server;
    lock(server);
    qll_engine_run *run = find(exchange, id);
    bool is_free = false;
    if (run != NULL) {
        take_out(&server->runs, run);
        run->is_stopped = true;
        run->errand.is_dropped = true;
        is_free = run->errand.is_done && run->errand.waiter == NULL;
    }
    unlock(server);
    if (is_free) {
        drop(&run->errand);
    }
    if (run == NULL) {
        (void)qll_exchange_refuse(exchange, QLL_REFUSAL_NO_RUN);
    } else {
        exchange->reply.status = 204;
    }
}

/* ---- what was kept ---- */

static bool is_kept(const qll_engine_run *run)
{
    return run->errand.is_done && run->errand.waiter == NULL;
}

double qll_runs_sweep(qll_runs *runs, double now_s, qll_engine_run **dropped)
{
    /* The list has the newest first, so those behind the most are the oldest. */
    double next_s = INFINITY;
    size_t count = 0;
    qll_engine_run **link = &runs->first;
    *dropped = NULL;
    while (*link != NULL) {
        qll_engine_run *run = *link;
        count += is_kept(run);
        if (is_kept(run) && (count > QLL_RUNS_KEPT || now_s - run->done_s >= QLL_KEPT_S)) {
            *link = run->next;
            run->next = *dropped;
            *dropped = run;
            continue;
        }
        if (is_kept(run) && run->done_s + QLL_KEPT_S < next_s) {
            next_s = run->done_s + QLL_KEPT_S;
        }
        link = &run->next;
    }
    return next_s;
}

void qll_runs_free(qll_engine_run *run)
{
    while (run != NULL) {
        qll_engine_run *next = run->next;
        qll_arena_close(run->home);
        run = next;
    }
}
