/* The sheets that go to the station: boxes a pen can use, lines that name gauges the drawing shows, and a list of parts
 * with the drawing's letters. */
#include "forms_scene.h"
#include "html_tables.h"
#include "piping_drawn.h"
#include "report/layout.h"

#include <ctype.h>

static size_t column_of(const scene *made, const qll_table_block *table, qll_message head)
{
    size_t column = 0;
    while (column < table->column_count
           && strcmp(table->cells[column].text, qll_say(made->sheet.language, head)) != 0) {
        column += 1;
    }
    CHECK(column < table->column_count);
    return column;
}

/* ---- boxes ---- */

/* Boxes of the sheets that are at least so wide. */
static size_t boxes_wished(const scene *made, double least_mm)
{
    size_t count = 0;
    for (size_t s = 0; s < made->sheet.section_count; s++) {
        for (size_t b = 0; b < made->sheet.sections[s].block_count; b++) {
            const qll_block *block = &made->sheet.sections[s].blocks[b];
            size_t cells = block->kind == QLL_BLOCK_TABLE
                               ? block->table.row_count * block->table.column_count
                               : 0;
            for (size_t c = 0; c < cells; c++) {
                const qll_cell *cell = &block->table.cells[c];
                count += cell->is_box && cell->box_mm >= least_mm ? 1 : 0;
            }
        }
    }
    return count;
}

static bool is_box(const qll_item *item)
{
    return item->kind == QLL_ITEM_PATH && item->is_closed && item->point_count == 4
           && !item->paint.is_filled;
}

static size_t log_rows(const scene *made)
{
    const qll_table_block *log = table_of(made, QLL_SAYS_HEAD_DATE, QLL_SAYS_HEAD_BY_WHOM);
    return log == NULL ? 0 : log->row_count - 1;
}

/* Every box on paper is at least 10 mm high, and as many are as wide as was wished. */
static void check_boxes(const scene *made, qll_arena *arena)
{
    static const double widths_mm[] = {QLL_BOX_TICK_MM, QLL_BOX_READING_MM, QLL_BOX_NAME_MM};
    qll_canvas pages;
    qll_layout_pages(&made->sheet, arena, &pages);
    size_t drawn[sizeof widths_mm / sizeof *widths_mm] = {0};
    size_t at_margin = 0;
    for (size_t i = 0; i < pages.count; i++) {
        const qll_item *item = &pages.items[i];
        if (!is_box(item)) {
            continue;
        }
        double wide_mm = fabs(item->points[2].x_mm - item->points[0].x_mm);
        double high_mm = fabs(item->points[2].y_mm - item->points[0].y_mm);
        CHECK(high_mm >= 10.0 - 1e-6);
        for (size_t w = 0; w < sizeof widths_mm / sizeof *widths_mm; w++) {
            drawn[w] += wide_mm >= widths_mm[w] - 1e-6 ? 1 : 0;
        }
        CHECK(wide_mm >= QLL_BOX_TICK_MM - 1e-6);
        const double right_mm = fmax(item->points[0].x_mm, item->points[2].x_mm);
        at_margin += fabs(right_mm + 0.5 - (pages.width_mm - 14.0)) < 0.01 ? 1 : 0;
    }
    /* What is written in at length, log, gauges, remarks and signature, goes on to the margin. */
    CHECK(at_margin >= boxes_wished(made, 4 * QLL_BOX_NAME_MM) + 2 + log_rows(made));
    for (size_t w = 0; w < sizeof widths_mm / sizeof *widths_mm; w++) {
        CHECK(boxes_wished(made, widths_mm[w]) > 0);
        CHECK(drawn[w] >= boxes_wished(made, widths_mm[w]));
    }
}

TEST(every_box_takes_a_pen)
{
    each_form(check_boxes);
}

/* Names, dates, licenses and signatures have 40 mm; the log has many rows. */
static void check_names(const scene *made, qll_arena *arena)
{
    (void)arena;
    static const qll_message wide[] = {QLL_SAYS_DONE_BY, QLL_SAYS_HEAD_LICENSE, QLL_SAYS_HEAD_DATE,
                                       QLL_SAYS_HEAD_SIGNATURE};
    const qll_table_block *by = table_of(made, QLL_SAYS_DONE_BY, QLL_SAYS_HEAD_LICENSE);
    const qll_table_block *log = table_of(made, QLL_SAYS_HEAD_DATE, QLL_SAYS_HEAD_BY_WHOM);
    if (!CHECK(by != NULL && log != NULL)) {
        return;
    }
    for (size_t i = 0; i < 4; i++) {
        CHECK(by->cells[by->column_count + column_of(made, by, wide[i])].box_mm >= 40.0);
    }
    CHECK(log->cells[log->column_count].box_mm >= 40.0);
    CHECK(log->cells[log->column_count + 1].box_mm >= 40.0);
    CHECK(log->row_count > 10 && log->fills_page);
    CHECK(column_of(made, log, QLL_SAYS_HEAD_TASK) < column_of(made, log, QLL_SAYS_HEAD_FOUND));
    CHECK(column_of(made, log, QLL_SAYS_HEAD_LEFT) < column_of(made, log, QLL_SAYS_HEAD_REMARKS));
}

TEST(names_have_room)
{
    each_form(check_names);
}

/* ---- letters ---- */

