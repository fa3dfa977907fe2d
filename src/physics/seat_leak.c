#include "physics/seat_leak.h"

#include <math.h>
#include <stdbool.h>

/* What the closed piping takes in for each pascal, m3/Pa: eq. 1. */
static double compliance_m3_per_pa(const qll_creep_test *test)
{
    const bool makes_sense = test->drawn_m3 > 0.0 && test->fall_pa > 0.0;
    return makes_sense ? test->drawn_m3 / test->fall_pa : (double)NAN;
}

double qll_seat_leak_m3s(const qll_creep_test *test)
{
    const bool makes_sense = test->rise_pa >= 0.0 && test->time_s > 0.0;
    return makes_sense ? compliance_m3_per_pa(test) * test->rise_pa / test->time_s : (double)NAN;
}

double qll_seat_leak_good_m3s(double nominal_m)
{
    const double ml_per_minute_and_inch = 0.2;
    return ml_per_minute_and_inch * 1e-6 / 60.0 * nominal_m / 0.0254;
}

double qll_seat_leak_bad_m3s(void)
{
    return 3e-6 / 60.0;
}

double qll_drop_m3(void)
{
    return 0.05e-6;
}
