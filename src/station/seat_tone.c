#include "station/seat_tone.h"

#include <math.h>

#define QLL_STROUHAL_LEAST 0.2
#define QLL_STROUHAL_MOST  0.35
/* FL where no data sheet gives it (docs/theory/valve.md). */
#define QLL_USUAL_FL       0.9

qll_seat_tone qll_seat_tone_none(void)
{
    return (qll_seat_tone){NAN, NAN, NAN, NAN};
}

static void see_branch(qll_seat_tone *tone, const qll_branch *branch, double drop_pa,
                       double density_kg_m3)
{
    const double fl = isnan(branch->valve->fl) ? QLL_USUAL_FL : branch->valve->fl;
    const double velocity_m_s = sqrt(2.0 * drop_pa / density_kg_m3) / fl;
    tone->slow_m_s = fmin(tone->slow_m_s, velocity_m_s); /* fmin passes over NaN */
    tone->fast_m_s = fmax(tone->fast_m_s, velocity_m_s);
    tone->low_hz = QLL_STROUHAL_LEAST * tone->slow_m_s / QLL_SEAT_LAND_MOST_M;
    tone->high_hz = QLL_STROUHAL_MOST * tone->fast_m_s / QLL_SEAT_LAND_LEAST_M;
}

void qll_seat_tone_see(qll_seat_tone *tone, const qll_station *station, const qll_water *water,
                       const qll_operating_point *point)
{
    for (size_t k = 0; k < station->stage_count; k++) {
        const double drop_pa = point->stage_inlet_pa[k] - point->stage_outlet_pa[k];
        for (size_t j = 0; drop_pa > 0.0 && j < station->stages[k].branch_count; j++) {
            if (point->branches[k][j].working) {
                see_branch(tone, &station->stages[k].branches[j], drop_pa, water->density_kg_m3);
            }
        }
    }
}
