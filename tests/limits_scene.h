/* What a survey without limits means (docs/formats/survey.md), for scenes that have no survey. */
#ifndef QUELL_TESTS_LIMITS_SCENE_H
#define QUELL_TESTS_LIMITS_SCENE_H

#include "station/site.h"

static inline qll_limits scene_limits(void)
{
    return (qll_limits){.velocity_low_m_s = 3.0 * 0.3048,
                        .velocity_high_m_s = 6.0 * 0.3048,
                        .velocity_max_m_s = 8.0 * 0.3048,
                        .ratio_preferred = 2.0,
                        .ratio_max = 3.0,
                        .falloff_share = 0.2};
}

#endif
