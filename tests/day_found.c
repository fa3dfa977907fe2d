/* What is wrong with the logs of known states, and what is found of it. */
#include "pressure_days.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

const char *const day_names[QLL_DAY_STATES] = {
    [QLL_DAY_HEALTHY] = "healthy",
    [QLL_DAY_CREEP] = "creep",
    [QLL_DAY_EXPANSION] = "expansion",
    [QLL_DAY_STRAINER] = "strainer",
    [QLL_DAY_HUNTING] = "hunting",
    [QLL_DAY_SUPPLY] = "supply",
    [QLL_DAY_AIR] = "air",
    [QLL_DAY_INLET_EFFECT] = "inlet effect",
    [QLL_DAY_LOCK_UP] = "lock-up",
    [QLL_DAY_STUCK] = "stuck gauge",
    [QLL_DAY_CLIPPED] = "clipped gauge",
    [QLL_DAY_SWAPPED] = "swapped gauges",
    [QLL_DAY_WEEKS] = "weeks",
    [QLL_DAY_DRIFT] = "drift",
    [QLL_DAY_STEP] = "step",
    [QLL_DAY_QUICK] = "10 Hz",
    [QLL_DAY_QUICK_HUNTING] = "10 Hz hunting",
    [QLL_DAY_FAST] = "250 Hz",
    [QLL_DAY_HAMMER] = "hammer",
    [QLL_DAY_FASTEST] = "1 kHz",
    [QLL_DAY_CHATTER] = "chatter",
    [QLL_DAY_MONTH] = "month",
    [QLL_DAY_CLOGGING] = "clogging",
    [QLL_DAY_HALF_SHUT] = "half shut",
};

#define QLL_BIT(word) (1U << QLL_PRESSURE_WORD_##word)

unsigned day_truth(day_state state)
{
    switch (state) {
    case QLL_DAY_CREEP: return QLL_BIT(CREEP);
    case QLL_DAY_EXPANSION: return QLL_BIT(THERMAL_EXPANSION);
    case QLL_DAY_STRAINER: return QLL_BIT(STRAINER);
    case QLL_DAY_HUNTING:
    case QLL_DAY_QUICK_HUNTING: return QLL_BIT(HUNTING);
    case QLL_DAY_SUPPLY: return QLL_BIT(SUPPLY_SWING);
    case QLL_DAY_AIR: return QLL_BIT(AIR);
    case QLL_DAY_INLET_EFFECT: return QLL_BIT(INLET_EFFECT);
    case QLL_DAY_LOCK_UP: return QLL_BIT(LOCK_UP);
    case QLL_DAY_STUCK:
    case QLL_DAY_CLIPPED:
    case QLL_DAY_SWAPPED: return QLL_BIT(LOGGER_FAULT);
    case QLL_DAY_DRIFT:
    case QLL_DAY_STEP: return QLL_BIT(SET_POINT_DRIFT);
    case QLL_DAY_HAMMER: return QLL_BIT(HAMMER);
    case QLL_DAY_CHATTER: return QLL_BIT(CHATTER);
    case QLL_DAY_CLOGGING:
    case QLL_DAY_HALF_SHUT: return QLL_BIT(FALL_OFF_DRIFT);
    case QLL_DAY_HEALTHY:
    case QLL_DAY_WEEKS:
    case QLL_DAY_QUICK:
    case QLL_DAY_FAST:
    case QLL_DAY_FASTEST:
    case QLL_DAY_MONTH:
    case QLL_DAY_STATES: break;
    }
    return 0;
}

bool day_is_right(day_state state, unsigned found)
{
    const bool grows = state == QLL_DAY_CLOGGING || state == QLL_DAY_HALF_SHUT;
    return (found & ~(grows ? QLL_BIT(STRAINER) : 0U)) == day_truth(state);
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
