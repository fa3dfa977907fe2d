#include "report/canvas.h"

#include "base/character.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* Further out than this nothing can be meant, and number formats of back ends may run out. */
#define QLL_FARTHEST_MM 100000.0

/* Steps in which letters are tried smaller, as a share. */
#define QLL_SHRINK 0.94

const double *qll_dash_lengths_mm(qll_dash dash, size_t *count)
{
    static const double lengths[QLL_DASH_COUNT][4] = {
        [QLL_DASH_SOLID] = {0},
        [QLL_DASH_LONG] = {3.2, 1.2},
        [QLL_DASH_SHORT] = {1.5, 0.9},
        [QLL_DASH_DOTTED] = {0.45, 0.75},
        [QLL_DASH_DOT_DASH] = {3.0, 0.8, 0.5, 0.8},
    };
    static const size_t counts[QLL_DASH_COUNT] = {0, 2, 2, 2, 4};
    *count = counts[dash];
    return lengths[dash];
}

qll_canvas qll_canvas_new(double width_mm, double height_mm, qll_arena *arena)
{
    return (qll_canvas){
        .arena = arena, .width_mm = width_mm, .height_mm = height_mm, .page_count = 1};
}

/* Room for one more item; NULL without memory. */
static qll_item *add(qll_canvas *canvas, qll_item_kind kind)
{
    if (canvas->count == canvas->room) {
        size_t room = canvas->room == 0 ? 64 : canvas->room * 2;
        qll_item *items = qll_arena_take(canvas->arena, room, sizeof *items);
        if (items == NULL) {
            return NULL;
        }
        if (canvas->count > 0) {
            memcpy(items, canvas->items, canvas->count * sizeof *items);
        }
        canvas->items = items;
        canvas->room = room;
    }
    qll_item *item = &canvas->items[canvas->count];
    canvas->count += 1;
    *item = (qll_item){.kind = kind, .text = {"", 0}, .mark = {.text = ""}};
    return item;
}

static bool is_on_paper(const qll_xy *points, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        /* Written so that a number that is none fails too. */
        if (!(fabs(points[i].x_mm) <= QLL_FARTHEST_MM && fabs(points[i].y_mm) <= QLL_FARTHEST_MM)) {
            return false;
        }
    }
    return true;
}

static qll_item *add_at(qll_canvas *canvas, qll_item_kind kind, const qll_xy *points, size_t count)
{
    if (!is_on_paper(points, count)) {
        return NULL;
    }
    qll_xy *copy = qll_arena_take(canvas->arena, count, sizeof *copy);
    if (copy == NULL) {
        return NULL;
    }
    qll_item *item = add(canvas, kind);
    if (item != NULL) {
        memcpy(copy, points, count * sizeof *copy);
        item->points = copy;
        item->point_count = count;
    }
    return item;
}

void qll_canvas_page(qll_canvas *canvas)
{
    if (add(canvas, QLL_ITEM_PAGE) != NULL) {
        canvas->page_count += 1;
    }
}

void qll_canvas_path(qll_canvas *canvas, const qll_xy *points, size_t count, bool is_closed,
                     const qll_paint *paint)
{
    qll_item *item = count == 0 ? NULL : add_at(canvas, QLL_ITEM_PATH, points, count);
    if (item != NULL) {
        item->is_closed = is_closed;
        item->paint = *paint;
    }
}

void qll_canvas_line(qll_canvas *canvas, qll_xy from, qll_xy to, const qll_pen *pen)
{
    const qll_xy points[] = {from, to};
    qll_canvas_path(canvas, points, 2, false, &(qll_paint){.pen = *pen});
}

void qll_canvas_rectangle(qll_canvas *canvas, qll_box box, const qll_paint *paint)
{
    double right = box.x_mm + box.width_mm;
    double bottom = box.y_mm + box.height_mm;
    const qll_xy points[] = {
        {box.x_mm, box.y_mm}, {right, box.y_mm}, {right, bottom}, {box.x_mm, bottom}};
    qll_canvas_path(canvas, points, 4, true, paint);
}

void qll_canvas_circle(qll_canvas *canvas, qll_xy centre, double radius_mm, const qll_paint *paint)
{
    bool fits = radius_mm >= 0 && radius_mm <= QLL_FARTHEST_MM;
    qll_item *item = fits ? add_at(canvas, QLL_ITEM_CIRCLE, &centre, 1) : NULL;
    if (item != NULL) {
        item->radius_mm = radius_mm;
        item->paint = *paint;
    }
}

/* @p clean has been through qll_text_clean(). */
static void put_text(qll_canvas *canvas, qll_xy at, qll_text clean, const qll_letters *letters)
{
    bool fits = letters->size_mm > 0 && letters->size_mm <= QLL_FARTHEST_MM
                && isfinite(letters->turned_deg) && clean.size > 0;
    qll_item *item = fits ? add_at(canvas, QLL_ITEM_TEXT, &at, 1) : NULL;
    if (item != NULL) {
        item->text = clean;
        item->letters = *letters;
        item->width_mm = qll_text_width_mm(clean, letters->size_mm, letters->weight);
    }
}

static qll_text clean(qll_canvas *canvas, qll_text text)
{
    return qll_text_clean(text, canvas->arena);
}

