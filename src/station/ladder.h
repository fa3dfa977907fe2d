/* Pressures step by step from the main to every outlet, at night and at the design peak.
 * docs/theory/ladder.md. */
#ifndef QUELL_STATION_LADDER_H
#define QUELL_STATION_LADDER_H

#include "station/duty.h"
#include "station/operate.h"

typedef enum qll_step_kind {
    QLL_STEP_MAIN,
    QLL_STEP_PIPE,
    QLL_STEP_METER,
    QLL_STEP_BACKFLOW,
    QLL_STEP_STRAINER,
    QLL_STEP_DEVICE,
    QLL_STEP_STAGE,
    QLL_STEP_OUTLET, /* the rise to it */
} qll_step_kind;

typedef struct qll_ladder_step {
    qll_step_kind kind;
    size_t stage;              /* of a stage; else SIZE_MAX */
    const qll_pipe_size *size; /* of a pipe; NULL if not known */
    double pressure_pa_gauge;  /* behind it; NaN behind a stage that cannot pass the flow */
    double flow_m3s;
    double velocity_m_s; /* in a pipe, of a stage in the own size of its fastest valve; else NaN */
    double velocity_max_m_s; /* NaN with it */
    bool too_fast;
} qll_ladder_step;

typedef enum qll_ladder_time {
    QLL_LADDER_NIGHT, /* highest supply, no flow */
    QLL_LADDER_PEAK,  /* lowest supply, greatest design peak */
    QLL_LADDER_TIME_COUNT
} qll_ladder_time;

extern const char *const qll_ladder_time_words[QLL_LADDER_TIME_COUNT]; /* "night", "peak" */

/** A part of the way: from the main to the station's outlet, or from there to one outlet. */
typedef struct qll_ladder {
    qll_ladder_time time;
    size_t outlet; /* SIZE_MAX: main to station's outlet */
    const qll_ladder_step *steps;
    size_t count;
    double in_hand_pa; /* over what the outlet needs; NaN where none is known, or to the station */
} qll_ladder;

/**
 * For night, then for the peak: the way to the station's outlet, then one ladder per outlet.
 *
 * @param ladders and all it points at lives in @p arena
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_ladders_make(const qll_station *station, const qll_site *site,
                                         const qll_duty *duty, qll_arena *arena,
                                         const qll_ladder **ladders, size_t *count);

/** The step nearest to the velocity it may have at most, or farthest above it; NULL if none has one. */
const qll_ladder_step *qll_ladder_fastest(const qll_ladder *ladder);

#endif
