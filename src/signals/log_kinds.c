/* From rows in order to stretches of known flow: what lies between two rows is the flow one of them
 * tells, no flow, or unknown. A gap never gets a flow spread over it. */
#include "signals/log_records.h"

#include <math.h>

/* An interval longer than this many usual ones is a gap (our assumption; loggers drift by a tenth). */
#define QLL_GAP_INTERVALS     1.5
/* A logger's silence may be a tenth longer than said. */
#define QLL_HEARTBEAT_SLACK   1.1
/* A reading that many times over what flowed until the next is wrong (our assumption). */
#define QLL_SPIKE_TIMES       10.0
/* A register this near its last digit has passed it when it starts again (our assumption). */
#define QLL_ROLL_OVER_SHARE   0.9
/* Nothing hangs that reports less often than this. */
#define QLL_STUCK_INTERVAL_MS 60000

static double seconds(int64_t ms)
{
    return (double)ms / 1000.0;
}

static void add_unknown(qll_records *r, int64_t length_ms)
{
    r->unknown_ms += length_ms;
}

/* Adds a stretch; NaN is unknown. */
static void add(qll_records *r, int64_t start_ms, int64_t length_ms, double flow_m3s)
{
    if (length_ms <= 0) {
        return;
    }
    if (isnan(flow_m3s)) {
        add_unknown(r, length_ms);
        return;
    }
    qll_statistics_add(&r->statistics, start_ms, length_ms, flow_m3s);
}

static void count_interval(qll_records *r, int64_t length_ms)
{
    r->usual += length_ms == r->rule.interval_ms ? 1 : 0;
}

static void note_hole(qll_records *r, int64_t length_ms)
{
    r->hole_ms = length_ms > r->hole_ms ? length_ms : r->hole_ms;
}

static bool is_gap(const qll_records *r, int64_t length_ms)
{
    return (double)length_ms > QLL_GAP_INTERVALS * (double)r->rule.interval_ms;
}

/* A flow that can be, or NaN; what it mends is counted. */
static double mend_flow(qll_records *r, double flow_m3s, int64_t at_ms)
{
    if (isnan(flow_m3s) || flow_m3s == 0.0) {
        return flow_m3s == 0.0 ? 0.0 : flow_m3s;
    }
    if (fabs(flow_m3s) <= r->rule.dead_band_m3s) {
        qll_records_mend(r, QLL_LOG_MEND_DEAD_BAND, 0, at_ms);
        return 0.0;
    }
    if (flow_m3s < 0.0) {
        qll_records_mend(r, QLL_LOG_MEND_NEGATIVE, 0, at_ms);
        return 0.0;
    }
    if (flow_m3s > r->rule.most_m3s) {
        qll_records_mend(r, QLL_LOG_MEND_ABSURD, 0, at_ms);
        return (double)NAN;
    }
    return flow_m3s;
}

/* ---- flows and volumes ---- */

/* What was held back because the meter may hang. A real load that never changes ends in no flow, comes
 * back with the same value, or is known to a tenth of its unit only, where any flow repeats (our
 * assumption): then it stands, and the answer says so. */
static void settle_stuck(qll_records *r, double value, double next)
{
    if (r->stuck_ms == 0) {
        return;
    }
    const double tenths = value * 10.0;
    const bool is_round = fabs(tenths - round(tenths)) <= 1e-9 * fabs(tenths);
    const bool is_load = next == 0.0 || is_round || value == r->steady_value;
    qll_log_mend_kind kind = is_load ? QLL_LOG_MEND_STEADY : QLL_LOG_MEND_STUCK;
    qll_records_mend(r, kind, 0, r->stuck_start_ms);
    r->mends[kind].count += r->stuck_rows - 1;
    if (is_load) {
        qll_statistics_add(&r->statistics, r->stuck_start_ms, r->stuck_ms, r->stuck_m3s);
    } else {
        r->unknown_ms += r->stuck_ms;
    }
    r->steady_value = value;
    r->stuck_ms = 0;
    r->stuck_rows = 0;
}

