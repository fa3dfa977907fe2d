#include "host/system_says.h"

#include <string.h>

qll_status qll_system_failed(int error, qll_arena *arena, const char **why)
{
    const char *says = strerror(error);
    const char *copy = qll_arena_copy(arena, says, strlen(says));
    *why = copy == NULL ? "the system refuses" : copy;
    return QLL_IO;
}
