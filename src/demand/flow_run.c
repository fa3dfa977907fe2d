#include "demand/flow_run.h"

#include <math.h>
#include <string.h>

static const char *const words[QLL_TAP_COUNT] = {
#define QLL_TAP_WORD(name, word) [QLL_TAP_##name] = (word),
    QLL_TAP_LIST(QLL_TAP_WORD)
#undef QLL_TAP_WORD
};

/* What a scenario has of a tap, and what each gives. */
typedef struct supply_of_tap {
    size_t count;
    double flow_m3s;
} supply_of_tap;

static void count_taps(const qll_scenario *scenario, supply_of_tap *taps)
{
    for (size_t i = 0; i < scenario->load_count; i++) {
        const qll_fixture_load *load = &scenario->loads[i];
        for (size_t t = 0; t < QLL_TAP_COUNT; t++) {
            if (strcmp(load->kind->word, words[t]) == 0) {
                taps[t].count += load->count;
                taps[t].flow_m3s = qll_load_flow_m3s(load);
            }
        }
    }
}

/* Opens taps of one kind after another until nothing is left. */
static void open_taps(const supply_of_tap *taps, double left_m3s, qll_flow_run *run)
{
    for (size_t t = 0; t < QLL_TAP_COUNT && left_m3s > 0.0; t++) {
        if (taps[t].count == 0 || !(taps[t].flow_m3s > 0.0)) {
            continue;
        }
        double wanted = ceil(left_m3s / taps[t].flow_m3s - 1e-9);
        run->opened[t] = wanted < (double)taps[t].count ? (size_t)wanted : taps[t].count;
        left_m3s -= (double)run->opened[t] * taps[t].flow_m3s;
    }
    size_t opened = 0;
    for (size_t t = 0; t < QLL_TAP_COUNT; t++) {
        opened += run->opened[t];
    }
    run->is_short = left_m3s > 1e-3 * run->flow_m3s;
    run->is_for_busiest_hour = opened > QLL_TAPS_BY_HAND;
}

qll_status qll_flow_run_of(const qll_scenario *scenario, double flow_m3s, qll_arena *arena,
                           qll_flow_run *run)
{
    *run = (qll_flow_run){.flow_m3s = flow_m3s};
    qll_arena_mark before = qll_arena_now(arena);
    qll_scenario apart;
    double groups = 0.0;
    if (qll_scenario_apart(scenario, arena, &apart, &groups) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    supply_of_tap taps[QLL_TAP_COUNT] = {{0}};
    count_taps(&apart, taps);
    qll_arena_reset(arena, before);
    run->has_lavatory = taps[QLL_TAP_LAVATORY].count > 0;
    run->has_shower = taps[QLL_TAP_SHOWER].count + taps[QLL_TAP_TUB].count > 0;
    if (flow_m3s > QLL_HOSE_VALVE_M3S) {
        open_taps(taps, flow_m3s - QLL_HOSE_VALVE_M3S, run);
    }
    return QLL_OK;
}
