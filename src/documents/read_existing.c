#include "base/quote.h"
#include "base/words.h"
#include "documents/survey_parts.h"
#include "physics/nominal.h"

#include <math.h>

/* Stations have no more (design: 1 to 3 stages; branches from our assumption). */
#define QLL_STAGES_MAX   3
#define QLL_BRANCHES_MAX 6

double qll_existing_highest_set_pa_gauge(const qll_existing_stage *stage)
{
    double highest = NAN;
    for (size_t b = 0; b < stage->branch_count; b++) {
        highest = fmax(highest, stage->branches[b].set_pa_gauge);
    }
    return highest;
}

static void check_set(qll_survey_pass *pass, const qll_object *object, double set_pa_gauge,
                      const qll_existing_stage *before, size_t stage)
{
    double inlet_pa_gauge = before == NULL ? pass->survey->site.supply.static_high_pa_gauge
                                           : qll_existing_highest_set_pa_gauge(before);
    if (!(set_pa_gauge >= inlet_pa_gauge)) {
        return;
    }
    const qll_node *node = qll_object_find(object, "set_pressure");
    qll_writer says = qll_reader_says(&pass->reader);
    qll_write_found(&says, node);
    qll_write(&says, " is not below its inlet, ");
    qll_units_write(&says, inlet_pa_gauge, QLL_KIND_PRESSURE, pass->reader.units);
    if (before == NULL) {
        qll_write(&says, " (the highest static of supply)");
    } else {
        qll_write_format(&says, " (the highest set_pressure of existing.stages[%zu])", stage - 1);
    }
    qll_write(&says, ": a reducing valve only takes pressure away");
    (void)qll_reader_refuse(&pass->reader, qll_at(node), QLL_CODE_CONTRADICTION, &says, "");
}

static qll_place id_place(qll_survey_pass *pass, const qll_object *object)
{
    const qll_node *node = qll_object_find(object, "valve");
    return node == NULL ? (qll_place){.source = "", .path = ""}
                        : qll_node_place(pass->reader.document, node, false, pass->reader.arena);
}

static void read_stage(qll_survey_pass *pass, const qll_node *node, qll_existing_stage *stages,
                       size_t index)
{
    qll_object object = qll_object_open(&pass->reader, node, &qll_group_stage);
    const qll_node *list = qll_object_list(&object, "branches", QLL_BRANCHES_MAX);
    if (list == NULL) {
        return;
    }
    qll_existing_branch *branches =
        qll_reader_take(&pass->reader, list->child_count, sizeof *branches);
    if (branches == NULL) {
        return;
    }
    const qll_existing_stage *before = index == 0 ? NULL : &stages[index - 1];
    size_t count = 0;
    for (const qll_node *child = list->first_child; child != NULL; child = child->next) {
        qll_object entry = qll_object_open(&pass->reader, child, &qll_group_branch);
        if (entry.node != NULL) {
            double set_pa_gauge = qll_object_quantity(&entry, "set_pressure");
            branches[count] = (qll_existing_branch){
                .valve_id = qll_object_text(&entry, "valve"),
                .place = id_place(pass, &entry),
                .set_pa_gauge = set_pa_gauge,
            };
            check_set(pass, &entry, set_pa_gauge, before, index);
        }
        count += 1;
    }
    stages[index] = (qll_existing_stage){.branches = branches, .branch_count = count};
}

void qll_read_existing(qll_survey_pass *pass)
{
    qll_object object = qll_object_inner(&pass->root, "existing", &qll_group_existing);
    const qll_node *list = qll_object_list(&object, "stages", QLL_STAGES_MAX);
    if (list == NULL) {
        return;
    }
    qll_existing_stage *stages = qll_reader_take(&pass->reader, list->child_count, sizeof *stages);
    if (stages == NULL) {
        return;
    }
    size_t count = 0;
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        read_stage(pass, node, stages, count);
        count += 1;
    }
    pass->survey->existing = stages;
    pass->survey->existing_count = count;
}
