/* The groups of fields of a survey, one per object type. */
#ifndef QUELL_DOCUMENTS_SURVEY_FIELDS_H
#define QUELL_DOCUMENTS_SURVEY_FIELDS_H

#include "documents/field.h"

extern const qll_field_group qll_group_survey, qll_group_project, qll_group_site, qll_group_water,
    qll_group_supply, qll_group_flow_test, qll_group_pipe, qll_group_meter, qll_group_backflow,
    qll_group_strainer, qll_group_device, qll_group_loss, qll_group_station_pipe,
    qll_group_downstream, qll_group_outlet, qll_group_path, qll_group_heater, qll_group_tank,
    qll_group_scenario, qll_group_fixture, qll_group_continuous, qll_group_log, qll_group_breaks,
    qll_group_loading, qll_group_graph_en, qll_group_graph_bs, qll_group_limits, qll_group_existing,
    qll_group_stage, qll_group_branch;

/** All of them in the order of the manual. Groups that share a path differ in their first
 * field. */
const qll_field_group *const *qll_survey_groups(size_t *count);

#endif
