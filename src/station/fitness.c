#include "station/fitness.h"

#include "base/customary.h"

#include <math.h>
#include <string.h>

const char *const qll_practice_words[QLL_PRACTICE_COUNT] = {
#define QLL_PRACTICE_WORD(name, word) word,
    QLL_PRACTICE_LIST(QLL_PRACTICE_WORD)
#undef QLL_PRACTICE_WORD
};

/* Keeps the worst of a rule. */
static void put(qll_fitness *fitness, qll_practice rule, double breach, double value, double limit)
{
    bool is_first = isnan(fitness->value[rule]);
    if (!(breach > QLL_PRACTICE_SLACK)) {
        breach = isnan(breach) ? 1.0 : 0.0;
    }
    if (is_first || breach > fitness->breach[rule]) {
        fitness->breach[rule] = breach;
        fitness->value[rule] = value;
        fitness->limit[rule] = limit;
    }
}

static void put_pressure(qll_fitness *fitness, qll_practice rule, double short_pa, double value,
                         double limit)
{
    put(fitness, rule, qll_breaks_pa(short_pa) ? short_pa / QLL_BREACH_PA : 0.0, value, limit);
}

static qll_fitness nothing_seen(void)
{
    qll_fitness fitness = {.is_fit = true};
    for (size_t i = 0; i < QLL_PRACTICE_COUNT; i++) {
        fitness.value[i] = NAN;
        fitness.limit[i] = NAN;
    }
    return fitness;
}

void qll_fitness_of_valve(const qll_site *site, const qll_valve *valve, qll_fitness *fitness)
{
    /* A trade size is no more than another if the standards call them the same. */
    const double same_size = 1.05;
    *fitness = nothing_seen();
    double over_degc = site->water.temperature_degc - valve->temperature_max_degc;
    put(fitness, QLL_PRACTICE_RATING, over_degc / 10.0, site->water.temperature_degc,
        valve->temperature_max_degc);
    if (isfinite(site->pipe_limit_m)) {
        double over = valve->nominal_m / (same_size * site->pipe_limit_m);
        put(fitness, QLL_PRACTICE_SIZE, over - 1.0, valve->nominal_m, site->pipe_limit_m);
    }
    double service_m = isfinite(site->service_m) ? site->service_m : site->pipe_limit_m;
    if (valve->acting == QLL_ACTING_PILOT && service_m < QLL_PILOT_LEAST_M) {
        put(fitness, QLL_PRACTICE_PILOT, 1.0, service_m, QLL_PILOT_LEAST_M);
    }
}

double qll_breach_of_range(const qll_valve *valve, double set_pa_gauge)
{
    double below = valve->set_min_pa_gauge - set_pa_gauge;
    double above = set_pa_gauge - valve->set_max_pa_gauge;
    return fmax(fmax(below, above), 0.0) / QLL_BREACH_PA;
}

/* How much too near or too far a neighbour stands below @p before. */
static double handover_breach(const qll_stage *stage, size_t before, size_t after,
                              double inlet_pa_gauge)
{
    /* Set-points are whole psi below one another; the last bit must not decide. */
    const double slack_pa = 1e-6 * QLL_PSI_PA;
    const qll_branch *first = &stage->branches[before];
    double gap_pa = qll_stage_set_pa_gauge(stage, before, inlet_pa_gauge)
                    - qll_stage_set_pa_gauge(stage, after, inlet_pa_gauge);
    double least_pa = qll_valve_hysteresis_pa(first->valve)
                      + qll_valve_hysteresis_pa(stage->branches[after].valve);
    double most_pa = QLL_HANDOVER_TRAVEL * first->law->full_falloff_pa;
    double off_pa = fmax(least_pa - gap_pa, gap_pa - most_pa);
    return off_pa > slack_pa ? off_pa / QLL_BREACH_PA : 0.0;
}

/* Neighbours by set-point as set, higher first; a search sets them in this order already. */
static double worst_handover(const qll_stage *stage, double inlet_pa_gauge)
{
    double worst = 0.0;
    for (size_t i = 0; i < stage->branch_count; i++) {
        size_t below = SIZE_MAX;
        for (size_t j = 0; j < stage->branch_count; j++) {
            double set_pa = stage->branches[j].set_pa_gauge;
            bool is_below = set_pa < stage->branches[i].set_pa_gauge
                            || (set_pa == stage->branches[i].set_pa_gauge && j > i);
            if (is_below && (below == SIZE_MAX || set_pa > stage->branches[below].set_pa_gauge)) {
                below = j;
            }
        }
        if (below != SIZE_MAX) {
            worst = fmax(worst, handover_breach(stage, i, below, inlet_pa_gauge));
        }
    }
    return worst;
}

