#include "search/design.h"

#include "base/count.h"
#include "station/connection.h"

#include <float.h>
#include <math.h>
#include <string.h>

const char *const qll_role_words[QLL_ROLE_COUNT] = {
#define QLL_ROLE_WORD(name, word) word,
    QLL_ROLE_LIST(QLL_ROLE_WORD)
#undef QLL_ROLE_WORD
};

const char *const qll_datum_words[QLL_DATUM_COUNT] = {
#define QLL_DATUM_WORD(name, word) word,
    QLL_DATUM_LIST(QLL_DATUM_WORD)
#undef QLL_DATUM_WORD
};

/* Kinds that come so near the best are found exactly; others are what the search met. */
#define QLL_KEEP            1.03
/* Up to so many valves the quietest of one stage is sought for itself. */
#define QLL_SMALL_CATALOGUE 64
/* The quietest is the best where a callback costs so many times as much, as long as it costs no more than
 * so many times what the best does: our choice. */
#define QLL_QUIET_FACTOR    8.0
#define QLL_QUIET_DEARER    2.0
/* Within so much of the least another kind is as good: docs/theory/recommendation.md, 6. */
#define QLL_CLOSE_SHARE     0.03

/* A design on its way. */
typedef struct designing {
    const qll_design_case *given;
    qll_arena *arena;
    qll_unknowns unknowns;
    qll_yardstick yardstick;
    qll_search_result found;
    qll_shown *shown; /* room for all */
    size_t count;
} designing;

/* As many as there are roles, and the simpler one. */
enum {
    QLL_SHOWN_MOST = QLL_ROLE_COUNT + 2
};

static bool is_one_size(const qll_valve *a, const qll_valve *b)
{
    return a->nominal_m == b->nominal_m;
}

/* Shows a station in a role; no twins. Returns its place, or SIZE_MAX without room. */
static size_t show(designing *at, const qll_candidate *candidate, unsigned role)
{
    for (size_t i = 0; i < at->count; i++) {
        if (qll_station_is_like(&at->shown[i].station, &candidate->station, is_one_size)) {
            at->shown[i].roles |= role;
            return i;
        }
    }
    if (at->count == QLL_SHOWN_MOST) {
        return SIZE_MAX;
    }
    at->shown[at->count] = (qll_shown){.station = candidate->station,
                                       .cost = candidate->cost,
                                       .fitness = candidate->fitness,
                                       .roles = role};
    at->count += 1;
    return at->count - 1;
}

static unsigned bit_of(qll_role role)
{
    return 1U << (unsigned)role;
}

/* Searches again with other options; count 0 where nothing was found. */
static qll_status search_again(designing *at, const qll_search_options *options,
                               qll_search_result *found)
{
    qll_search_options quiet = *options;
    quiet.told = 1.0;
    *found = (qll_search_result){.kind_count = 0};
    if (at->found.stopped) {
        return QLL_OK;
    }
    qll_status status = qll_search(&at->yardstick, at->given->catalogue, &quiet, at->arena, found);
    at->found.stopped = status == QLL_OK && found->stopped;
    return status;
}

static qll_status show_cheapest(designing *at)
{
    qll_search_options options = *at->given->options;
    options.callback_factor = 0.0;
    options.known = DBL_MAX;
    options.kinds_most = 1;
    qll_search_result found;
    qll_status status = search_again(at, &options, &found);
    if (status == QLL_OK && found.kind_count > 0) {
        (void)show(at, &found.kinds[0], bit_of(QLL_ROLE_CHEAPEST));
    }
    return status;
}

