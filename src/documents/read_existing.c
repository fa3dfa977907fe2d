#include "base/quote.h"
#include "base/words.h"
#include "documents/survey_parts.h"
#include "physics/nominal.h"

#include <math.h>

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
    const qll_said says = {before == NULL ? QLL_TEXT_INLET_HIGHEST_STATIC
                                          : QLL_TEXT_INLET_HIGHEST_SET,
                           {qll_as_found(node), qll_as_quantity(inlet_pa_gauge, QLL_KIND_PRESSURE),
                            qll_as_whole(before == NULL ? 0 : stage - 1)}};
    (void)qll_reader_refuse(&pass->reader, qll_at(node), QLL_CODE_CONTRADICTION, &says, NULL);
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
    const qll_node *list = qll_object_list(&object, "branches");
    if (list == NULL) {
        return;
    }
    qll_existing_branch *branches =
        qll_reader_take(&pass->reader, list->child_count, sizeof *branches);
    if (branches == NULL) {
        return;
    }
    const qll_existing_stage *before = index == 0 ? NULL : &stages[index - 1];
    for (const qll_node *child = list->first_child; child != NULL; child = child->next) {
        qll_object entry = qll_object_open(&pass->reader, child, &qll_group_branch);
        if (entry.node != NULL) {
            double set_pa_gauge = qll_object_quantity(&entry, "set_pressure");
            branches[child->index] = (qll_existing_branch){
                .valve_id = qll_object_text(&entry, "valve"),
                .place = id_place(pass, &entry),
                .set_pa_gauge = set_pa_gauge,
            };
            check_set(pass, &entry, set_pa_gauge, before, index);
        }
    }
    stages[index] = (qll_existing_stage){.branches = branches, .branch_count = list->child_count};
}

void qll_read_existing(qll_survey_pass *pass)
{
    qll_object object = qll_object_inner(&pass->root, "existing", &qll_group_existing);
    const qll_node *list = qll_object_list(&object, "stages");
    if (list == NULL) {
        return;
    }
    qll_existing_stage *stages = qll_reader_take(&pass->reader, list->child_count, sizeof *stages);
    if (stages == NULL) {
        return;
    }
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        read_stage(pass, node, stages, node->index);
    }
    pass->survey->existing = stages;
    pass->survey->existing_count = list->child_count;
}
