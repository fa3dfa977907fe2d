/* Two things side by side on a page, and figures that fit what is left of one. */
#include "check.h"
#include "html_check.h"
#include "paged.h"
#include "report/html.h"

/* A figure that does not fit takes its lower form where that does; else the next page. */
TEST(a_figure_fills_what_is_left_of_a_page)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 28);
    qll_canvas tall = qll_canvas_new(170, 70, arena);
    qll_canvas low = qll_canvas_new(170, 50, arena);
    qll_canvas_text(&tall, (qll_xy){1, 69}, qll_text_of("tall"), &(qll_letters){.size_mm = 3});
    qll_canvas_text(&low, (qll_xy){1, 49}, qll_text_of("low"), &(qll_letters){.size_mm = 3});
    size_t lows = 0;
    for (int filler = 20; filler < 50; filler++) {
        qll_sheet sheet = empty_sheet(arena);
        qll_sheet_section(&sheet, QLL_SECTION_DEMAND, "Water");
        for (int i = 0; i < filler; i++) {
            qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH, "x");
        }
        qll_sheet_figure(&sheet, &(qll_figure_block){.canvas = &tall,
                                                     .low = &low,
                                                     .id = "a",
                                                     .title = "the title",
                                                     .description = "shows"});
        qll_sheet_end(&sheet);
        qll_canvas pages;
        qll_layout_pages(&sheet, arena, &pages);
        check_pages(&pages);
        const char *first = text_of(&pages, 0, arena);
        bool has_low = strstr(first, "low\nthe title\n") != NULL;
        lows += has_low ? 1 : 0;
        CHECK(has_low || strstr(text_of(&pages, pages.page_count - 1, arena), "tall\n") != NULL);
    }
    CHECK(lows > 0 && lows < 10);
    qll_arena_close(arena);
}

/* A figure drawn in both widths; each says which. */
static qll_figure_block drawn_twice(qll_arena *arena, const char *whole, const char *half)
{
    qll_canvas *canvases = qll_arena_take(arena, 2, sizeof *canvases);
    const qll_letters letters = {.size_mm = 3};
    canvases[0] = qll_canvas_new(170, 70, arena);
    canvases[1] = qll_canvas_new(85, 60, arena);
    qll_canvas_text(&canvases[0], (qll_xy){1, 9}, qll_text_of(whole), &letters);
    qll_canvas_text(&canvases[1], (qll_xy){1, 9}, qll_text_of(half), &letters);
    return (qll_figure_block){.canvas = &canvases[0],
                              .half = &canvases[1],
                              .id = half,
                              .title = whole,
                              .description = half};
}

/* Two stand at one height, each with its title below; a third has the width for itself; HTML has the same. */
TEST(figures_stand_beside_each_other)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 24);
    qll_sheet sheet = empty_sheet(arena);
    qll_sheet_section(&sheet, QLL_SECTION_FIGURES, "Figures");
    const qll_figure_block figures[] = {drawn_twice(arena, "whole one", "half-one"),
                                        drawn_twice(arena, "whole two", "half-two"),
                                        drawn_twice(arena, "whole three", "half-three")};
    for (size_t i = 0; i < 3; i++) {
        qll_sheet_figure(&sheet, &figures[i]);
    }
    qll_sheet_end(&sheet);
    qll_canvas pages;
    qll_layout_pages(&sheet, arena, &pages);
    check_pages(&pages);
    const qll_xy left = place_of(&pages, "half-one");
    const qll_xy right = place_of(&pages, "half-two");
    CHECK(pages.page_count == 1);
    CHECK_NEAR(left.y_mm, right.y_mm, 1e-9);
    CHECK(right.x_mm > left.x_mm + 85);
    CHECK_NEAR(place_of(&pages, "whole one").y_mm, place_of(&pages, "whole two").y_mm, 1e-9);
    CHECK(place_of(&pages, "whole one").y_mm > left.y_mm + 50);
    CHECK(isnan(place_of(&pages, "half-three").y_mm));
    CHECK(place_of(&pages, "whole three").y_mm > place_of(&pages, "whole one").y_mm);
    qll_writer writer = qll_writer_new(arena);
    qll_html_write(&writer, &sheet);
    const char *html = qll_writer_text(&writer).bytes;
    html_page page;
    html_check(html, &page);
    CHECK(strstr(html, ">half-one<") != NULL && strstr(html, ">half-two<") != NULL);
    CHECK(strstr(html, ">whole three<") != NULL && strstr(html, ">half-three</text") == NULL);
    qll_arena_close(arena);
}

/* Two that fit stand side by side, a third begins below them; one that is to be filled in stands alone. */
TEST(narrow_tables_stand_beside_each_other)
{
    qll_arena *arena = qll_arena_open(1 << 22);
    qll_sheet sheet = qll_sheet_new(arena, QLL_LANGUAGE_EN, QLL_UNITS_US);
    qll_sheet_section(&sheet, QLL_SECTION_EXPECT, "Narrow");
    add_narrow(&sheet, "First", "pressure before it");
    add_narrow(&sheet, "Second", "pressure behind it");
    add_narrow(&sheet, "Third",
               "pressure somewhere else, as long as half a page and a little more");
    add_narrow(&sheet, "Fourth",
               "pressure at the end, as long as half a page and a little more, too");
    qll_sheet_end(&sheet);
    qll_canvas pages;
    qll_layout_pages(&sheet, arena, &pages);
    const qll_xy first = place_of(&pages, "First");
    const qll_xy second = place_of(&pages, "Second");
    const qll_xy third = place_of(&pages, "Third");
    const qll_xy fourth = place_of(&pages, "Fourth");
    CHECK_NEAR(second.y_mm, first.y_mm, 1e-9);
    CHECK(second.x_mm > first.x_mm + 40.0);
    CHECK(third.y_mm > first.y_mm + 15.0 && fourth.y_mm > third.y_mm + 15.0);
    CHECK_NEAR(third.x_mm, first.x_mm, 1e-9);
    CHECK_NEAR(fourth.x_mm, first.x_mm, 1e-9);
    check_pages(&pages);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(a_figure_fills_what_is_left_of_a_page);
    TEST_RUN(figures_stand_beside_each_other);
    TEST_RUN(narrow_tables_stand_beside_each_other);
    return TEST_END();
}
