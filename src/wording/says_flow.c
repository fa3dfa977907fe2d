/* How a plumber makes a flow run and measures it. */
#include "base/count.h"
#include "base/customary.h"
#include "wording/texts.h"
#include "wording/wording.h"

#include <math.h>
#include <stdint.h>

/* ---- what is opened ---- */

/* Up to so much a faucet gives the flow: by the flows of data/fixtures.csv, a lavatory 1.5, a shower 2 gpm (common
 * practice, no source). */
typedef struct faucet {
    double up_to_gpm;
    bool is_shower;
    qll_message says;
} faucet;

static const faucet faucets[] = {
    {0.4, false, QLL_SAYS_TAP_TRICKLE},
    {1.1, false, QLL_SAYS_TAP_HALF},
    {1.8, false, QLL_SAYS_TAP_LAVATORY},
    {2.6, true, QLL_SAYS_TAP_SHOWER},
};

/* A faucet of the building that gives about as much; NULL if it has none. */
static const char *like_text(qll_writer *writer, qll_language language, const qll_flow_run *run,
                             double gpm)
{
    size_t at = 0;
    while (at < QLL_COUNT(faucets) && gpm > faucets[at].up_to_gpm) {
        at += 1;
    }
    bool has =
        at < QLL_COUNT(faucets) && (faucets[at].is_shower ? run->has_shower : run->has_lavatory);
    if (!has) {
        return NULL;
    }
    const qll_filling what = {"what", qll_say(language, faucets[at].says)};
    return qll_text_said(writer, language, QLL_SAYS_RUN_LIKE, &what, 1);
}

/* What follows the hose valve: ", 2 kitchen faucets and 1 shower"; NULL if nothing more is opened. */
static const char *taps_text(qll_writer *writer, qll_language language, const qll_flow_run *run)
{
    qll_writer taps = qll_writer_new(writer->arena);
    size_t last = SIZE_MAX; /* more follows where it is short */
    for (size_t t = 0; t < QLL_TAP_COUNT; t++) {
        last = run->opened[t] > 0 && !run->is_short ? t : last;
    }
    for (size_t t = 0; t < QLL_TAP_COUNT; t++) {
        if (run->opened[t] > 0) {
            const qll_filling fillings[] = {
                {"count", qll_text_whole(writer, (double)run->opened[t])},
                {"s", run->opened[t] > 1 ? "s" : NULL}};
            qll_write(&taps, t == last ? qll_say(language, QLL_SAYS_AND) : ", ");
            qll_say_with(&taps, language, (qll_message)((size_t)QLL_SAYS_TAPS_TUB + t), fillings,
                         QLL_COUNT(fillings));
        }
    }
    return taps.size == 0 ? NULL : qll_writer_text(&taps).bytes;
}

/* ---- how it is measured ---- */

/* Seconds as they are counted: from two minutes on to five of them. */
static const char *seconds_text(qll_writer *writer, double seconds)
{
    double rounded = seconds < 120.0 ? round(seconds) : 5.0 * round(seconds / 5.0);
    return qll_text_whole(writer, fmax(rounded, 1.0));
}

/* A jug takes 10 s or more below these flows; above, a bucket, as long as the hose valve alone gives the flow. */
#define QLL_JUG_GPM 3.1
#define QLL_JUG_LPS 0.1

