/* docs/theory/sensitivity.md. Every draw is a building, a duty and a station of its own, judged by the
 * rules of src/station: nothing here says what is good. */
#include "search/sensitivity.h"

#include "base/customary.h"
#include "numeric/sample.h"

#include <math.h>
#include <string.h>

/* Losses before the station are looked up between flows that lie so far apart: 3 %. */
#define QLL_LOSS_STEP 0.03

qll_uncertainty qll_uncertainty_default(void)
{
    return (qll_uncertainty){.demand_ln_sigma = 0.25,
                             .static_share = 0.05,
                             .residual_share = 0.20,
                             .kv_share = 0.10,
                             .xfz_sheet = 0.05,
                             .xfz_estimated = 0.10,
                             .set_drift_pa = 2.0 * QLL_PSI_PA,
                             .lockup_share = 0.5,
                             .stable_ratio = 1.25,
                             .stable_ratio_estimated = 2.0};
}

/** What comes off between the main and the station, over the logarithm of flow. */
typedef struct loss_table {
    double ln_least; /* of the first flow */
    double *main_pa, *upstream_pa;
    size_t count;
    double *ln_flow; /* of each class of the duty */
} loss_table;

struct qll_drawing {
    const qll_site *site;
    const qll_duty *duty;
    qll_uncertainty uncertainty;
    uint64_t seed;
    loss_table losses;
};

static double main_loss_pa(const qll_site *site, double flow_m3s)
{
    return -qll_supply_pressure_pa_gauge(&site->supply, 0.0, flow_m3s);
}

/* From six deviations below the least flow to the greatest design peak. */
static qll_status make_losses(const qll_site *site, const qll_duty *duty, double ln_sigma,
                              qll_arena *arena, loss_table *made)
{
    double ln_least = log(duty->flow_m3s[0]) - 6.0 * ln_sigma;
    double span = log(duty->peak_m3s) - ln_least;
    made->ln_least = ln_least;
    made->count = (size_t)ceil(span / QLL_LOSS_STEP) + 2;
    made->main_pa = qll_arena_take(arena, made->count, sizeof *made->main_pa);
    made->upstream_pa = qll_arena_take(arena, made->count, sizeof *made->upstream_pa);
    made->ln_flow = qll_arena_take(arena, duty->flow_count, sizeof *made->ln_flow);
    if (made->main_pa == NULL || made->upstream_pa == NULL || made->ln_flow == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t f = 0; f < duty->flow_count; f++) {
        made->ln_flow[f] = log(duty->flow_m3s[f]);
    }
    for (size_t i = 0; i < made->count; i++) {
        double flow_m3s = exp(ln_least + QLL_LOSS_STEP * (double)i);
        made->main_pa[i] = main_loss_pa(site, flow_m3s);
        made->upstream_pa[i] = qll_site_upstream_drop_pa(site, flow_m3s);
    }
    return QLL_OK;
}

qll_status qll_drawing_make(const qll_site *site, const qll_duty *duty,
                            const qll_uncertainty *uncertainty, uint64_t seed, qll_arena *arena,
                            qll_drawing **made)
{
    qll_drawing *drawing = qll_arena_take(arena, 1, sizeof *drawing);
    if (drawing == NULL) {
        return QLL_NO_MEMORY;
    }
    *drawing = (qll_drawing){.site = site, .duty = duty, .uncertainty = *uncertainty, .seed = seed};
    *made = drawing;
    return make_losses(site, duty, uncertainty->demand_ln_sigma, arena, &drawing->losses);
}

/** A drawn valve: what its branch points at. */
typedef struct drawn_valve {
    const qll_branch *from;
    qll_branch *branch;
    qll_valve valve;
    qll_opening_law law;
    qll_point *knots;
} drawn_valve;

/** One draw, and the room it is drawn in again and again. */
typedef struct drawn {
    const qll_drawing *drawing;
    qll_random building, valves; /* streams: all stations meet the same buildings */
    qll_site site;
    qll_point *test;
    qll_duty duty;
    double *flow_m3s, *inlet_pa, *inlet_static_pa, *supply_static_pa_gauge;
    qll_station station;
    drawn_valve *parts;
    size_t part_count;
} drawn;

