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

/** What the figures of an answer are drawn from. */
typedef struct qll_picture_source {
    const qll_demand_findings *demand;
    const qll_duty *duty;       /* these are NULL or 0 where no station was asked for */
    const qll_station *station; /* NULL where there is none */
    const qll_operating_point
        *points; /* it at the middle supply, by rising flow; none is no falloff */
    size_t point_count;
    const qll_way *way;
    const qll_design *design; /* that it was chosen in; NULL = it was there */
    const char *currency;     /* NULL = not known */
} qll_picture_source;

qll_picture_source qll_picture_source_of(const qll_design_findings *findings);

/** How many figures of a kind there are; 0 for what cannot be drawn: a metered day without hours. */
size_t qll_pictures(const qll_picture_source *source, qll_picture_kind kind);
size_t qll_picture_count(const qll_design_findings *findings, qll_picture_kind kind);

/**
 * Draws @p picture, 174 mm wide, so that it fits both Letter and A4 between their margins.
 *
 * @param picture its number is below qll_picture_count()
 * @param made    canvas, id and texts live in @p arena
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_picture_of(const qll_picture_source *source, qll_picture picture,
                                       qll_arena *arena, qll_figure_block *made);
QLL_MUST_USE qll_status qll_picture_draw(const qll_design_findings *findings, qll_picture picture,
                                         qll_arena *arena, qll_figure_block *made);

#endif
