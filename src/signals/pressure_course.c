#include "signals/pressure_course.h"

#include "numeric/robust.h"

#include <math.h>

#define QLL_TREND_Z    2.33
#define QLL_STEPS_MOST ((size_t)8)

/* The greatest step between neighboring stretches, and the day it happened. */
static double greatest_step(const qll_course *course, double *scratch, size_t *day)
{
    size_t cuts[QLL_STEPS_MOST + 1];
    const double penalty = qll_segment_penalty(course->value, course->count, scratch);
    const size_t count =
        qll_segments(course->value, course->count, penalty, scratch, cuts, QLL_STEPS_MOST);
    double greatest = 0.0;
    for (size_t i = 0; i < count; i++) {
        const size_t from = i == 0 ? 0 : cuts[i - 1];
        const size_t to = i + 1 < count ? cuts[i + 1] : course->count;
        const size_t before = cuts[i] - from;
        for (size_t k = from; k < to; k++) {
            scratch[k - from] = course->value[k];
        }
        const double step =
            qll_median(scratch + before, to - cuts[i]) - qll_median(scratch, before);
        if (fabs(step) > fabs(greatest)) {
            greatest = step;
            *day = cuts[i];
        }
    }
    return greatest;
}

/* Sum of distances of [from, to) from their median. */
static double spread_of(const double *values, size_t from, size_t to, double *scratch)
{
    double sum = 0.0;
    for (size_t i = from; i < to; i++) {
        scratch[i - from] = values[i];
    }
    const double middle = qll_median(scratch, to - from);
    for (size_t i = from; i < to; i++) {
        sum += fabs(values[i] - middle);
    }
    return sum;
}

/* Does one step leave less of it than the straight line of that slope? */
static bool steps_rather(const qll_course *course, double slope, double *scratch)
{
    double *left = scratch + course->count;
    size_t cut[2];
    const double penalty = qll_segment_penalty(course->value, course->count, scratch);
    if (qll_segments(course->value, course->count, penalty, scratch, cut, 1) == 0) {
        return false;
    }
    for (size_t i = 0; i < course->count; i++) {
        left[i] = course->value[i] - slope * course->day[i];
    }
    return spread_of(course->value, 0, cut[0], scratch)
               + spread_of(course->value, cut[0], course->count, scratch)
           < spread_of(left, 0, course->count, scratch);
}

qll_course_move qll_course_moved(const qll_course *course, double *scratch)
{
    size_t day = 0;
    const double step = greatest_step(course, scratch, &day);
    const double slope = qll_theil_sen(course->day, course->value, course->count, 0.0, scratch);
    const double z = qll_mann_kendall(course->value, course->count, scratch).z;
    const bool is_step = step != 0.0 && steps_rather(course, slope, scratch);
    return (qll_course_move){
        .by = is_step ? step : slope * (course->day[course->count - 1] - course->day[0]),
        .is_step = is_step,
        .is_certain = is_step || fabs(z) > QLL_TREND_Z,
        .from_ms = course->at_ms[is_step ? day : 0],
    };
}
