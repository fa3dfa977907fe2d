/* What noise.c, noise_2005.c and noise_bands.c share; nobody else includes it. */
#ifndef QUELL_PHYSICS_NOISE_PARTS_H
#define QUELL_PHYSICS_NOISE_PARTS_H

#include "physics/noise.h"

/** N14 and N34 of the form in which the coefficient is given. */
extern const double qll_noise_n14[QLL_FORM_COUNT], qll_noise_n34[QLL_FORM_COUNT];

/** dTL(f) = -20 lg(fr/f + (f/fr)^1.5), dB. */
double qll_noise_loss_change_db(double ring_hz, double frequency_hz);

/** Fills the spectrum of @p noise from its source; the 2015 sum is returned, dB(A). */
double qll_noise_fill_bands(const qll_noise_path *path, qll_noise_edition edition,
                            qll_noise *noise);

/** The A-weighted energy outside over that inside, by the 2015 spectra, before the spread. */
double qll_noise_shape_energy(const qll_noise_source *source, const qll_noise_path *path);

/** Fills the overall transmission losses of the 2005 edition and returns its level, dB(A). */
double qll_noise_fill_2005(qll_noise *noise);

#endif