static qll_status show_quietest(designing *at)
{
    const qll_candidate *quietest = &at->found.kinds[0];
    const double most = QLL_QUIET_DEARER * quietest->cost.installed;
    for (size_t i = 1; i < at->found.kind_count; i++) {
        const qll_candidate *one = &at->found.kinds[i];
        if (one->fitness.is_fit && one->cost.installed <= most
            && one->cost.callback_share < quietest->cost.callback_share) {
            quietest = one;
        }
    }
    qll_search_result found = {.kind_count = 0};
    if (at->found.counts.admitted <= QLL_SMALL_CATALOGUE && at->shown[0].station.stage_count == 1) {
        qll_search_options options = *at->given->options;
        options.stages_max = 1;
        options.callback_factor = QLL_QUIET_FACTOR;
        options.known = DBL_MAX;
        options.kinds_most = 1;
        qll_status status = search_again(at, &options, &found);
        if (status != QLL_OK) {
            return status;
        }
    }
    if (found.kind_count > 0 && found.kinds[0].cost.installed <= most
        && found.kinds[0].cost.callback_share < quietest->cost.callback_share) {
        quietest = &found.kinds[0];
    }
    (void)show(at, quietest, bit_of(QLL_ROLE_QUIETEST));
    return QLL_OK;
}

/* One valve of the pipe's size, as it is usually fitted: the least expected cost, rules or no rules. */
static qll_status show_usual(designing *at)
{
    const qll_site *site = at->given->site;
    const qll_catalogue *catalogue = at->given->catalogue;
    const double same_size = 1.06;
    qll_candidate best = {.cost = {.expected = INFINITY}};
    qll_branch *branches = qll_arena_take(at->arena, catalogue->count, sizeof *branches);
    qll_stage *stages = qll_arena_take(at->arena, catalogue->count, sizeof *stages);
    if (branches == NULL || stages == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < catalogue->count; i++) {
        double ratio = catalogue->valves[i].nominal_m / site->pipe_limit_m;
        if (!(ratio < same_size && ratio > 1.0 / same_size)
            || qll_breach_of_range(&catalogue->valves[i], site->set_pa_gauge) > 0.0) {
            continue;
        }
        branches[i] = (qll_branch){.valve = &catalogue->valves[i],
                                   .law = &catalogue->laws[i],
                                   .set_pa_gauge = site->set_pa_gauge};
        stages[i] =
            (qll_stage){.branches = &branches[i],
                        .branch_count = 1,
                        .set_inlet_pa_gauge = qll_duty_set_inlet_pa_gauge(at->given->duty, site)};
        qll_candidate one = {.station = {.stages = &stages[i], .stage_count = 1}};
        if (qll_branch_connect(site, at->arena, &branches[i]) != QLL_OK
            || qll_station_measure(&one.station, &at->yardstick, at->arena, &one.cost) != QLL_OK
            || qll_station_fitness(&one.station, &at->yardstick, at->arena, &one.fitness)
                   != QLL_OK) {
            return QLL_NO_MEMORY;
        }
        best = one.cost.expected < best.cost.expected ? one : best;
    }
    if (best.station.stage_count > 0) {
        (void)show(at, &best, bit_of(QLL_ROLE_USUAL));
    }
    return QLL_OK;
}

/* The best of fewer stages, or of fewer valves side by side; SIZE_MAX if none is fit. */
static qll_status show_simpler(designing *at, qll_design *design)
{
    const qll_station *best = &at->shown[0].station;
    const bool is_staged = best->stage_count > 1;
    design->simpler = SIZE_MAX;
    if (!design->is_fit) {
        design->reason = QLL_REASON_NOT_FIT;
        return QLL_OK;
    }
    if (qll_station_valve_count(best) == 1) {
        design->reason = QLL_REASON_ONE_VALVE;
        return QLL_OK;
    }
    qll_search_options options = *at->given->options;
    options.known = DBL_MAX; /* only what is fit */
    options.stages_max = is_staged ? best->stage_count - 1 : 1;
    options.branches_max = is_staged ? QLL_BRANCHES_MOST : best->stages[0].branch_count - 1;
    options.kinds_most = 1;
    qll_search_result found;
    qll_status status = search_again(at, &options, &found);
    if (status != QLL_OK) {
        return status;
    }
    const bool has_simpler = found.kind_count > 0 && found.is_fit;
    if (has_simpler) {
        design->simpler = show(at, &found.kinds[0], 0);
    }
    if (!is_staged) {
        design->reason = has_simpler ? QLL_REASON_PAIR_PAYS : QLL_REASON_PAIR_CARRIES;
    } else if (has_simpler) {
        design->reason = QLL_REASON_STAGES_PAY;
    } else {
        bool by_ratio = found.counts.by_practice[QLL_PRACTICE_RATIO] > 0;
        design->reason = by_ratio ? QLL_REASON_STAGES_BY_RATIO : QLL_REASON_STAGES_CARRY;
    }
    return QLL_OK;
}

