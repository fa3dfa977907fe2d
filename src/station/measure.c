#include "station/measure.h"

#include "base/count.h"

#include <math.h>
#include <string.h>

const char *const qll_mechanism_words[QLL_MECHANISM_COUNT] = {
#define QLL_MECHANISM_WORD(name, word) word,
    QLL_MECHANISM_LIST(QLL_MECHANISM_WORD)
#undef QLL_MECHANISM_WORD
};

static const unsigned heard_by[QLL_MECHANISM_COUNT] = {
    [QLL_MECHANISM_CHATTER] = QLL_HEARS_CHATTER,       [QLL_MECHANISM_NOISE] = QLL_HEARS_NOISE,
    [QLL_MECHANISM_CAVITATION] = QLL_HEARS_CAVITATION, [QLL_MECHANISM_WEAR] = QLL_HEARS_WEAR,
    [QLL_MECHANISM_STARVED] = QLL_HEARS_STARVED,       [QLL_MECHANISM_HUNTING] = QLL_HEARS_HUNTING,
};

double qll_callback_share(const qll_unknowns *unknowns, const double survival[QLL_NODES],
                          double rest_chance)
{
    double survives = 0.0;
    for (size_t k = 0; k < QLL_NODES; k++) {
        survives += unknowns->chance[k] * survival[k];
    }
    double share = 1.0 - (1.0 - rest_chance) * survives;
    return share > 0.0 ? share : 0.0;
}

/* The branch set next below @p branch at this inlet; SIZE_MAX if none is. Equal ones by their order. */
static size_t next_below(const qll_stage *stage, size_t branch, double inlet_pa_gauge)
{
    double from_pa = qll_stage_set_pa_gauge(stage, branch, inlet_pa_gauge);
    size_t found = SIZE_MAX;
    for (size_t j = 0; j < stage->branch_count; j++) {
        double set_pa = qll_stage_set_pa_gauge(stage, j, inlet_pa_gauge);
        bool is_below = set_pa < from_pa || (set_pa == from_pa && j > branch);
        if (is_below
            && (found == SIZE_MAX
                || set_pa > qll_stage_set_pa_gauge(stage, found, inlet_pa_gauge))) {
            found = j;
        }
    }
    return found;
}

double qll_stage_hunting(const qll_stage *stage, double low_pa_gauge, double high_pa_gauge)
{
    const double inlets[] = {low_pa_gauge, high_pa_gauge};
    double worst = 0.0;
    for (size_t i = 0; i < 2; i++) {
        for (size_t j = 0; j < stage->branch_count; j++) {
            size_t below = next_below(stage, j, inlets[i]);
            if (below == SIZE_MAX) {
                continue;
            }
            double gap_pa = qll_stage_set_pa_gauge(stage, j, inlets[i])
                            - qll_stage_set_pa_gauge(stage, below, inlets[i]);
            double bands_pa = qll_valve_hysteresis_pa(stage->branches[j].valve)
                              + qll_valve_hysteresis_pa(stage->branches[below].valve);
            worst = fmax(worst, qll_hunting_severity(bands_pa, gap_pa));
        }
    }
    return worst;
}

void qll_stage_inlets(const qll_yardstick *yardstick, const qll_station *station, size_t stage,
                      double *low_pa_gauge, double *high_pa_gauge)
{
    const qll_duty *duty = yardstick->duty;
    const double barometric_pa = yardstick->site->barometric_pa;
    if (stage > 0) {
        *low_pa_gauge = station->stages[stage].set_inlet_pa_gauge;
        *high_pa_gauge = *low_pa_gauge;
        return;
    }
    double low_pa = INFINITY;
    for (size_t s = 0; s < duty->scenario_count; s++) {
        low_pa = fmin(low_pa, yardstick->peak_inlet_pa[s * QLL_SUPPLY_LEVELS]);
    }
    *low_pa_gauge = low_pa - barometric_pa;
    *high_pa_gauge = duty->inlet_static_pa[duty->supply_count - 1] - barometric_pa;
}

/* Pressures of one stage on its way from the supply to the outlets, all absolute. */
typedef struct way {
    double *grid_pa; /* [supply * flow_count + flow] */
    double *peak_pa; /* [scenario], lowest supply */
    double rest_pa;
} way;

typedef struct run {
    const qll_station *station;
    qll_yardstick *yardstick;
    qll_arena *arena;
    way inlet;
    double *peak_outlet_pa;  /* [scenario] */
    qll_stage_point *points; /* [flow_count] */
} run;

