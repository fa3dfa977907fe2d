/* Whether a stage's valves hunt or chatter, by the criterion of their swing, without a run: docs/theory/verdicts.md. */
#include "dynamics/held.h"
#include "dynamics/motion.h"
#include "physics/material.h"
#include "physics/surge.h"
#include "station/rules.h"

#include <math.h>

/* So many parts of the running time are each looked at in their middle, at the middle supply. */
#define QLL_HUNTING_LOOKS 4
/* Share of runs in which a tap that closes starts a swing that then keeps up (valve_motion.md, 22 and 23): of
 * direct-acting valves, which friction holds until then, and of pilot-operated ones. */
#define QLL_STARTS_DIRECT 0.4
#define QLL_STARTS_PILOT  0.8
/* Pipes of which nothing is known (our assumption). */
#define QLL_PIPE_BEFORE_M 10.0
#define QLL_PIPE_BEHIND_M 5.0
#define QLL_WAVE_M_S      1250.0
#define QLL_WAVE_LOSS     0.1
/* What taps and hoses give beside the pipe (the middle of stability.md's range). */
#define QLL_TAPS_M3_PA    3e-11
#define QLL_NODE_M3_PA    1e-12

static double wave_speed_m_s(const qll_pipe_size *size, const qll_water *water)
{
    const qll_material *material =
        size == NULL ? NULL : qll_material_find(qll_text_of(size->material));
    if (material == NULL) {
        return QLL_WAVE_M_S;
    }
    const qll_surge_pipe pipe = {.bore_m = size->bore_m,
                                 .wall_m = size->wall_m,
                                 .modulus_pa = material->modulus_pa,
                                 .poisson = material->poisson,
                                 .anchoring = QLL_ANCHORED_JOINTS};
    double speed = qll_wave_speed_m_s(&pipe, water->bulk_modulus_pa, water->density_kg_m3);
    return speed > 0.0 ? speed : QLL_WAVE_M_S;
}

static qll_lumped_pipe pipe_of(const qll_pipe_run *run, const qll_pipe_size *size,
                               const qll_water *water)
{
    return (qll_lumped_pipe){run->length_m, run->bore_m, wave_speed_m_s(size, water),
                             QLL_WAVE_LOSS};
}

static qll_lumped_pipe pipe_before(const qll_site *site, size_t stage, double bore_m)
{
    for (size_t i = stage == 0 ? site->upstream_count : 0; i > 0; i--) {
        const qll_element *element = &site->upstream[i - 1];
        if (element->kind == QLL_ELEMENT_PIPE && element->pipe.length_m > 0.0) {
            return pipe_of(&element->pipe, element->size, &site->water);
        }
    }
    return (qll_lumped_pipe){QLL_PIPE_BEFORE_M, bore_m, QLL_WAVE_M_S, QLL_WAVE_LOSS};
}

static qll_lumped_pipe pipe_behind(const qll_site *site, bool is_last, double bore_m)
{
    for (size_t i = 0; is_last && i < site->outlet_count; i++) {
        const qll_outlet *outlet = &site->outlets[i];
        if (outlet->path_count > 0 && outlet->path[0].pipe.length_m > 0.0) {
            return pipe_of(&outlet->path[0].pipe, outlet->path[0].size, &site->water);
        }
    }
    return (qll_lumped_pipe){QLL_PIPE_BEHIND_M, bore_m, QLL_WAVE_M_S, QLL_WAVE_LOSS};
}

/* A stage as it moves, but for the supply's pressure, which is of a moment. */
typedef struct moving_stage {
    qll_around around;
    qll_regulator *valves;
    qll_lumped lumped;
    double *values;
    double set_pa_gauge; /* the highest */
} moving_stage;

