#include "check.h"
#include "report/canvas.h"

static qll_arena *arena;

static const qll_letters letters = {.size_mm = 3};
static const qll_paint line = {.pen = {.width_mm = 0.3}};

TEST(items_are_kept_in_order)
{
    qll_canvas canvas = qll_canvas_new(100, 50, arena);
    qll_canvas_line(&canvas, (qll_xy){1, 2}, (qll_xy){3, 4}, &line.pen);
    qll_canvas_rectangle(&canvas, (qll_box){10, 20, 5, 6}, &line);
    qll_canvas_circle(&canvas, (qll_xy){7, 8}, 2, &line);
    qll_canvas_text(&canvas, (qll_xy){9, 9}, qll_text_of("flow"), &letters);
    CHECK(canvas.count == 4);
    CHECK(canvas.items[0].point_count == 2 && !canvas.items[0].is_closed);
    CHECK(canvas.items[1].is_closed);
    CHECK_NEAR(canvas.items[1].points[2].x_mm, 15, 1e-12);
    CHECK_NEAR(canvas.items[1].points[2].y_mm, 26, 1e-12);
    CHECK_NEAR(canvas.items[2].radius_mm, 2, 1e-12);
    CHECK(qll_text_is(canvas.items[3].text, "flow"));
    CHECK_NEAR(canvas.items[3].width_mm,
               qll_text_width_mm(qll_text_of("flow"), 3, QLL_WEIGHT_REGULAR), 1e-12);
}

TEST(what_is_nowhere_is_not_drawn)
{
    qll_canvas canvas = qll_canvas_new(100, 50, arena);
    qll_canvas_line(&canvas, (qll_xy){NAN, 2}, (qll_xy){3, 4}, &line.pen);
    qll_canvas_line(&canvas, (qll_xy){0, 2}, (qll_xy){INFINITY, 4}, &line.pen);
    qll_canvas_line(&canvas, (qll_xy){0, 2}, (qll_xy){1e9, 4}, &line.pen);
    qll_canvas_circle(&canvas, (qll_xy){0, 2}, NAN, &line);
    qll_canvas_text(&canvas, (qll_xy){0, NAN}, qll_text_of("x"), &letters);
    qll_canvas_text(&canvas, (qll_xy){0, 0}, qll_text_of("x"), &(qll_letters){.size_mm = NAN});
    qll_canvas_path(&canvas, NULL, 0, true, &line);
    CHECK(canvas.count == 0 && qll_arena_refused(arena) == 0);
}

TEST(pages_are_told_apart)
{
    qll_canvas canvas = qll_canvas_new(100, 50, arena);
    qll_canvas_text(&canvas, (qll_xy){1, 9}, qll_text_of("a"), &letters);
    qll_canvas_page(&canvas);
    qll_canvas_page(&canvas);
    qll_canvas_text(&canvas, (qll_xy){1, 9}, qll_text_of("b"), &letters);
    static const size_t want[][2] = {{0, 1}, {2, 2}, {3, 4}, {4, 4}};
    CHECK(canvas.page_count == 3);
    for (size_t page = 0; page < 4; page++) {
        size_t first = 9;
        size_t end = 9;
        qll_canvas_page_items(&canvas, page, &first, &end);
        CHECK(first == want[page][0] && end == want[page][1]);
    }
}

TEST(a_mark_keeps_its_clean_text)
{
    qll_canvas canvas = qll_canvas_new(100, 50, arena);
    qll_canvas_begin(&canvas, &(qll_mark){QLL_MARK_FIGURE, 0, "fall\noff"});
    qll_canvas_begin(&canvas, &(qll_mark){QLL_MARK_PARAGRAPH, 0, NULL});
    CHECK(canvas.open_marks == 2);
    qll_canvas_end(&canvas);
    qll_canvas_end(&canvas);
    CHECK(canvas.open_marks == 0 && canvas.count == 4);
    CHECK_TEXT(canvas.items[0].mark.text, "fall off");
    CHECK_TEXT(canvas.items[1].mark.text, "");
}