/* Sums the grid of one stage and leaves its outlets as the next one's inlets. */
static void sum_grid(run *at, const qll_stage_ruler *ruler, qll_hazard_sums *sums)
{
    const qll_yardstick *yardstick = at->yardstick;
    const qll_duty *duty = yardstick->duty;
    const size_t rows = QLL_ROWS(ruler->branch_count);
    for (size_t s = 0; s < duty->supply_count; s++) {
        double *inlet_pa = &at->inlet.grid_pa[s * duty->flow_count];
        const double *need_pa = &yardstick->need_pa[s * duty->flow_count];
        qll_hazard_row of_supply[QLL_ROWS_MOST];
        memset(of_supply, 0, sizeof of_supply);
        qll_stage_solve_many(ruler->solver, inlet_pa, duty->flow_m3s, duty->flow_count, at->points);
        for (size_t f = 0; f < duty->flow_count; f++) {
            double outlet_pa =
                isnan(inlet_pa[f]) || !at->points[f].passes ? (double)NAN : at->points[f].outlet_pa;
            if (yardstick->unknowns->has_weight[f]) {
                double row[QLL_ROWS_MOST];
                qll_hazard_point(ruler, inlet_pa[f], duty->flow_m3s[f], outlet_pa, need_pa[f], row);
                qll_hazard_add(yardstick->unknowns, f, row, rows, of_supply);
            }
            inlet_pa[f] = outlet_pa;
        }
        qll_hazard_merge(yardstick->unknowns, s, of_supply, rows, sums);
    }
}

static double solve_one(const qll_stage_solver *solver, double inlet_pa, double flow_m3s)
{
    qll_stage_point point = qll_stage_solve(solver, inlet_pa, flow_m3s);
    return isnan(inlet_pa) || !point.passes ? (double)NAN : point.outlet_pa;
}

/* The rulers of a stage's branches as they are set. */
static qll_status make_rulers(run *at, const qll_stage *stage, qll_branch_ruler **made)
{
    qll_branch_ruler *branches = qll_arena_take(at->arena, stage->branch_count, sizeof *branches);
    if (branches == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t j = 0; j < stage->branch_count; j++) {
        if (qll_branch_ruler_make(at->yardstick, &stage->branches[j], at->arena, &branches[j])
            != QLL_OK) {
            return QLL_NO_MEMORY;
        }
        double set_pa_gauge = stage->branches[j].set_pa_gauge;
        branches[j].chatters = qll_branch_chatters(
            stage->branches[j].valve, stage->set_inlet_pa_gauge - set_pa_gauge, set_pa_gauge);
    }
    *made = branches;
    return QLL_OK;
}

