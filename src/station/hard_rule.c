#include "station/hard_rule.h"

#include "station/rules.h"

#include <string.h>

typedef void judge(const qll_operation *operation, qll_verdict_list *list);

typedef struct hard_rule {
    qll_rule rule;
    judge *judge;
} hard_rule;

static const hard_rule hard_rules[] = {
    {QLL_RULE_RATING, qll_judge_rating},
    {QLL_RULE_STATIC, qll_judge_static},
    {QLL_RULE_DELIVERY, qll_judge_delivery},
    {QLL_RULE_CAPACITY, qll_judge_capacity},
};

static const hard_rule stage_rules[] = {
    {QLL_RULE_RATING, qll_judge_rating},
    {QLL_RULE_CAPACITY, qll_judge_capacity},
};

double qll_corner_peak_inlet_pa(const qll_site *site, const qll_duty *duty, size_t scenario)
{
    return qll_site_inlet_pa(site, duty->supply_static_pa_gauge[0],
                             duty->scenarios[scenario].peak_m3s);
}

double qll_corner_still_inlet_pa(const qll_duty *duty)
{
    return duty->inlet_static_pa[duty->supply_count - 1];
}

static qll_rule first_broken(const qll_operation *operation, const hard_rule *rules, size_t count)
{
    qll_verdict_list list;
    memset(&list, 0, sizeof list);
    for (size_t i = 0; i < count; i++) {
        rules[i].judge(operation, &list);
        if (list.worst[rules[i].rule].grade == QLL_GRADE_FAIL) {
            return rules[i].rule;
        }
    }
    return QLL_RULE_COUNT;
}

static qll_operation operation_of(const qll_station *station, const qll_site *site,
                                  const qll_duty *duty, const qll_corner_points *corners)
{
    return (qll_operation){.station = station,
                           .site = site,
                           .duty = duty,
                           .peak_low = corners->peak_low,
                           .still = corners->still};
}

qll_rule qll_hard_rule_broken(const qll_station *station, const qll_site *site,
                              const qll_duty *duty, const qll_corner_points *corners)
{
    const qll_operation operation = operation_of(station, site, duty, corners);
    return first_broken(&operation, hard_rules, sizeof hard_rules / sizeof hard_rules[0]);
}

qll_rule qll_hard_rule_broken_by_stage(const qll_station *station, const qll_site *site,
                                       const qll_duty *duty, const qll_corner_points *corners)
{
    const qll_operation operation = operation_of(station, site, duty, corners);
    return first_broken(&operation, stage_rules, sizeof stage_rules / sizeof stage_rules[0]);
}