/* ---- close calls ---- */

static double expected_with(const qll_costs *costs, const qll_station *station,
                            const qll_cost *cost, double visit_factor, double share)
{
    double once = qll_costs_once(costs, station) + (visit_factor - 1.0) * costs->visit;
    return cost->installed + share * qll_costs_callback(once, share);
}

static double share_of(const designing *at, const qll_cost *cost, const double *survival)
{
    return qll_callback_share(&at->unknowns, survival, cost->rest_chance);
}

/* Expected cost of a candidate were the circumstance so. */
static double expected_if(const designing *at, const qll_candidate *one, qll_close why)
{
    const qll_costs *costs = at->given->site->costs;
    const qll_cost *cost = &one->cost;
    switch (why) {
    case QLL_CLOSE_VISIT_HALVED:
        return expected_with(costs, &one->station, cost, 0.5, cost->callback_share);
    case QLL_CLOSE_VISIT_DOUBLED:
        return expected_with(costs, &one->station, cost, 2.0, cost->callback_share);
    case QLL_CLOSE_WEIGHTS_HALVED:
        return expected_with(costs, &one->station, cost, 1.0, share_of(at, cost, cost->halved));
    case QLL_CLOSE_WEIGHTS_DOUBLED:
        return expected_with(costs, &one->station, cost, 1.0, share_of(at, cost, cost->doubled));
    case QLL_CLOSE_NOT:
    case QLL_CLOSE_WITHIN:
    case QLL_CLOSE_DEMAND_HALVED:
    case QLL_CLOSE_DEMAND_DOUBLED:
    case QLL_CLOSE_COUNT: break;
    }
    return cost->expected;
}

static void take_close(designing *at, size_t other, qll_close why, qll_design *design)
{
    size_t place = show(at, &at->found.kinds[other], 0);
    if (place == SIZE_MAX) {
        return;
    }
    double best = at->found.kinds[0].cost.expected;
    design->close =
        (qll_close_call){.why = why,
                         .other = place,
                         .dearer_share = at->found.kinds[other].cost.expected / best - 1.0};
}

