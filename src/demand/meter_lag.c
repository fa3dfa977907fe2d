#include "demand/meter_lag.h"

#include <math.h>

void qll_meter_lag_show(qll_meter_lag *meter, double interval_s, double *flow_m3s, size_t count)
{
    const double stays = meter->lag_s > 0.0 ? exp(-interval_s / meter->lag_s) : 0.0;
    for (size_t i = 0; i < count; i++) {
        meter->level_m3s = flow_m3s[i] + (meter->level_m3s - flow_m3s[i]) * stays;
        flow_m3s[i] = meter->level_m3s < meter->least_m3s ? 0.0 : meter->level_m3s;
    }
}
