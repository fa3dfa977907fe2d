/* What dirt in the strainers does to the delivery. */
#include "base/customary.h"
#include "station/rules.h"
#include "station/strainer.h"

#include <math.h>

double qll_strainer_spare_pa(const qll_operation *operation, size_t scenario)
{
    return QLL_STRAINER_SHARE * fmax(qll_delivery_in_hand_pa(operation, scenario), 0.0);
}

void qll_judge_strainer(const qll_operation *operation, qll_verdict_list *list)
{
    double barometric_pa = operation->site->barometric_pa;
    for (size_t s = 0; s < operation->duty->scenario_count; s++) {
        const qll_operating_point *clean = &operation->peak_low[s];
        const qll_operating_point *blocked = &operation->blocked[s];
        /* An outlet that cannot be held counts as none, as in the delivery. */
        double before_pa = clean->passes ? clean->outlet_pa : barometric_pa;
        double after_pa = blocked->passes ? fmin(blocked->outlet_pa, before_pa) : barometric_pa;
        double taken_pa = fmax(before_pa - after_pa, 0.0);
        double spare_pa = qll_strainer_spare_pa(operation, s);
        const bool is_shown = taken_pa >= QLL_SHOWN_NOWHERE_PA;
        const bool eats = is_shown && taken_pa > spare_pa;
        qll_verdict verdict = qll_verdict_new(QLL_RULE_STRAINER, QLL_KIND_PRESSURE_DIFFERENCE);
        verdict.grade = eats ? QLL_GRADE_CAUTION : QLL_GRADE_GOOD;
        verdict.finding = eats       ? QLL_FINDING_STRAINER_EATS
                          : is_shown ? QLL_FINDING_STRAINER_EASY
                                     : QLL_FINDING_STRAINER_NOTHING;
        verdict.value = taken_pa;
        verdict.limit = spare_pa;
        verdict.spot.scenario = s;
        qll_verdict_put(list, &verdict, taken_pa);
    }
}
