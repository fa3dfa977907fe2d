#include "base/table.h"
#include "check.h"
#include "said.h"

#include <math.h>
#include <stdlib.h>

/* What is well-formed comes from RFC 4180, section 2. */

typedef struct reading {
    qll_arena *arena;
    qll_problems problems;
    qll_table table;
    qll_status status;
} reading;

static reading read_text(qll_text source)
{
    reading got = {.arena = qll_arena_open((size_t)1 << 30)};
    got.problems = qll_problems_none(got.arena);
    got.status = qll_table_read(source, "valves.csv", got.arena, &got.table, &got.problems);
    return got;
}

static void end(reading *got)
{
    qll_arena_close(got->arena);
}

TEST(cells_are_resolved)
{
    reading got = read_text(
        qll_text_of("\xEF\xBB\xBF# a remark, with \"quotes\r\n\r\n id ,\"k\"\"v\", size\r\n"
                    "D-50,18,\"2\"\"\"\r\n\r\n\"two\r\nlines, one cell\",,\n , 2.5 ,x"));
    CHECK(got.status == QLL_OK && got.problems.count == 0);
    const qll_table *table = &got.table;
    CHECK(table->column_count == 3 && table->row_count == 3);
    CHECK(qll_text_is(table->columns[0], "id") && qll_text_is(table->columns[1], "k\"v"));
    CHECK(qll_table_column(table, "size") == 2 && qll_table_column(table, "kv") == SIZE_MAX);
    CHECK(qll_text_is(qll_table_cell(table, 0, 2), "2\""));
    CHECK(qll_text_is(qll_table_cell(table, 1, 0), "two\r\nlines, one cell"));
    CHECK(qll_table_cell(table, 1, 1).size == 0 && qll_table_cell(table, 1, 2).size == 0);
    CHECK(qll_text_is(qll_table_cell(table, 2, 0), " "));
    CHECK(qll_table_cell(table, 0, SIZE_MAX).size == 0);
    CHECK(qll_table_number(table, 0, 1) == 18.0 && qll_table_number(table, 2, 1) == 2.5);
    CHECK(isnan(qll_table_number(table, 1, 1)) && isnan(qll_table_number(table, 0, 2)));
    CHECK(isnan(qll_table_number(table, 0, SIZE_MAX)));
    CHECK(table->lines[0] == 4 && table->lines[1] == 6 && table->lines[2] == 8);
    end(&got);
}

TEST(places_name_row_and_column)
{
    reading got = read_text(qll_text_of("id,kv\n\xC3\xA9,\"1\n2\"\n\"a\nb\",3\n"));
    CHECK(got.status == QLL_OK);
    qll_place place = qll_table_place(&got.table, 0, 1, got.arena);
    CHECK_TEXT(place.path, "row 1, kv");
    CHECK(place.line == 2 && place.column == 3);
    place = qll_table_place(&got.table, 1, 1, got.arena);
    CHECK(place.line == 5 && place.column == 4);
    place = qll_table_place(&got.table, 1, SIZE_MAX, got.arena);
    CHECK_TEXT(place.path, "row 2");
    CHECK(place.line == 4 && place.column == 1);
    place = qll_table_place(&got.table, QLL_TABLE_HEADER, 1, got.arena);
    CHECK_TEXT(place.path, "header, kv");
    CHECK_TEXT(place.source, "valves.csv");
    CHECK(place.line == 1 && place.column == 4);
    end(&got);
}

TEST(a_header_alone_is_a_table_without_rows)
{
    reading got = read_text(qll_text_of("id,kv"));
    CHECK(got.status == QLL_OK && got.table.row_count == 0 && got.table.column_count == 2);
    end(&got);
    got = read_text(qll_text_of("id\n\"\"\n\n"));
    CHECK(got.status == QLL_OK && got.table.row_count == 1);
    end(&got);
}

typedef struct refusal {
    const char *source;
    int line, column;
    qll_code code;
    const char *path;
    const char *text;
    const char *hint;
} refusal;

static const refusal refusals[] = {
    {"", 1, 1, QLL_CODE_SYNTAX, "",
     "the table is empty; expected a header line with the names of the columns", ""},
    {"# only\n", 2, 1, QLL_CODE_SYNTAX, "",
     "the table is empty; expected a header line with the names of the columns", ""},
    {"a,b\n1\n", 2, 2, QLL_CODE_BAD_ROW, "row 1", "found 1 cell; expected 2, one for each column",
     ""},
    {"a,b\n1,2\n1,2,3,4\n", 3, 5, QLL_CODE_BAD_ROW, "row 2",
     "found 4 cells; expected 2, one for each column", "put a cell that holds a comma in quotes"},
    {"a,b, a\n", 1, 5, QLL_CODE_BAD_COLUMN, "header, a",
     "the column \"a\" is there already, as column 1; expected it once", ""},
    {"a,,b\n", 1, 3, QLL_CODE_BAD_COLUMN, "header", "column 2 has no name; expected one", ""},
    {"a,b\n2\",x\n", 2, 2, QLL_CODE_SYNTAX, "",
     "a quote is inside a cell that does not begin with one; expected the whole cell in quotes",
     "put the cell in quotes and write its own quote twice: \"2\"\"\""},
    {"a,b\n\"2\" in,x\n", 2, 4, QLL_CODE_SYNTAX, "",
     "text follows a closing quote; expected a comma or the end of the line",
     "write a quote inside a cell twice"},
    {"a,b\n1,\"x\n2,y\n", 2, 3, QLL_CODE_SYNTAX, "",
     "the quote that opens here is never closed; expected a closing quote", ""},
    {"a,b\r1,2\r", 1, 4, QLL_CODE_SYNTAX, "",
     "a carriage return is alone; expected a line feed with it",
     "save the file with line ends LF or CR LF"},
    {"a,b\n1,\x1B[2J\n", 2, 3, QLL_CODE_ENCODING, "",
     "the control character \"\\u001b\" is not allowed in a table", "remove it"},
    {"a,b\n1,\"x\x7F\"\n", 2, 5, QLL_CODE_ENCODING, "",
     "the control character \"\\u007f\" is not allowed in a table", "remove it"},
    {"a,b\n\xC3\xA9,\xE9\n", 2, 3, QLL_CODE_ENCODING, "",
     "the byte 0xE9 is not part of a UTF-8 character; expected UTF-8 text",
     "save the file with the encoding UTF-8"},
};