static bool is_stuck(qll_records *r, double value, int64_t length_ms, bool same)
{
    if (!r->rule.value_is_flow || r->rule.interval_ms > QLL_STUCK_INTERVAL_MS || !same
        || value == 0.0) {
        r->same_ms = 0;
        return false;
    }
    r->same_ms += length_ms;
    return r->same_ms > (int64_t)QLL_LOG_STUCK_S * 1000;
}

/* An interval that is not the usual one, or a value that is not plain. */
static void add_mended(qll_records *r, int64_t start_ms, int64_t length_ms, double value,
                       double other)
{
    int64_t hold_ms = length_ms;
    bool silent = false;
    if (is_gap(r, length_ms)) {
        hold_ms = r->rule.interval_ms;
        silent = (double)length_ms <= QLL_HEARTBEAT_SLACK * (double)r->rule.heartbeat_ms
                 && (value == 0.0 || other == 0.0);
    }
    double volume_m3 = value * r->rule.factor; /* unless it is a flow */
    double flow_m3s = r->rule.value_is_flow ? volume_m3 : volume_m3 / seconds(hold_ms);
    int64_t hole_ms = length_ms - hold_ms;
    if (!r->rule.value_is_flow && hole_ms > 0 && !silent && flow_m3s > r->rule.most_m3s
        && volume_m3 / seconds(length_ms) <= r->rule.most_m3s) {
        qll_records_mend(r, QLL_LOG_MEND_CATCH_UP, 0, start_ms);
        r->unplaced_m3 += volume_m3;
        flow_m3s = (double)NAN;
    } else if (is_stuck(r, value, length_ms, value == other) && hole_ms == 0
               && flow_m3s <= r->rule.most_m3s && flow_m3s > r->rule.dead_band_m3s) {
        r->stuck_start_ms = r->stuck_ms == 0 ? start_ms : r->stuck_start_ms;
        r->stuck_ms += length_ms;
        r->stuck_m3s = flow_m3s;
        r->stuck_value = value;
        r->stuck_rows += 1;
        return;
    } else {
        flow_m3s = mend_flow(r, flow_m3s, start_ms);
    }
    settle_stuck(r, r->stuck_value, value == r->stuck_value ? other : value);
    double hole_m3s = silent ? 0.0 : (double)NAN;
    if (hole_ms > 0) {
        note_hole(r, silent ? 0 : hole_ms);
        qll_records_mend(r, silent ? QLL_LOG_MEND_HEARTBEAT : QLL_LOG_MEND_GAP, 0, start_ms);
    }
    if (r->rule.stamp == QLL_LOG_STAMP_END) {
        add(r, start_ms, hole_ms, hole_m3s);
        add(r, start_ms + hole_ms, hold_ms, flow_m3s);
    } else {
        add(r, start_ms, hold_ms, flow_m3s);
        add(r, start_ms + hold_ms, hole_ms, hole_m3s);
    }
}

/* The first row: where stamps are ends, its interval lies in front of it. */
static void first_sample(qll_records *r, int64_t at_ms, double value)
{
    if (r->rule.stamp == QLL_LOG_STAMP_END) {
        add_mended(r, at_ms - r->rule.interval_ms, r->rule.interval_ms, value, (double)NAN);
    }
    r->started = true;
    r->before_ms = at_ms;
    r->before = value;
}

