#include "base/count.h"
#include "documents/catalogue_fields.h"
#include "documents/read_catalogue.h"
#include "documents/table_columns.h"

#include <stdint.h>
#include <string.h>

/* A table becomes the tree that the JSON reader reads, one object a row, so that ranges, defaults
 * and sentences are the same. The offset of a node is the number of its cell, from which
 * documents/reader.c finds the place. */

/* ---- columns ---- */

typedef struct column {
    qll_known_column of;
    const char *key; /* the field it stands for */
} column;

static const column columns[] = {
    {{"id", QLL_KIND_NUMBER, true, false}, "id"},
    {{"nominal", QLL_KIND_LENGTH, true, false}, "nominal"},
    {{"acting", QLL_KIND_NUMBER, true, false}, "acting"},
    {{"kv", QLL_KIND_FLOW_COEFFICIENT, true, false}, "kv"},
    {{"set_min", QLL_KIND_PRESSURE, true, false}, "set_range"},
    {{"set_max", QLL_KIND_PRESSURE, true, false}, "set_range"},
    {{"inlet_max", QLL_KIND_PRESSURE, true, false}, "inlet_max"},
    {{"temperature_max", QLL_KIND_TEMPERATURE, false, false}, "temperature_max"},
    {{"falloff_inlet", QLL_KIND_PRESSURE, false, false}, "inlet"},
    {{"falloff_set", QLL_KIND_PRESSURE, false, false}, "set"},
    {{"band", QLL_KIND_PRESSURE_DIFFERENCE, false, false}, "band"},
    {{"lockup_rise", QLL_KIND_PRESSURE_DIFFERENCE, false, false}, "lockup_rise"},
    {{"inlet_effect", QLL_KIND_NUMBER, false, false}, "inlet_effect"},
    {{"flow_min", QLL_KIND_FLOW, false, false}, "flow_min"},
    {{"hysteresis", QLL_KIND_PRESSURE_DIFFERENCE, false, false}, "hysteresis"},
    {{"fl", QLL_KIND_NUMBER, false, false}, "fl"},
    {{"fd", QLL_KIND_NUMBER, false, false}, "fd"},
    {{"xfz", QLL_KIND_NUMBER, false, false}, "xfz"},
    {{"seat_bore", QLL_KIND_LENGTH, false, false}, "seat_bore"},
    {{"strainer_kv", QLL_KIND_FLOW_COEFFICIENT, false, false}, "strainer_kv"},
    {{"moving_mass", QLL_KIND_MASS, false, false}, "moving_mass"},
    {{"spring_rate", QLL_KIND_SPRING_RATE, false, false}, "spring_rate"},
    {{"damping", QLL_KIND_DAMPING, false, false}, "damping"},
    {{"diaphragm", QLL_KIND_LENGTH, false, false}, "diaphragm"},
    {{"stroke_time", QLL_KIND_TIME, false, false}, "stroke_time"},
    {{"price", QLL_KIND_NUMBER, false, true}, "price"},
    {{"lead_days", QLL_KIND_NUMBER, false, false}, "lead_days"},
};
#define QLL_COLUMN_COUNT QLL_COUNT(columns)

/* Columns of the points: falloff_1_flow, falloff_1_drop and so on. */
#define QLL_POINT_COLUMN_COUNT ((size_t)2 * QLL_FALLOFF_COLUMN_MAX)
#define QLL_ALL_COLUMN_COUNT   (QLL_COLUMN_COUNT + QLL_POINT_COLUMN_COUNT)

typedef struct importing {
    const qll_table *table;
    qll_arena *arena;
    qll_reader reader;
    qll_table_columns columns;
    qll_known_column known[QLL_ALL_COLUMN_COUNT];
} importing;

static void name_columns(importing *work)
{
    for (size_t i = 0; i < QLL_COLUMN_COUNT; i++) {
        work->known[i] = columns[i].of;
    }
    for (size_t i = 0; i < QLL_POINT_COLUMN_COUNT; i++) {
        const bool is_flow = i % 2 == 0;
        qll_writer name = qll_writer_new(work->arena);
        qll_write_format(&name, "falloff_%zu_%s", i / 2 + 1, is_flow ? "flow" : "drop");
        work->known[QLL_COLUMN_COUNT + i] =
            (qll_known_column){.base = qll_writer_text(&name).bytes,
                               .kind = is_flow ? QLL_KIND_FLOW : QLL_KIND_PRESSURE_DIFFERENCE};
    }
}

