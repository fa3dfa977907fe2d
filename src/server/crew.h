/* Threads that work through a queue, beside the one that talks to the network. */
#ifndef QUELL_SERVER_CREW_H
#define QUELL_SERVER_CREW_H

#include "quell/problems.h"

typedef struct qll_crew qll_crew;
typedef struct qll_task qll_task;

/** What is to be done, at the front of what is needed for it. */
struct qll_task {
    void (*work)(qll_task *task); /* on a thread of the crew, and the last that touches it there */
    qll_task *next;
};

/**
 * Starts @p thread_count threads.
 *
 * @param waiting_most  so many tasks may wait beside those that are worked on
 * @param yields        the threads leave the way free to all others of the machine
 * @return NULL where the system gives no thread or no memory; else to be closed by qll_crew_close()
 */
qll_crew *qll_crew_open(size_t thread_count, size_t waiting_most, bool yields);

/** Puts @p task into the queue; false where it is full. */
bool qll_crew_take(qll_crew *crew, qll_task *task);

/** How many tasks are worked on, and how many wait. */
void qll_crew_count(qll_crew *crew, size_t *working, size_t *waiting);

/** Takes no more, works through what is in the queue, and ends the threads. NULL and twice are harmless. */
void qll_crew_stop(qll_crew *crew);

/** Stops it and gives it back. NULL is harmless. */
void qll_crew_close(qll_crew *crew);

#endif
