/* Whether the fall-off grows over days and weeks: docs/theory/pressure_log.md, "Over days and weeks". */
#include "numeric/robust.h"
#include "signals/pressure_course.h"
#include "signals/pressure_judging.h"

#include <math.h>

#define QLL_DAY_MS        ((int64_t)86400 * 1000)
#define QLL_SPANS_MOST    60
#define QLL_SPAN_RUNS     ((size_t)8)
#define QLL_CLASSES       ((size_t)8)
/* Of the usual inlet over the set-point: with less the valve has nothing left to hold back. */
#define QLL_OVER_LEAST    0.1
#define QLL_GROWN_PA      15e3
/* What the inlet lost of it: then it is not this station's. */
#define QLL_INLET_SHARE   0.5
#define QLL_NOT_TO_ACT_ON 0.45

/* Of a run, what is followed: by how much it is down. NaN where it tells nothing. */
typedef double figure_of(const qll_judging *j, const qll_steady_run *run);

/* The whole log's own curve of it. */
typedef struct curve {
    double flow_m3s[QLL_CLASSES], down_pa[QLL_CLASSES];
    double slope; /* beyond both ends */
} curve;

/* What the outlet lacks of the set-point, as it would be at the median inlet: a straight valve opens by Q/sqrt(P1 - P2). */
static double fall_off_of(const qll_judging *j, const qll_steady_run *run)
{
    const double set_pa = j->result->features.set_point_pa_gauge;
    if (isnan(run->inlet_pa)) {
        return set_pa - run->outlet_pa;
    }
    const double off_pa = run->inlet_pa - j->inlet_median_pa;
    const double fall_off_pa = set_pa - (run->outlet_pa - j->corrected_effect * off_pa);
    const double usual_pa = j->inlet_median_pa - set_pa;
    const double over_pa = run->inlet_pa - set_pa;
    return usual_pa > 0.0 && over_pa >= QLL_OVER_LEAST * usual_pa
               ? fall_off_pa * sqrt(over_pa / usual_pa)
               : (double)NAN;
}

static double inlet_down_of(const qll_judging *j, const qll_steady_run *run)
{
    return j->inlet_median_pa - run->inlet_pa;
}

/* The runs [from, to), evenly thinned, in rising order of flow. */
static void take_points(const qll_judging *j, figure_of *figure, size_t from, size_t to,
                        qll_points *points)
{
    const size_t kept = to - from < QLL_PAIRED_MOST ? to - from : QLL_PAIRED_MOST;
    points->count = 0;
    for (size_t i = 0; i < kept; i++) {
        const qll_steady_run *run = &j->state->runs[from + qll_kept_place(i, kept, to - from)];
        const double down_pa = figure(j, run);
        if (!isnan(down_pa)) {
            points->x[points->count] = run->flow_m3s;
            points->y[points->count] = down_pa;
            points->count += 1;
        }
    }
    qll_points_sort(points);
}

static double slope_of(const qll_judging *j, const qll_points *points, double apart)
{
    return qll_theil_sen(points->x, points->y, points->count, apart, j->state->scratch);
}

static double median_of(const qll_judging *j, const double *values, size_t from, size_t to)
{
    for (size_t i = from; i < to; i++) {
        j->state->scratch[i - from] = values[i];
    }
    return qll_median(j->state->scratch, to - from);
}

static curve curve_of(const qll_judging *j, const qll_points *points)
{
    curve of = {.slope = slope_of(j, points, QLL_FLOW_APART_M3S)};
    for (size_t k = 0; k < QLL_CLASSES; k++) {
        const size_t from = k * points->count / QLL_CLASSES;
        const size_t to = (k + 1) * points->count / QLL_CLASSES;
        of.flow_m3s[k] = median_of(j, points->x, from, to);
        of.down_pa[k] = median_of(j, points->y, from, to);
    }
    return of;
}

static double curve_at(const curve *of, double flow_m3s)
{
    if (flow_m3s <= of->flow_m3s[0]) {
        return of->down_pa[0] + of->slope * (flow_m3s - of->flow_m3s[0]);
    }
    for (size_t k = 1; k < QLL_CLASSES; k++) {
        if (flow_m3s <= of->flow_m3s[k]) {
            const double share = (flow_m3s - of->flow_m3s[k - 1])
                                 / (of->flow_m3s[k] - of->flow_m3s[k - 1]); /* > 0 by the former */
            return of->down_pa[k - 1] + share * (of->down_pa[k] - of->down_pa[k - 1]);
        }
    }
    return of->down_pa[QLL_CLASSES - 1] + of->slope * (flow_m3s - of->flow_m3s[QLL_CLASSES - 1]);
}

