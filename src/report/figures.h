/* The figures of the sheets, each from a few plain arrays: whoever works the numbers out can have them
 * drawn. What is drawn from whole answers: report/figures_of.h. All figures are SI, pressures gauge. */
#ifndef QUELL_REPORT_FIGURES_H
#define QUELL_REPORT_FIGURES_H

#include "report/plot.h"
#include "wording/messages.h"

/** Where and how a figure is drawn. */
typedef struct qll_figure {
    qll_canvas *canvas;
    qll_box area;
    qll_unit_system units;
    qll_language language;
} qll_figure;

/** A pressure across a figure, labelled with its value: "never above 80 psi". */
qll_guide qll_figure_pressure_guide(const qll_figure *figure, qll_message message, double pa);

/** Shares of time and water at or below each flow; where valves work, and where their pipes are in the
 * velocity band. */
typedef struct qll_duration_figure {
    const double *flow_m3s, *time_share, *volume_share; /* rising */
    size_t count;
    double idle_share;
    bool is_metered; /* what is idle is the flow: a meter does not tell who opened what */
    double peak_m3s;
    const qll_range_drawn *bands; /* flows; named as shown */
    size_t band_count;
    const qll_strip *works; /* a row per valve */
    size_t work_count;
} qll_duration_figure;

void qll_figure_duration(const qll_figure *figure, const qll_duration_figure *shown);

/** A day: mean flow of each hour, and the flow seldom exceeded in it (NULL = not shown). */
typedef struct qll_day_figure {
    const double *mean_m3s, *seldom_more_m3s; /* [24] */
    double seldom_share; /* of each hour with no more than seldom_more_m3s: 0.99 */
    double peak_m3s;     /* not a number = not shown */
} qll_day_figure;

void qll_figure_day(const qll_figure *figure, const qll_day_figure *shown);

/** One curve of outlet pressure. */
typedef struct qll_falloff_curve {
    const char *name, *tag;             /* tag "" = none */
    const double *flow_m3s, *outlet_pa; /* gauge; not a number = does not pass it */
    size_t count;
    double lockup_pa;       /* at no flow; not a number = not shown */
    double full_travel_m3s; /* from here on wide open; not a number = not reached */
    bool is_station;        /* drawn heavy */
    bool is_between;        /* the stages: not at the outlet */
} qll_falloff_curve;

typedef struct qll_falloff_figure {
    const qll_falloff_curve *curves;
    size_t curve_count;
    const qll_guide *levels; /* pressures to be seen: set, never above, needed */
    size_t level_count;
    double peak_m3s;
} qll_falloff_figure;

void qll_figure_falloff(const qll_figure *figure, const qll_falloff_figure *shown);

/** Pressure at places one after the other, from the main to the farthest outlet. */
typedef struct qll_ladder_figure {
    const char *const *names;          /* [count] */
    const double *static_pa, *peak_pa; /* gauge; not a number = a gap */
    size_t count;
    const qll_guide *levels;
    size_t level_count;
} qll_ladder_figure;

void qll_figure_ladder(const qll_figure *figure, const qll_ladder_figure *shown);

/** How good each pair of flow and inlet pressure is, and how much of its time the building spends there. */
typedef struct qll_map_figure {
    const double *flow_edges_m3s; /* [flow_count + 1], rising, over 0 */
    const double *inlet_edges_pa; /* [inlet_count + 1], gauge, rising */
    size_t flow_count, inlet_count;
    const qll_fill *
        fills; /* [inlet * flow_count + flow]: WHITE good, STRIPED caution, CROSSED fail, LIGHT shut */
    const double *time_shares; /* same places */
    double peak_m3s;
} qll_map_figure;

void qll_figure_map(const qll_figure *figure, const qll_map_figure *shown);

/** Levels over x, of several sources. */
typedef struct qll_level_curve {
    const char *name, *tag;
    const double *x;        /* Hz, or m3/s */
    const double *level_db; /* not a number = a gap */
    size_t count;
} qll_level_curve;

/** By third-octave bands. */
void qll_figure_spectrum(const qll_figure *figure, const qll_level_curve *curves, size_t count);

/** Sound level in dB(A) against flow; @p levels are limits. */
void qll_figure_noise(const qll_figure *figure, const qll_level_curve *curves, size_t count,
                      const qll_guide *levels, size_t level_count);

/** Stations by what they cost to install and how likely they bring somebody back. */
typedef struct qll_candidate_drawn {
    const char *tag;
    double installed, callback_share;
} qll_candidate_drawn;

typedef struct qll_candidates_figure {
    const qll_candidate_drawn *candidates;
    size_t count;
    size_t recommended;   /* index; SIZE_MAX = none */
    const char *currency; /* NULL = not known */
} qll_candidates_figure;

void qll_figure_candidates(const qll_figure *figure, const qll_candidates_figure *shown);

#endif
