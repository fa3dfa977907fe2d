/* Losses of fittings, strainers, meters and backflow preventers. */
#ifndef QUELL_PHYSICS_FITTING_H
#define QUELL_PHYSICS_FITTING_H

#include "base/table.h"
#include "base/words.h"
#include "numeric/curve.h"
#include "physics/water.h"

/** A fitting by its word ("elbow 90") and its loss as K = n * fT or as a fixed K. */
typedef struct qll_fitting {
    const char *word;
    double n_ft;    /* multiples of the fully turbulent friction factor; NaN if fixed_k is used */
    double fixed_k; /* NaN if n_ft is used */
    const char *source;
} qll_fitting;

/** All known fittings in a fixed order. */
const qll_fitting *qll_fittings(size_t *count);

/** What else fittings are called; @p count gets their number. */
const qll_other_word *qll_fitting_other_words(size_t *count);

/** The fitting called @p word, or NULL. */
const qll_fitting *qll_fitting_find(qll_text word);

/** Friction factor at full turbulence for a relative roughness (above 0 to 0.1), fT; else NaN. */
double qll_fully_turbulent_factor(double relative_roughness);

/** K of one fitting in a pipe of this bore; the roughness is that of clean commercial steel (the
 * reference of fT tables), whatever the pipe. */
double qll_fitting_k(const qll_fitting *fitting, double bore_m);

/** A woven screen. */
typedef struct qll_screen {
    double opening_m, wire_m;
    double area_ratio; /* gross screen area over pipe area, typically 2 to 4 */
} qll_screen;

/** The known mesh numbers of ASTM E11, rising. */
const int *qll_screen_meshes(size_t *count);

/** Screen by ASTM E11 mesh number, area ratio 2 (the lower end of
 * common practice); opening NaN if the number is unknown. */
qll_screen qll_screen_mesh(int mesh);

/**
 * Loss of a strainer screen, Pa: K = beta (1 - a^2)/a^2 on the approach velocity, a the open share
 * after a share @p blocked (0 to <1) of the openings is lost, beta by Reynolds number in the
 * openings. NaN for a negative flow or an unknown screen. docs/theory/fitting.md.
 */
double qll_screen_drop_pa(const qll_screen *screen, double bore_m, double blocked, double flow_m3s,
                          const qll_water *water);

typedef struct qll_meter {
    double nominal_m;
    qll_curve loss; /* Pa over m3/s, as published */
} qll_meter;

typedef struct qll_meter_table {
    const qll_meter *meters;
    size_t count;
} qll_meter_table;

/** Reads the embedded data/meter_loss.csv. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_meter_table_read(qll_arena *arena, qll_meter_table *table);

/** The meter whose size the trade holds for the same (qll_nominal_same), or NULL. */
const qll_meter *qll_meter_find(const qll_meter_table *table, double nominal_m);

/** Loss of a meter, Pa: through the published points in logarithms; beyond them as flow squared. */
double qll_meter_drop_pa(const qll_meter *meter, double flow_m3s);

typedef enum qll_backflow_kind {
    QLL_BACKFLOW_REDUCED_PRESSURE,
    QLL_BACKFLOW_DOUBLE_CHECK,
    QLL_BACKFLOW_COUNT
} qll_backflow_kind;

/** Words users write for the kinds: "reduced pressure", "double check". */
extern const char *const qll_backflow_words[QLL_BACKFLOW_COUNT];

/** An opening step plus a part that grows with flow squared. */
typedef struct qll_backflow {
    double opening_pa;
    double rated_flow_m3s, rated_drop_pa;
} qll_backflow;

/** The sizes of which a default assembly is known, m, rising. */
const double *qll_backflow_sizes_m(size_t *count);

/** The default assembly of a size (docs/theory/fitting.md says which values are from memory); all
 * NaN if the size is unknown. */
qll_backflow qll_backflow_default(qll_backflow_kind kind, double nominal_m);

/** Loss, Pa: 0 at no flow, else opening + (rated - opening) (flow/rated flow)^2; NaN for nonsense. */
double qll_backflow_drop_pa(const qll_backflow *backflow, double flow_m3s);

#endif
