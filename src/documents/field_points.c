#include "documents/field.h"

#include <assert.h>
#include <math.h>

typedef struct neighbours {
    const qll_node *before, *here; /* the values of one key */
    double before_si, here_si;
} neighbours;

static void refuse_x(qll_reader *reader, const qll_points_rule *rule, const neighbours *pair)
{
    const qll_said says = {QLL_TEXT_X_NOT_RISING,
                           {qll_as_found(pair->here), qll_as_is(rule->x_key),
                            qll_as_found(pair->before), qll_as_origin(reader, pair->before)}};
    (void)qll_reader_refuse(reader, qll_at(pair->here), QLL_CODE_NOT_RISING, &says, NULL);
}

static bool runs_well(qll_run run, double before, double here)
{
    /* Written so that NaN, which has its problem already, passes. */
    switch (run) {
    case QLL_RUN_ANY: return true;
    case QLL_RUN_RISING: return !(here <= before);
    case QLL_RUN_NOT_FALLING: return !(here < before);
    case QLL_RUN_NOT_RISING: return !(here > before);
    }
    return true;
}

static void refuse_y(qll_reader *reader, const qll_points_rule *rule, const neighbours *pair)
{
    static const qll_text_id texts[] = {
        [QLL_RUN_ANY] = QLL_TEXT_NONE,
        [QLL_RUN_RISING] = QLL_TEXT_Y_NOT_ABOVE,
        [QLL_RUN_NOT_FALLING] = QLL_TEXT_Y_BELOW,
        [QLL_RUN_NOT_RISING] = QLL_TEXT_Y_ABOVE,
    };
    const qll_said says = {texts[rule->run],
                           {qll_as_found(pair->here), qll_as_found(pair->before),
                            qll_as_origin(reader, pair->before), qll_as_text(rule->because)}};
    (void)qll_reader_refuse(
        reader, qll_at(pair->here),
        rule->run == QLL_RUN_RISING ? QLL_CODE_NOT_RISING : QLL_CODE_CONTRADICTION, &says, NULL);
}

static void check_pair(const qll_points_rule *rule, const qll_object *before,
                       const qll_object *here, const qll_point *points)
{
    qll_reader *reader = here->reader;
    neighbours x = {qll_object_find(before, rule->x_key), qll_object_find(here, rule->x_key),
                    points[0].x, points[1].x};
    neighbours y = {qll_object_find(before, rule->y_key), qll_object_find(here, rule->y_key),
                    points[0].y, points[1].y};
    if (x.here_si <= x.before_si) {
        refuse_x(reader, rule, &x); /* nothing can be said of y then */
    } else if (!runs_well(rule->run, y.before_si, y.here_si)) {
        refuse_y(reader, rule, &y);
    }
}

qll_point *qll_object_points(const qll_object *object, const char *key, const qll_points_rule *rule,
                             size_t first_free, size_t *count)
{
    *count = 0;
    const qll_node *list = qll_object_list(object, key);
    if (list == NULL) {
        return NULL;
    }
    qll_point *points =
        qll_reader_take(object->reader, list->child_count + first_free, sizeof *points);
    if (points == NULL) {
        return NULL;
    }
    qll_object before = {0};
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        qll_object here = qll_object_open(object->reader, node, rule->group);
        qll_point *point = &points[first_free + *count];
        here.broken = true; /* an entry has no defaults */
        point->x = qll_object_quantity(&here, rule->x_key);
        point->y = qll_object_quantity(&here, rule->y_key);
        if (*count > 0) {
            check_pair(rule, &before, &here, point - 1);
        }
        before = here;
        *count += 1;
    }
    return points;
}
