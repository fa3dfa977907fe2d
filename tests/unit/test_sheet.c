/* Sections and blocks, as HTML and on pages. */
#include "check.h"
#include "html_check.h"
#include "paged.h"
#include "report/html.h"

static const char *html_of(const qll_sheet *sheet, qll_arena *arena)
{
    qll_writer writer = qll_writer_new(arena);
    qll_html_write(&writer, sheet);
    return qll_writer_text(&writer).bytes;
}

TEST(empty_sections_and_tables_are_left_out)
{
    qll_arena *arena = qll_arena_open(1 << 22);
    qll_sheet sheet = empty_sheet(arena);
    qll_sheet_section(&sheet, QLL_SECTION_COVER, "Cover");
    qll_sheet_section(&sheet, QLL_SECTION_SURVEY, "Survey");
    qll_sheet_list(&sheet, QLL_BLOCK_LIST);
    qll_sheet_cell(&sheet, "only");
    qll_sheet_cell(&sheet, "heads");
    qll_sheet_table(&sheet, "No rows", "ll", false);
    qll_sheet_section(&sheet, QLL_SECTION_DEMAND, "Demand");
    qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH, "Some words.");
    qll_sheet_section(&sheet, QLL_SECTION_SOURCES, "Sources");
    qll_sheet_end(&sheet);
    CHECK(sheet.section_count == 1);
    CHECK_TEXT(sheet.sections[0].heading, "Demand");
    const char *html = html_of(&sheet, arena);
    html_page page;
    html_check(html, &page);
    CHECK(page.heading_count[2] == 1 && page.table_count == 0);
    qll_arena_close(arena);
}

/* Names that would break out, turn the line round or ring a bell. */
static const char hostile[] =
    "<script>alert(\"1\")</script> & 'x' \x07\x1b[31m \xe2\x80\xae"
    "abc \xd7\xa9\xd7\x9c\xd7\x95\xd7\x9d \xf0\x9f\x9a\xb0 \xff\xfe -->]]></svg>\x01";

static qll_sheet hostile_sheet(qll_arena *arena, const char *name)
{
    qll_sheet sheet = empty_sheet(arena);
    sheet.subject = name;
    qll_sheet_section(&sheet, QLL_SECTION_COVER, name);
    qll_sheet_text(&sheet, QLL_BLOCK_LEAD, name);
    qll_sheet_text(&sheet, QLL_BLOCK_HEADING, name);
    qll_sheet_item(&sheet, name);
    qll_sheet_list(&sheet, QLL_BLOCK_STEPS);
    qll_sheet_item(&sheet, name);
    qll_sheet_list(&sheet, QLL_BLOCK_CAUTIONS);
    qll_sheet_text(&sheet, QLL_BLOCK_VERBATIM, name);
    for (int i = 0; i < 3; i++) {
        qll_sheet_cell(&sheet, i == 0 ? "head" : name);
        qll_sheet_cell_tone(&sheet, i == 0 ? "head" : name, QLL_TONE_FAIL);
        qll_sheet_cell_box(&sheet, i == 0 ? "head" : name, QLL_BOX_READING_MM);
    }
    qll_sheet_table(&sheet, name, "lrl", true);
    qll_sheet_end(&sheet);
    return sheet;
}

TEST(names_are_shown_and_never_obeyed)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    const qll_sheet sheet = hostile_sheet(arena, hostile);
    const char *html = html_of(&sheet, arena);
    html_page page;
    html_check(html, &page);
    CHECK(strstr(html, "<script") == NULL);
    CHECK(strstr(html, "&lt;script&gt;alert(&quot;1&quot;)") != NULL);
    CHECK(strstr(html, "\xe2\x80\xae") == NULL);
    qll_text text = qll_text_of(html);
    CHECK(qll_text_utf8_end(text) == text.size);
    qll_arena_close(arena);
}

static size_t bytes_of_letter(const qll_canvas *pages, char letter)
{
    size_t count = 0;
    for (size_t i = 0; i < pages->count; i++) {
        const qll_item *item = &pages->items[i];
        for (size_t b = 0; item->kind == QLL_ITEM_TEXT && b < item->text.size; b++) {
            count += item->text.bytes[b] == letter ? 1 : 0;
        }
    }
    return count;
}

