/* IEC 60534-8-4. Equation numbers are those of docs/theory/noise.md. Half and whole powers are
 * written as products and roots, since a search asks for very many points. */
#include "physics/noise.h"

#include "physics/cavitation.h"
#include "physics/noise_parts.h"

#include <assert.h>
#include <math.h>

const char *const qll_noise_limit_words[QLL_NOISE_LIMIT_COUNT] = {
    [QLL_NOISE_WITHIN] = "within the method",
    [QLL_NOISE_NO_CASE] = "a number is missing or makes no sense",
    [QLL_NOISE_PLASTIC] = "the method is for metal pipe only",
    [QLL_NOISE_NO_DROP] = "the outlet is not below the inlet",
    [QLL_NOISE_FLASHING] = "the outlet is at or below vapour pressure, so the water flashes",
    [QLL_NOISE_CHOKED] = "the valve is choked (xF at or above FL squared)",
    [QLL_NOISE_XF_HIGH] = "xF is above 0.8, where the cavitation terms blow up",
};

/* From the open acoustics library (Cv) and from memory (Kv). */
const double qll_noise_n14[QLL_FORM_COUNT] = {[QLL_FORM_KV] = 0.0049, [QLL_FORM_CV] = 0.0046};
const double qll_noise_n34[QLL_FORM_COUNT] = {[QLL_FORM_KV] = 1.0, [QLL_FORM_CV] = 1.17};

static const double xf_most = 0.8; /* our assumption */
/* Share of the sound power that goes downstream with a globe body (2005), and the acoustical
 * efficiency factor that holds it already (2015). */
static const double globe_downstream_share = 0.25;
static const double efficiency_2005 = 1e-4;
static const double globe_efficiency_2015 = 2.5118864315095803e-5; /* 10^-4.6 */

static bool makes_sense(const qll_noise_case *given)
{
    return given->mass_flow_kg_s > 0 && isfinite(given->mass_flow_kg_s) && given->inlet_pa > 0
           && isfinite(given->inlet_pa) && isfinite(given->outlet_pa) && given->density_kg_m3 > 0
           && given->vapour_pressure_pa >= 0 && given->vapour_pressure_pa < given->inlet_pa
           && given->sound_speed_m_s > 0 && given->coefficient > 0 && isfinite(given->coefficient)
           && given->fl > 0 && given->fl <= 1 && given->fd > 0 && given->fd <= 1
           && !(given->xfz <= 0 || given->xfz >= 1) && given->valve_bore_m > 0
           && !(given->seat_bore_m <= 0);
}

static qll_noise_limit limit_of(const qll_noise_case *given, const qll_noise_path *path, double xf)
{
    if (path->limit == QLL_NOISE_NO_CASE || !makes_sense(given)) {
        return QLL_NOISE_NO_CASE;
    }
    if (path->limit != QLL_NOISE_WITHIN) {
        return path->limit;
    }
    if (!(xf > 0)) {
        return QLL_NOISE_NO_DROP;
    }
    if (!(given->outlet_pa > given->vapour_pressure_pa)) {
        return QLL_NOISE_FLASHING;
    }
    if (xf >= given->fl * given->fl) {
        return QLL_NOISE_CHOKED;
    }
    return xf > xf_most ? QLL_NOISE_XF_HIGH : QLL_NOISE_WITHIN;
}

static bool has_source(qll_noise_limit limit)
{
    return limit == QLL_NOISE_WITHIN || limit == QLL_NOISE_CHOKED || limit == QLL_NOISE_XF_HIGH;
}

static double with_power_1_5(double x)
{
    return x * sqrt(x);
}

/* Equation 8: sound power over stream power by cavitation. */
static double cavitating_efficiency(const qll_noise_source *source, double drop_pa)
{
    double onset = source->xfzp1;
    double ratio = source->xf / onset;
    double fifth = ratio * ratio * ratio * ratio * ratio;
    return 0.32 * source->efficiency_turbulent
           * sqrt(drop_pa / source->critical_drop_pa / onset * (1 - onset) / (1 - source->xf))
           * exp(5 * onset) * fifth * with_power_1_5(source->xf - onset);
}

