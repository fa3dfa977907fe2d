/* Windows without flow: a seat that leaks, water that expands, a lock-up that is high. */
#include "numeric/robust.h"
#include "signals/pressure_judging.h"

#include <math.h>

#define QLL_TREND_Z         2.33 /* 1 %, one side */
/* The most that a supply that recovers is believed to lift a closed outlet. */
#define QLL_EFFECT_MOST     0.5
#define QLL_EFFECT_SPARE    1.3 /* as the effect itself is known to a third */
#define QLL_AT_INLET_PA     15e3
#define QLL_FROM_BELOW_PA   40e3
#define QLL_SWOLLEN_PA      40e3
/* A working tank lets a heater of 11 kW lift it by some 100 Pa/s, closed pipes without one by 400 and more. */
#define QLL_STEEP_PA_S      200.0
#define QLL_EXPAND_LATE     0.25
#define QLL_EXPLAINED       0.45
#define QLL_OVER_PA         20e3
/* A leak swells nearly all windows, a heater does not fire in each. */
#define QLL_LEAK_SHARE      0.8
#define QLL_WINDOWS_LEAST   4.0
/* A lock-up to act on. */
#define QLL_HIGH_LOCK_UP_PA 69e3
/* A leak rises evenly from the start; what rises late alone is a heater that fires then. */
#define QLL_EVEN_SHARE      0.5

typedef struct rest_counts {
    double windows, early, late, late_rises, at_inlet, swollen, steep;
    double late_rate, early_rate, at_inlet_rate; /* medians, Pa/s */
    double over_pa, top_pa, lock_up_pa, lock_up_quarter_pa;
} rest_counts;

/* A slope without what the inlet lifts. */
static double own_slope(double slope, double inlet_slope, double effect)
{
    return slope - (isnan(inlet_slope) ? 0.0 : QLL_EFFECT_SPARE * effect * fmax(inlet_slope, 0.0));
}

/* Median of those values of the windows that are chosen. */
static double median_chosen(double *values, size_t count)
{
    return count == 0 ? (double)NAN : qll_median(values, count);
}

static rest_counts count_windows(qll_judging *j)
{
    qll_pressure_state *s = j->state;
    double *late = s->scratch;
    double *early = late + QLL_KEPT_ROOM;
    double *ends = early + QLL_KEPT_ROOM;
    double *starts = ends + QLL_KEPT_ROOM;
    size_t late_count = 0;
    size_t early_count = 0;
    size_t end_count = 0;
    rest_counts n = {.windows = (double)s->window_count,
                     .over_pa = -(double)INFINITY,
                     .top_pa = -(double)INFINITY};
    const double effect = fmin(fmax(j->corrected_effect, 0.0), QLL_EFFECT_MOST);
    for (size_t i = 0; i < s->window_count; i++) {
        const qll_rest_window *w = &s->windows[i];
        starts[i] = w->outlet_pa;
        n.over_pa = fmax(n.over_pa, w->over_pa);
        n.top_pa = fmax(n.top_pa, w->top_pa);
        const double lifted =
            isnan(w->inlet_pa) ? 0.0 : effect * fmax(w->end_inlet_pa - w->inlet_pa, 0.0);
        const bool is_swollen = w->top_pa - w->outlet_pa - lifted > QLL_SWOLLEN_PA;
        n.swollen += is_swollen ? 1.0 : 0.0;
        n.steep += is_swollen && w->steepest > QLL_STEEP_PA_S ? 1.0 : 0.0;
        const double own_early = own_slope(w->early, w->early_inlet, effect);
        const bool is_early = own_early > QLL_EARLY_LEAST_PA_S && w->early_z > QLL_TREND_Z;
        if (is_early) {
            early[early_count] = own_early;
            early_count += 1;
        }
        if (is_early && fabs(w->end_outlet_pa - w->end_inlet_pa) <= QLL_AT_INLET_PA
            && w->inlet_pa - w->outlet_pa >= QLL_FROM_BELOW_PA) {
            ends[end_count] = own_early;
            end_count += 1;
        }
        if (!isnan(w->late)) {
            const double own_late = own_slope(w->late, w->late_inlet, effect);
            n.late += 1.0;
            if (own_late > QLL_LATE_LEAST_PA_S && w->late_z > QLL_TREND_Z
                && own_early >= QLL_EVEN_SHARE * own_late) {
                late[late_count] = own_late;
                late_count += 1;
            }
        }
    }
    n.early = (double)early_count;
    n.late_rises = (double)late_count;
    n.at_inlet = (double)end_count;
    n.late_rate = median_chosen(late, late_count);
    n.early_rate = median_chosen(early, early_count);
    n.at_inlet_rate = median_chosen(ends, end_count);
    n.lock_up_quarter_pa =
        s->window_count > 0 ? qll_quantile(starts, s->window_count, 0.25) : (double)NAN;
    n.lock_up_pa = median_chosen(starts, s->window_count);
    return n;
}