TEST(a_fitted_text_takes_its_room_at_most)
{
    const qll_letters large = {.size_mm = 4};
    const qll_text narrow = qll_text_of("a little narrow");
    const double room_mm = 0.9 * qll_text_width_mm(narrow, 4, large.weight);
    qll_canvas canvas = qll_canvas_new(100, 50, arena);
    CHECK(qll_canvas_text_fit(&canvas, (qll_xy){0, 5}, qll_text_of("wide enough"), 90, &large));
    CHECK_NEAR(canvas.items[0].letters.size_mm, 4, 1e-12);
    CHECK(qll_canvas_text_fit(&canvas, (qll_xy){0, 5}, narrow, room_mm, &large));
    CHECK(canvas.items[1].letters.size_mm < 4);
    CHECK(canvas.items[1].width_mm <= room_mm + 1e-9);
    CHECK(!qll_canvas_text_fit(&canvas, (qll_xy){0, 5}, qll_text_of("not in so little room"), 9,
                               &large));
    CHECK(canvas.items[2].width_mm <= 9 + 1e-9);
    CHECK_NEAR(canvas.items[2].letters.size_mm, QLL_LETTERS_LEAST_MM, 1e-12);
    const qll_text *shown = &canvas.items[2].text;
    CHECK(shown->size > 3 && memcmp(shown->bytes + shown->size - 3, "\xE2\x80\xA6", 3) == 0);
}

TEST(a_box_of_text_is_not_left)
{
    static const char said[] = "The station holds its outlet pressure from the least flow to the "
                               "design peak, and closes tight at night.";
    qll_box box = {10, 20, 30, 22};
    qll_canvas canvas = qll_canvas_new(100, 50, arena);
    CHECK(qll_canvas_text_box(&canvas, box, qll_text_of(said), &letters));
    CHECK(canvas.count > 2);
    for (size_t i = 0; i < canvas.count; i++) {
        const qll_item *item = &canvas.items[i];
        CHECK(item->width_mm <= 30 + 1e-9);
        CHECK(item->points[0].y_mm > 20 && item->points[0].y_mm <= 42);
    }
    size_t before = canvas.count;
    box.height_mm = 3;
    CHECK(!qll_canvas_text_box(&canvas, box, qll_text_of(said), &letters));
    CHECK(canvas.count == before + 1);
}

TEST(a_text_of_ten_thousand_letters_stays_in_its_box)
{
    char *said = qll_arena_take(arena, 10001, 1);
    memset(said, 'W', 10000);
    qll_canvas canvas = qll_canvas_new(100, 50, arena);
    CHECK(!qll_canvas_text_box(&canvas, (qll_box){0, 0, 20, 10}, qll_text_of(said), &letters));
    CHECK(canvas.count >= 1 && canvas.count <= 5);
    for (size_t i = 0; i < canvas.count; i++) {
        CHECK(canvas.items[i].width_mm <= 20 + 1e-9);
    }
}

TEST(without_memory_it_leaves_out)
{
    for (size_t nth = 1; nth <= 6; nth++) {
        qll_arena *small = qll_arena_open((size_t)1 << 20);
        qll_arena_fail(small, nth, true);
        qll_canvas canvas = qll_canvas_new(100, 50, small);
        qll_canvas_begin(&canvas, &(qll_mark){QLL_MARK_FIGURE, 0, "alt"});
        qll_canvas_line(&canvas, (qll_xy){1, 2}, (qll_xy){3, 4}, &line.pen);
        qll_canvas_text(&canvas, (qll_xy){1, 2}, qll_text_of("ab"), &letters);
        (void)qll_canvas_text_box(&canvas, (qll_box){0, 0, 9, 9}, qll_text_of("ab cd"), &letters);
        qll_canvas_end(&canvas);
        CHECK(qll_arena_refused(small) > 0 && canvas.count < 6 && canvas.open_marks == 0);
        qll_arena_close(small);
    }
}

int main(void)
{
    arena = qll_arena_open((size_t)1 << 24);
    TEST_RUN(items_are_kept_in_order);
    TEST_RUN(what_is_nowhere_is_not_drawn);
    TEST_RUN(pages_are_told_apart);
    TEST_RUN(a_mark_keeps_its_clean_text);
    TEST_RUN(a_fitted_text_takes_its_room_at_most);
    TEST_RUN(a_box_of_text_is_not_left);
    TEST_RUN(a_text_of_ten_thousand_letters_stays_in_its_box);
    TEST_RUN(without_memory_it_leaves_out);
    qll_arena_close(arena);
    return TEST_END();
}
