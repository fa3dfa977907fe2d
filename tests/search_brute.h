/* The search without any of its short ways: every arrangement that docs/theory/search.md allows of at most two
 * stages of two valves, each whole station looked at by itself. */
#ifndef QUELL_TESTS_SEARCH_BRUTE_H
#define QUELL_TESTS_SEARCH_BRUTE_H

#include "search/search.h"
#include "station/connection.h"
#include "station/fitness.h"

#include <stdint.h>
#include <string.h>

#define TEST_BRUTE_PSI          6894.757293168361
#define TEST_BRUTE_VALVES_MOST  40
#define TEST_BRUTE_BETWEEN_MOST 5

/* A stage before it is put anywhere: valves with their set-points over what the stage is meant to hold. */
typedef struct brute_stage {
    size_t count;
    size_t valve[2];
    double over_pa[2];
} brute_stage;

typedef struct brute_station {
    size_t stage_count;
    brute_stage stages[2];
    double held_pa_gauge[2];
} brute_station;

typedef struct brute {
    qll_yardstick *yardstick;
    const qll_catalogue *catalogue;
    qll_arena *arena;
    qll_branch connected[TEST_BRUTE_VALVES_MOST];
    double visit_factor; /* of what a callback costs */
    bool looks_at_all;   /* even what cannot be best */
    bool is_short_of_memory;
    size_t looked_at;
    /* The best so far. */
    bool has_best;
    brute_station best;
    double expected, installed, chance;
} brute;

static inline bool brute_open(brute *at, qll_yardstick *yardstick, const qll_catalogue *catalogue,
                              qll_arena *arena)
{
    *at = (brute){
        .yardstick = yardstick, .catalogue = catalogue, .arena = arena, .visit_factor = 1.0};
    for (size_t i = 0; i < catalogue->count; i++) {
        at->connected[i] = (qll_branch){.valve = &catalogue->valves[i], .law = &catalogue->laws[i]};
        if (i >= TEST_BRUTE_VALVES_MOST
            || qll_branch_connect(yardstick->site, arena, &at->connected[i]) != QLL_OK) {
            return false;
        }
    }
    return true;
}

/* Room of a station laid out. */
typedef struct brute_laid {
    qll_branch branches[2][2];
    qll_stage stages[2];
    qll_station station;
} brute_laid;

static inline void brute_lay(const brute *at, const brute_station *given, brute_laid *laid)
{
    const qll_duty *duty = at->yardstick->duty;
    double inlet_pa_gauge = duty->inlet_static_pa[1] - at->yardstick->site->barometric_pa;
    for (size_t k = 0; k < given->stage_count; k++) {
        const brute_stage *of = &given->stages[k];
        for (size_t j = 0; j < of->count; j++) {
            laid->branches[k][j] = at->connected[of->valve[j]];
            laid->branches[k][j].set_pa_gauge = given->held_pa_gauge[k] + of->over_pa[j];
        }
        laid->stages[k] = (qll_stage){laid->branches[k], of->count, inlet_pa_gauge};
        inlet_pa_gauge = given->held_pa_gauge[k];
    }
    laid->station = (qll_station){laid->stages, given->stage_count};
}

static inline int64_t brute_cents(double money)
{
    return (int64_t)(100.0 * money + 0.5);
}

static inline size_t brute_valves(const brute_station *of)
{
    return of->stages[0].count + (of->stage_count > 1 ? of->stages[1].count : 0);
}

/* Who comes first of two of the same cost to the cent: fewer stages, fewer valves, less to install, then by
 * stage the number of valves, the ids in byte order and the higher set-points. */
static inline bool brute_is_simpler(const brute *at, const brute_station *a, double installed)
{
    const brute_station *b = &at->best;
    if (a->stage_count != b->stage_count) {
        return a->stage_count < b->stage_count;
    }
    if (brute_valves(a) != brute_valves(b)) {
        return brute_valves(a) < brute_valves(b);
    }
    if (brute_cents(installed) != brute_cents(at->installed)) {
        return installed < at->installed;
    }
    for (size_t k = 0; k < a->stage_count; k++) {
        const brute_stage *of = &a->stages[k];
        const brute_stage *than = &b->stages[k];
        if (of->count != than->count) {
            return of->count < than->count;
        }
        for (size_t j = 0; j < of->count; j++) {
            int order = strcmp(at->catalogue->valves[of->valve[j]].id,
                               at->catalogue->valves[than->valve[j]].id);
            if (order != 0) {
                return order < 0;
            }
        }
        for (size_t j = 0; j < of->count; j++) {
            double set_pa = a->held_pa_gauge[k] + of->over_pa[j];
            double other_pa = b->held_pa_gauge[k] + than->over_pa[j];
            if (set_pa != other_pa) {
                return set_pa > other_pa;
            }
        }
    }
    return false;
}

static inline void brute_look(brute *at, const brute_station *given)
{
    brute_laid laid;
    brute_lay(at, given, &laid);
    const qll_site *site = at->yardstick->site;
    double installed = qll_costs_installed(site->costs, &laid.station, at->yardstick->pipe_m);
    if (at->has_best && installed > at->expected + 1.0) {
        return; /* nothing is expected to cost less than it is installed for */
    }
    qll_fitness fitness;
    qll_cost cost;
    if (qll_station_fitness(&laid.station, at->yardstick, at->arena, &fitness) != QLL_OK
        || (fitness.is_fit
            && qll_station_measure(&laid.station, at->yardstick, at->arena, &cost) != QLL_OK)) {
        at->is_short_of_memory = true;
        return;
    }
    at->looked_at += 1;
    if (!fitness.is_fit) {
        return;
    }
    double expected = cost.installed + at->visit_factor * cost.callback_share * cost.callback;
    bool is_less = brute_cents(expected) < brute_cents(at->expected);
    bool is_same = brute_cents(expected) == brute_cents(at->expected);
    if (!at->has_best || is_less || (is_same && brute_is_simpler(at, given, cost.installed))) {
        at->has_best = true;
        at->best = *given;
        at->expected = expected;
        at->installed = cost.installed;
        at->chance = cost.callback_share;
    }
}

