/* What may stand second in a pair, by tables made once per place: docs/theory/search.md, 3 and 4. */
#ifndef QUELL_SEARCH_SECONDS_H
#define QUELL_SEARCH_SECONDS_H

#include "search/foretold.h"
#include "search/lead.h"

/* Set-points of a place: the wanted one, then each offset below it and each above. A pair has its large
 * valve at the wanted pressure and the small one above it, or the small one at the wanted pressure. */
enum {
    QLL_SET_WANTED = 0,
    QLL_SET_BELOW = 1,
    QLL_SET_ABOVE = 1 + QLL_OFFSET_COUNT,
    QLL_SET_COUNT = 1 + 2 * QLL_OFFSET_COUNT,
    /* A second valve stands at the wanted pressure or below it. */
    QLL_SET_SECOND_COUNT = QLL_SET_ABOVE,
    /* Inlets at a design peak, from the least to the most, at which it is asked who delivers. */
    QLL_LEVEL_COUNT = 16,
};

double qll_set_pa_gauge(const qll_stage_place *place, size_t set);

/** The little that most parts fall by, side by side. */
typedef struct qll_second_figures {
    size_t part; /* in the pool */
    double cost, kv_m3h, hysteresis_pa, inlet_effect;
    size_t rank;
    bool is_rated[QLL_SET_SECOND_COUNT];
} qll_second_figures;

typedef struct qll_seconds_room {
    qll_second_figures *figures; /* by size, the cheapest of each first */
    size_t *size_from;           /* [size + 1] where those of a size begin */
    double *
        hard_m3s; /* [set-point][scenario][part] what each passes at the least outlet that is fit */
    double *fast_pa;      /* [set-point][peak][part] qll_placed_fast_pa(); NaN = not computed yet */
    float *reach_pa;      /* [set-point][size of the lead][peak][part] as lead_reach_pa */
    double *level_m3s;    /* [set-point][part][level] */
    double *lead_fast_pa; /* [peak] */
    /* [size of the second][peak] outlet above which the lead passes less than what a second of it leaves at 15 ft/s;
     * INFINITY = it leaves nothing; NaN = not computed yet */
    float *lead_reach_pa;
    double *areas_m2; /* [size] the greatest of it: valves of a size may differ */
    double *floors;   /* [size] qll_peaks_floor() of the lead and a second of it */
    double lead_level_m3s[QLL_LEVEL_COUNT];
} qll_seconds_room;

QLL_MUST_USE qll_status qll_seconds_room_make(const qll_searching *searching,
                                              qll_seconds_room *room);

/** A place, and the lead beside which a second is sought. */
typedef struct qll_seconds {
    qll_searching *searching;
    const qll_stage_place *place;
    const qll_lead *lead;
    qll_seconds_room *room;
} qll_seconds;

/** Makes the tables of the place. */
void qll_seconds_begin(const qll_seconds *of);

/** Makes those of the lead. */
void qll_seconds_of_lead(const qll_seconds *of);

/** Whether it may stand beside the lead as the larger one. */
bool qll_second_may_stand(const qll_seconds *of, const qll_second_figures *second);

/** Whether set-points are apart as they must be, and by how much at the worse end. */
bool qll_second_hands_over(const qll_seconds *of, const qll_second_figures *second, size_t set,
                           double *narrowest_pa);

/** Whether both together can carry every peak: at the least outlet that is fit, and at 15 ft/s. */
bool qll_second_carries(const qll_seconds *of, size_t index, size_t set);

/** Whether a design peak is surely too fast for one of them; said only of a place whose inlets are known. */
bool qll_second_is_fast(const qll_seconds *of, size_t index, size_t set);

/** What a pair gives at most at the first design peak of the lowest supply, absolute: the lead passes no more than at
 * 15 ft/s, the second the rest. INFINITY = not known. */
double qll_second_gives_pa(const qll_seconds *of, size_t index, size_t set);

/** Inlet there behind which, or behind less, a pair is short; absolute. -INFINITY = not known. */
double qll_second_needs_pa(const qll_seconds *of, size_t index, size_t set);

/** The same of the lead alone. */
double qll_lead_needs_pa(const qll_seconds *of);

#endif
