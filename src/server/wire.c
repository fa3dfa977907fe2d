#include "server/wire.h"

#include "host/host.h"
#include "server/limits.h"

#include <sys/socket.h>
#include <time.h>

/* How often they are looked at. */
static const double round_s = 1.0;

bool qll_wires_open(qll_wires *wires, qll_arena *arena)
{
    *wires = (qll_wires){.all = qll_arena_take(arena, QLL_CONNECTIONS_MOST, sizeof *wires->all)};
    for (size_t i = 0; wires->all != NULL && i < QLL_CONNECTIONS_MOST; i++) {
        wires->all[i].next = wires->free;
        wires->free = &wires->all[i];
    }
    (void)pthread_mutex_init(&wires->lock, NULL);
    pthread_condattr_t attributes;
    (void)pthread_condattr_init(&attributes);
    (void)pthread_condattr_setclock(&attributes, CLOCK_MONOTONIC);
    (void)pthread_cond_init(&wires->change, &attributes);
    (void)pthread_condattr_destroy(&attributes);
    return wires->all != NULL;
}

static bool is_too_slow(const qll_wire *wire, double now_s)
{
    const double took_s = now_s - wire->since_s;
    return (wire->state == QLL_WIRE_TAKES && took_s > QLL_RECEIVE_S)
           || (wire->state == QLL_WIRE_SENDS && took_s > QLL_SEND_S);
}

static void wait_a_round(qll_wires *wires, double seconds)
{
    struct timespec until = {0};
    (void)clock_gettime(CLOCK_MONOTONIC, &until);
    until.tv_nsec += (long)(seconds * 1e9);
    until.tv_sec += until.tv_nsec / 1000000000L;
    until.tv_nsec %= 1000000000L;
    (void)pthread_cond_timedwait(&wires->change, &wires->lock, &until);
}

static void *watch(void *context)
{
    qll_wires *wires = context;
    (void)pthread_mutex_lock(&wires->lock);
    while (!wires->is_closing) {
        if (wires->count == 0) {
            (void)pthread_cond_wait(&wires->change, &wires->lock);
            continue;
        }
        const double now_s = qll_host_now_s();
        for (size_t i = 0; i < QLL_CONNECTIONS_MOST; i++) {
            /* Under the lock the descriptor is still that of this connection; the library sees its end, and closes it. */
            if (is_too_slow(&wires->all[i], now_s)) {
                (void)shutdown(wires->all[i].descriptor, SHUT_RDWR);
            }
        }
        wait_a_round(wires, round_s);
    }
    (void)pthread_mutex_unlock(&wires->lock);
    return NULL;
}

bool qll_wires_begin(qll_wires *wires)
{
    wires->has_warden = pthread_create(&wires->warden, NULL, watch, wires) == 0;
    return wires->has_warden;
}

qll_wire *qll_wire_opened(qll_wires *wires, int descriptor)
{
    (void)pthread_mutex_lock(&wires->lock);
    qll_wire *wire = wires->free;
    if (wire != NULL) {
        wires->free = wire->next;
        *wire = (qll_wire){
            .descriptor = descriptor, .state = QLL_WIRE_TAKES, .since_s = qll_host_now_s()};
        wires->count += 1;
        if (wires->count == 1) {
            (void)pthread_cond_signal(&wires->change);
        }
    }
    (void)pthread_mutex_unlock(&wires->lock);
    return wire;
}

void qll_wire_now(qll_wires *wires, qll_wire *wire, qll_wire_state state)
{
    if (wire == NULL) {
        return;
    }
    (void)pthread_mutex_lock(&wires->lock);
    wire->state = state;
    wire->since_s = qll_host_now_s();
    (void)pthread_mutex_unlock(&wires->lock);
}

void qll_wire_closed(qll_wires *wires, qll_wire *wire)
{
    if (wire == NULL) {
        return;
    }
    (void)pthread_mutex_lock(&wires->lock);
    wire->state = QLL_WIRE_FREE;
    wire->next = wires->free;
    wires->free = wire;
    wires->count -= 1;
    (void)pthread_mutex_unlock(&wires->lock);
}

static bool is_busy(const qll_wires *wires)
{
    for (size_t i = 0; i < QLL_CONNECTIONS_MOST; i++) {
        const qll_wire_state state = wires->all[i].state;
        if (state == QLL_WIRE_WORKS || state == QLL_WIRE_SENDS) {
            return true;
        }
    }
    return false;
}

void qll_wires_settle(qll_wires *wires, double most_s)
{
    const double until_s = qll_host_now_s() + most_s;
    (void)pthread_mutex_lock(&wires->lock);
    while (is_busy(wires) && qll_host_now_s() < until_s) {
        wait_a_round(wires, 0.02);
    }
    (void)pthread_mutex_unlock(&wires->lock);
}

void qll_wires_close(qll_wires *wires)
{
    (void)pthread_mutex_lock(&wires->lock);
    wires->is_closing = true;
    (void)pthread_cond_broadcast(&wires->change);
    (void)pthread_mutex_unlock(&wires->lock);
    if (wires->has_warden) {
        (void)pthread_join(wires->warden, NULL);
    }
    (void)pthread_cond_destroy(&wires->change);
    (void)pthread_mutex_destroy(&wires->lock);
}
