/* Who and where somebody is, and ids that nobody else makes. */
#ifndef QUELL_HOST_IDENTITY_H
#define QUELL_HOST_IDENTITY_H

#include "quell/arena.h"
#include "quell/problems.h"

/** A random UUID (RFC 9562, version 4), in @p arena; NULL where the system gives no random bytes, or without memory. */
const char *qll_host_uuid(qll_arena *arena);

/** Now, as this machine's clock and zone have it: "2026-11-20T21:40:00-07:00"; or the time that SOURCE_DATE_EPOCH names, in UTC. In
 * @p arena; NULL without memory. */
const char *qll_host_moment(qll_arena *arena);

/** The login name, in @p arena; NULL where there is none. */
const char *qll_host_user(qll_arena *arena);

/**
 * Where a file called @p name of this user's data lies: in $XDG_DATA_HOME/quell or ~/.local/share/quell, which is made where it is not there.
 *
 * @return in @p arena; NULL where the user has no home, or without memory
 */
const char *qll_host_data_file(const char *name, qll_arena *arena);

/** What the environment has under @p name; NULL where that is nothing. */
const char *qll_host_setting(const char *name);

#endif
