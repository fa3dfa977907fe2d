/* Tables on pages: columns as wide as they need, long ones run on with their heads repeated. */
#include "report/html.h"
#include "report/layout_grid.h"

#include <math.h>
#include <string.h>

#define QLL_PAD_Y_MM    0.55
/* A table is kept whole unless it takes more than this share of a page, or would leave a hole of more than
 * that share on the page before. A form is kept whole even so, unless it takes more of a page than its share:
 * then its heads are repeated, and its rows are whole. */
#define QLL_WHOLE_SHARE 0.4
#define QLL_HOLE_SHARE  0.2
#define QLL_FORM_SHARE  0.5
/* A row is kept whole unless it has more lines than this. */
#define QLL_WHOLE_LINES 24

static size_t row_lines(const qll_table_grid *grid, size_t row)
{
    size_t most = 1;
    for (size_t c = 0; c < grid->table->column_count; c++) {
        const qll_cell *cell = &grid->table->cells[row * grid->table->column_count + c];
        size_t lines =
            qll_text_line_count(qll_text_of(cell->text), grid->widths_mm[c] - 2 * QLL_PAD_X_MM,
                                QLL_SMALL_MM, qll_cell_weight(cell, row == 0));
        most = lines > most ? lines : most;
    }
    return most;
}

static bool has_box(const qll_table_grid *grid, size_t row)
{
    for (size_t c = 0; c < grid->table->column_count; c++) {
        if (grid->table->cells[row * grid->table->column_count + c].is_box) {
            return true;
        }
    }
    return false;
}

static double row_height_mm(const qll_table_grid *grid, size_t row, size_t lines)
{
    double height = (double)lines * qll_page_line_mm(QLL_SMALL_MM) + 2 * QLL_PAD_Y_MM;
    return has_box(grid, row) ? fmax(height, QLL_BOX_HIGH_MM + 2 * QLL_BOX_EDGE_MM) : height;
}

/* What lies under the letters of a cell. */
static void draw_ground(qll_page *page, const qll_cell *cell, qll_box box, bool is_head)
{
    bool is_bare = cell->tone == QLL_TONE_PLAIN || cell->tone == QLL_TONE_GOOD;
    if (!is_head && !cell->is_box && is_bare) {
        return;
    }
    qll_paint paint = {.fill = QLL_GREY(0.09), .is_filled = true};
    if (cell->is_box) {
        paint = (qll_paint){.pen = {.width_mm = 0.3, .colour = QLL_BLACK}};
        box = (qll_box){box.x_mm + QLL_BOX_EDGE_MM, box.y_mm + QLL_BOX_EDGE_MM,
                        box.width_mm - 2 * QLL_BOX_EDGE_MM, box.height_mm - 2 * QLL_BOX_EDGE_MM};
    } else if (!is_head) {
        paint.fill = qll_tone_ink(cell->tone).paper;
        box.y_mm += 0.15; /* clear of the rule above */
        box.height_mm -= 0.15;
    }
    qll_page_begin(page, QLL_MARK_DECORATION, 0, NULL);
    qll_canvas_rectangle(page->canvas, box, &paint);
    qll_page_end(page);
}

/* Some lines of a cell of a row. */
typedef struct cell_part {
    const qll_cell *cell;
    size_t column;
    bool is_head;
    size_t first, count; /* lines */
} cell_part;

static void write_lines(qll_page *page, const qll_table_grid *grid, const cell_part *part,
                        qll_box box)
{
    const qll_cell *cell = part->cell;
    qll_letters letters = qll_page_letters(QLL_SMALL_MM, qll_cell_weight(cell, part->is_head));
    bool right = grid->table->align[part->column] == 'r' || cell->is_box;
    letters.anchor = right ? QLL_ANCHOR_END : QLL_ANCHOR_START;
    letters.colour = cell->is_box ? QLL_GREY(0.7) : qll_tone_ink(cell->tone).ink;
    double width_mm = grid->widths_mm[part->column] - 2 * QLL_PAD_X_MM;
    double edge_mm = cell->is_box ? 1.4 : 0.0;
    double lines_mm = (double)part->count * qll_page_line_mm(QLL_SMALL_MM) + 2 * QLL_PAD_Y_MM;
    double down_mm = cell->is_box ? 0.0 : fmax(0.0, (box.height_mm - lines_mm) / 2);
    double x_mm =
        right ? box.x_mm + box.width_mm - QLL_PAD_X_MM - edge_mm : box.x_mm + QLL_PAD_X_MM;
    double y_mm = box.y_mm + QLL_PAD_Y_MM + edge_mm + down_mm + QLL_SMALL_MM * QLL_ASCENT_EM;
    qll_text rest = qll_text_clean(qll_text_of(cell->text), page->canvas->arena);
    for (size_t line = 0; rest.size > 0 && line < part->first + part->count; line++) {
        qll_text text = qll_text_line(&rest, width_mm, QLL_SMALL_MM, letters.weight);
        if (line >= part->first) {
            qll_canvas_text(page->canvas, (qll_xy){x_mm, y_mm}, text, &letters);
            y_mm += qll_page_line_mm(QLL_SMALL_MM);
        }
    }
}

