/* Faults of the logger itself, and what a log cannot show. */
#include "signals/pressure_judging.h"

#include <math.h>

#define QLL_STUCK_PAIRS   30
#define QLL_STUCK_EQUAL   0.5 /* elsewhere: a gauge of coarse steps stands still anyway */
#define QLL_CLIPPED_ROWS  20
#define QLL_CLIPPED_TIMES 5.0
#define QLL_CLIPPED_PA    4000.0
#define QLL_SWAPPED_SHARE 0.9
#define QLL_HUM_S         5.0
#define QLL_STEP_MOST_PA  3000.0
#define QLL_REST_LEAST_S  660.0
#define QLL_NIGHTS_LEAST  14.0
#define QLL_RUNS_LEAST    10.0

static void add(qll_judging *j, qll_logger_fault fault, qll_channel channel, double strength,
                double value, int64_t from_ms, int64_t to_ms)
{
    qll_pressure_finding *found =
        qll_finding_add(j, QLL_PRESSURE_WORD_LOGGER_FAULT, strength, value, from_ms, to_ms);
    if (found != NULL) {
        found->fault = fault;
        found->channel = channel;
        found->share = value;
        found->stretch = &j->result->overview;
    }
}

static void judge_stuck(qll_judging *j, qll_channel channel)
{
    const qll_constancy *of = &j->state->constancy[channel];
    const double total_ms = (double)(j->state->last_ms - j->state->first_ms);
    const double others = (double)(of->pairs - of->longest_pairs);
    const double equal = (double)(of->equal - of->longest_pairs);
    if (of->longest_ms < QLL_STUCK_MS || of->longest_pairs < QLL_STUCK_PAIRS
        || equal > QLL_STUCK_EQUAL * others) {
        return;
    }
    const double share = (double)of->longest_ms / total_ms;
    add(j, QLL_LOGGER_FAULT_STUCK, channel, fmin(0.5 + share, 1.0), share, of->longest_start_ms,
        of->longest_start_ms + of->longest_ms);
}

/* Readings of the slow copy within 4 kPa of one end of the range, without the class that holds it. */
static double beside_end(const qll_pressure_state *s, qll_channel channel, double end_pa,
                         bool is_top)
{
    const long long classes = (long long)(QLL_CLIPPED_PA / QLL_CLASS_PA);
    const long long at = (long long)((end_pa - QLL_CHANNEL_LEAST_PA) / QLL_CLASS_PA);
    double sum = 0.0;
    for (long long k = 1; k <= classes; k++) {
        const long long class = is_top ? at - k : at + k;
        sum += class >= 0 && class < (long long)QLL_CLASS_COUNT ? (double)s->classes[channel][class]
                                                                : 0.0;
    }
    return sum;
}

static void judge_clipped(qll_judging *j, qll_channel channel)
{
    const qll_pressure_state *s = j->state;
    const qll_constancy *of = &s->constancy[channel];
    const double rows_per_value = (double)of->pairs / fmax((double)s->class_total[channel], 1.0);
    for (int top = 0; top < 2 && of->most > of->least; top++) {
        const double count = (double)(top == 1 ? of->at_most : of->at_least);
        /* A gauge of coarse steps stands still anyway. */
        if ((double)of->equal - count > QLL_STUCK_EQUAL * ((double)of->pairs - count)) {
            continue;
        }
        const double end_pa = top == 1 ? of->most : of->least;
        /* Readings of one step of the gauge, beside it. */
        const double beside = rows_per_value * beside_end(s, channel, end_pa, top == 1)
                              * fmin(of->step_pa / QLL_CLIPPED_PA, 1.0);
        if (count >= QLL_CLIPPED_ROWS && count >= QLL_CLIPPED_TIMES * beside) {
            const double share = count / (double)of->pairs;
            add(j, QLL_LOGGER_FAULT_CLIPPED, channel, fmax(0.5, qll_grade(share, 0.0, 1e-3, 2e-2)),
                share, s->first_ms, s->last_ms);
        }
    }
}

