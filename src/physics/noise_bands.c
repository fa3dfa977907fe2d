/* The spectrum of IEC 60534-8-4 in third octaves, and its A-weighted sum. */
#include "physics/noise_parts.h"

#include <assert.h>
#include <math.h>

/* Nominal mid-frequencies (IEC 61260) and A-weights, as an open fluid-dynamics library (fluids)
 * prints them for the 2015 edition. */
typedef struct third_octave {
    double centre_hz, weight_db;
} third_octave;

static const third_octave bands[QLL_NOISE_BAND_COUNT] = {
    {12.5, -63.4}, {16, -56.7},   {20, -50.5},   {25, -44.7},  {31.5, -39.4}, {40, -34.6},
    {50, -30.2},   {63, -26.2},   {80, -22.5},   {100, -19.1}, {125, -16.1},  {160, -13.4},
    {200, -10.9},  {250, -8.6},   {315, -6.6},   {400, -4.8},  {500, -3.2},   {630, -1.9},
    {800, -0.8},   {1000, 0},     {1250, 0.6},   {1600, 1.0},  {2000, 1.2},   {2500, 1.3},
    {3150, 1.2},   {4000, 1.0},   {5000, 0.5},   {6300, -0.1}, {8000, -1.1},  {10000, -2.5},
    {12500, -4.3}, {16000, -6.6}, {20000, -9.3},
};

/* What brings the spectra to the whole: per octave in 2005, per third octave in 2015. */
static const double turbulent_offset_db[QLL_NOISE_EDITION_COUNT] = {
    [QLL_NOISE_2015] = 8.0, [QLL_NOISE_2005] = 3.1};
static const double cavitating_offset_db[QLL_NOISE_EDITION_COUNT] = {
    [QLL_NOISE_2015] = 9.0, [QLL_NOISE_2005] = 3.5};
/* 10^(-offset/10) of 2015. */
static const double turbulent_factor = 0.15848931924611135;
static const double cavitating_factor = 0.12589254117941673;

static const double pi = 3.14159265358979323846;

static bool pipe_makes_sense(const qll_noise_pipe *pipe)
{
    return pipe->bore_m > 0 && pipe->wall_m > 0 && pipe->wall_density_kg_m3 > 0
           && pipe->wall_sound_speed_m_s > 0 && pipe->air_density_kg_m3 > 0
           && pipe->air_sound_speed_m_s > 0;
}

double qll_noise_loss_change_db(double ring_hz, double frequency_hz)
{
    double ratio = frequency_hz / ring_hz;
    return -20 * log10(1 / ratio + ratio * sqrt(ratio));
}

/* Transmission loss of the wall, TL(f) in dB: a negative number that is added. */
static double loss_db(const qll_noise_path *path, double frequency_hz)
{
    assert(path != NULL);
    return path->ring_loss_db + qll_noise_loss_change_db(path->ring_hz, frequency_hz);
}

void qll_noise_path_make(const qll_noise_pipe *pipe, qll_noise_path *path)
{
    assert(pipe != NULL && path != NULL);
    *path = (qll_noise_path){.limit = pipe->is_plastic ? QLL_NOISE_PLASTIC : QLL_NOISE_WITHIN,
                             .bore_m = pipe->bore_m,
                             .ring_hz = NAN,
                             .ring_loss_db = NAN,
                             .spread_db = NAN,
                             .spread_share = NAN};
    if (!pipe_makes_sense(pipe)) {
        path->limit = pipe->is_plastic ? QLL_NOISE_PLASTIC : QLL_NOISE_NO_CASE;
        return;
    }
    double outside_m = pipe->bore_m + 2 * pipe->wall_m;
    path->ring_hz = pipe->wall_sound_speed_m_s / (pi * pipe->bore_m);
    path->ring_loss_db =
        -10
        - 10
              * log10(pipe->wall_sound_speed_m_s * pipe->wall_density_kg_m3 * pipe->wall_m
                      / (pipe->air_sound_speed_m_s * pipe->air_density_kg_m3 * pipe->bore_m));
    path->spread_share = outside_m / (outside_m + 2);
    path->spread_db = 10 * log10((outside_m + 2) / outside_m);
    for (size_t k = 0; k < QLL_NOISE_BAND_COUNT; k++) {
        double f = bands[k].centre_hz;
        path->weight[k] = pow(10, (loss_db(path, f) + bands[k].weight_db) / 10);
        path->cube[k] = f * f * f / 4;
        path->inverse[k] = 1 / f;
        path->power[k] = f * sqrt(f) / 4;
        path->inverse_power[k] = 1 / (f * sqrt(f));
    }
}

