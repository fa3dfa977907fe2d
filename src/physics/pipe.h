/* Pipe sizes, velocity, friction and head loss. */
#ifndef QUELL_PHYSICS_PIPE_H
#define QUELL_PHYSICS_PIPE_H

#include "base/problems.h"
#include "base/table.h"
#include "base/words.h"
#include "physics/water.h"

/** Greatest velocity of cold and of hot water in copper (UPC 610.12, as an adoption quotes it), m/s. */
#define QLL_COPPER_COLD_M_S (8 * 0.3048)
#define QLL_COPPER_HOT_M_S  (5 * 0.3048)

/** One row of data/pipes.csv. */
typedef struct qll_pipe_size {
    const char *standard; /* "ASTM B88 type L" */
    const char *material; /* "copper" */
    const char *nominal;  /* "2 in", "DN50" or "28 x 1.5" as printed */
    double nominal_m;     /* the same as a length (qll_nominal_read_m) */
    double outside_m, bore_m, wall_m;
    double roughness_m;
    double velocity_max_m_s; /* cold water, of its family */
    const char *source;      /* of the dimensions, as data/pipes.csv says */
} qll_pipe_size;

/** A short name users write ("copper L") and the standard it stands for. */
typedef struct qll_pipe_family {
    const char *word;
    const char *standard;
    const char *material;
    double roughness_m;
    const char *roughness_source;
    double velocity_max_m_s; /* cold water */
    const char *velocity_source;
} qll_pipe_family;

typedef struct qll_pipe_table {
    const qll_pipe_size *sizes;
    size_t count;
} qll_pipe_table;

/** The families, in a fixed order; @p count gets their number. */
const qll_pipe_family *qll_pipe_families(size_t *count);

/** What else families are called; @p count gets their number. */
const qll_other_word *qll_pipe_other_words(size_t *count);

/** The family called @p word ("copper L"), or NULL. */
const qll_pipe_family *qll_pipe_family_find(qll_text word);

/**
 * Reads the embedded data/pipes.csv: the rows whose standard has a family, in the file's order. The
 * sets of plastic pipe at minimum wall are left out, since the bore that counts is the mean one.
 *
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_pipe_table_read(qll_arena *arena, qll_pipe_table *table);

/**
 * The size of @p family whose nominal the trade holds for the same as @p nominal_m
 * (qll_nominal_same: within 2 %, inches and DN alike), or NULL. Where a standard has several walls
 * for one outside ("28 x 1" and "28 x 1.5") the smaller bore, which is the safe side.
 */
const qll_pipe_size *qll_pipe_find(const qll_pipe_table *table, const qll_pipe_family *family,
                                   double nominal_m);

/** Mean velocity, m/s; NaN if the bore is not above 0. */
double qll_pipe_velocity_m_s(double flow_m3s, double bore_m);

/**
 * Most that water of @p degc may run in a pipe of @p size: of its family when cold; in copper 1.5 m/s
 * (5 ft/s) when warm and 0.9 m/s (3 ft/s) above 60 degC (copper tube handbook practice).
 */
double qll_pipe_velocity_max_m_s(const qll_pipe_size *size, double degc);

double qll_pipe_reynolds(double velocity_m_s, double bore_m, const qll_water *water);

/**
 * Darcy friction factor: 64/Re below 2000, Colebrook from 4000 up, a straight line between (our
 * choice). NaN for Re <= 0 or relative_roughness outside 0 to 0.1. docs/theory/pipe.md.
 */
double qll_pipe_friction_factor(double reynolds, double relative_roughness);

typedef struct qll_pipe_run {
    double bore_m, length_m, roughness_m;
    double minor_loss; /* sum of K of its fittings, on this bore */
    double rise_m;     /* outlet above inlet */
} qll_pipe_run;

/**
 * Pressure lost by friction and fittings (without the rise), Pa, for flow >= 0; 0 at no flow; NaN
 * for a negative flow, bore, length or loss, and a roughness outside 0 to a tenth of the bore.
 * docs/theory/pipe.md.
 */
double qll_pipe_drop_pa(const qll_pipe_run *run, double flow_m3s, const qll_water *water);

#endif
