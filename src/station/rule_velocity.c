/* Velocity: judged where a valve does its work. */
#include "station/rules.h"

#include <math.h>

/* A branch in charge of less of the water than this is judged by the design peak alone (our
 * assumption). */
#define QLL_WORK_LEAST_SHARE 0.01
/* Above the band at the design peak is tolerated as long as no more of the branch's water than this
 * flows so fast (our assumption). */
#define QLL_FAST_SHARE       0.05

/* A branch that only helps at the design peak, while another is in charge, may run so many times
 * faster than the most: it carries the lesser part of a flow that is hardly ever seen (our
 * assumption; 12 ft/s in copper). */
#define QLL_HELPER_FACTOR 1.5

bool qll_is_too_fast(const qll_limits *limits, double velocity_m_s, bool in_charge)
{
    double factor = in_charge ? 1.0 : QLL_HELPER_FACTOR;
    return velocity_m_s > factor * limits->velocity_max_m_s;
}

/* Where a branch works and how fast. */
typedef struct branch_work {
    double water;      /* share of all water while it is in charge */
    double speed_sum;  /* of velocity, by that share */
    double fast_water; /* share of all water while in charge and above the band */
    double peak_m_s;   /* the greatest velocity at any scenario's design peak */
    double peak_flow_m3s;
    double charge_peak_m_s; /* the same, of peaks at which it is in charge */
} branch_work;

/* What a branch would have to carry of a flow the stage cannot pass: its part of the full openings. */
static double wanted_m3s(const qll_stage *stage, size_t branch, double flow_m3s)
{
    double full = 0.0;
    for (size_t j = 0; j < stage->branch_count; j++) {
        full += stage->branches[j].valve->kv_m3h;
    }
    return flow_m3s * stage->branches[branch].valve->kv_m3h / full;
}

static void see_peak(const qll_stage *stage, const qll_operating_point *point, qll_spot at,
                     branch_work *work)
{
    const qll_branch_state *states = point->branches[at.stage];
    double flow_m3s = states[at.branch].flow_m3s;
    bool in_charge = qll_in_charge(states, stage->branch_count) == at.branch;
    if (isnan(point->stage_outlet_pa[at.stage])) {
        flow_m3s = wanted_m3s(stage, at.branch, point->flow_m3s);
        in_charge = true;
    }
    double velocity = qll_pipe_velocity_m_s(flow_m3s, stage->branches[at.branch].pipe_bore_m);
    if (velocity > work->peak_m_s) {
        work->peak_m_s = velocity;
        work->peak_flow_m3s = flow_m3s;
    }
    if (in_charge) {
        work->charge_peak_m_s = fmax(work->charge_peak_m_s, velocity);
    }
}

static branch_work work_of(const qll_operation *operation, size_t stage, size_t branch)
{
    const qll_duty *duty = operation->duty;
    const qll_stage *of = &operation->station->stages[stage];
    branch_work work = {0};
    for (size_t s = 0; s < duty->supply_count; s++) {
        for (size_t f = 0; f < duty->flow_count; f++) {
            const qll_operating_point *point = &operation->points[s * duty->flow_count + f];
            const qll_branch_state *states = point->branches[stage];
            if (!states[branch].working || qll_in_charge(states, of->branch_count) != branch) {
                continue;
            }
            double water = qll_water_share(duty, s, f);
            double velocity = states[branch].velocity_m_s;
            work.water += water;
            work.speed_sum += water * velocity;
            work.fast_water += velocity > operation->site->limits.velocity_high_m_s ? water : 0.0;
        }
    }
    for (size_t s = 0; s < duty->scenario_count; s++) {
        const qll_spot at = {.stage = stage, .branch = branch};
        see_peak(of, &operation->peak_low[s], at, &work);
        see_peak(of, &operation->peak_high[s], at, &work);
    }
    return work;
}

/* The largest size whose pipe reaches the band and stays below the most; where none does both, the
 * smallest that stays below the most. NaN if there is none. */
