/* The figures of an answer, worked out before anybody writes or draws: findings/findings.h says what they
 * are. */
#ifndef QUELL_ENGINE_FIND_H
#define QUELL_ENGINE_FIND_H

#include "engine/engine.h"

/** Figures of all scenarios; the array lives in @p arena. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_find_scenarios(const qll_demand *demands, size_t count,
                                           qll_arena *arena, const qll_scenario_figures **figures);

/** A station where it stands. */
typedef struct qll_standing {
    const qll_station *station;
    const qll_site *site;
    const qll_duty *duty;
} qll_standing;

/** Settings, price and tank of a station; @p units are those in which tanks are sold. QLL_OK or
 * QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_find_station(const qll_standing *at, const qll_closed_system *closed,
                                         qll_unit_system units, qll_arena *arena,
                                         qll_station_figures *figures);

/** What the person at the recommended station needs: parts, notes, tests, and how their flows are made; the other
 * figures of @p findings are there already. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_find_job(const qll_standing *at, qll_arena *arena,
                                     qll_design_findings *findings);

/** What each of @p cures buys, in an array in @p arena. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_find_cure_parts(const qll_cures *cures, const qll_yardstick *yardstick,
                                            qll_unit_system units, qll_arena *arena,
                                            const qll_cure_parts **found);

/** What each element before the station takes at @p flow_m3s; the array lives in @p arena. QLL_OK or
 * QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_find_upstream(const qll_site *site, double flow_m3s, qll_arena *arena,
                                          const double **drop_pa);

/** The ladders and the maps, as far as they are asked for. QLL_OK, QLL_STOPPED or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_find_way(qll_asked *asked, const qll_standing *at, qll_way *way);

/** The spectrum of a point whose levels are known. */
qll_spectrum qll_find_spectrum(const qll_standing *at, const qll_operating_point *point);

/** Where each valve of a station works, by its @p points at the flow classes of the duty. QLL_OK or
 * QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_find_works(const qll_standing *at, const qll_operating_point *points,
                                       qll_arena *arena, const qll_valve_work **works);

/** What is drawn of a station. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_find_curves(const qll_standing *at, qll_arena *arena,
                                        const qll_station_curves **curves);

#endif
