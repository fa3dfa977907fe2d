#include "base/assumed.h"

qll_assumed qll_assumed_none(qll_arena *arena)
{
    return (qll_assumed){.arena = arena};
}

void qll_assumed_add(qll_assumed *assumed, qll_argument what, qll_argument value, qll_said why)
{
    for (const qll_assumption *one = assumed->first; one != NULL; one = one->next) {
        if (qll_argument_equal(&one->what, &what) && qll_argument_equal(&one->value, &value)) {
            return;
        }
    }
    qll_assumption *added = qll_arena_take(assumed->arena, 1, sizeof *added);
    if (added == NULL) {
        return;
    }
    *added = (qll_assumption){.what = what, .value = value, .why = why};
    if (assumed->last == NULL) {
        assumed->first = added;
    } else {
        assumed->last->next = added;
    }
    assumed->last = added;
}
