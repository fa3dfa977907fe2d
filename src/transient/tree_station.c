#include "base/customary.h"
#include "transient/tree_parts.h"

#include <math.h>

/* What a by-pass passes beside its valve's full Kv (our assumption). */
static const double bypass_share = 0.1;

/* The highest setting of a stage, gauge. */
static double stage_pa_gauge(const qll_tree_order *order, size_t stage)
{
    return qll_stage_highest_set_pa_gauge(&order->station->stages[stage]);
}

double qll_tree_outlet_pa_gauge(const qll_tree_order *order)
{
    return stage_pa_gauge(order, order->station->stage_count - 1);
}

/* The opening law with the branch's strainer and reducers: what passes both in series. */
static bool law_in_series(const qll_branch *branch, qll_arena *arena, qll_opening_law *law)
{
    *law = *branch->law;
    if (!(branch->series_kv_m3h > 0)) {
        return true;
    }
    const qll_curve own = branch->law->kv_of_falloff;
    qll_point *points = qll_arena_take(arena, own.count, sizeof *points);
    if (points == NULL) {
        return false;
    }
    for (size_t i = 0; i < own.count; i++) {
        const double kv = own.points[i].y;
        points[i] =
            (qll_point){own.points[i].x, kv > 0 ? 1 / hypot(1 / kv, 1 / branch->series_kv_m3h) : 0};
    }
    law->kv_of_falloff = (qll_curve){points, own.count};
    return true;
}

static qll_status refuse_motion(qll_tree_grows *of, size_t stage, size_t branch)
{
    qll_writer path = qll_writer_new(of->problems->arena);
    qll_write_format(&path, "existing.stages[%zu].branches[%zu]", stage, branch);
    (void)qll_problems_add(
        of->problems,
        (qll_fault){.code = QLL_CODE_OUT_OF_RANGE,
                    .place = {.source = "", .path = qll_writer_text(&path).bytes},
                    .says = QLL_SAYS_WITH(
                        VALVE_CANNOT_MOVE,
                        qll_as_is(of->order->station->stages[stage].branches[branch].valve->id)),
                    .hint = QLL_SAYS(HINT_VALVE_CANNOT_MOVE)});
    return qll_problems_status(of->problems);
}

/* A valve that lets water back to its inlet when the outlet stands above it. */
static bool lay_bypass(qll_tree_grows *of, const qll_valve *valve, size_t inlet, size_t outlet)
{
    qll_check_valve *check = qll_arena_take(of->arena, 1, sizeof *check);
    if (check == NULL) {
        return false;
    }
    const double density = of->order->site->water.density_kg_m3;
    *check = (qll_check_valve){.coefficient = bypass_share * valve->kv_m3h / 3600
                                              / sqrt(1e5 * density / QLL_REFERENCE_DENSITY_KG_M3)};
    qll_tree_add_boundary(of, &qll_check_valve_kind, check, outlet, inlet);
    return true;
}

/* A valve between two joints. */
static qll_status lay_valve(qll_tree_grows *of, const size_t place[2], const size_t joint[2],
                            qll_regulator *regulator, qll_regulator_boundary *moving)
{
    const qll_site *site = of->order->site;
    const qll_stage *stage = &of->order->station->stages[place[0]];
    const qll_branch *branch = &stage->branches[place[1]];
    qll_opening_law law;
    if (!law_in_series(branch, of->arena, &law)) {
        return QLL_NO_MEMORY;
    }
    const qll_regulator_of made = {.valve = branch->valve,
                                   .law = &law,
                                   .motion = of->order->motion,
                                   .set_pa = branch->set_pa_gauge + site->barometric_pa,
                                   .set_inlet_pa = stage->set_inlet_pa_gauge + site->barometric_pa,
                                   .water = &site->water};
    const qll_status status = qll_regulator_make(&made, of->arena, regulator);
    if (status != QLL_OK) {
        return status == QLL_REFUSED ? refuse_motion(of, place[0], place[1]) : status;
    }
    *moving = qll_regulator_boundary_of(regulator, site->barometric_pa);
    qll_tree_add_boundary(of, &qll_regulator_boundary_kind, moving, joint[0], joint[1]);
    const bool is_whole =
        !branch->valve->bypass || lay_bypass(of, branch->valve, joint[0], joint[1]);
    return is_whole ? QLL_OK : QLL_NO_MEMORY;
}

/* What stands before a stage at rest, gauge. */
static double rest_inlet_pa_gauge(const qll_tree_order *order, size_t stage)
{
    return stage == 0 ? order->static_pa_gauge : stage_pa_gauge(order, stage - 1);
}

/* A gap in the last stage's seat. A drop of a psi at least, so that a main that stands lower lets nothing through. */
static bool lay_leak(qll_tree_grows *of, size_t inlet, size_t outlet)
{
    const qll_tree_order *order = of->order;
    const size_t last = order->station->stage_count - 1;
    if (!(order->leak_m3s > 0)) {
        return true;
    }
    of->tree->leak = qll_arena_take(of->arena, 1, sizeof *of->tree->leak);
    if (of->tree->leak == NULL) {
        return false;
    }
    const double drop_pa = rest_inlet_pa_gauge(order, last) - stage_pa_gauge(order, last);
    *of->tree->leak = (qll_check_valve){
        .coefficient = order->leak_m3s / sqrt(fmax(drop_pa, QLL_PSI_PA)), .from_s = INFINITY};
    qll_tree_add_boundary(of, &qll_check_valve_kind, of->tree->leak, inlet, outlet);
    return true;
}

qll_status qll_tree_lay_station(qll_tree_grows *of, size_t inlet, size_t *outlet)
{
    const qll_station *station = of->order->station;
    qll_tree *tree = of->tree;
    const size_t count = qll_station_valve_count(station);
    qll_regulator *regulators = qll_arena_take(of->arena, count, sizeof *regulators);
    size_t *stage_joint = qll_arena_take(of->arena, 2 * station->stage_count, sizeof *stage_joint);
    tree->valves = qll_arena_take(of->arena, count, sizeof *tree->valves);
    if (regulators == NULL || stage_joint == NULL || tree->valves == NULL) {
        return QLL_NO_MEMORY;
    }
    tree->regulators = regulators;
    tree->stage_joint = stage_joint;
    tree->stage_count = station->stage_count;
    for (size_t k = 0; k < station->stage_count; k++) {
        stage_joint[2 * k] = inlet;
        *outlet = stage_joint[2 * k + 1] = qll_tree_add_joint(of, 0, stage_pa_gauge(of->order, k));
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            const qll_status status =
                lay_valve(of, (const size_t[]){k, j}, (const size_t[]){inlet, *outlet},
                          &regulators[tree->valve_count], &tree->valves[tree->valve_count]);
            if (status != QLL_OK) {
                return status;
            }
            tree->valve_count += 1;
        }
        if (k + 1 == station->stage_count && !lay_leak(of, inlet, *outlet)) {
            return QLL_NO_MEMORY;
        }
        inlet = k + 1 < station->stage_count ? qll_tree_add_header(of, *outlet, 0) : *outlet;
    }
    return QLL_OK;
}
