/* What the outlet does as flow and inlet change: inlet effect, fall-off, a screen that takes more and more. */
#include "numeric/robust.h"
#include "signals/pressure_judging.h"

#include <math.h>

#define QLL_INLET_APART_PA 5e3
#define QLL_INLET_MOVED_PA 30e3
#define QLL_EFFECT_WINDOWS ((size_t)8)
#define QLL_TREND_Z        3.09 /* 0.1 %: other faults move window starts too */
#define QLL_RUNS_LEAST     ((size_t)10)
#define QLL_HIGH_SHARE     0.95
#define QLL_CONVEX_TIMES   1.8
#define QLL_EXPLAINED      0.45

void qll_points_sort(qll_points *p)
{
    for (size_t gap = p->count / 2; gap > 0; gap /= 2) {
        for (size_t i = gap; i < p->count; i++) {
            const double x = p->x[i];
            const double y = p->y[i];
            size_t at = i;
            for (; at >= gap && p->x[at - gap] > x; at -= gap) {
                p->x[at] = p->x[at - gap];
                p->y[at] = p->y[at - gap];
            }
            p->x[at] = x;
            p->y[at] = y;
        }
    }
}

static double slope_of(qll_judging *j, const qll_points *p, size_t from, size_t to, double apart)
{
    return qll_theil_sen(p->x + from, p->y + from, to - from, apart, j->state->scratch);
}

void qll_judge_inlet_effect(qll_judging *j)
{
    qll_pressure_state *s = j->state;
    qll_points *p = qll_arena_take(j->arena, 1, sizeof *p);
    j->inlet_effect = (double)NAN;
    j->corrected_effect = 0.0;
    if (p == NULL || !s->facts.has[QLL_CHANNEL_INLET] || s->window_count < QLL_EFFECT_WINDOWS) {
        return;
    }
    p->count = s->window_count < QLL_PAIRED_MOST ? s->window_count : QLL_PAIRED_MOST;
    for (size_t i = 0; i < p->count; i++) {
        const qll_rest_window *w = &s->windows[qll_kept_place(i, p->count, s->window_count)];
        p->x[i] = w->inlet_pa;
        p->y[i] = w->outlet_pa;
    }
    qll_points_sort(p);
    const double moved_pa = p->x[p->count - 1 - p->count / 20] - p->x[p->count / 20];
    const double slope = slope_of(j, p, 0, p->count, QLL_INLET_APART_PA);
    const double z = qll_mann_kendall(p->y, p->count, s->scratch).z;
    if (!(moved_pa >= QLL_INLET_MOVED_PA) || isnan(slope)) {
        return;
    }
    j->inlet_effect = slope;
    j->corrected_effect = z > QLL_TREND_Z ? fmax(slope, 0.0) : 0.0;
    j->result->features.inlet_effect = slope;
    const double strength = z > QLL_TREND_Z ? qll_grade(slope, 0.08, 0.15, 0.3) : 0.0;
    qll_pressure_finding *found = qll_finding_add(j, QLL_PRESSURE_WORD_INLET_EFFECT, strength,
                                                  slope, s->first_ms, s->last_ms);
    if (found != NULL) {
        found->stretch = &j->result->overview;
        if (j->expect->outlet_pa_gauge != NULL) {
            const double low = p->x[p->count / 20];
            const double high = low + moved_pa;
            found->expected = (j->expect->outlet_pa_gauge(j->expect->context, high, 0.0)
                               - j->expect->outlet_pa_gauge(j->expect->context, low, 0.0))
                              / moved_pa;
        }
    }
}

/* ---- fall-off ---- */

static bool take_runs(qll_judging *j, qll_points *seen, qll_points *should)
{
    const qll_pressure_state *s = j->state;
    const size_t count = s->run_count < QLL_PAIRED_MOST ? s->run_count : QLL_PAIRED_MOST;
    seen->count = should->count = 0;
    for (size_t i = 0; i < count; i++) {
        const qll_steady_run *run = &s->runs[qll_kept_place(i, count, s->run_count)];
        const double off_pa = isnan(run->inlet_pa) ? 0.0 : run->inlet_pa - j->inlet_median_pa;
        seen->x[seen->count] = run->flow_m3s;
        seen->y[seen->count] = run->outlet_pa - j->corrected_effect * off_pa;
        seen->count += 1;
        if (j->expect->outlet_pa_gauge != NULL && !isnan(run->inlet_pa)) {
            const double outlet_pa =
                j->expect->outlet_pa_gauge(j->expect->context, run->inlet_pa, run->flow_m3s);
            if (isfinite(outlet_pa)) {
                should->x[should->count] = run->flow_m3s;
                should->y[should->count] = outlet_pa;
                should->count += 1;
            }
        }
    }
    qll_points_sort(seen);
    qll_points_sort(should);
    return seen->count >= QLL_RUNS_LEAST;
}

/* Median of y less slope times x. */
static double level_of(qll_judging *j, const qll_points *p, size_t from, size_t to, double slope)
{
    for (size_t i = from; i < to; i++) {
        j->state->scratch[i - from] = p->y[i] - slope * p->x[i];
    }
    return qll_median(j->state->scratch, to - from);
}