static qll_status take_duty(drawn *draw, qll_arena *arena)
{
    const qll_duty *duty = draw->drawing->duty;
    const qll_supply *supply = &draw->drawing->site->supply;
    draw->flow_m3s = qll_arena_take(arena, duty->flow_count, sizeof(double));
    draw->inlet_pa = qll_arena_take(arena, duty->flow_count * duty->supply_count, sizeof(double));
    draw->inlet_static_pa = qll_arena_take(arena, duty->supply_count, sizeof(double));
    draw->supply_static_pa_gauge = qll_arena_take(arena, duty->supply_count, sizeof(double));
    draw->test = qll_arena_take(arena, supply->count, sizeof *draw->test);
    if (draw->flow_m3s == NULL || draw->inlet_pa == NULL || draw->inlet_static_pa == NULL
        || draw->supply_static_pa_gauge == NULL || draw->test == NULL) {
        return QLL_NO_MEMORY;
    }
    draw->site = *draw->drawing->site;
    draw->site.supply.test = draw->test;
    draw->duty = *duty;
    draw->duty.flow_m3s = draw->flow_m3s;
    draw->duty.inlet_pa = draw->inlet_pa;
    draw->duty.inlet_static_pa = draw->inlet_static_pa;
    draw->duty.supply_static_pa_gauge = draw->supply_static_pa_gauge;
    return QLL_OK;
}

static qll_status take_branch(const qll_branch *from, qll_branch *branch, qll_arena *arena,
                              drawn_valve *part)
{
    const qll_curve law = from->law->kv_of_falloff;
    *branch = *from;
    *part = (drawn_valve){.from = from, .branch = branch, .valve = *from->valve, .law = *from->law};
    part->knots = qll_arena_take(arena, law.count, sizeof *part->knots);
    if (part->knots == NULL) {
        return QLL_NO_MEMORY;
    }
    part->law.kv_of_falloff.points = part->knots;
    branch->valve = &part->valve;
    branch->law = &part->law;
    return QLL_OK;
}

static qll_status take_station(drawn *draw, const qll_station *station, qll_arena *arena)
{
    const size_t count = qll_station_valve_count(station);
    qll_stage *stages = qll_arena_take(arena, station->stage_count, sizeof *stages);
    qll_branch *branches = qll_arena_take(arena, count, sizeof *branches);
    draw->parts = qll_arena_take(arena, count, sizeof *draw->parts);
    if (stages == NULL || branches == NULL || draw->parts == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t k = 0; k < station->stage_count; k++) {
        const qll_stage *from = &station->stages[k];
        stages[k] = *from;
        stages[k].branches = &branches[draw->part_count];
        for (size_t j = 0; j < from->branch_count; j++) {
            size_t at = draw->part_count;
            if (take_branch(&from->branches[j], &branches[at], arena, &draw->parts[at]) != QLL_OK) {
                return QLL_NO_MEMORY;
            }
            draw->part_count += 1;
        }
    }
    draw->station = (qll_station){.stages = stages, .stage_count = station->stage_count};
    return QLL_OK;
}

/* Evenly from -width to width. */
static double even(qll_random *random, double width)
{
    return width * (2.0 * qll_random_unit(random) - 1.0);
}

static double between(const double *values, size_t at, double share)
{
    return values[at] + share * (values[at + 1] - values[at]);
}

/* The duty with all flows times a factor; the design peak stays the code's, and what would flow above
 * it flows at it. The last class is that peak. */
static void draw_flows(drawn *draw, double ln_factor, double residual)
{
    const qll_duty *nominal = draw->drawing->duty;
    const loss_table *losses = &draw->drawing->losses;
    const size_t count = nominal->flow_count;
    const double factor = exp(ln_factor);
    const double ln_peak = losses->ln_flow[count - 1];
    for (size_t f = 0; f < count; f++) {
        double flow = factor * nominal->flow_m3s[f];
        double ln_flow = ln_factor + losses->ln_flow[f];
        if (f + 1 == count || !(flow < nominal->peak_m3s)) {
            flow = nominal->peak_m3s;
            ln_flow = ln_peak;
        }
        double place = fmax((ln_flow - losses->ln_least) * (1.0 / QLL_LOSS_STEP), 0.0);
        size_t at = (size_t)fmin(place, (double)(losses->count - 2));
        double share = place - (double)at;
        double loss_pa = (1.0 + residual) * between(losses->main_pa, at, share)
                         + between(losses->upstream_pa, at, share);
        draw->flow_m3s[f] = flow;
        for (size_t s = 0; s < nominal->supply_count; s++) {
            draw->inlet_pa[s * count + f] =
                draw->supply_static_pa_gauge[s] + draw->site.barometric_pa - loss_pa;
        }
    }
}