double qll_breach_of_handover(const qll_stage *stage, double low_pa_gauge, double high_pa_gauge)
{
    return fmax(worst_handover(stage, low_pa_gauge), worst_handover(stage, high_pa_gauge));
}

double qll_practice_ratio(double inlet_pa_gauge, double held_pa_gauge)
{
    /* Next to no pressure counts as 1 kPa, so that the ratio stays a number that breaks the rule. */
    return fmax(qll_gauge_ratio(inlet_pa_gauge, fmax(held_pa_gauge, 1000.0), 0.0), 1.0);
}

bool qll_keeps_ratio(const qll_site *site, double inlet_pa_gauge, double held_pa_gauge)
{
    double ratio = qll_practice_ratio(inlet_pa_gauge, held_pa_gauge);
    return ratio / site->limits.ratio_max - 1.0 <= QLL_PRACTICE_SLACK;
}

double qll_held_pa_gauge(const qll_site *site, const qll_station *station, size_t stage)
{
    if (stage + 1 == station->stage_count) {
        return site->set_pa_gauge;
    }
    return qll_stage_highest_set_pa_gauge(&station->stages[stage]);
}

static void see_valve(const qll_site *site, const qll_branch *branch, double inlet_pa_gauge,
                      qll_fitness *fitness)
{
    const qll_valve *valve = branch->valve;
    qll_fitness own;
    qll_fitness_of_valve(site, valve, &own);
    for (size_t r = 0; r < QLL_PRACTICE_COUNT; r++) {
        if (own.breach[r] > 0.0 || !isnan(own.value[r])) {
            put(fitness, (qll_practice)r, own.breach[r], own.value[r], own.limit[r]);
        }
    }
    double set_pa_gauge = branch->set_pa_gauge;
    double range = qll_breach_of_range(valve, set_pa_gauge);
    put(fitness, QLL_PRACTICE_RATING, range, set_pa_gauge,
        set_pa_gauge < valve->set_min_pa_gauge ? valve->set_min_pa_gauge : valve->set_max_pa_gauge);
    put(fitness, QLL_PRACTICE_RATING, inlet_pa_gauge / valve->inlet_max_pa_gauge - 1.0,
        inlet_pa_gauge, valve->inlet_max_pa_gauge);
}

static void see_valves(const qll_station *station, const qll_yardstick *yardstick,
                       const double *rest_inlet_pa, qll_fitness *fitness)
{
    const qll_site *site = yardstick->site;
    for (size_t k = 0; k < station->stage_count; k++) {
        const qll_stage *stage = &station->stages[k];
        double inlet_pa_gauge = rest_inlet_pa[k] - site->barometric_pa;
        double before_pa_gauge = k == 0 ? inlet_pa_gauge : qll_held_pa_gauge(site, station, k - 1);
        double ratio = qll_practice_ratio(before_pa_gauge, qll_held_pa_gauge(site, station, k));
        put(fitness, QLL_PRACTICE_RATIO, ratio / site->limits.ratio_max - 1.0, ratio,
            site->limits.ratio_max);
        double low_pa_gauge, high_pa_gauge;
        qll_stage_inlets(yardstick, station, k, &low_pa_gauge, &high_pa_gauge);
        if (stage->branch_count > 1) {
            put(fitness, QLL_PRACTICE_HANDOVER,
                qll_breach_of_handover(stage, low_pa_gauge, high_pa_gauge), NAN, NAN);
        }
        for (size_t j = 0; j < stage->branch_count; j++) {
            see_valve(site, &stage->branches[j], inlet_pa_gauge, fitness);
        }
    }
}

/* At a design peak: what flows through each valve's own size, and at the middle supply how the
 * set-points of a stage stand over those of the next. */
