/* What the person with the wrench sets: which gauge reading at which flow. docs/theory/setting.md. */
#ifndef QUELL_STATION_SETTING_H
#define QUELL_STATION_SETTING_H

#include "base/customary.h"
#include "base/units.h"
#include "station/duty.h"
#include "station/station.h"

typedef struct qll_setting {
    double flow_m3s;         /* run this much through this valve alone while setting it */
    double inlet_pa_gauge;   /* what its inlet gauge shows then, at the middle supply */
    double reading_pa_gauge; /* what its outlet gauge shows then; NaN = it cannot be set so */
    double
        correction_pa_per_10psi; /* more on the outlet gauge per 10 psi more on the inlet gauge */
    double set_pa_gauge;         /* the set-point: the reading at a trickle */
    double lockup_pa_gauge;      /* most it may show at no flow, whatever the street's pressure */
} qll_setting;

/** What a jug and a watch measure a flow to: 1/4 gpm; and from QLL_BY_METER_M3S on a meter, read over a minute: 1 gpm
 * (common practice, no source). */
#define QLL_MEASURED_M3S (0.25 * QLL_GPM_M3S)
#define QLL_BY_METER_M3S (10.0 * QLL_GPM_M3S)

/**
 * How to set branch @p branch of stage @p stage of a building with the design peak @p peak_m3s.
 *
 * The flow is one that can be made and measured: twice the valve's least stable flow, so that it
 * throttles steadily and its fall-off is still small (common practice: a valve is set with some water
 * running, no source for how much), at least 0.5 gpm, to what it can be measured to, never more than the
 * valve passes before it is wide open, nor than the design peak. It is the same whatever units the survey
 * is written in.
 *
 * The inlet is what that flow leaves of the middle supply: behind everything that lies before the
 * station, or behind the stages before, all their valves in service. The reading follows from the
 * opening law, strainer and reducers there, the set-point moved by the valve's inlet effect from the
 * inlet pressure it is stated at (the stage's set_inlet_pa_gauge). At no flow the most it may show is its set-point
 * and the rise of its seat, at the end of the street's range where that is more.
 */
qll_setting qll_setting_of(const qll_station *station, const qll_site *site, double peak_m3s,
                           size_t stage, size_t branch);

/** The most that stands behind stage @p stage at no flow where the street stands highest, every valve in order. */
double qll_stage_lockup_pa_gauge(const qll_station *station, const qll_site *site, size_t stage);

/** The most that the outlet gauge may show while it is set, gauge: the reading and a tolerance, but a line of the gauge
 * below the most at no flow, so that no reading passes the one test and fails the other. */
double qll_setting_most_pa_gauge(const qll_setting *setting, double tolerance_pa,
                                 qll_unit_system units);

#endif
