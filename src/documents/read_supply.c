#include "base/customary.h"
#include "documents/survey_parts.h"

#include <math.h>

/* A static above this is legal and rare enough to ask for a second look (our assumption). */
#define QLL_STATIC_ODD_PA (250.0 * QLL_PSI_PA)
/* A static below this hardly lifts water one storey (our assumption). */
#define QLL_STATIC_LOW_PA (15.0 * QLL_PSI_PA)

static const qll_points_rule flow_test_rule = {
    .group = &qll_group_flow_test,
    .x_key = "flow",
    .y_key = "pressure",
    .run = QLL_RUN_NOT_RISING,
    .because = QLL_TEXT_BECAUSE_MAIN_FALLS,
};

/* A flow test that begins with a flow needs the static from elsewhere. */
static void refuse_no_static(const qll_object *object, const qll_node *first_flow)
{
    qll_said says = {.id = QLL_TEXT_STATIC_MISSING};
    if (first_flow != NULL) {
        says = (qll_said){QLL_TEXT_STATIC_MISSING_TEST, {qll_as_found(first_flow)}};
    }
    (void)qll_reader_refuse(object->reader, qll_at_missing(object->node, "static_high"),
                            QLL_CODE_MISSING_KEY, &says, NULL);
}

static void assume_flat(const qll_object *object)
{
    qll_object_assume_text(object, "flow_test", QLL_TEXT_VALUE_FLAT, QLL_TEXT_WHY_NO_FLOW_TEST);
    if (object->node == NULL) {
        return;
    }
    (void)qll_reader_warn(object->reader, qll_at_missing(object->node, "flow_test"),
                          QLL_CODE_MISSING_KEY, QLL_SAYS(WARN_NO_FLOW_TEST));
}

static const qll_node *first_value(const qll_object *object, const char *list, const char *key)
{
    const qll_node *node = qll_object_find(object, list);
    if (node == NULL || node->kind != QLL_NODE_LIST || node->child_count == 0) {
        return NULL;
    }
    return node->first_child->kind == QLL_NODE_OBJECT ? qll_node_find(node->first_child, key)
                                                      : NULL;
}

static void refuse_order(const qll_object *object, const char *key, const qll_node *other,
                         qll_text_id says)
{
    const qll_node *node = qll_object_find(object, key);
    const qll_said said = {
        says, {qll_as_found(node), qll_as_found(other), qll_as_origin(object->reader, other)}};
    (void)qll_reader_refuse(object->reader, qll_at(node), QLL_CODE_CONTRADICTION, &said, NULL);
}

/* What the list of the flow test gave. points[0] is free for a static of our own. */
typedef struct flow_test {
    qll_point *points;
    size_t count;
    bool has_static; /* it begins at no flow */
} flow_test;

static void use_static_alone(const qll_object *object, qll_supply *supply)
{
    qll_point *point = qll_reader_take(object->reader, 1, sizeof *point);
    if (point == NULL) {
        return;
    }
    *point = (qll_point){0.0, supply->static_high_pa_gauge};
    supply->test = point;
    supply->count = 1;
    if (qll_object_find(object, "static_high") == NULL) {
        refuse_no_static(object, NULL);
    } else {
        assume_flat(object);
    }
}

static void use_test(const qll_object *object, const flow_test *test, qll_supply *supply)
{
    if (test->has_static) {
        supply->test = test->points + 1;
        supply->count = test->count;
        return;
    }
    test->points[0] = (qll_point){0.0, supply->static_high_pa_gauge};
    supply->test = test->points;
    supply->count = test->count + 1;
    if (qll_object_find(object, "static_high") == NULL) {
        refuse_no_static(object, first_value(object, "flow_test", "flow"));
    } else {
        qll_object_assume_quantity(object, "flow_test at no flow", supply->static_high_pa_gauge,
                                   QLL_KIND_PRESSURE, (qll_said){.id = QLL_TEXT_WHY_TEST_BEGINS});
    }
}

