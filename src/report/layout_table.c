/* Tables on pages: columns as wide as they need, long ones run on with their heads repeated. */
#include "report/html.h"
#include "report/layout_page.h"

#include <math.h>
#include <string.h>

#define QLL_PAD_X_MM     1.3
#define QLL_PAD_Y_MM     0.55
#define QLL_BOX_EDGE_MM  0.5 /* of paper round a box */
/* A single word or cell asks for no more than this; beyond it wraps. */
#define QLL_WORD_MOST_MM 48.0
#define QLL_CELL_MOST_MM 300.0
/* A cell this short, such as "63.7 psi", is not broken at its blanks; a head is. */
#define QLL_SHORT_CELL   14
/* A table is kept whole unless it takes more than this share of a page, or would leave a hole of more than
 * that share on the page before. A form is kept whole even so, unless it takes more of a page than its share:
 * then its heads are repeated, and its rows are whole. */
#define QLL_WHOLE_SHARE  0.4
#define QLL_HOLE_SHARE   0.2
#define QLL_FORM_SHARE   0.5
/* A row is kept whole unless it has more lines than this. */
#define QLL_WHOLE_LINES  24

/* What the ragged ends of its lines add to the wish of a column of sentences: narrow ones lose more of a line. */
#define QLL_RAGGED_MM  40.0
/* A head takes about so many lines where there is not more room. */
#define QLL_HEAD_LINES 2.0

/* A table with its columns measured. */
typedef struct table_grid {
    const qll_table_block *table;
    double *widths_mm; /* pads included */
} table_grid;

static qll_weight weight_of(const qll_cell *cell, bool is_head)
{
    return is_head || cell->tone != QLL_TONE_PLAIN ? QLL_WEIGHT_BOLD : QLL_WEIGHT_REGULAR;
}

static double widest_word_mm(const char *text, qll_weight weight, bool is_head)
{
    qll_text all = qll_text_of(text);
    return all.size <= QLL_SHORT_CELL && !is_head
               ? qll_text_width_mm(all, QLL_SMALL_MM, weight)
               : qll_text_widest_word_mm(all, QLL_SMALL_MM, weight);
}

/* The least and the most that a column can use, pads included; and the most without its head, which may
 * stand in several lines. */
typedef struct column_wish {
    double least_mm, most_mm, body_mm;
    bool is_settled;
} column_wish;

static column_wish measure_column(const qll_table_block *table, size_t column)
{
    column_wish wish = {0};
    for (size_t row = 0; row < table->row_count; row++) {
        const qll_cell *cell = &table->cells[row * table->column_count + column];
        qll_weight weight = weight_of(cell, row == 0);
        double box_mm = cell->is_box ? cell->box_mm + 2 * QLL_BOX_EDGE_MM - 2 * QLL_PAD_X_MM : 0.0;
        double word = fmin(widest_word_mm(cell->text, weight, row == 0), QLL_WORD_MOST_MM);
        double whole = fmin(qll_text_width_mm(qll_text_of(cell->text), QLL_SMALL_MM, weight),
                            QLL_CELL_MOST_MM);
        word = fmax(word, box_mm);
        whole = fmax(whole, box_mm);
        wish.least_mm = fmax(wish.least_mm, word);
        wish.most_mm = fmax(wish.most_mm, whole);
        wish.body_mm = fmax(wish.body_mm, row == 0 ? fmax(word, whole / QLL_HEAD_LINES) : whole);
    }
    wish.least_mm += 2 * QLL_PAD_X_MM;
    wish.most_mm += 2 * QLL_PAD_X_MM;
    wish.body_mm += 2 * QLL_PAD_X_MM;
    return wish;
}

/* Settles every column that asks for no more than its equal share of the room, or cannot do with the share
 * that goes with its wish. True if one was. */
