/* The unit table: no spelling means two things, and the manual lists every row as it is. */
#include "base/units_table.h"
#include "check.h"

static qll_arena *arena;

static const char *spelling_of(const qll_unit *unit, size_t i)
{
    return i == 0 ? unit->name : i <= QLL_UNIT_SPELLINGS ? unit->spellings[i - 1] : NULL;
}

static void check_spellings(const qll_unit *unit, qll_kind kind)
{
    for (size_t i = 0; spelling_of(unit, i) != NULL; i++) {
        if (!CHECK(qll_units_match(qll_text_of(spelling_of(unit, i)), kind) == unit)) {
            printf("    %s\n", spelling_of(unit, i));
        }
    }
}

/* The first row that is written so wins: two rows of one kind never share a spelling. */
TEST(every_spelling_finds_its_own_row)
{
    for (size_t i = 0; i < qll_units_table_count; i++) {
        const qll_unit *unit = &qll_units_table[i];
        CHECK(unit->factor > 0.0 && unit->per > 0.0 && unit->source != NULL);
        for (int kind = 0; kind < QLL_KIND_COUNT; kind++) {
            if ((unit->kinds & qll_unit_kind_bit((qll_kind)kind)) != 0) {
                check_spellings(unit, (qll_kind)kind);
            }
        }
    }
}

static void write_kinds(qll_writer *writer, const qll_unit *unit)
{
    const char *before = "| ";
    for (int kind = 0; kind < QLL_KIND_COUNT; kind++) {
        if ((unit->kinds & qll_unit_kind_bit((qll_kind)kind)) != 0) {
            qll_write(writer, before);
            qll_write(writer, qll_units_kind_phrase((qll_kind)kind) + strlen("a "));
            before = ", ";
        }
    }
    qll_write(writer, unit->absolute ? " (absolute) | " : " | ");
}

/* The line that docs/formats/units.md has for this row. */
static qll_text page_line(const qll_unit *unit)
{
    qll_writer writer = qll_writer_new(arena);
    write_kinds(&writer, unit);
    qll_write_format(&writer, "`%s` |", unit->name);
    for (size_t j = 1; spelling_of(unit, j) != NULL; j++) {
        qll_write_format(&writer, "%s `%s`", j == 1 ? "" : ",", spelling_of(unit, j));
    }
    qll_write(&writer, " | ");
    if (unit->shift != 0.0) {
        qll_write(&writer, "value ");
        qll_write(&writer, unit->shift < 0.0 ? "- " : "+ ");
        qll_write_number(&writer, fabs(unit->shift));
        qll_write(&writer, ", times ");
    }
    qll_write_number(&writer, unit->factor / unit->per);
    qll_write_format(&writer, " | %s | %s |\n", unit->rounded ? "no" : "yes", unit->source);
    return qll_writer_text(&writer);
}

TEST(the_manual_lists_every_row_and_no_other)
{
    static char page[1 << 17];
    FILE *file = fopen(QUELL_ROOT "/docs/formats/units.md", "rb");
    if (!CHECK(file != NULL)) {
        return;
    }
    size_t size = fread(page, 1, sizeof page - 1, file);
    page[size] = '\0';
    fclose(file);
    for (size_t i = 0; i < qll_units_table_count; i++) {
        qll_text line = page_line(&qll_units_table[i]);
        if (!CHECK(strstr(page, line.bytes) != NULL)) {
            printf("%s", line.bytes);
        }
    }
    size_t count = 0;
    for (const char *at = strstr(page, "| `"); at != NULL; at = strstr(at + 1, "| `")) {
        /* The name's cell; that of the other spellings follows a closing mark. */
        count += at[-2] == '`' ? 0 : 1;
    }
    CHECK(count == qll_units_table_count);
}

int main(void)
{
    arena = qll_arena_open((size_t)1 << 20);
    TEST_RUN(every_spelling_finds_its_own_row);
    TEST_RUN(the_manual_lists_every_row_and_no_other);
    qll_arena_close(arena);
    return TEST_END();
}
