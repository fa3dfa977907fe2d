/* What a heater does behind valves that let no water back: docs/theory/expansion.md, eq. 6 to 9. */
#ifndef QUELL_STATION_CLOSED_H
#define QUELL_STATION_CLOSED_H

#include "physics/expansion.h"
#include "station/site.h"

/** Outlet of the station at no flow while the supply goes through its day, gauge Pa. */
typedef struct qll_rest {
    double low_pa_gauge, middle_pa_gauge, high_pa_gauge;
} qll_rest;

/** Settings that are looked at where a tank finds too little room: lower by so many steps of 5 psi. */
#define QLL_TANK_STEPS 2

/** What else would do where no tank that anybody would fit has room; each NaN if that is none either. */
typedef struct qll_tank_cures {
    double lower_by_pa[QLL_TANK_STEPS]; /* set so much lower, */
    double lower_m3[QLL_TANK_STEPS];    /* this tank would do */
    double relief_limit_pa_gauge;       /* were the relief valve less its margin the limit, */
    double by_relief_m3;                /* this one at the present setting */
} qll_tank_cures;

/** All figures NaN where there is no heater. */
typedef struct qll_closed_system {
    bool has_heater, has_tank;
    double rest_pa_gauge;    /* outlet at no flow, highest supply */
    double rise_pa_per_k;    /* without a tank, while the water is still cold */
    double rise_pa;          /* of a whole heating-up, were nothing to give way; at least 0 */
    double kelvin_to_relief; /* warming that opens the relief valve; NaN if a heating-up does not */
    double expanded_m3;      /* what the heater pushes out */
    double limit_pa_gauge;   /* most that is permitted, at the station's height */
    double precharge_pa_gauge; /* that a tank needs: outlet at no flow, middle supply */
    double tank_m3;            /* that is needed at that precharge; NaN if none has room */
    double tank_at_own_m3;     /* that is needed at the precharge of the tank there is; else NaN */
    double relief_static_pa_gauge; /* least set of the relief valve by the EN share */
    double relief_margin_pa_gauge; /* and by the margin in psi */
    qll_tank_cures cures;
} qll_closed_system;

/** The heater as a vessel full of cold water. */
qll_closed_part qll_heater_part(const qll_heater *heater);

/**
 * What room and what relief valve the heater needs; what a heating-up does is left at NaN. The heater
 * stands at the station's height (our assumption).
 */
qll_closed_system qll_closed_system_of(const qll_site *site, const qll_rest *rest);

/**
 * Adds what a heating-up does where nothing gives way: rise_pa_per_k, rise_pa and kelvin_to_relief. No
 * rule looks at them, so who only wants grades does without.
 *
 * @param arena for scratch, which is given back
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_closed_system_heat(const qll_site *site, qll_arena *arena,
                                               qll_closed_system *closed);

#endif