static qll_status sum_stage(run *at, size_t index, qll_stage_sums *made)
{
    const qll_stage *stage = &at->station->stages[index];
    qll_branch_ruler *branches = NULL;
    qll_hazard_sums *sums = qll_arena_take(at->arena, 1, sizeof *sums);
    qll_stage_solver *solver = NULL;
    const qll_site *site = at->yardstick->site;
    if (sums == NULL || make_rulers(at, stage, &branches) != QLL_OK
        || qll_stage_solver_make(stage, &site->water, site->barometric_pa, at->arena, &solver)
               != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    double low_pa_gauge, high_pa_gauge;
    qll_stage_inlets(at->yardstick, at->station, index, &low_pa_gauge, &high_pa_gauge);
    const qll_stage_ruler ruler = {.yardstick = at->yardstick,
                                   .solver = solver,
                                   .branches = branches,
                                   .branch_count = stage->branch_count,
                                   .is_last = index + 1 == at->station->stage_count,
                                   .hunting =
                                       qll_stage_hunting(stage, low_pa_gauge, high_pa_gauge)};
    memset(sums, 0, sizeof *sums);
    sum_grid(at, &ruler, sums);
    const size_t scenarios = at->yardstick->duty->scenario_count;
    for (size_t s = 0; s < scenarios; s++) {
        at->peak_outlet_pa[s] = solve_one(solver, at->inlet.peak_pa[s], at->yardstick->peak_m3s[s]);
    }
    qll_hazard_add_peaks(&ruler, at->inlet.peak_pa, at->peak_outlet_pa, 1, sums);
    memcpy(at->inlet.peak_pa, at->peak_outlet_pa, scenarios * sizeof *at->peak_outlet_pa);
    at->inlet.rest_pa = solve_one(solver, at->inlet.rest_pa, 0.0);
    *made = (qll_stage_sums){branches, stage->branch_count, sums};
    return QLL_OK;
}

static qll_status begin(run *at)
{
    const qll_yardstick *yardstick = at->yardstick;
    const qll_duty *duty = yardstick->duty;
    const size_t grid = duty->supply_count * duty->flow_count;
    at->inlet.grid_pa = qll_arena_take(at->arena, grid, sizeof *at->inlet.grid_pa);
    at->inlet.peak_pa = qll_arena_take(at->arena, duty->scenario_count, sizeof *at->inlet.peak_pa);
    at->peak_outlet_pa =
        qll_arena_take(at->arena, duty->scenario_count, sizeof *at->peak_outlet_pa);
    at->points = qll_arena_take(at->arena, duty->flow_count, sizeof *at->points);
    if (at->peak_outlet_pa == NULL || at->inlet.grid_pa == NULL || at->inlet.peak_pa == NULL
        || at->points == NULL) {
        return QLL_NO_MEMORY;
    }
    memcpy(at->inlet.grid_pa, duty->inlet_pa, grid * sizeof *at->inlet.grid_pa);
    for (size_t s = 0; s < duty->scenario_count; s++) {
        at->inlet.peak_pa[s] = yardstick->peak_inlet_pa[s * QLL_SUPPLY_LEVELS];
    }
    at->inlet.rest_pa = duty->inlet_static_pa[duty->supply_count - 1];
    return QLL_OK;
}

qll_status qll_station_sum(const qll_station *station, qll_yardstick *yardstick, qll_arena *arena,
                           qll_station_sums *made)
{
    run at = {.station = station, .yardstick = yardstick, .arena = arena};
    qll_stage_sums *stages = qll_arena_take(arena, station->stage_count, sizeof *stages);
    qll_status status = stages == NULL ? QLL_NO_MEMORY : begin(&at);
    for (size_t i = 0; i < station->stage_count && status == QLL_OK; i++) {
        status = sum_stage(&at, i, &stages[i]);
    }
    *made = (qll_station_sums){stages, at.inlet.rest_pa};
    return status;
}

static void multiply(double *by, const double *with)
{
    for (size_t k = 0; k < QLL_NODES; k++) {
        by[k] *= with[k];
    }
}

static void take_survival(const qll_stage_sums *stage, qll_cost *cost,
                          double survival[QLL_MECHANISM_COUNT][QLL_NODES])
{
    const struct {
        double factor;
        double *survival;
    } all[] = {{1.0, cost->survival}, {0.5, cost->halved}, {2.0, cost->doubled}};

    double survives[QLL_NODES];
    for (size_t i = 0; i < QLL_COUNT(all); i++) {
        qll_survival(stage->hazards, stage->branches, stage->branch_count, QLL_HEARS_ALL,
                     all[i].factor, survives);
        multiply(all[i].survival, survives);
    }
    for (size_t m = 0; m < QLL_MECHANISM_COUNT; m++) {
        if (heard_by[m] != 0) {
            qll_survival(stage->hazards, stage->branches, stage->branch_count, heard_by[m], 1.0,
                         survives);
            multiply(survival[m], survives);
        }
    }
}

/* What the arena holds beyond the caller's mark is given back, but for the pipes' shapes, which are
 * made beforehand. */
static qll_status make_shapes(const qll_station *station, qll_yardstick *yardstick,
                              qll_arena *arena)
{
    for (size_t k = 0; k < station->stage_count; k++) {
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            qll_branch_ruler unused;
            if (qll_branch_ruler_make(yardstick, &station->stages[k].branches[j], arena, &unused)
                != QLL_OK) {
                return QLL_NO_MEMORY;
            }
        }
    }
    return QLL_OK;
}

qll_status qll_station_measure(const qll_station *station, qll_yardstick *yardstick,
                               qll_arena *arena, qll_cost *cost)
{
    const qll_costs *costs = yardstick->site->costs;
    *cost = (qll_cost){.installed = qll_costs_installed(costs, station, yardstick->pipe_m)};
    if (make_shapes(station, yardstick, arena) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_arena_mark mark = qll_arena_now(arena);
    qll_station_sums sums;
    if (qll_station_sum(station, yardstick, arena, &sums) != QLL_OK) {
        qll_arena_reset(arena, mark);
        return QLL_NO_MEMORY;
    }
    double survival[QLL_MECHANISM_COUNT][QLL_NODES];
    for (size_t k = 0; k < QLL_NODES; k++) {
        cost->survival[k] = 1.0;
        cost->halved[k] = 1.0;
        cost->doubled[k] = 1.0;
        for (size_t m = 0; m < QLL_MECHANISM_COUNT; m++) {
            survival[m][k] = 1.0;
        }
    }
    for (size_t i = 0; i < station->stage_count; i++) {
        take_survival(&sums.stages[i], cost, survival);
    }
    cost->rest_chance = isnan(sums.rest_pa) ? 1.0 : qll_rest_chance(yardstick, sums.rest_pa);
    qll_arena_reset(arena, mark);
    const qll_unknowns *unknowns = yardstick->unknowns;
    cost->callback_share = qll_callback_share(unknowns, cost->survival, cost->rest_chance);
    cost->callback = qll_costs_callback(qll_costs_once(costs, station), cost->callback_share);
    cost->expected = cost->installed + cost->callback_share * cost->callback;
    for (size_t m = 0; m < QLL_MECHANISM_COUNT; m++) {
        double rest = m == QLL_MECHANISM_PRESSURE ? cost->rest_chance : 0.0;
        cost->mechanism_share[m] = qll_callback_share(unknowns, survival[m], rest);
    }
    return QLL_OK;
}
