/* What is wrong with the logs of known states, and what is found of it. */
#include "pressure_days.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

const char *const day_names[DAY_STATES] = {
    [DAY_HEALTHY] = "healthy",
    [DAY_CREEP] = "creep",
    [DAY_EXPANSION] = "expansion",
    [DAY_STRAINER] = "strainer",
    [DAY_HUNTING] = "hunting",
    [DAY_SUPPLY] = "supply",
    [DAY_AIR] = "air",
    [DAY_INLET_EFFECT] = "inlet effect",
    [DAY_LOCK_UP] = "lock-up",
    [DAY_STUCK] = "stuck gauge",
    [DAY_CLIPPED] = "clipped gauge",
    [DAY_SWAPPED] = "swapped gauges",
    [DAY_WEEKS] = "weeks",
    [DAY_DRIFT] = "drift",
    [DAY_STEP] = "step",
    [DAY_QUICK] = "10 Hz",
    [DAY_QUICK_HUNTING] = "10 Hz hunting",
    [DAY_FAST] = "250 Hz",
    [DAY_HAMMER] = "hammer",
    [DAY_FASTEST] = "1 kHz",
    [DAY_CHATTER] = "chatter",
};

#define BIT(word) (1U << QLL_PRESSURE_WORD_##word)

unsigned day_truth(day_state state)
{
    switch (state) {
    case DAY_CREEP: return BIT(CREEP);
    case DAY_EXPANSION: return BIT(THERMAL_EXPANSION);
    case DAY_STRAINER: return BIT(STRAINER);
    case DAY_HUNTING:
    case DAY_QUICK_HUNTING: return BIT(HUNTING);
    case DAY_SUPPLY: return BIT(SUPPLY_SWING);
    case DAY_AIR: return BIT(AIR);
    case DAY_INLET_EFFECT: return BIT(INLET_EFFECT);
    case DAY_LOCK_UP: return BIT(LOCK_UP);
    case DAY_STUCK:
    case DAY_CLIPPED:
    case DAY_SWAPPED: return BIT(LOGGER_FAULT);
    case DAY_DRIFT:
    case DAY_STEP: return BIT(SET_POINT_DRIFT);
    case DAY_HAMMER: return BIT(HAMMER);
    case DAY_CHATTER: return BIT(CHATTER);
    case DAY_HEALTHY:
    case DAY_WEEKS:
    case DAY_QUICK:
    case DAY_FAST:
    case DAY_FASTEST:
    case DAY_STATES: break;
    }
    return 0;
}

/* The outlet of the valve as sold: with a screen that is clean and a lock-up as usual. */
static double should_be(void *context, double inlet_pa, double flow)
{
    const day_log *log = context;
    double low = 0.0;
    double high = fmin(log->set_pa, inlet_pa);
    for (int i = 0; i < 40 && flow > 0.0; i++) {
        const double p = 0.5 * (low + high);
        const double open = fmin((log->set_pa - p) / log->droop_pa, 1.0);
        const double passes = log->kvs_m3h / 3600.0 * open * sqrt(fmax(inlet_pa - p, 0.0) / 1e5);
        low = passes > flow ? p : low;
        high = passes > flow ? high : p;
    }
    return flow > 0.0 ? 0.5 * (low + high) : log->set_pa + 12e3;
}

unsigned day_found(const day_log *log, bool with_survey, qll_arena *arena,
                   qll_pressure_result *result)
{
    const qll_channel_facts facts = {.has = {true, true, true, false},
                                     .interval_ms = log->interval_ms};
    const qll_pressure_expect expect = {.context = (void *)(uintptr_t)log,
                                        .outlet_pa_gauge = with_survey ? should_be : NULL};
    qll_pressure_state *state = qll_pressure_begin(&facts, arena);
    const size_t block = 8000;
    unsigned found = 0;
    memset(result, 0, sizeof *result);
    if (state == NULL) {
        abort();
    }
    for (size_t from = 0; from < log->count; from += block) {
        const double *values[QLL_CHANNEL_COUNT] = {NULL};
        for (size_t c = 0; c <= QLL_CHANNEL_FLOW; c++) {
            values[c] = log->value[c] + from;
        }
        qll_pressure_take(state, log->at_ms + from, values,
                          log->count - from < block ? log->count - from : block);
    }
    if (!qll_pressure_judge(state, &expect, arena, result)) {
        abort();
    }
    for (size_t i = 0; i < result->finding_count; i++) {
        found |= result->findings[i].strength >= 0.5 ? 1U << result->findings[i].word : 0U;
    }
    return found;
}
