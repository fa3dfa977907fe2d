/* The supply over the log, and the set-point over weeks. */
#include "numeric/robust.h"
#include "signals/pressure_judging.h"

#include <math.h>

#define QLL_NIGHT_FROM_MS ((int64_t)2 * 3600 * 1000)
#define QLL_NIGHT_TO_MS   ((int64_t)5 * 3600 * 1000)
#define QLL_DAY_MS        ((int64_t)86400 * 1000)
#define QLL_NIGHTS_LEAST  ((size_t)14)
#define QLL_DRIFT_PA      15e3
#define QLL_TREND_Z       2.33
/* From a set-point on paper: 2, 5 and 10 psi. */
#define QLL_SET_NONE_PA   13790.0
#define QLL_SET_ACT_PA    34474.0
#define QLL_SET_SURE_PA   68948.0
#define QLL_STEPS_MOST    ((size_t)8)
/* Nights that are judged: more are thinned evenly. */
#define QLL_NIGHTS_MOST   ((size_t)400)

void qll_judge_supply(qll_judging *j)
{
    const qll_pressure_features *f = &j->result->features;
    const double swing_pa = f->inlet_p95_pa_gauge - f->inlet_p05_pa_gauge;
    qll_pressure_finding *found =
        qll_finding_add(j, QLL_PRESSURE_WORD_SUPPLY_SWING, qll_grade(swing_pa, 50e3, 110e3, 170e3),
                        swing_pa, j->state->first_ms, j->state->last_ms);
    if (found != NULL) {
        found->level_pa_gauge = f->inlet_p05_pa_gauge;
        found->stretch = &j->result->overview;
    }
}

/* Does the window hold any time of a night, and of which day? */
static bool holds_night(const qll_pressure_state *s, const qll_rest_window *w, int64_t *day)
{
    const int64_t clock_ms = qll_pressure_clock_ms(s, w->start_ms);
    const int64_t midnight_ms = w->start_ms - clock_ms;
    const int64_t ahead = clock_ms >= QLL_NIGHT_TO_MS ? QLL_DAY_MS : 0;
    *day = (midnight_ms + ahead) / QLL_DAY_MS;
    return w->start_ms < midnight_ms + ahead + QLL_NIGHT_TO_MS
           && w->end_ms > midnight_ms + ahead + QLL_NIGHT_FROM_MS;
}

typedef struct nights {
    double x[QLL_NIGHTS_MOST], y[QLL_NIGHTS_MOST];
    int64_t at_ms[QLL_NIGHTS_MOST];
    size_t count;
} nights;

static void end_night(nights *n, double *values, size_t count, int64_t day, int64_t at_ms)
{
    if (count > 0 && n->count < QLL_NIGHTS_MOST) {
        n->x[n->count] = (double)day;
        n->y[n->count] = qll_median(values, count);
        n->at_ms[n->count] = at_ms;
        n->count += 1;
    }
}

static void take_nights(qll_judging *j, nights *n)
{
    qll_pressure_state *s = j->state;
    const int64_t days = (s->last_ms - s->first_ms) / QLL_DAY_MS + 2;
    const int64_t every = days / (int64_t)QLL_NIGHTS_MOST + 1;
    double *values = s->scratch;
    size_t count = 0;
    int64_t of = INT64_MIN;
    int64_t at_ms = 0;
    for (size_t i = 0; i < s->window_count; i++) {
        const qll_rest_window *w = &s->windows[i];
        int64_t day = 0;
        if (!holds_night(s, w, &day) || day % every != 0) {
            continue;
        }
        if (day != of) {
            end_night(n, values, count, of, at_ms);
            count = 0;
            of = day;
            at_ms = w->start_ms;
        }
        const double off_pa = isnan(w->inlet_pa) ? 0.0 : w->inlet_pa - j->inlet_median_pa;
        values[count] = w->outlet_pa - j->corrected_effect * off_pa;
        count += 1;
    }
    end_night(n, values, count, of, at_ms);
}

/* The greatest step between neighboring stretches, and the night it happened. */
static double greatest_step(qll_judging *j, nights *n, size_t *night)
{
    size_t cuts[QLL_STEPS_MOST + 1];
    double *scratch = j->state->scratch;
    const double penalty = qll_segment_penalty(n->y, n->count, scratch);
    const size_t count = qll_segments(n->y, n->count, penalty, scratch, cuts, QLL_STEPS_MOST);
    double greatest = 0.0;
    for (size_t i = 0; i < count; i++) {
        const size_t from = i == 0 ? 0 : cuts[i - 1];
        const size_t to = i + 1 < count ? cuts[i + 1] : n->count;
        const size_t before = cuts[i] - from;
        for (size_t k = from; k < to; k++) {
            scratch[k - from] = n->y[k];
        }
        const double step =
            qll_median(scratch + before, to - cuts[i]) - qll_median(scratch, before);
        if (fabs(step) > fabs(greatest)) {
            greatest = step;
            *night = cuts[i];
        }
    }
    return greatest;
}

static void judge_nights(qll_judging *j)
{
    nights *n = qll_arena_take(j->arena, 1, sizeof *n);
    if (n == NULL) {
        return;
    }
    take_nights(j, n);
    j->result->features.night_count = (double)n->count;
    if (n->count < QLL_NIGHTS_LEAST) {
        return;
    }
    size_t night = 0;
    double *scratch = j->state->scratch;
    const double step_pa = greatest_step(j, n, &night);
    const double slope = qll_theil_sen(n->x, n->y, n->count, 0.0, scratch);
    const double z = qll_mann_kendall(n->y, n->count, scratch).z;
    const double total_pa = slope * (n->x[n->count - 1] - n->x[0]);
    const bool is_step = fabs(step_pa) >= 0.7 * fabs(total_pa) && step_pa != 0.0;
    const double value = is_step ? step_pa : total_pa;
    const double strength =
        is_step || fabs(z) > QLL_TREND_Z
            ? qll_grade(fabs(value), 0.5 * QLL_DRIFT_PA, QLL_DRIFT_PA, 3.0 * QLL_DRIFT_PA)
            : 0.0;
    qll_pressure_finding *found =
        qll_finding_add(j, QLL_PRESSURE_WORD_SET_POINT_DRIFT, strength, value,
                        is_step ? n->at_ms[night] : j->state->first_ms, j->state->last_ms);
    if (found != NULL) {
        found->is_step = is_step;
        found->level_pa_gauge = n->y[n->count - 1];
        found->stretch = &j->result->overview;
    }
}

/* The set-point of the log against the survey's. */
static void judge_setting(qll_judging *j)
{
    const qll_pressure_features *f = &j->result->features;
    const double off_pa = f->set_point_pa_gauge - f->should_set_pa_gauge;
    qll_pressure_finding *found =
        qll_finding_add(j, QLL_PRESSURE_WORD_SET_POINT_DRIFT,
                        qll_grade(fabs(off_pa), QLL_SET_NONE_PA, QLL_SET_ACT_PA, QLL_SET_SURE_PA),
                        off_pa, j->state->first_ms, j->state->last_ms);
    if (found != NULL) {
        found->is_from_survey = true;
        found->expected = f->should_set_pa_gauge;
        found->level_pa_gauge = f->set_point_pa_gauge;
        found->stretch = &j->result->overview;
    }
}

void qll_judge_drift(qll_judging *j)
{
    const size_t before = j->count;
    judge_nights(j);
    if (j->count == before) {
        judge_setting(j);
    }
}
