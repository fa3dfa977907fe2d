/* One of each unit against the factors of NIST SP 811. */
#include "base/units.h"
#include "said.h"
#include "truth.h"

/* The kind whose phrase is "a <word>", or QLL_KIND_COUNT. */
static qll_kind kind_called(qll_text word)
{
    int kind = 0;
    while (kind < QLL_KIND_COUNT
           && !qll_text_is(word, qll_units_kind_phrase((qll_kind)kind) + strlen("a "))) {
        kind += 1;
    }
    return (qll_kind)kind;
}

static void check_row(const qll_table *table, size_t row, qll_arena *arena)
{
    qll_text text = qll_table_cell(table, row, qll_table_column(table, "text"));
    qll_kind kind = kind_called(qll_table_cell(table, row, qll_table_column(table, "kind")));
    qll_quantity quantity = {.si = (double)NAN};
    qll_units_refusal refusal = {.hint = ""};
    if (!CHECK(kind != QLL_KIND_COUNT)
        || !CHECK(qll_units_read(text, kind, arena, &quantity, &refusal))) {
        printf("    row %zu: %s\n", row + 1, said_text(arena, &refusal.says));
        return;
    }
    if (!CHECK_WITHIN(quantity.si, truth_number(table, row, "si"),
                      truth_number(table, row, "tolerance"))) {
        printf("    row %zu\n", row + 1);
    }
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 24);
    qll_table table = truth_read("tests/reference/units.csv", arena);
    size_t read_count = 0;
    for (size_t row = 0; row < table.row_count; row++) {
        check_row(&table, row, arena);
        read_count += truth_is(&table, row, "known", "READ") ? 1 : 0;
    }
    CHECK(read_count > 0);
    qll_arena_close(arena);
    return TEST_END();
}
