/* All findings of a log, the strongest first. */
#include "signals/pressure_judging.h"

#include <math.h>

/* A shorter log does not tell what a day brings. */
#define QLL_CYCLE_DAYS  0.25
/* The flow that a set-point is read at. */
#define QLL_TRICKLE_M3S 1e-6

const char *const qll_pressure_words[QLL_PRESSURE_WORD_COUNT] = {
#define QLL_PRESSURE_WORD_TEXT(name, word, kind) [QLL_PRESSURE_WORD_##name] = (word),
    QLL_PRESSURE_WORD_LIST(QLL_PRESSURE_WORD_TEXT)
#undef QLL_PRESSURE_WORD_TEXT
};

const char *const qll_logger_fault_words[QLL_LOGGER_FAULT_COUNT] = {
#define QLL_LOGGER_FAULT_TEXT(name, word) [QLL_LOGGER_FAULT_##name] = (word),
    QLL_LOGGER_FAULT_LIST(QLL_LOGGER_FAULT_TEXT)
#undef QLL_LOGGER_FAULT_TEXT
};

const char *const qll_unjudged_words[QLL_UNJUDGED_COUNT] = {
#define QLL_UNJUDGED_TEXT(name, word) [QLL_UNJUDGED_##name] = (word),
    QLL_UNJUDGED_LIST(QLL_UNJUDGED_TEXT)
#undef QLL_UNJUDGED_TEXT
};

/* Value below which a share of a pressure's readings lies (of the slow copy); NaN of none. */
static double class_at(const qll_pressure_state *state, qll_channel channel, double share)
{
    const double wanted = share * (double)state->class_total[channel];
    double sum = 0.0;
    for (size_t i = 0; i < QLL_CLASS_COUNT && state->class_total[channel] > 0; i++) {
        sum += (double)state->classes[channel][i];
        if (sum >= wanted && sum > 0.0) {
            return QLL_CHANNEL_LEAST_PA + ((double)i + 0.5) * QLL_CLASS_PA;
        }
    }
    return (double)NAN;
}

static void fill_features(qll_judging *j)
{
    qll_pressure_features *f = &j->result->features;
    const qll_pressure_state *s = j->state;
    const double none = (double)NAN;
    *f = (qll_pressure_features){
        .inlet_p05_pa_gauge = class_at(s, QLL_CHANNEL_INLET, 0.05),
        .inlet_median_pa_gauge = class_at(s, QLL_CHANNEL_INLET, 0.5),
        .inlet_p95_pa_gauge = class_at(s, QLL_CHANNEL_INLET, 0.95),
        .outlet_p05_pa_gauge = class_at(s, QLL_CHANNEL_OUTLET, 0.05),
        .outlet_median_pa_gauge = class_at(s, QLL_CHANNEL_OUTLET, 0.5),
        .outlet_p95_pa_gauge = class_at(s, QLL_CHANNEL_OUTLET, 0.95),
        .outlet_noise_pa = s->noise_count > 0 ? s->noise_sum / (double)s->noise_count : none,
        .outlet_step_pa = s->constancy[QLL_CHANNEL_OUTLET].step_pa > 0.0
                              ? s->constancy[QLL_CHANNEL_OUTLET].step_pa
                              : none,
        .window_count = s->window_total,
        .window_s = s->window_s,
        .run_count = s->run_total,
        .late_count = 0.0,
        .early_share = none,
        .late_share = none,
        .lock_up_pa_gauge = none,
        .set_point_pa_gauge = none,
        .inlet_effect = none,
        .should_set_pa_gauge = none,
        .should_lock_up_pa_gauge = none,
        .fall_off_slope = none,
        .fall_off_pa = none,
        .high_flow_m3s = none,
        .fall_off_moved_pa = none,
        .fall_off_span_count = 0.0,
        .cycles_per_day = none,
    };
    const double days = (double)(s->last_ms - s->first_ms) / 86400e3;
    if (s->facts.has[QLL_CHANNEL_OUTLET] && days >= QLL_CYCLE_DAYS) {
        f->cycles_per_day = s->cycles / days;
    }
    j->inlet_median_pa = f->inlet_median_pa_gauge;
    if (j->expect->outlet_pa_gauge != NULL && isfinite(j->inlet_median_pa)) {
        f->should_set_pa_gauge =
            j->expect->outlet_pa_gauge(j->expect->context, j->inlet_median_pa, QLL_TRICKLE_M3S);
        f->should_lock_up_pa_gauge =
            j->expect->outlet_pa_gauge(j->expect->context, j->inlet_median_pa, 0.0);
    }
}

static void sort(qll_pressure_finding *findings, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        const qll_pressure_finding held = findings[i];
        size_t at = i;
        for (; at > 0 && findings[at - 1].strength < held.strength; at--) {
            findings[at] = findings[at - 1];
        }
        findings[at] = held;
    }
}

/* Gauges that changed places say nothing of the station. */
static bool are_swapped(const qll_judging *j)
{
    for (size_t i = 0; i < j->count; i++) {
        if (j->findings[i].fault == QLL_LOGGER_FAULT_SWAPPED) {
            return true;
        }
    }
    return false;
}

bool qll_pressure_findings(qll_pressure_state *state, const qll_pressure_expect *expect,
                           qll_arena *arena, qll_pressure_result *result)
{
    qll_judging j = {.state = state, .expect = expect, .result = result, .arena = arena};
    j.findings = qll_arena_take(arena, QLL_FINDINGS_MOST, sizeof *j.findings);
    if (j.findings == NULL) {
        return false;
    }
    fill_features(&j);
    qll_judge_logger(&j);
    if (!are_swapped(&j)) {
        qll_judge_inlet_effect(&j);
        qll_judge_flow(&j);
        qll_judge_rest(&j);
        qll_judge_supply(&j);
        qll_judge_drift(&j);
        qll_judge_fall_off_drift(&j);
        qll_judge_motion(&j);
    }
    sort(j.findings, j.count);
    result->findings = j.findings;
    result->finding_count = j.count;
    qll_judge_unjudged(&j);
    return true;
}
