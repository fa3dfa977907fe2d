/* The seam between the water in the pipes and whatever stands at their ends: a boundary hangs on one
 * node, or between two, and says what it would let through at given pressures. Whoever holds the nodes
 * finds the pressures at which nothing is left over. So any number of boundaries may share a node:
 * valves side by side are two-ports between the same two nodes, stages in series share the node
 * between them, and none needs to know of another. docs/theory/waves.md. */
#ifndef QUELL_DYNAMICS_BOUNDARY_H
#define QUELL_DYNAMICS_BOUNDARY_H

#include <stddef.h>

#define QLL_PORTS_MOST 2

/** The step that is being taken. */
typedef struct qll_instant {
    double time_s; /* at its end */
    double
        step_s; /* its length, over 0; INFINITY = at rest: as if the pressures had stood for ever */
} qll_instant;

/** What flows at the end of a step, and how that hangs on the pressures at its end. */
typedef struct qll_through {
    double flow_m3s[QLL_PORTS_MOST]; /* out of the node and into the boundary, by port */
    /* [i][j]: change of flow_m3s[i] per change of the pressure at port j, m3/(s Pa): finite, not below
     * 0 for i = j, not above 0 for others. */
    double slope[QLL_PORTS_MOST][QLL_PORTS_MOST];
} qll_through;

/**
 * A kind of boundary.
 *
 * A reducing valve has port 0 at its inlet and port 1 at its outlet; with q through the seat and a
 * diaphragm of area A, on the outlet, that moves at v towards opening, flow_m3s = {q, -(q + A v)}. What
 * goes in need not come out at once: the rest is held within.
 */
typedef struct qll_boundary_kind {
    unsigned port_count; /* 1 or QLL_PORTS_MOST */

    /**
     * What it would let through if the step ended at these pressures (gauge, Pa, at the nodes' own
     * heights, by port). Asked several times a step, with pressures on trial, also far off and below
     * a vacuum: never changes the state, always answers with finite numbers. @p answer comes with zeros.
     * Continuous, and monotone as the slopes say. Motion within is taken implicitly (where the boundary would have moved to
     * by the end of the step at these pressures), so that a step of any length is stable.
     */
    void (*through)(const void *state, const qll_instant *now, const double *pressure_pa_gauge,
                    qll_through *answer);

    /** The step has ended at these pressures: the state becomes that of its end. Asked once a step, in
     * the order of time; the first time at rest. NULL where nothing is remembered. */
    void (*accept)(void *state, const qll_instant *now, const double *pressure_pa_gauge);

    /**
     * The longest step that still follows its own motion, s. While waves run, a step of the pipes is
     * cut into equal parts of at most this; what comes out of the pipes then runs straight from the
     * value at one end of their step to that at the other. Quiet steps of a second are not cut. NULL
     * where any step will do.
     */
    double (*longest_step_s)(const void *state);
} qll_boundary_kind;

/** One boundary in its place. */
typedef struct qll_boundary {
    const qll_boundary_kind *kind;
    void *state;                 /* of that kind; whoever made it keeps it */
    size_t node[QLL_PORTS_MOST]; /* by port; two different nodes */
} qll_boundary;

#endif
