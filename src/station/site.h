/* What is there besides the station: water, supply, what lies before and behind it, the limits. */
#ifndef QUELL_STATION_SITE_H
#define QUELL_STATION_SITE_H

#include "physics/fitting.h"
#include "physics/pipe.h"
#include "physics/supply.h"
#include "station/costs.h"

/** Where people are, as seen from the station: what they hear of it. */
typedef enum qll_people {
    QLL_PEOPLE_SAME_ROOM,
    QLL_PEOPLE_NEXT_ROOM,
    QLL_PEOPLE_PLANT_ROOM,
    QLL_PEOPLE_COUNT
} qll_people;

extern const char *const qll_people_words[QLL_PEOPLE_COUNT]; /* "same room", ... */

typedef enum qll_element_kind {
    QLL_ELEMENT_PIPE,
    QLL_ELEMENT_METER,
    QLL_ELEMENT_BACKFLOW,
    QLL_ELEMENT_STRAINER,
    QLL_ELEMENT_LOSS, /* any other device */
} qll_element_kind;

/** One thing in the way of the water before the station. A loss of its own goes before what its kind
 * would lose. */
typedef struct qll_element {
    qll_element_kind kind;
    qll_pipe_run pipe;
    const qll_pipe_size *size; /* of the pipe; NULL = its wall and material are not known */
    const qll_meter *meter;
    qll_backflow backflow;
    qll_screen screen;
    double bore_m;  /* of the strainer */
    double blocked; /* share of the strainer */
    qll_curve loss; /* its own, Pa over m3/s; no points = that of its kind */
} qll_element;

/** A pipe on the way to an outlet and what it carries when the whole station runs at its peak. */
typedef struct qll_path_run {
    qll_pipe_run pipe;
    const qll_pipe_size *size; /* NULL = wall and material are not known */
    double carries_m3s;        /* NaN = the whole station flow */
} qll_path_run;

typedef struct qll_outlet {
    const char *name;
    double elevation_m; /* above the station's outlet */
    double needs_pa_gauge;
    const qll_path_run *path;
    size_t path_count;
} qll_outlet;

/** The water heater behind the station, and what takes up the growth of its water. */
typedef struct qll_heater {
    double volume_m3; /* not above 0 or NaN: there is none */
    double cold_degc, hot_degc;
    double relief_pa_gauge;
} qll_heater;

typedef struct qll_expansion_tank {
    double volume_m3;          /* not above 0 or NaN: there is none */
    double precharge_pa_gauge; /* NaN = the outlet at no flow and the middle supply */
} qll_expansion_tank;

typedef struct qll_limits {
    double velocity_low_m_s, velocity_high_m_s; /* the band, 3 to 6 ft/s (common practice) */
    double velocity_max_m_s;                    /* never above, 8 ft/s cold (UPC 610.12) */
    double ratio_preferred, ratio_max;          /* gauge, 2 and 3 (common practice) */
    double falloff_share; /* permitted at the peak, of the set pressure; NaN = not given */
} qll_limits;

typedef struct qll_site {
    const char *name;
    qll_water water;
    double barometric_pa;
    qll_supply supply;
    const qll_element *upstream;
    size_t upstream_count;
    const qll_pipe_size *const *station_sizes; /* sizes of the station pipe's family, rising */
    size_t station_size_count;
    const qll_pipe_size *header; /* the pipe the valves are connected to; NULL = their own size */
    double service_m;            /* nominal of the last pipe before the station; NaN = not known */
    double pipe_limit_m;         /* nominal that no valve may exceed; NaN = not known */
    bool has_static_high;        /* the survey itself says how high the supply stands */
    bool station_always;         /* a station is wanted even where no valve is needed */
    qll_people people;
    const qll_costs *costs;     /* in the catalogue's money; NULL = not needed */
    double set_pa_gauge;        /* wanted at the station's outlet */
    double static_max_pa_gauge; /* never above, at the lowest outlet */
    const qll_outlet *outlets;
    size_t outlet_count;
    qll_heater heater;
    qll_expansion_tank tank;
    qll_limits limits;
} qll_site;