TEST(names_of_any_length_wrap_and_are_never_cut)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 28);
    static char name[10001];
    memset(name, 'Q', sizeof name - 1);
    const qll_sheet sheet = hostile_sheet(arena, name);
    qll_canvas pages;
    qll_layout_pages(&sheet, arena, &pages);
    check_pages(&pages);
    /* Subject, section, lead, heading, step, caution and caption; two rows of three cells. The foot of each
     * page ends in an ellipsis. */
    size_t whole = 7 * 10000 + 2 * 3 * 10000;
    size_t found = bytes_of_letter(&pages, 'Q');
    CHECK(found >= whole);
    CHECK(found < whole + 400 * (pages.page_count + 1));
    const qll_sheet odd = hostile_sheet(arena, hostile);
    qll_layout_pages(&odd, arena, &pages);
    check_pages(&pages);
    qll_arena_close(arena);
}

static qll_sheet long_table(qll_arena *arena, int rows, const char *height, qll_unit_system units)
{
    qll_sheet sheet = empty_sheet(arena);
    sheet.units = units;
    qll_sheet_section(&sheet, QLL_SECTION_SURVEY, "Survey");
    qll_sheet_cell(&sheet, "the outlet");
    qll_sheet_cell(&sheet, "the height");
    for (int i = 1; i <= rows; i++) {
        qll_writer name = qll_writer_new(arena);
        qll_write_format(&name, "outlet %d", i);
        qll_sheet_cell(&sheet, qll_writer_text(&name).bytes);
        qll_sheet_cell(&sheet, height);
    }
    qll_sheet_table(&sheet, "Outlets", "lr", true);
    qll_sheet_end(&sheet);
    return sheet;
}

/* So wide that no other such table has room beside it. */
static const char wide_cell[] =
    "10 ft over the floor of the mechanical room, where the station stands";

/* Half of the page would be empty beside it: all of its rows stand on one page, under heads of their own. */
TEST(long_narrow_tables_stand_in_columns)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    const qll_sheet sheet = long_table(arena, 60, "10 ft", QLL_UNITS_US);
    qll_canvas pages;
    qll_layout_pages(&sheet, arena, &pages);
    check_pages(&pages);
    CHECK(pages.page_count == 1);
    const char *text = text_of(&pages, 0, arena);
    size_t heads = 0;
    for (const char *at = strstr(text, "the height\n"); at != NULL;
         at = strstr(at + 1, "the height\n")) {
        heads += 1;
    }
    CHECK(heads == 4);
    CHECK(strstr(text, "outlet 1\n10 ft\noutlet 2\n") != NULL);
    CHECK(strstr(text, "outlet 60\n10 ft\n") != NULL);
    qll_arena_close(arena);
}

TEST(long_tables_run_on_with_their_heads)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    const qll_sheet sheet = long_table(arena, 60, wide_cell, QLL_UNITS_US);
    qll_canvas pages;
    qll_layout_pages(&sheet, arena, &pages);
    check_pages(&pages);
    CHECK(pages.page_count == 2);
    CHECK_WITHIN(pages.width_mm, 215.9, 1e-9);
    for (size_t page = 0; page < 2; page++) {
        const char *text = text_of(&pages, page, arena);
        CHECK(strstr(text, "the outlet\nthe height\n") != NULL);
        CHECK(strstr(text, page == 0 ? "page 1 of 2\n" : "page 2 of 2\n") != NULL);
        CHECK(strstr(text, "A house\n") != NULL);
    }
    CHECK(strstr(text_of(&pages, 1, arena), "outlet 60\n") != NULL);
    const qll_sheet metric = long_table(arena, 5, wide_cell, QLL_UNITS_SI);
    qll_layout_pages(&metric, arena, &pages);
    CHECK(pages.page_count == 1);
    CHECK_WITHIN(pages.width_mm, 210.0, 1e-9);
    CHECK_WITHIN(pages.height_mm, 297.0, 1e-9);
    qll_arena_close(arena);
}

