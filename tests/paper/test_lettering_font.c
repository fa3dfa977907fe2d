/* The width table against the font itself, shaped by pango. */
#include "check.h"
#include "paper/brush.h"
#include "report/lettering_widths.h"

static qll_arena *arena;
static qll_brush brush;

/* Width by the font, thousandths of an em; NaN if the font has no such glyph. */
static double shaped(const char *text, size_t size, qll_weight weight)
{
    PangoFontDescription *font =
        pango_font_description_from_string(weight == QLL_WEIGHT_BOLD ? "Inter Bold" : "Inter");
    pango_font_description_set_absolute_size(font, 1000.0 * PANGO_SCALE);
    pango_layout_set_font_description(brush.layout, font);
    pango_font_description_free(font);
    pango_layout_set_text(brush.layout, text, (int)size);
    int width = 0;
    pango_layout_get_size(brush.layout, &width, NULL);
    return pango_layout_get_unknown_glyphs_count(brush.layout) > 0 ? (double)NAN
                                                                   : (double)width / PANGO_SCALE;
}

/* The table's entry against the font's; false if the font has no such glyph, which counts as one em. */
static bool compare(uint32_t point, uint16_t entry, qll_weight weight)
{
    char bytes[8];
    size_t size = (size_t)g_unichar_to_utf8(point, bytes);
    double want = shaped(bytes, size, weight);
    if (isnan(want)) {
        CHECK_NEAR(entry, QLL_WIDTH_OTHER, 1e-12);
        return false;
    }
    /* Rounded up to the next thousandth. */
    if (entry < want - 0.01 || entry > want + 1.01) {
        printf("U+%04X\n", point);
        CHECK_WITHIN(entry, want, 1.01);
    }
    return true;
}

TEST(every_width_is_that_of_the_font)
{
    size_t compared = 0;
    for (int weight = 0; weight < QLL_WEIGHT_COUNT; weight++) {
        for (size_t i = 0; i < qll_width_range_count; i++) {
            const qll_width_range *range = &qll_width_ranges[i];
            for (uint32_t point = range->first; point <= range->last; point++) {
                uint16_t entry = qll_widths[weight][range->start + (point - range->first)];
                compared += compare(point, entry, (qll_weight)weight) ? 1 : 0;
            }
        }
    }
    CHECK(compared > 900);
}

TEST(no_sentence_is_wider_than_its_letters_by_more_than_one_in_a_hundred)
{
    static const char *const said[] = {
        "The large valve opens at 41.5 gpm, 2 psi below the small one's set-point.",
        "AVATAR To. VALVE Ty fl fi ffi (11) 1/2 in -> 1-1/2 in",
        "Válvula reductora: presión de entrada 8,3 bar; año 2026; ¿cierra?",
        "\xCE\x94p \xE2\x89\xA4 0.45 \xC3\x97 p\xE2\x82\x81 \xE2\x88\x92 3 dB(A)",
        "WWWWWWWWWW iiiiiiiiii 0123456789",
    };
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        for (int weight = 0; weight < QLL_WEIGHT_COUNT; weight++) {
            double width = shaped(said[i], strlen(said[i]), (qll_weight)weight);
            double sum = qll_text_width_mm(qll_text_of(said[i]), 1000, (qll_weight)weight);
            CHECK(width <= sum * 1.01);
            CHECK(width >= sum * 0.93);
        }
    }
}

int main(void)
{
    arena = qll_arena_open((size_t)1 << 20);
    const char *why = NULL;
    if (CHECK(qll_brush_open(&brush, NULL, arena, &why) == QLL_OK)) {
        TEST_RUN(every_width_is_that_of_the_font);
        TEST_RUN(no_sentence_is_wider_than_its_letters_by_more_than_one_in_a_hundred);
    }
    qll_brush_close(&brush);
    qll_arena_close(arena);
    return TEST_END();
}