/**
 * The station size that the trade holds for the same as @p nominal_m, else the nearest by ratio;
 * NULL without sizes.
 */
const qll_pipe_size *qll_site_size(const qll_site *site, double nominal_m);

/**
 * The pipe a station is built into: the service's size (@p service_m) where that is known, else
 * (NaN) the smallest station size in which @p peak_m3s is no faster than the velocity band.
 */
const qll_pipe_size *qll_site_header(const qll_site *site, double service_m, double peak_m3s);

/** The smallest station size in which @p flow_m3s is no faster than @p velocity_m_s, or NULL. */
const qll_pipe_size *qll_site_smallest_size(const qll_site *site, double flow_m3s,
                                            double velocity_m_s);

/** Nominal size of the meter before the station, the last of several; NaN = none, or not known. */
double qll_site_meter_nominal_m(const qll_site *site);

/** Loss of one thing before the station at @p flow_m3s, Pa, a pipe's rise included. */
double qll_element_drop_pa(const qll_element *element, double flow_m3s, const qll_water *water);

/** What a pipe to an outlet carries when the station gives @p flow_m3s: never more than that. */
double qll_path_carries_m3s(const qll_path_run *run, double flow_m3s);

/** Loss of everything before the station at @p flow_m3s, Pa, its rise included. */
double qll_site_upstream_drop_pa(const qll_site *site, double flow_m3s);

/** What the supply puts before the station at most: at no flow and its highest. */
double qll_site_still_pa_gauge(const qll_site *site);

/** Absolute pressure at the station's inlet when the main's static stands at @p static_pa_gauge. */
double qll_site_inlet_pa(const qll_site *site, double static_pa_gauge, double flow_m3s);

/** Pressure of a column of the site's water, Pa, negative for a negative height. */
double qll_site_column_pa(const qll_site *site, double height_m);

/** The lowest outlet named; outlet_count if none is. */
size_t qll_site_lowest_outlet(const qll_site *site);

/** What the lowest outlet sees more than the station's outlet at no flow, as a column of water, Pa:
 * negative if all that are named lie above the station, 0 if none is named. */
double qll_site_lowest_column_pa(const qll_site *site);

/** Of a direct-acting valve at the peak, where nothing else is said (our assumption, see below): 20 psi. */
#define QLL_FALLOFF_USUAL_PA (20.0 * 6894.757293168361)

/** Fall-off that is permitted at the peak, Pa: by the limits, else the usual one and at most 0.4 of the wanted
 * pressure: direct-acting valves are rated at 10 to 15 psi (common practice, no source), and nobody puts in another valve
 * for some psi more at the one hour of the design peak (our assumption). */
double qll_site_falloff_pa(const qll_site *site);

/** Gauge pressure the station's outlet must have at @p flow_m3s: what the outlets want, or where none is
 * named the wanted pressure less the permitted fall-off. */
double qll_site_need_pa_gauge(const qll_site *site, double flow_m3s);

/** Outlet (absolute) below which a station is not fit: one need, gauge, or what the street gives at
 * @p inlet_pa less 5 psi. docs/theory/recommendation.md, 1. */
double qll_site_hard_pa(const qll_site *site, double need_pa_gauge, double inlet_pa);

/** The most that water may run in a pipe of the site: 8 ft/s in cold copper, less in hot; @p size NULL =
 * what the limits say. */
double qll_site_pipe_most_m_s(const qll_site *site, const qll_pipe_size *size);

/** True if @p velocity_m_s is above @p most_m_s, the last bits aside. */
static inline bool qll_is_above_m_s(double velocity_m_s, double most_m_s)
{
    return velocity_m_s > most_m_s * (1.0 + 1e-9);
}

/** Gauge pressure the station's outlet must have for @p outlet when the station carries
 * @p flow_m3s: needs + rise + loss of its path. The rise is that of the outlet's elevation; that of
 * the path's own pipes is not added again. */
double qll_outlet_wants_pa_gauge(const qll_site *site, const qll_outlet *outlet, double flow_m3s);

#endif
