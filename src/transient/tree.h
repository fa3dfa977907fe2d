/* A survey's pipes, station and outlets as the tree that waves run through: docs/theory/waves.md. */
#ifndef QUELL_TRANSIENT_TREE_H
#define QUELL_TRANSIENT_TREE_H

#include "dynamics/air_chamber.h"
#include "dynamics/check_valve.h"
#include "dynamics/network.h"
#include "dynamics/opening.h"
#include "dynamics/regulator_boundary.h"
#include "dynamics/supply_end.h"
#include "dynamics/warming.h"
#include "station/site.h"
#include "station/station.h"

/** What is laid out. */
typedef struct qll_tree_order {
    const qll_site *site;
    const qll_station *station; /* at least one valve in each stage */
    const qll_motion *motion;   /* of its valves, where their sheets are silent */
    double static_pa_gauge;     /* of the main */
    double peak_m3s;            /* the service's friction is exact there; over 0 */
    double
        leak_m3s; /* past the seat of the last stage's first valve, at its drop at rest; 0 = tight */
} qll_tree_order;

/** Where a pipe of the tree comes from. */
typedef enum qll_tree_part {
    QLL_TREE_SERVICE, /* before the station */
    QLL_TREE_HEADER,  /* a piece of station pipe, where valves stand without a pipe between */
    QLL_TREE_WAY      /* to an outlet */
} qll_tree_part;

typedef struct qll_tree_pipe {
    qll_tree_part part;
    size_t element;     /* of the service, in site.upstream */
    size_t outlet, run; /* of a way: the first outlet whose way it is on, and its place there */
    const qll_pipe_size *size; /* NULL = not known */
    bool is_speed_assumed;     /* of layered pipe no modulus is known */
    double friction_off;       /* by how much its friction is off below the usual flow at most */
} qll_tree_pipe;

/** A draw at the end of a way or at the station's outlet: shut until somebody opens it. */
typedef struct qll_tree_draw {
    size_t joint;
    qll_opening opening;
} qll_tree_draw;

/**
 * The tree. Everything is pointed at and lives in the arena it was made in: what hangs at its joints may be moved
 * by whoever runs it, one tree for one run.
 */
typedef struct qll_tree {
    qll_network network;
    const qll_tree_pipe *pipes; /* [line] */
    size_t main_joint;
    const size_t *stage_joint; /* [2 * stage] its inlet, [2 * stage + 1] its outlet */
    size_t stage_count;
    size_t outlet_joint; /* of the station: heater, tank and ways hang on it */
    qll_supply_end *main;
    const qll_regulator *regulators; /* [valve], stage by stage */
    qll_regulator_boundary *valves;  /* likewise */
    size_t valve_count;
    qll_tree_draw *draws; /* [outlet of the site], the last at the station's outlet */
    size_t draw_count;
    qll_warming *heater;              /* NULL = none */
    qll_check_valve *leak;            /* of the seat that leaks, from INFINITY on; NULL = none */
    qll_air_chamber *tank;            /* NULL = none */
    const qll_air_chamber *arresters; /* that were hung on it */
    size_t arrester_count;
} qll_tree;

/** An arrester that is not in the survey. */
typedef struct qll_tree_arrester {
    size_t draw;      /* of the tree: it stands right there */
    double volume_m3; /* of its air at the precharge */
    double precharge_pa_gauge;
} qll_tree_arrester;

/**
 * Lays out the survey's pipes. A pipe of the survey without length is refused at its place
 * ("downstream.outlets[0].path[1].length"), a valve whose motion makes no sense at its stage's.
 *
 * @param arresters added to the tree; NULL = none
 * @param problems gets one entry for each thing refused
 * @return QLL_OK, QLL_REFUSED or QLL_NO_MEMORY; lives in @p arena, points at the order's site and station
 */
QLL_MUST_USE qll_status qll_tree_make(const qll_tree_order *order,
                                      const qll_tree_arrester *arresters, size_t arrester_count,
                                      qll_problems *problems, qll_arena *arena, qll_tree *tree);

#endif