static void check_statics(const qll_object *object, const flow_test *test, const qll_supply *supply)
{
    const qll_node *first = first_value(object, "flow_test", "pressure");
    const qll_node *high = qll_object_find(object, "static_high");
    const qll_node *low = qll_object_find(object, "static_low");
    double first_pa_gauge = test->points == NULL ? (double)NAN : test->points[1].y;
    if (high != NULL && supply->static_high_pa_gauge < first_pa_gauge) {
        refuse_order(object, "static_high", first, QLL_TEXT_STATIC_BELOW_TEST);
    } else if (low != NULL && high != NULL
               && supply->static_low_pa_gauge > supply->static_high_pa_gauge) {
        refuse_order(object, "static_low", high, QLL_TEXT_STATIC_ABOVE_HIGH);
    } else if (low != NULL && test->has_static && supply->static_low_pa_gauge > first_pa_gauge) {
        refuse_order(object, "static_low", first, QLL_TEXT_STATIC_ABOVE_TEST);
    }
}

/* The statics that were not given, from the curve's pressure at no flow. */
static void fill_statics(const qll_object *object, qll_supply *supply)
{
    double static_pa_gauge = supply->test[0].y;
    if (qll_object_find(object, "static_high") == NULL) {
        supply->static_high_pa_gauge = static_pa_gauge;
        qll_object_assume_quantity(object, "static_high", static_pa_gauge, QLL_KIND_PRESSURE,
                                   (qll_said){.id = QLL_TEXT_WHY_TEST_STATIC});
    }
    if (qll_object_find(object, "static_low") == NULL) {
        supply->static_low_pa_gauge = static_pa_gauge;
        qll_object_assume_quantity(object, "static_low", static_pa_gauge, QLL_KIND_PRESSURE,
                                   (qll_said){.id = QLL_TEXT_WHY_STATIC_AT_NO_FLOW});
    }
}

static void warn_odd(const qll_object *object, double static_pa_gauge)
{
    const qll_node *node = qll_object_find(object, "static_high");
    if (node == NULL
        || !(static_pa_gauge > QLL_STATIC_ODD_PA || static_pa_gauge < QLL_STATIC_LOW_PA)) {
        return;
    }
    const bool is_high = static_pa_gauge > QLL_STATIC_ODD_PA;
    const qll_said says = {is_high ? QLL_TEXT_WARN_STATIC_HIGH : QLL_TEXT_WARN_STATIC_LOW,
                           {qll_as_found(node)}};
    (void)qll_reader_warn(object->reader, qll_at(node), QLL_CODE_OUT_OF_RANGE, &says);
}

void qll_read_supply(qll_survey_pass *pass)
{
    pass->supply = qll_object_inner(&pass->root, "supply", &qll_group_supply);
    const qll_object *object = &pass->supply;
    if (object->node == NULL) {
        return;
    }
    qll_supply *supply = &pass->survey->site.supply;
    supply->static_high_pa_gauge = qll_object_quantity(object, "static_high");
    pass->survey->site.has_static_high = qll_object_find(object, "static_high") != NULL;
    supply->static_low_pa_gauge = qll_object_quantity(object, "static_low");
    flow_test test = {0};
    test.points = qll_object_points(object, "flow_test", &flow_test_rule, 1, &test.count);
    test.has_static = test.points != NULL && test.points[1].x == 0.0;
    if (qll_object_find(object, "flow_test") == NULL) {
        use_static_alone(object, supply);
    } else if (test.points != NULL && isfinite(test.points[1].x)) {
        use_test(object, &test, supply);
    }
    if (supply->test == NULL) {
        return;
    }
    check_statics(object, &test, supply);
    pass->survey->site.has_static_high = qll_object_find(object, "static_high") != NULL;
    fill_statics(object, supply);
    warn_odd(object, supply->static_high_pa_gauge);
}
