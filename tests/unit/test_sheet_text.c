/* A sheet as plain text: every block, whatever stands in it, within the plain width. */
#include "check.h"
#include "report/columns.h"
#include "report/sheet_text.h"

static qll_sheet begun(qll_arena *arena, const char *heading)
{
    qll_sheet sheet = qll_sheet_new(arena, QLL_LANGUAGE_EN, QLL_UNITS_US);
    qll_sheet_section(&sheet, QLL_SECTION_STATION, heading);
    return sheet;
}

static const char *printed(qll_sheet *sheet)
{
    qll_sheet_end(sheet);
    qll_writer writer = qll_writer_new(sheet->arena);
    qll_sheet_print(&writer, sheet);
    return qll_writer_text(&writer).bytes;
}

static void put_cells(qll_sheet *sheet, const char *const *texts, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        qll_sheet_cell(sheet, texts[i]);
    }
}

/* Written by hand from what sheet_text.h says. */
TEST(every_block_has_its_place)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_sheet sheet = begun(arena, "Set it");
    qll_sheet_text(&sheet, QLL_BLOCK_LEAD, "Install one valve, 3/4 in.");
    qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH, "It gives 50 psi.");
    qll_sheet_item(&sheet, "a strainer");
    qll_sheet_list(&sheet, QLL_BLOCK_LIST);
    qll_sheet_text(&sheet, QLL_BLOCK_HEADING, "How");
    for (int i = 0; i < 10; i++) {
        qll_sheet_item(&sheet,
                       i == 0 ? "Open the tap and fill the jug; then turn the adjuster until the"
                                " gauge says so."
                              : "Go on.");
    }
    qll_sheet_list(&sheet, QLL_BLOCK_STEPS);
    qll_sheet_item(&sheet, "Water is hot.");
    qll_sheet_list(&sheet, QLL_BLOCK_CAUTIONS);
    CHECK_TEXT(printed(&sheet),
               "\nSET IT\n"
               "Install one valve, 3/4 in.\n"
               "  It gives 50 psi.\n"
               "  - a strainer\n"
               "\nHow\n"
               "  1. Open the tap and fill the jug; then turn the adjuster until the gauge says\n"
               "     so.\n"
               "  2. Go on.\n  3. Go on.\n  4. Go on.\n  5. Go on.\n  6. Go on.\n  7. Go on.\n"
               "  8. Go on.\n  9. Go on.\n 10. Go on.\n"
               "  ! Water is hot.\n");
    qll_arena_close(arena);
}

TEST(a_table_has_its_caption_its_words_and_its_boxes)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_sheet sheet = begun(arena, "Start it");
    qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH, "First flush.");
    put_cells(&sheet, (const char *const[]){"", "outlet", "it is", "measured", "name"}, 5);
    qll_sheet_cell(&sheet, "A");
    qll_sheet_cell(&sheet, "50 psi");
    qll_sheet_cell_tone(&sheet, "caution", QLL_TONE_CAUTION);
    qll_sheet_cell_box(&sheet, "psi", QLL_BOX_READING_MM);
    qll_sheet_cell_box(&sheet, "", QLL_BOX_READING_MM);
    qll_sheet_table(&sheet, "Settings", "lrlll", true);
    CHECK_TEXT(printed(&sheet), "\nSTART IT\n"
                                "  First flush.\n"
                                "\n  Settings\n"
                                "     outlet  it is    measured  name\n"
                                "  A  50 psi  caution  ____ psi  ________\n");
    qll_arena_close(arena);
}

/* A box and its unit stay on one line, as a number and its unit do. */
TEST(a_box_keeps_its_unit)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_sheet sheet = begun(arena, "Creep");
    for (int row = 0; row < 2; row++) {
        for (int i = 0; i < 8; i++) {
            if (row == 0) {
                qll_sheet_cell(&sheet, "one of the minutes");
            } else {
                qll_sheet_cell_box(&sheet, "psi", QLL_BOX_READING_MM);
            }
        }
    }
    qll_sheet_table(&sheet, "", "llllllll", false);
    const char *text = printed(&sheet);
    size_t whole = 0;
    for (const char *at = text; (at = strstr(at, "____")) != NULL; at += 4) {
        whole += strncmp(at, "____ psi", 8) == 0 ? 1 : 0;
    }
    CHECK(whole == 8);
    qll_arena_close(arena);
}

