#include "documents/field.h"

static void write_value(qll_writer *writer, const qll_node *node)
{
    if (node->kind != QLL_NODE_LIST || node->child_count != 2) {
        qll_write_found(writer, node);
        return;
    }
    qll_write_found(writer, node->first_child);
    qll_write(writer, " to ");
    qll_write_found(writer, node->first_child->next);
}

void qll_write_limit(qll_writer *writer, const qll_object *object, const char *key)
{
    const qll_node *node = qll_object_find(object, key);
    if (node != NULL) {
        write_value(writer, node);
        qll_write(writer, " (");
        qll_write(writer, qll_reader_origin(object->reader, node));
        qll_write(writer, ")");
        return;
    }
    const qll_field *field = qll_group_field(object->group, key);
    qll_write(writer, field->fallback == NULL ? "what is assumed" : field->fallback);
    qll_write(writer, " (the default of ");
    qll_write(writer, qll_object_path(object, key));
    qll_write(writer, ")");
}

void qll_write_own(qll_writer *writer, const qll_object *object, const char *key)
{
    const qll_node *node = qll_object_find(object, key);
    if (node != NULL) {
        write_value(writer, node);
    } else {
        qll_write_limit(writer, object, key);
    }
}

bool qll_object_contradicts(const qll_object *object, const char *key, const char *relation,
                            const qll_object *other, const char *other_key, const char *because)
{
    qll_writer says = qll_reader_says(object->reader);
    qll_write_own(&says, object, key);
    qll_write(&says, relation);
    qll_write_limit(&says, other, other_key);
    qll_write(&says, ": ");
    qll_write(&says, because);
    return qll_reader_refuse(object->reader, qll_object_where(object, key), QLL_CODE_CONTRADICTION,
                             &says, "");
}
