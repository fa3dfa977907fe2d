/* The peak of the pulse model's day, of a meter's log, and the one a survey gives. */
#include "demand/peaks.h"

#include <math.h>

static void estimate_pulse(qll_peaks *all, const qll_pulse_day *day)
{
    const qll_scenario *scenario = all->scenario;
    if (scenario->people <= 0.0 && all->continuous_m3s <= 0.0) {
        all->reasons[QLL_PEAK_PULSE_MODEL] =
            qll_peaks_remark(all, (qll_remark){.id = QLL_REMARK_NO_PEOPLE});
        return;
    }
    double peak_m3s = 0.0;
    for (size_t h = 0; h < 24; h++) {
        peak_m3s = fmax(peak_m3s, day->hours[h].quantile_m3s);
    }
    qll_remarks notes = {0};
    qll_peaks_note(all, &notes,
                   (qll_remark){.id = QLL_REMARK_PULSE,
                                .use = scenario->use,
                                .day = day->is_other_day ? QLL_DAY_WEEKDAY : scenario->day,
                                .figures = {scenario->quantile, scenario->people}});
    qll_peaks_note(all, &notes, (qll_remark){.id = QLL_REMARK_PULSE_READ_AS});
    if (day->is_other_day) {
        qll_peaks_note(all, &notes, (qll_remark){.id = QLL_REMARK_NO_HOURS, .day = scenario->day});
    }
    qll_peaks_add(
        all, (qll_peak_estimate){
                 .method = QLL_PEAK_PULSE_MODEL,
                 .peak_m3s = peak_m3s,
                 .table = {.id = QLL_TEXT_TABLE_OWN_USES},
                 .source = {QLL_TEXT_SOURCE_PULSES, {qll_as_said(all->arena, day->shape_source)}},
                 .notes = notes.first,
             });
}

/* What the readings hide, and by which factor it is made good. */
static void note_hidden(qll_peaks *all, const qll_resolved *resolved, qll_remarks *notes)
{
    if (all->scenario->metered->interval_s > QLL_RESOLVED_S) {
        qll_peaks_note(all, notes, (qll_remark){.id = QLL_REMARK_LOG_HIDES});
    }
    if (resolved->days > 0) {
        qll_peaks_note(all, notes,
                       (qll_remark){.id = QLL_REMARK_LOG_FACTOR,
                                    .use = all->scenario->use,
                                    .figures = {resolved->factor, resolved->people}});
    }
}

qll_status qll_estimate_metered(qll_peaks *all, qll_resolved *resolved)
{
    const qll_metered *log = all->scenario->metered;
    *resolved = (qll_resolved){.factor = 1.0};
    if (log == NULL) {
        all->reasons[QLL_PEAK_METERED] =
            qll_peaks_remark(all, (qll_remark){.id = QLL_REMARK_NO_LOG});
        return QLL_OK;
    }
    const qll_status status = qll_resolve(all->scenario, all->arena, resolved);
    if (status != QLL_OK) {
        return status;
    }
    const qll_metered_peak finest = log->peaks[0];
    qll_remarks notes = {0};
    qll_peaks_note(
        all, &notes,
        (qll_remark){.id = log->interval_s > 0.0 ? QLL_REMARK_LOG : QLL_REMARK_LOG_EVENTS,
                     .figures = {finest.averaging_s, log->time_s, log->interval_s}});
    note_hidden(all, resolved, &notes);
    qll_peaks_add(all, (qll_peak_estimate){.method = QLL_PEAK_METERED,
                                           .peak_m3s = finest.flow_m3s * resolved->factor,
                                           .table = {QLL_TEXT_VALUE, {qll_as_is(log->name)}},
                                           .source = {.id = resolved->days == 0
                                                                ? QLL_TEXT_SOURCE_LOG
                                                                : QLL_TEXT_SOURCE_LOG_RESOLVED},
                                           .notes = notes.first});
    return QLL_OK;
}

static void estimate_given(qll_peaks *all)
{
    const double given = all->scenario->peak_given_m3s;
    if (isnan(given)) {
        all->reasons[QLL_PEAK_GIVEN] =
            qll_peaks_remark(all, (qll_remark){.id = QLL_REMARK_NO_PEAK});
        return;
    }
    if (given < all->continuous_m3s) {
        all->reasons[QLL_PEAK_GIVEN] =
            qll_peaks_remark(all, (qll_remark){.id = QLL_REMARK_PEAK_TOO_LOW});
        return;
    }
    qll_remarks notes = {0};
    qll_peaks_note(all, &notes, (qll_remark){.id = QLL_REMARK_GIVEN});
    qll_peaks_add(all, (qll_peak_estimate){.method = QLL_PEAK_GIVEN,
                                           .peak_m3s = given,
                                           .table = {.id = QLL_TEXT_TABLE_GIVEN},
                                           .source = {.id = QLL_TEXT_SOURCE_GIVEN},
                                           .notes = notes.first});
}

void qll_estimate_day(qll_peaks *all, const qll_pulse_day *day)
{
    estimate_pulse(all, day);
    estimate_given(all);
}
