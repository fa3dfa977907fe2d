#include "station/flow_noise.h"

#include <math.h>

/* Acoustical efficiency of a globe body, 10^-4.6, and N14 of Kv: docs/theory/noise.md. */
#define QLL_GLOBE_EFFICIENCY 2.5118864315095803e-5
#define QLL_N14_KV           0.0049

void qll_noise_shape_make(const qll_noise_path *path, qll_noise_shape *shape)
{
    shape->path = path;
    shape->most = 0.0;
    for (size_t i = 0; i < QLL_SHAPE_ROOM; i++) {
        shape->value[i] = qll_noise_flow_shape(path, exp((double)i / QLL_SHAPE_PER_E));
        shape->most = fmax(shape->most, shape->value[i]);
    }
}

qll_flow_noise qll_flow_noise_of(const qll_branch *branch, const qll_water *water,
                                 const qll_noise_shape *shape)
{
    const qll_valve *valve = branch->valve;
    if (shape == NULL) {
        return (qll_flow_noise){.shape = NULL};
    }
    double jet_per = sqrt(2.0 / water->density_kg_m3) / valve->fl; /* Uvc over sqrt(dp) */
    double bore_m = shape->path->bore_m;
    double seat_m = qll_valve_seat_m(valve);
    return (qll_flow_noise){
        .shape = shape,
        .energy_per =
            3.2e9 * water->density_kg_m3 * QLL_GLOBE_EFFICIENCY * jet_per / (bore_m * bore_m),
        .peak_per = 0.036 * valve->fl * sqrt(valve->fl) / sqrt(sqrt(valve->fd))
                    / (QLL_N14_KV * branch->pipe_bore_m * seat_m) * jet_per,
    };
}

double qll_flow_noise_energy(const qll_flow_noise *of, double flow_m3s, double drop_pa,
                             double kv_m3h, double xfzp1, double per_head)
{
    if (of->shape == NULL || !(drop_pa > 0.0) || !(flow_m3s > 0.0)) {
        return 0.0;
    }
    double root = sqrt(drop_pa);
    double peak_hz = of->peak_per * sqrt(kv_m3h / xfzp1) / xfzp1 * per_head * root;
    double at = log(peak_hz) * QLL_SHAPE_PER_E;
    double shape = of->shape->value[0];
    if (at >= QLL_SHAPE_ROOM - 1) {
        shape = of->shape->value[QLL_SHAPE_ROOM - 1];
    } else if (at > 0.0) {
        size_t i = (size_t)at;
        double share = at - (double)i;
        shape = of->shape->value[i] + share * (of->shape->value[i + 1] - of->shape->value[i]);
    }
    return of->energy_per * flow_m3s * drop_pa * root * shape;
}