/* Built by hand: the sheet itself leaves such tables out. */
TEST(heads_without_rows_and_empty_texts_are_nothing)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_cell heads[] = {{.text = "flow"}, {.text = "inlet"}};
    const qll_block blocks[] = {
        {.kind = QLL_BLOCK_TABLE,
         .table = {.caption = "Points",
                   .align = "ll",
                   .cells = heads,
                   .column_count = 2,
                   .row_count = 1}},
        {.kind = QLL_BLOCK_TABLE, .table = {.caption = "None", .align = ""}},
        {.kind = QLL_BLOCK_PARAGRAPH, .text = "  "},
        {.kind = QLL_BLOCK_LIST},
        {.kind = QLL_BLOCK_FIGURE, .figure = {.id = "x", .title = "T", .description = "D"}},
    };
    qll_sheet sheet = begun(arena, "");
    sheet.sections[0] = (qll_section_sheet){
        .kind = QLL_SECTION_STATION, .heading = "Points", .blocks = blocks, .block_count = 5};
    qll_writer writer = qll_writer_new(arena);
    qll_sheet_print(&writer, &sheet);
    CHECK_TEXT(qll_writer_text(&writer).bytes, "\nPOINTS\n");
    qll_arena_close(arena);
}

/* The capitals of Spanish; a sign that is no letter stays. Columns count characters, not bytes. */
/* By hand: a title is a line of its own, and what is to be copied keeps its blanks and its width. */
TEST(a_title_and_what_is_to_be_copied)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_sheet sheet = begun(arena, "The entry");
    sheet.title = "FIT";
    sheet.subject = "F-25";
    qll_sheet_text(&sheet, QLL_BLOCK_VERBATIM,
                   "{\n  \"id\": \"a name that is wider than a line of a terminal has room for, "
                   "and is not to be broken\",\n  \"x\": \"\x1b[2J\"\n}\n");
    CHECK_TEXT(printed(&sheet),
               "FIT: F-25\n\nTHE ENTRY\n"
               "{\n  \"id\": \"a name that is wider than a line of a terminal has room for, "
               "and is not to be broken\",\n  \"x\": \" [2J\"\n}\n");
    qll_arena_close(arena);
}

TEST(spanish_has_its_capitals_and_its_width)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_sheet sheet = begun(arena, "Cómo ajustar según el caño: ¿pingüino ÷ Ñandú?");
    put_cells(&sheet, (const char *const[]){"presión", "año", "tamaño", "1", "válvula única", "22"},
              6);
    qll_sheet_table(&sheet, "Tamaños", "lr", true);
    CHECK_TEXT(printed(&sheet), "\nCÓMO AJUSTAR SEGÚN EL CAÑO: ¿PINGÜINO ÷ ÑANDÚ?\n"
                                "  Tamaños\n"
                                "  presión        año\n"
                                "  tamaño           1\n"
                                "  válvula única   22\n");
    qll_arena_close(arena);
}

/* Long words, control characters, bytes that are no UTF-8, letters of two to four bytes. */
static const char *hostile_text(qll_arena *arena, unsigned seed)
{
    static const char *const pieces[] = {
        "water ",
        "\n",
        "\x1b[31m",
        "\xff",
        "ñ",
        "\xf0\x9f\x9a\xb0",
        "12.5 gpm ",
        "____ psi ",
        "xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx",
        " ",
    };
    qll_writer writer = qll_writer_new(arena);
    for (unsigned i = 0; i < seed % 23; i++) {
        seed = seed * 1103515245U + 12345U;
        qll_write(&writer, pieces[(seed >> 16U) % (sizeof pieces / sizeof pieces[0])]);
    }
    return qll_writer_text(&writer).bytes;
}

static qll_sheet hostile_sheet(qll_arena *arena, unsigned seed)
{
    qll_sheet sheet = begun(arena, hostile_text(arena, seed + 1));
    qll_sheet_text(&sheet, QLL_BLOCK_LEAD, hostile_text(arena, seed + 2));
    qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH, hostile_text(arena, seed + 3));
    for (unsigned i = 0; i < 12; i++) {
        qll_sheet_item(&sheet, hostile_text(arena, seed + i));
    }
    qll_sheet_list(&sheet, seed % 2 == 0 ? QLL_BLOCK_STEPS : QLL_BLOCK_CAUTIONS);
    qll_sheet_text(&sheet, QLL_BLOCK_HEADING, hostile_text(arena, seed + 4));
    unsigned columns = 1 + seed % 31;
    char *align = qll_arena_take(arena, columns + 1, 1);
    for (unsigned c = 0; c < columns; c++) {
        align[c] = (seed >> (c % 8)) % 2 == 0 ? 'l' : 'r';
    }
    for (unsigned i = 0; i < 3 * columns; i++) {
        if (i >= columns && i % 3 == 0) {
            qll_sheet_cell_box(&sheet, hostile_text(arena, seed + i), QLL_BOX_READING_MM);
        } else {
            qll_sheet_cell(&sheet, hostile_text(arena, seed * 31 + i));
        }
    }
    qll_sheet_table(&sheet, hostile_text(arena, seed + 5), align, seed % 3 == 0);
    return sheet;
}

