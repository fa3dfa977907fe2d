/* Published capacity points of one valve as they were read. */
#ifndef QUELL_FINDINGS_CAPACITY_SHEET_H
#define QUELL_FINDINGS_CAPACITY_SHEET_H

#include "physics/valve_fit.h"

typedef struct qll_capacity_sheet {
    const qll_capacity_point *points;
    size_t count; /* one per row of the table */
    const char *id;
    double nominal_m;
    qll_acting acting;
    double kv_m3h; /* NaN if it is to be fitted */
    double set_min_pa_gauge, set_max_pa_gauge, inlet_max_pa_gauge;
} qll_capacity_sheet;

#endif