void qll_records_samples(qll_records *r, const int64_t *at_ms, const double *values, size_t count)
{
    const bool at_end = r->rule.stamp == QLL_LOG_STAMP_END;
    const int64_t interval_ms = r->rule.interval_ms;
    const double rate = r->rate;
    const double least_m3s = r->rule.dead_band_m3s;
    const double most_m3s = r->rule.most_m3s;
    size_t i = 0;
    if (!r->started && count > 0) {
        first_sample(r, at_ms[0], values[0]);
        i = 1;
    }
    for (; i < count; i++) {
        int64_t start_ms = r->before_ms;
        int64_t length_ms = at_ms[i] - start_ms;
        double told = at_end ? values[i] : r->before;
        double other = at_end ? r->before : values[i];
        double flow_m3s = told * rate;
        /* Plain: a usual interval without flow, or with one that can be and changes. */
        bool plain = told == 0.0 || (flow_m3s > least_m3s && flow_m3s <= most_m3s && told != other);
        r->before_ms = at_ms[i];
        r->before = values[i];
        if (plain && length_ms == interval_ms && r->stuck_ms == 0) {
            r->usual += 1;
            r->same_ms = 0;
            /* Adding 0 turns -0 into 0. */
            qll_statistics_add(&r->statistics, start_ms, length_ms, flow_m3s + 0.0);
        } else {
            count_interval(r, length_ms);
            add_mended(r, start_ms, length_ms, told, other);
        }
    }
}

/* ---- pulses ---- */

static void add_empty(qll_records *r, int64_t end_ms)
{
    add(r, end_ms - r->empty_ms, r->empty_ms, 0.0);
    r->empty_ms = 0;
}

/* A single pulse behind some empty intervals is a low flow, of one pulse over all of them; several
 * in one interval are a flow that the interval resolves, and the emptiness before was none. */
void qll_records_pulses(qll_records *r, int64_t at_ms, double value)
{
    int64_t length_ms = r->started ? at_ms - r->before_ms : r->rule.interval_ms;
    int64_t start_ms = at_ms - length_ms;
    bool plain = !is_gap(r, length_ms) && value >= 0.0;
    if (r->started) {
        count_interval(r, length_ms);
    }
    if (plain && value == 0.0 && r->pulsed
        && r->empty_ms + length_ms <= (int64_t)QLL_LOG_SPACING_S * 1000) {
        r->empty_ms += length_ms;
    } else if (plain && value == 1.0 && r->empty_ms > 0) {
        int64_t spacing_ms = r->empty_ms + length_ms;
        r->empty_ms = 0;
        add(r, at_ms - spacing_ms, spacing_ms,
            mend_flow(r, r->rule.factor / seconds(spacing_ms), start_ms));
    } else {
        add_empty(r, start_ms);
        add_mended(r, start_ms, length_ms, value, (double)NAN);
        r->pulsed = value > 0.0;
    }
    r->started = true;
    r->before_ms = at_ms;
    r->before = value;
}

/* ---- registers ---- */

static bool can_be(const qll_records *r, double rise_m3, int64_t length_ms)
{
    return rise_m3 >= 0.0 && rise_m3 <= r->rule.most_m3s * seconds(length_ms);
}

/* The rise of a register that passed its last digit, or NaN. */
static double roll_over_m3(const qll_records *r, double value, int64_t length_ms)
{
    double end = 1.0;
    while (end <= r->before && end < 1e15) {
        end *= 10.0;
    }
    double rise_m3 = (end - r->before + value) * r->rule.factor;
    bool rolled = r->before >= QLL_ROLL_OVER_SHARE * end && value >= 0.0 && end >= 1000.0
                  && can_be(r, rise_m3, length_ms);
    return rolled ? rise_m3 : (double)NAN;
}

static void add_rise(qll_records *r, double rise_m3, int64_t start_ms, int64_t length_ms)
{
    if (!is_gap(r, length_ms) || rise_m3 == 0.0) {
        add(r, start_ms, length_ms, mend_flow(r, rise_m3 / seconds(length_ms), start_ms));
        return;
    }
    qll_records_mend(r, QLL_LOG_MEND_GAP, 0, start_ms);
    qll_records_mend(r, QLL_LOG_MEND_CATCH_UP, 0, start_ms);
    r->unplaced_m3 += rise_m3;
    note_hole(r, length_ms);
    add_unknown(r, length_ms);
}

/* A reading that cannot follow the one before: either it is wrong, or the ones from here on are a
 * new segment. The next reading tells: if it fits the old ones, this was a single fault. */
