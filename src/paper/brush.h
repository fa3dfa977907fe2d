/* Draws items of a canvas with cairo, in points. */
#ifndef QUELL_PAPER_BRUSH_H
#define QUELL_PAPER_BRUSH_H

#include "paper/paper.h"

#include <cairo.h>
#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>

/* Millimetres to points. */
#define QLL_POINTS(mm) ((mm) / QLL_POINT_MM)

/** A font of our own, whatever else the machine has: no other is ever looked at. */
typedef struct qll_brush {
    FcConfig *fonts;
    PangoFontMap *map;
    PangoContext *context;
    PangoLayout *layout;
} qll_brush;

/** Opens the two weights of Inter in @p folder. QLL_IO with a sentence in @p why if they are not there.
 * In every case the caller ends with qll_brush_close(). */
QLL_MUST_USE qll_status qll_brush_open(qll_brush *brush, const char *folder, qll_arena *arena,
                                       const char **why);
void qll_brush_close(qll_brush *brush);

/** Draws a path, circle or text; other items are left alone. */
void qll_brush_draw(const qll_brush *brush, cairo_t *cairo, const qll_item *item);

/** For streams of cairo; @p closure is a qll_writer. Never fails, since cairo 1.16 crashes in a PDF whose
 * stream has failed: whether all was kept, the writer's arena says at the end. */
cairo_status_t qll_brush_take_bytes(void *closure, const unsigned char *bytes, unsigned int size);

/** What a cairo status means for the caller; sets @p why if it is a failure. */
qll_status qll_brush_status(cairo_status_t status, const char **why);

#endif