static void draw_building(drawn *draw)
{
    const qll_uncertainty *uncertainty = &draw->drawing->uncertainty;
    const qll_supply *nominal = &draw->drawing->site->supply;
    const qll_duty *duty = draw->drawing->duty;
    qll_supply *supply = &draw->site.supply;
    double ln_factor = uncertainty->demand_ln_sigma * qll_sample_normal(&draw->building);
    double level = 1.0 + even(&draw->building, uncertainty->static_share);
    double residual = even(&draw->building, uncertainty->residual_share);
    supply->static_high_pa_gauge = level * nominal->static_high_pa_gauge;
    supply->static_low_pa_gauge = level * nominal->static_low_pa_gauge;
    for (size_t i = 0; i < nominal->count; i++) {
        double loss_pa = nominal->test[0].y - nominal->test[i].y;
        draw->test[i] = (qll_point){nominal->test[i].x,
                                    level * nominal->test[0].y - (1.0 + residual) * loss_pa};
    }
    for (size_t s = 0; s < duty->supply_count; s++) {
        double before_pa_gauge = duty->supply_static_pa_gauge[s];
        draw->supply_static_pa_gauge[s] = level * before_pa_gauge;
        draw->inlet_static_pa[s] =
            duty->inlet_static_pa[s] + draw->supply_static_pa_gauge[s] - before_pa_gauge;
    }
    draw_flows(draw, ln_factor, residual);
}

static void draw_valve(const qll_uncertainty *uncertainty, qll_random *random, drawn_valve *part)
{
    const qll_valve *nominal = part->from->valve;
    const qll_curve law = part->from->law->kv_of_falloff;
    bool xfz_estimated = isnan(nominal->xfz);
    bool stable_estimated = (nominal->defaulted & (1u << QLL_VALVE_FLOW_MIN)) != 0;
    double kv_factor = 1.0 + even(random, uncertainty->kv_share);
    double stable_ratio =
        stable_estimated ? uncertainty->stable_ratio_estimated : uncertainty->stable_ratio;
    part->valve.kv_m3h = kv_factor * nominal->kv_m3h;
    for (size_t i = 0; i < law.count; i++) {
        part->knots[i] = (qll_point){law.points[i].x, kv_factor * law.points[i].y};
    }
    part->branch->xfz_shift =
        even(random, xfz_estimated ? uncertainty->xfz_estimated : uncertainty->xfz_sheet);
    part->branch->set_pa_gauge = part->from->set_pa_gauge + even(random, uncertainty->set_drift_pa);
    part->valve.lockup_rise_pa =
        nominal->lockup_rise_pa * (1.0 + even(random, uncertainty->lockup_share));
    part->valve.flow_min_m3s = nominal->flow_min_m3s * pow(stable_ratio, even(random, 1.0));
}

/* A verdict holds where the draw's is of the same grade; both stand in the order of the rules. */
static void count_held(const qll_assessment *assessed, const qll_verdict *worst, size_t count,
                       size_t held[QLL_RULE_COUNT])
{
    size_t at = 0;
    for (size_t v = 0; v < assessed->verdict_count; v++) {
        const qll_verdict *verdict = &assessed->verdicts[v];
        while (at < count && worst[at].rule < verdict->rule) {
            at += 1;
        }
        bool holds =
            at < count && worst[at].rule == verdict->rule && worst[at].grade == verdict->grade;
        held[verdict->rule] += holds ? 1 : 0;
    }
}

static qll_status grade_draws(drawn *draw, const qll_assessment *assessed, size_t draw_count,
                              qll_arena *arena, size_t held[QLL_RULE_COUNT])
{
    for (size_t i = 0; i < draw_count; i++) {
        qll_verdict drawn_worst[QLL_RULE_COUNT];
        size_t drawn_count = 0;
        draw_building(draw);
        for (size_t j = 0; j < draw->part_count; j++) {
            draw_valve(&draw->drawing->uncertainty, &draw->valves, &draw->parts[j]);
        }
        if (qll_station_grade(&draw->station, &draw->site, &draw->duty, arena, drawn_worst,
                              &drawn_count)
            != QLL_OK) {
            return QLL_NO_MEMORY;
        }
        count_held(assessed, drawn_worst, drawn_count, held);
    }
    return QLL_OK;
}

qll_status qll_sensitivity_of(const qll_drawing *drawing, const qll_station *station,
                              const qll_assessment *assessed, size_t draw_count, qll_arena *arena,
                              qll_sensitivity *found)
{
    const qll_arena_mark mark = qll_arena_now(arena);
    drawn draw = {.drawing = drawing,
                  .building = qll_random_seeded(drawing->seed),
                  .valves = qll_random_seeded(~drawing->seed)};
    size_t held[QLL_RULE_COUNT] = {0};
    qll_status status = take_duty(&draw, arena);
    if (status == QLL_OK) {
        status = take_station(&draw, station, arena);
    }
    if (status == QLL_OK) {
        status = grade_draws(&draw, assessed, draw_count, arena, held);
    }
    qll_arena_reset(arena, mark);
    found->draw_count = draw_count;
    for (size_t rule = 0; rule < QLL_RULE_COUNT; rule++) {
        found->holds_share[rule] = NAN;
    }
    for (size_t v = 0; v < assessed->verdict_count && draw_count > 0; v++) {
        qll_rule rule = assessed->verdicts[v].rule;
        found->holds_share[rule] = (double)held[rule] / (double)draw_count;
    }
    return status;
}
