#include "search/book.h"

#include <math.h>
#include <string.h>

qll_status qll_book_open(double keep, double known, qll_arena *arena, qll_book *book)
{
    *book = (qll_book){.keep = keep, .limit = known, .least = known};
    book->kinds = qll_arena_take(arena, QLL_KINDS_KEPT, sizeof *book->kinds);
    return book->kinds == NULL ? QLL_NO_MEMORY : QLL_OK;
}

static double cents(double money)
{
    return floor(100.0 * money + 0.5);
}

static size_t valve_count(const qll_whole *whole)
{
    size_t count = 0;
    for (size_t k = 0; k < whole->stage_count; k++) {
        count += whole->stages[k].count;
    }
    return count;
}

static int compare_counts(size_t a, size_t b)
{
    return (a > b) - (a < b);
}

static int compare_doubles(double a, double b)
{
    return (a > b) - (a < b);
}

/* By stages, valves, ids and set-points, the higher first. */
static int compare_parts(const qll_pool *pool, const qll_whole *a, const qll_whole *b)
{
    for (size_t k = 0; k < a->stage_count; k++) {
        const qll_pick *left = &a->stages[k];
        const qll_pick *right = &b->stages[k];
        int sign = compare_counts(left->count, right->count);
        for (size_t j = 0; j < left->count && sign == 0; j++) {
            sign = strcmp(pool->parts[left->part[j]].branch.valve->id,
                          pool->parts[right->part[j]].branch.valve->id);
        }
        for (size_t j = 0; j < left->count && sign == 0; j++) {
            sign = compare_doubles(right->set_pa_gauge[j], left->set_pa_gauge[j]);
        }
        if (sign != 0) {
            return sign;
        }
    }
    return 0;
}

bool qll_whole_before(const qll_pool *pool, const qll_whole *a, const qll_whole *b)
{
    int sign = compare_doubles(cents(a->expected), cents(b->expected));
    sign = sign != 0 ? sign : compare_counts(a->stage_count, b->stage_count);
    sign = sign != 0 ? sign : compare_counts(valve_count(a), valve_count(b));
    sign = sign != 0 ? sign : compare_doubles(cents(a->installed), cents(b->installed));
    sign = sign != 0 ? sign : compare_parts(pool, a, b);
    return sign < 0;
}

static bool is_same_kind(const qll_pool *pool, const qll_whole *a, const qll_whole *b)
{
    if (a->stage_count != b->stage_count) {
        return false;
    }
    for (size_t k = 0; k < a->stage_count; k++) {
        if (a->stages[k].count != b->stages[k].count) {
            return false;
        }
        for (size_t j = 0; j < a->stages[k].count; j++) {
            if (pool->parts[a->stages[k].part[j]].size != pool->parts[b->stages[k].part[j]].size) {
                return false;
            }
        }
    }
    return true;
}

/* Where a further kind goes: behind the last, or where the dearest stands if @p whole comes before it;
 * QLL_KINDS_KEPT if nowhere. */
static size_t place_of(const qll_book *book, const qll_pool *pool, const qll_whole *whole)
{
    if (book->count < QLL_KINDS_KEPT) {
        return book->count;
    }
    size_t dearest = 0;
    for (size_t i = 1; i < book->count; i++) {
        dearest = qll_whole_before(pool, &book->kinds[dearest], &book->kinds[i]) ? i : dearest;
    }
    return qll_whole_before(pool, whole, &book->kinds[dearest]) ? dearest : QLL_KINDS_KEPT;
}

void qll_book_put(qll_book *book, const qll_pool *pool, const qll_whole *whole)
{
    if (!(whole->expected < book->limit)) {
        return;
    }
    if (whole->expected < book->least) {
        book->least = whole->expected;
        /* What costs the same to the cent may still come first by its simplicity. */
        double within = book->keep * whole->expected;
        book->limit = fmin(book->limit, fmax(within, (cents(whole->expected) + 1.0) / 100.0));
    }
    for (size_t i = 0; i < book->count; i++) {
        if (is_same_kind(pool, &book->kinds[i], whole)) {
            if (qll_whole_before(pool, whole, &book->kinds[i])) {
                book->kinds[i] = *whole;
            }
            return;
        }
    }
    size_t at = place_of(book, pool, whole);
    if (at < QLL_KINDS_KEPT) {
        book->kinds[at] = *whole;
        book->count = at < book->count ? book->count : at + 1;
    }
}

qll_status qll_whole_station(const qll_whole *whole, const qll_pool *pool, qll_arena *arena,
                             qll_station *station)
{
    qll_stage *stages = qll_arena_take(arena, whole->stage_count, sizeof *stages);
    if (stages == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t k = 0; k < whole->stage_count; k++) {
        const qll_pick *pick = &whole->stages[k];
        qll_branch *branches = qll_arena_take(arena, pick->count, sizeof *branches);
        if (branches == NULL) {
            return QLL_NO_MEMORY;
        }
        for (size_t j = 0; j < pick->count; j++) {
            branches[j] = pool->parts[pick->part[j]].branch;
            branches[j].set_pa_gauge = pick->set_pa_gauge[j];
        }
        stages[k] = (qll_stage){.branches = branches,
                                .branch_count = pick->count,
                                .set_inlet_pa_gauge = whole->set_inlet_pa_gauge[k]};
    }
    *station = (qll_station){.stages = stages, .stage_count = whole->stage_count};
    return QLL_OK;
}
