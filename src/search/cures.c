#include "base/count.h"
#include "search/curing.h"
#include "station/tank_size.h"

#include <math.h>
#include <string.h>

const char *const qll_cure_words[QLL_CURE_COUNT] = {
#define QLL_CURE_WORD(name, word) word,
    QLL_CURE_LIST(QLL_CURE_WORD)
#undef QLL_CURE_WORD
};

/* Everything out, and the station that would be built from nothing in its place. */
static qll_status cure_whole(qll_curing *curing)
{
    const double anyway = qll_cure_opened(curing);
    qll_search_options options = qll_search_options_default();
    options.kinds_most = 1;
    options.known = curing->as_is - anyway;
    options.progress = curing->given->progress;
    options.progress_context = curing->given->progress_context;
    options.told = curing->told;
    if (!(options.known > 0.0)) {
        return QLL_OK;
    }
    qll_search_result found;
    if (qll_search(curing->yardstick, curing->given->catalogue, &options, curing->arena, &found)
        != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    curing->is_stopped = curing->is_stopped || found.stopped;
    if (found.kind_count == 0 || !found.is_fit) {
        return QLL_OK;
    }
    curing->is_better = true;
    curing->best = (qll_cure){.kind = QLL_CURE_WHOLE,
                              .station = found.kinds[0].station,
                              .cost = found.kinds[0].cost,
                              .fitness = found.kinds[0].fitness};
    curing->best.cost.installed += anyway;
    curing->best.cost.expected += anyway;
    return QLL_OK;
}

static bool is_one_valve(const qll_valve *a, const qll_valve *b)
{
    return strcmp(a->id, b->id) == 0;
}

/* Puts a cure in its place; those without figures stay behind, in the order they come. The same valves
 * taken out and put in again are no other cure. */
static void put(qll_cures *found, qll_cure *cures, const qll_cure *cure)
{
    for (size_t i = 0; i < found->count; i++) {
        if (cure->kind == QLL_CURE_WHOLE
            && qll_station_is_like(&cures[i].station, &cure->station, is_one_valve)) {
            return;
        }
    }
    size_t at = found->count;
    while (at > 0 && cure->cost.expected < cures[at - 1].cost.expected) {
        cures[at] = cures[at - 1];
        at--;
    }
    cures[at] = *cure;
    found->count += 1;
}

/* What a verdict asks for; its chance is not computed. */
static void put_asked(const qll_cures_case *given, qll_cure_kind kind, const qll_verdict *verdict,
                      qll_cures *found, qll_cure *cures)
{
    qll_cure cure = {.kind = kind,
                     .station = *given->station,
                     .fitness = found->fitness,
                     .verdict = verdict,
                     .cost = {.installed = NAN,
                              .callback_share = NAN,
                              .callback = NAN,
                              .expected = NAN,
                              .rest_chance = NAN}};
    put(found, cures, &cure);
}

static void put_all_asked(const qll_cures_case *given, qll_cures *found, qll_cure *cures)
{
    for (size_t i = 0; i < given->assessment->verdict_count; i++) {
        const qll_verdict *verdict = &given->assessment->verdicts[i];
        bool wants_tank = verdict->finding == QLL_FINDING_EXPANSION_TANK_MISSING
                          || verdict->finding == QLL_FINDING_EXPANSION_TANK_SMALL;
        if (wants_tank && isfinite(qll_tank_sold_m3(verdict->value, given->units))) {
            put_asked(given, QLL_CURE_TANK, verdict, found, cures);
        } else if (verdict->finding == QLL_FINDING_STRAINER_EATS) {
            put_asked(given, QLL_CURE_STRAINER, verdict, found, cures);
        }
    }
}

static qll_status search_all(qll_curing *curing, qll_cures *found, qll_cure *cures)
{
    typedef qll_status search_kind(qll_curing *);
    static search_kind *const kinds[] = {qll_cure_settings, qll_cure_small_beside,
                                         qll_cure_smaller_valve, qll_cure_stage_before, cure_whole};
    const size_t count = QLL_COUNT(kinds);
    for (size_t i = 0; i < count; i++) {
        curing->is_better = false;
        curing->told = (double)i / (double)count;
        if (kinds[i](curing) != QLL_OK) {
            return QLL_NO_MEMORY;
        }
        if (!qll_curing_goes_on(curing)) {
            return QLL_STOPPED;
        }
        if (curing->is_better) {
            put(found, cures, &curing->best);
        }
    }
    return QLL_OK;
}

qll_status qll_cures_find(const qll_cures_case *given, qll_yardstick *yardstick, qll_arena *arena,
                          qll_cures *found)
{
    *found = (qll_cures){.count = 0};
    qll_curing curing = {.given = given, .yardstick = yardstick, .arena = arena};
    qll_cure *cures = qll_arena_take(arena, QLL_CURE_COUNT, sizeof *cures);
    if (cures == NULL
        || qll_station_measure(given->station, yardstick, arena, &found->now) != QLL_OK
        || qll_station_fitness(given->station, yardstick, arena, &found->fitness) != QLL_OK
        || qll_pool_make(yardstick, given->catalogue, false, arena, &curing.pool) != QLL_OK
        || qll_curing_room(&curing) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    found->now.installed = 0.0;
    found->now.expected = found->now.callback_share * found->now.callback;
    curing.as_is = found->fitness.is_fit ? found->now.expected : (double)INFINITY;
    qll_status status = given->is_only_now ? QLL_OK : search_all(&curing, found, cures);
    if (given->is_only_now || status != QLL_OK) {
        return status;
    }
    put_all_asked(given, found, cures);
    found->cures = cures;
    return QLL_OK;
}
