/* Signals, and threads that are to leave the way free. */
#include "host/host.h"

#include <signal.h>
#include <stdatomic.h>
#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>

/* The one thing that outlives a call: a signal has no other way in. Other threads than the one that the signal meets look at it, too. */
static atomic_int is_stopped;
_Static_assert(ATOMIC_INT_LOCK_FREE == 2, "a handler may use it (C17, 7.14.1.1)");

static void note_stop(int signal)
{
    (void)signal;
    atomic_store(&is_stopped, 1);
}

void qll_host_heed_signals(void)
{
    /* Once only: who asks a second time means it. Nothing that waits is asked to wait on. */
    struct sigaction action = {.sa_handler = note_stop, .sa_flags = (int)SA_RESETHAND};
    (void)sigaction(SIGINT, &action, NULL);
    (void)sigaction(SIGTERM, &action, NULL);
    (void)sigaction(SIGHUP, &action, NULL);
    action.sa_handler = SIG_IGN;
    (void)sigaction(SIGXFSZ, &action, NULL); /* a write that is too large says so */
}

bool qll_host_is_stopped(void)
{
    return atomic_load(&is_stopped) != 0;
}

static sigset_t that_stop(void)
{
    sigset_t set;
    (void)sigemptyset(&set);
    (void)sigaddset(&set, SIGINT);
    (void)sigaddset(&set, SIGTERM);
    (void)sigaddset(&set, SIGHUP);
    return set;
}

void qll_host_hold_signals(void)
{
    const sigset_t held = that_stop();
    (void)pthread_sigmask(SIG_BLOCK, &held, NULL);
}

void qll_host_await_stop(void)
{
    const sigset_t held = that_stop();
    sigset_t before;
    (void)pthread_sigmask(SIG_BLOCK, &held, &before);
    sigset_t open = before;
    (void)sigdelset(&open, SIGINT);
    (void)sigdelset(&open, SIGTERM);
    (void)sigdelset(&open, SIGHUP);
    while (!qll_host_is_stopped()) {
        (void)sigsuspend(&open);
    }
    (void)pthread_sigmask(SIG_SETMASK, &before, NULL);
}

void qll_host_yield_way(void)
{
    /* Of Linux: a thread's own, where others have the process's. */
    const long thread = syscall(SYS_gettid);
    (void)setpriority(PRIO_PROCESS, (id_t)thread, 10);
}
