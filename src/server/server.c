#include "server/server.h"

#include "host/host.h"
#include "server/limits.h"
#include "server/openapi.h"

#include <math.h>
#include <time.h>

/* Of the server itself: the page is not in it, the description is. */
static const size_t server_size = (size_t)64 * 1024 * 1024;

/* ---- the clock: wakes who has waited long enough, throws away what was kept long enough ---- */

/* Waits until @p until_s, or something changes. */
static void wait_until(qll_server *server, double until_s)
{
    if (isinf(until_s)) {
        (void)pthread_cond_wait(&server->change, &server->lock);
        return;
    }
    const double whole = floor(until_s);
    const struct timespec until = {.tv_sec = (time_t)whole,
                                   .tv_nsec = (long)((until_s - whole) * 1e9)};
    (void)pthread_cond_timedwait(&server->change, &server->lock, &until);
}

static void *keep_time(void *context)
{
    qll_server *server = context;
    (void)pthread_mutex_lock(&server->lock);
    while (!server->is_stopping) {
        qll_engine_run *dropped = NULL;
        const double now_s = qll_host_now_s();
        const double late_s = qll_exchange_wake_late(server, now_s);
        const double old_s = qll_runs_sweep(&server->runs, now_s, &dropped);
        if (dropped != NULL) {
            (void)pthread_mutex_unlock(&server->lock);
            qll_runs_free(dropped);
            (void)pthread_mutex_lock(&server->lock);
            continue;
        }
        wait_until(server, late_s < old_s ? late_s : old_s);
    }
    (void)pthread_mutex_unlock(&server->lock);
    return NULL;
}

static void begin_lock(qll_server *server)
{
    pthread_condattr_t attributes;
    (void)pthread_mutex_init(&server->lock, NULL);
    (void)pthread_mutex_init(&server->paper, NULL);
    (void)pthread_condattr_init(&attributes);
    (void)pthread_condattr_setclock(&attributes, CLOCK_MONOTONIC); /* as qll_host_now_s() */
    (void)pthread_cond_init(&server->change, &attributes);
    (void)pthread_condattr_destroy(&attributes);
}

/* ---- open and close ---- */

/* The store, twice, as a handle serves one thread at a time; and whether there is anybody who could log in. */
static qll_status open_store(qll_server *server, qll_arena *arena, qll_said *why)
{
    const char *const *names = NULL;
    size_t count = 0;
    if (server->plan.store == NULL) {
        return server->plan.must_login ? QLL_WRONG_USE : QLL_OK;
    }
    qll_status status =
        qll_store_open(server->plan.store, QLL_STORE_MAKE, arena, &server->at_desk, why);
    if (status == QLL_OK) {
        status = qll_store_open(server->plan.store, QLL_STORE_READ, arena, &server->at_door, why);
    }
    if (status == QLL_OK) {
        status = qll_store_people(server->at_door, arena, &names, &count, why);
    }
    server->needs_login = count > 0;
    server->tables = qll_record_tables_open(server->arena);
    if (status == QLL_OK && server->tables == NULL) {
        return QLL_NO_MEMORY;
    }
    return status == QLL_OK && server->plan.must_login && count == 0 ? QLL_WRONG_USE : status;
}

static bool open_crews(qll_server *server)
{
    server->engine = qll_crew_open(server->plan.runs_at_once, QLL_RUNS_WAITING, true);
    server->doorkeeper = qll_crew_open(1, QLL_LOGINS_WAITING, false);
    server->clerk = qll_crew_open(1, QLL_DESK_WAITING, false);
    server->has_clock = server->engine != NULL && server->doorkeeper != NULL
                        && server->clerk != NULL
                        && pthread_create(&server->clock, NULL, keep_time, server) == 0;
    return server->has_clock;
}

static qll_status begin(qll_server *server, qll_arena *arena, qll_said *why)
{
    if (!qll_secret_begin() || !qll_sessions_open(&server->sessions, server->arena)
        || !qll_tries_open(&server->tries, server->arena)
        || qll_openapi_make(server->arena, &server->description) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    const qll_status status = open_store(server, arena, why);
    if (status != QLL_OK) {
        return status;
    }
    if (server->needs_login && !qll_password_key(qll_text_of("nobody"), server->nobody)) {
        return QLL_NO_MEMORY;
    }
    return open_crews(server) ? QLL_OK : QLL_NO_MEMORY;
}

qll_status qll_server_open(const qll_server_plan *plan, qll_arena *arena, qll_server **server,
                           qll_said *why)
{
    qll_arena *own = qll_arena_open(server_size);
    qll_server *made = own == NULL ? NULL : qll_arena_take(own, 1, sizeof *made);
    *server = NULL;
    if (made == NULL) {
        qll_arena_close(own);
        return QLL_NO_MEMORY;
    }
    *made = (qll_server){.arena = own, .plan = *plan};
    begin_lock(made);
    *why = (qll_said){.id = QLL_TEXT_NONE};
    const qll_status status = begin(made, arena, why);
    if (status == QLL_OK) {
        *server = made;
    } else {
        qll_server_close(made);
    }
    return status;
}

void qll_server_stop(qll_server *server)
{
    (void)pthread_mutex_lock(&server->lock);
    server->is_stopping = true;
    (void)pthread_cond_signal(&server->change);
    (void)pthread_mutex_unlock(&server->lock);
    qll_crew_stop(server->engine);
    qll_crew_stop(server->doorkeeper);
    qll_crew_stop(server->clerk);
    if (server->has_clock) {
        (void)pthread_join(server->clock, NULL);
        server->has_clock = false;
    }
}

void qll_server_close(qll_server *server)
{
    if (server == NULL) {
        return;
    }
    qll_server_stop(server);
    qll_crew_close(server->engine);
    qll_crew_close(server->doorkeeper);
    qll_crew_close(server->clerk);
    qll_store_close(server->at_door);
    qll_store_close(server->at_desk);
    qll_runs_free(server->runs.first);
    (void)pthread_cond_destroy(&server->change);
    (void)pthread_mutex_destroy(&server->lock);
    (void)pthread_mutex_destroy(&server->paper);
    qll_arena_close(server->arena);
}
