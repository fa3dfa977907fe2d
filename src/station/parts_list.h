/* What is bought for a station and stands on its drawing: docs/theory/parts.md. */
#ifndef QUELL_STATION_PARTS_LIST_H
#define QUELL_STATION_PARTS_LIST_H

#include "base/units.h"
#include "station/verdict.h"

/** X(NAME, word for machines). Up to COCK each belongs to a branch, the others to the whole station. */
#define QLL_PIECE_LIST(X)                                                      \
    X(VALVE, "reducing-valve")                                                 \
    X(STRAINER, "strainer")                                                    \
    X(SCREEN, "strainer-in-valve")                                             \
    X(STOP, "stop-valve")                                                      \
    X(UNION, "union")                                                          \
    X(REDUCER, "reducer")                                                      \
    X(COCK, "test-cock")        /* between strainer and valve */               \
    X(TEE, "tee")               /* of the pipe, for one more branch */         \
    X(ELBOW, "elbow")           /* likewise */                                 \
    X(GAUGE, "gauge")           /* before each stage and behind the last */    \
    X(TEST_GAUGE, "test-gauge") /* one for all cocks */                        \
    X(HOSE_VALVE, "hose-valve") /* behind the station: drain and test flows */ \
    X(RELIEF, "relief-valve")   /* behind the station */                       \
    X(TANK, "expansion-tank")   /* at the heater: not on the drawing */

typedef enum qll_piece_kind {
#define QLL_PIECE_NAME(name, word) QLL_PIECE_##name,
    QLL_PIECE_LIST(QLL_PIECE_NAME)
#undef QLL_PIECE_NAME
    QLL_PIECE_COUNT
} qll_piece_kind;

extern const char *const qll_piece_words[QLL_PIECE_COUNT];

/** Unions are sold up to 2 in, here with a hair for rounding; what is larger has flanges (common practice, no source). */
#define QLL_UNION_MOST_M (2.0 * 0.0254 * (1.0 + 1e-9))

/** A row of the list: @p count alike. */
typedef struct qll_piece {
    qll_piece_kind kind;
    size_t stage, branch;  /* it belongs to; branch SIZE_MAX = to the whole station */
    size_t joint;          /* of a gauge: before stage @p joint, or behind the last */
    size_t count;          /* at least 1 */
    double nominal_m;      /* of its connections, a reducer's larger end; NaN = no size of a pipe */
    double smaller_m;      /* of a reducer: its other end; else NaN */
    double scale_pa_gauge; /* of a gauge: where its scale ends */
    double pressure_pa_gauge; /* a relief valve's set, a tank's charge before it is filled */
    double volume_m3;         /* of a tank */
} qll_piece;

/** Sizes along a branch, from the pipe through its strainer and its valve to the pipe again. */
typedef struct qll_branch_sizes {
    double pipe_m, strainer_m, valve_m; /* nominal, as the station's pipe is sold */
    int in, between,
        out; /* reducer from the pipe to the strainer, from there to the valve, from the valve to the
                             pipe: -1 to a smaller size, 1 to a larger one, 0 = the same, none */
    bool has_cock; /* the strainer is a part of its own */
} qll_branch_sizes;

/** Branch @p branch of stage @p stage as it is put into the pipe. */
qll_branch_sizes qll_branch_sizes_of(const qll_station *station, const qll_site *site,
                                     const qll_assessment *assessment, size_t stage, size_t branch);

/** Parts that not every station has; each NaN = none. */
typedef struct qll_extra_parts {
    double relief_pa_gauge; /* where a relief valve behind the station opens */
    double tank_m3;
} qll_extra_parts;

/** What is bought, branch by branch, then the whole station's. */
typedef struct qll_pieces {
    const qll_piece *pieces;
    size_t count;
} qll_pieces;

/**
 * The list of a station's parts; they live in @p arena.
 *
 * @param units in which gauges are sold
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_pieces_of(const qll_station *station, const qll_site *site,
                                      const qll_assessment *assessment, qll_extra_parts extra,
                                      qll_unit_system units, qll_arena *arena, qll_pieces *pieces);

#endif
