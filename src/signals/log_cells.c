#include "base/document.h"
#include "signals/log_shape.h"

#include <string.h>

/* One cell from @p at on; @p next is behind its delimiter, or NULL at the end of the line. */
static qll_text take_cell(const char *at, const char *end, char delimiter, const char **next)
{
    while (delimiter != '\t' && at < end && *at == ' ' && delimiter != ' ') {
        at += 1;
    }
    if (at < end && *at == '"') {
        const char *start = at + 1;
        const char *close = start;
        while (close < end && !(*close == '"' && (close + 1 == end || close[1] != '"'))) {
            close += *close == '"' ? 2 : 1;
        }
        if (close < end) {
            const char *stop = memchr(close, delimiter, (size_t)(end - close));
            *next = stop == NULL ? NULL : stop + 1;
            return qll_text_trimmed((qll_text){start, (size_t)(close - start)});
        }
    }
    const char *stop = at < end ? memchr(at, delimiter, (size_t)(end - at)) : NULL;
    *next = stop == NULL ? NULL : stop + 1;
    return qll_text_trimmed((qll_text){at, (size_t)((stop == NULL ? end : stop) - at)});
}

size_t qll_log_split(qll_text line, char delimiter, qll_text cells[QLL_LOG_COLUMNS])
{
    const char *end = line.bytes + line.size;
    const char *at = line.bytes;
    size_t count = 0;
    while (at != NULL) {
        /* Blanks between cells may be several. */
        while (delimiter == ' ' && at < end && *at == ' ') {
            at += 1;
        }
        if (delimiter == ' ' && at == end && count > 0) {
            break;
        }
        const char *next = NULL;
        qll_text cell = take_cell(at, end, delimiter, &next);
        if (count < QLL_LOG_COLUMNS) {
            cells[count] = cell;
        }
        count += 1;
        at = next;
    }
    return count;
}

/* The object of a line of "{...}" or "{...},"; NULL for the brackets around a list and for faults. */
static const qll_node *read_object(qll_text line, qll_arena *arena)
{
    line = qll_text_trimmed(line);
    if (line.size > 0 && line.bytes[0] == '[') {
        line = qll_text_trimmed((qll_text){line.bytes + 1, line.size - 1});
    }
    while (line.size > 0
           && (line.bytes[line.size - 1] == ',' || line.bytes[line.size - 1] == ']')) {
        line.size -= 1;
    }
    if (line.size == 0 || line.bytes[0] != '{') {
        return NULL;
    }
    qll_problems problems = qll_problems_none(arena);
    qll_document document;
    if (qll_document_read(line, "", arena, &document, &problems) != QLL_OK) {
        return NULL;
    }
    return document.root;
}

bool qll_log_json_columns(qll_log_shape *shape, qll_text line, qll_arena *arena)
{
    const qll_node *object = read_object(line, arena);
    shape->column_count = 0;
    if (object == NULL) {
        return false;
    }
    const qll_node *child = object->first_child;
    for (; child != NULL && shape->column_count < QLL_LOG_COLUMNS; child = child->next) {
        shape->columns[shape->column_count] = qll_log_column_read(child->key);
        shape->column_count += 1;
    }
    return shape->column_count > 0;
}

size_t qll_log_json_cells(const qll_log_shape *shape, qll_text line, qll_arena *scratch,
                          qll_text cells[QLL_LOG_COLUMNS])
{
    const qll_node *object = read_object(line, scratch);
    if (object == NULL) {
        return 0;
    }
    for (size_t i = 0; i < shape->column_count; i++) {
        cells[i] = (qll_text){"", 0};
    }
    size_t i = 0;
    for (const qll_node *child = object->first_child; child != NULL; child = child->next) {
        /* Members mostly come in the same order. */
        for (size_t tried = 0; tried < shape->column_count; tried++) {
            size_t at = (i + tried) % shape->column_count;
            if (qll_text_equal(shape->columns[at].name, child->key)) {
                bool single = child->kind == QLL_NODE_TEXT || child->kind == QLL_NODE_NUMBER;
                cells[at] = single ? qll_text_trimmed(child->text) : (qll_text){"", 0};
                i = at + 1;
                break;
            }
        }
    }
    return shape->column_count;
}

bool qll_log_number(qll_text cell, char decimal, double *value)
{
    char copy[64];
    if (decimal == ',' && cell.size < sizeof copy) {
        for (size_t i = 0; i < cell.size; i++) {
            char byte = cell.bytes[i];
            if (byte == '.') {
                return false;
            }
            copy[i] = byte == ',' ? '.' : byte;
        }
        cell.bytes = copy;
    }
    size_t size = qll_plain_number(cell, value);
    if (size != cell.size || size == 0) {
        size = qll_text_number(cell, value);
    }
    return size > 0 && size == cell.size;
}
