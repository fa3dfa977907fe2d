/* How a plumber makes a flow run and measures it. */
#include "base/count.h"
#include "base/customary.h"
#include "wording/texts.h"
#include "wording/wording.h"

#include <math.h>

/* ---- which tap ---- */

/* Up to so much the tap gives the flow: by the flows of data/fixtures.csv, a lavatory 1.5, a shower 2, a
 * hose bibb 5 gpm, each opened as far as it takes (common practice, no source). */
typedef struct tap {
    double up_to_gpm;
    qll_message says;
} tap;

#define QLL_BIBB_GPM 5.0

static const tap taps[] = {
    {0.4, QLL_SAYS_TAP_TRICKLE}, {1.1, QLL_SAYS_TAP_HALF},      {1.8, QLL_SAYS_TAP_LAVATORY},
    {2.6, QLL_SAYS_TAP_SHOWER},  {4.1, QLL_SAYS_TAP_BIBB_MOST}, {7.4, QLL_SAYS_TAP_BIBB},
    {27.5, QLL_SAYS_TAP_BIBBS},
};

static const char *tap_text(qll_writer *writer, qll_language language, double gpm)
{
    size_t at = 0;
    while (at < QLL_COUNT(taps) && gpm > taps[at].up_to_gpm) {
        at += 1;
    }
    qll_message says = at < QLL_COUNT(taps) ? taps[at].says : QLL_SAYS_TAP_DRAIN;
    const qll_filling count = {"count", qll_text_whole(writer, round(gpm / QLL_BIBB_GPM))};
    return qll_text_said(writer, language, says, &count, 1);
}

/* ---- how it is measured ---- */

/* Seconds as they are counted: from a minute on to five of them. */
static const char *seconds_text(qll_writer *writer, double seconds)
{
    double rounded = seconds < 60.0 ? round(seconds) : 5.0 * round(seconds / 5.0);
    return qll_text_whole(writer, fmax(rounded, 1.0));
}

/* A jug takes 10 s or more below these flows, a bucket 20 s or so. */
#define QLL_JUG_GPM    3.1
#define QLL_BUCKET_GPM 15.0
#define QLL_JUG_LPS    0.1
#define QLL_BUCKET_LPS 0.5

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

static const char *meter_text(qll_writer *writer, const qll_wording *wording, double flow_m3s,
                              double meter_nominal_m)
{
    if (wording->units == QLL_UNITS_US && isfinite(meter_nominal_m)) {
        const qll_filling time = {"time", seconds_text(writer, QLL_CUBIC_FOOT_M3 / flow_m3s)};
        qll_message says = meter_nominal_m <= QLL_SMALL_METER_M ? QLL_SAYS_MEASURE_HAND
                                                                : QLL_SAYS_MEASURE_HAND_LARGE;
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
static bool is_too_large(double meter_nominal_m, double flow_m3s)
{
    return flow_m3s / QLL_GPM_M3S < meter_nominal_m / QLL_INCH_M;
}

void qll_wording_make_flow(qll_writer *writer, const qll_wording *wording, double flow_m3s,
                           double meter_nominal_m)
{
    bool is_si = wording->units == QLL_UNITS_SI;
    double shown_m3s = qll_units_rounded(flow_m3s, QLL_KIND_FLOW, wording->units);
    double gpm = shown_m3s / QLL_GPM_M3S;
    bool is_jug = is_si ? shown_m3s <= QLL_JUG_LPS * 1e-3 : gpm <= QLL_JUG_GPM;
    bool is_bucket = is_si ? shown_m3s <= QLL_BUCKET_LPS * 1e-3 : gpm <= QLL_BUCKET_GPM;
    const char *note = NULL;
    if (is_too_large(meter_nominal_m, shown_m3s)) {
        const qll_filling meter = {"size", qll_text_size(writer, meter_nominal_m, wording->units)};
        note = qll_text_said(writer, wording->language, QLL_SAYS_METER_TOO_LARGE, &meter, 1);
    }
    const qll_filling fillings[] = {
        {"flow", qll_text_reading(writer, flow_m3s, QLL_KIND_FLOW, wording->units)},
        {"what", tap_text(writer, wording->language, gpm)},
        {"then", is_jug || is_bucket ? vessel_text(writer, wording, is_jug, shown_m3s)
                                     : meter_text(writer, wording, shown_m3s, meter_nominal_m)},
        {"note", note},
    };
    qll_say_with(writer, wording->language, QLL_SAYS_MAKE_FLOW, fillings, 4);
}

/* ---- setting a valve ---- */

/* A gauge's line that a hand can set to (our assumption). */
#define QLL_GAUGE_SI_PA 5e3

/* What another inlet makes of the reading, to half a psi per 10 psi or 0.05 bar per bar; NULL below. */
static const char *correction_text(qll_writer *writer, const qll_wording *wording,
                                   double correction_pa_per_10psi)
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
    qll_write_format(&value, is_si ? "%.2f %s" : "%.1f %s", steps * (is_si ? 0.05 : 0.5),
                     qll_units_name(QLL_KIND_PRESSURE_DIFFERENCE, wording->units));
    const qll_filling fillings[] = {
        {"value", qll_writer_text(&value).bytes},
        {"between", is_si ? "1 bar" : "10 psi"},
    };
    return qll_text_said(writer, wording->language,
                         change_pa > 0.0 ? QLL_SAYS_SET_ADD : QLL_SAYS_SET_TAKE_OFF, fillings, 2);
}

void qll_wording_set_valve(qll_writer *writer, const qll_wording *wording, const char *name,
                           const qll_setting *setting)
{
    if (!isfinite(setting->reading_pa_gauge)) {
        return;
    }
    const qll_unit_system units = wording->units;
    qll_writer how = qll_writer_new(writer->arena);
    qll_wording_make_flow(&how, wording, setting->flow_m3s,
                          qll_site_meter_nominal_m(wording->site));
    const qll_filling fillings[] = {
        {"valve", name},
        {"what", qll_writer_text(&how).bytes},
        {"inlet", qll_text_reading(writer, setting->inlet_pa_gauge, QLL_KIND_PRESSURE, units)},
        {"pressure", qll_text_reading(writer, setting->reading_pa_gauge, QLL_KIND_PRESSURE, units)},
        {"note", correction_text(writer, wording, setting->correction_pa_per_10psi)},
    };
    qll_say_with(writer, wording->language, QLL_SAYS_SET_VALVE, fillings, 5);
}