/* ---- cells to nodes ---- */

static qll_node *new_node(importing *work, qll_node_kind kind, const char *key, size_t offset)
{
    qll_node *node = qll_reader_take(&work->reader, 1, sizeof *node);
    if (node != NULL) {
        *node = (qll_node){.kind = kind,
                           .key = key == NULL ? (qll_text){"", 0} : qll_text_of(key),
                           .offset = offset,
                           .key_offset = offset};
    }
    return node;
}

/* Hangs @p child under @p parent as its last; @p last is the one before it, or NULL. */
static void hang(qll_node *parent, qll_node **last, qll_node *child)
{
    child->parent = parent;
    child->index = parent->child_count;
    parent->child_count += 1;
    if (*last == NULL) {
        parent->first_child = child;
    } else {
        (*last)->next = child;
    }
    *last = child;
}

/* The cell of @p known in @p row as a value, or NULL if it is empty or not there. */
static qll_node *cell_node(importing *work, size_t row, size_t known, const char *key)
{
    const qll_text cell = qll_table_columns_cell(&work->columns, row, known);
    if (cell.size == 0) {
        return NULL;
    }
    const size_t at = work->columns.at[known];
    qll_node *node = new_node(work, QLL_NODE_TEXT, key, row * work->table->column_count + at);
    if (node == NULL) {
        return NULL;
    }
    node->text = cell;
    const bool is_word = key != NULL && (strcmp(key, "id") == 0 || strcmp(key, "acting") == 0);
    if (work->known[known].kind == QLL_KIND_NUMBER && !is_word
        && qll_text_number(cell, &node->number) == cell.size) {
        node->kind = QLL_NODE_NUMBER;
    }
    return node;
}

static qll_node *set_range_node(importing *work, size_t row, size_t low_column)
{
    qll_node *low = cell_node(work, row, low_column, NULL);
    qll_node *high = cell_node(work, row, low_column + 1, NULL);
    if (low == NULL || high == NULL) {
        return NULL; /* said as missing */
    }
    qll_node *list = new_node(work, QLL_NODE_LIST, "set_range", low->offset);
    if (list != NULL) {
        qll_node *last = NULL;
        hang(list, &last, low);
        hang(list, &last, high);
    }
    return list;
}

/* The points of a row, NULL if it has none. A point with one of its cells empty lacks that key. */
static qll_node *points_node(importing *work, size_t row)
{
    qll_node *list = NULL;
    qll_node *last = NULL;
    for (size_t i = QLL_COLUMN_COUNT; i < QLL_ALL_COLUMN_COUNT; i += 2) {
        qll_node *flow = cell_node(work, row, i, "flow");
        qll_node *drop = cell_node(work, row, i + 1, "falloff");
        if (flow == NULL && drop == NULL) {
            continue;
        }
        size_t offset = flow != NULL ? flow->offset : drop->offset;
        if (list == NULL) {
            list = new_node(work, QLL_NODE_LIST, "points", offset);
        }
        qll_node *point = new_node(work, QLL_NODE_OBJECT, NULL, offset);
        if (list == NULL || point == NULL) {
            return NULL;
        }
        qll_node *inner = NULL;
        if (flow != NULL) {
            hang(point, &inner, flow);
        }
        if (drop != NULL) {
            hang(point, &inner, drop);
        }
        hang(list, &last, point);
    }
    return list;
}

static bool is_called(size_t known, const char *base)
{
    return strcmp(columns[known].of.base, base) == 0;
}

/* inlet, set, and the points or the band. */
static qll_node *falloff_node(importing *work, size_t row, size_t inlet_column)
{
    qll_node *inlet = cell_node(work, row, inlet_column, "inlet");
    qll_node *set = cell_node(work, row, inlet_column + 1, "set");
    qll_node *points = points_node(work, row);
    if (inlet == NULL && set == NULL && points == NULL) {
        return NULL;
    }
    size_t offset = inlet != NULL ? inlet->offset : set != NULL ? set->offset : points->offset;
    qll_node *object = new_node(work, QLL_NODE_OBJECT, "falloff", offset);
    qll_node *const parts[] = {inlet, set, points};
    qll_node *last = NULL;
    for (size_t i = 0; object != NULL && i < 3; i++) {
        if (parts[i] != NULL) {
            hang(object, &last, parts[i]);
        }
    }
    return object;
}