static bool settle_columns(column_wish *wishes, double *widths_mm, size_t count, double *room_mm)
{
    size_t open = 0;
    double wished_mm = 0;
    double spare_mm = *room_mm; /* beyond what the open columns need at least */
    for (size_t c = 0; c < count; c++) {
        open += wishes[c].is_settled ? 0 : 1;
        wished_mm += wishes[c].is_settled ? 0 : wishes[c].most_mm + QLL_RAGGED_MM;
        spare_mm -= wishes[c].is_settled ? 0 : wishes[c].least_mm;
    }
    double room = *room_mm;
    bool any = false;
    for (size_t c = 0; c < count; c++) {
        column_wish *wish = &wishes[c];
        if (wish->is_settled) {
            continue;
        }
        widths_mm[c] = room * (wish->most_mm + QLL_RAGGED_MM) / wished_mm;
        double more_mm = wish->most_mm - wish->least_mm;
        bool is_modest = wish->most_mm <= room / (double)open && more_mm <= spare_mm;
        if (is_modest || widths_mm[c] < wish->least_mm) {
            widths_mm[c] = is_modest ? wish->most_mm : wish->least_mm;
            spare_mm -= is_modest ? more_mm : 0;
            wish->is_settled = true;
            *room_mm -= widths_mm[c];
            any = true;
        }
    }
    return any;
}

/* Shares @p room_mm among the columns: those of short cells get what they would like, those of sentences
 * the rest by their length. Heads break before cells do. */
static bool share_widths(table_grid *grid, double room_mm, qll_arena *arena)
{
    size_t count = grid->table->column_count;
    column_wish *wishes = qll_arena_take(arena, count, sizeof *wishes);
    grid->widths_mm = qll_arena_take(arena, count, sizeof *grid->widths_mm);
    if (wishes == NULL || grid->widths_mm == NULL) {
        return false;
    }
    double least_mm = 0;
    double most_mm = 0;
    double body_mm = 0;
    for (size_t c = 0; c < count; c++) {
        wishes[c] = measure_column(grid->table, c);
        least_mm += wishes[c].least_mm;
        most_mm += wishes[c].most_mm;
        body_mm += wishes[c].body_mm;
    }
    double narrower = fmin(1.0, room_mm / least_mm);
    double heads = fmin(1.0, (room_mm - body_mm) / fmax(most_mm - body_mm, 1e-9));
    for (size_t c = 0; c < count; c++) {
        const column_wish *wish = &wishes[c];
        grid->widths_mm[c] = least_mm >= room_mm
                                 ? wish->least_mm * narrower
                                 : wish->body_mm + heads * (wish->most_mm - wish->body_mm);
        wishes[c].most_mm = wish->body_mm;
    }
    if (least_mm < room_mm && body_mm > room_mm) {
        while (settle_columns(wishes, grid->widths_mm, count, &room_mm)) {
        }
    }
    return true;
}

static bool make_grid(const qll_page *page, const qll_table_block *table, table_grid *made)
{
    *made = (table_grid){.table = table};
    return share_widths(made, page->width_mm, page->canvas->arena);
}

static size_t row_lines(const table_grid *grid, size_t row)
{
    size_t most = 1;
    for (size_t c = 0; c < grid->table->column_count; c++) {
        const qll_cell *cell = &grid->table->cells[row * grid->table->column_count + c];
        size_t lines =
            qll_text_line_count(qll_text_of(cell->text), grid->widths_mm[c] - 2 * QLL_PAD_X_MM,
                                QLL_SMALL_MM, weight_of(cell, row == 0));
        most = lines > most ? lines : most;
    }
    return most;
}

static bool has_box(const table_grid *grid, size_t row)
{
    for (size_t c = 0; c < grid->table->column_count; c++) {
        if (grid->table->cells[row * grid->table->column_count + c].is_box) {
            return true;
        }
    }
    return false;
}

static double row_height_mm(const table_grid *grid, size_t row, size_t lines)
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

