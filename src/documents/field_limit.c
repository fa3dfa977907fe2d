#include "documents/field.h"

static qll_argument value_of(qll_reader *reader, const qll_node *node)
{
    if (node->kind != QLL_NODE_LIST || node->child_count != 2) {
        return qll_as_found(node);
    }
    return qll_as_said(reader->arena, (qll_said){QLL_TEXT_VALUE_RANGE,
                                                 {qll_as_found(node->first_child),
                                                  qll_as_found(node->first_child->next)}});
}

qll_argument qll_as_limit(const qll_object *object, const char *key)
{
    qll_reader *reader = object->reader;
    const qll_node *node = qll_object_find(object, key);
    if (node != NULL) {
        return qll_as_said(reader->arena,
                           (qll_said){QLL_TEXT_LIMIT_GIVEN,
                                      {value_of(reader, node), qll_as_origin(reader, node)}});
    }
    const qll_field *field = qll_group_field(object->group, key);
    const qll_argument value =
        field->fallback == NULL ? qll_as_text(QLL_TEXT_LIMIT_ASSUMED) : qll_as_is(field->fallback);
    return qll_as_said(reader->arena, (qll_said){QLL_TEXT_LIMIT_DEFAULT,
                                                 {value, qll_as_is(qll_object_path(object, key))}});
}

qll_argument qll_as_own(const qll_object *object, const char *key)
{
    const qll_node *node = qll_object_find(object, key);
    return node != NULL ? value_of(object->reader, node) : qll_as_limit(object, key);
}

bool qll_object_contradicts(const qll_object *object, const char *key, const qll_object *other,
                            const char *other_key, qll_text_id says)
{
    const qll_said said = {says, {qll_as_own(object, key), qll_as_limit(other, other_key)}};
    return qll_reader_refuse(object->reader, qll_object_where(object, key), QLL_CODE_CONTRADICTION,
                             &said, NULL);
}

void qll_object_disagrees(const qll_object *object, const char *key, qll_text_id says,
                          const char *other_key, qll_text_id other_says)
{
    const bool is_given = qll_object_find(object, key) != NULL;
    (void)qll_object_contradicts(object, is_given ? key : other_key, object,
                                 is_given ? other_key : key, is_given ? says : other_says);
}
