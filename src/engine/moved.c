/* docs/theory/hangs_on.md. */
#include "engine/moved.h"

#include <math.h>

static qll_status move_street(qll_site *site, double change_pa, qll_arena *arena)
{
    qll_supply *supply = &site->supply;
    qll_point *test = qll_arena_take(arena, supply->count, sizeof *test);
    if (test == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < supply->count; i++) {
        test[i] = (qll_point){supply->test[i].x, supply->test[i].y + change_pa};
    }
    supply->test = test;
    supply->static_high_pa_gauge += change_pa;
    supply->static_low_pa_gauge += change_pa;
    return QLL_OK;
}

static qll_status move_peak(qll_moved *to, double factor, qll_arena *arena)
{
    size_t count = to->prepared.survey.scenario_count;
    qll_demand *demands = qll_arena_take(arena, count, sizeof *demands);
    if (demands == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        demands[i] = to->prepared.demands[i];
        demands[i].peak_m3s *= factor;
    }
    to->prepared.demands = demands;
    return QLL_OK;
}

static qll_status move_least_flow(qll_moved *to, double factor, qll_arena *arena)
{
    qll_valve *valves = qll_arena_take(arena, to->catalogue.count, sizeof *valves);
    if (valves == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < to->catalogue.count; i++) {
        valves[i] = to->catalogue.valves[i];
        valves[i].flow_min_m3s *= factor;
    }
    to->catalogue.valves = valves;
    return QLL_OK;
}

static qll_status apply(qll_moved *to, const qll_move *move, double value, qll_arena *arena)
{
    qll_site *site = &to->prepared.survey.site;
    switch (move->datum) {
    case QLL_DATUM_STREET: return move_street(site, value - move->now, arena);
    case QLL_DATUM_WANTED: site->set_pa_gauge = value; return QLL_OK;
    case QLL_DATUM_DEMAND: to->demand_factor = value; return QLL_OK;
    case QLL_DATUM_PEAK: return move_peak(to, value / move->now, arena);
    case QLL_DATUM_PEOPLE: site->people = (qll_people)(int)value; return QLL_OK;
    case QLL_DATUM_VISIT: to->costs.visit = value; return QLL_OK;
    case QLL_DATUM_LEAST_FLOW: return move_least_flow(to, value, arena);
    case QLL_DATUM_COUNT: break;
    }
    return QLL_OK;
}

qll_status qll_moved_make(const qll_asked *asked, const qll_designed *designed,
                          const qll_catalogue *catalogue, const qll_move *move, double value,
                          qll_moved *to)
{
    *to = (qll_moved){.asked = *asked,
                      .prepared = designed->prepared,
                      .catalogue = *catalogue,
                      .demand_factor = 1.0};
    to->asked.assumed = (qll_assumed){.arena = asked->arena};
    qll_survey *survey = &to->prepared.survey;
    to->costs = *survey->site.costs;
    survey->site.costs = &to->costs;
    if (survey->service_size == NULL && survey->station_size == NULL) {
        survey->site.pipe_limit_m = NAN; /* it comes from the peak */
    }
    if (apply(to, move, value, asked->arena) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_prepare_header(&to->asked, &to->prepared);
    return qll_prepare_duty(&to->asked, &to->prepared, &to->duty);
}