/* Equations 11 and 12: where the turbulent spectrum peaks. */
static void find_turbulent_peak(const qll_noise_case *given, qll_noise_source *source)
{
    double seat_m = isnan(given->seat_bore_m) ? given->valve_bore_m : given->seat_bore_m;
    double head_pa = given->inlet_pa - given->vapour_pressure_pa;
    double fd_root = sqrt(given->fd);
    source->strouhal = 0.036 * given->fl * given->fl * given->coefficient * fd_root * sqrt(fd_root)
                       / (qll_noise_n34[given->form] * with_power_1_5(source->xfzp1)
                          * given->valve_bore_m * seat_m)
                       * pow(head_pa, -0.57);
    source->peak_turbulent_hz = source->strouhal * source->jet_velocity_m_s / source->jet_m;
}

/* Equation 13. */
static double cavitating_peak_hz(const qll_noise_source *source)
{
    double left = (1 - source->xf) / (1 - source->xfzp1);
    double ratio = source->xfzp1 / source->xf;
    return 6 * source->peak_turbulent_hz * left * left * ratio * with_power_1_5(ratio);
}

static qll_noise_source no_source(qll_noise_limit limit, double xf)
{
    return (qll_noise_source){limit, xf,  NAN, NAN, false, NAN, NAN, NAN,
                              NAN,   NAN, NAN, NAN, NAN,   NAN, NAN, NAN};
}

/* What the flow alone makes, of a source that knows its xf. */
static void fill_turbulent(const qll_noise_case *given, qll_noise_edition edition,
                           qll_noise_source *source)
{
    double head_pa = given->inlet_pa - given->vapour_pressure_pa;
    double drop_pa = given->inlet_pa - given->outlet_pa;
    double single_path = given->coefficient / qll_noise_n34[given->form];
    source->xfz =
        isnan(given->xfz) ? qll_xfz_estimate(single_path, given->fl, given->fd) : given->xfz;
    source->xfzp1 = qll_xfz_scaled(source->xfz, given->inlet_pa);
    source->critical_drop_pa = fmin(drop_pa, given->fl * given->fl * head_pa);
    source->jet_m = qll_noise_n14[given->form] * given->fd * sqrt(given->coefficient * given->fl);
    source->jet_velocity_m_s =
        sqrt(2 * source->critical_drop_pa / given->density_kg_m3) / given->fl;
    double speed = source->jet_velocity_m_s * given->fl;
    source->stream_power_w = 0.5 * given->mass_flow_kg_s * speed * speed;
    source->efficiency_turbulent =
        (edition == QLL_NOISE_2015 ? globe_efficiency_2015 : efficiency_2005)
        * source->jet_velocity_m_s / given->sound_speed_m_s;
    source->efficiency_cavitating = 0;
    find_turbulent_peak(given, source);
}

/* All but the level inside the pipe. */
static qll_noise_source source_of(const qll_noise_case *given, const qll_noise_path *path,
                                  qll_noise_edition edition)
{
    double drop_pa = given->inlet_pa - given->outlet_pa;
    double head_pa = given->inlet_pa - given->vapour_pressure_pa;
    qll_noise_source source = no_source(QLL_NOISE_NO_CASE, drop_pa / head_pa);
    source.limit = limit_of(given, path, source.xf);
    if (!has_source(source.limit)) {
        source.xf = source.limit == QLL_NOISE_NO_CASE ? (double)NAN : source.xf;
        return source;
    }
    fill_turbulent(given, edition, &source);
    source.is_cavitating = source.xf > source.xfzp1;
    if (source.is_cavitating) {
        source.efficiency_cavitating = cavitating_efficiency(&source, drop_pa);
        source.peak_cavitating_hz = cavitating_peak_hz(&source);
    }
    source.sound_power_w = (source.efficiency_turbulent + source.efficiency_cavitating)
                           * source.stream_power_w
                           * (edition == QLL_NOISE_2015 ? 1 : globe_downstream_share);
    return source;
}