static void judge_rows(qll_judging *j)
{
    const qll_flow_log_result *log = &j->result->log;
    const qll_pressure_state *s = j->state;
    const double rows = fmax((double)log->row_count, 1.0);
    static const qll_log_mend_kind values[] = {QLL_LOG_MEND_SENTINEL, QLL_LOG_MEND_UNREADABLE,
                                               QLL_LOG_MEND_ABSURD,   QLL_LOG_MEND_IMPOSSIBLE,
                                               QLL_LOG_MEND_EMPTY,    QLL_LOG_MEND_POOR_SIGNAL};
    static const qll_log_mend_kind times[] = {QLL_LOG_MEND_OUT_OF_ORDER, QLL_LOG_MEND_LATE,
                                              QLL_LOG_MEND_CONFLICT, QLL_LOG_MEND_STAMP};
    double bad = 0.0;
    double moved = 0.0;
    for (size_t i = 0; i < sizeof values / sizeof *values; i++) {
        bad += (double)log->mends[values[i]].count;
    }
    for (size_t i = 0; i < sizeof times / sizeof *times; i++) {
        moved += (double)log->mends[times[i]].count;
    }
    const double length_s = (double)(s->last_ms - s->first_ms) / 1000.0;
    const double gap_share = length_s > 0.0 ? s->gap_s / length_s : 0.0;
    add(j, QLL_LOGGER_FAULT_VALUES, QLL_CHANNEL_COUNT, qll_grade(bad / rows, 2e-3, 0.02, 0.1),
        bad / rows, s->first_ms, s->last_ms);
    add(j, QLL_LOGGER_FAULT_CLOCK, QLL_CHANNEL_COUNT, qll_grade(moved / rows, 1e-4, 2e-3, 0.02),
        moved / rows, s->first_ms, s->last_ms);
    add(j, QLL_LOGGER_FAULT_GAPS, QLL_CHANNEL_COUNT, qll_grade(gap_share, 0.02, 0.1, 0.3),
        gap_share, s->first_ms, s->last_ms);
}

void qll_judge_logger(qll_judging *j)
{
    qll_pressure_state *s = j->state;
    for (size_t p = 0; p < 2; p++) {
        if (s->facts.has[p]) {
            judge_stuck(j, (qll_channel)p);
            judge_clipped(j, (qll_channel)p);
        }
    }
    judge_rows(j);
    if (s->both_s > 0.0 && s->swapped_s > QLL_SWAPPED_SHARE * s->both_s) {
        add(j, QLL_LOGGER_FAULT_SWAPPED, QLL_CHANNEL_COUNT, 1.0, s->swapped_s / s->both_s,
            s->first_ms, s->last_ms);
    }
    const double hours = fmax((double)(s->last_ms - s->first_ms) / 3600e3, 1.0 / 60.0);
    if (s->fast.glitch_count >= 3) {
        add(j, QLL_LOGGER_FAULT_GLITCHES, QLL_CHANNEL_OUTLET,
            qll_grade((double)s->fast.glitch_count / hours, 0.3, 3.0, 30.0),
            (double)s->fast.glitch_count, s->first_ms, s->last_ms);
    }
    if (s->fast.hum_rest_s >= QLL_HUM_S) {
        add(j, QLL_LOGGER_FAULT_HUM, QLL_CHANNEL_OUTLET,
            qll_grade(s->fast.hum_rest_s, 1.0, QLL_HUM_S, 60.0), s->fast.hum_rest_s, s->first_ms,
            s->last_ms);
    }
}

/* ---- what is not judged ---- */

/* What a word needs: channels, an interval at most; how much of it the log must hold is looked at apart. */
typedef struct need {
    bool channel[QLL_CHANNEL_COUNT];
    int64_t interval_ms;
    double rate_hz; /* that would do */
} need;

static const need needs[QLL_PRESSURE_WORD_COUNT] = {
    [QLL_PRESSURE_WORD_CREEP] = {{false, true}, 60000, 1.0 / 60.0},
    [QLL_PRESSURE_WORD_THERMAL_EXPANSION] = {{false, true}, 60000, 1.0 / 60.0},
    [QLL_PRESSURE_WORD_LOCK_UP] = {{false, true, true}, 10000, 0.1},
    [QLL_PRESSURE_WORD_FALL_OFF] = {{false, true, true}, 10000, 0.1},
    [QLL_PRESSURE_WORD_FALL_OFF_DRIFT] = {{false, true, true}, 10000, 0.1},
    [QLL_PRESSURE_WORD_INLET_EFFECT] = {{true, true}, 60000, 1.0 / 60.0},
    [QLL_PRESSURE_WORD_SUPPLY_SWING] = {{true}, INT64_MAX, 0.0},
    [QLL_PRESSURE_WORD_SET_POINT_DRIFT] = {{false, true}, 60000, 1.0 / 60.0},
    [QLL_PRESSURE_WORD_HUNTING] = {{false, true}, 2000, 5.0},
    [QLL_PRESSURE_WORD_CHATTER] = {{false, true}, 2, 500.0},
    [QLL_PRESSURE_WORD_HAMMER] = {{false, true}, 10, 100.0},
    [QLL_PRESSURE_WORD_STRAINER] = {{false, true, true}, 10000, 0.1},
    [QLL_PRESSURE_WORD_AIR] = {{false, true, true}, 2000, 1.0},
    [QLL_PRESSURE_WORD_LOGGER_FAULT] = {{false}, INT64_MAX, 0.0},
};

