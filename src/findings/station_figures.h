/* What is worked out of one station for the person who buys it and sets it. */
#ifndef QUELL_FINDINGS_STATION_FIGURES_H
#define QUELL_FINDINGS_STATION_FIGURES_H

#include "station/setting.h"

typedef struct qll_station_figures {
    const qll_setting *const *settings; /* [stage][branch] how each valve is set */
    double list_price;                  /* of its valves; NaN where one is not known */
    double
        tank_sold_m3; /* least size sold that does for its closed system; NaN = none, no heater */
    double
        tank_part_m3; /* of the tank among its parts: as sold, else as needed; NaN = no such part */
    double
        relief_least_pa_gauge; /* the relief valve of the heater: set no lower; NaN without one */
    double relief_clear_pa_gauge; /* and from here on it keeps shut beyond doubt */
} qll_station_figures;

#endif
