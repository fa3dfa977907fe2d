/* How wide the columns of a table are. */
#include "report/layout_grid.h"

#include <math.h>

/* A single word or cell asks for no more than this; beyond it wraps. */
#define QLL_WORD_MOST_MM 48.0
#define QLL_CELL_MOST_MM 300.0
/* A cell this short, such as "63.7 psi", is not broken at its blanks; a head is. */
#define QLL_SHORT_CELL   14

/* What the ragged ends of its lines add to the wish of a column of sentences: narrow ones lose more of a line. */
#define QLL_RAGGED_MM  40.0
/* A head takes about so many lines where there is not more room. */
#define QLL_HEAD_LINES 2.0

qll_weight qll_cell_weight(const qll_cell *cell, bool is_head)
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
        qll_weight weight = qll_cell_weight(cell, row == 0);
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
static bool share_widths(qll_table_grid *grid, double room_mm, qll_arena *arena)
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

/* What is left of the width is room to write in: it goes to the widest box, the last of them. */
static void widen_box(qll_table_grid *grid, double room_mm)
{
    const qll_table_block *table = grid->table;
    const qll_cell *last_row = &table->cells[(table->row_count - 1) * table->column_count];
    size_t widest = table->column_count;
    double widest_mm = QLL_BOX_NAME_MM;
    for (size_t c = 0; c < table->column_count; c++) {
        room_mm -= grid->widths_mm[c];
        if (last_row[c].is_box && last_row[c].box_mm >= widest_mm) {
            widest = c;
            widest_mm = last_row[c].box_mm;
        }
    }
    if (widest < table->column_count) {
        grid->widths_mm[widest] += fmax(room_mm, 0.0);
    }
}

bool qll_table_grid_make(const qll_table_block *table, double room_mm, qll_arena *arena,
                         qll_table_grid *made)
{
    *made = (qll_table_grid){.table = table};
    if (!share_widths(made, room_mm, arena)) {
        return false;
    }
    widen_box(made, room_mm);
    return true;
}

double qll_table_narrow_mm(const qll_table_block *table)
{
    double width_mm = 0;
    for (size_t c = 0; c < table->column_count; c++) {
        width_mm += measure_column(table, c).body_mm;
    }
    return width_mm;
}
