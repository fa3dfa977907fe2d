/* Questions about a finished log, and the words of its lists. */
#include "signals/flow_log.h"

#include <math.h>

/* Shares are sums of doubles; a tie in the last bits is one (as in numeric/probability.h). */
#define QLL_SHARE_GUARD 1e-12

const char *qll_log_mend_word(qll_log_mend_kind kind)
{
    static const char *const words[QLL_LOG_MEND_COUNT] = {
#define QLL_LOG_MEND_WORD(name, word, sentence) [QLL_LOG_MEND_##name] = (word),
        QLL_LOG_MEND_LIST(QLL_LOG_MEND_WORD)
#undef QLL_LOG_MEND_WORD
    };
    return words[kind];
}

const char *qll_log_mend_sentence(qll_log_mend_kind kind)
{
    static const char *const sentences[QLL_LOG_MEND_COUNT] = {
#define QLL_LOG_MEND_SENTENCE(name, word, sentence) [QLL_LOG_MEND_##name] = (sentence),
        QLL_LOG_MEND_LIST(QLL_LOG_MEND_SENTENCE)
#undef QLL_LOG_MEND_SENTENCE
    };
    return sentences[kind];
}

const char *qll_log_note_word(qll_log_note_kind kind)
{
    static const char *const words[QLL_LOG_NOTE_COUNT] = {
#define QLL_LOG_NOTE_WORD(name, word, warns) [QLL_LOG_NOTE_##name] = (word),
        QLL_LOG_NOTE_LIST(QLL_LOG_NOTE_WORD)
#undef QLL_LOG_NOTE_WORD
    };
    return words[kind];
}

bool qll_log_note_warns(qll_log_note_kind kind)
{
    static const bool warns_of[QLL_LOG_NOTE_COUNT] = {
#define QLL_LOG_NOTE_WARNS(name, word, warns) [QLL_LOG_NOTE_##name] = (warns),
        QLL_LOG_NOTE_LIST(QLL_LOG_NOTE_WARNS)
#undef QLL_LOG_NOTE_WARNS
    };
    return warns_of[kind];
}

const char *qll_log_kind_word(qll_log_kind kind)
{
    static const char *const words[QLL_LOG_KIND_COUNT] = {
        [QLL_LOG_KIND_UNKNOWN] = "unknown",   [QLL_LOG_KIND_FLOW] = "flow",
        [QLL_LOG_KIND_VOLUME] = "volume",     [QLL_LOG_KIND_PULSES] = "pulses",
        [QLL_LOG_KIND_REGISTER] = "register", [QLL_LOG_KIND_EVENTS] = "events",
    };
    return words[kind];
}

double qll_flow_log_percentile_m3s(const qll_flow_log_result *result, double share)
{
    for (size_t i = 0; i < result->point_count; i++) {
        if (result->points[i].time_share >= share - QLL_SHARE_GUARD) {
            return result->points[i].flow_m3s;
        }
    }
    return (double)NAN;
}

qll_log_point qll_flow_log_at(const qll_flow_log_result *result, double flow_m3s)
{
    qll_log_point at = {flow_m3s, 0.0, 0.0};
    for (size_t i = 0; i < result->point_count && result->points[i].flow_m3s <= flow_m3s; i++) {
        at.time_share = result->points[i].time_share;
        at.volume_share = result->points[i].volume_share;
    }
    return at;
}
