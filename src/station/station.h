/* The one shape of every station: stages in series, branches in parallel, a valve in each. */
#ifndef QUELL_STATION_STATION_H
#define QUELL_STATION_STATION_H

#include "physics/cavitation.h"
#include "physics/noise.h"
#include "physics/pipe.h"
#include "physics/valve.h"

/** A valve with its strainer and the pipe it is connected to. */
typedef struct qll_branch {
    const qll_valve *valve;
    const qll_opening_law *law; /* of that valve, made once per catalogue */
    double set_pa_gauge;        /* outlet pressure at a trickle, with set_inlet_pa at the inlet */
    double pipe_bore_m;         /* of the connecting pipe, of the valve's size */
    double series_kv_m3h;       /* strainer and reducers at the valve; NaN if nothing is there */
    double reducer_kv_m3h;      /* the reducers' part of it; NaN or 0 if there are none */
    double recovery;            /* FLP/FP, stands for FL in the choked drop; NaN or 0 = FL */
    double xfz_shift; /* added to xFz, of the sheet or estimated: what is not known of it */
    const qll_noise_path *path; /* the pipe behind it as sound passes it; NULL = not known */
} qll_branch;

typedef struct qll_stage {
    const qll_branch *branches;
    size_t branch_count;
    double set_inlet_pa_gauge; /* inlet pressure when its valves were set */
} qll_stage;

typedef struct qll_station {
    const qll_stage *stages;
    size_t stage_count;
} qll_station;

/** Bore in which its velocity is counted, the valve's own size: its nominal size, or the pipe's bore where
 * that is less. */
static inline double qll_branch_own_bore_m(const qll_branch *branch)
{
    double nominal_m = branch->valve->nominal_m;
    return nominal_m < branch->pipe_bore_m ? nominal_m : branch->pipe_bore_m;
}

/** Where branch @p branch stands at an inlet, gauge: as it was set, moved by the inlet's effect. */
static inline double qll_stage_set_pa_gauge(const qll_stage *stage, size_t branch,
                                            double inlet_pa_gauge)
{
    const qll_branch *of = &stage->branches[branch];
    return of->set_pa_gauge
           + of->valve->inlet_effect * (inlet_pa_gauge - stage->set_inlet_pa_gauge);
}

/** The highest set-point of its branches, gauge. */
static inline double qll_stage_highest_set_pa_gauge(const qll_stage *stage)
{
    double highest = stage->branches[0].set_pa_gauge;
    for (size_t j = 1; j < stage->branch_count; j++) {
        highest =
            stage->branches[j].set_pa_gauge > highest ? stage->branches[j].set_pa_gauge : highest;
    }
    return highest;
}

/** Valves of all its stages. */
static inline size_t qll_station_valve_count(const qll_station *station)
{
    size_t count = 0;
    for (size_t k = 0; k < station->stage_count; k++) {
        count += station->stages[k].branch_count;
    }
    return count;
}

/** Whether both have as many stages, branches in each, and at every place valves that @p same calls the same. */
bool qll_station_is_like(const qll_station *a, const qll_station *b,
                         bool (*same)(const qll_valve *, const qll_valve *));

/** A station by value, in @p arena; valves, laws and paths are pointed at. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_station_copy(const qll_station *from, qll_arena *arena,
                                         qll_station *copy);

#endif
