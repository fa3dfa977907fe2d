#include "wording/wording.h"

/* What an estimate is, for whoever must choose between figures. */
typedef enum estimate_kind {
    QLL_ESTIMATE_CODE,     /* a table a reviewer accepts */
    QLL_ESTIMATE_CHANCE,   /* how often fixtures run together */
    QLL_ESTIMATE_ORDINARY, /* what runs on a day like most */
    QLL_ESTIMATE_MEASURED,
    QLL_ESTIMATE_KIND_COUNT
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

static const char *const less[QLL_ESTIMATE_KIND_COUNT] = {
    [QLL_ESTIMATE_CODE] =
        "if it is nearer the truth, a station sized for the design peak is larger "
        "than it need be: let a small valve carry the everyday flow",
    [QLL_ESTIMATE_CHANCE] = "with these fixtures the flow should hardly ever pass it, so the upper "
                            "part of the station will seldom open",
    [QLL_ESTIMATE_ORDINARY] = "the station works at such flows nearly all the time and must be "
                              "quiet there, not only at the design peak",
    [QLL_ESTIMATE_MEASURED] = "the building drew no more while it was logged, so size the small "
                              "valve by the log and the whole station by the design peak",
};

static const char *const more[QLL_ESTIMATE_KIND_COUNT] = {
    [QLL_ESTIMATE_CODE] = "ask the reviewer which figure counts before valves are ordered",
    [QLL_ESTIMATE_CHANCE] = "if many use water at once the pressure at the top may fall; check the "
                            "fixtures and how they are used",
    [QLL_ESTIMATE_ORDINARY] = "an ordinary day would pass the design peak; check people, fixtures "
                              "and continuous flows",
    [QLL_ESTIMATE_MEASURED] =
        "the building has drawn more than the design peak, so the design peak "
        "is too low or something leaks or was left running",
};

void qll_wording_disagreement(qll_writer *writer, qll_unit_system units, const qll_demand *demand,
                              const qll_disagreement *disagreement)
{
    const qll_peak_estimate *estimate = &demand->estimates[disagreement->estimate];
    const estimate_kind kind = kind_of(estimate->method);
    qll_write(writer, qll_peak_method_words[estimate->method]);
    qll_write(writer, " gives ");
    qll_units_write(writer, estimate->peak_m3s, QLL_KIND_FLOW, units);
    qll_write_format(writer, ", %.2f times the design peak: ", disagreement->ratio);
    qll_write(writer, disagreement->ratio < 1.0 ? less[kind] : more[kind]);
    qll_write(writer, ".");
}
