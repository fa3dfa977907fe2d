/* Work shared out among the processors. */
#ifndef QUELL_HOST_WORKERS_H
#define QUELL_HOST_WORKERS_H

#include <stddef.h>

/** Does the work called @p index; several run at once, each index once. */
typedef void qll_work(void *context, size_t index);

/** Does @p count works, on as many threads as there are processors (one at least), and comes back when all are done. Whoever is asked
 * to stop (qll_host_is_stopped()) begins no further ones. */
void qll_host_share_out(size_t count, qll_work *work, void *context);

#endif