static const char *vessel_text(qll_writer *writer, const qll_wording *wording, bool is_jug,
                               double flow_m3s)
{
    bool is_si = wording->units == QLL_UNITS_SI;
    double volume_m3 = is_si ? (is_jug ? 1e-3 : 1e-2) : (is_jug ? 1.0 : 5.0) * QLL_GPM_M3S * 60.0;
    qll_message jug = is_si ? QLL_SAYS_JUG_SI : QLL_SAYS_JUG;
    qll_message bucket = is_si ? QLL_SAYS_BUCKET_SI : QLL_SAYS_BUCKET;
    double quarts = round(4.0 * flow_m3s / QLL_GPM_M3S);
    bool is_whole = fabs(4.0 * flow_m3s / QLL_GPM_M3S - quarts) < 1e-6;
    bool has_quarts = !is_si && is_jug && is_whole && quarts > 1.0 && quarts < 4.0;
    const qll_filling fillings[] = {
        {"what", qll_say(wording->language, is_jug ? jug : bucket)},
        {"time", seconds_text(writer, volume_m3 / flow_m3s)},
        {"count", qll_text_whole(writer, quarts)},
    };
    qll_message says = has_quarts ? QLL_SAYS_MEASURE_JUG_QUARTS
                       : is_jug   ? QLL_SAYS_MEASURE_JUG
                                  : QLL_SAYS_MEASURE_BUCKET;
    return qll_text_said(writer, wording->language, says, fillings, 3);
}

/* A turn of the sweep hand of a meter in the US: 1 cubic foot up to 1 in, 10 cubic feet above (common
 * practice, no source). */
#define QLL_SMALL_METER_M (1.05 * QLL_INCH_M)
#define QLL_CUBIC_FOOT_M3 (QLL_FOOT_M * QLL_FOOT_M * QLL_FOOT_M)
/* A hand counts nothing well that takes less: a second is a fifteenth of it (our assumption). */
#define QLL_COUNTED_S     15.0

static const char *meter_text(qll_writer *writer, const qll_wording *wording, double flow_m3s)
{
    double meter_nominal_m = qll_site_meter_nominal_m(wording->site);
    if (wording->units == QLL_UNITS_US && isfinite(meter_nominal_m)) {
        double foot_s = QLL_CUBIC_FOOT_M3 / flow_m3s;
        bool is_large = meter_nominal_m > QLL_SMALL_METER_M;
        bool is_turn = is_large && foot_s < QLL_COUNTED_S;
        const qll_filling time = {"time", seconds_text(writer, is_turn ? 10.0 * foot_s : foot_s)};
        qll_message says = is_turn    ? QLL_SAYS_MEASURE_HAND_TURN
                           : is_large ? QLL_SAYS_MEASURE_HAND_LARGE
                                      : QLL_SAYS_MEASURE_HAND;
        return qll_text_said(writer, wording->language, says, &time, 1);
    }
    double unit_m3 = wording->units == QLL_UNITS_SI ? 1e-3 : QLL_GPM_M3S * 60.0;
    qll_writer volume = qll_writer_new(writer->arena);
    qll_write_format(&volume, "%.0f %s", fmax(round(60.0 * flow_m3s / unit_m3), 1.0),
                     qll_units_name(QLL_KIND_VOLUME, wording->units));
    const qll_filling value = {"value", qll_writer_text(&volume).bytes};
    return qll_text_said(writer, wording->language, QLL_SAYS_MEASURE_MINUTE, &value, 1);
}

/* A meter hardly moves below about 1 gpm for each inch of its size (common practice, no source). */
const char *qll_wording_meter_note(qll_writer *writer, const qll_wording *wording, double flow_m3s)
{
    double meter_nominal_m = qll_site_meter_nominal_m(wording->site);
    double least_m3s = meter_nominal_m / QLL_INCH_M * QLL_GPM_M3S;
    if (!(flow_m3s < least_m3s)) {
        return NULL;
    }
    const qll_filling fillings[] = {
        {"size", qll_text_size(writer, meter_nominal_m, wording->units)},
        {"flow", qll_text_quantity(writer, least_m3s, QLL_KIND_FLOW, wording->units)}};
    return qll_text_said(writer, wording->language, QLL_SAYS_METER_TOO_LARGE, fillings, 2);
}