/* Equation 10 before its logarithm. */
static double inside_energy(const qll_noise_case *given, const qll_noise_path *path,
                            const qll_noise_source *source)
{
    return 3.2e9 * source->sound_power_w * given->density_kg_m3 * given->sound_speed_m_s
           / (path->bore_m * path->bore_m);
}

void qll_noise_of(const qll_noise_case *given, const qll_noise_path *path,
                  qll_noise_edition edition, qll_noise *noise)
{
    assert(given != NULL && path != NULL && noise != NULL && edition < QLL_NOISE_EDITION_COUNT
           && given->form < QLL_FORM_COUNT);
    *noise = (qll_noise){.source = source_of(given, path, edition),
                         .ring_hz = path->ring_hz,
                         .ring_loss_db = path->ring_loss_db,
                         .spread_db = path->spread_db,
                         .peak_loss_db = NAN,
                         .loss_turbulent_db = NAN,
                         .loss_cavitating_db = NAN};
    noise->source.inside_db = 10 * log10(inside_energy(given, path, &noise->source));
    double level_dba = qll_noise_fill_bands(path, edition, noise);
    if (edition == QLL_NOISE_2005) {
        level_dba = qll_noise_fill_2005(noise);
    }
    noise->level_dba = noise->source.limit == QLL_NOISE_WITHIN ? level_dba : (double)NAN;
}

double qll_noise_level_dba(const qll_noise_case *given, const qll_noise_path *path,
                           qll_noise_limit *limit)
{
    assert(given != NULL && path != NULL && given->form < QLL_FORM_COUNT);
    qll_noise_source source = source_of(given, path, QLL_NOISE_2015);
    if (limit != NULL) {
        *limit = source.limit;
    }
    if (source.limit != QLL_NOISE_WITHIN) {
        return NAN;
    }
    return 10 * log10(inside_energy(given, path, &source) * qll_noise_shape_energy(&source, path))
           - path->spread_db;
}

double qll_noise_turbulent_energy(const qll_noise_case *given, const qll_noise_path *path)
{
    assert(given != NULL && path != NULL && given->form < QLL_FORM_COUNT);
    if (path->limit != QLL_NOISE_WITHIN || !makes_sense(given) || isnan(given->outlet_pa)) {
        return NAN;
    }
    if (given->outlet_pa >= given->inlet_pa) {
        return 0;
    }
    qll_noise_source source = no_source(QLL_NOISE_WITHIN, NAN);
    fill_turbulent(given, QLL_NOISE_2015, &source);
    source.sound_power_w = source.efficiency_turbulent * source.stream_power_w;
    return inside_energy(given, path, &source) * qll_noise_shape_energy(&source, path)
           * path->spread_share;
}

qll_noise_range qll_noise_range_of(const qll_noise_case *given, const qll_noise_path *path,
                                   double xfz_uncertainty)
{
    assert(given != NULL && path != NULL && given->form < QLL_FORM_COUNT);
    const double least = 0.05;
    const double most = 0.95;
    qll_noise_range range = {.low_dba = NAN, .high_dba = NAN};
    range.level_dba = qll_noise_level_dba(given, path, &range.limit);
    if (range.limit != QLL_NOISE_WITHIN || !(xfz_uncertainty >= 0)) {
        return range;
    }
    double xfz = given->xfz;
    if (isnan(xfz)) {
        xfz =
            qll_xfz_estimate(given->coefficient / qll_noise_n34[given->form], given->fl, given->fd);
    }
    qll_noise_case other = *given;
    other.xfz = fmax(fmin(xfz - xfz_uncertainty, most), least);
    double early = qll_noise_level_dba(&other, path, NULL);
    other.xfz = fmax(fmin(xfz + xfz_uncertainty, most), least);
    double late = qll_noise_level_dba(&other, path, NULL);
    range.low_dba = fmin(range.level_dba, fmin(early, late));
    range.high_dba = fmax(range.level_dba, fmax(early, late));
    return range;
}
