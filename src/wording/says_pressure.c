/* What a log of pressures says: one sentence or two for each finding. */
#include "wording/says_pressure.h"

#include "base/count.h"
#include "wording/texts.h"

#include <math.h>

#define QLL_MINUTE_S   60.0
#define QLL_TEN_PSI_PA 68947.57293168361

/* "0.21", "6.3", "41": two digits are what a log can tell. */
static const char *two_digits(qll_writer *writer, double value)
{
    if (!isfinite(value)) {
        return NULL;
    }
    qll_writer text = qll_writer_new(writer->arena);
    const double size = fabs(value);
    qll_write_format(&text, size < 0.995 ? "%.2f" : size < 9.95 ? "%.1f" : "%.0f", value);
    return qll_writer_text(&text).bytes;
}

static const char *known(qll_writer *writer, const qll_wording *wording, double si, qll_kind kind)
{
    return isfinite(si) ? qll_text_quantity(writer, si, kind, wording->units) : NULL;
}

static qll_message message_of(const qll_pressure_finding *f)
{
    switch (f->word) {
    case QLL_PRESSURE_WORD_CREEP: return QLL_SAYS_CREEP_RISES;
    case QLL_PRESSURE_WORD_THERMAL_EXPANSION:
        return f->is_over_inlet ? QLL_SAYS_EXPANSION_OVER_INLET : QLL_SAYS_EXPANSION_SWELLS;
    case QLL_PRESSURE_WORD_LOCK_UP: return QLL_SAYS_LOCK_UP_HIGH;
    case QLL_PRESSURE_WORD_FALL_OFF:
        return isfinite(f->ratio) ? QLL_SAYS_FALL_OFF_COMPARED : QLL_SAYS_FALL_OFF_SEEN;
    case QLL_PRESSURE_WORD_FALL_OFF_DRIFT:
        return f->is_of_inlet ? QLL_SAYS_FALL_OFF_OF_INLET
               : f->is_step   ? QLL_SAYS_FALL_OFF_STEP
                              : QLL_SAYS_FALL_OFF_GROWS;
    case QLL_PRESSURE_WORD_INLET_EFFECT: return QLL_SAYS_INLET_EFFECT_SEEN;
    case QLL_PRESSURE_WORD_SUPPLY_SWING: return QLL_SAYS_SUPPLY_SWINGS;
    case QLL_PRESSURE_WORD_SET_POINT_DRIFT:
        return f->is_from_survey ? QLL_SAYS_DRIFT_FROM_SURVEY
               : f->is_step      ? QLL_SAYS_DRIFT_STEP
                                 : QLL_SAYS_DRIFT_SLOW;
    case QLL_PRESSURE_WORD_HUNTING: return QLL_SAYS_HUNTING_SEEN;
    case QLL_PRESSURE_WORD_CHATTER: return QLL_SAYS_CHATTER_SEEN;
    case QLL_PRESSURE_WORD_HAMMER: return QLL_SAYS_HAMMER_SEEN;
    case QLL_PRESSURE_WORD_STRAINER: return QLL_SAYS_STRAINER_SEEN;
    case QLL_PRESSURE_WORD_AIR: return QLL_SAYS_AIR_SEEN;
    case QLL_PRESSURE_WORD_LOGGER_FAULT:
    case QLL_PRESSURE_WORD_COUNT: break;
    }
    return (qll_message)((size_t)QLL_SAYS_FAULT_STUCK + (size_t)f->fault);
}

/* What stands in for the inlet effect: of every 10 psi so much, in the reader's unit. */
static const char *of_ten(qll_writer *writer, const qll_wording *wording, double effect)
{
    return known(writer, wording, effect * QLL_TEN_PSI_PA, QLL_KIND_PRESSURE_DIFFERENCE);
}