void qll_canvas_text(qll_canvas *canvas, qll_xy at, qll_text text, const qll_letters *letters)
{
    put_text(canvas, at, clean(canvas, text), letters);
}

/* As much of @p text as takes @p width_mm with an ellipsis behind it. */
static qll_text shortened(qll_canvas *canvas, qll_text text, double width_mm,
                          const qll_letters *letters)
{
    const char *const dots = "\xE2\x80\xA6";
    double left_mm =
        width_mm - qll_text_width_mm(qll_text_of(dots), letters->size_mm, letters->weight);
    qll_text rest = text;
    qll_text kept = {text.bytes, 0};
    double taken_mm = 0;
    while (rest.size > 0) {
        qll_text one = rest;
        (void)qll_character_next(&rest);
        one.size -= rest.size;
        taken_mm += qll_text_width_mm(one, letters->size_mm, letters->weight);
        if (taken_mm > left_mm) {
            break;
        }
        kept.size += one.size;
    }
    qll_writer writer = qll_writer_new(canvas->arena);
    qll_write_text(&writer, qll_text_trimmed(kept));
    qll_write(&writer, dots);
    return qll_writer_text(&writer);
}

bool qll_canvas_text_fit(qll_canvas *canvas, qll_xy at, qll_text text, double width_mm,
                         const qll_letters *letters)
{
    qll_text shown = clean(canvas, text);
    qll_letters fitted = *letters;
    double taken_mm = qll_text_width_mm(shown, fitted.size_mm, fitted.weight);
    bool fits = true;
    if (taken_mm > width_mm) {
        fitted.size_mm = fmax(fitted.size_mm * width_mm / taken_mm,
                              fmin(QLL_LETTERS_LEAST_MM, letters->size_mm));
        taken_mm = qll_text_width_mm(shown, fitted.size_mm, fitted.weight);
        fits = taken_mm <= width_mm * (1 + 1e-9);
    }
    put_text(canvas, at, fits ? shown : shortened(canvas, shown, width_mm, &fitted), &fitted);
    return fits;
}

bool qll_canvas_text_box(qll_canvas *canvas, qll_box box, qll_text text, const qll_letters *letters)
{
    qll_text rest = clean(canvas, text);
    if (!(box.width_mm > 0)) {
        return false;
    }
    qll_letters fitted = *letters;
    fitted.turned_deg = 0;
    double least_mm = fmin(QLL_LETTERS_LEAST_MM, letters->size_mm);
    double room = box.height_mm / QLL_LINE_EM * (1 + 1e-9);
    while (fitted.size_mm > least_mm
           && (double)qll_text_line_count(rest, box.width_mm, fitted.size_mm, fitted.weight)
                  > floor(room / fitted.size_mm)) {
        fitted.size_mm = fmax(fitted.size_mm * QLL_SHRINK, least_mm);
    }
    /* No text has more lines than bytes. */
    double fits = fmin(fmax(floor(room / fitted.size_mm), 1), (double)rest.size);
    size_t lines = (size_t)fits;
    double share = fitted.anchor == QLL_ANCHOR_START ? 0
                   : fitted.anchor == QLL_ANCHOR_END ? 1
                                                     : 0.5;
    qll_xy at = {box.x_mm + share * box.width_mm, box.y_mm + QLL_ASCENT_EM * fitted.size_mm};
    for (size_t line = 1; line <= lines && rest.size > 0; line++) {
        qll_text all = rest;
        qll_text shown = qll_text_line(&rest, box.width_mm, fitted.size_mm, fitted.weight);
        if (line == lines && rest.size > 0) {
            shown = shortened(canvas, all, box.width_mm, &fitted);
        }
        put_text(canvas, at, shown, &fitted);
        at.y_mm += QLL_LINE_EM * fitted.size_mm;
    }
    return rest.size == 0;
}

void qll_canvas_begin(qll_canvas *canvas, const qll_mark *mark)
{
    qll_text text = clean(canvas, qll_text_of(mark->text == NULL ? "" : mark->text));
    qll_item *item = add(canvas, QLL_ITEM_BEGIN);
    canvas->open_marks += 1;
    if (item != NULL) {
        item->mark = (qll_mark){mark->kind, mark->level, text.bytes};
    }
}

void qll_canvas_end(qll_canvas *canvas)
{
    assert(canvas->open_marks > 0);
    canvas->open_marks -= 1;
    (void)add(canvas, QLL_ITEM_END);
}

void qll_canvas_place(qll_canvas *canvas, qll_xy at, const char *name)
{
    qll_text text = clean(canvas, qll_text_of(name));
    qll_item *item = add_at(canvas, QLL_ITEM_PLACE, &at, 1);
    if (item != NULL) {
        item->text = text;
    }
}

void qll_canvas_page_items(const qll_canvas *canvas, size_t page, size_t *first, size_t *end)
{
    size_t at = 0;
    *first = 0;
    for (size_t i = 0; i < canvas->count; i++) {
        if (canvas->items[i].kind != QLL_ITEM_PAGE) {
            continue;
        }
        if (at == page) {
            *end = i;
            return;
        }
        at += 1;
        *first = i + 1;
    }
    *end = canvas->count;
    *first = at == page ? *first : *end;
}