static void leave(qll_judging *j, qll_pressure_word word, qll_unjudged_why why, double amount,
                  qll_channel channel)
{
    qll_unjudged *of = &j->result->unjudged[word];
    for (size_t i = 0; i < j->count; i++) {
        if (j->findings[i].word == word) {
            return;
        }
    }
    if (!of->holds) {
        *of = (qll_unjudged){.holds = true, .why = why, .needs = amount, .channel = channel};
    }
}

void qll_judge_unjudged(qll_judging *j)
{
    const qll_pressure_state *s = j->state;
    const qll_pressure_features *f = &j->result->features;
    for (size_t w = 0; w < QLL_PRESSURE_WORD_COUNT; w++) {
        const qll_pressure_word word = (qll_pressure_word)w;
        j->result->unjudged[w] = (qll_unjudged){.needs = (double)NAN, .channel = QLL_CHANNEL_COUNT};
        for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
            if (needs[w].channel[c] && !s->facts.has[c]) {
                leave(j, word, QLL_UNJUDGED_CHANNEL, (double)NAN, (qll_channel)c);
            }
        }
        if (s->facts.interval_ms > needs[w].interval_ms) {
            leave(j, word, QLL_UNJUDGED_RATE, needs[w].rate_hz, QLL_CHANNEL_COUNT);
        }
    }
    const double none = (double)NAN;
    const qll_channel no_channel = QLL_CHANNEL_COUNT;
    if (f->window_count < 1.0) {
        leave(j, QLL_PRESSURE_WORD_CREEP, QLL_UNJUDGED_TIME, QLL_REST_LEAST_S, no_channel);
        leave(j, QLL_PRESSURE_WORD_THERMAL_EXPANSION, QLL_UNJUDGED_TIME, QLL_REST_LEAST_S,
              no_channel);
        leave(j, QLL_PRESSURE_WORD_LOCK_UP, QLL_UNJUDGED_TIME, QLL_REST_LEAST_S, no_channel);
    }
    if (isnan(f->inlet_effect)) {
        leave(j, QLL_PRESSURE_WORD_INLET_EFFECT, QLL_UNJUDGED_TIME, none, no_channel);
    }
    if (f->run_count < QLL_RUNS_LEAST || isnan(f->fall_off_slope)) {
        leave(j, QLL_PRESSURE_WORD_FALL_OFF, QLL_UNJUDGED_TIME, none, no_channel);
        leave(j, QLL_PRESSURE_WORD_STRAINER, QLL_UNJUDGED_TIME, none, no_channel);
        leave(j, QLL_PRESSURE_WORD_LOCK_UP, QLL_UNJUDGED_TIME, none, no_channel);
    }
    if (!(f->night_count >= QLL_NIGHTS_LEAST)) {
        leave(j, QLL_PRESSURE_WORD_SET_POINT_DRIFT, QLL_UNJUDGED_TIME, QLL_NIGHTS_LEAST * 86400.0,
              no_channel);
    }
    if (!(f->fall_off_span_count >= QLL_NIGHTS_LEAST)) {
        const double least_s = QLL_NIGHTS_LEAST * 86400.0;
        const bool is_short = (double)(s->last_ms - s->first_ms) / 1000.0 < least_s;
        leave(j, QLL_PRESSURE_WORD_FALL_OFF_DRIFT, QLL_UNJUDGED_TIME, is_short ? least_s : none,
              no_channel);
    }
    if (f->outlet_step_pa > QLL_STEP_MOST_PA) {
        leave(j, QLL_PRESSURE_WORD_HUNTING, QLL_UNJUDGED_STEP, QLL_STEP_MOST_PA, no_channel);
        leave(j, QLL_PRESSURE_WORD_AIR, QLL_UNJUDGED_STEP, QLL_STEP_MOST_PA, no_channel);
    }
}
