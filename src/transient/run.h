/* One event in a survey's pipes: what moves, and everything that is seen of it. docs/theory/hammer.md. */
#ifndef QUELL_TRANSIENT_RUN_H
#define QUELL_TRANSIENT_RUN_H

#include "dynamics/grid.h"
#include "dynamics/motion_state.h"
#include "transient/tree.h"

/** How one draw of the tree opens and shuts. */
typedef struct qll_draw_plan {
    double
        flow_m3s; /* fully open, at the pressure that stands there before anything moves; 0 = stays shut */
    double at_first;               /* share open before the first move */
    const qll_opening_move *moves; /* in order of time */
    size_t move_count;
} qll_draw_plan;

/* Pressures over time: of the followed draw, the station's outlet and its inlet. */
#define QLL_TRACES 3

typedef struct qll_run_plan {
    qll_tree_order tree;
    const qll_tree_arrester *arresters;
    size_t arrester_count;
    const qll_draw_plan *draws; /* [draw of the tree] */
    size_t followed;            /* the draw whose pressure and way are looked at closer */
    double heats_from_s;        /* INFINITY = the heater stays as it is */
    double leaks_from_s;        /* of the tree's leak, where it has one */
    double until_s;
    double watched_s;    /* its last part, in which valves are judged; at most until_s */
    double quiet_step_s; /* 0 = waves all the time */
    double wakes_pa;     /* in a quiet step, as of qll_event; INFINITY = at the given times alone */
    double waves_most_s; /* of one waking */
    const double *wakes_s;
    size_t wake_count;
    double stops_pa_gauge; /* the run ends once the station's outlet stands there; INFINITY */
    qll_grid_limits grid;
    /* After each step, as of the traces below; NULL = nobody looks. */
    void (*sees)(double time_s, const double *pa_gauge, void *context);
    void *sees_context;
} qll_run_plan;

/** A joint of the tree. */
typedef struct qll_joint_seen {
    double before_pa_gauge, after_pa_gauge; /* at rest, before and after all moves */
    double high_pa_gauge, low_pa_gauge;
    double high_s, low_s; /* when first */
    double cavity_m3;     /* of vapor, the greatest */
} qll_joint_seen;

/** A pipe of the tree. */
typedef struct qll_line_seen {
    double high_pa_gauge, low_pa_gauge; /* anywhere in it */
    double cavity_share; /* the greatest of vapor in one place within it, of a cell of the grid */
} qll_line_seen;

/** A valve of the station. */
typedef struct qll_valve_seen {
    qll_motion_found motion; /* of the pressure behind its stage; swing over its own set-point */
    double least_share, most_share; /* of its lift in the watched part, of full travel */
} qll_valve_seen;

/** What is drawn. The times of all traces are the same. */
typedef struct qll_run_traces {
    const double *time_s;
    const double *pa_gauge[QLL_TRACES];
    const double *const *lift_share; /* [valve] of full travel */
    size_t count;
} qll_run_traces;

/** The way from the main to the followed draw. */
typedef struct qll_run_envelope {
    const double *at_m; /* along it, from the main */
    const double *high_pa_gauge, *low_pa_gauge, *before_pa_gauge;
    size_t count;
    double station_m; /* where the last stage's valve stands */
} qll_run_envelope;

typedef struct qll_run_found {
    qll_tree tree;
    qll_grid grid;
    const qll_joint_seen *joints;
    const qll_line_seen *lines;
    const qll_valve_seen *valves;
    double ended_s;
    size_t wave_steps, quiet_steps;
    double worst_pa; /* by which a step's search still moved a pressure at most */
    double drawn_m3; /* that left through the draws while waves ran */
    double
        water_off_m3; /* made or lost meanwhile; NaN where steps were quiet or vapor stood at a joint */
    qll_run_traces traces;
    qll_run_envelope envelope;
} qll_run_found;

/**
 * Lays the tree out, rests it, lets the plan happen.
 *
 * @param goes_on asked now and then with the share done; false stops the run; NULL = it goes on
 * @return QLL_OK, QLL_REFUSED with problems (of qll_tree_make() and qll_opening_check()), QLL_STOPPED or QLL_NO_MEMORY;
 *         everything lives in @p arena
 */
QLL_MUST_USE qll_status qll_run_make(const qll_run_plan *plan, qll_problems *problems,
                                     bool (*goes_on)(double share, void *context), void *context,
                                     qll_arena *arena, qll_run_found *found);

/** What stands or hangs at a joint, for whoever names it. */
typedef enum qll_run_place {
    QLL_PLACE_MAIN,
    QLL_PLACE_INLET,   /* of the station */
    QLL_PLACE_BETWEEN, /* two stages */
    QLL_PLACE_OUTLET,  /* of the station */
    QLL_PLACE_DRAW,    /* an outlet that the survey names */
    QLL_PLACE_SERVICE, /* a pipe before the station ends there */
    QLL_PLACE_BEHIND,  /* a backflow preventer */
    QLL_PLACE_WAY      /* a pipe on the way to an outlet ends there */
} qll_run_place;

/** @p index gets the outlet of the site (draw, way), the element (service), else 0. */
qll_run_place qll_run_place_of(const qll_tree *tree, size_t joint, size_t *index);

#endif
