#include "base/words.h"
#include "documents/survey_parts.h"

#include <math.h>

/* ---- outlets ---- */

static double read_carries(qll_survey_pass *pass, const qll_object *object)
{
    const qll_field *field = qll_group_field(object->group, "carries");
    const qll_node *node = qll_object_find(object, "carries");
    if (node == NULL) {
        qll_object_assume_word(object, field);
        return NAN;
    }
    qll_text text = node->kind == QLL_NODE_TEXT ? qll_text_trimmed(node->text) : (qll_text){"", 0};
    if (qll_text_is(text, field->words[0])) {
        return NAN;
    }
    if (qll_words_nearest(text, field->words, field->word_count) != NULL) {
        (void)qll_reader_unknown_word(&pass->reader, qll_at(node), QLL_SAYS(CARRIES), field->words,
                                      field->word_count);
        return NAN;
    }
    return qll_reader_quantity(&pass->reader, node, field);
}

static void read_path(qll_survey_pass *pass, const qll_object *object, qll_outlet *outlet)
{
    const qll_node *list = qll_object_list(object, "path");
    if (list == NULL) {
        if (qll_object_find(object, "path") == NULL) {
            qll_object_assume_text(object, "path", QLL_TEXT_VALUE_NO_PIPES, QLL_TEXT_WHY_NO_PATH);
        }
        return;
    }
    qll_path_run *runs = qll_reader_take(&pass->reader, list->child_count, sizeof *runs);
    if (runs == NULL) {
        return;
    }
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        qll_object entry = qll_object_open(&pass->reader, node, &qll_group_path);
        if (entry.node != NULL) {
            qll_read_run read = qll_read_pipe(pass, &entry);
            runs[node->index].pipe = read.run;
            runs[node->index].size = read.size;
            runs[node->index].carries_m3s = read_carries(pass, &entry);
        }
    }
    outlet->path = runs;
    outlet->path_count = list->child_count;
}

static void read_outlets(qll_survey_pass *pass)
{
    const qll_object *object = &pass->downstream;
    const qll_node *list = qll_object_list(object, "outlets");
    if (list == NULL) {
        if (qll_object_find(object, "outlets") == NULL) {
            qll_object_assume_text(object, "outlets", QLL_TEXT_VALUE_NONE, QLL_TEXT_WHY_NO_OUTLETS);
        }
        return;
    }
    qll_outlet *outlets = qll_reader_take(&pass->reader, list->child_count, sizeof *outlets);
    if (outlets == NULL) {
        return;
    }
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        qll_object entry = qll_object_open(&pass->reader, node, &qll_group_outlet);
        if (entry.node != NULL) {
            qll_outlet *outlet = &outlets[node->index];
            outlet->name = qll_object_text(&entry, "name");
            outlet->elevation_m = qll_object_quantity(&entry, "elevation");
            outlet->needs_pa_gauge = qll_object_quantity(&entry, "needs");
            read_path(pass, &entry, outlet);
        }
    }
    pass->survey->site.outlets = outlets;
    pass->survey->site.outlet_count = list->child_count;
}

/* ---- the heater ---- */

static void read_heater(qll_survey_pass *pass)
{
    qll_heater *heater = &pass->survey->site.heater;
    *heater = (qll_heater){.volume_m3 = NAN};
    if (qll_object_find(&pass->downstream, "heater") == NULL) {
        return;
    }
    qll_object object = qll_object_inner(&pass->downstream, "heater", &qll_group_heater);
    heater->volume_m3 = qll_object_quantity(&object, "volume");
    heater->cold_degc = qll_object_quantity(&object, "cold");
    heater->hot_degc = qll_object_quantity(&object, "hot");
    heater->relief_pa_gauge = qll_object_quantity(&object, "relief");
    if (object.node == NULL) {
        return;
    }
    if (heater->hot_degc <= heater->cold_degc) {
        qll_object_disagrees(&object, "hot", QLL_TEXT_HEATER_HOT, "cold", QLL_TEXT_HEATER_COLD);
    }
    if (heater->relief_pa_gauge <= pass->survey->site.set_pa_gauge) {
        (void)qll_object_contradicts(&object, "relief", &pass->downstream, "set_pressure",
                                     QLL_TEXT_RELIEF_OPEN);
    }
}

