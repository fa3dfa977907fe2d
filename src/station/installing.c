/* docs/theory/parts.md. */
#include "station/installing.h"

#include "base/customary.h"
#include "station/setting.h"

#include <math.h>

const char *const qll_install_words[QLL_INSTALL_COUNT] = {
#define QLL_INSTALL_WORD(name, word) [QLL_INSTALL_##name] = (word),
    QLL_INSTALL_LIST(QLL_INSTALL_WORD)
#undef QLL_INSTALL_WORD
};

/* Straight pipe in sizes of the valve, and room over caps and under strainers: a foot up to 2 in, two above (all
 * common practice, no source). */
#define QLL_STRAIGHT_BEFORE 5.0
#define QLL_STRAIGHT_BEHIND 10.0
#define QLL_SMALL_VALVE_M   0.052
#define QLL_SPACE_M         0.3
#define QLL_SPACE_LARGE_M   0.6

/* Cold water below this comes from ground where winters freeze (our assumption). */
#define QLL_FROST_DEGC 15.0

/* A relief valve opens so far above what stands behind the station at no flow (from memory, as in closed.c), at a
 * round figure. Faucets are rated for 125 psi (ASME A112.18.1; 10 bar by EN 200), both from memory: the lower of the two,
 * whatever units the sheets are in. */
#define QLL_RELIEF_ABOVE_PA (25.0 * QLL_PSI_PA)
#define QLL_RATED_PA        (125.0 * QLL_PSI_PA)
#define QLL_RELIEF_US_PA    (5.0 * QLL_PSI_PA)
#define QLL_RELIEF_SI_PA    (0.5 * QLL_BAR_PA)
#define QLL_ROUNDING        1e-9

/* What one valve that is stuck open puts on the building: before the last stage stands what the one before it holds, and if
 * that one is stuck, the last still regulates. */
static double stuck_open_pa_gauge(const qll_station *station, const qll_site *site)
{
    const double still_pa_gauge = qll_site_still_pa_gauge(site);
    return station->stage_count < 2
               ? still_pa_gauge
               : fmin(still_pa_gauge,
                      qll_stage_lockup_pa_gauge(station, site, station->stage_count - 2));
}

static double relief_pa_gauge(const qll_installing *installing, double lockup_pa_gauge,
                              qll_unit_system units)
{
    double rated_pa_gauge = installing->rated_pa_gauge;
    if (!(installing->highest_pa_gauge > rated_pa_gauge * (1.0 + QLL_ROUNDING))) {
        return NAN;
    }
    double step_pa = units == QLL_UNITS_SI ? QLL_RELIEF_SI_PA : QLL_RELIEF_US_PA;
    double steps = ceil((lockup_pa_gauge + QLL_RELIEF_ABOVE_PA) / step_pa - QLL_ROUNDING);
    return fmin(step_pa * steps, rated_pa_gauge);
}

/* What decides on the notes about a station's shape. */
typedef struct station_shape {
    double largest_m;
    bool has_direct, has_pilot;
    bool has_single; /* a stage of one valve */
} station_shape;

static station_shape shape_of(const qll_station *station)
{
    station_shape shape = {0};
    for (size_t s = 0; s < station->stage_count; s++) {
        const qll_stage *stage = &station->stages[s];
        shape.has_single = shape.has_single || stage->branch_count == 1;
        for (size_t b = 0; b < stage->branch_count; b++) {
            const qll_valve *valve = stage->branches[b].valve;
            bool is_pilot = valve->acting == QLL_ACTING_PILOT;
            shape.largest_m = fmax(shape.largest_m, valve->nominal_m);
            shape.has_pilot = shape.has_pilot || is_pilot;
            shape.has_direct = shape.has_direct || !is_pilot;
        }
    }
    return shape;
}

qll_installing qll_installing_of(const qll_station *station, const qll_site *site,
                                 const qll_assessment *assessment, qll_occupied occupied,
                                 qll_unit_system units)
{
    const station_shape shape = shape_of(station);
    qll_installing made = {
        .applies =
            {
                [QLL_INSTALL_FLUSH] = true,
                [QLL_INSTALL_POSITION] = shape.has_direct,
                [QLL_INSTALL_POSITION_PILOT] = shape.has_pilot,
                [QLL_INSTALL_SPACE] = true,
                [QLL_INSTALL_STRAIGHT] = true,
                [QLL_INSTALL_STAGES] = station->stage_count > 1,
                [QLL_INSTALL_DRAIN] = true,
                [QLL_INSTALL_ACCESS] = true,
                [QLL_INSTALL_FROST] = site->water.temperature_degc <= QLL_FROST_DEGC,
                [QLL_INSTALL_SPARE] = occupied.is_never_without && shape.has_single,
                [QLL_INSTALL_BRANCHES] = occupied.is_never_without && !shape.has_single,
                [QLL_INSTALL_GROWTH] = occupied.may_grow,
            },
        .space_m = shape.largest_m > QLL_SMALL_VALVE_M ? QLL_SPACE_LARGE_M : QLL_SPACE_M,
        .before_m = QLL_STRAIGHT_BEFORE * shape.largest_m,
        .behind_m = QLL_STRAIGHT_BEHIND * shape.largest_m,
        .highest_pa_gauge = stuck_open_pa_gauge(station, site),
        .rated_pa_gauge = QLL_RATED_PA,
    };
    made.relief_pa_gauge = relief_pa_gauge(&made, assessment->lockup_pa_gauge, units);
    made.applies[QLL_INSTALL_RELIEF] = isfinite(made.relief_pa_gauge);
    return made;
}