static void draw_row(qll_page *page, const qll_table_grid *grid, size_t row, size_t first,
                     size_t count)
{
    const qll_table_block *table = grid->table;
    double height_mm = row_height_mm(grid, row, count);
    double x_mm = page->left_mm;
    qll_page_begin(page, QLL_MARK_ROW, 0, NULL);
    for (size_t c = 0; c < table->column_count; c++) {
        const qll_cell *cell = &table->cells[row * table->column_count + c];
        qll_box box = {x_mm, page->y_mm, grid->widths_mm[c], height_mm};
        draw_ground(page, cell, box, row == 0);
        bool is_head = row == 0 || (c == 0 && table->has_row_heads);
        qll_page_begin(page, is_head ? QLL_MARK_HEAD_CELL : QLL_MARK_CELL, 0, NULL);
        const cell_part part = {cell, c, row == 0, first, count};
        write_lines(page, grid, &part, box);
        qll_page_end(page);
        x_mm += grid->widths_mm[c];
    }
    qll_page_end(page);
    page->y_mm += height_mm;
    page->is_fresh = false;
    if (row > 0 && has_box(grid, row)) {
        return; /* its boxes are its rule */
    }
    qll_page_begin(page, QLL_MARK_DECORATION, 0, NULL);
    const qll_pen pen = {.width_mm = row == 0 ? 0.35 : 0.15, .colour = QLL_GREY(0.55)};
    qll_canvas_line(page->canvas, (qll_xy){page->left_mm, page->y_mm}, (qll_xy){x_mm, page->y_mm},
                    &pen);
    qll_page_end(page);
}

static void draw_heads(qll_page *page, const qll_table_grid *grid)
{
    draw_row(page, grid, 0, 0, row_lines(grid, 0));
}

static void next_page(qll_page *page, const qll_table_grid *grid)
{
    qll_page_end(page);
    qll_page_turn(page);
    qll_page_begin(page, QLL_MARK_TABLE, 0, NULL);
    draw_heads(page, grid);
}

/* A row on one page, or on several if it is longer than most of one. */
static void write_row(qll_page *page, const qll_table_grid *grid, size_t row)
{
    size_t lines = row_lines(grid, row);
    size_t done = 0;
    bool turned = false;
    while (done < lines) {
        double room_mm = page->bottom_mm - page->y_mm;
        if (row_height_mm(grid, row, lines - done) <= room_mm) {
            draw_row(page, grid, row, done, lines - done);
            return;
        }
        double fit = floor((room_mm - 2 * QLL_PAD_Y_MM) / qll_page_line_mm(QLL_SMALL_MM));
        bool splits = lines > QLL_WHOLE_LINES || turned;
        if (splits && (fit >= 3 || (turned && fit >= 1))) {
            size_t count = (size_t)fit < lines - done ? (size_t)fit : lines - done;
            draw_row(page, grid, row, done, count);
            done += count;
        } else if (turned) {
            /* Not even one line under the heads: it goes past the foot rather than nowhere. */
            draw_row(page, grid, row, done, lines - done);
            return;
        }
        if (done < lines) {
            next_page(page, grid);
            turned = true;
        }
    }
}

/* A form is written in by hand: it is not torn. */
static bool is_form(const qll_table_grid *grid)
{
    bool is = false;
    for (size_t row = 1; row < grid->table->row_count; row++) {
        is = is || has_box(grid, row);
    }
    return is;
}

