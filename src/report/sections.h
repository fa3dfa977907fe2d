/* Parts that several plain-text sheets share. */
#ifndef QUELL_REPORT_SECTIONS_H
#define QUELL_REPORT_SECTIONS_H

#include "documents/findings.h"
#include "report/columns.h"

/** A heading in capitals, with a blank line before it. */
void qll_section(qll_writer *writer, const char *heading);

void qll_section_assumed(qll_writer *writer, const qll_wording *wording,
                         const qll_assumed *assumed);
void qll_section_sources(qll_writer *writer, const qll_wording *wording, const qll_said *sources,
                         size_t count);
void qll_section_cautions(qll_writer *writer, qll_language language);

/** The verdicts, one per rule, worst first within the order of rules. */
void qll_section_verdicts(qll_writer *writer, const qll_wording *wording,
                          const qll_station *station, const qll_assessment *assessment);

/** Operating points by rising flow: outlet, which valve works, velocity, ratio, verdict. */
void qll_section_points(qll_writer *writer, const qll_wording *wording, const qll_station *station,
                        const qll_operating_point *points, size_t count);

/** Pressures from the main to the outlets, at night and at the design peak. */
void qll_section_ladder(qll_writer *writer, const qll_wording *wording, const qll_way *way);

/** Where the time goes: idle, in the band and so on. */
void qll_section_shares(qll_writer *writer, qll_language language, const qll_time_shares *shares);

/** That the service is the limit, where it is; under @p heading, or QLL_MESSAGE_COUNT for none. */
void qll_section_service(qll_writer *writer, const qll_wording *wording,
                         const qll_demand_findings *findings, qll_message heading);

/** A heading that is a message, and column heads. */
void qll_section_says(qll_writer *writer, qll_language language, qll_message heading);
void qll_columns_heads(qll_columns *columns, qll_language language, const qll_message *heads,
                       size_t count);

/** A message as a paragraph under a heading. */
void qll_section_says_with(qll_writer *writer, qll_language language, qll_message message,
                           const qll_filling *fillings, size_t count);

/** The same from the left edge. */
void qll_line_says_with(qll_writer *writer, qll_language language, qll_message message,
                        const qll_filling *fillings, size_t count);

/** A quantity as the next cell of a table, without its unit. */
void qll_cell_quantity(qll_columns *columns, double si, qll_kind kind, qll_unit_system units);

#endif