/* How much more than a straight line falls away at the high flow, and how much steeper the upper half is. */
static double beyond_of(qll_judging *j, const qll_points *p, double high_m3s, double *times)
{
    const size_t half = p->count / 2;
    const double lower = slope_of(j, p, 0, half, QLL_FLOW_APART_M3S / 2.0);
    const double upper = slope_of(j, p, half, p->count, QLL_FLOW_APART_M3S);
    *times = upper / lower;
    if (isnan(lower) || isnan(upper)) {
        return (double)NAN;
    }
    const double straight = fmin(lower, 0.0);
    const double from_line = level_of(j, p, 0, half, straight) + straight * high_m3s;
    const double there = level_of(j, p, half, p->count, upper) + upper * high_m3s;
    *times = upper / fmin(lower, -1e6);
    return from_line - there;
}

/* True if it is one to act on. */
static bool judge_strainer(qll_judging *j, const qll_points *seen, const qll_points *should,
                           double ratio)
{
    double times = 0.0;
    double should_times = 0.0;
    const double high_m3s = j->result->features.high_flow_m3s;
    double beyond_pa = beyond_of(j, seen, high_m3s, &times);
    if (should->count >= QLL_RUNS_LEAST) {
        const double usual_pa = beyond_of(j, should, high_m3s, &should_times);
        beyond_pa -= isnan(usual_pa) ? 0.0 : fmax(usual_pa, 0.0);
    }
    const double strength =
        fmin(qll_grade(beyond_pa, 15e3, 35e3, 100e3), qll_grade(times, 1.2, QLL_CONVEX_TIMES, 3.0));
    qll_pressure_finding *found = qll_finding_add(j, QLL_PRESSURE_WORD_STRAINER, strength,
                                                  beyond_pa, j->state->first_ms, j->state->last_ms);
    if (found != NULL) {
        found->flow_m3s = high_m3s;
        found->ratio = ratio;
        found->stretch = j->state->kept[QLL_PRESSURE_WORD_FALL_OFF].stretch.count > 0
                             ? &j->state->kept[QLL_PRESSURE_WORD_FALL_OFF].stretch
                             : NULL;
    }
    return strength >= 0.5;
}

void qll_judge_flow(qll_judging *j)
{
    qll_points *seen = qll_arena_take(j->arena, 2, sizeof *seen);
    qll_pressure_features *f = &j->result->features;
    if (seen == NULL || !take_runs(j, seen, seen + 1)) {
        return;
    }
    qll_points *should = seen + 1;
    const double slope = slope_of(j, seen, 0, seen->count, QLL_FLOW_APART_M3S);
    if (isnan(slope)) {
        return;
    }
    const size_t half = seen->count / 2;
    const double lower = slope_of(j, seen, 0, half, QLL_FLOW_APART_M3S / 2.0);
    f->set_point_pa_gauge = isnan(lower) ? level_of(j, seen, 0, seen->count, fmin(slope, 0.0))
                                         : level_of(j, seen, 0, half, fmin(lower, 0.0));
    f->high_flow_m3s = seen->x[(size_t)(QLL_HIGH_SHARE * (double)(seen->count - 1))];
    f->fall_off_slope = -slope;
    f->fall_off_pa = f->set_point_pa_gauge
                     - level_of(j, seen, half, seen->count,
                                slope_of(j, seen, half, seen->count, QLL_FLOW_APART_M3S))
                     - slope_of(j, seen, half, seen->count, QLL_FLOW_APART_M3S) * f->high_flow_m3s;
    f->fall_off_pa = isnan(f->fall_off_pa) ? -slope * f->high_flow_m3s : f->fall_off_pa;
    double expected = (double)NAN;
    double strength = qll_grade(f->fall_off_pa / f->set_point_pa_gauge, 0.15, 0.3, 0.5);
    if (should->count >= QLL_RUNS_LEAST) {
        expected = -slope_of(j, should, 0, should->count, QLL_FLOW_APART_M3S);
        /* Many times next to nothing is little: 1, 3 and 7 psi more. */
        strength = fmin(qll_grade(-slope / expected, 1.3, 2.0, 3.0),
                        qll_grade(f->fall_off_pa - expected * f->high_flow_m3s, 7e3, 21e3, 48e3));
    }
    const double ratio = -slope / expected;
    if (judge_strainer(j, seen, should, ratio)) {
        strength =
            fmin(strength, QLL_EXPLAINED); /* the screen is what takes it: one cause counts once */
    }
    qll_pressure_finding *found =
        qll_finding_add(j, QLL_PRESSURE_WORD_FALL_OFF, strength, f->fall_off_pa, j->state->first_ms,
                        j->state->last_ms);
    if (found != NULL) {
        found->flow_m3s = f->high_flow_m3s;
        found->expected = expected * f->high_flow_m3s;
        found->ratio = ratio;
        found->level_pa_gauge = f->set_point_pa_gauge;
    }
}
