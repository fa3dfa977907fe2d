#include "station/trouble.h"

qll_trouble qll_branch_trouble(const qll_limits *limits, const qll_branch_state *state,
                               bool in_charge)
{
    if (!state->working) {
        return QLL_TROUBLE_NONE;
    }
    if (state->cavitation.regime >= QLL_REGIME_DAMAGING) {
        return QLL_TROUBLE_SEAT;
    }
    if (qll_is_too_fast(limits, state->velocity_m_s, in_charge)) {
        return QLL_TROUBLE_TOO_FAST;
    }
    if (!state->stable && in_charge) {
        return QLL_TROUBLE_CHATTER;
    }
    if (state->cavitation.regime == QLL_REGIME_AUDIBLE) {
        return QLL_TROUBLE_AUDIBLE;
    }
    if (in_charge && state->velocity_m_s > limits->velocity_high_m_s) {
        return QLL_TROUBLE_FAST;
    }
    return in_charge && state->full_travel ? QLL_TROUBLE_WIDE_OPEN : QLL_TROUBLE_NONE;
}

qll_grade qll_trouble_grade(qll_trouble trouble)
{
    if (trouble == QLL_TROUBLE_NONE) {
        return QLL_GRADE_GOOD;
    }
    return trouble <= QLL_TROUBLE_TOO_FAST ? QLL_GRADE_FAIL : QLL_GRADE_CAUTION;
}
