/* What HTML does with texts and tables where the line or the screen is narrow. */
#include "check.h"
#include "paged.h"
#include "report/html.h"

static const char *page_of(qll_sheet *sheet, qll_arena *arena)
{
    qll_sheet_end(sheet);
    qll_writer writer = qll_writer_new(arena);
    qll_html_write(&writer, sheet);
    return qll_writer_text(&writer).bytes;
}

/* A line is not broken between a number and its unit, nor within "2-1/2", but where a dash joins words. */
TEST(what_belongs_together_stands_on_one_line)
{
    static const char *const texts[][2] = {
        {"Set it to 60 psi.", "<p>Set it to 60&nbsp;psi.</p>"},
        {"a 2-1/2 in valve", "<p>a 2&#8209;1/2&nbsp;in valve</p>"},
        {"1-1/4", "<p>1&#8209;1/4</p>"},
        {"pages 3-4, and no fraction", "<p>pages 3-4, and no fraction</p>"},
        {"tank-type and/or flush", "<p>tank-type and/or flush</p>"},
        {"G-50/2", "<p>G&#8209;50/2</p>"},
        {"2-way and/or", "<p>2-way and/or</p>"},
        {"cuts 2.3 to 1", "<p>cuts 2.3&nbsp;to&nbsp;1</p>"},
        {"either/or -", "<p>either/or -</p>"},
        {"-1/2", "<p>-1/2</p>"},
    };

    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        qll_arena *arena = qll_arena_open(1 << 22);
        qll_sheet sheet = empty_sheet(arena);
        qll_sheet_section(&sheet, QLL_SECTION_COVER, "Cover");
        qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH, texts[i][0]);
        if (!CHECK(strstr(page_of(&sheet, arena), texts[i][1]) != NULL)) {
            printf("    of \"%s\"\n", texts[i][0]);
        }
        qll_arena_close(arena);
    }
}

/* A table with one row under its heads; the last cell holds @p last. */
static const char *table_of(const char *align, const char *last, qll_arena *arena)
{
    qll_sheet sheet = empty_sheet(arena);
    qll_sheet_section(&sheet, QLL_SECTION_COVER, "Cover");
    const size_t columns = strlen(align);
    for (size_t row = 0; row < 2; row++) {
        for (size_t c = 0; c < columns; c++) {
            qll_sheet_cell(&sheet, row == 0 ? "head" : c + 1 == columns ? last : "12.5 psi");
        }
    }
    qll_sheet_table(&sheet, "Some table", align, false);
    return page_of(&sheet, arena);
}

/* On a telephone: figures scroll, reasons are cards, and what has room stands as it is. */
TEST(a_table_has_the_form_that_its_cells_ask_for)
{
    static const char reason[] = "because the street gives no more than that";

    static const struct {
        const char *align, *last, *form;
    } tables[] = {
        {"lr", reason, "<div class=\"kept\"><table>"},
        {"lrr", "3 psi", "<div class=\"kept\"><table>"},
        {"lrr", reason, "<div class=\"kept\"><table>"},
        {"lrl", reason, "<div class=\"kept cards\"><table>"},
        {"lrl", "good", "<div class=\"kept wide\" tabindex=\"0\""},
        {"lrrr", "3 psi", "<div class=\"kept wide\" tabindex=\"0\""},
        {"lrrl", reason, "<div class=\"kept cards\"><table>"},
        {"lrrrrl", reason, "<div class=\"kept cards\"><table>"},
    };

    for (size_t i = 0; i < sizeof tables / sizeof tables[0]; i++) {
        qll_arena *arena = qll_arena_open(1 << 22);
        const char *page = table_of(tables[i].align, tables[i].last, arena);
        if (!CHECK(strstr(page, tables[i].form) != NULL)) {
            printf("    %s with \"%s\"\n", tables[i].align, tables[i].last);
        }
        const bool is_cards = strstr(tables[i].form, "cards") != NULL;
        CHECK((strstr(page, "data-label=\"head\"") != NULL) == is_cards);
        qll_arena_close(arena);
    }
}

int main(void)
{
    TEST_RUN(what_belongs_together_stands_on_one_line);
    TEST_RUN(a_table_has_the_form_that_its_cells_ask_for);
    return TEST_END();
}
