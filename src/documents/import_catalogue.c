#include "base/count.h"
#include "base/quote.h"
#include "base/words.h"
#include "documents/catalogue_fields.h"
#include "documents/read_catalogue.h"
#include "documents/table_unit.h"

#include <stdint.h>
#include <string.h>

/* A table becomes the tree that the JSON reader reads, one object a row, so that ranges, defaults
 * and sentences are the same. The offset of a node is the number of its cell, from which
 * documents/reader.c finds the place. */

/* ---- columns ---- */

typedef struct column {
    const char *base; /* what it is called without a unit */
    const char *key;  /* the field it stands for */
    qll_kind kind;
    bool obligatory;
} column;

static const column columns[] = {
    {"id", "id", QLL_KIND_NUMBER, true},
    {"nominal", "nominal", QLL_KIND_LENGTH, true},
    {"acting", "acting", QLL_KIND_NUMBER, true},
    {"kv", "kv", QLL_KIND_FLOW_COEFFICIENT, true},
    {"set_min", "set_range", QLL_KIND_PRESSURE, true},
    {"set_max", "set_range", QLL_KIND_PRESSURE, true},
    {"inlet_max", "inlet_max", QLL_KIND_PRESSURE, true},
    {"temperature_max", "temperature_max", QLL_KIND_TEMPERATURE, false},
    {"falloff_inlet", "inlet", QLL_KIND_PRESSURE, false},
    {"falloff_set", "set", QLL_KIND_PRESSURE, false},
    {"band", "band", QLL_KIND_PRESSURE_DIFFERENCE, false},
    {"lockup_rise", "lockup_rise", QLL_KIND_PRESSURE_DIFFERENCE, false},
    {"inlet_effect", "inlet_effect", QLL_KIND_NUMBER, false},
    {"flow_min", "flow_min", QLL_KIND_FLOW, false},
    {"hysteresis", "hysteresis", QLL_KIND_PRESSURE_DIFFERENCE, false},
    {"fl", "fl", QLL_KIND_NUMBER, false},
    {"fd", "fd", QLL_KIND_NUMBER, false},
    {"xfz", "xfz", QLL_KIND_NUMBER, false},
    {"seat_bore", "seat_bore", QLL_KIND_LENGTH, false},
    {"strainer_kv", "strainer_kv", QLL_KIND_FLOW_COEFFICIENT, false},
    {"price", "price", QLL_KIND_NUMBER, false},
    {"lead_days", "lead_days", QLL_KIND_NUMBER, false},
};
#define QLL_COLUMN_COUNT QLL_COUNT(columns)

/* Columns of the points: falloff_1_flow, falloff_1_drop and so on. */
#define QLL_POINT_COLUMN_COUNT ((size_t)2 * QLL_FALLOFF_COLUMN_MAX)
#define QLL_ALL_COLUMN_COUNT   (QLL_COLUMN_COUNT + QLL_POINT_COLUMN_COUNT)

/* Where each known column stands in the table, and the unit its name gives. */
typedef struct layout {
    size_t at[QLL_ALL_COLUMN_COUNT]; /* SIZE_MAX: not there */
    const char *unit[QLL_ALL_COLUMN_COUNT];
    const char *base[QLL_ALL_COLUMN_COUNT];
} layout;

typedef struct importing {
    const qll_table *table;
    qll_arena *arena;
    qll_problems *problems;
    qll_reader reader;
    layout layout;
} importing;

static void name_point_columns(importing *work)
{
    for (size_t i = 0; i < QLL_POINT_COLUMN_COUNT; i++) {
        qll_writer name = qll_writer_new(work->arena);
        qll_write_format(&name, "falloff_%zu_%s", i / 2 + 1, i % 2 == 0 ? "flow" : "drop");
        work->layout.base[QLL_COLUMN_COUNT + i] = qll_writer_text(&name).bytes;
    }
    for (size_t i = 0; i < QLL_COLUMN_COUNT; i++) {
        work->layout.base[i] = columns[i].base;
    }
    for (size_t i = 0; i < QLL_ALL_COLUMN_COUNT; i++) {
        work->layout.at[i] = SIZE_MAX;
    }
}

static qll_kind kind_of(size_t known)
{
    if (known < QLL_COLUMN_COUNT) {
        return columns[known].kind;
    }
    return (known - QLL_COLUMN_COUNT) % 2 == 0 ? QLL_KIND_FLOW : QLL_KIND_PRESSURE_DIFFERENCE;
}

/* "_eur" or "_EUR" behind the name of the prices: the currency, in capitals; NULL if it is none. */
static const char *column_currency(const importing *work, qll_text rest)
{
    qll_writer letters = qll_writer_new(work->arena);
    if (rest.size != 4 || rest.bytes[0] != '_') {
        return NULL;
    }
    for (size_t i = 1; i < rest.size; i++) {
        const char letter = (char)(rest.bytes[i] & ~0x20);
        if (letter < 'A' || letter > 'Z') {
            return NULL;
        }
        qll_write_byte(&letters, letter, 1);
    }
    return qll_writer_text(&letters).bytes;
}