static double right_size_m(const qll_site *site, double flow_m3s)
{
    double largest_m = NAN;
    double slower_m = NAN;
    for (size_t i = 0; i < site->station_size_count; i++) {
        const qll_pipe_size *size = site->station_sizes[i];
        double velocity = qll_pipe_velocity_m_s(flow_m3s, size->bore_m);
        if (!(velocity > 0.0) || velocity > site->limits.velocity_max_m_s) {
            continue;
        }
        slower_m = isnan(slower_m) ? size->nominal_m : slower_m;
        largest_m = velocity >= site->limits.velocity_low_m_s ? size->nominal_m : largest_m;
    }
    return isnan(largest_m) ? slower_m : largest_m;
}

static void grade_work(const qll_limits *limits, const branch_work *work, qll_verdict *verdict)
{
    double low = limits->velocity_low_m_s;
    double high = limits->velocity_high_m_s;
    double peak = verdict->value_at_peak;
    double mean = verdict->value;
    bool fast = peak > high && work->fast_water > QLL_FAST_SHARE * work->water;
    verdict->grade = QLL_GRADE_CAUTION;
    if (qll_is_too_fast(limits, work->charge_peak_m_s, true) || qll_is_too_fast(limits, mean, true)
        || qll_is_too_fast(limits, peak, false)) {
        verdict->grade = QLL_GRADE_FAIL;
        verdict->finding = QLL_FINDING_VELOCITY_ABOVE_MAX;
        verdict->limit = limits->velocity_max_m_s;
    } else if (peak < low) {
        verdict->grade = QLL_GRADE_FAIL;
        verdict->finding = QLL_FINDING_VELOCITY_OVERSIZED;
        verdict->limit = low;
    } else if (mean > high) {
        verdict->finding = QLL_FINDING_VELOCITY_FAST;
        verdict->limit = high;
    } else if (fast) {
        verdict->finding = QLL_FINDING_VELOCITY_PEAK_FAST;
        verdict->limit = high;
    } else if (mean < low) {
        verdict->finding = QLL_FINDING_VELOCITY_SLOW;
        verdict->limit = low;
    } else {
        verdict->grade = QLL_GRADE_GOOD;
        verdict->finding = QLL_FINDING_VELOCITY_IN_BAND;
        verdict->limit = high;
    }
}

/* How far from the band, as a share of its end; too fast counts double. */
static double stress_of(const qll_limits *limits, const qll_verdict *verdict)
{
    double below = (limits->velocity_low_m_s - verdict->value) / limits->velocity_low_m_s;
    double above = (fmax(verdict->value, verdict->value_at_peak) - limits->velocity_high_m_s)
                   / limits->velocity_high_m_s;
    return fmax(below, 2.0 * above);
}

void qll_judge_velocity(const qll_operation *operation, qll_verdict_list *list)
{
    const qll_site *site = operation->site;
    for (size_t k = 0; k < operation->station->stage_count; k++) {
        for (size_t j = 0; j < operation->station->stages[k].branch_count; j++) {
            branch_work work = work_of(operation, k, j);
            bool works = work.water >= QLL_WORK_LEAST_SHARE;
            qll_verdict verdict = {.rule = QLL_RULE_VELOCITY,
                                   .value = works ? work.speed_sum / work.water : work.peak_m_s,
                                   .kind = QLL_KIND_VELOCITY,
                                   .value_at_peak = work.peak_m_s,
                                   .right_size_m = NAN,
                                   .spot = QLL_SPOT_WHOLE};
            verdict.spot.stage = k;
            verdict.spot.branch = j;
            grade_work(&site->limits, &work, &verdict);
            if (verdict.grade == QLL_GRADE_FAIL) {
                verdict.right_size_m = right_size_m(site, work.peak_flow_m3s);
            }
            qll_verdict_put(list, &verdict, stress_of(&site->limits, &verdict));
        }
    }
}
