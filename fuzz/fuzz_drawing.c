/* Any bytes as text and figures of a drawing: its SVG is well-formed, of the same bytes twice, holds no
 * element but ours, and no text is wider than its box. */
#include "../tests/xml.h"
#include "report/diagram.h"
#include "report/svg.h"
#include "require.h"

#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* What is left of the input; numbers are taken from its front, eight bytes each. */
typedef struct input {
    const uint8_t *bytes;
    size_t size;
} input;

static double take_number(input *from)
{
    double number = 0;
    size_t size = from->size < sizeof number ? from->size : sizeof number;
    memcpy(&number, from->bytes, size);
    from->bytes += size;
    from->size -= size;
    return number;
}

static void require_svg(const qll_canvas *canvas, const char *said)
{
    const qll_svg_about about = {.id = "fuzz", .title = said, .description = said};
    qll_text written[2];
    for (int i = 0; i < 2; i++) {
        qll_writer writer = qll_writer_new(canvas->arena);
        qll_svg_write(&writer, canvas, 0, &about);
        written[i] = qll_writer_text(&writer);
        QLL_REQUIRE(written[i].bytes != NULL);
    }
    size_t elements = 0;
    QLL_REQUIRE(qll_text_equal(written[0], written[1]));
    QLL_REQUIRE(xml_fault(written[0], &elements) == NULL);
    /* One element per item, and the picture with its title, description and style. */
    size_t first = 0;
    size_t end = 0;
    qll_canvas_page_items(canvas, 0, &first, &end);
    size_t drawn = 4;
    for (size_t i = first; i < end; i++) {
        qll_item_kind kind = canvas->items[i].kind;
        drawn += kind == QLL_ITEM_PATH || kind == QLL_ITEM_CIRCLE || kind == QLL_ITEM_TEXT;
    }
    QLL_REQUIRE(elements == drawn);
}

static void draw_text(qll_canvas *canvas, qll_text text, double number)
{
    static const qll_letters letters = {.size_mm = 4};
    const qll_box box = {10, 10, 40, 20};
    size_t before = canvas->count;
    (void)qll_canvas_text_box(canvas, box, text, &letters);
    (void)qll_canvas_text_fit(canvas, (qll_xy){10, 50}, text, 40, &letters);
    for (size_t i = before; i < canvas->count; i++) {
        QLL_REQUIRE(canvas->items[i].width_mm <= 40 + 1e-6);
        QLL_REQUIRE(canvas->items[i].letters.size_mm >= QLL_LETTERS_LEAST_MM - 1e-9);
    }
    qll_canvas_text(canvas, (qll_xy){number, 60}, text, &letters);
    qll_canvas_circle(canvas, (qll_xy){5, number}, number, &(qll_paint){.is_filled = true});
}

static void draw_figures(qll_canvas *canvas, const char *said, const double numbers[6])
{
    const qll_figure figure = {canvas, {5, 5, 160, 90}, QLL_UNITS_US, QLL_LANGUAGE_ES};
    const qll_guide guide = {said, numbers[0]};
    const qll_level_curve curve = {said, said, numbers, numbers + 3, 3};
    const qll_ladder_figure ladder = {
        (const char *const[]){said, "b", said}, numbers, numbers + 3, 3, &guide, 1};
    qll_figure_noise(&figure, &curve, 1, &guide, 1);
    qll_figure_spectrum(&figure, &curve, 1);
    qll_figure_ladder(&figure, &ladder);
    const qll_valve valve = {.id = said, .nominal_m = 0.02};
    const qll_branch branches[] = {{.valve = &valve, .set_pa_gauge = 4e5},
                                   {.valve = &valve, .set_pa_gauge = 3e5}};
    const qll_stage stages[] = {{.branches = branches, .branch_count = 2},
                                {.branches = branches, .branch_count = 1}};
    const qll_station station = {stages, 2};
    qll_diagram_draw(&figure, &(qll_diagram){.station = &station, .has_relief = true});
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
    input from = {data, size};
    double numbers[6];
    for (size_t i = 0; i < 6; i++) {
        numbers[i] = take_number(&from);
    }
    qll_text text = {(const char *)from.bytes, from.size};
    const char *closed = qll_arena_copy(arena, text.bytes, text.size);
    QLL_REQUIRE(closed != NULL);
    qll_canvas canvas = qll_canvas_new(170, 100, arena);
    qll_canvas_begin(&canvas, &(qll_mark){QLL_MARK_FIGURE, 0, closed});
    draw_text(&canvas, text, numbers[0]);
    draw_figures(&canvas, closed, numbers);
    qll_canvas_place(&canvas, (qll_xy){numbers[1], numbers[2]}, closed);
    qll_canvas_end(&canvas);
    QLL_REQUIRE(qll_arena_refused(arena) == 0);
    require_svg(&canvas, closed);
    qll_arena_close(arena);
    return 0;
}
