/* Equation numbers are those of docs/theory/stability.md. */
#include "station/low_flow_help.h"

#include "numeric/root.h"

#include <math.h>

/* Half as much more fall-off at full travel: what the next spring range or a softer build may have
 * (our assumption). */
#define QLL_MORE_FALLOFF 1.5
/* What wins less of the flowing time is no help worth a valve (our assumption). */
#define QLL_LEAST_GAIN   0.01

/* The sheet's least stable flow as a share of what the open valve passes there, and its damping. */
static double damping_of(const qll_branch *branch)
{
    const qll_valve *valve = branch->valve;
    qll_stability_point sheet = qll_valve_stability_reference(valve);
    double full_m3s = valve->kv_m3h / 3600.0 * sqrt(sheet.drop_pa / 1e5);
    return qll_stability_damping(valve->flow_min_m3s / full_m3s,
                                 qll_stability_load(branch->law->full_falloff_pa, &sheet));
}

/* The pressures round a stage that is to become two, gauge. */
typedef struct drop {
    double inlet_pa_gauge, outlet_pa_gauge;
} drop;

static double first_less_second(double between_pa_gauge, void *context)
{
    const drop *whole = context;
    return qll_stability_measure(whole->inlet_pa_gauge - between_pa_gauge, between_pa_gauge)
           - qll_stability_measure(between_pa_gauge - whole->outlet_pa_gauge,
                                   whole->outlet_pa_gauge);
}

/* The split at which both stages need the same least flow; what relieves one loads the other. */
static double best_split_pa_gauge(const qll_operation *operation, size_t stage)
{
    const qll_operating_point *typical = &operation->points[qll_typical_point(operation->duty)];
    double barometric_pa = operation->site->barometric_pa;
    drop whole = {typical->stage_inlet_pa[stage] - barometric_pa,
                  typical->stage_outlet_pa[stage] - barometric_pa};
    if (!(whole.outlet_pa_gauge > 0.0 && whole.inlet_pa_gauge > whole.outlet_pa_gauge)) {
        return NAN;
    }
    qll_root root =
        qll_root_find(whole.outlet_pa_gauge, whole.inlet_pa_gauge, 1.0, first_less_second, &whole);
    return root.converged ? root.value : (double)NAN;
}

/* Least stable flow behind the split over that of the whole drop. */
static double split_factor(const drop *whole, double between_pa_gauge)
{
    double now = qll_stability_measure(whole->inlet_pa_gauge - whole->outlet_pa_gauge,
                                       whole->outlet_pa_gauge);
    double between = fmin(between_pa_gauge, whole->inlet_pa_gauge);
    double first = qll_stability_measure(whole->inlet_pa_gauge - between, between);
    double second = qll_stability_measure(between - whole->outlet_pa_gauge, whole->outlet_pa_gauge);
    return now > 0.0 ? fmax(first, second) / now : 1.0;
}

/* Share of the flowing time that @p branch, in charge, would be unsteady: with its least stable flow
 * times @p factor, or with the stage split at @p between_pa_gauge where that is a number. */
static double time_then(const qll_operation *operation, size_t stage, size_t branch, double factor,
                        double between_pa_gauge)
{
    const qll_duty *duty = operation->duty;
    size_t branch_count = operation->station->stages[stage].branch_count;
    double barometric_pa = operation->site->barometric_pa;
    double time = 0.0;
    for (size_t s = 0; s < duty->supply_count; s++) {
        for (size_t f = 0; f < duty->flow_count; f++) {
            const qll_operating_point *point = &operation->points[s * duty->flow_count + f];
            const qll_branch_state *states = point->branches[stage];
            if (!states[branch].working || qll_in_charge(states, branch_count) != branch) {
                continue;
            }
            drop whole = {point->stage_inlet_pa[stage] - barometric_pa,
                          point->stage_outlet_pa[stage] - barometric_pa};
            double here = isnan(between_pa_gauge) ? factor : split_factor(&whole, between_pa_gauge);
            bool unsteady = states[branch].flow_m3s < here * states[branch].stable_flow_m3s;
            time += unsteady ? qll_flowing_share(duty, s, f) : 0.0;
        }
    }
    return time;
}

static size_t help_branch(const qll_operation *operation, const qll_verdict *verdict,
                          qll_low_flow_help *help)
{
    size_t stage = verdict->spot.stage;
    size_t branch = verdict->spot.branch;
    double spring = qll_stability_stiffer_spring(
        damping_of(&operation->station->stages[stage].branches[branch]), QLL_MORE_FALLOFF);
    double between_pa_gauge =
        operation->station->stage_count == 1 ? best_split_pa_gauge(operation, stage) : (double)NAN;
    size_t count = 0;
    for (int kind = 0; kind < QLL_HELP_COUNT; kind++) {
        qll_low_flow_help *one = &help[count];
        *one = (qll_low_flow_help){.kind = (qll_help_kind)kind,
                                   .spot = verdict->spot,
                                   .time_now = verdict->value,
                                   .time_then = NAN,
                                   .between_pa_gauge = NAN};
        switch ((qll_help_kind)kind) {
        case QLL_HELP_MORE_FALLOFF:
            one->time_then = time_then(operation, stage, branch, 1.0 / QLL_MORE_FALLOFF, NAN);
            break;
        case QLL_HELP_STIFFER_SPRING:
            one->time_then = time_then(operation, stage, branch, spring, NAN);
            break;
        case QLL_HELP_TWO_STAGES:
            if (isnan(between_pa_gauge)) {
                continue; /* in stages already */
            }
            one->between_pa_gauge = between_pa_gauge;
            one->time_then = time_then(operation, stage, branch, 1.0, between_pa_gauge);
            break;
        case QLL_HELP_AIR:
        case QLL_HELP_COUNT: break;
        }
        if (one->time_then > one->time_now - QLL_LEAST_GAIN) {
            continue; /* not so where it is NaN: said in words only */
        }
        count += 1;
    }
    return count;
}

size_t qll_low_flow_help_of(const qll_operation *operation, const qll_verdict_list *list,
                            qll_low_flow_help *help)
{
    size_t count = 0;
    for (size_t i = 0; i < list->count; i++) {
        const qll_verdict *verdict = &list->items[i];
        if (verdict->rule == QLL_RULE_LOW_FLOW && verdict->grade != QLL_GRADE_GOOD) {
            count += help_branch(operation, verdict, help + count);
        }
    }
    return count;
}
