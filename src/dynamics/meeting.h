/* Where pipes and boundaries meet: the pressures at which as much comes into every node as leaves it. */
#ifndef QUELL_DYNAMICS_MEETING_H
#define QUELL_DYNAMICS_MEETING_H

#include "base/problems.h"
#include "dynamics/boundary.h"

/**
 * What reaches a node through its pipes by the end of a step, all of them as one source: it pushes
 * admittance (pressure - p) into the node while p stands there. A pipe alone gives its characteristic:
 * at its downstream end Cp and 1/Z, at its upstream end Cm and 1/Z, with Z = rho a/A.
 */
typedef struct qll_arrival {
    double pressure_pa_gauge; /* at the node's height */
    double admittance_m3s_pa; /* 0 = no pipe; INFINITY = a reservoir, which holds the pressure */
} qll_arrival;

/** A node during a step. */
typedef struct qll_meeting_node {
    qll_arrival arrival;      /* in */
    double vapour_pa_gauge;   /* in: the pressure does not fall below it; -INFINITY = it may */
    double pressure_pa_gauge; /* in: where the search begins; out: at the end of the step */
    double cavity_m3;   /* in, out: room that vapor has taken; over 0 only at vapour_pa_gauge */
    double outflow_m3s; /* out: into all boundaries together */
} qll_meeting_node;

/** Boundaries and the nodes they join, in the order in which their pressures are worked out. */
typedef struct qll_meeting qll_meeting;

/**
 * Lays out the nodes 0 to @p node_count - 1 and the boundaries that hang on them.
 *
 * @param boundaries by node as they stand there; must live as long as the meeting
 * @param meeting    lives in @p arena
 * @return QLL_REFUSED where boundaries with two ports join nodes in a ring (several between the same
 *         two nodes are none), QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_meeting_make(const qll_boundary *boundaries, size_t boundary_count,
                                         size_t node_count, qll_arena *arena,
                                         qll_meeting **meeting);

/**
 * Ends one step: finds the pressures of all nodes, then lets every boundary accept them.
 *
 * @param nodes as many as the meeting was made for
 * @return by how much the last round of the search still moved a pressure, Pa
 */
double qll_meeting_end_step(qll_meeting *meeting, qll_meeting_node *nodes, const qll_instant *now);

#endif
