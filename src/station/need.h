/* Is a reducing valve needed at all? The first question of a survey: docs/theory/need.md. */
#ifndef QUELL_STATION_NEED_H
#define QUELL_STATION_NEED_H

#include "base/problems.h"
#include "station/site.h"

/** What an outlet gets where no valve stands, gauge Pa; negative: the water does not reach it. */
typedef struct qll_bare_outlet {
    double still_pa_gauge;   /* at no flow and the highest supply */
    double peak_pa_gauge;    /* at the design peak and the lowest supply */
    double in_hand_pa_gauge; /* of what it needs then; negative: short */
} qll_bare_outlet;

/** The building without a valve. */
typedef struct qll_need {
    bool is_needed;                 /* false: nothing stands above what is permitted */
    size_t lowest;                  /* the outlet that decides; SIZE_MAX = the station's place */
    double lowest_still_pa_gauge;   /* there, at no flow and the highest supply */
    double inlet_peak_pa_gauge;     /* where the station would stand, at the peak, lowest supply */
    const qll_bare_outlet *outlets; /* [outlet of the site] */
} qll_need;

/**
 * False only where the survey itself says how high the supply stands, that is no more than permitted at
 * the lowest outlet, and nobody asks for a station all the same.
 */
bool qll_station_is_needed(const qll_site *site);

/**
 * The same, and what every outlet gets with a pipe in the station's place.
 *
 * @param peak_m3s the design peak
 * @param need its array lives in @p arena
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_need_of(const qll_site *site, double peak_m3s, qll_arena *arena,
                                    qll_need *need);

#endif