/* A small and a large valve by every offset, the small one open first; where nothing comes after them also
 * with the large one at what the stage is meant to hold. */
static inline size_t brute_pairs(size_t small, size_t large, bool is_last, brute_stage *stages,
                                 size_t room)
{
    static const double offsets_psi[] = {3.0, 4.0, 6.0, 8.0, 10.0};
    size_t count = 0;
    for (size_t o = 0; o < 5; o++) {
        double offset_pa = offsets_psi[o] * TEST_BRUTE_PSI;
        if (count < room) {
            stages[count++] = (brute_stage){2, {small, large}, {0.0, -offset_pa}};
        }
        if (is_last && count < room) {
            stages[count++] = (brute_stage){2, {small, large}, {offset_pa, 0.0}};
        }
    }
    return count;
}

/* Stages that may stand anywhere: one valve; a small and a large one. */
static inline size_t brute_stages(const brute *at, bool is_last, brute_stage *stages, size_t room)
{
    size_t count = 0;
    for (size_t i = 0; i < at->catalogue->count; i++) {
        if (count < room) {
            stages[count++] = (brute_stage){.count = 1, .valve = {i}};
        }
    }
    for (size_t i = 0; i < at->catalogue->count; i++) {
        for (size_t j = 0; j < at->catalogue->count; j++) {
            if (at->catalogue->valves[j].kv_m3h < 2.0 * at->catalogue->valves[i].kv_m3h) {
                continue;
            }
            count += brute_pairs(i, j, is_last, stages + count, room - count);
        }
    }
    return count;
}

/* Pressures between two stages: the one at which both have the same cavitation index sigma =
 * (p1 - pv)/(p1 - p2), rounded to 5 psi, and two steps to either side, where each stage keeps the ratio and
 * takes a step at least. By equal sigma p1 - pv, p2 - pv, p3 - pv are a geometric row. */
static inline size_t brute_between(const brute *at,
                                   double between_pa_gauge[TEST_BRUTE_BETWEEN_MOST])
{
    const qll_site *site = at->yardstick->site;
    const double step_pa = 5.0 * TEST_BRUTE_PSI;
    const double high_pa_gauge = at->yardstick->duty->inlet_static_pa[2] - site->barometric_pa;
    const double offset_pa = site->barometric_pa - site->water.vapour_pressure_pa;
    const double equal_pa_gauge =
        sqrt((high_pa_gauge + offset_pa) * (site->set_pa_gauge + offset_pa)) - offset_pa;
    const double middle_pa = floor(equal_pa_gauge / step_pa + 0.5) * step_pa;
    size_t count = 0;
    for (int i = -2; i <= 2; i++) {
        double pa_gauge = middle_pa + i * step_pa;
        double most = site->limits.ratio_max * (1.0 + 1e-9);
        if (pa_gauge - site->set_pa_gauge >= step_pa && high_pa_gauge - pa_gauge >= step_pa
            && high_pa_gauge / pa_gauge <= most && pa_gauge / site->set_pa_gauge <= most) {
            between_pa_gauge[count++] = pa_gauge;
        }
    }
    return count;
}

#define TEST_BRUTE_STAGES_MOST 4096

/** Looks at every station of up to @p stages_max stages. */
static inline void brute_search(brute *at, size_t stages_max)
{
    brute_stage *firsts = qll_arena_take(at->arena, TEST_BRUTE_STAGES_MOST, sizeof *firsts);
    brute_stage *lasts = qll_arena_take(at->arena, TEST_BRUTE_STAGES_MOST, sizeof *lasts);
    if (firsts == NULL || lasts == NULL) {
        at->is_short_of_memory = true;
        return;
    }
    const size_t first_count = brute_stages(at, false, firsts, TEST_BRUTE_STAGES_MOST);
    const size_t last_count = brute_stages(at, true, lasts, TEST_BRUTE_STAGES_MOST);
    const double wanted_pa_gauge = at->yardstick->site->set_pa_gauge;
    for (size_t i = 0; i < last_count; i++) {
        brute_look(at, &(brute_station){1, {lasts[i]}, {wanted_pa_gauge}});
    }
    double between_pa_gauge[TEST_BRUTE_BETWEEN_MOST];
    const size_t between_count = stages_max > 1 ? brute_between(at, between_pa_gauge) : 0;
    for (size_t b = 0; b < between_count; b++) {
        for (size_t i = 0; i < first_count; i++) {
            for (size_t k = 0; k < last_count; k++) {
                brute_look(at, &(brute_station){2,
                                                {firsts[i], lasts[k]},
                                                {between_pa_gauge[b], wanted_pa_gauge}});
            }
        }
    }
}

/** What brute_search() leaves out, as the search does until nothing else is left: three stages, three valves side by side, two of
 * which neither is twice the other. */
static inline bool brute_leaves_out(const qll_station *station)
{
    bool is = station->stage_count > 2;
    for (size_t k = 0; k < station->stage_count; k++) {
        const qll_stage *stage = &station->stages[k];
        is = is || stage->branch_count > 2
             || (stage->branch_count == 2
                 && stage->branches[1].valve->kv_m3h < 2.0 * stage->branches[0].valve->kv_m3h);
    }
    return is;
}

#endif
