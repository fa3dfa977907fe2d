/* Reads the groups of a reference row, "count:flow in gpm:probability|...". */
#ifndef QUELL_TESTS_USE_GROUPS_H
#define QUELL_TESTS_USE_GROUPS_H

#include "base/customary.h"
#include "demand/demand.h"
#include "truth.h"

#define TEST_GROUPS_MOST 16

typedef struct use_groups {
    qll_use_group list[TEST_GROUPS_MOST];
    size_t count;
} use_groups;

/* The number at the start of @p rest, and the mark behind it, are cut off. */
static inline double use_groups_number(qll_text *rest)
{
    double value = NAN;
    size_t size = qll_text_number(*rest, &value);
    CHECK(size > 0);
    size += size < rest->size ? 1 : 0;
    *rest = (qll_text){.bytes = rest->bytes + size, .size = rest->size - size};
    return value;
}

static inline use_groups use_groups_of(const qll_table *table, size_t row)
{
    use_groups groups = {.count = 0};
    qll_text rest = qll_table_cell(table, row, qll_table_column(table, "groups_count_gpm_p"));
    while (rest.size > 0 && groups.count < TEST_GROUPS_MOST) {
        qll_use_group *group = &groups.list[groups.count];
        group->count = (size_t)use_groups_number(&rest);
        group->flow_m3s = use_groups_number(&rest) * QLL_GPM_M3S;
        group->probability = use_groups_number(&rest);
        groups.count += 1;
    }
    CHECK(groups.count > 0 && rest.size == 0);
    return groups;
}

#endif