/* By how much more than usual it is down at the high flow, span by span. @p down_pa: the usual of it there. */
static bool follow(qll_judging *j, figure_of *figure, int64_t width_ms, qll_course *course,
                   double *down_pa)
{
    const qll_pressure_state *s = j->state;
    const double high_m3s = j->result->features.high_flow_m3s;
    qll_points *points = qll_arena_take(j->arena, 1, sizeof *points);
    if (points == NULL) {
        return false;
    }
    take_points(j, figure, 0, s->run_count, points);
    course->count = 0;
    if (points->count < QLL_CLASSES) {
        return true;
    }
    const curve usual = curve_of(j, points);
    *down_pa = curve_at(&usual, high_m3s);
    for (size_t from = 0; from < s->run_count;) {
        const int64_t span = (s->runs[from].start_ms - s->first_ms) / width_ms;
        size_t to = from + 1;
        for (; to < s->run_count && (s->runs[to].start_ms - s->first_ms) / width_ms == span; to++) {
        }
        take_points(j, figure, from, to, points);
        for (size_t i = 0; i < points->count; i++) {
            points->y[i] -= curve_at(&usual, points->x[i]);
            points->x[i] *= points->x[i];
        }
        const double more_pa =
            slope_of(j, points, QLL_FLOW_APART_M3S * high_m3s) * high_m3s * high_m3s;
        if (points->count >= QLL_SPAN_RUNS && !isnan(more_pa)) {
            course->day[course->count] = (double)(span * width_ms) / (double)QLL_DAY_MS;
            course->at_ms[course->count] = s->first_ms + span * width_ms;
            course->value[course->count] = more_pa;
            course->count += 1;
        }
        from = to;
    }
    return true;
}

/* The outlet at the high flow, a value a span. */
static void keep_evidence(qll_judging *j, const qll_course *course, int64_t width_ms,
                          double down_pa)
{
    qll_pressure_stretch *stretch = &j->state->kept[QLL_PRESSURE_WORD_FALL_OFF_DRIFT].stretch;
    const qll_pressure_features *f = &j->result->features;
    const int64_t spans = (course->at_ms[course->count - 1] - j->state->first_ms) / width_ms + 1;
    stretch->from_unix_s = (double)j->state->first_ms / 1000.0;
    stretch->to_unix_s = (double)(j->state->first_ms + spans * width_ms) / 1000.0;
    stretch->count = (size_t)spans;
    for (size_t i = 0; i < stretch->count; i++) {
        stretch->inlet_pa[i] = stretch->outlet_pa[i] = (double)NAN;
        stretch->flow_m3s[i] = f->high_flow_m3s;
    }
    for (size_t i = 0; i < course->count; i++) {
        const size_t span = (size_t)((course->at_ms[i] - j->state->first_ms) / width_ms);
        stretch->outlet_pa[span] = f->set_point_pa_gauge - down_pa - course->value[i];
    }
}

/* Did what the inlet lacks grow along with it? */
static bool is_of_inlet(qll_judging *j, int64_t width_ms, qll_course *course, double grown_pa)
{
    double usual_pa = 0.0;
    if (!j->state->facts.has[QLL_CHANNEL_INLET]
        || !follow(j, inlet_down_of, width_ms, course, &usual_pa)
        || course->count < QLL_COURSE_LEAST) {
        return false;
    }
    const qll_course_move move = qll_course_moved(course, j->state->scratch);
    return move.is_certain && move.by >= QLL_INLET_SHARE * grown_pa;
}

void qll_judge_fall_off_drift(qll_judging *j)
{
    const qll_pressure_state *s = j->state;
    qll_pressure_features *f = &j->result->features;
    const int64_t days = (s->last_ms - s->first_ms) / QLL_DAY_MS + 1;
    const int64_t width_ms = (days / QLL_SPANS_MOST + 1) * QLL_DAY_MS;
    qll_course *course = qll_arena_take(j->arena, 1, sizeof *course);
    double usual_pa = 0.0;
    if (course == NULL || isnan(f->set_point_pa_gauge)
        || !follow(j, fall_off_of, width_ms, course, &usual_pa)) {
        return;
    }
    f->fall_off_span_count = (double)course->count;
    if (course->count < QLL_COURSE_LEAST) {
        return;
    }
    const qll_course_move move = qll_course_moved(course, s->scratch);
    f->fall_off_moved_pa = move.by;
    keep_evidence(j, course, width_ms, usual_pa);
    const double last_pa = f->set_point_pa_gauge - usual_pa - course->value[course->count - 1];
    double strength = move.is_certain
                          ? qll_grade(move.by, 0.5 * QLL_GROWN_PA, QLL_GROWN_PA, 3.0 * QLL_GROWN_PA)
                          : 0.0;
    const bool of_inlet = strength > 0.0 && is_of_inlet(j, width_ms, course, move.by);
    strength = of_inlet ? fmin(strength, QLL_NOT_TO_ACT_ON) : strength;
    qll_pressure_finding *found =
        qll_finding_add(j, QLL_PRESSURE_WORD_FALL_OFF_DRIFT, strength, move.by,
                        move.is_step ? move.from_ms : s->first_ms, s->last_ms);
    if (found != NULL) {
        found->is_step = move.is_step;
        found->is_of_inlet = of_inlet;
        found->flow_m3s = f->high_flow_m3s;
        found->level_pa_gauge = last_pa;
    }
}