static void read_tank(qll_survey_pass *pass)
{
    qll_expansion_tank *tank = &pass->survey->site.tank;
    *tank = (qll_expansion_tank){.volume_m3 = NAN, .precharge_pa_gauge = NAN};
    if (qll_object_find(&pass->downstream, "expansion_tank") == NULL) {
        return;
    }
    qll_object object = qll_object_inner(&pass->downstream, "expansion_tank", &qll_group_tank);
    tank->volume_m3 = qll_object_quantity(&object, "volume");
    tank->precharge_pa_gauge = qll_object_quantity(&object, "precharge");
    if (object.node != NULL && qll_object_find(&object, "precharge") == NULL) {
        qll_object_assume_text(&object, "precharge", QLL_TEXT_VALUE_PRECHARGE,
                               QLL_TEXT_WHY_PRECHARGE);
    }
}

/* ---- the set pressure ---- */

static void check_set(qll_survey_pass *pass)
{
    const qll_site *site = &pass->survey->site;
    const qll_object *object = &pass->downstream;
    double high_pa_gauge = site->supply.static_high_pa_gauge;
    bool is_above = site->set_pa_gauge > site->static_max_pa_gauge;
    if (is_above
        && site->set_pa_gauge + qll_site_lowest_column_pa(site) > site->static_max_pa_gauge) {
        const bool has_outlets = site->outlet_count > 0;
        qll_object_disagrees(
            object, "set_pressure",
            has_outlets ? QLL_TEXT_SET_ABOVE_LOWEST : QLL_TEXT_SET_ABOVE_STATIC, "static_max",
            has_outlets ? QLL_TEXT_STATIC_BELOW_LOWEST : QLL_TEXT_STATIC_BELOW_SET);
        return;
    }
    bool has_high = qll_object_find(&pass->supply, "static_high") != NULL;
    if (site->set_pa_gauge >= high_pa_gauge) {
        qll_where where = qll_object_where(object, "set_pressure");
        const qll_said of_test = {
            QLL_TEXT_LIMIT_GIVEN,
            {qll_as_quantity(high_pa_gauge, QLL_KIND_PRESSURE), qll_as_is("supply.flow_test")}};
        const qll_said says = {QLL_TEXT_SET_NOT_BELOW_SUPPLY,
                               {qll_as_own(object, "set_pressure"),
                                has_high ? qll_as_limit(&pass->supply, "static_high")
                                         : qll_as_said(pass->reader.arena, of_test)}};
        (void)qll_reader_refuse(&pass->reader, where, QLL_CODE_CONTRADICTION, &says, NULL);
        return;
    }
    if (site->set_pa_gauge >= site->supply.static_low_pa_gauge) {
        const double low_pa_gauge = site->supply.static_low_pa_gauge;
        const qll_said says = {
            QLL_TEXT_WARN_SET_ABOVE_LOWEST,
            {qll_as_own(object, "set_pressure"), qll_as_quantity(low_pa_gauge, QLL_KIND_PRESSURE)}};
        (void)qll_reader_warn(&pass->reader, qll_object_where(object, "set_pressure"),
                              QLL_CODE_CONTRADICTION, &says);
    }
}

void qll_read_downstream(qll_survey_pass *pass)
{
    pass->downstream = qll_object_inner(&pass->root, "downstream", &qll_group_downstream);
    qll_site *site = &pass->survey->site;
    site->set_pa_gauge = qll_object_quantity(&pass->downstream, "set_pressure");
    site->static_max_pa_gauge = qll_object_quantity(&pass->downstream, "static_max");
    site->station_always = qll_object_word(&pass->downstream, "station") == 1;
    read_outlets(pass);
    check_set(pass);
    read_heater(pass);
    read_tank(pass);
}