/* "P0", "TA", "T2B", "D": a gauge, a cock or the hose valve. */
static bool is_letter(qll_text word)
{
    if (word.size == 1) {
        return word.bytes[0] == 'D' || word.bytes[0] == 'R';
    }
    bool is_gauge = word.size > 0 && word.bytes[0] == 'P';
    bool is_cock = word.size > 0 && word.bytes[0] == 'T' && isupper(word.bytes[word.size - 1]);
    for (size_t i = 1; i + (is_cock ? 1 : 0) < word.size; i++) {
        is_gauge = is_gauge && isdigit(word.bytes[i]);
        is_cock = is_cock && isdigit(word.bytes[i]);
    }
    return is_gauge || is_cock;
}

/* Letters in a text, each of which the drawing must have. */
static size_t letters_in(const scene *made, const char *text, qll_arena *arena)
{
    size_t count = 0;
    while (*text != '\0') {
        size_t size = 0;
        while (isalnum((unsigned char)text[size])) {
            size += 1;
        }
        qll_text word = {text, size};
        if (is_letter(word)) {
            count += 1;
            if (!CHECK(drawn_says(made->drawing, qll_text_closed(word, arena)))) {
                printf("    %s: \"%.*s\" is not on the drawing\n", made->of.survey, (int)size,
                       text);
            }
        }
        text += size == 0 ? 1 : size;
    }
    return count;
}

/* Each line says what to open or read by the drawing's letters, and what that should show. */
static void check_lines(const scene *made, qll_arena *arena)
{
    const qll_table_block *lines = table_of(made, QLL_SAYS_HEAD_LINE, QLL_SAYS_HEAD_DO);
    if (!CHECK(lines != NULL)) {
        return;
    }
    size_t valves = qll_station_valve_count(&made->subject.found.design->shown[0].station);
    CHECK(lines->row_count > 1 + 2 * valves);
    /* Every cock between two gauges is opened once. */
    size_t cocks = 0;
    for (size_t i = 0; i < made->drawing->count; i++) {
        const qll_item *item = &made->drawing->items[i];
        cocks += item->kind == QLL_ITEM_TEXT && item->text.size > 1 && item->text.bytes[0] == 'T'
                 && is_letter(item->text);
    }
    size_t opened = 0;
    for (size_t row = 1; row < lines->row_count; row++) {
        opened += strcmp(lines->cells[row * lines->column_count + 2].text,
                         qll_say(made->sheet.language, QLL_SAYS_SHOULD_COCK))
                  == 0;
    }
    CHECK(opened == cocks);
    for (size_t row = 1; row < lines->row_count; row++) {
        const qll_cell *cells = &lines->cells[row * lines->column_count];
        CHECK(letters_in(made, cells[1].text, arena) >= 2);
        CHECK(letters_in(made, cells[2].text, arena) >= 1
              || strcmp(cells[2].text, qll_say(made->sheet.language, QLL_SAYS_SHOULD_COCK)) == 0);
        for (size_t c = 3; c < lines->column_count; c++) {
            CHECK(cells[c].is_box);
        }
    }
    for (size_t s = 0; s < made->sheet.section_count; s++) {
        for (size_t b = 0; b < made->sheet.sections[s].block_count; b++) {
            const qll_block *block = &made->sheet.sections[s].blocks[b];
            for (size_t i = 0; i < block->item_count; i++) {
                (void)letters_in(made, block->items[i], arena);
            }
        }
    }
}

TEST(every_line_names_gauges_that_are_drawn)
{
    each_form(check_lines);
}

/* Marks of the list are on the drawing, and gauges and cocks of the drawing on the list. */
static void check_marks(const scene *made, qll_arena *arena)
{
    const qll_table_block *parts = NULL;
    const char *caption = qll_say(made->sheet.language, QLL_SAYS_PARTS);
    for (size_t s = 0; s < made->sheet.section_count; s++) {
        const qll_section_sheet *section = &made->sheet.sections[s];
        for (size_t b = 0; b < section->block_count; b++) {
            const qll_block *block = &section->blocks[b];
            bool is =
                block->kind == QLL_BLOCK_TABLE && html_is_captioned(block->table.caption, caption);
            parts = is ? &block->table : parts;
        }
    }
    if (!CHECK(parts != NULL)) {
        return;
    }
    size_t marked = 0;
    for (size_t row = 1; row < parts->row_count; row++) {
        marked += letters_in(made, parts->cells[row * parts->column_count].text, arena);
    }
    size_t drawn = 0;
    for (size_t i = 0; i < made->drawing->count; i++) {
        const qll_item *item = &made->drawing->items[i];
        bool is_legend = item->kind == QLL_ITEM_TEXT && item->point_count > 0
                         && item->points[0].y_mm > made->drawing->height_mm - 18.0;
        drawn += item->kind == QLL_ITEM_TEXT && !is_legend && is_letter(item->text) ? 1 : 0;
    }
    CHECK(marked == drawn && marked > 2);
    check_drawn_parts(made->drawing, made->drawing->height_mm - 18.0,
                      &made->subject.found.job->pieces);
}

TEST(parts_have_the_letters_of_the_drawing)
{
    each_form(check_marks);
}

int main(void)
{
    TEST_RUN(every_box_takes_a_pen);
    TEST_RUN(names_have_room);
    TEST_RUN(every_line_names_gauges_that_are_drawn);
    TEST_RUN(parts_have_the_letters_of_the_drawing);
    return TEST_END();
}
