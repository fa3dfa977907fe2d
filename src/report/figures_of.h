/* Figures of whole answers: takes from what was found what report/figures.h draws. */
#ifndef QUELL_REPORT_FIGURES_OF_H
#define QUELL_REPORT_FIGURES_OF_H

#include "findings/findings.h"
#include "report/figures.h"

/** A station where it stands, and what was found of it. */
typedef struct qll_pictured {
    const qll_wording *wording; /* site and duty must be there */
    const qll_station *station;
    const qll_station_curves *curves;
} qll_pictured;

/** Flow duration of one scenario; where its valves work and lie in the velocity band, at the middle
 * supply, if @p pictured is not NULL. */
void qll_figure_duration_of(const qll_figure *figure, const qll_demand *demand,
                            const qll_pictured *pictured);

void qll_figure_day_of(const qll_figure *figure, const qll_demand *demand);

/** Outlet against flow: the station at its lowest, middle and highest supply, each valve alone, and
 * what stands between the stages. */
void qll_figure_falloff_of(const qll_figure *figure, const qll_pictured *pictured);

/** From the main over the station to the outlet with least in hand at the peak; @p ladders as of
 * qll_ladders_make(). */
void qll_figure_ladder_of(const qll_figure *figure, const qll_wording *wording,
                          const qll_ladder *ladders, size_t count);

/** One valve's map of flow and inlet pressure, and where the building spends its time. */
void qll_figure_map_of(const qll_figure *figure, const qll_map *map, double peak_m3s);

/** Sound level of the station and of each valve against flow, at the middle supply; indicative. */
void qll_figure_noise_of(const qll_figure *figure, const qll_pictured *pictured);

/** Its third octaves at a tenth, three tenths and all of the design peak; flows at which there is no level
 * are left out. */
void qll_figure_spectrum_of(const qll_figure *figure, const qll_pictured *pictured);

/** The set a design was chosen from; a candidate's tag is its place in the answer's list, from 1. */
void qll_figure_candidates_of(const qll_figure *figure, const qll_design *design,
                              const char *currency);

#endif