TEST(nothing_is_wider_than_the_plain_width)
{
    for (unsigned seed = 0; seed < 500; seed++) {
        qll_arena *arena = qll_arena_open(1 << 24);
        qll_sheet sheet = hostile_sheet(arena, seed);
        const char *text = printed(&sheet);
        CHECK(text != NULL);
        qll_text rest = qll_text_of(text == NULL ? "" : text);
        CHECK(qll_text_utf8_end(rest) == rest.size);
        while (rest.size > 0) {
            const char *end = memchr(rest.bytes, '\n', rest.size);
            size_t size = end == NULL ? rest.size : (size_t)(end - rest.bytes);
            CHECK(qll_text_width((qll_text){rest.bytes, size}) <= QLL_PLAIN_WIDTH);
            CHECK(memchr(rest.bytes, '\x1b', size) == NULL);
            size += end == NULL ? 0 : 1;
            rest = (qll_text){rest.bytes + size, rest.size - size};
        }
        qll_arena_close(arena);
    }
}

/* What was written is all there: every letter of a word that is wider than the page. */
TEST(a_long_word_is_broken_and_not_lost)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_sheet sheet = begun(arena, "x");
    qll_writer word = qll_writer_new(arena);
    qll_write_byte(&word, 'w', 200);
    const char *closed = qll_writer_text(&word).bytes;
    qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH, closed);
    put_cells(&sheet, (const char *const[]){"a", "b", closed, "12 psi"}, 4);
    qll_sheet_table(&sheet, "", "lr", false);
    const char *text = printed(&sheet);
    size_t letters = 0;
    for (const char *at = text; *at != '\0'; at++) {
        letters += *at == 'w' ? 1 : 0;
    }
    CHECK(letters == 400);
    CHECK(strstr(text, "12 psi") != NULL);
    qll_arena_close(arena);
}

/* Fourteen columns do not fit: each row becomes a list of its own. */
TEST(a_table_of_too_many_columns_is_told_row_by_row)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_sheet sheet = begun(arena, "Wide");
    for (int i = 0; i < 14; i++) {
        qll_sheet_cell(&sheet, i == 1 ? "" : "head");
    }
    for (int i = 0; i < 14; i++) {
        qll_sheet_cell(&sheet, "5 psi");
    }
    qll_sheet_table(&sheet, "", "llllllllllllll", false);
    const char *text = printed(&sheet);
    CHECK(strstr(text, "\n  - head: 5 psi\n    5 psi\n    head: 5 psi\n") != NULL);
    qll_arena_close(arena);
}

TEST(without_memory_the_arena_says_so)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    qll_sheet sheet = hostile_sheet(arena, 44); /* 14 columns */
    qll_sheet_section(&sheet, QLL_SECTION_EXPECT, "More");
    put_cells(&sheet, (const char *const[]){"a", "b", "c", "d"}, 4);
    qll_sheet_table(&sheet, "Two", "lr", false);
    qll_sheet_text(&sheet, QLL_BLOCK_VERBATIM, "{\n}\n");
    qll_sheet_end(&sheet);
    qll_writer whole = qll_writer_new(arena);
    qll_sheet_print(&whole, &sheet);
    qll_arena_mark mark = qll_arena_now(arena);
    size_t nth = 1;
    for (bool done = false; !done && nth < 100000; nth++) {
        qll_arena_fail(arena, nth, nth % 2 == 0);
        size_t refused = qll_arena_refused(arena);
        qll_writer writer = qll_writer_new(arena);
        qll_sheet_print(&writer, &sheet);
        done = qll_arena_refused(arena) == refused;
        CHECK(!done || qll_text_equal(qll_writer_text(&writer), qll_writer_text(&whole)));
        qll_arena_fail(arena, 0, false);
        qll_arena_reset(arena, mark);
    }
    CHECK(nth > 20 && nth < 100000);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(every_block_has_its_place);
    TEST_RUN(a_table_has_its_caption_its_words_and_its_boxes);
    TEST_RUN(a_box_keeps_its_unit);
    TEST_RUN(heads_without_rows_and_empty_texts_are_nothing);
    TEST_RUN(a_title_and_what_is_to_be_copied);
    TEST_RUN(spanish_has_its_capitals_and_its_width);
    TEST_RUN(nothing_is_wider_than_the_plain_width);
    TEST_RUN(a_long_word_is_broken_and_not_lost);
    TEST_RUN(a_table_of_too_many_columns_is_told_row_by_row);
    TEST_RUN(without_memory_the_arena_says_so);
    return TEST_END();
}
