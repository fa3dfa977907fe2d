/* The peak of the pulse model's day, of a meter's log, and the one a survey gives. */
#include "demand/peaks.h"

#include <math.h>

static const char *people_word(qll_use use)
{
    static const char *const words[QLL_USE_COUNT] = {
        [QLL_USE_APARTMENT] = "people", [QLL_USE_HOUSE] = "people",  [QLL_USE_OFFICE] = "occupants",
        [QLL_USE_HOTEL] = "guests",     [QLL_USE_SCHOOL] = "pupils", [QLL_USE_HOSPITAL] = "beds",
        [QLL_USE_RESTAURANT] = "meals",
    };
    return words[use];
}

static void estimate_pulse(qll_peaks *all, const qll_pulse_day *day)
{
    const qll_scenario *scenario = all->scenario;
    if (scenario->people <= 0.0 && all->continuous_m3s <= 0.0) {
        all->reasons[QLL_PEAK_PULSE_MODEL] = "the scenario counts no people";
        return;
    }
    double peak_m3s = 0.0;
    for (size_t h = 0; h < 24; h++) {
        peak_m3s = fmax(peak_m3s, day->hours[h].quantile_m3s);
    }
    qll_writer note = qll_writer_new(all->arena);
    qll_write_format(&note,
                     "Not passed for %.4g %% of the busiest hour of an average %s of %.6g %s, leak "
                     "and continuous flows included. Real days have busier hours than an average "
                     "one: read it as the flow the station works at, not as a code figure.",
                     100.0 * scenario->quantile,
                     qll_day_kind_words[day->is_other_day ? QLL_DAY_WEEKDAY : scenario->day],
                     scenario->people, people_word(scenario->use));
    if (day->is_other_day) {
        qll_write_format(&note, " No hours are known for a %s; those of a weekday are taken.",
                         qll_day_kind_words[scenario->day]);
    }
    const char *says = qll_peaks_written(all, &note);
    qll_writer source = qll_writer_new(all->arena);
    qll_write(&source, "Poisson rectangular pulses (Buchberger and Wu 1995), compound Poisson by "
                       "hour; end uses partly our assumption, source in each row of "
                       "data/enduse.csv; hours: ");
    qll_write(&source, day->shape_source);
    qll_peaks_add(all, (qll_peak_estimate){
                           .method = QLL_PEAK_PULSE_MODEL,
                           .peak_m3s = peak_m3s,
                           .table = "our default end uses, data/enduse.csv and data/diurnal.csv",
                           .source = qll_peaks_written(all, &source),
                           .note = says,
                       });
}

/* What the readings hide, and by which factor it is made good. */
static void note_hidden(qll_writer *note, const qll_scenario *scenario,
                        const qll_resolved *resolved)
{
    if (scenario->metered->interval_s > QLL_RESOLVED_S) {
        qll_write(note, " Readings so far apart resolve neither the peak nor low flow: never size "
                        "from them alone.");
    }
    if (resolved->days > 0) {
        qll_write_format(note,
                         " The figure is that mean times %.2f: in a simulated building (%s, %.3g "
                         "%s) whose readings rise as high, single seconds rise so much higher. It "
                         "depends on the use and rather lies too high.",
                         resolved->factor, qll_use_words[scenario->use], resolved->people,
                         people_word(scenario->use));
    }
}

qll_status qll_estimate_metered(qll_peaks *all, qll_resolved *resolved)
{
    const qll_metered *log = all->scenario->metered;
    *resolved = (qll_resolved){.factor = 1.0};
    if (log == NULL) {
        all->reasons[QLL_PEAK_METERED] = "the scenario has no meter's log";
        return QLL_OK;
    }
    const qll_status status = qll_resolve(all->scenario, all->arena, resolved);
    if (status != QLL_OK) {
        return status;
    }
    const qll_metered_peak finest = log->peaks[0];
    qll_writer note = qll_writer_new(all->arena);
    qll_write_format(&note,
                     "Greatest mean over %.6g s in %.3g h of readings every %.6g s; a longer log "
                     "would hold a greater one.",
                     finest.averaging_s, log->time_s / 3600.0, log->interval_s);
    note_hidden(&note, all->scenario, resolved);
    qll_peaks_add(all,
                  (qll_peak_estimate){
                      .method = QLL_PEAK_METERED,
                      .peak_m3s = finest.flow_m3s * resolved->factor,
                      .table = log->name,
                      .source = resolved->days == 0
                                    ? "the meter's log of the survey"
                                    : "the meter's log of the survey; what its readings hide by "
                                      "the pulse model, docs/theory/metered.md",
                      .note = qll_peaks_written(all, &note)});
    return QLL_OK;
}

static void estimate_given(qll_peaks *all)
{
    const double given = all->scenario->peak_given_m3s;
    if (isnan(given)) {
        all->reasons[QLL_PEAK_GIVEN] = "no peak is given";
        return;
    }
    if (given < all->continuous_m3s) {
        all->reasons[QLL_PEAK_GIVEN] =
            "the peak that is given is less than the continuous flows that run at one time";
        return;
    }
    qll_peaks_add(all, (qll_peak_estimate){.method = QLL_PEAK_GIVEN,
                                           .peak_m3s = given,
                                           .table = "given in the survey",
                                           .source = "the survey's own design peak",
                                           .note = "Continuous flows are taken to be part of it."});
}

void qll_estimate_day(qll_peaks *all, const qll_pulse_day *day)
{
    estimate_pulse(all, day);
    estimate_given(all);
}
