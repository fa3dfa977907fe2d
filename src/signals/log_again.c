/* A log that is read a second time: its rows in the order of time, rows that cannot be left out. */
#include "signals/log_order.h"
#include "signals/log_reader.h"

#include <math.h>

bool qll_flow_log_wants_again(const qll_flow_log *log)
{
    const bool is_plain = log->utf16.mode == QLL_UTF16_NOT || log->wants == QLL_LOG_AGAIN_ODD;
    if (!is_plain) {
        return false; /* the places of its lines are not those of its bytes */
    }
    return log->wants != QLL_LOG_AGAIN_NOT
           || (log->begun && log->lane_count > 0 && log->lanes[0].records.too_far);
}

static qll_status feed_all(qll_flow_log *to, const qll_log_source *source)
{
    const char *why = "";
    qll_status told = QLL_OK;
    qll_status status = QLL_OK;
    for (uint64_t at = 0; at < source->size && status == QLL_OK && told == QLL_OK;) {
        char block[8192];
        size_t got = sizeof block;
        status = source->read_at(source->context, at, block, &got, &why);
        told = status == QLL_OK ? qll_flow_log_feed(to, block, got) : told;
        at = got == 0 ? source->size : at + got;
    }
    return told == QLL_NO_MEMORY ? told : status;
}

static qll_status refuse_shuffled(qll_flow_log *log, qll_problems *problems)
{
    (void)qll_problems_add(
        problems,
        (qll_fault){.code = QLL_CODE_NOT_RISING,
                    .place = {log->options.name == NULL ? "" : log->options.name, 0, 0, ""},
                    .says = QLL_SAYS(LOG_SHUFFLED),
                    .hint = QLL_SAYS(HINT_SORT)});
    return qll_problems_status(problems);
}

/* Lines are counted in another order than the file's: a time says more. */
static void forget_lines(qll_flow_log_result *result)
{
    for (size_t kind = 0; kind < QLL_LOG_MEND_COUNT; kind++) {
        result->mends[kind].first_line = 0;
    }
}

qll_status qll_flow_log_again(qll_flow_log *log, const qll_log_source *source,
                              qll_flow_log_result *result, qll_problems *problems)
{
    const bool orders = log->wants != QLL_LOG_AGAIN_ODD;
    qll_flow_log_options options = log->options;
    qll_flow_log *at_hand = log;
    qll_log_found_order order = QLL_LOG_AS_IT_STANDS;
    qll_status status = QLL_OK;
    options.order = log->lanes[0].order;
    for (int round = 0; round < 2; round++) {
        const bool limits = at_hand->wants == QLL_LOG_AGAIN_ODD;
        const double odd_m3s = at_hand->odd_m3s;
        const double next_m3s = at_hand->next_m3s;
        options.most_flow_m3s = limits ? sqrt(odd_m3s * next_m3s) : options.most_flow_m3s;
        at_hand = qll_flow_log_open(&options, log->arena);
        if (at_hand == NULL) {
            return QLL_NO_MEMORY;
        }
        status = orders ? qll_log_order_feed(&log->lanes[0], source, at_hand, log->arena, &order)
                        : feed_all(at_hand, source);
        if (status != QLL_OK) {
            return status;
        }
        if (order == QLL_LOG_SHUFFLED) {
            return refuse_shuffled(log, problems);
        }
        status = qll_flow_log_finish(at_hand, result, problems);
        if (status == QLL_OK && limits) {
            result->notes[QLL_LOG_NOTE_ODD_ROW] =
                (qll_log_note){.holds = true, .flow_m3s = odd_m3s, .count = odd_m3s / next_m3s};
        }
        if (status != QLL_OK || limits || at_hand->wants != QLL_LOG_AGAIN_ODD) {
            break;
        }
    }
    if (status == QLL_OK && orders) {
        result
            ->notes[order == QLL_LOG_NEWEST_FIRST ? QLL_LOG_NOTE_NEWEST_FIRST : QLL_LOG_NOTE_JOINED]
            .holds = true;
        forget_lines(result);
    }
    return status;
}
