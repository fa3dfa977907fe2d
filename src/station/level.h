/* Sound of a station at one operating point: IEC 60534-8-4 valve by valve, 1 m from the pipe. */
#ifndef QUELL_STATION_LEVEL_H
#define QUELL_STATION_LEVEL_H

#include "station/operate.h"

/**
 * Fills the levels of @p point: of every branch that works, and of the whole station by energy. They
 * are indicative; docs/theory/station_noise.md. Where a valve that works is beyond the method, its
 * level and the station's are NaN and the limit says why. Costs some hundred ns a valve, three times
 * that with @p with_range; without it low and high are the level itself.
 */
void qll_point_levels(const qll_station *station, const qll_site *site, bool with_range,
                      qll_operating_point *point);

/** One third octave of the station's sound, dB without weighting, 1 m from the pipe. */
typedef struct qll_spectrum_band {
    double centre_hz, level_db;
} qll_spectrum_band;

/**
 * Spectrum of the station at a point whose levels are known.
 *
 * @return false, with @p bands unwritten, where there is no level
 */
bool qll_point_spectrum(const qll_station *station, const qll_site *site,
                        const qll_operating_point *point,
                        qll_spectrum_band bands[QLL_NOISE_BAND_COUNT]);

#endif