/* The same with all demand moved by a factor: measured anew. */
static qll_status look_at_demand(designing *at, qll_close why, double factor, qll_design *design)
{
    qll_unknowns unknowns;
    qll_yardstick yardstick;
    if (qll_unknowns_make(at->given->duty, factor, at->arena, &unknowns) != QLL_OK
        || qll_yardstick_make(at->given->site, at->given->duty, &unknowns, at->arena, &yardstick)
               != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    double best = INFINITY;
    size_t place = 0;
    for (size_t i = 0; i < at->found.kind_count; i++) {
        qll_cost cost;
        if (qll_station_measure(&at->found.kinds[i].station, &yardstick, at->arena, &cost)
            != QLL_OK) {
            return QLL_NO_MEMORY;
        }
        place = cost.expected < best ? i : place;
        best = fmin(cost.expected, best);
    }
    if (place != 0) {
        take_close(at, place, why, design);
    }
    return QLL_OK;
}

static qll_status look_for_close_call(designing *at, qll_design *design)
{
    static const qll_close kept[] = {QLL_CLOSE_VISIT_HALVED, QLL_CLOSE_VISIT_DOUBLED,
                                     QLL_CLOSE_WEIGHTS_HALVED, QLL_CLOSE_WEIGHTS_DOUBLED};
    const qll_search_result *found = &at->found;
    design->close = (qll_close_call){.why = QLL_CLOSE_NOT, .other = SIZE_MAX};
    if (found->kind_count < 2 || !found->is_fit) {
        return QLL_OK;
    }
    if (found->kinds[1].cost.expected <= (1.0 + QLL_CLOSE_SHARE) * found->kinds[0].cost.expected) {
        take_close(at, 1, QLL_CLOSE_WITHIN, design);
        return QLL_OK;
    }
    for (size_t w = 0; w < QLL_COUNT(kept); w++) {
        size_t place = 0;
        for (size_t i = 1; i < found->kind_count; i++) {
            bool is_less = expected_if(at, &found->kinds[i], kept[w])
                           < expected_if(at, &found->kinds[place], kept[w]);
            place = is_less ? i : place;
        }
        if (place != 0) {
            take_close(at, place, kept[w], design);
            return QLL_OK;
        }
    }
    qll_status status = look_at_demand(at, QLL_CLOSE_DEMAND_HALVED, 0.5, design);
    if (status == QLL_OK && design->close.why == QLL_CLOSE_NOT) {
        status = look_at_demand(at, QLL_CLOSE_DEMAND_DOUBLED, 2.0, design);
    }
    return status;
}

static qll_status show_all(designing *at, qll_design *design)
{
    (void)show(at, &at->found.kinds[0], bit_of(QLL_ROLE_RECOMMENDED));
    qll_status status = show_simpler(at, design);
    if (!at->given->has_alternatives) {
        return status;
    }
    if (status == QLL_OK && design->is_fit) {
        status = look_for_close_call(at, design);
    }
    if (status == QLL_OK && design->is_fit) {
        status = show_cheapest(at);
    }
    if (status == QLL_OK && design->is_fit) {
        status = show_quietest(at);
    }
    if (status == QLL_OK) {
        status = show_usual(at);
    }
    if (status == QLL_OK && design->is_fit && at->found.kind_count > 1) {
        (void)show(at, &at->found.kinds[1], bit_of(QLL_ROLE_NEXT));
    }
    return status;
}

static qll_status begin(designing *at)
{
    const qll_design_case *given = at->given;
    at->shown = qll_arena_take(at->arena, QLL_SHOWN_MOST, sizeof *at->shown);
    if (at->shown == NULL
        || qll_unknowns_make(given->duty, 1.0, at->arena, &at->unknowns) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    return qll_yardstick_make(given->site, given->duty, &at->unknowns, at->arena, &at->yardstick);
}

/* At the highest static supply, over the wanted pressure. */
static double one_stage_ratio(const qll_design_case *given)
{
    const qll_duty *duty = given->duty;
    double high_pa = duty->inlet_static_pa[duty->supply_count - 1];
    return qll_practice_ratio(high_pa - given->site->barometric_pa, given->site->set_pa_gauge);
}

qll_status qll_design_make(const qll_design_case *given, qll_arena *arena, qll_design *design)
{
    *design = (qll_design){.simpler = SIZE_MAX, .close = {.other = SIZE_MAX}};
    qll_status status = qll_need_of(given->site, given->duty->peak_m3s, arena, &design->need);
    if (status != QLL_OK || !design->need.is_needed) {
        return status;
    }
    design->one_stage_ratio = one_stage_ratio(given);
    designing at = {.given = given, .arena = arena};
    qll_search_options options = *given->options;
    options.keep = QLL_KEEP;
    status = begin(&at);
    if (status == QLL_OK) {
        status = qll_search(&at.yardstick, given->catalogue, &options, arena, &at.found);
    }
    if (status != QLL_OK) {
        return status;
    }
    design->counts = at.found.counts;
    design->stopped = at.found.stopped;
    design->floor = at.found.floor;
    if (at.found.kind_count == 0) {
        return QLL_OK;
    }
    design->is_fit = at.found.is_fit;
    status = show_all(&at, design);
    design->stopped = at.found.stopped;
    for (size_t i = 0; i < at.count && status == QLL_OK; i++) {
        status =
            qll_station_assess(&at.shown[i].station, &at.yardstick, arena, &at.shown[i].assessment);
    }
    design->shown = at.shown;
    design->count = at.count;
    return status;
}