static qll_status make_valves(const qll_operation *operation, const qll_stage *stage,
                              qll_arena *arena, qll_regulator *valves)
{
    const qll_site *site = operation->site;
    const qll_motion usual = qll_motion_usual();
    for (size_t j = 0; j < stage->branch_count; j++) {
        const qll_branch *branch = &stage->branches[j];
        const qll_regulator_of of = {.valve = branch->valve,
                                     .law = branch->law,
                                     .motion = &usual,
                                     .set_pa = branch->set_pa_gauge + site->barometric_pa,
                                     .set_inlet_pa =
                                         stage->set_inlet_pa_gauge + site->barometric_pa,
                                     .water = &site->water};
        qll_status status = qll_regulator_make(&of, arena, &valves[j]);
        if (status != QLL_OK) {
            return status;
        }
    }
    return QLL_OK;
}

static qll_status make_stage(const qll_operation *operation, size_t k, qll_arena *arena,
                             moving_stage *made)
{
    const qll_site *site = operation->site;
    const qll_stage *stage = &operation->station->stages[k];
    const double bore_m = stage->branches[0].pipe_bore_m;
    const qll_lumped_pipe before = pipe_before(site, k, bore_m);
    const qll_lumped_pipe behind =
        pipe_behind(site, k + 1 == operation->station->stage_count, bore_m);
    double before_m3_pa, behind_m3_pa;
    *made = (moving_stage){.around = {.barometric_pa = site->barometric_pa}};
    made->around.before = qll_lumped_pipe_plug(&before, site->water.density_kg_m3, &before_m3_pa);
    made->around.behind = qll_lumped_pipe_plug(&behind, site->water.density_kg_m3, &behind_m3_pa);
    made->around.before_m3_pa = before_m3_pa / 2.0 + QLL_NODE_M3_PA;
    made->around.behind_m3_pa = behind_m3_pa / 2.0 + QLL_NODE_M3_PA;
    made->around.far_m3_pa = behind_m3_pa / 2.0 + QLL_TAPS_M3_PA;
    made->around.supply_pa = stage->set_inlet_pa_gauge + site->barometric_pa;
    for (size_t j = 0; j < stage->branch_count; j++) {
        made->set_pa_gauge = fmax(made->set_pa_gauge, stage->branches[j].set_pa_gauge);
    }
    made->valves = qll_arena_take(arena, stage->branch_count, sizeof *made->valves);
    if (made->valves == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_status status = make_valves(operation, stage, arena, made->valves);
    if (status == QLL_OK) {
        status =
            qll_lumped_make(made->valves, stage->branch_count, &made->around, arena, &made->lumped);
    }
    if (status != QLL_OK) {
        return status;
    }
    made->values = qll_arena_take(arena, made->lumped.at.count, sizeof *made->values);
    return made->values != NULL ? QLL_OK : QLL_NO_MEMORY;
}

/* The class in the middle of the @p part-th part of the running time. */
static size_t class_at(const qll_duty *duty, int part)
{
    const double wanted = (1.0 - duty->idle_share) * (part + 0.5) / QLL_HUNTING_LOOKS;
    double sum = 0.0;
    for (size_t f = 0; f < duty->flow_count; f++) {
        sum += duty->weight_time[f];
        if (sum >= wanted) {
            return f;
        }
    }
    return duty->flow_count - 1;
}

/* What the looks found. */
typedef struct looked {
    int looks, keeps_up;
    double worst_margin, frequency_hz, flow_m3s; /* at the look with the least margin */
} looked;

static qll_status look_at(const qll_operation *operation, size_t k, size_t f, moving_stage *stage,
                          qll_arena *arena, looked *found)
{
    const qll_duty *duty = operation->duty;
    const size_t middle = duty->supply_count / 2;
    const qll_operating_point *point = &operation->points[middle * duty->flow_count + f];
    stage->lumped.around.supply_pa =
        point->stage_inlet_pa[k] + stage->around.before.resistance_pa_s_m3 * point->flow_m3s;
    if (!isfinite(stage->lumped.around.supply_pa)
        || !qll_lumped_rest(&stage->lumped, point->flow_m3s, stage->values)) {
        return QLL_OK; /* wide open, and held by its stop */
    }
    qll_held held;
    qll_status status = qll_lumped_held(&stage->lumped, stage->values,
                                        QLL_FELT_SWING * stage->set_pa_gauge, arena, &held);
    if (status != QLL_OK) {
        return status;
    }
    found->looks += 1;
    found->keeps_up += held.keeps_up ? 1 : 0;
    if (held.smallest.margin < found->worst_margin) {
        found->worst_margin = held.smallest.margin;
        found->frequency_hz = held.frequency_hz;
        found->flow_m3s = point->flow_m3s;
    }
    return QLL_OK;
}

static qll_status look_all_over(const qll_operation *operation, size_t k, qll_arena *arena,
                                looked *found)
{
    *found = (looked){.worst_margin = INFINITY, .frequency_hz = NAN};
    moving_stage stage;
    qll_status status = make_stage(operation, k, arena, &stage);
    size_t before = SIZE_MAX;
    for (int part = 0; status == QLL_OK && part < QLL_HUNTING_LOOKS; part++) {
        const size_t f = class_at(operation->duty, part);
        if (f != before) {
            status = look_at(operation, k, f, &stage, arena, found);
        }
        before = f;
    }
    return status;
}

static double starts_share(const qll_stage *stage)
{
    for (size_t j = 0; j < stage->branch_count; j++) {
        if (stage->branches[j].valve->acting == QLL_ACTING_PILOT) {
            return QLL_STARTS_PILOT;
        }
    }
    return QLL_STARTS_DIRECT;
}

static qll_verdict verdict_of(const qll_stage *stage, size_t k, const looked *found)
{
    qll_verdict verdict = qll_verdict_new(QLL_RULE_HUNTING, QLL_KIND_NUMBER);
    verdict.spot.stage = k;
    if (stage->branch_count == 1) {
        verdict.spot.branch = 0;
    }
    verdict.value = found->looks > 0 ? found->worst_margin : (double)NAN;
    verdict.limit = 0.0;
    verdict.finding = QLL_FINDING_HUNTING_STEADY;
    if (found->worst_margin < 0.0) {
        verdict.value_at_peak = found->frequency_hz;
        verdict.corner.flow_m3s = found->flow_m3s;
        verdict.corner.split_pa_gauge = NAN;
        qll_verdict_weigh_at_most_caution(&verdict,
                                          starts_share(stage) * found->keeps_up / found->looks);
        verdict.finding =
            verdict.grade == QLL_GRADE_GOOD ? QLL_FINDING_HUNTING_HELD : QLL_FINDING_HUNTING_SWINGS;
    }
    return verdict;
}

qll_status qll_judge_hunting(const qll_operation *operation, qll_arena *arena,
                             qll_verdict_list *list)
{
    for (size_t k = 0; k < operation->station->stage_count; k++) {
        qll_arena_mark mark = qll_arena_now(arena);
        looked found;
        qll_status status = look_all_over(operation, k, arena, &found);
        qll_arena_reset(arena, mark);
        if (status == QLL_NO_MEMORY) {
            return status;
        }
        qll_verdict verdict = verdict_of(&operation->station->stages[k], k, &found);
        if (status != QLL_OK) {
            qll_verdict_unknown(&verdict, QLL_FINDING_HUNTING_UNKNOWN);
        }
        qll_verdict_put(list, &verdict, -found.worst_margin);
    }
    return QLL_OK;
}

void qll_judge_hammer(qll_verdict_list *list)
{
    qll_verdict verdict = qll_verdict_new(QLL_RULE_HAMMER, QLL_KIND_NUMBER);
    qll_verdict_unknown(&verdict, QLL_FINDING_HAMMER_NOT_RUN);
    qll_verdict_put(list, &verdict, 0.0);
}
