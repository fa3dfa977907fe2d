/* The usual interval of a log, and what is done while it is not known.
 *
 * A logger that reports only while water runs is silent else, but for a heartbeat. Where its first
 * rows are all of that, their interval is not the log's: it is provisional until rows flow. Rows
 * without flow say the same by any interval, so they may be handed on meanwhile. (Where stamps are ends,
 * the first of them also stands for the time in front of it: one heartbeat of no flow instead of one
 * interval.) */
#include "signals/log_records.h"

void qll_lengths_sort(int64_t *lengths, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        const int64_t length = lengths[i];
        size_t at = i;
        for (; at > 0 && lengths[at - 1] > length; at--) {
            lengths[at] = lengths[at - 1];
        }
        lengths[at] = length;
    }
}

int64_t qll_usual_interval_ms(const int64_t *at_ms, const double *values, size_t count, bool at_end,
                              bool flowing, size_t least, int64_t *lengths)
{
    size_t found = 0;
    for (size_t i = 1; i < count && found < QLL_USUAL_ROWS; i++) {
        const int64_t length = at_ms[i] - at_ms[i - 1];
        if (length > 0 && (!flowing || values[at_end ? i : i - 1] > 0.0)) {
            lengths[found] = length;
            found += 1;
        }
    }
    if (found < least) {
        return 0;
    }
    qll_lengths_sort(lengths, found);
    return lengths[(found - 1) / 2];
}

/* The log goes on by @p interval_ms; what was counted by the one before was heartbeats. */
static void settle_on(qll_records *r, int64_t interval_ms)
{
    const int64_t before_ms = r->rule.interval_ms;
    if (r->rule.finds_heartbeat && before_ms >= QLL_HEARTBEAT_INTERVALS * interval_ms) {
        r->rule.heartbeat_ms = before_ms;
    }
    if (r->usual > 0) {
        qll_log_mend *silences = &r->mends[QLL_LOG_MEND_HEARTBEAT];
        if (r->rule.heartbeat_ms >= before_ms) {
            if (silences->count == 0) {
                silences->first_unix_s = (double)r->first_ms / 1000.0;
            }
            silences->count += r->usual;
        }
        r->usual = 0;
    }
    r->rule.interval_ms = interval_ms;
    if (!r->rule.value_is_flow) {
        r->rate = r->rule.factor / ((double)interval_ms / 1000.0);
    }
    qll_statistics_refine(&r->statistics, qll_nice_interval_ms(interval_ms));
}

size_t qll_records_settle(qll_records *r, size_t count)
{
    size_t first = 0;
    while (first < count && !(r->value[first] > 0.0)) {
        first += 1;
    }
    if (first > 0) {
        return first;
    }
    const bool at_end = r->rule.stamp == QLL_LOG_STAMP_END;
    int64_t interval_ms = qll_usual_interval_ms(r->at_ms, r->value, r->count, at_end, true,
                                                QLL_FLOWING_LEAST, r->lengths);
    if (interval_ms == 0) {
        interval_ms =
            qll_usual_interval_ms(r->at_ms, r->value, r->count, at_end, true, 1, r->lengths);
    }
    if (interval_ms > 0 && interval_ms < r->rule.interval_ms) {
        settle_on(r, interval_ms);
    }
    r->is_provisional = false;
    return count;
}

int64_t qll_nice_interval_ms(int64_t interval_ms)
{
    static const int nice_s[] = {1,  2,   3,   4,   5,   6,   10,  12,  15,   20,   30,
                                 60, 120, 180, 240, 300, 360, 600, 900, 1200, 1800, 3600};
    for (size_t i = sizeof nice_s / sizeof *nice_s; i-- > 0;) {
        const int64_t nice_ms = (int64_t)nice_s[i] * 1000;
        const int64_t apart = interval_ms - nice_ms;
        if ((apart < 0 ? -apart : apart) * 20 <= nice_ms) {
            return nice_ms;
        }
    }
    return interval_ms;
}
