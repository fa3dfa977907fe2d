/* What goes wrong at a point of work, and what that comes to over a duty: docs/theory/recommendation.md,
 * 3 and 4. Every term is at least 0, so a sum over some points bounds the sum over all from below. */
#ifndef QUELL_STATION_HAZARD_H
#define QUELL_STATION_HAZARD_H

#include "station/branch_load.h"
#include "station/flow_noise.h"
#include "station/unknowns.h"

/* A search knows no stage of more; one that is there already may have more. */
#define QLL_HAZARD_BRANCHES 6

/* Water wears a valve from this velocity in its own size on: 8 ft/s. */
#define QLL_WEAR_FROM_M_S (8.0 * 0.3048)

/** What all stations of a site are measured by. Lives in the arena it was made in. */
typedef struct qll_yardstick {
    const qll_site *site;
    const qll_duty *duty;
    const qll_unknowns *unknowns;
    double energy_from;    /* 10^(L0/10) of where people are */
    const double *need_pa; /* [supply * flow_count + flow] outlet below which somebody is starved */
    const double *peak_m3s;         /* [scenario] */
    const double *peak_inlet_pa;    /* [scenario * QLL_SUPPLY_LEVELS + supply] */
    const double *peak_need_pa;     /* [scenario] the same at the lowest supply's peak */
    const double *peak_hard_pa;     /* [scenario] outlet there below which a station is not fit */
    double pipe_m;                  /* nominal of the pipe it is built in; NaN = not known */
    double rest_most_pa;            /* outlet at rest that the lowest outlet bears, absolute */
    const qll_noise_shape **shapes; /* of pipes met so far */
    size_t shape_count, shape_room;
} qll_yardstick;

/** QLL_OK or QLL_NO_MEMORY. Points at what it is given. */
QLL_MUST_USE qll_status qll_yardstick_make(const qll_site *site, const qll_duty *duty,
                                           const qll_unknowns *unknowns, qll_arena *arena,
                                           qll_yardstick *made);

/** A branch as hazards see it, whatever its set-point. */
typedef struct qll_branch_ruler {
    double speed_per_flow; /* in the valve's own size */
    qll_flow_noise noise;
    double chatters;                     /* share of such valves that chatter at all */
    double heard_share;                  /* 1/2 for a pilot-operated one, which hunts slowly */
    double stable_factor[QLL_OWN_NODES]; /* of the median least stable flow */
    double odds_factor[QLL_OWN_NODES];
    double xfz_moves[QLL_OWN_NODES];
    double per_xfz_least; /* 1 over the least xFz it may have at any opening */
} qll_branch_ruler;

/** Its share that chatters hangs on how it is set, and is left NaN. */
QLL_MUST_USE qll_status qll_branch_ruler_make(qll_yardstick *yardstick, const qll_branch *branch,
                                              qll_arena *arena, qll_branch_ruler *made);

/** Share of valves like @p valve that chatter at all, set to @p set_pa_gauge with a drop of
 * @p set_drop_pa. */
double qll_branch_chatters(const qll_valve *valve, double set_drop_pa, double set_pa_gauge);

/* Rows of what is summed: those of the stage, then those of each branch. */
enum {
    QLL_ROW_NOISE,
    QLL_ROW_WEAR,
    QLL_ROW_STARVED,
    QLL_ROW_HUNTING,
    QLL_ROW_BRANCH, /* then per branch: cavitation at each own node, chatter at each */
    QLL_ROWS_PER_BRANCH = 2 * QLL_OWN_NODES,
};

#define QLL_ROWS(branches) ((size_t)QLL_ROW_BRANCH + (size_t)QLL_ROWS_PER_BRANCH * (branches))
#define QLL_ROWS_MOST      QLL_ROWS(QLL_HAZARD_BRANCHES)

static inline size_t qll_row_cavitation(size_t branch)
{
    return QLL_ROWS(branch);
}

static inline size_t qll_row_chatter(size_t branch)
{
    return QLL_ROWS(branch) + QLL_OWN_NODES;
}

/** Sums of a stage over points, at every shared node: [row][node]. */
typedef struct qll_hazard_sums {
    double at[QLL_ROWS_MOST][QLL_NODES];
} qll_hazard_sums;

/** Sums over flows of one supply, before the weight of the supply: [row][demand node]. */
typedef double qll_hazard_row[QLL_DEMAND_NODES];

/** One stage to be measured. */
typedef struct qll_stage_ruler {
    const qll_yardstick *yardstick;
    const qll_stage_solver *solver;
    const qll_branch_ruler *branches; /* [branch] */
    size_t branch_count;
    bool is_last;
    double hunting; /* severity where more than one valve is open */
} qll_stage_ruler;

