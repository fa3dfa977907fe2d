/* The figures of a report, each on a canvas of its own with a title and a description. */
#ifndef QUELL_REPORT_PICTURES_H
#define QUELL_REPORT_PICTURES_H

#include "report/report.h"

/** X(NAME, word of --plot). */
#define QLL_PICTURE_LIST(X)   \
    X(SCHEMATIC, "schematic") \
    X(DAY, "day")             \
    X(DURATION, "duration")   \
    X(FALLOFF, "falloff")     \
    X(LADDER, "ladder")       \
    X(MAP, "map")             \
    X(NOISE, "noise")         \
    X(SPECTRUM, "spectrum")   \
    X(CANDIDATES, "candidates")

typedef enum qll_picture_kind {
#define QLL_PICTURE_NAME(name, word) QLL_PICTURE_##name,
    QLL_PICTURE_LIST(QLL_PICTURE_NAME)
#undef QLL_PICTURE_NAME
    QLL_PICTURE_COUNT
} qll_picture_kind;

extern const char *const qll_picture_words[QLL_PICTURE_COUNT];

/** Which figure, and of what: DAY and DURATION are of a scenario, MAP is of a valve, from 0. */
typedef struct qll_picture {
    qll_picture_kind kind;
    size_t number;
} qll_picture;

/** How many figures of a kind there are; 0 for what cannot be drawn: a metered day without hours. */
size_t qll_picture_count(const qll_design_findings *findings, qll_picture_kind kind);

/**
 * Draws @p picture, 174 mm wide, so that it fits both Letter and A4 between their margins, and half of it again
 * where two may stand side by side.
 *
 * @param picture its number is below qll_picture_count()
 * @param made    canvas, id and texts live in @p arena
 * @return QLL_OK, or QLL_NO_MEMORY if there is not even a canvas; what found no room on it is left out, and the
 *         arena counts it
 */
QLL_MUST_USE qll_status qll_picture_draw(const qll_design_findings *findings, qll_picture picture,
                                         qll_arena *arena, qll_figure_block *made);

#endif