static void doubt(qll_records *r, double rise_m3, int64_t length_ms)
{
    qll_records_mend(r, rise_m3 < 0.0 ? QLL_LOG_MEND_BACKWARDS : QLL_LOG_MEND_ABSURD, 0,
                     r->before_ms + length_ms);
    add_unknown(r, length_ms);
    r->has_doubt = true;
    r->doubt_ms = r->before_ms;
    r->doubt = r->before;
}

/* What both are whole multiples of, by Euclid; NaN where that is no more than rounding. */
static double common_step(double step, double value)
{
    double rest = fabs(value);
    const double least = 1e-9 * fmax(rest, step);
    if (isnan(step) || rest <= least) {
        return step;
    }
    while (step > least) {
        const double next = fmod(rest, step);
        rest = step;
        step = next > rest - least ? 0.0 : next;
    }
    return rest > 1e3 * least ? rest : (double)NAN;
}

/* Adds the rise that waited for the next reading to agree. */
static void add_held(qll_records *r)
{
    if (r->has_held) {
        r->has_held = false;
        add_rise(r, (r->before - r->held_from) * r->rule.factor, r->held_start_ms,
                 r->before_ms - r->held_start_ms);
    }
}

/* A reading far over the two beside it, which agree: up and down by the same amount, within a tenth. */
static bool was_wrong(const qll_records *r, double value)
{
    const double up = r->before - r->held_from;
    const double kept = value - r->held_from;
    return r->has_held && kept >= 0.0 && value < r->before && up > QLL_SPIKE_TIMES * kept;
}

/* What flowed meanwhile is known, when is not. */
static void step_over(qll_records *r, int64_t at_ms, double value)
{
    const double rise_m3 = (value - r->held_from) * r->rule.factor;
    qll_records_mend(r, QLL_LOG_MEND_WRONG_READING, 0, r->before_ms);
    qll_records_mend(r, QLL_LOG_MEND_CATCH_UP, 0, r->held_start_ms);
    count_interval(r, at_ms - r->before_ms);
    r->unplaced_m3 += rise_m3;
    add_unknown(r, at_ms - r->held_start_ms);
    r->has_held = false;
    r->before_ms = at_ms;
    r->before = value;
}

void qll_records_register(qll_records *r, int64_t at_ms, double value)
{
    if (isnan(value)) {
        return; /* the next reading holds what flowed meanwhile */
    }
    r->register_step = common_step(r->register_step, value);
    if (r->started && was_wrong(r, value)) {
        step_over(r, at_ms, value);
        return;
    }
    add_held(r);
    if (r->started) {
        int64_t length_ms = at_ms - r->before_ms;
        double rise_m3 = (value - r->before) * r->rule.factor;
        double from_doubt_m3 = (value - r->doubt) * r->rule.factor;
        double rolled_m3 = rise_m3 < 0.0 ? roll_over_m3(r, value, length_ms) : (double)NAN;
        count_interval(r, length_ms);
        if (r->has_doubt && can_be(r, from_doubt_m3, at_ms - r->doubt_ms)) {
            qll_records_mend(r, QLL_LOG_MEND_CATCH_UP, 0, r->doubt_ms);
            r->unplaced_m3 += from_doubt_m3;
            add_unknown(r, length_ms);
            r->has_doubt = false;
        } else if (can_be(r, rise_m3, length_ms)) {
            r->has_held = true;
            r->held_start_ms = r->before_ms;
            r->held_from = r->before;
            r->has_doubt = false;
        } else if (!isnan(rolled_m3)) {
            qll_records_mend(r, QLL_LOG_MEND_ROLL_OVER, 0, at_ms);
            add_rise(r, rolled_m3, r->before_ms, length_ms);
        } else {
            doubt(r, rise_m3, length_ms);
        }
    }
    r->started = true;
    r->before_ms = at_ms;
    r->before = value;
}

/* ---- events ---- */

static double running_m3s(const qll_records *r)
{
    double sum = 0.0;
    for (size_t i = 0; i < r->event_count; i++) {
        sum += r->events[i].flow_m3s;
    }
    return sum;
}

