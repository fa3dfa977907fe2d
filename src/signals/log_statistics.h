/* Stretches of known flow, in the order of time, to flow duration, peaks and daily profile. */
#ifndef QUELL_SIGNALS_LOG_STATISTICS_H
#define QUELL_SIGNALS_LOG_STATISTICS_H

#include "signals/flow_log.h"
#include "signals/log_zone.h"

/* Classes of flow: every power of two from 2^-40 to 2^8 m3/s in 256 equal parts, and no flow. */
#define QLL_CLASS_LEAST_POWER (-40)
#define QLL_CLASS_POWERS      48
#define QLL_CLASS_COUNT       ((size_t)QLL_CLASS_POWERS * 256 + 1)
/* Flows from here on have no class. */
#define QLL_CLASS_END_M3S     256.0

typedef struct qll_class {
    double time_s, volume_m3;
} qll_class;

/* One averaging time over the cells of equal length that the time is cut into. */
typedef struct qll_window {
    size_t cells; /* 0: shorter than the log's interval */
    double block_m3, rolling_m3;
    bool seen; /* at least one window was whole */
    long long blocks, zero_blocks;
} qll_window;

typedef struct qll_statistics {
    qll_zone zone;
    int32_t offset_before_s; /* of the clock before since_ms; from there on the zone holds */
    int64_t since_ms;
    bool blocks_from_first;
    qll_class *classes,
        *hours; /* of every stretch; of the means of whole hours, but those without flow */
    double max_m3s, volume_m3;
    int64_t first_ms, covered_ms;
    /* The stretch without a gap that is being added to: cumulative[i] is the volume from
     * start_ms until i cells later; the cells up to done have been looked at. */
    double *cumulative;
    size_t capacity; /* of cumulative */
    size_t room, count, done, longest;
    int64_t cell_ms, start_ms, next_ms;
    double cell_s, cell_volume_m3;
    int64_t cell_filled_ms;
    qll_window windows[QLL_LOG_PEAKS];
    double night_least_m3; /* in an hour; infinite until one was seen */
    qll_log_hour profile[2][24];
} qll_statistics;

/**
 * Starts with nothing known.
 *
 * @param interval_ms usual interval of the log, over 0
 * @param may_refine  qll_statistics_refine() may follow
 * @return false without memory
 */
QLL_MUST_USE bool qll_statistics_begin(qll_statistics *s, int64_t interval_ms, bool may_refine,
                                       const qll_zone *zone, bool blocks_from_first,
                                       qll_arena *arena);

/**
 * Goes on with a shorter interval than the one it began with. What was added so far must all be no
 * flow: of time without flow every averaging time is known, whatever the cells were.
 */
void qll_statistics_refine(qll_statistics *s, int64_t interval_ms);

/** From @p utc_ms on, the end of what was added, the clock of the place shows @p offset_s more than
 * universal time. */
void qll_statistics_offset(qll_statistics *s, int64_t utc_ms, int32_t offset_s);

/** Adds what does not continue the stretch, or is no whole cell; see qll_statistics_add(). */
void qll_statistics_add_any(qll_statistics *s, int64_t start_ms, int64_t length_ms,
                            double flow_m3s);

/** Looks at the cells that are new and makes room. */
void qll_statistics_look(qll_statistics *s);

/** The class of a flow, 0 to under QLL_CLASS_END_M3S: its power of two and 8 further bits. */
static inline size_t qll_class_of(double flow_m3s)
{
    union {
        double value;
        uint64_t bits;
    } as = {.value = flow_m3s};

    const uint64_t least = (uint64_t)(1023 + QLL_CLASS_LEAST_POWER) << 8;
    uint64_t top = as.bits >> 44;
    if (top < least) {
        return as.bits == 0 ? 0 : 1;
    }
    return (size_t)(top - least) + 1;
}

/**
 * Adds a stretch of known flow.
 *
 * @param start_ms  not before the end of what was added before
 * @param length_ms over 0
 * @param flow_m3s  0 (not -0) to under QLL_CLASS_END_M3S
 */
static inline void qll_statistics_add(qll_statistics *s, int64_t start_ms, int64_t length_ms,
                                      double flow_m3s)
{
    if (start_ms != s->next_ms || length_ms != s->cell_ms || s->cell_filled_ms != 0) {
        qll_statistics_add_any(s, start_ms, length_ms, flow_m3s);
        return;
    }
    double volume_m3 = flow_m3s * s->cell_s;
    qll_class *class = &s->classes[qll_class_of(flow_m3s)];
    class->time_s += s->cell_s;
    class->volume_m3 += volume_m3;
    s->cumulative[s->count + 1] = s->cumulative[s->count] + volume_m3;
    s->count += 1;
    s->next_ms += length_ms;
    s->max_m3s = flow_m3s > s->max_m3s ? flow_m3s : s->max_m3s;
    if (s->count == s->room) {
        qll_statistics_look(s);
    }
}

/** Puts the flow duration of whole hours in the place of that of all stretches, if there are any. */
QLL_MUST_USE bool qll_statistics_hours(const qll_statistics *s, qll_arena *arena,
                                       qll_flow_log_result *result);

/** Fills in what the statistics know of @p result; the points live in @p arena. */
QLL_MUST_USE bool qll_statistics_end(qll_statistics *s, qll_arena *arena,
                                     qll_flow_log_result *result);

#endif
