/* An outlet into the open, which opens and closes: a tap, a solenoid, a flush valve, a demand. */
#ifndef QUELL_DYNAMICS_OPENING_H
#define QUELL_DYNAMICS_OPENING_H

#include "base/problems.h"
#include "dynamics/boundary.h"

/** From one opening to another: to + (from - to)(1 - (t - begins)/takes)^power in between. */
typedef struct qll_opening_move {
    double begins_s;
    double takes_s;  /* over 0 */
    double from, to; /* share of full opening, 0 to 1 */
    double power;    /* 1 = evenly; over 0 */
} qll_opening_move;

typedef struct qll_opening {
    double coefficient;            /* fully open, m3/s per sqrt(Pa) */
    double at_first;               /* share before the first move */
    const qll_opening_move *moves; /* in order of time, none within another */
    size_t move_count;
    size_t next; /* state: the first move that is not over */
} qll_opening;

extern const qll_boundary_kind qll_opening_kind;

/** Refuses moves that take no time, begin before the last one is over or go to no share from 0 to 1: one line for
 * each, at @p path with "moves[2]" behind it. */
bool qll_opening_check(const qll_opening *opening, const char *path, qll_problems *problems);

/** Coefficient of an outlet that gives @p flow_m3s at @p pressure_pa_gauge. */
double qll_opening_coefficient(double flow_m3s, double pressure_pa_gauge);

/** How far it is open at @p time_s, which is not before what it has accepted. */
double qll_opening_share(const qll_opening *opening, double time_s);

#endif
