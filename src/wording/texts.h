/* What fills the holes of sentences: texts in a writer's arena. Each is "" where memory is out, which the arena
 * counts. */
#ifndef QUELL_WORDING_TEXTS_H
#define QUELL_WORDING_TEXTS_H

#include "base/units.h"

/** A pipe size: "1-1/4 in", "DN 32". */
const char *qll_text_size(qll_writer *writer, double nominal_m, qll_unit_system units);

/** A figure as a gauge reads it, "-" where it is none. */
const char *qll_text_reading(qll_writer *writer, double si, qll_kind kind, qll_unit_system units);

/** A ratio to a tenth. */
const char *qll_text_ratio(qll_writer *writer, double ratio);

#endif