/* Equation 17: the shape of turbulent noise. */
static double turbulent_db(double frequency_hz, double peak_hz, qll_noise_edition edition)
{
    double ratio = frequency_hz / peak_hz;
    return -10 * log10(ratio * ratio * ratio / 4 + 1 / ratio) - turbulent_offset_db[edition];
}

/* Equation 18: the shape of cavitation noise. */
static double cavitating_db(double frequency_hz, double peak_hz, qll_noise_edition edition)
{
    double ratio = frequency_hz / peak_hz;
    double power = ratio * sqrt(ratio);
    return -10 * log10(power / 4 + 1 / power) - cavitating_offset_db[edition];
}

static double share_cavitating(const qll_noise_source *source)
{
    return source->efficiency_cavitating
           / (source->efficiency_turbulent + source->efficiency_cavitating);
}

double qll_noise_fill_bands(const qll_noise_path *path, qll_noise_edition edition, qll_noise *noise)
{
    const qll_noise_source *source = &noise->source;
    double cavitating = share_cavitating(source);
    double weighted_db[QLL_NOISE_BAND_COUNT];
    for (size_t k = 0; k < QLL_NOISE_BAND_COUNT; k++) {
        qll_noise_band *band = &noise->bands[k];
        double f = bands[k].centre_hz;
        band->centre_hz = f;
        band->weight_db = bands[k].weight_db;
        band->loss_db = loss_db(path, f);
        band->turbulent_db = turbulent_db(f, source->peak_turbulent_hz, edition);
        band->cavitating_db = cavitating_db(f, source->peak_cavitating_hz, edition);
        double energy = (1 - cavitating) * pow(10, band->turbulent_db / 10);
        if (source->is_cavitating) {
            energy += cavitating * pow(10, band->cavitating_db / 10);
        }
        band->inside_db = source->inside_db + 10 * log10(energy);
        band->outside_db = band->inside_db + band->loss_db - path->spread_db;
        weighted_db[k] = band->outside_db + band->weight_db;
    }
    return qll_level_sum_db(weighted_db, QLL_NOISE_BAND_COUNT);
}

/* Sum of weight / (rising a + falling b) over the bands. Divisions would take nearly all of the time, so
 * four bands share one: (w/d + x/e) = (w e + x d)/(d e), twice over. Both spectra have d >= 1. */
static double sum_of_shape(const double *weight, const double *rising, double a,
                           const double *falling, double b)
{
    double sum = 0;
    size_t k = 0;
    for (; k + 4 <= QLL_NOISE_BAND_COUNT; k += 4) {
        double d0 = rising[k] * a + falling[k] * b;
        double d1 = rising[k + 1] * a + falling[k + 1] * b;
        double d2 = rising[k + 2] * a + falling[k + 2] * b;
        double d3 = rising[k + 3] * a + falling[k + 3] * b;
        double left = weight[k] * d1 + weight[k + 1] * d0;
        double right = weight[k + 2] * d3 + weight[k + 3] * d2;
        d0 *= d1;
        d2 *= d3;
        sum += (left * d2 + right * d0) / (d0 * d2);
    }
    for (; k < QLL_NOISE_BAND_COUNT; k++) {
        sum += weight[k] / (rising[k] * a + falling[k] * b);
    }
    return sum;
}

double qll_noise_flow_shape(const qll_noise_path *path, double peak_hz)
{
    double inside = turbulent_factor
                    * sum_of_shape(path->weight, path->cube, 1 / (peak_hz * peak_hz * peak_hz),
                                   path->inverse, peak_hz);
    return inside * pow(10, -path->spread_db / 10);
}

double qll_noise_shape_energy(const qll_noise_source *source, const qll_noise_path *path)
{
    double peak = source->peak_turbulent_hz;
    double turbulent =
        sum_of_shape(path->weight, path->cube, 1 / (peak * peak * peak), path->inverse, peak);
    double share = share_cavitating(source);
    double energy = (1 - share) * turbulent_factor * turbulent;
    if (source->is_cavitating) {
        double high = source->peak_cavitating_hz * sqrt(source->peak_cavitating_hz);
        energy += share * cavitating_factor
                  * sum_of_shape(path->weight, path->power, 1 / high, path->inverse_power, high);
    }
    return energy;
}

double qll_level_sum_db(const double *levels_db, size_t count)
{
    assert(levels_db != NULL || count == 0);
    double energy = 0;
    for (size_t i = 0; i < count; i++) {
        energy += pow(10, levels_db[i] / 10);
    }
    return energy == 0 ? -(double)INFINITY : 10 * log10(energy);
}