/* The known column that @p name means, QLL_ALL_COLUMN_COUNT if none; its unit, NULL if it names none. */
static size_t find_column(const importing *work, qll_text name, const char **unit)
{
    *unit = NULL;
    for (size_t i = 0; i < QLL_ALL_COLUMN_COUNT; i++) {
        const char *base = work->layout.base[i];
        size_t size = strlen(base);
        if (name.size < size || memcmp(name.bytes, base, size) != 0) {
            continue;
        }
        qll_text rest = {name.bytes + size, name.size - size};
        if (rest.size == 0) {
            return i;
        }
        if (strcmp(base, "price") == 0) {
            *unit = column_currency(work, rest);
        } else {
            *unit = kind_of(i) == QLL_KIND_NUMBER ? NULL : qll_column_unit(rest);
        }
        if (*unit != NULL) {
            return i;
        }
    }
    return QLL_ALL_COLUMN_COUNT;
}

static void refuse_column(importing *work, size_t at, const qll_said *says, const qll_said *hint)
{
    (void)qll_problems_add(
        work->problems,
        (qll_fault){.code = QLL_CODE_BAD_COLUMN,
                    .level = QLL_REFUSAL,
                    .place = qll_table_place(work->table, QLL_TABLE_HEADER, at, work->arena),
                    .says = says,
                    .hint = hint});
}

static void place_column(importing *work, size_t at)
{
    qll_text name = work->table->columns[at];
    const char *unit;
    size_t known = find_column(work, name, &unit);
    if (known == QLL_ALL_COLUMN_COUNT) {
        const char *nearest = qll_words_nearest(qll_column_without_unit(name), work->layout.base,
                                                QLL_ALL_COLUMN_COUNT);
        refuse_column(work, at, QLL_SAYS_WITH(COLUMN_UNKNOWN, qll_as_quoted(name)),
                      qll_hint_word(nearest, work->arena));
        return;
    }
    if (work->layout.at[known] != SIZE_MAX) {
        const qll_text first = work->table->columns[work->layout.at[known]];
        refuse_column(work, at,
                      QLL_SAYS_WITH(COLUMN_SAME, qll_as_quoted(name), qll_as_quoted(first)), NULL);
        return;
    }
    work->layout.at[known] = at;
    work->layout.unit[known] = unit;
}

static bool read_header(importing *work)
{
    size_t refusals_before = work->problems->refusal_count;
    for (size_t at = 0; at < work->table->column_count; at++) {
        place_column(work, at);
    }
    bool is_clean = work->problems->refusal_count == refusals_before;
    for (size_t i = 0; is_clean && i < QLL_COLUMN_COUNT; i++) {
        if (columns[i].obligatory && work->layout.at[i] == SIZE_MAX) {
            const bool has_kind = columns[i].kind != QLL_KIND_NUMBER;
            const qll_said says = {has_kind ? QLL_TEXT_COLUMN_MISSING : QLL_TEXT_COLUMN_MISSING_IT,
                                   {qll_as_is(columns[i].base), qll_as_kind(columns[i].kind)}};
            refuse_column(work, SIZE_MAX, &says, NULL);
        }
    }
    return work->problems->refusal_count == refusals_before;
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
    size_t at = work->layout.at[known];
    qll_text cell = qll_text_trimmed(qll_table_cell(work->table, row, at));
    if (at == SIZE_MAX || cell.size == 0) {
        return NULL;
    }
    qll_node *node = new_node(work, QLL_NODE_TEXT, key, row * work->table->column_count + at);
    if (node == NULL) {
        return NULL;
    }
    node->text = cell;
    bool is_word =
        known < QLL_COLUMN_COUNT
        && (strcmp(columns[known].key, "id") == 0 || strcmp(columns[known].key, "acting") == 0);
    if (kind_of(known) == QLL_KIND_NUMBER && !is_word
        && qll_text_number(cell, &node->number) == cell.size) {
        node->kind = QLL_NODE_NUMBER;
    }
    if (kind_of(known) != QLL_KIND_NUMBER) {
        node->text = qll_cell_with_unit(cell, work->layout.unit[known], work->arena);
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
    return strcmp(columns[known].base, base) == 0;
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
        currency = is_called(i, "price") ? work->layout.unit[i] : currency;
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
    (void)qll_problems_add(
        work->problems,
        (qll_fault){.code = count == 0 ? QLL_CODE_EMPTY_LIST : QLL_CODE_TOO_LARGE,
                    .level = QLL_REFUSAL,
                    .place = qll_table_place(work->table, QLL_TABLE_HEADER, SIZE_MAX, work->arena),
                    .says = &says});
    return qll_problems_status(work->problems);
}

qll_status qll_catalogue_import(const qll_table *table, qll_arena *arena, qll_catalogue *catalogue,
                                qll_assumed *assumed, qll_problems *problems)
{
    *catalogue = (qll_catalogue){.name = table->name};
    importing work = {.table = table,
                      .arena = arena,
                      .problems = problems,
                      .reader = qll_reader_new(NULL, arena, assumed)};
    work.reader.table = table;
    work.reader.barometric_pa = qll_barometric_pa(0.0);
    name_point_columns(&work);
    if (!read_header(&work)) {
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
