/* Closed forms for liquid water. Equation numbers are those of docs/theory/water.md. */
#include "physics/water.h"

#include "base/count.h"

#include <math.h>
#include <stddef.h>

static const double zero_celsius_k = 273.15;
static const double standard_atmosphere_pa = 101325;

static double polynomial(const double *coefficients, size_t count, double x)
{
    double sum = 0;
    for (size_t i = count; i > 0; i--) {
        sum = sum * x + coefficients[i - 1];
    }
    return sum;
}

static double polynomial_slope(const double *coefficients, size_t count, double x)
{
    double sum = 0;
    for (size_t i = count - 1; i > 0; i--) {
        sum = sum * x + (double)i * coefficients[i];
    }
    return sum;
}

/* Eq. 1: Kell, J. Chem. Eng. Data 20 (1975) 97, density at one atmosphere, kg/m3 (constants from
 * memory). */
static const double kell[] = {999.83952,     16.945176,    -7.9870401e-3,
                              -46.170461e-6, 105.56302e-9, -280.54253e-12};
static const double kell_below = 16.87985e-3;

enum {
    QLL_KELL_COUNT = QLL_COUNT(kell)
};

static double density_at_atmosphere(double t)
{
    return polynomial(kell, QLL_KELL_COUNT, t) / (1 + kell_below * t);
}

/* Eq. 2: the derivative of eq. 1. */
static double expansion(double t)
{
    double over = polynomial(kell, QLL_KELL_COUNT, t);
    return kell_below / (1 + kell_below * t) - polynomial_slope(kell, QLL_KELL_COUNT, t) / over;
}

/* Eq. 3: IAPWS SR6-08, viscosity at 0.1 MPa (constants from memory). */
static double viscosity(double temperature_k)
{
    static const double factor[] = {280.68, 511.45, 61.131, 0.45903};
    static const double power[] = {-1.9, -7.7, -19.6, -40};
    double x = temperature_k / 300;
    double sum = 0;
    for (size_t i = 0; i < QLL_COUNT(factor); i++) {
        sum += factor[i] * pow(x, power[i]);
    }
    return sum * 1e-6;
}

/* Eq. 4: Wagner and Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783, saturation line (constants from
 * memory). */
static double vapour_pressure(double temperature_k)
{
    const double critical_k = 647.096;
    double v = 1 - temperature_k / critical_k;
    double root = sqrt(v);
    double v3 = v * v * v;
    double sum = -7.85951783 * v + 1.84408259 * v * root - 11.7866497 * v3 + 22.6807411 * v3 * root
                 - 15.9618719 * v3 * v + 1.80122502 * v3 * v3 * v * root;
    return QLL_WATER_CRITICAL_PA * exp(critical_k / temperature_k * sum);
}

/* Eq. 5: Marczak, J. Acoust. Soc. Am. 102 (1997) 2776, speed of sound at one atmosphere (constants
 * from memory); with pressure it rises by the mean slope between the verification values of IAPWS
 * IF97 at 300 K, 3 MPa and 80 MPa: (1634.69054 - 1507.73921)/77 m/s per MPa. */
static double sound_speed(double t, double pressure_pa)
{
    static const double marczak[] = {1402.385,    5.038813,     -5.799136e-2,
                                     3.287156e-4, -1.398845e-6, 2.787860e-9};
    const double rise_per_pa = 1.64872e-6;
    return polynomial(marczak, QLL_COUNT(marczak), t)
           + rise_per_pa * (pressure_pa - standard_atmosphere_pa);
}

/* Eq. 6: isothermal compressibility from the speed of sound, kappa_T = kappa_s + T a^2/(rho cp),
 * and its fall with pressure by Murnaghan's form. */
static double density(double t, double pressure_pa)
{
    const double heat_capacity = 4186; /* J/(kg K), between 4176 and 4220 over 0 to 100 degC */
    const double modulus_slope = 6;    /* dK/dp of water, from memory (B/A = 5) */
    double rho = density_at_atmosphere(t);
    double c = sound_speed(t, standard_atmosphere_pa);
    double a = expansion(t);
    double kappa = 1 / (rho * c * c) + (t + zero_celsius_k) * a * a / (rho * heat_capacity);
    double rise = modulus_slope * kappa * (pressure_pa - standard_atmosphere_pa);
    return rho * pow(1 + rise, 1 / modulus_slope);
}

qll_water qll_water_at(double temperature_degc, double pressure_pa)
{
    if (!(temperature_degc >= 0 && temperature_degc <= 100 && pressure_pa >= 0
          && pressure_pa <= 10e6)) {
        return (qll_water){NAN, NAN, NAN, NAN, NAN, NAN, NAN};
    }
    double rho = density(temperature_degc, pressure_pa);
    double c = sound_speed(temperature_degc, pressure_pa);
    return (qll_water){
        .temperature_degc = temperature_degc,
        .density_kg_m3 = rho,
        .viscosity_pa_s = viscosity(temperature_degc + zero_celsius_k),
        .vapour_pressure_pa = vapour_pressure(temperature_degc + zero_celsius_k),
        .sound_speed_m_s = c,
        .bulk_modulus_pa = rho * c * c,
        .expansion_per_k = expansion(temperature_degc),
    };
}

double qll_barometric_pa(double elevation_m)
{
    /* ISO 2533: T0 = 288.15 K, lapse 6.5 K/km, g0 = 9.80665 m/s2, R = 287.05287 J/(kg K). */
    const double sea_level_k = 288.15;
    const double lapse_k_m = 0.0065;
    const double exponent = 9.80665 / (287.05287 * 0.0065);
    if (!(elevation_m >= -2000 && elevation_m <= 11000)) {
        return NAN;
    }
    return standard_atmosphere_pa * pow(1 - lapse_k_m * elevation_m / sea_level_k, exponent);
}