void qll_wording_make_flow(qll_writer *writer, const qll_wording *wording, const qll_flow_run *run)
{
    const qll_language language = wording->language;
    bool is_si = wording->units == QLL_UNITS_SI;
    double shown_m3s = qll_units_rounded(run->flow_m3s, QLL_KIND_FLOW, wording->units);
    double gpm = shown_m3s / QLL_GPM_M3S;
    bool is_jug = is_si ? shown_m3s <= QLL_JUG_LPS * 1e-3 : gpm <= QLL_JUG_GPM;
    const char *taps = taps_text(writer, language, run);
    bool is_bucket = taps == NULL && !run->is_short;
    const qll_filling fillings[] = {
        {"flow", qll_text_quantity(writer, run->flow_m3s, QLL_KIND_FLOW, wording->units)},
        {"taps", taps},
        {"then", is_bucket ? vessel_text(writer, wording, is_jug, shown_m3s)
                           : meter_text(writer, wording, shown_m3s)},
        {"like", like_text(writer, language, run, gpm)},
    };
    qll_message says = run->is_for_busiest_hour ? QLL_SAYS_MAKE_FLOW_BUSY
                       : run->is_short          ? QLL_SAYS_MAKE_FLOW_SHORT
                       : taps != NULL           ? QLL_SAYS_MAKE_FLOW_MORE
                                                : QLL_SAYS_MAKE_FLOW;
    qll_say_with(writer, language, says, fillings, QLL_COUNT(fillings));
}

/* ---- setting a valve ---- */

/* To half a psi per 10 psi or 0.05 bar per bar; nothing below. */
const char *qll_wording_correction(qll_writer *writer, const qll_wording *wording,
                                   const char *gauge, double correction_pa_per_10psi)
{
    bool is_si = wording->units == QLL_UNITS_SI;
    double per_pa = is_si ? 1e5 : 10.0 * QLL_PSI_PA;
    double step_pa = is_si ? QLL_GAUGE_SI_PA : 0.5 * QLL_PSI_PA;
    double change_pa = correction_pa_per_10psi / (10.0 * QLL_PSI_PA) * per_pa;
    double steps = round(fabs(change_pa) / step_pa);
    if (!(steps > 0.0)) {
        return NULL;
    }
    qll_writer value = qll_writer_new(writer->arena);
    qll_write_format(&value, "%g %s", steps * (is_si ? 0.05 : 0.5),
                     qll_units_name(QLL_KIND_PRESSURE_DIFFERENCE, wording->units));
    const qll_filling fillings[] = {
        {"value", qll_writer_text(&value).bytes},
        {"between", is_si ? "1 bar" : "10 psi"},
        {"gauge", gauge},
    };
    return qll_text_said(writer, wording->language,
                         change_pa > 0.0 ? QLL_SAYS_SET_ADD : QLL_SAYS_SET_TAKE_OFF, fillings, 3);
}

void qll_wording_set_valve(qll_writer *writer, const qll_wording *wording, const char *name,
                           size_t stage, const qll_setting *setting, const qll_flow_run *run)
{
    if (!isfinite(setting->reading_pa_gauge)) {
        return;
    }
    const qll_unit_system units = wording->units;
    const char *gauge = qll_gauge_name(writer->arena, stage);
    qll_writer how = qll_writer_new(writer->arena);
    qll_wording_make_flow(&how, wording, run);
    const qll_filling fillings[] = {
        {"valve", name},
        {"what", qll_writer_text(&how).bytes},
        {"gauge", gauge},
        {"outlet", qll_gauge_name(writer->arena, stage + 1)},
        {"inlet", qll_text_quantity(writer, setting->inlet_pa_gauge, QLL_KIND_PRESSURE, units)},
        {"pressure",
         qll_text_quantity(writer, setting->reading_pa_gauge, QLL_KIND_PRESSURE, units)},
        {"note", qll_wording_correction(writer, wording, gauge, setting->correction_pa_per_10psi)},
    };
    qll_say_with(writer, wording->language, QLL_SAYS_SET_VALVE, fillings, QLL_COUNT(fillings));
}
