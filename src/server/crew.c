#include "server/crew.h"

#include "quell/arena.h"

#include "host/host.h"

#include <pthread.h>

struct qll_crew {
    qll_arena *arena;
    pthread_mutex_t lock;
    pthread_cond_t change;
    pthread_t *threads;
    size_t thread_count;
    qll_task *first, *last; /* in the queue */
    size_t waiting_count, waiting_most;
    size_t working_count;
    bool yields, is_closing;
};

/* The next task; NULL where there are no more and will be none. */
static qll_task *next_task(qll_crew *crew)
{
    (void)pthread_mutex_lock(&crew->lock);
    while (crew->first == NULL && !crew->is_closing) {
        (void)pthread_cond_wait(&crew->change, &crew->lock);
    }
    qll_task *task = crew->first;
    if (task != NULL) {
        crew->first = task->next;
        crew->last = crew->first == NULL ? NULL : crew->last;
        crew->waiting_count -= 1;
        crew->working_count += 1;
    }
    (void)pthread_mutex_unlock(&crew->lock);
    return task;
}

static void *labor(void *context)
{
    qll_crew *crew = context;
    if (crew->yields) {
        qll_host_yield_way();
    }
    for (qll_task *task = next_task(crew); task != NULL; task = next_task(crew)) {
        task->work(task);
        (void)pthread_mutex_lock(&crew->lock);
        crew->working_count -= 1;
        (void)pthread_mutex_unlock(&crew->lock);
    }
    return NULL;
}

qll_crew *qll_crew_open(size_t thread_count, size_t waiting_most, bool yields)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    qll_crew *crew = arena == NULL ? NULL : qll_arena_take(arena, 1, sizeof *crew);
    pthread_t *threads = crew == NULL ? NULL : qll_arena_take(arena, thread_count, sizeof *threads);
    if (threads == NULL) {
        qll_arena_close(arena);
        return NULL;
    }
    *crew = (qll_crew){
        .arena = arena, .threads = threads, .waiting_most = waiting_most, .yields = yields};
    (void)pthread_mutex_init(&crew->lock, NULL);
    (void)pthread_cond_init(&crew->change, NULL);
    for (size_t i = 0; i < thread_count; i++) {
        if (pthread_create(&threads[i], NULL, labor, crew) != 0) {
            qll_crew_close(crew);
            return NULL;
        }
        crew->thread_count += 1;
    }
    return crew;
}

bool qll_crew_take(qll_crew *crew, qll_task *task)
{
    (void)pthread_mutex_lock(&crew->lock);
    const bool has_room = !crew->is_closing && crew->waiting_count < crew->waiting_most;
    if (has_room) {
        task->next = NULL;
        if (crew->last == NULL) {
            crew->first = task;
        } else {
            crew->last->next = task;
        }
        crew->last = task;
        crew->waiting_count += 1;
        (void)pthread_cond_signal(&crew->change);
    }
    (void)pthread_mutex_unlock(&crew->lock);
    return has_room;
}

void qll_crew_count(qll_crew *crew, size_t *working, size_t *waiting)
{
    (void)pthread_mutex_lock(&crew->lock);
    *working = crew->working_count;
    *waiting = crew->waiting_count;
    (void)pthread_mutex_unlock(&crew->lock);
}

void qll_crew_stop(qll_crew *crew)
{
    if (crew == NULL) {
        return;
    }
    (void)pthread_mutex_lock(&crew->lock);
    crew->is_closing = true;
    (void)pthread_cond_broadcast(&crew->change);
    (void)pthread_mutex_unlock(&crew->lock);
    for (size_t i = 0; i < crew->thread_count; i++) {
        (void)pthread_join(crew->threads[i], NULL);
    }
    crew->thread_count = 0;
}

void qll_crew_close(qll_crew *crew)
{
    if (crew == NULL) {
        return;
    }
    qll_crew_stop(crew);
    (void)pthread_cond_destroy(&crew->change);
    (void)pthread_mutex_destroy(&crew->lock);
    qll_arena_close(crew->arena);
}
