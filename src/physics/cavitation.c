#include "physics/cavitation.h"

#include "numeric/root.h"
#include "physics/sizing.h"
#include "physics/water.h"

#include <assert.h>
#include <math.h>

const char *const qll_regime_words[QLL_REGIME_COUNT] = {
    [QLL_REGIME_QUIET] = "quiet",     [QLL_REGIME_NEAR_ONSET] = "near onset",
    [QLL_REGIME_AUDIBLE] = "audible", [QLL_REGIME_DAMAGING] = "damaging",
    [QLL_REGIME_CHOKED] = "choked",
};

/* Margins at which one regime gives way to the next (our assumption, docs/theory/cavitation.md). */
static const double near_onset_from = 0.8;
static const double audible_from = 1;
static const double damaging_from = 1.3;

static qll_regime regime_of(const qll_cavitation_case *given, double margin)
{
    double ff = qll_sizing_ff(given->vapour_pressure_pa, QLL_WATER_CRITICAL_PA);
    double choked =
        qll_sizing_choked_drop_pa(given->inlet_pa, given->fl, ff, given->vapour_pressure_pa);
    /* Written so that NaN falls through to the worst. */
    if (!(given->inlet_pa - given->outlet_pa < choked)) {
        return QLL_REGIME_CHOKED;
    }
    if (margin < near_onset_from) {
        return QLL_REGIME_QUIET;
    }
    if (margin < audible_from) {
        return QLL_REGIME_NEAR_ONSET;
    }
    if (margin <= damaging_from) {
        return QLL_REGIME_AUDIBLE;
    }
    return isnan(margin) ? QLL_REGIME_CHOKED : QLL_REGIME_DAMAGING;
}

qll_cavitation qll_cavitation_of(const qll_cavitation_case *given)
{
    assert(given != NULL);
    double inlet_pa = given->inlet_pa;
    double outlet_pa = given->outlet_pa;
    double vapour_pa = given->vapour_pressure_pa;
    if (!(inlet_pa - vapour_pa > 0 && outlet_pa > 0 && vapour_pa >= 0)) {
        return (qll_cavitation){NAN, NAN, NAN, NAN, NAN, NAN, QLL_REGIME_CHOKED};
    }
    qll_cavitation result = {
        .xf = qll_xf(inlet_pa, outlet_pa, vapour_pa),
        .sigma = qll_sigma(inlet_pa, outlet_pa, vapour_pa),
        .ratio_gauge = qll_gauge_ratio(inlet_pa, outlet_pa, given->barometric_pa),
        .ratio_absolute = qll_absolute_ratio(inlet_pa, outlet_pa),
        .xfzp1 = qll_xfz_scaled(given->xfz, given->inlet_pa),
        .margin = qll_cavitation_margin(given),
    };
    result.regime = regime_of(given, result.margin);
    return result;
}

typedef struct split {
    double inlet_pa, outlet_pa, vapour_pressure_pa;
    size_t stages;
    const double *xfz; /* NULL = all 1 */
    bool scaled;
    double *between_pa; /* NULL while the margin is sought */
} split;

/* Pressure behind the last stage when every stage runs at @p margin. It falls as the margin rises:
 * every stage takes a larger share, and a lower inlet only enlarges the next share (p^-0.125). */
static double outlet_at_margin(const split *s, double margin)
{
    double pressure = s->inlet_pa;
    for (size_t i = 0; i < s->stages; i++) {
        double xfz = s->xfz == NULL ? 1 : s->xfz[i];
        double xf = margin * (s->scaled ? qll_xfz_scaled(xfz, pressure) : xfz);
        if (xf >= 1) {
            return s->vapour_pressure_pa;
        }
        pressure -= xf * (pressure - s->vapour_pressure_pa);
        if (s->between_pa != NULL && i + 1 < s->stages) {
            s->between_pa[i] = pressure;
        }
    }
    return pressure;
}

static double outlet_error(double margin, void *context)
{
    const split *s = context;
    return outlet_at_margin(s, margin) - s->outlet_pa;
}

static bool trims_make_sense(const double *xfz, size_t stages)
{
    for (size_t i = 0; xfz != NULL && i < stages; i++) {
        if (!(xfz[i] > 0) || !isfinite(xfz[i])) {
            return false;
        }
    }
    return true;
}

bool qll_stage_split(double inlet_pa, double outlet_pa, double vapour_pressure_pa, size_t stages,
                     const double *xfz, bool scaled, double *between_pa)
{
    assert(stages <= 1 || between_pa != NULL);
    if (stages == 0 || !(inlet_pa > outlet_pa && outlet_pa > vapour_pressure_pa)
        || !(vapour_pressure_pa >= 0) || !isfinite(inlet_pa) || !trims_make_sense(xfz, stages)) {
        return false;
    }
    if (stages == 1) {
        return true;
    }
    if (xfz == NULL && !scaled) {
        /* Equal margins of equal trims: p - pv falls by one factor per stage. */
        double factor = (outlet_pa - vapour_pressure_pa) / (inlet_pa - vapour_pressure_pa);
        for (size_t i = 1; i < stages; i++) {
            between_pa[i - 1] =
                vapour_pressure_pa
                + (inlet_pa - vapour_pressure_pa) * pow(factor, (double)i / (double)stages);
        }
        return true;
    }
    split s = {.inlet_pa = inlet_pa,
               .outlet_pa = outlet_pa,
               .vapour_pressure_pa = vapour_pressure_pa,
               .stages = stages,
               .xfz = xfz,
               .scaled = scaled};
    /* At this margin the first stage alone would take all there is. */
    double first = xfz == NULL ? 1 : xfz[0];
    double most = 1 / (scaled ? qll_xfz_scaled(first, inlet_pa) : first);
    qll_root root = qll_root_find(0, most, 1e-14 * most, outlet_error, &s);
    if (!root.converged) {
        return false;
    }
    s.between_pa = between_pa;
    (void)outlet_at_margin(&s, root.value);
    return true;
}
