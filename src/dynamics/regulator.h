/* A reducing valve that moves: what it weighs, what pushes it, what it lets through and what water it
 * pushes aside itself. Pressures absolute. docs/theory/valve_motion.md. */
#ifndef QUELL_DYNAMICS_REGULATOR_H
#define QUELL_DYNAMICS_REGULATOR_H

#include "dynamics/motion.h"
#include "physics/valve.h"

/** A valve set to a pressure, with everything its motion needs. */
typedef struct qll_regulator {
    qll_acting acting;
    /* Knots of rising lift from 0 to full travel, m. */
    qll_curve opening;           /* flow per root of the drop, m3/(s Pa^1/2) */
    qll_curve falloff;           /* at rest, Pa */
    double full_m;               /* lift at full travel */
    double outlet_m2, inlet_m2;  /* areas that the pressures work on, and that push water; the
                                   inlet's is below 0 where the inlet closes */
    double set_pa, set_inlet_pa; /* where it stands at a trickle */
    double choke_share, choke_below_pa; /* most drop = share (inlet - below) */
    double seat_n_m, seat_loss_s_m;     /* of seat and stop */
    /* direct acting */
    double mass_kg; /* with the water in the passage */
    double spring_n_m, damping_n_s_m;
    double passage_n_s2_m2; /* force over the square of the speed */
    double jet_root_kg_m3;  /* closing force over opening and drop */
    double friction_n;      /* while it moves */
    double breakaway;       /* friction at rest over that; 1 and more */
    /* pilot operated */
    double stroke_s, pilot_pa, lag_s, dead_pa;
} qll_regulator;

/** What a regulator is made of. */
typedef struct qll_regulator_of {
    const qll_valve *valve; /* defaults filled */
    const qll_opening_law *law;
    const qll_motion *motion; /* where the sheet is silent */
    double set_pa, set_inlet_pa;
    const qll_water *water;
} qll_regulator_of;

/**
 * Lays the valve out.
 *
 * @return QLL_REFUSED where a mass, rate or area makes no sense, or the jet is stronger than the
 *         spring; QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_regulator_make(const qll_regulator_of *of, qll_arena *arena,
                                           qll_regulator *regulator);

/** What holds a valve, or drives it. */
typedef enum qll_drive {
    QLL_DRIVE_FREE, /* no friction; a pilot valve that is not at its stop */
    QLL_DRIVE_UP,   /* opening, against friction */
    QLL_DRIVE_DOWN,
    QLL_DRIVE_HELD /* by friction, or a pilot valve at its stop */
} qll_drive;

/** Between events the valve's equations are smooth: this says which ones hold. */
typedef struct qll_regulator_mode {
    size_t region; /* 0 in the seat, then from knot to knot of the opening, last in the stop */
    qll_drive drive;
} qll_regulator_mode;

/** Its two values: lift, and speed (m/s); of a pilot valve the pressure that the pilot feels. */
#define QLL_REGULATOR_VALUES 2

typedef struct qll_regulator_place {
    double lift_m, second;
    double inlet_pa, outlet_pa;
} qll_regulator_place;

/* Columns of the slopes below. */
enum {
    QLL_BY_LIFT,
    QLL_BY_SECOND,
    QLL_BY_INLET,
    QLL_BY_OUTLET,
    QLL_BY_COUNT
};

typedef struct qll_regulator_moves {
    double rate[QLL_REGULATOR_VALUES];
    double from_inlet_m3s, to_outlet_m3s;
} qll_regulator_moves;

typedef struct qll_regulator_slopes {
    double rate[QLL_REGULATOR_VALUES][QLL_BY_COUNT];
    double from_inlet[QLL_BY_COUNT], to_outlet[QLL_BY_COUNT];
} qll_regulator_slopes;

qll_regulator_moves qll_regulator_at(const qll_regulator *regulator, qll_regulator_mode mode,
                                     const qll_regulator_place *place);

/** How that changes with lift, second value and pressures. */
qll_regulator_slopes qll_regulator_slopes_at(const qll_regulator *regulator,
                                             qll_regulator_mode mode,
                                             const qll_regulator_place *place);

/** Force towards opening without damping and friction, N; of a pilot valve the pressure that the pilot
 * lacks, Pa. */
double qll_regulator_push(const qll_regulator *regulator, size_t region,
                          const qll_regulator_place *place);

/** The region of @p lift_m; of two that meet there the upper one. */
size_t qll_regulator_region(const qll_regulator *regulator, double lift_m);

/** Ends of a region, m: infinite below the seat and beyond the stop. */
double qll_regulator_region_from(const qll_regulator *regulator, size_t region);
double qll_regulator_region_to(const qll_regulator *regulator, size_t region);

/** Lift at which it rests between those pressures without friction, m. */
double qll_regulator_rest_m(const qll_regulator *regulator, double inlet_pa, double outlet_pa);

/** What its seat lets through at a lift, m3/s. */
double qll_regulator_flow_m3s(const qll_regulator *regulator, size_t region,
                              const qll_regulator_place *place);

/** The root of a drop, smooth through 0: drop / (drop^2 + (10 Pa)^2)^(1/4), and its slope. */
double qll_smooth_root(double drop_pa);
double qll_smooth_root_slope(double drop_pa);

#endif
