#include "signals/pressure_course.h"

#include "numeric/robust.h"

#include <math.h>

#define QLL_TREND_Z 2.33

static double median_from(const double *values, size_t from, size_t to, double *scratch)
{
    for (size_t i = from; i < to; i++) {
        scratch[i - from] = values[i];
    }
    return qll_median(scratch, to - from);
}

/* Sum of distances of [from, to) from their median. */
static double spread_of(const double *values, size_t from, size_t to, double *scratch)
{
    double sum = 0.0;
    const double middle = median_from(values, from, to, scratch);
    for (size_t i = from; i < to; i++) {
        sum += fabs(values[i] - middle);
    }
    return sum;
}

/* The one cut that takes most off what lies around the medians; 0 where none takes more than chance would. */
static size_t best_cut(const qll_course *course, double *scratch)
{
    size_t cut[2] = {0};
    const double penalty = qll_segment_penalty(course->value, course->count, scratch);
    return qll_segments(course->value, course->count, penalty, scratch, cut, 1) == 0 ? 0 : cut[0];
}

/* Does a step at @p cut leave less of it than the straight line of that slope? */
static bool steps_rather(const qll_course *course, size_t cut, double slope, double *scratch)
{
    double *left = scratch + course->count;
    for (size_t i = 0; i < course->count; i++) {
        left[i] = course->value[i] - slope * course->day[i];
    }
    return spread_of(course->value, 0, cut, scratch)
               + spread_of(course->value, cut, course->count, scratch)
           < spread_of(left, 0, course->count, scratch);
}

qll_course_move qll_course_moved(const qll_course *course, double *scratch)
{
    const size_t cut = best_cut(course, scratch);
    const double slope = qll_theil_sen(course->day, course->value, course->count, 0.0, scratch);
    const double z = qll_mann_kendall(course->value, course->count, scratch).z;
    const bool is_step = cut != 0 && steps_rather(course, cut, slope, scratch);
    /* of the whole log: a few days that are off and come back are no step */
    const double step = is_step ? median_from(course->value, cut, course->count, scratch)
                                      - median_from(course->value, 0, cut, scratch)
                                : 0.0;
    return (qll_course_move){
        .by = is_step ? step : slope * (course->day[course->count - 1] - course->day[0]),
        .is_step = is_step,
        .is_certain = is_step || fabs(z) > QLL_TREND_Z,
        .from_ms = course->at_ms[is_step ? cut : 0],
    };
}