/* A heading never ends a page, a short table is never torn, and no page has one line of a paragraph. */
TEST(what_belongs_together_stays_together)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 28);
    for (int filler = 30; filler < 60; filler++) {
        qll_sheet sheet = empty_sheet(arena);
        qll_sheet_section(&sheet, QLL_SECTION_COVER, "Cover");
        for (int i = 0; i < filler; i++) {
            qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH, "x");
        }
        qll_sheet_text(&sheet, QLL_BLOCK_HEADING, "the heading");
        for (int i = 0; i < 4; i++) {
            qll_sheet_cell(&sheet, i == 0 ? "first head" : "row");
        }
        qll_sheet_table(&sheet, "the caption", "l", false);
        qll_sheet_end(&sheet);
        qll_canvas pages;
        qll_layout_pages(&sheet, arena, &pages);
        check_pages(&pages);
        size_t found = 0;
        for (size_t page = 0; page < pages.page_count; page++) {
            const char *text = text_of(&pages, page, arena);
            bool has_heading = strstr(text, "the heading") != NULL;
            found += has_heading ? 1 : 0;
            CHECK(has_heading
                  == (strstr(text, "the caption\nfirst head\nrow\nrow\nrow\n") != NULL));
        }
        CHECK(found == 1);
    }
    qll_arena_close(arena);
}

/* So many paragraphs of a line, laid out: how many pages, and how far the second stands below the first. */
typedef struct spaced {
    size_t pages;
    double apart_mm, last_mm;
} spaced;

static spaced lay_lines(int count, qll_arena *arena)
{
    qll_arena_mark before = qll_arena_now(arena);
    qll_sheet sheet = empty_sheet(arena);
    qll_sheet_section(&sheet, QLL_SECTION_COVER, "Cover");
    for (int i = 0; i < count; i++) {
        qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH,
                       i == 0           ? "one"
                       : i == 1         ? "two"
                       : i + 1 == count ? "last"
                                        : "x");
    }
    qll_sheet_end(&sheet);
    qll_canvas pages;
    qll_layout_pages(&sheet, arena, &pages);
    const double first_mm = place_of(&pages, "one").y_mm;
    const spaced made = {pages.page_count, place_of(&pages, "two").y_mm - first_mm,
                         place_of(&pages, "last").y_mm};
    qll_arena_reset(arena, before);
    return made;
}

/* Paragraphs stand closer where that saves a page, and only there: not while there is room, and not once a page more is
 * needed anyway. */
TEST(sheets_stand_closer_where_it_saves_a_page)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 28);
    int count = 20;
    const double roomy_mm = lay_lines(count, arena).apart_mm;
    double lowest_mm = 0.0;
    spaced now = lay_lines(count, arena);
    while (count < 120 && fabs(now.apart_mm - roomy_mm) < 1e-9 && now.pages == 1) {
        lowest_mm = now.last_mm;
        count += 1;
        now = lay_lines(count, arena);
    }
    int closer = 0;
    while (count < 120 && now.pages == 1) {
        /* At the wider distance the last would stand below any that a page has held. */
        CHECK(now.apart_mm < roomy_mm - 0.3);
        CHECK(now.last_mm + (roomy_mm - now.apart_mm) * (count - 1) > lowest_mm);
        closer += 1;
        count += 1;
        now = lay_lines(count, arena);
    }
    CHECK(closer >= 3);
    CHECK(now.pages == 2);
    CHECK_WITHIN(now.apart_mm, roomy_mm, 1e-9);
    qll_arena_close(arena);
}

/* A form stays with what it is filled in by: heading, steps and boxes on one page. */
TEST(a_form_stays_with_its_steps)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 28);
    for (int filler = 20; filler < 60; filler++) {
        qll_sheet sheet = empty_sheet(arena);
        qll_sheet_section(&sheet, QLL_SECTION_COMMISSIONING, "Sheet");
        for (int i = 0; i < filler; i++) {
            qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH, "x");
        }
        qll_sheet_text(&sheet, QLL_BLOCK_HEADING, "the test");
        qll_sheet_item(&sheet, "first do this");
        qll_sheet_item(&sheet, "then that");
        qll_sheet_list(&sheet, QLL_BLOCK_STEPS);
        qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH, "this is acceptable");
        for (int i = 0; i < 8; i++) {
            if (i < 2) {
                qll_sheet_cell(&sheet, i == 0 ? "the row" : "the box");
            } else if (i % 2 == 0) {
                qll_sheet_cell(&sheet, "row");
            } else {
                qll_sheet_cell_box(&sheet, "psi", QLL_BOX_READING_MM);
            }
        }
        qll_sheet_table(&sheet, "the form", "ll", true);
        qll_sheet_end(&sheet);
        qll_canvas pages;
        qll_layout_pages(&sheet, arena, &pages);
        check_pages(&pages);
        for (size_t page = 0; page < pages.page_count; page++) {
            const char *text = text_of(&pages, page, arena);
            bool has_heading = strstr(text, "the test\n") != NULL;
            CHECK(has_heading == (strstr(text, "then that\n") != NULL));
            CHECK(has_heading == (strstr(text, "row\npsi\nrow\npsi\nrow\npsi\n") != NULL));
        }
    }
    qll_arena_close(arena);
}