/* True if it is one to act on. */
static bool judge_creep(qll_judging *j, const rest_counts *n)
{
    /* Of few windows one may rise by chance. */
    const double late_share = n->late > 0.0 ? fmax(n->late_rises - 0.5, 0.0) / n->late : 0.0;
    const double end_share = n->windows > 0.0 ? n->at_inlet / n->windows : 0.0;
    const double swollen_share = n->windows > 0.0 ? n->swollen / n->windows : 0.0;
    const double early_share = n->windows > 0.0 ? n->early / n->windows : 0.0;
    double share = n->late > 0.0 ? n->late_rises / n->late : 0.0;
    double rate = n->late_rate;
    double strength = fmin(qll_grade(late_share, 0.2, 0.5, 0.9),
                           qll_grade(n->late_rate, 0.5 * QLL_LATE_LEAST_PA_S, QLL_LATE_LEAST_PA_S,
                                     4.0 * QLL_LATE_LEAST_PA_S));
    const double by_end =
        n->windows >= QLL_WINDOWS_LEAST ? qll_grade(end_share, 0.2, 0.5, 0.9) : 0.0;
    if (by_end > strength) {
        strength = by_end;
        share = end_share;
        rate = n->at_inlet_rate;
    }
    /* Too fast to leave a late slope, too slow to get there in each window. */
    const double by_all = n->windows >= QLL_WINDOWS_LEAST && n->over_pa < QLL_OVER_PA
                              ? qll_grade(swollen_share, 0.6, QLL_LEAK_SHARE, 1.0)
                              : 0.0;
    if (by_all > strength) {
        strength = by_all;
        share = swollen_share;
        rate = n->early_rate;
    }
    /* None long enough to tell what comes late: then it is the share again, where nothing rises as steeply as a heater makes it. */
    const double by_early = n->late == 0.0 && n->windows >= QLL_WINDOWS_LEAST && n->steep == 0.0
                                    && n->over_pa < QLL_OVER_PA
                                ? qll_grade(early_share, 0.6, QLL_LEAK_SHARE, 1.0)
                                : 0.0;
    if (by_early > strength) {
        strength = by_early;
        share = early_share;
        rate = n->early_rate;
    }
    qll_pressure_finding *found = qll_finding_add(j, QLL_PRESSURE_WORD_CREEP, strength, rate,
                                                  j->state->first_ms, j->state->last_ms);
    if (found != NULL) {
        found->share = share;
        found->ends_at_inlet = end_share >= 0.5;
        found->level_pa_gauge = n->top_pa;
    }
    return strength >= 0.5;
}

/* True if it is one to act on. */
static bool judge_expansion(qll_judging *j, const rest_counts *n)
{
    const double swollen_share = n->windows > 0.0 ? n->swollen / n->windows : 0.0;
    const double late_share = n->late > 0.0 ? n->late_rises / n->late : 0.0;
    const double end_share = n->windows > 0.0 ? n->at_inlet / n->windows : 0.0;
    const double swell_pa = n->top_pa - n->lock_up_pa;
    double by_over =
        fmin(qll_grade(n->over_pa, 8e3, QLL_OVER_PA, 60e3), qll_grade(swell_pa, 20e3, 60e3, 150e3));
    /* Where lock-up stands near the inlet a tank that works passes it too, but never as steeply as closed pipes. */
    if (n->lock_up_quarter_pa - j->result->features.set_point_pa_gauge >= QLL_HIGH_LOCK_UP_PA) {
        by_over = fmin(by_over, qll_grade(n->steep, 0.0, 2.0, 4.0));
    }
    double by_swell = 0.0;
    const bool leaks =
        late_share >= QLL_EXPAND_LATE || end_share >= 0.5 || swollen_share >= QLL_LEAK_SHARE;
    if (!leaks) {
        by_swell = fmin(qll_grade(swell_pa, 40e3, 80e3, 200e3), qll_grade(n->steep, 0.0, 2.0, 4.0));
    }
    qll_pressure_finding *found =
        qll_finding_add(j, QLL_PRESSURE_WORD_THERMAL_EXPANSION, fmax(by_over, by_swell), swell_pa,
                        j->state->first_ms, j->state->last_ms);
    if (found != NULL) {
        found->is_over_inlet = by_over >= 0.5;
        found->share = swollen_share;
        found->level_pa_gauge = n->top_pa;
    }
    return fmax(by_over, by_swell) >= 0.5;
}

/* What rises from the start lifts lock-up: one cause counts once. */
static void judge_lock_up(qll_judging *j, const rest_counts *n, bool is_lifted)
{
    const double set_pa = j->result->features.set_point_pa_gauge;
    const double over_pa = n->lock_up_quarter_pa - set_pa;
    double strength = qll_grade(over_pa, 35e3, fmax(QLL_HIGH_LOCK_UP_PA, 0.15 * set_pa),
                                fmax(140e3, 0.3 * set_pa));
    double expected = (double)NAN;
    if (j->expect->outlet_pa_gauge != NULL && isfinite(j->inlet_median_pa)) {
        const double should_pa =
            j->expect->outlet_pa_gauge(j->expect->context, j->inlet_median_pa, 0.0);
        expected = should_pa - set_pa;
        strength = fmax(strength, qll_grade(n->lock_up_quarter_pa - should_pa, 20e3, 50e3, 120e3));
    }
    strength = is_lifted ? fmin(strength, QLL_EXPLAINED) : strength;
    qll_pressure_finding *found = qll_finding_add(j, QLL_PRESSURE_WORD_LOCK_UP, strength, over_pa,
                                                  j->state->first_ms, j->state->last_ms);
    if (found != NULL) {
        found->expected = expected;
        found->level_pa_gauge = n->lock_up_quarter_pa;
    }
}

void qll_judge_rest(qll_judging *j)
{
    const rest_counts n = count_windows(j);
    qll_pressure_features *f = &j->result->features;
    if (n.windows == 0.0) {
        return;
    }
    f->late_count = n.late;
    f->early_share = n.early / n.windows;
    f->late_share = n.late > 0.0 ? n.late_rises / n.late : (double)NAN;
    f->lock_up_pa_gauge = n.lock_up_pa;
    const bool creeps = judge_creep(j, &n);
    const bool expands = judge_expansion(j, &n);
    judge_lock_up(j, &n, creeps || expands);
}
