#include "station/trouble.h"

#include "station/fitness.h"

qll_trouble qll_branch_trouble(const qll_limits *limits, const qll_branch_state *state,
                               bool in_charge)
{
    if (!state->working) {
        return QLL_TROUBLE_NONE;
    }
    if (qll_is_above_m_s(state->velocity_m_s, QLL_SPEED_MOST_M_S)) {
        return QLL_TROUBLE_TOO_FAST;
    }
    if (state->cavitation.regime >= QLL_REGIME_DAMAGING) {
        return QLL_TROUBLE_SEAT;
    }
    if (!state->stable && in_charge) {
        return QLL_TROUBLE_LOW_FLOW;
    }
    if (state->cavitation.regime == QLL_REGIME_AUDIBLE) {
        return QLL_TROUBLE_AUDIBLE;
    }
    if (state->velocity_m_s > limits->velocity_high_m_s) {
        return QLL_TROUBLE_FAST;
    }
    return in_charge && state->full_travel ? QLL_TROUBLE_WIDE_OPEN : QLL_TROUBLE_NONE;
}

qll_grade qll_trouble_grade(qll_trouble trouble)
{
    if (trouble == QLL_TROUBLE_NONE) {
        return QLL_GRADE_GOOD;
    }
    return trouble == QLL_TROUBLE_TOO_FAST ? QLL_GRADE_FAIL : QLL_GRADE_CAUTION;
}
