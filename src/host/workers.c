#include "host/workers.h"

#include "host/host.h"

#include <pthread.h>
#include <stdatomic.h>
#include <unistd.h>

/* More processors than this gain little: each worker has memory of its own. */
#define QLL_WORKERS_MOST 64

typedef struct sharing {
    atomic_size_t next;
    size_t count;
    qll_work *work;
    void *context;
} sharing;

static void *work_on(void *context)
{
    sharing *all = context;
    for (;;) {
        const size_t index = atomic_fetch_add(&all->next, 1);
        if (index >= all->count || qll_host_is_stopped()) {
            return NULL;
        }
        all->work(all->context, index);
    }
}

void qll_host_share_out(size_t count, qll_work *work, void *context)
{
    pthread_t threads[QLL_WORKERS_MOST];
    sharing all = {.count = count, .work = work, .context = context};
    const long processors = sysconf(_SC_NPROCESSORS_ONLN);
    size_t wanted = processors < 1 ? 1 : (size_t)processors;
    wanted = wanted < QLL_WORKERS_MOST ? wanted : QLL_WORKERS_MOST;
    wanted = wanted < count ? wanted : count;
    size_t begun = 0;
    /* This thread works as well, so that a system that gives no other still does it all. */
    while (begun + 1 < wanted && pthread_create(&threads[begun], NULL, work_on, &all) == 0) {
        begun++;
    }
    (void)work_on(&all);
    for (size_t i = 0; i < begun; i++) {
        (void)pthread_join(threads[i], NULL);
    }
}
