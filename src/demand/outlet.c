#include "demand/outlet.h"

#include <math.h>

static bool in_range(double pressure_pa_gauge, double reference_pa_gauge)
{
    return pressure_pa_gauge >= 0.0 && isfinite(pressure_pa_gauge) && reference_pa_gauge > 0.0
           && isfinite(reference_pa_gauge);
}

double qll_outlet_flow_ratio(qll_outlet_response outlet, double pressure_pa_gauge,
                             double reference_pa_gauge)
{
    if (!in_range(pressure_pa_gauge, reference_pa_gauge)) {
        return (double)NAN;
    }
    if (outlet.is_regulated) {
        pressure_pa_gauge = fmin(pressure_pa_gauge, QLL_OUTLET_KNEE_PA_GAUGE);
        reference_pa_gauge = fmin(reference_pa_gauge, QLL_OUTLET_KNEE_PA_GAUGE);
    }
    return sqrt(pressure_pa_gauge / reference_pa_gauge);
}

double qll_leak_flow_ratio(double pressure_pa_gauge, double reference_pa_gauge)
{
    if (!in_range(pressure_pa_gauge, reference_pa_gauge)) {
        return (double)NAN;
    }
    return pressure_pa_gauge / reference_pa_gauge;
}