static qll_node *row_node(importing *work, size_t row)
{
    qll_node *object = new_node(work, QLL_NODE_OBJECT, NULL, row * work->table->column_count);
    qll_node *last = NULL;
    for (size_t i = 0; object != NULL && i < QLL_COLUMN_COUNT; i++) {
        qll_node *child = NULL;
        if (is_called(i, "set_min")) {
            child = set_range_node(work, row, i);
        } else if (is_called(i, "falloff_inlet")) {
            child = falloff_node(work, row, i);
        } else if (!is_called(i, "set_max") && !is_called(i, "falloff_set")) {
            child = cell_node(work, row, i, columns[i].key);
        }
        if (child != NULL) {
            hang(object, &last, child);
        }
    }
    return object;
}

/* Hangs the currency that the name of the price column gives, if it does. */
static bool hang_currency(importing *work, qll_node *root, qll_node **last)
{
    const char *currency = NULL;
    for (size_t i = 0; i < QLL_COLUMN_COUNT; i++) {
        currency = columns[i].of.is_money ? work->columns.unit[i] : currency;
    }
    if (currency == NULL) {
        return true;
    }
    qll_node *node = new_node(work, QLL_NODE_TEXT, "currency", 0);
    if (node == NULL) {
        return false;
    }
    node->text = qll_text_of(currency);
    hang(root, last, node);
    return true;
}

static qll_node *tree_of(importing *work)
{
    qll_node *root = new_node(work, QLL_NODE_OBJECT, NULL, 0);
    qll_node *version = new_node(work, QLL_NODE_NUMBER, "catalogue", 0);
    qll_node *name = new_node(work, QLL_NODE_TEXT, "name", 0);
    qll_node *list = new_node(work, QLL_NODE_LIST, "valves", 0);
    if (root == NULL || version == NULL || name == NULL || list == NULL) {
        return NULL;
    }
    version->number = 1.0;
    /* The name of a file may be anything; a catalogue's is a word or two. */
    name->text = qll_text_of("imported catalog");
    qll_node *last = NULL;
    hang(root, &last, version);
    hang(root, &last, name);
    if (!hang_currency(work, root, &last)) {
        return NULL;
    }
    hang(root, &last, list);
    last = NULL;
    for (size_t row = 0; row < work->table->row_count; row++) {
        qll_node *valve = row_node(work, row);
        if (valve == NULL) {
            return NULL;
        }
        hang(list, &last, valve);
    }
    return root;
}

/* Before the rows become a tree: that of a hostile table would fill the memory. */
static qll_status refuse_row_count(importing *work)
{
    size_t count = work->table->row_count;
    qll_said says = {.id = QLL_TEXT_TABLE_NO_VALVES};
    if (count > 0) {
        says = (qll_said){QLL_TEXT_TABLE_MANY_VALVES,
                          {qll_as_whole(count), qll_as_whole(QLL_VALVES_MAX)}};
    }
    (void)qll_table_columns_refuse(
        &work->columns, count == 0 ? QLL_CODE_EMPTY_LIST : QLL_CODE_TOO_LARGE,
        qll_table_place(work->table, QLL_TABLE_HEADER, SIZE_MAX, work->arena), &says, NULL);
    return qll_problems_status(work->columns.problems);
}

qll_status qll_catalogue_import(const qll_table *table, qll_arena *arena, qll_catalogue *catalogue,
                                qll_assumed *assumed, qll_problems *problems)
{
    *catalogue = (qll_catalogue){.name = table->name};
    importing work = {
        .table = table, .arena = arena, .reader = qll_reader_new(NULL, arena, assumed)};
    work.reader.table = table;
    work.reader.manual = "catalogue.md";
    work.reader.barometric_pa = qll_barometric_pa(0.0);
    name_columns(&work);
    work.columns = (qll_table_columns){.table = table,
                                       .arena = arena,
                                       .problems = problems,
                                       .known = work.known,
                                       .known_count = QLL_ALL_COLUMN_COUNT};
    if (!qll_table_columns_find(&work.columns)) {
        return qll_problems_status(problems);
    }
    if (table->row_count == 0 || table->row_count > QLL_VALVES_MAX) {
        return refuse_row_count(&work);
    }
    const qll_node *root = tree_of(&work);
    if (root == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_catalogue_read_root(&work.reader, root, catalogue);
    return qll_reader_end(&work.reader, problems);
}