/* Nor with the last item of a list. */
TEST(the_last_two_items_go_together)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 28);
    for (int items = 40; items < 70; items++) {
        qll_sheet sheet = empty_sheet(arena);
        qll_sheet_section(&sheet, QLL_SECTION_STATION, "Putting it in");
        for (int i = 1; i <= items; i++) {
            qll_sheet_item(&sheet, "outlet of the drain");
        }
        qll_sheet_list(&sheet, QLL_BLOCK_LIST);
        qll_sheet_end(&sheet);
        qll_canvas pages;
        qll_layout_pages(&sheet, arena, &pages);
        check_pages(&pages);
        size_t total = 0;
        for (size_t page = 0; page < pages.page_count; page++) {
            size_t count = 0;
            for (const char *at = strstr(text_of(&pages, page, arena), "outlet "); at != NULL;
                 at = strstr(at + 1, "outlet ")) {
                count += 1;
            }
            CHECK(count != 1);
            total += count;
        }
        CHECK(total == (size_t)items);
    }
    qll_arena_close(arena);
}

/* No page begins with the last row of a table alone. */
TEST(the_last_two_rows_go_together)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 28);
    for (int rows = 40; rows < 60; rows++) {
        const qll_sheet sheet = long_table(arena, rows, wide_cell, QLL_UNITS_US);
        qll_canvas pages;
        qll_layout_pages(&sheet, arena, &pages);
        if (pages.page_count > 1) {
            const char *last = text_of(&pages, pages.page_count - 1, arena);
            size_t count = 0;
            while ((last = strstr(last, "outlet ")) != NULL) {
                count += 1;
                last += 1;
            }
            CHECK(count != 1);
        }
    }
    qll_arena_close(arena);
}

/* Short cells get what they ask for, and the longest sentences most of the rest. */
TEST(columns_are_as_wide_as_their_words)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    static const char sentence[] =
        "a sentence that goes on and on and on and on and on and on and on "
        "and on and on and on and on and on, so that it takes more lines";
    const char *const cells[] = {
        "rule", "a head of many words", "what was found", "ratio", "2.0", sentence,
    };
    qll_sheet sheet = empty_sheet(arena);
    qll_sheet_section(&sheet, QLL_SECTION_VERDICTS, "Verdicts");
    for (size_t i = 0; i < sizeof cells / sizeof cells[0]; i++) {
        qll_sheet_cell(&sheet, cells[i]);
    }
    qll_sheet_table(&sheet, "", "lll", true);
    qll_sheet_end(&sheet);
    qll_canvas pages;
    qll_layout_pages(&sheet, arena, &pages);
    check_pages(&pages);
    const char *text = text_of(&pages, 0, arena);
    CHECK(strstr(text, "\nratio\n2.0\na sentence that goes on") != NULL);
    CHECK(strstr(text, "a head of many words\n") == NULL); /* it stands in lines */
    qll_arena_close(arena);
}

TEST(paragraphs_leave_no_line_alone)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 28);
    qll_writer writer = qll_writer_new(arena);
    for (int i = 0; i < 110; i++) {
        qll_write(&writer, "paragraph ");
    }
    const char *words = qll_writer_text(&writer).bytes;
    for (int filler = 20; filler < 50; filler++) {
        qll_sheet sheet = empty_sheet(arena);
        qll_sheet_section(&sheet, QLL_SECTION_COVER, "Cover");
        for (int i = 0; i < filler; i++) {
            qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH, "x");
        }
        qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH, words);
        qll_sheet_end(&sheet);
        qll_canvas pages;
        qll_layout_pages(&sheet, arena, &pages);
        for (size_t page = 0; page < pages.page_count; page++) {
            size_t lines = 0;
            for (const char *at = text_of(&pages, page, arena);
                 (at = strstr(at, "paragraph")) != NULL; at = strchr(at, '\n')) {
                lines += 1;
            }
            CHECK(lines != 1);
        }
    }
    qll_arena_close(arena);
}

