#include "wording/texts.h"
#include "wording/wording.h"

/* What an estimate is, in the order of QLL_ADVICE_LIST. */
typedef enum estimate_kind {
    QLL_ESTIMATE_CODE,     /* a table a reviewer accepts */
    QLL_ESTIMATE_CHANCE,   /* how often fixtures run together */
    QLL_ESTIMATE_ORDINARY, /* what runs on a day like most */
    QLL_ESTIMATE_MEASURED,
} estimate_kind;

static estimate_kind kind_of(qll_peak_method method)
{
    switch (method) {
    case QLL_PEAK_SIMULTANEOUS_USE:
    case QLL_PEAK_NORMAL_APPROXIMATION: return QLL_ESTIMATE_CHANCE;
    case QLL_PEAK_PULSE_MODEL: return QLL_ESTIMATE_ORDINARY;
    case QLL_PEAK_METERED: return QLL_ESTIMATE_MEASURED;
    case QLL_PEAK_FIXTURE_UNITS_IPC:
    case QLL_PEAK_FIXTURE_UNITS_UPC:
    case QLL_PEAK_DIN_1988_300:
    case QLL_PEAK_LOADING_UNITS_EN:
    case QLL_PEAK_LOADING_UNITS_BS:
    case QLL_PEAK_PER_FIXTURE:
    case QLL_PEAK_GIVEN:
    case QLL_PEAK_METHOD_COUNT: break;
    }
    return QLL_ESTIMATE_CODE;
}

static qll_message advice_of(const qll_demand *demand, const qll_disagreement *disagreement)
{
    qll_message first =
        disagreement->ratio < 1.0 ? QLL_SAYS_ADVICE_LESS_CODE : QLL_SAYS_ADVICE_MORE_CODE;
    qll_peak_method method = demand->estimates[disagreement->estimate].method;
    return (qll_message)((size_t)first + (size_t)kind_of(method));
}

bool qll_wording_disagreement(qll_writer *writer, const qll_wording *wording,
                              const qll_demand *demand, size_t which, bool with_alike)
{
    qll_message advice = advice_of(demand, &demand->disagreements[which]);
    for (size_t i = 0; with_alike && i < which; i++) {
        if (advice_of(demand, &demand->disagreements[i]) == advice) {
            return false;
        }
    }
    qll_writer methods = qll_writer_new(writer->arena);
    for (size_t i = which; i < (with_alike ? demand->disagreement_count : which + 1); i++) {
        const qll_disagreement *one = &demand->disagreements[i];
        if (advice_of(demand, one) != advice) {
            continue;
        }
        const qll_peak_estimate *estimate = &demand->estimates[one->estimate];
        qll_writer times = qll_writer_new(writer->arena);
        qll_write_format(&times, "%.2f", one->ratio);
        const qll_filling fillings[] = {
            {"method", qll_say_method(wording->language, estimate->method)},
            {"flow", qll_text_quantity(writer, estimate->peak_m3s, QLL_KIND_FLOW, wording->units)},
            {"times", qll_writer_text(&times).bytes},
        };
        qll_write(&methods, i == which ? "" : "; ");
        qll_say_with(&methods, wording->language, QLL_SAYS_DISAGREES, fillings, 3);
    }
    const qll_filling fillings[] = {{"methods", qll_writer_text(&methods).bytes},
                                    {"advice", qll_say(wording->language, advice)}};
    qll_say_with(writer, wording->language, QLL_SAYS_DISAGREEMENT, fillings, 2);
    return true;
}
