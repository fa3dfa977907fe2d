/* What the person with the wrench sets: which gauge reading at which flow. */
#ifndef QUELL_STATION_SETTING_H
#define QUELL_STATION_SETTING_H

#include "station/duty.h"
#include "station/station.h"

typedef struct qll_setting {
    double flow_m3s;         /* run this much through this valve alone while setting it */
    double reading_pa_gauge; /* what its outlet gauge shows then */
    double set_pa_gauge;     /* the set-point: the reading at a trickle */
    double lockup_pa_gauge;  /* most it may show at no flow, at the inlet it is set with */
} qll_setting;

/**
 * How to set branch @p branch of stage @p stage of a building with the design peak @p peak_m3s.
 *
 * The flow is twice the valve's least stable flow, so that it throttles steadily while it is being
 * set and its fall-off is still small (common practice: a valve is set with some water running, no
 * source for how much), but never more than the open valve passes, nor than the building is made to
 * draw. The reading follows from the opening law at the inlet it is set with and the drop down to the
 * set-point.
 */
qll_setting qll_setting_of(const qll_station *station, const qll_site *site, double peak_m3s,
                           size_t stage, size_t branch);

#endif
