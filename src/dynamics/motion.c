#include "dynamics/motion.h"

#include <assert.h>
#include <math.h>

const qll_motion_range qll_motion_ranges[QLL_MOTION_COUNT] = {
    [QLL_MOTION_DIAPHRAGM] = {7, 12, 22},
    [QLL_MOTION_TRAVEL] = {0.15, 0.22, 0.35},
    [QLL_MOTION_MASS] = {0.5, 1, 2},
    [QLL_MOTION_DAMPING] = {0.01, 0.03, 0.1},
    [QLL_MOTION_PASSAGE] = {0.003, 0.03, 0.3},
    [QLL_MOTION_PASSAGE_M] = {0.005, 0.012, 0.030},
    [QLL_MOTION_FRICTION_PA] = {500, 2100, 9000},
    [QLL_MOTION_BREAKAWAY] = {1.1, 1.4, 1.8},
    [QLL_MOTION_JET] = {-0.2, 0, 0.4},
    [QLL_MOTION_SEAT_M] = {5e-6, 17e-6, 60e-6},
    [QLL_MOTION_SEAT_LOSS_S_M] = {1, 3, 10},
    [QLL_MOTION_STROKE_S] = {3, 10, 30},
    [QLL_MOTION_PILOT_PA] = {0.05e5, 0.14e5, 0.4e5},
    [QLL_MOTION_LAG_S] = {0.005, 0.022, 0.100},
};

qll_motion qll_motion_usual(void)
{
    qll_motion motion = {{0}};
    for (int i = 0; i < QLL_MOTION_COUNT; i++) {
        motion.of[i] = qll_motion_ranges[i].usual;
    }
    return motion;
}

double qll_motion_within(qll_motion_value which, double share)
{
    assert(which < QLL_MOTION_COUNT);
    const qll_motion_range *range = &qll_motion_ranges[which];
    return range->low > 0 ? range->low * pow(range->high / range->low, share)
                          : range->low + share * (range->high - range->low);
}