/* Up to @p until_ms: the events that run, one after the other ending, then none. */
static void run_events(qll_records *r, int64_t until_ms)
{
    while (r->event_count > 0) {
        size_t next = 0;
        for (size_t i = 1; i < r->event_count; i++) {
            next = r->events[i].end_ms < r->events[next].end_ms ? i : next;
        }
        int64_t end_ms = r->events[next].end_ms;
        int64_t stop_ms = end_ms < until_ms ? end_ms : until_ms;
        add(r, r->event_ms, stop_ms - r->event_ms, running_m3s(r));
        r->event_ms = stop_ms > r->event_ms ? stop_ms : r->event_ms;
        if (end_ms > until_ms) {
            return;
        }
        r->event_count -= 1;
        r->events[next] = r->events[r->event_count];
    }
}

void qll_records_event(qll_records *r, int64_t at_ms, int64_t end_ms, double value)
{
    int64_t length_ms = end_ms - at_ms;
    double volume_m3 = value * r->rule.factor;
    double flow_m3s = r->rule.value_is_flow ? volume_m3
                      : length_ms > 0       ? volume_m3 / seconds(length_ms)
                                            : (double)NAN;
    if (!r->started) {
        r->started = true;
        r->event_ms = at_ms;
    }
    run_events(r, at_ms);
    if (r->event_count == 0 && at_ms > r->event_ms) {
        bool silence = at_ms - r->event_ms <= QLL_RECORDS_SILENCE_MS;
        if (!silence) {
            qll_records_mend(r, QLL_LOG_MEND_GAP, 0, r->event_ms);
            note_hole(r, at_ms - r->event_ms);
        }
        add(r, r->event_ms, at_ms - r->event_ms, silence ? 0.0 : (double)NAN);
        r->event_ms = at_ms;
    }
    if (length_ms <= 0) {
        qll_records_mend(r, QLL_LOG_MEND_DURATION, 0, at_ms);
        r->unplaced_m3 += volume_m3 > 0.0 && !r->rule.value_is_flow ? volume_m3 : 0.0;
        return;
    }
    flow_m3s = mend_flow(r, flow_m3s, at_ms);
    if (isnan(flow_m3s)) {
        return; /* what else ran meanwhile is known */
    }
    if (r->event_count > 0) {
        qll_records_mend(r, QLL_LOG_MEND_OVERLAP, 0, at_ms);
    }
    if (r->event_count == QLL_RECORDS_EVENTS) {
        qll_records_mend(r, QLL_LOG_MEND_LATE, 0, at_ms);
        return;
    }
    r->events[r->event_count] = (qll_event){end_ms, flow_m3s};
    r->event_count += 1;
}

void qll_records_last(qll_records *r)
{
    if (!r->started) {
        return;
    }
    switch (r->rule.kind) {
    case QLL_LOG_KIND_EVENTS: run_events(r, INT64_MAX); break;
    case QLL_LOG_KIND_PULSES: add_empty(r, r->before_ms); break;
    case QLL_LOG_KIND_FLOW:
    case QLL_LOG_KIND_VOLUME:
        if (r->rule.stamp == QLL_LOG_STAMP_START) {
            add_mended(r, r->before_ms, r->rule.interval_ms, r->before, (double)NAN);
        }
        break;
    case QLL_LOG_KIND_REGISTER: add_held(r); break;
    case QLL_LOG_KIND_UNKNOWN:
    case QLL_LOG_KIND_COUNT: break;
    }
    settle_stuck(r, r->stuck_value, (double)NAN);
}

void qll_records_mend(qll_records *r, qll_log_mend_kind kind, long long line, int64_t at_ms)
{
    qll_log_mend *mend = &r->mends[kind];
    if (mend->count == 0) {
        mend->first_line = line;
        mend->first_unix_s = at_ms == INT64_MIN ? (double)NAN : (double)at_ms / 1000.0;
    }
    mend->count += 1;
}
