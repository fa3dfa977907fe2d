/* The closed form of IEC 60534-8-4:2005: one transmission loss for the whole spectrum. */
#include "physics/noise_parts.h"

#include <math.h>

double qll_noise_fill_2005(qll_noise *noise)
{
    const qll_noise_source *source = &noise->source;
    const double near_onset = 0.1; /* the least share holds up to this above xFzp1 */
    double fpt = source->peak_turbulent_hz;
    noise->peak_loss_db = qll_noise_loss_change_db(noise->ring_hz, fpt);
    noise->loss_turbulent_db = noise->ring_loss_db + noise->peak_loss_db;
    double loss_db = noise->loss_turbulent_db;
    if (source->is_cavitating) {
        double fpc = source->peak_cavitating_hz;
        double least = fpt * fpt / (250 * fpc * sqrt(fpc));
        double share = source->efficiency_cavitating
                       / (source->efficiency_turbulent + source->efficiency_cavitating);
        if (source->xf < source->xfzp1 + near_onset) {
            share = fmax(share, least);
        }
        noise->loss_cavitating_db = noise->loss_turbulent_db + 10 * log10(share / least);
        loss_db = noise->loss_cavitating_db;
    }
    return source->inside_db + loss_db - noise->spread_db;
}
