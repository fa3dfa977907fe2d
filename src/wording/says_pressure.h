/* What people read of a log of pressures. */
#ifndef QUELL_WORDING_SAYS_PRESSURE_H
#define QUELL_WORDING_SAYS_PRESSURE_H

#include "signals/pressure_log.h"
#include "wording/wording.h"

/** A finding: plainly, with its figures, and what it comes from; needs units and language only. */
void qll_wording_pressure(qll_writer *writer, const qll_wording *wording,
                          const qll_pressure_finding *finding);

/** What a finding is called. */
const char *qll_say_pressure_word(qll_language language, qll_pressure_word word);

/** Why @p word was not judged, and what would do; of a log with a row every @p interval_s whose outlet gauge reads in steps
 * of @p step_pa. */
void qll_wording_unjudged(qll_writer *writer, const qll_wording *wording, qll_pressure_word word,
                          const qll_unjudged *unjudged, double interval_s, double step_pa);

#endif
