/* The pipes that waves run through, where they meet, and what stands there. */
#ifndef QUELL_DYNAMICS_NETWORK_H
#define QUELL_DYNAMICS_NETWORK_H

#include "base/problems.h"
#include "dynamics/boundary.h"
#include "dynamics/friction.h"

/** A pipe of one size. Flow is positive from `from` to `to`. */
typedef struct qll_line {
    size_t from, to; /* joints */
    double length_m, bore_m;
    double wave_speed_m_s; /* qll_wave_speed_m_s() */
    qll_friction friction; /* of the whole pipe, fittings included; 0 = none */
} qll_line;

/** Where pipes end. */
typedef struct qll_joint {
    double elevation_m;
    double held_pa_gauge;  /* a reservoir, which holds it; NaN = none */
    double start_pa_gauge; /* a guess for the pressure at rest */
} qll_joint;

typedef struct qll_network {
    const qll_line *lines;
    size_t line_count; /* at least 1 */
    const qll_joint *joints;
    size_t joint_count;
    const qll_boundary *boundaries; /* their nodes are joints */
    size_t boundary_count;
    double density_kg_m3;
    double vapour_pa_gauge; /* below it water boils: its vapor pressure less the barometric one */
} qll_network;

/**
 * Refuses a pipe without length, bore or wave speed, a negative friction, and pipes or boundaries with
 * two ports that close a loop (several boundaries between the same two joints are none). One line
 * for each; the place's path is "pipes[3]".
 */
bool qll_network_check(const qll_network *network, qll_problems *problems);

/** The longest time that a wave takes from one joint to another, s, of a network without loops; NaN without memory,
 * which the arena counts. */
double qll_network_longest_s(const qll_network *network, qll_arena *arena);

#endif