void qll_wording_pressure(qll_writer *writer, const qll_wording *wording,
                          const qll_pressure_finding *finding)
{
    const qll_kind rise = QLL_KIND_PRESSURE_DIFFERENCE;
    const bool is_level = finding->word != QLL_PRESSURE_WORD_AIR;
    const bool is_effect = finding->word == QLL_PRESSURE_WORD_INLET_EFFECT;
    const char *level =
        known(writer, wording, finding->level_pa_gauge, is_level ? QLL_KIND_PRESSURE : rise);
    const char *channel =
        finding->channel == QLL_CHANNEL_COUNT
            ? NULL
            : qll_say(wording->language,
                      (qll_message)((size_t)QLL_SAYS_CHANNEL_INLET + (size_t)finding->channel));
    const qll_filling fillings[] = {
        {"value", known(writer, wording, finding->value, rise)},
        {"rate", known(writer, wording, finding->value * QLL_MINUTE_S, rise)},
        {"ten", is_effect ? of_ten(writer, wording, 1.0) : NULL},
        {"tenth", is_effect ? of_ten(writer, wording, finding->value) : NULL},
        {"share", isfinite(finding->share)
                      ? qll_text_share(writer, wording->language, finding->share)
                      : NULL},
        {"end", finding->ends_at_inlet ? level : NULL},
        {"level", level},
        {"flow", known(writer, wording, finding->flow_m3s, QLL_KIND_FLOW)},
        {"expected", is_effect ? of_ten(writer, wording, finding->expected)
                               : known(writer, wording, finding->expected,
                                       finding->is_from_survey ? QLL_KIND_PRESSURE : rise)},
        {"ratio", two_digits(writer, finding->ratio)},
        {"frequency", two_digits(writer, finding->frequency_hz)},
        {"count", isfinite(finding->count) ? qll_text_whole(writer, finding->count) : NULL},
        {"often", two_digits(writer, finding->per_hour)},
        {"rise", known(writer, wording, finding->rise_s, QLL_KIND_TIME)},
        {"channel", channel},
    };
    qll_say_with(writer, wording->language, message_of(finding), fillings, QLL_COUNT(fillings));
}

const char *qll_say_pressure_word(qll_language language, qll_pressure_word word)
{
    return qll_say(language, (qll_message)((size_t)QLL_SAYS_PRESSURE_CREEP + (size_t)word));
}

void qll_wording_unjudged(qll_writer *writer, const qll_wording *wording, qll_pressure_word word,
                          const qll_unjudged *unjudged, double interval_s, double step_pa)
{
    static const qll_message messages[QLL_UNJUDGED_COUNT] = {
        [QLL_UNJUDGED_RATE] = QLL_SAYS_UNJUDGED_RATE,
        [QLL_UNJUDGED_CHANNEL] = QLL_SAYS_UNJUDGED_CHANNEL,
        [QLL_UNJUDGED_TIME] = QLL_SAYS_UNJUDGED_TIME,
        [QLL_UNJUDGED_STEP] = QLL_SAYS_UNJUDGED_STEP,
    };
    const bool says_time = unjudged->why == QLL_UNJUDGED_TIME && isfinite(unjudged->needs);
    const char *needs = unjudged->why == QLL_UNJUDGED_RATE
                            ? known(writer, wording, unjudged->needs, QLL_KIND_NUMBER)
                        : unjudged->why == QLL_UNJUDGED_STEP
                            ? known(writer, wording, unjudged->needs, QLL_KIND_PRESSURE_DIFFERENCE)
                            : known(writer, wording, unjudged->needs, QLL_KIND_TIME);
    const qll_filling fillings[] = {
        {"name", qll_say_pressure_word(wording->language, word)},
        {"interval", known(writer, wording, interval_s, QLL_KIND_TIME)},
        {"needs", needs},
        {"channel", unjudged->channel == QLL_CHANNEL_COUNT
                        ? NULL
                        : qll_say(wording->language, (qll_message)((size_t)QLL_SAYS_CHANNEL_INLET
                                                                   + (size_t)unjudged->channel))},
        {"step", known(writer, wording, step_pa, QLL_KIND_PRESSURE_DIFFERENCE)},
    };
    qll_say_with(writer, wording->language,
                 !says_time                                  ? messages[unjudged->why]
                 : word == QLL_PRESSURE_WORD_SET_POINT_DRIFT ? QLL_SAYS_UNJUDGED_NIGHTS
                 : word == QLL_PRESSURE_WORD_FALL_OFF_DRIFT  ? QLL_SAYS_UNJUDGED_DAYS
                                                             : QLL_SAYS_UNJUDGED_TIME_LEAST,
                 fillings, QLL_COUNT(fillings));
}