static double rows_height_mm(const qll_table_grid *grid, size_t count)
{
    double height_mm = 0;
    for (size_t row = 0; row < count && row < grid->table->row_count; row++) {
        size_t lines = row_lines(grid, row);
        height_mm += row_height_mm(grid, row, row > 0 && lines > QLL_WHOLE_LINES ? 3 : lines);
    }
    return height_mm;
}

static bool has_caption(const qll_table_block *table)
{
    return table->caption[0] != '\0' && !table->names_itself;
}

static double caption_mm(const qll_page *page, const qll_table_block *table)
{
    return has_caption(table) ? qll_page_caption_mm(page, table->caption) + 1.0 : 0;
}

double qll_page_form_mm(const qll_page *page, const qll_table_block *table)
{
    qll_table_grid made;
    if (!qll_table_grid_make(table, page->width_mm, page->canvas->arena, &made)) {
        return 0;
    }
    return is_form(&made) ? caption_mm(page, table) + rows_height_mm(&made, table->row_count) + 1.0
                          : 0;
}

#define QLL_BETWEEN_TABLES_MM 6.0
/* A table of so many rows that leaves half of the page's width empty is set in columns, as lists are. */
#define QLL_COLUMNS_ROWS      16
#define QLL_COLUMNS_MOST      4

static double width_mm_of(const qll_table_grid *grid)
{
    double width_mm = 0;
    for (size_t c = 0; c < grid->table->column_count; c++) {
        width_mm += grid->widths_mm[c];
    }
    return width_mm;
}

/* In how many columns of rows a table is set: 1 of most. */
static size_t columns_of(const qll_page *page, const qll_table_grid *grid)
{
    const double each_mm = width_mm_of(grid) + QLL_BETWEEN_TABLES_MM;
    const double fit = floor((page->width_mm + QLL_BETWEEN_TABLES_MM) / each_mm);
    return grid->table->row_count <= QLL_COLUMNS_ROWS || is_form(grid) || fit < 2.0
               ? 1
               : (size_t)fmin(fit, QLL_COLUMNS_MOST);
}

/* The rows of each column, heads included. */
static size_t rows_of_column(const qll_table_grid *grid, size_t columns)
{
    return 1 + (grid->table->row_count - 1 + columns - 1) / columns;
}

double qll_page_table_start_mm(const qll_page *page, const qll_table_block *table)
{
    qll_table_grid made;
    if (!qll_table_grid_make(table, page->width_mm, page->canvas->arena, &made)) {
        return 0;
    }
    const size_t columns = columns_of(page, &made);
    if (columns > 1) {
        return caption_mm(page, table) + rows_height_mm(&made, rows_of_column(&made, columns));
    }
    double page_mm = page->bottom_mm - page->top_mm;
    double whole_mm = rows_height_mm(&made, table->row_count);
    bool fits_page = whole_mm < (is_form(&made) ? QLL_FORM_SHARE : QLL_WHOLE_SHARE) * page_mm;
    bool leaves_hole = !page->is_fresh && page->bottom_mm - page->y_mm > QLL_HOLE_SHARE * page_mm;
    bool is_kept = is_form(&made) ? !qll_page_is_half_empty(page) : !leaves_hole;
    if (fits_page && is_kept && !page->sheet->runs_on) {
        return caption_mm(page, table) + whole_mm;
    }
    /* Heads and three rows are enough of a long one, heads and a row of a longer one; where every page
     * counts, heads and two, but a form of two rows is filled in as one. */
    const bool is_pair = is_form(&made) && table->row_count == 3;
    const size_t rows = is_pair ? 3 : !fits_page || page->sheet->runs_on ? 2 : 4;
    return caption_mm(page, table) + rows_height_mm(&made, rows);
}

/* The last two rows go together: no page begins with a single row. */
static bool fits_here(const qll_page *page, const qll_table_grid *grid, size_t row)
{
    size_t lines = row_lines(grid, row);
    size_t last_lines = row_lines(grid, row + 1);
    double both_mm = row_height_mm(grid, row, lines) + row_height_mm(grid, row + 1, last_lines);
    return lines + last_lines > QLL_WHOLE_LINES || page->y_mm + both_mm <= page->bottom_mm;
}

