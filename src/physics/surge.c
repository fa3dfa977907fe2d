#include "physics/surge.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>

const char *const qll_anchoring_words[QLL_ANCHORING_COUNT] = {
    [QLL_ANCHORED_JOINTS] = "joints",
    [QLL_ANCHORED_THROUGHOUT] = "throughout",
    [QLL_ANCHORED_UPSTREAM] = "upstream",
};

double qll_anchoring_factor(qll_anchoring anchoring, double poisson)
{
    if (!(poisson >= 0 && poisson <= 0.5)) {
        return NAN;
    }
    switch (anchoring) {
    case QLL_ANCHORED_JOINTS: return 1;
    case QLL_ANCHORED_THROUGHOUT: return 1 - poisson * poisson;
    case QLL_ANCHORED_UPSTREAM: return 1.25 - poisson;
    case QLL_ANCHORING_COUNT: break;
    }
    return NAN;
}

double qll_wave_speed_m_s(const qll_surge_pipe *pipe, double bulk_modulus_pa, double density_kg_m3)
{
    assert(pipe != NULL);
    if (!(pipe->bore_m > 0 && pipe->wall_m > 0 && pipe->modulus_pa > 0 && bulk_modulus_pa > 0
          && density_kg_m3 > 0)) {
        return NAN;
    }
    double wall = bulk_modulus_pa / pipe->modulus_pa * (pipe->bore_m / pipe->wall_m)
                  * qll_anchoring_factor(pipe->anchoring, pipe->poisson);
    return sqrt(bulk_modulus_pa / density_kg_m3 / (1 + wall));
}

double qll_surge_pa(double density_kg_m3, double wave_speed_m_s, double velocity_change_m_s)
{
    return density_kg_m3 * wave_speed_m_s * velocity_change_m_s;
}
