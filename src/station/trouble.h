/* What stands out about one branch at one operating point: one judgement for tables and maps. */
#ifndef QUELL_STATION_TROUBLE_H
#define QUELL_STATION_TROUBLE_H

#include "station/verdict.h"

typedef enum qll_trouble {
    QLL_TROUBLE_NONE,
    QLL_TROUBLE_TOO_FAST,  /* above QLL_SPEED_MOST_M_S in its own size */
    QLL_TROUBLE_SEAT,      /* cavitation that damages, or choked */
    QLL_TROUBLE_LOW_FLOW,  /* in charge and below the least stable flow */
    QLL_TROUBLE_AUDIBLE,   /* cavitation that is heard */
    QLL_TROUBLE_FAST,      /* above the velocity band */
    QLL_TROUBLE_WIDE_OPEN, /* in charge and at full travel */
    QLL_TROUBLE_COUNT
} qll_trouble;

/** The gravest trouble of a branch; none if it passes no water. */
qll_trouble qll_branch_trouble(const qll_limits *limits, const qll_branch_state *state,
                               bool in_charge);

/** Good, caution; fail if too fast. What lasts decides on cavitation and chatter, not one point. */
qll_grade qll_trouble_grade(qll_trouble trouble);

#endif