/* The rows beside each other, under the same heads. */
static void write_columns(qll_page *page, const qll_table_grid *grid, size_t columns)
{
    const qll_page whole = *page;
    const size_t each = rows_of_column(grid, columns) - 1;
    double lowest_mm = page->y_mm;
    for (size_t first = 1; first < grid->table->row_count; first += each) {
        page->y_mm = whole.y_mm;
        draw_heads(page, grid);
        for (size_t row = first; row < first + each && row < grid->table->row_count; row++) {
            draw_row(page, grid, row, 0, row_lines(grid, row));
        }
        lowest_mm = fmax(lowest_mm, page->y_mm);
        page->left_mm += width_mm_of(grid) + QLL_BETWEEN_TABLES_MM;
    }
    page->left_mm = whole.left_mm;
    page->y_mm = lowest_mm;
}

static void write_rows(qll_page *page, const qll_table_grid *grid)
{
    const size_t row_count = grid->table->row_count;
    draw_heads(page, grid);
    for (size_t row = 1; row < row_count; row++) {
        bool is_last_but_one = row > 1 && row + 2 == row_count;
        if (is_last_but_one && !fits_here(page, grid, row)) {
            next_page(page, grid);
        }
        write_row(page, grid, row);
    }
    /* To the foot of its page; where every page counts, on over the next as far as there is room for all. */
    const size_t last = row_count - 1;
    const double last_mm = row_height_mm(grid, last, row_lines(grid, last));
    for (size_t added = 0; grid->table->fills_page && added < page->fill_rows
                           && (page->sheet->runs_on || page->y_mm + last_mm <= page->bottom_mm);
         added++) {
        write_row(page, grid, last);
    }
}

void qll_page_table(qll_page *page, const qll_table_block *table)
{
    qll_table_grid made;
    if (!qll_table_grid_make(table, page->width_mm, page->canvas->arena, &made)) {
        return;
    }
    qll_page_need(page, qll_page_table_start_mm(page, table));
    if (has_caption(table)) {
        qll_page_caption(page, table->caption);
        page->y_mm += 1.0;
    }
    qll_page_begin(page, QLL_MARK_TABLE, 0, NULL);
    const size_t columns = columns_of(page, &made);
    if (columns > 1) {
        write_columns(page, &made, columns);
    } else {
        write_rows(page, &made);
    }
    qll_page_end(page);
    page->y_mm += 1.0;
}

/* ---- two beside each other ---- */

/* The height of a table in @p width_mm; INFINITY of one that is written in by hand. */
static double height_in_mm(const qll_page *page, const qll_table_block *table, double width_mm)
{
    qll_page narrow = *page;
    narrow.width_mm = width_mm;
    qll_table_grid made;
    return qll_table_grid_make(table, narrow.width_mm, page->canvas->arena, &made)
                   && !is_form(&made)
               ? caption_mm(&narrow, table) + rows_height_mm(&made, table->row_count) + 1.0
               : (double)INFINITY;
}

/* Whether a table is set in columns where it has the page's width for itself. */
static bool takes_columns(const qll_page *page, const qll_table_block *table)
{
    qll_table_grid made;
    return qll_table_grid_make(table, page->width_mm, page->canvas->arena, &made)
           && columns_of(page, &made) > 1;
}

bool qll_page_two_tables(qll_page *page, const qll_table_block *left, const qll_table_block *right)
{
    if (takes_columns(page, left) || takes_columns(page, right)) {
        return false;
    }
    const double narrow_mm[] = {qll_table_narrow_mm(left), qll_table_narrow_mm(right)};
    const double spare_mm = page->width_mm - QLL_BETWEEN_TABLES_MM - narrow_mm[0] - narrow_mm[1];
    const double widths_mm[] = {narrow_mm[0] + spare_mm / 2, narrow_mm[1] + spare_mm / 2};
    const double height_mm =
        fmax(height_in_mm(page, left, widths_mm[0]), height_in_mm(page, right, widths_mm[1]));
    if (spare_mm < 0 || height_mm > QLL_FORM_SHARE * (page->bottom_mm - page->top_mm)) {
        return false;
    }
    qll_page_need(page, height_mm);
    const qll_page whole = *page;
    page->width_mm = widths_mm[0];
    qll_page_table(page, left);
    page->y_mm = whole.y_mm;
    page->left_mm += widths_mm[0] + QLL_BETWEEN_TABLES_MM;
    page->width_mm = widths_mm[1];
    qll_page_table(page, right);
    page->left_mm = whole.left_mm;
    page->width_mm = whole.width_mm;
    page->y_mm = whole.y_mm + height_mm;
    return true;
}
