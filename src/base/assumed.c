#include "base/assumed.h"

#include <string.h>

qll_assumed qll_assumed_none(qll_arena *arena)
{
    return (qll_assumed){.arena = arena};
}

void qll_assumed_add(qll_assumed *assumed, const char *what, const char *value, const char *why)
{
    for (const qll_assumption *one = assumed->first; one != NULL; one = one->next) {
        if (strcmp(one->what, what) == 0 && strcmp(one->value, value) == 0) {
            return;
        }
    }
    qll_assumption *added = qll_arena_take(assumed->arena, 1, sizeof *added);
    if (added == NULL) {
        assumed->no_memory = true;
        return;
    }
    added->what = qll_text_closed(qll_text_of(what), assumed->arena);
    added->value = qll_text_closed(qll_text_of(value), assumed->arena);
    added->why = qll_text_closed(qll_text_of(why), assumed->arena);
    if (added->what == NULL || added->value == NULL || added->why == NULL) {
        assumed->no_memory = true;
        return;
    }
    if (assumed->last == NULL) {
        assumed->first = added;
    } else {
        assumed->last->next = added;
    }
    assumed->last = added;
}
