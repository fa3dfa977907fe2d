#include "search/front.h"

#include <stdlib.h>

static int compare_cost(const void *left, const void *right)
{
    const qll_half *a = *(qll_half *const *)left;
    const qll_half *b = *(qll_half *const *)right;
    if (a->cost != b->cost) {
        return a->cost < b->cost ? -1 : 1;
    }
    return a->chance < b->chance ? -1 : a->chance > b->chance;
}

/* Whether nothing that a bound looks at speaks for @p other against @p one, which costs no more. */
static bool is_beaten(const qll_half *one, const qll_half *other)
{
    if (one->chance > other->chance || one->dearest > other->dearest
        || one->needs_pa > other->needs_pa || one->gives_pa < other->gives_pa) {
        return false;
    }
    bool all = true;
    for (size_t k = 0; k < QLL_NODES; k++) {
        all = all && one->survival[k] >= other->survival[k];
    }
    return all;
}

qll_status qll_front_put(qll_searching *searching, qll_halves *front, const qll_half *one)
{
    (void)qll_searching_looks(searching, 1 + front->count);
    for (size_t i = 0; i < front->count; i++) {
        if (is_beaten(&front->items[i], one)) {
            return QLL_OK;
        }
    }
    return qll_halves_put(front, one, searching->arena);
}

qll_status qll_halves_front(qll_searching *searching, const qll_halves *list, qll_halves *front)
{
    *front = (qll_halves){0};
    if (list->count == 0) {
        return QLL_OK;
    }
    const qll_half **order = qll_arena_take(searching->arena, list->count, sizeof(void *));
    if (order == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < list->count; i++) {
        order[i] = &list->items[i];
    }
    qsort(order, list->count, sizeof(void *), compare_cost);
    qll_status status = QLL_OK;
    for (size_t i = 0; i < list->count && status == QLL_OK && !searching->stopped; i++) {
        status = qll_front_put(searching, front, order[i]);
    }
    return status;
}
