#include "documents/read_costs.h"

#include "base/files.h"
#include "base/table.h"
#include "documents/field_rows.h"
#include "physics/nominal.h"

#include <math.h>

/* A field is a row; see documents/field_rows.h. */
/* clang-format off */
static const qll_field costs_fields[] = {
    {"visit", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "10000000", COST),
        QLL_ELSE(COSTS_VISIT), QLL_MEANS(COSTS_VISIT)},
    {"stage", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "10000000", COST),
        QLL_ELSE(COSTS_VISIT),
        QLL_MEANS(COSTS_STAGE)},
    {"sizes", QLL_VALUE_LIST, QLL_ENTRIES(50), QLL_ELSE(COSTS_VISIT),
        QLL_MEANS(COSTS_SIZES)},
};
QLL_GROUP(costs, COSTS, "costs", costs_fields);

static const qll_field size_cost_fields[] = {
    {"nominal", QLL_VALUE_QUANTITY, QLL_WITHIN(LENGTH, "1/4 in", "12 in", BUILDING_VALVES), QLL_NEEDED(VALVE_SIZE)},
    {"branch", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "10000000", COST),
        QLL_ELSE(SIZE_COST_BRANCH),
        QLL_MEANS(SIZE_COST_BRANCH)},
    {"beside", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "10000000", COST),
        QLL_ELSE(SIZE_COST_BRANCH),
        QLL_MEANS(SIZE_COST_BESIDE)},
    {"direct", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "10000000", COST),
        QLL_ELSE(SIZE_COST_BRANCH),
        QLL_MEANS(SIZE_COST_DIRECT)},
    {"pilot", QLL_VALUE_QUANTITY, QLL_WITHIN(NUMBER, "0", "10000000", COST),
        QLL_ELSE(SIZE_COST_BRANCH),
        QLL_MEANS(SIZE_COST_PILOT)},
};
QLL_GROUP(size_cost, SIZE_COST, "costs.sizes[]", size_cost_fields);

/* clang-format on */

size_t qll_costs_row(const qll_costs *costs, double nominal_m)
{
    size_t row = 0;
    while (row < costs->size_count && !qll_nominal_same(costs->sizes[row].nominal_m, nominal_m)) {
        row += 1;
    }
    return row;
}

/* ---- the table ---- */

/* The row of the table's cost @p item for @p nominal_m ("" for those of no size); NaN if none. */
static double table_cost(const qll_table *csv, const char *item, double nominal_m)
{
    const size_t items = qll_table_column(csv, "item");
    const size_t nominals = qll_table_column(csv, "nominal");
    for (size_t row = 0; row < csv->row_count; row++) {
        double size_m = qll_nominal_read_m(qll_table_cell(csv, row, nominals));
        bool is_size = isnan(nominal_m) ? isnan(size_m) : qll_nominal_same(size_m, nominal_m);
        if (is_size && qll_text_is(qll_table_cell(csv, row, items), item)) {
            return qll_table_number_in(csv, row, "cost");
        }
    }
    return NAN;
}

qll_status qll_costs_read(qll_arena *arena, qll_costs *costs)
{
    qll_table csv;
    if (qll_table_read_own(qll_file_installed_costs, qll_file_installed_costs_size, arena, &csv)
        != QLL_OK) {
        return QLL_NO_MEMORY; /* our own file is well-formed; tests hold it to that */
    }
    qll_size_cost *sizes = qll_arena_take(arena, csv.row_count, sizeof *sizes);
    if (sizes == NULL) {
        return QLL_NO_MEMORY;
    }
    const size_t items = qll_table_column(&csv, "item");
    const size_t nominals = qll_table_column(&csv, "nominal");
    size_t count = 0;
    for (size_t row = 0; row < csv.row_count; row++) {
        if (!qll_text_is(qll_table_cell(&csv, row, items), "branch")) {
            continue;
        }
        double nominal_m = qll_nominal_read_m(qll_table_cell(&csv, row, nominals));
        sizes[count] = (qll_size_cost){.nominal_m = nominal_m,
                                       .branch = table_cost(&csv, "branch", nominal_m),
                                       .beside = table_cost(&csv, "beside", nominal_m),
                                       .direct = table_cost(&csv, "direct", nominal_m),
                                       .pilot = table_cost(&csv, "pilot", nominal_m)};
        count += 1;
    }
    *costs = (qll_costs){.visit = table_cost(&csv, "visit", NAN),
                         .stage = table_cost(&csv, "stage", NAN),
                         .sizes = sizes,
                         .size_count = count};
    return QLL_OK;
}

/* ---- what a document gives ---- */

static void refuse_twice(const qll_object *entry, size_t first)
{
    const qll_node *node = qll_object_find(entry, "nominal");
    (void)qll_reader_refuse(entry->reader, qll_at(node), QLL_CODE_CONTRADICTION,
                            QLL_SAYS_WITH(COST_SIZE_TWICE, qll_as_found(node), qll_as_whole(first)),
                            NULL);
}

static void read_sizes(const qll_object *object, qll_costs *costs)
{
    const qll_node *list = qll_object_list(object, "sizes");
    if (list == NULL) {
        return;
    }
    qll_size_cost *sizes = qll_reader_take(object->reader, list->child_count, sizeof *sizes);
    if (sizes == NULL) {
        return;
    }
    costs->sizes = sizes;
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        qll_object entry = qll_object_open(object->reader, node, &qll_group_size_cost);
        qll_size_cost *size = &sizes[costs->size_count];
        *size = (qll_size_cost){
            .nominal_m = NAN, .branch = NAN, .beside = NAN, .direct = NAN, .pilot = NAN};
        if (entry.node != NULL) {
            size->nominal_m = qll_object_quantity(&entry, "nominal");
            size->branch = qll_object_quantity(&entry, "branch");
            size->beside = qll_object_quantity(&entry, "beside");
            size->direct = qll_object_quantity(&entry, "direct");
            size->pilot = qll_object_quantity(&entry, "pilot");
            size_t first = qll_costs_row(costs, size->nominal_m);
            if (first < costs->size_count) {
                refuse_twice(&entry, first);
            }
        }
        costs->size_count += 1;
    }
}

const qll_costs *qll_read_costs(const qll_object *root)
{
    if (qll_object_find(root, "costs") == NULL) {
        return NULL;
    }
    qll_object object = qll_object_inner(root, "costs", &qll_group_costs);
    qll_costs *costs = qll_reader_take(root->reader, 1, sizeof *costs);
    if (object.node == NULL || costs == NULL) {
        return NULL;
    }
    costs->visit = qll_object_quantity(&object, "visit");
    costs->stage = qll_object_quantity(&object, "stage");
    read_sizes(&object, costs);
    return costs;
}
