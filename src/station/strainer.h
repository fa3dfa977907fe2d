/* The strainer of a branch: which screen, what it takes clean and half blocked, when to clean it.
 * docs/theory/strainer.md. */
#ifndef QUELL_STATION_STRAINER_H
#define QUELL_STATION_STRAINER_H

#include "station/operate.h"

/* A screen with half of its openings lost still does its work, but wants cleaning. */
#define QLL_STRAINER_BLOCKED 0.5
/* Half-blocked strainers may take so much of what is in hand (our assumption). */
#define QLL_STRAINER_SHARE   0.5

typedef struct qll_strainer {
    bool in_body;       /* the valve's own screen: its mesh is not known */
    int mesh;           /* openings per inch; 0 if not known */
    double nominal_m;   /* of its connections */
    double at_flow_m3s; /* the branch's greatest flow at a design peak; NaN: it passes none */
    double clean_pa, half_blocked_pa; /* loss at that flow; NaN with it */
    double clean_me_pa; /* difference of the gauges before and behind it at that flow, beyond what
                           they show at no flow, that says "clean me"; NaN: no gauge tells in time */
    double half_blocked_kv_m3h; /* the same as a flow coefficient; NaN with it */
} qll_strainer;

/** Loss of a screen of open share @p open when @p blocked of the openings are lost, over its loss
 * when clean: the ratio of (1 - a^2)/a^2. NaN unless both lie in 0 to 1 and @p blocked below 1. */
double qll_screen_blocked_ratio(double open, double blocked);

/**
 * Chooses the strainer of @p branch for @p peak_flow_m3s (0 or NaN: it passes none): the valve's own
 * if it has one, else the finest screen of the smallest size, from the valve's own up, whose loss
 * half blocked is at most 2 psi; the largest tried and coarsest if none is.
 */
qll_strainer qll_strainer_choose(const qll_branch *branch, const qll_site *site,
                                 double peak_flow_m3s);

/**
 * Strainers of all branches.
 *
 * @param peaks     @p count operating points at the design peaks
 * @param strainers [stage][branch], to be filled
 */
void qll_strainers_choose(const qll_station *station, const qll_site *site,
                          const qll_operating_point *peaks, size_t count,
                          qll_strainer *const *strainers);

/** Lets no strainer wait longer to be cleaned than until it takes @p spare_pa, what the outlets can spare; where no pair of
 * gauges shows so little, or clean it takes as much, no reading tells. */
void qll_strainers_spare(const qll_station *station, double spare_pa,
                         qll_strainer *const *strainers);

/** Room for the strainers of @p station, [stage][branch]; NULL without memory. */
qll_strainer **qll_strainers_room(const qll_station *station, qll_arena *arena);

/** @p station with its strainers half blocked; lives in @p arena. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_strainers_block(const qll_station *station,
                                            qll_strainer *const *strainers, qll_arena *arena,
                                            qll_station *blocked);

#endif
