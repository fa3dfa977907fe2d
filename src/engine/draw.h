/* The figures that stand inside an answer. */
#ifndef QUELL_ENGINE_DRAW_H
#define QUELL_ENGINE_DRAW_H

#include "engine/engine.h"
#include "report/pictures.h"
#include "report/report.h"

/**
 * Draws what the question asks for into @p demand, whose drawings the answer prints. One that the answer cannot
 * have (a map without a station) is left out; a number beyond the last is refused.
 *
 * @return QLL_OK, QLL_REFUSED, QLL_STOPPED or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_draw_figures(qll_asked *asked, const qll_subject *subject,
                                         qll_demand_findings *demand);

#endif
