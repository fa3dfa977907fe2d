/* What the motion of a reducing valve hangs on and no sheet says: ranges, and the middle of each. */
#ifndef QUELL_DYNAMICS_MOTION_H
#define QUELL_DYNAMICS_MOTION_H

/* Values without a unit but where the name has one; docs/theory/valve_motion.md. */
typedef enum qll_motion_value {
    QLL_MOTION_DIAPHRAGM, /* its area over that of the seat */
    QLL_MOTION_TRAVEL,    /* full travel over the seat's bore */
    QLL_MOTION_MASS, /* moving parts, over a cube of water on the area that the outlet works on */
    QLL_MOTION_DAMPING,       /* c over 2 sqrt(k M) */
    QLL_MOTION_PASSAGE,       /* area of the passage to the chamber, over the diaphragm's */
    QLL_MOTION_PASSAGE_M,     /* its length */
    QLL_MOTION_FRICTION_PA,   /* while it moves, over the area: half the hysteresis band */
    QLL_MOTION_BREAKAWAY,     /* friction at rest over that while it moves */
    QLL_MOTION_JET,           /* cosine of the jet's angle, over 0 where it closes */
    QLL_MOTION_SEAT_M,        /* how deep the lock-up squeezes the seat */
    QLL_MOTION_SEAT_LOSS_S_M, /* loss of a blow on it, mu of Hunt and Crossley */
    QLL_MOTION_STROKE_S,      /* pilot operated: from shut to open */
    QLL_MOTION_PILOT_PA,      /* pressure that opens the pilot in full */
    QLL_MOTION_LAG_S,         /* of its sensing line */
    QLL_MOTION_COUNT
} qll_motion_value;

typedef struct qll_motion {
    double of[QLL_MOTION_COUNT];
} qll_motion;

/** Where plausible builds lie (our assumption). */
typedef struct qll_motion_range {
    double low, usual, high;
} qll_motion_range;

extern const qll_motion_range qll_motion_ranges[QLL_MOTION_COUNT];

/** The middle of every range. */
qll_motion qll_motion_usual(void);

/** The value at @p share (0 to 1) of the range of @p which: even in its logarithm, but for the jet's. */
double qll_motion_within(qll_motion_value which, double share);

#endif