/**
 * Severities at one solved point, into row[QLL_ROWS(branch_count)].
 *
 * @param need_pa outlet below which somebody is starved; looked at in the last stage only
 */
void qll_hazard_point(const qll_stage_ruler *ruler, double inlet_pa, double flow_m3s,
                      double outlet_pa, double need_pa, double *row);

/** A stage solved behind the lowest and the highest of many inlets, at one flow. */
typedef struct qll_hazard_ends {
    double low_inlet_pa, high_inlet_pa;
    double low_outlet_pa, high_outlet_pa;
} qll_hazard_ends;

/**
 * What severities are at least behind every inlet between two, into row[QLL_ROWS(branch_count)], where all branches are
 * surely open and set-points move with the inlet by 0 to 1; all 0 elsewhere, and hunting always: docs/theory/search.md,
 * B6.
 */
void qll_hazard_least(const qll_stage_ruler *ruler, const qll_hazard_ends *ends, double flow_m3s,
                      double need_pa, double *row);

/** A branch somewhere between: flow, opening and least stable flow at least and at most, drop and pressures as they do
 * least harm. */
typedef struct qll_branch_between {
    double least_m3s, most_m3s;
    double least_kv_m3h, most_kv_m3h;
    double least_stable_m3s, most_stable_m3s;
    double drop_pa;  /* of the valve itself, at least */
    double inlet_pa; /* its own, at least */
    double head_pa;  /* at most */
} qll_branch_between;

/**
 * Cavitation and chatter of such a branch at least, one behind the other.
 *
 * @param share least_m3s over what the stage passes; or least_m3s, and the row comes times that
 * @return energy of its noise, at least
 */
double qll_branch_least(const qll_branch *branch, const qll_branch_ruler *ruler,
                        const qll_branch_between *at, double share,
                        double row[QLL_ROWS_PER_BRANCH]);

/** Adds severities by the weight of the flow class to the sums of one supply. */
static inline void qll_hazard_add(const qll_unknowns *unknowns, size_t flow, const double *row,
                                  size_t rows, qll_hazard_row *sums)
{
    const double *weight = unknowns->flow_weight[flow];
    for (size_t r = 0; r < rows; r++) {
        if (row[r] != 0.0) {
            for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
                sums[r][i] += row[r] * weight[i];
            }
        }
    }
}

/** Adds the sums of one supply to those of the shared nodes. */
void qll_hazard_merge(const qll_unknowns *unknowns, size_t supply, qll_hazard_row *of_supply,
                      size_t rows, qll_hazard_sums *sums);

/**
 * Adds the scenarios' design peaks at the lowest supply, to every node alike: a moment that somebody may
 * try. Inlets and outlets stand @p stride apart.
 */
void qll_hazard_add_peaks(const qll_stage_ruler *ruler, const double *inlet_pa,
                          const double *outlet_pa, size_t stride, qll_hazard_sums *sums);

/** Bits of mechanisms that qll_survival() looks at. */
enum {
    QLL_HEARS_NOISE = 1,
    QLL_HEARS_CAVITATION = 2,
    QLL_HEARS_WEAR = 4,
    QLL_HEARS_CHATTER = 8,
    QLL_HEARS_STARVED = 16,
    QLL_HEARS_HUNTING = 32,
    QLL_HEARS_ALL = 63,
};

/** What one design peak weighs, in each sum. */
double qll_peak_weight(const qll_yardstick *yardstick);

/**
 * What survives at a node at most of sums over some points, as a factor of what survives of the others, where only the
 * first branch is at work at those: of what is its own the node that does least harm, and no chatter, for a valve that
 * chatters there does so here too, and who has called once does not call twice.
 */
double qll_survival_besides(const qll_hazard_sums *sums, const qll_branch_ruler *branches,
                            size_t branch_count, size_t node);

/** Equation 2 at every node, of the mechanisms in @p which, all severities times @p factor. */
void qll_survival(const qll_hazard_sums *sums, const qll_branch_ruler *branches,
                  size_t branch_count, unsigned which, double factor, double survival[QLL_NODES]);

/** Takes hunting of @p severity off what survives at every node, where so much of the flowing time and water
 * passes through more than one valve: of Equation 2. */
void qll_survival_hunting(double severity, const double open_share[QLL_NODES],
                          double survival[QLL_NODES]);

/** Chance that a severity summed over a duty brings a complaint. */
double qll_complaint_chance(double severity);

/** Chance that a pressure that is short by @p short_pa (below 0: to spare) falls short. */
double qll_short_chance(double short_pa);

/** Chance that the outlet at rest is too high. */
double qll_rest_chance(const qll_yardstick *yardstick, double outlet_pa);

/** Severity of hunting of neighbours that are @p gap_pa apart at the worse inlet. */
double qll_hunting_severity(double hysteresis_pa, double gap_pa);

#endif
