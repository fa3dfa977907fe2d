/* Where the seats of a station may whistle: the tone of an orifice. */
#ifndef QUELL_STATION_SEAT_TONE_H
#define QUELL_STATION_SEAT_TONE_H

#include "station/operate.h"

/* Thickness of what whistles, the land of a seat; no data sheet gives it (our assumption). */
#define QLL_SEAT_LAND_LEAST_M 0.001
#define QLL_SEAT_LAND_MOST_M  0.005

/** Velocities at the seats that were seen, and the tones they may make. */
typedef struct qll_seat_tone {
    double slow_m_s, fast_m_s; /* NaN = no seat passed water */
    double low_hz, high_hz;
} qll_seat_tone;

/** Nothing seen yet. */
qll_seat_tone qll_seat_tone_none(void);

/**
 * Adds what the working seats of @p point do: the jet's velocity sqrt(2 dp / density) / FL of IEC 60534-8-4, dp over the stage, and
 * f = St U / t with St 0.2 to 0.35 on the thickness t of an orifice (Testud et al., J. Fluids Struct. 23 (2007), abstract read;
 * numbers from memory). docs/theory/sound.md, 13.
 */
void qll_seat_tone_see(qll_seat_tone *tone, const qll_station *station, const qll_water *water,
                       const qll_operating_point *point);

#endif