static void write_lines(qll_page *page, const table_grid *grid, const cell_part *part, qll_box box)
{
    const qll_cell *cell = part->cell;
    qll_letters letters = qll_page_letters(QLL_SMALL_MM, weight_of(cell, part->is_head));
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

static void draw_row(qll_page *page, const table_grid *grid, size_t row, size_t first, size_t count)
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

static void draw_heads(qll_page *page, const table_grid *grid)
{
    draw_row(page, grid, 0, 0, row_lines(grid, 0));
}

static void next_page(qll_page *page, const table_grid *grid)
{
    qll_page_end(page);
    qll_page_turn(page);
    qll_page_begin(page, QLL_MARK_TABLE, 0, NULL);
    draw_heads(page, grid);
}

/* A row on one page, or on several if it is longer than most of one. */
static void write_row(qll_page *page, const table_grid *grid, size_t row)
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
static bool is_form(const table_grid *grid)
{
    bool is = false;
    for (size_t row = 1; row < grid->table->row_count; row++) {
        is = is || has_box(grid, row);
    }
    return is;
}

static double rows_height_mm(const table_grid *grid, size_t count)
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
    table_grid made;
    if (!make_grid(page, table, &made)) {
        return 0;
    }
    return is_form(&made) ? caption_mm(page, table) + rows_height_mm(&made, table->row_count) + 1.0
                          : 0;
}

double qll_page_table_start_mm(const qll_page *page, const qll_table_block *table)
{
    table_grid made;
    if (!make_grid(page, table, &made)) {
        return 0;
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
     * counts, heads and two. */
    const size_t rows = !fits_page || page->sheet->runs_on ? 2 : 4;
    return caption_mm(page, table) + rows_height_mm(&made, rows);
}

/* The last two rows go together: no page begins with a single row. */
static bool fits_here(const qll_page *page, const table_grid *grid, size_t row)
{
    size_t lines = row_lines(grid, row);
    size_t last_lines = row_lines(grid, row + 1);
    double both_mm = row_height_mm(grid, row, lines) + row_height_mm(grid, row + 1, last_lines);
    return lines + last_lines > QLL_WHOLE_LINES || page->y_mm + both_mm <= page->bottom_mm;
}

void qll_page_table(qll_page *page, const qll_table_block *table)
{
    table_grid made;
    if (!make_grid(page, table, &made)) {
        return;
    }
    qll_page_need(page, qll_page_table_start_mm(page, table));
    if (has_caption(table)) {
        qll_page_caption(page, table->caption);
        page->y_mm += 1.0;
    }
    qll_page_begin(page, QLL_MARK_TABLE, 0, NULL);
    draw_heads(page, &made);
    for (size_t row = 1; row < table->row_count; row++) {
        bool is_last_but_one = row > 1 && row + 2 == table->row_count;
        if (is_last_but_one && !fits_here(page, &made, row)) {
            next_page(page, &made);
        }
        write_row(page, &made, row);
    }
    size_t last = table->row_count - 1;
    for (size_t added = 0;
         table->fills_page && added < page->fill_rows
         && page->y_mm + row_height_mm(&made, last, row_lines(&made, last)) <= page->bottom_mm;
         added++) {
        write_row(page, &made, last);
    }
    qll_page_end(page);
    page->y_mm += 1.0;
}

/* ---- two beside each other ---- */

#define QLL_BETWEEN_TABLES_MM 6.0

/* What a table asks for with its heads in several lines. */
static double narrow_width_mm(const qll_table_block *table)
{
    double width_mm = 0;
    for (size_t c = 0; c < table->column_count; c++) {
        width_mm += measure_column(table, c).body_mm;
    }
    return width_mm;
}

/* The height of a table in @p width_mm; INFINITY of one that is written in by hand. */
static double height_in_mm(const qll_page *page, const qll_table_block *table, double width_mm)
{
    qll_page narrow = *page;
    narrow.width_mm = width_mm;
    table_grid made;
    return make_grid(&narrow, table, &made) && !is_form(&made)
               ? caption_mm(&narrow, table) + rows_height_mm(&made, table->row_count) + 1.0
               : (double)INFINITY;
}

bool qll_page_two_tables(qll_page *page, const qll_table_block *left, const qll_table_block *right)
{
    const double narrow_mm[] = {narrow_width_mm(left), narrow_width_mm(right)};
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
