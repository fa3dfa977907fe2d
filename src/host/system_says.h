/* What the system says of a failure. */
#ifndef QUELL_HOST_SYSTEM_SAYS_H
#define QUELL_HOST_SYSTEM_SAYS_H

#include "quell/arena.h"
#include "quell/problems.h"

/** Puts the system's words for @p error (an errno) into @p why, in @p arena. Always QLL_IO. */
QLL_MUST_USE qll_status qll_system_failed(int error, qll_arena *arena, const char **why);

#endif