TEST(every_refusal_points_at_the_spot)
{
    for (size_t i = 0; i < sizeof refusals / sizeof *refusals; i++) {
        const refusal *want = &refusals[i];
        reading got = read_text(qll_text_of(want->source));
        const qll_problem said = said_problem(&got.problems, 0);
        const qll_problem *problem = &said;
        CHECK(got.status == QLL_REFUSED && got.problems.count == 1);
        bool ok = CHECK(problem->code == want->code) && CHECK(problem->place.line == want->line)
                  && CHECK(problem->place.column == want->column)
                  && CHECK_TEXT(problem->place.path, want->path)
                  && CHECK_TEXT(problem->text, want->text) && CHECK_TEXT(problem->hint, want->hint);
        if (!ok) {
            printf("    %s\n    got line %d, column %d\n", want->source, problem->place.line,
                   problem->place.column);
        }
        end(&got);
    }
}

TEST(bad_rows_are_all_listed_in_reading_order)
{
    reading got = read_text(qll_text_of("a,b,a\n1\n1,2,3\n1,2,3,4\n\"x"));
    CHECK(got.status == QLL_REFUSED && got.problems.count == 4);
    CHECK(got.problems.kept[0].code == QLL_CODE_BAD_COLUMN);
    CHECK_TEXT(got.problems.kept[1].place.path, "row 1");
    CHECK_TEXT(got.problems.kept[2].place.path, "row 3");
    CHECK(got.problems.kept[3].code == QLL_CODE_SYNTAX);
    end(&got);
}

/* @p before and then @p count times @p piece, freed by the caller. */
static char *repeated(const char *before, const char *piece, size_t count)
{
    size_t before_size = strlen(before);
    size_t piece_size = strlen(piece);
    char *bytes = malloc(before_size + count * piece_size + 1);
    memcpy(bytes, before, before_size);
    for (size_t i = 0; i < count; i++) {
        memcpy(bytes + before_size + i * piece_size, piece, piece_size);
    }
    bytes[before_size + count * piece_size] = '\0';
    return bytes;
}

TEST(sizes_have_limits)
{
    char *rows = repeated("a\n", "1\n", QLL_TABLE_ROWS + 1);
    reading got = read_text(qll_text_of(rows));
    CHECK(got.status == QLL_REFUSED && got.problems.kept[0].code == QLL_CODE_TOO_LARGE);
    CHECK(got.problems.kept[0].place.line == (int)QLL_TABLE_ROWS + 2);
    end(&got);
    got = read_text((qll_text){rows, strlen(rows) - 2});
    CHECK(got.status == QLL_OK && got.table.row_count == QLL_TABLE_ROWS);
    end(&got);
    free(rows);
    char *columns = repeated("a", ",a", QLL_TABLE_COLUMNS);
    got = read_text(qll_text_of(columns));
    CHECK(got.status == QLL_REFUSED && got.problems.kept[0].code == QLL_CODE_TOO_LARGE);
    CHECK(got.problems.kept[0].place.column == 2 * (int)QLL_TABLE_COLUMNS + 1);
    end(&got);
    free(columns);
    char *bad = repeated("a\n", "1,2\n", 100000);
    got = read_text(qll_text_of(bad));
    CHECK(got.status == QLL_REFUSED && got.problems.count == 100000);
    CHECK(got.problems.kept_count == QLL_PROBLEMS_KEPT);
    end(&got);
    free(bad);
    char *large = repeated("", " ", QLL_TABLE_SIZE + 1);
    got = read_text(qll_text_of(large));
    CHECK(got.status == QLL_REFUSED && got.problems.kept[0].code == QLL_CODE_TOO_LARGE);
    end(&got);
    free(large);
}

int main(void)
{
    TEST_RUN(cells_are_resolved);
    TEST_RUN(places_name_row_and_column);
    TEST_RUN(a_header_alone_is_a_table_without_rows);
    TEST_RUN(every_refusal_points_at_the_spot);
    TEST_RUN(bad_rows_are_all_listed_in_reading_order);
    TEST_RUN(sizes_have_limits);
    return TEST_END();
}
