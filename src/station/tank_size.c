/* docs/theory/expansion.md, 11. */
#include "station/tank_size.h"

#include "base/count.h"

#include <math.h>

#define QLL_LITRE_M3      1e-3
#define QLL_US_GALLON_M3  3.785411784e-3 /* 231 in3 */
/* Beside the smallest heaters a tank may be larger than they (our assumption). */
#define QLL_TANK_SMALL_M3 (20.0 * QLL_LITRE_M3)

/* Common practice, no source. */
static const double sold_gal[] = {2, 4.5, 10, 14, 20, 35, 44, 62, 80, 90, 120};
static const double sold_l[] = {8, 12, 18, 24, 35, 50, 80, 100, 140, 200, 300, 500};

static double least_of(const double *sizes, size_t count, double unit_m3, double needed_m3)
{
    for (size_t i = 0; i < count; i++) {
        if (sizes[i] * unit_m3 >= needed_m3) {
            return sizes[i] * unit_m3;
        }
    }
    return NAN;
}

double qll_tank_sold_m3(double needed_m3, qll_unit_system units)
{
    return units == QLL_UNITS_US
               ? least_of(sold_gal, QLL_COUNT(sold_gal), QLL_US_GALLON_M3, needed_m3)
               : least_of(sold_l, QLL_COUNT(sold_l), QLL_LITRE_M3, needed_m3);
}

bool qll_tank_is_sensible(double needed_m3, double heater_m3)
{
    return needed_m3 <= fmax(heater_m3, QLL_TANK_SMALL_M3)
           && isfinite(qll_tank_sold_m3(needed_m3, QLL_UNITS_SI));
}