static void see_peak(const qll_station *station, const qll_yardstick *yardstick,
                     const qll_operating_point *point, bool is_middle, qll_fitness *fitness)
{
    for (size_t k = 0; k < station->stage_count; k++) {
        const qll_stage *stage = &station->stages[k];
        const double next_pa_gauge = k + 1 < station->stage_count
                                         ? qll_stage_highest_set_pa_gauge(&station->stages[k + 1])
                                         : -(double)INFINITY;
        double outlet_pa_gauge = point->stage_outlet_pa[k] - yardstick->site->barometric_pa;
        for (size_t j = 0; j < stage->branch_count; j++) {
            const qll_branch *branch = &stage->branches[j];
            if (!isnan(outlet_pa_gauge)) {
                double speed_m_s = point->branches[k][j].velocity_m_s;
                put(fitness, QLL_PRACTICE_SPEED, speed_m_s / QLL_SPEED_MOST_M_S - 1.0, speed_m_s,
                    QLL_SPEED_MOST_M_S);
            }
            if (is_middle && k + 1 < station->stage_count) {
                double held_pa = fmin(branch->set_pa_gauge, outlet_pa_gauge)
                                 - qll_valve_hysteresis_pa(branch->valve);
                double least_pa = next_pa_gauge + QLL_CLEAR_PA;
                double short_pa = isnan(outlet_pa_gauge) ? (double)NAN : least_pa - held_pa;
                put_pressure(fitness, QLL_PRACTICE_ORDER, short_pa, held_pa, least_pa);
            }
        }
    }
}

static void see_outlet(const qll_yardstick *yardstick, size_t scenario,
                       const qll_operating_point *point, qll_fitness *fitness)
{
    const double barometric_pa = yardstick->site->barometric_pa;
    double hard_pa = yardstick->peak_hard_pa[scenario];
    double short_pa = point->passes ? hard_pa - point->outlet_pa : hard_pa;
    put_pressure(fitness, QLL_PRACTICE_DELIVERY, short_pa,
                 (point->passes ? point->outlet_pa : barometric_pa) - barometric_pa,
                 hard_pa - barometric_pa);
}

static void see_peaks(const qll_operator *made, const qll_station *station,
                      const qll_yardstick *yardstick, qll_operating_point *points,
                      qll_fitness *fitness)
{
    for (size_t c = 0; c < yardstick->duty->scenario_count; c++) {
        for (size_t s = 0; s < QLL_SUPPLY_LEVELS; s++) {
            double inlet_pa = yardstick->peak_inlet_pa[c * QLL_SUPPLY_LEVELS + s];
            double flow_m3s = yardstick->peak_m3s[c];
            qll_operate(made, &inlet_pa, &flow_m3s, 1, points);
            see_peak(station, yardstick, points, s == QLL_SUPPLY_LEVELS / 2, fitness);
            if (s == 0) {
                see_outlet(yardstick, c, points, fitness);
            }
        }
    }
}

qll_status qll_station_fitness(const qll_station *station, const qll_yardstick *yardstick,
                               qll_arena *arena, qll_fitness *fitness)
{
    qll_arena_mark mark = qll_arena_now(arena);
    qll_operator *made = NULL;
    qll_operating_point *points = NULL;
    if (qll_operator_make(station, yardstick->site, arena, &made) != QLL_OK
        || qll_points_make(station, 1, arena, &points) != QLL_OK) {
        qll_arena_reset(arena, mark);
        return QLL_NO_MEMORY;
    }
    *fitness = nothing_seen();
    double still_pa = yardstick->duty->inlet_static_pa[yardstick->duty->supply_count - 1];
    double no_flow = 0.0;
    qll_operate(made, &still_pa, &no_flow, 1, points);
    see_valves(station, yardstick, points->stage_inlet_pa, fitness);
    double over_pa = points->outlet_pa - yardstick->rest_most_pa;
    put_pressure(fitness, QLL_PRACTICE_STATIC, over_pa,
                 points->outlet_pa - yardstick->site->barometric_pa,
                 yardstick->rest_most_pa - yardstick->site->barometric_pa);
    see_peaks(made, station, yardstick, points, fitness);
    for (size_t r = 0; r < QLL_PRACTICE_COUNT; r++) {
        fitness->total += fitness->breach[r];
    }
    fitness->is_fit = !(fitness->total > 0.0);
    qll_arena_reset(arena, mark);
    return QLL_OK;
}
