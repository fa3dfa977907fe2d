#include "check.h"
#include "report/svg.h"
#include "xml.h"

static qll_arena *arena;

static const qll_svg_about about = {
    .id = "one", .title = "A \"title\" & more", .description = "What <it> shows"};

static qll_canvas drawing(const char *said, size_t size)
{
    static const qll_paint paint = {.pen = {.width_mm = 0.3, .dash = QLL_DASH_DOT_DASH},
                                    .fill = {1, 0.5, 0},
                                    .is_filled = true};
    static const qll_letters turned = {
        .size_mm = 3, .weight = QLL_WEIGHT_BOLD, .anchor = QLL_ANCHOR_MIDDLE, .turned_deg = 90};
    qll_canvas canvas = qll_canvas_new(25.4, 50.8, arena);
    qll_canvas_rectangle(&canvas, (qll_box){0, 0, 12.7, 25.4}, &paint);
    qll_canvas_line(&canvas, (qll_xy){-0.001, 0}, (qll_xy){25.4, 1}, &paint.pen);
    qll_canvas_circle(&canvas, (qll_xy){5, 5}, 2, &paint);
    qll_canvas_text(&canvas, (qll_xy){5, 5}, (qll_text){said, size}, &turned);
    return canvas;
}

static qll_text written(const qll_canvas *canvas, size_t page, const qll_svg_about *with)
{
    qll_writer writer = qll_writer_new(arena);
    qll_svg_write(&writer, canvas, page, with);
    return qll_writer_text(&writer);
}

static bool has(qll_text text, const char *part)
{
    return strstr(text.bytes, part) != NULL;
}

TEST(it_is_well_formed_and_says_what_it_is)
{
    qll_canvas canvas = drawing("flow", 4);
    qll_text svg = written(&canvas, 0, &about);
    size_t elements = 0;
    CHECK(xml_fault(svg, &elements) == NULL);
    CHECK(elements == 8);
    CHECK(has(svg, "width=\"96\" height=\"192\" viewBox=\"0 0 96 192\""));
    CHECK(has(svg, "role=\"img\" aria-labelledby=\"one-title one-desc\""));
    CHECK(has(svg, "<title id=\"one-title\">A &quot;title&quot; &amp; more</title>"));
    CHECK(has(svg, "<desc id=\"one-desc\">What &lt;it&gt; shows</desc>"));
    CHECK(has(
        svg,
        "<polygon points=\"0,0 48,0 48,96 0,96\" fill=\"#ff8000\" class=\"s-ink\" stroke=\"#000000\""));
    CHECK(has(svg, "<polyline points=\"0,0 96,3.78\" fill=\"none\""));
    CHECK(has(svg, "font-weight=\"700\" text-anchor=\"middle\" transform=\"rotate(-90 "));
    CHECK(has(svg, ">flow</text>"));
    CHECK(!has(svg, "NaN") && !has(svg, "href"));
}

TEST(a_part_of_a_page_has_no_declaration)
{
    qll_canvas canvas = drawing("flow", 4);
    qll_svg_about part = about;
    part.is_part = true;
    qll_text svg = written(&canvas, 0, &part);
    CHECK(strncmp(svg.bytes, "<svg ", 5) == 0);
}

TEST(the_same_twice)
{
    qll_canvas one = drawing("flow", 4);
    qll_canvas two = drawing("flow", 4);
    CHECK(qll_text_equal(written(&one, 0, &about), written(&two, 0, &about)));
}

TEST(odd_text_neither_breaks_nor_injects)
{
    static const char *const odd[] = {"<script>alert(1)</script>",
                                      "</text><a href=\"x\">",
                                      "]]>",
                                      "&#0;",
                                      "a\x01\x02\x1B[31mb",
                                      "\xE2\x80\xAEtxet",
                                      "\xFF\xFE\xC3",
                                      "\xED\xA0\x80",
                                      "\xEF\xBF\xBE\xEF\xBF\xBF",
                                      "\"' onload='x",
                                      "\xD9\x85\xD8\xA7\xD8\xA1",
                                      "\xE6\xB0\xB4\xF0\x9F\x92\xA7"};
    for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++) {
        qll_canvas canvas = drawing(odd[i], strlen(odd[i]));
        qll_svg_about named = {.id = odd[i], .title = odd[i], .description = odd[i]};
        qll_text svg = written(&canvas, 0, &named);
        size_t elements = 0;
        const char *fault = xml_fault(svg, &elements);
        CHECK(fault == NULL && elements == 8);
        CHECK(!has(svg, "<script") && !has(svg, "<a "));
    }
}

TEST(each_page_holds_its_own)
{
    static const qll_letters letters = {.size_mm = 3};
    qll_canvas canvas = qll_canvas_new(50, 50, arena);
    qll_canvas_text(&canvas, (qll_xy){1, 9}, qll_text_of("first"), &letters);
    qll_canvas_page(&canvas);
    qll_canvas_text(&canvas, (qll_xy){1, 9}, qll_text_of("second"), &letters);
    qll_text one = written(&canvas, 0, &about);
    qll_text two = written(&canvas, 1, &about);
    CHECK(has(one, ">first<") && !has(one, ">second<"));
    CHECK(has(two, ">second<") && !has(two, ">first<"));
}

int main(void)
{
    arena = qll_arena_open((size_t)1 << 24);
    TEST_RUN(it_is_well_formed_and_says_what_it_is);
    TEST_RUN(a_part_of_a_page_has_no_declaration);
    TEST_RUN(the_same_twice);
    TEST_RUN(odd_text_neither_breaks_nor_injects);
    TEST_RUN(each_page_holds_its_own);
    qll_arena_close(arena);
    return TEST_END();
}