/* WCAG 2.1, 1.4.3: 4.5 at least for text. */
TEST(ink_stands_out_from_paper)
{
    /* The standard's own anchors: black on white is 21; #767676 on white is the palest grey that
     * passes, 4.54. */
    CHECK_WITHIN(contrast_of(QLL_BLACK, QLL_WHITE), 21.0, 1e-9);
    const double grey = 118.0 / 255.0;
    CHECK_WITHIN(contrast_of((qll_colour){grey, grey, grey}, QLL_WHITE), 4.54, 0.005);
    for (int tone = 0; tone < QLL_TONE_COUNT; tone++) {
        qll_ink ink = qll_tone_ink((qll_tone)tone);
        CHECK(contrast_of(ink.ink, ink.paper) >= 7.0);
        ink = qll_tone_ink_in_the_dark((qll_tone)tone);
        CHECK(contrast_of(ink.ink, ink.paper) >= 7.0);
    }
    CHECK(contrast_of(QLL_GREY(0.7), QLL_WHITE) >= 4.5); /* feet of pages, units in boxes */
    const double fill[] = {1.0, 0.973, 0.84};            /* box of cautions */
    CHECK(contrast_of(QLL_BLACK, (qll_colour){fill[0], fill[1], fill[2]}) >= 7.0);
}

/* Chapters have numbers, the appendix letters; what goes on in a chapter has none, nor has a form that says itself
 * what it is. */
TEST(chapters_tables_and_figures_are_numbered)
{
    qll_arena *arena = qll_arena_open(1 << 22);
    qll_sheet sheet = qll_sheet_new(arena, QLL_LANGUAGE_EN, QLL_UNITS_US);
    qll_sheet_numbered(&sheet, QLL_SECTION_COVER, QLL_CHAPTER_INSTALL, "Nothing");
    qll_sheet_numbered(&sheet, QLL_SECTION_STATION, QLL_CHAPTER_INSTALL, "Station");
    add_narrow(&sheet, "Parts", "one");
    qll_sheet_numbered(&sheet, QLL_SECTION_CAUTIONS, QLL_CHAPTER_INSTALL, "Cautions");
    add_narrow(&sheet, "", "without a caption");
    add_narrow(&sheet, "Form", "named by its heads");
    qll_sheet_name_by_heads(&sheet, "Form");
    add_narrow(&sheet, "More", "two");
    qll_sheet_numbered(&sheet, QLL_SECTION_DEMAND, QLL_CHAPTER_DEMAND, "Water");
    qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH, "some");
    qll_sheet_numbered(&sheet, QLL_SECTION_SURVEY, QLL_CHAPTER_SURVEY, "Survey");
    qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH, "some");
    qll_sheet_numbered(&sheet, QLL_SECTION_SOURCES, QLL_CHAPTER_SOURCES, "Sources");
    qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH, "some");
    qll_sheet_end(&sheet);
    static const char *const headings[] = {"1 Station", "Cautions", "2 Water", "Appendix A: Survey",
                                           "Appendix B: Sources"};
    static const int levels[] = {2, 3, 2, 2, 2};
    CHECK(sheet.section_count == 5);
    for (size_t i = 0; i < 5; i++) {
        CHECK_TEXT(sheet.sections[i].heading, headings[i]);
        CHECK(sheet.sections[i].level == levels[i]);
    }
    CHECK_TEXT(sheet.sections[0].blocks[0].table.caption, "Table 1. Parts");
    CHECK_TEXT(sheet.sections[1].blocks[0].table.caption, "");
    CHECK_TEXT(sheet.sections[1].blocks[1].table.caption, "Form");
    CHECK_TEXT(sheet.sections[1].blocks[2].table.caption, "Table 2. More");
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(empty_sections_and_tables_are_left_out);
    TEST_RUN(names_are_shown_and_never_obeyed);
    TEST_RUN(names_of_any_length_wrap_and_are_never_cut);
    TEST_RUN(long_narrow_tables_stand_in_columns);
    TEST_RUN(long_tables_run_on_with_their_heads);
    TEST_RUN(what_belongs_together_stays_together);
    TEST_RUN(sheets_stand_closer_where_it_saves_a_page);
    TEST_RUN(a_form_stays_with_its_steps);
    TEST_RUN(the_last_two_items_go_together);
    TEST_RUN(the_last_two_rows_go_together);
    TEST_RUN(columns_are_as_wide_as_their_words);
    TEST_RUN(paragraphs_leave_no_line_alone);
    TEST_RUN(ink_stands_out_from_paper);
    TEST_RUN(chapters_tables_and_figures_are_numbered);
    return TEST_END();
}
