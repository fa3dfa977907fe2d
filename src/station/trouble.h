/* What stands out about one branch at one operating point: one judgement for tables and maps. */
#ifndef QUELL_STATION_TROUBLE_H
#define QUELL_STATION_TROUBLE_H

#include "station/verdict.h"

/** The gravest trouble of a branch; none if it passes no water. */
qll_trouble qll_branch_trouble(const qll_limits *limits, const qll_branch_state *state,
                               bool in_charge);

/** Good, caution; fail if too fast. What lasts decides on cavitation and chatter, not one point. */
qll_grade qll_trouble_grade(qll_trouble trouble);

#endif
