/* The supply over the log, and the set-point over weeks. */
#include "numeric/robust.h"
#include "signals/pressure_course.h"
#include "signals/pressure_judging.h"

#include <math.h>

#define QLL_NIGHT_FROM_MS ((int64_t)2 * 3600 * 1000)
#define QLL_NIGHT_TO_MS   ((int64_t)5 * 3600 * 1000)
#define QLL_DAY_MS        ((int64_t)86400 * 1000)
#define QLL_DRIFT_PA      15e3
/* From a set-point on paper: 2, 5 and 10 psi. */
#define QLL_SET_NONE_PA   13790.0
#define QLL_SET_ACT_PA    34474.0
#define QLL_SET_SURE_PA   68948.0

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

static void end_night(qll_course *nights, double *values, size_t count, int64_t day, int64_t at_ms)
{
    if (count > 0 && nights->count < QLL_COURSE_MOST) {
        nights->day[nights->count] = (double)day;
        nights->value[nights->count] = qll_median(values, count);
        nights->at_ms[nights->count] = at_ms;
        nights->count += 1;
    }
}

static void take_nights(qll_judging *j, qll_course *nights)
{
    qll_pressure_state *s = j->state;
    const int64_t days = (s->last_ms - s->first_ms) / QLL_DAY_MS + 2;
    const int64_t every = days / (int64_t)QLL_COURSE_MOST + 1;
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
            end_night(nights, values, count, of, at_ms);
            count = 0;
            of = day;
            at_ms = w->start_ms;
        }
        const double off_pa = isnan(w->inlet_pa) ? 0.0 : w->inlet_pa - j->inlet_median_pa;
        values[count] = w->outlet_pa - j->corrected_effect * off_pa;
        count += 1;
    }
    end_night(nights, values, count, of, at_ms);
}

static void judge_nights(qll_judging *j)
{
    qll_course *nights = qll_arena_take(j->arena, 1, sizeof *nights);
    if (nights == NULL) {
        return;
    }
    take_nights(j, nights);
    j->result->features.night_count = (double)nights->count;
    if (nights->count < QLL_COURSE_LEAST) {
        return;
    }
    const qll_course_move move = qll_course_moved(nights, j->state->scratch);
    const double strength = move.is_certain ? qll_grade(fabs(move.by), 0.5 * QLL_DRIFT_PA,
                                                        QLL_DRIFT_PA, 3.0 * QLL_DRIFT_PA)
                                            : 0.0;
    qll_pressure_finding *found =
        qll_finding_add(j, QLL_PRESSURE_WORD_SET_POINT_DRIFT, strength, move.by,
                        move.is_step ? move.from_ms : j->state->first_ms, j->state->last_ms);
    if (found != NULL) {
        found->is_step = move.is_step;
        found->level_pa_gauge = nights->value[nights->count - 1];
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
