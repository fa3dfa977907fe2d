/* What the sections of a report share (report*.c). */
#ifndef QUELL_REPORT_REPORT_PARTS_H
#define QUELL_REPORT_REPORT_PARTS_H

#include "report/pictures.h"

typedef struct qll_report {
    qll_sheet *sheet;
    bool
        is_plain; /* for a terminal: no figures, tables of few columns, the short form of a section */
    bool is_short; /* sheets of a few pages: what nobody acts on is left out */
    qll_report_of of;
    qll_arena *arena;
    const qll_design_findings *found; /* as of qll_subject; NULL of what is about no survey */
    const qll_check_findings *check;  /* NULL but of a check */
    const qll_shown
        *chosen; /* NULL where there is none: no valve is needed, or none can be put in */
    const qll_assumed *assumed;         /* NULL = nothing */
    const qll_station_figures *figures; /* of the same */
    qll_wording wording;
} qll_report;

/** Whether a part of the answer was asked for. */
static inline bool qll_report_has(const qll_report *report, qll_part part)
{
    return qll_has_part(report->found->demand.left_out, part);
}

/** A report for a terminal and about no survey that writes into @p sheet, which is begun anew, its title still to be
 * set: figures in @p wording's units and language. */
qll_report qll_report_begin_bare(const qll_wording *wording, const qll_assumed *assumed,
                                 qll_arena *arena, qll_sheet *sheet);

/** Ends the sheet and prints it. */
void qll_report_print(qll_report *report, qll_writer *writer);

/* One function per section; each writes its blocks. */
void qll_report_cover(qll_report *report);
void qll_report_survey(qll_report *report);
void qll_report_demand(qll_report *report);
void qll_report_station(qll_report *report);
void qll_report_verdicts(qll_report *report);
void qll_report_expect(qll_report *report);
void qll_report_commissioning(qll_report *report);
void qll_report_service(qll_report *report);
void qll_report_alternatives(qll_report *report);
void qll_report_drawing(qll_report *report);
void qll_report_figures(qll_report *report);     /* for whoever looks closer */
void qll_report_limits_from(qll_report *report); /* where the limits of the verdicts come from */

/** The title block of the sheet. */
void qll_report_title(qll_report *report);

/* Of a check: what there is, why it would be noisy, what would cure it. */
void qll_report_there(qll_report *report);
void qll_report_causes_and_cures(qll_report *report);

/* Parts of sections that the short form has alone. */
void qll_report_assumed(qll_report *report);
/** "height of the site (site.elevation): 0 ft (sea level, our assumption)" */
const char *qll_report_assumed_line(qll_report *report, const qll_assumption *one);
void qll_report_water(qll_report *report);
void qll_report_changes(qll_report *report);
void qll_report_others(qll_report *report);
void qll_report_hangs(qll_report *report);
void qll_report_causes(qll_report *report);
void qll_report_cures(qll_report *report);

/* Parts that several sections have. */
void qll_report_schedule(
    qll_report *report); /* what each valve is set to and reads then, and how they share the flow */
void qll_report_remember(qll_report *report); /* the figures to remember */
void qll_report_strainers(qll_report *report);
void qll_report_cure_parts(qll_report *report); /* of the best cure that buys any */

/* ---- texts, in the report's arena; "" without memory, which the arena counts ---- */

/** A plain message. */
const char *qll_report_says(const qll_report *report, qll_message message);

/** A message with its tokens filled in. */
const char *qll_report_fill(const qll_report *report, qll_message message,
                            const qll_filling *fillings, size_t count);

/** A quantity with its unit, or without; "-" if it is not finite. */
const char *qll_report_quantity(const qll_report *report, double si, qll_kind kind);
const char *qll_report_bare(const qll_report *report, double si, qll_kind kind);

/** The same two beside a limit: qll_units_write_beside(). */
const char *qll_report_beside(const qll_report *report, double si, double other_si, qll_kind kind);
const char *qll_report_bare_beside(const qll_report *report, double si, double other_si,
                                   qll_kind kind);

/** "3.0 ft/s to 6.0 ft/s"; one figure where both read alike. */
const char *qll_report_range(const qll_report *report, double low, double high, qll_kind kind);

/** A size as the trade calls it; a share in per cent; a whole number. */
const char *qll_report_size(const qll_report *report, double nominal_m);
const char *qll_report_share(const qll_report *report, double share);
const char *qll_report_count(const qll_report *report, size_t count);

/** What a scenario is called. */
const char *qll_report_scenario(const qll_report *report, const qll_scenario *scenario);

/** "A", or "1A" where there are stages: qll_valve_name_write(). */
const char *qll_report_branch(const qll_report *report, size_t stage, size_t branch);

/** "flow, gpm": a head with the unit of its column. */
const char *qll_report_head(const qll_report *report, qll_message head, qll_kind kind);

/** qll_wording_money() by the catalogue's currency. */
const char *qll_report_money(const qll_report *report, qll_message in, qll_message own);

/** A figure, if there is such a one; @p number as of qll_picture. */
void qll_report_picture(qll_report *report, qll_picture_kind kind, size_t number);

/* ---- blocks and cells ---- */

/** A message as a paragraph, its tokens filled in; the text of a writer as one; none of an empty text. */
void qll_report_paragraph(qll_report *report, qll_message message, const qll_filling *fillings,
                          size_t count);
void qll_report_paragraph_of(qll_report *report, qll_writer *writer);

/** The cautions of everybody who puts a hand on a valve. */
void qll_report_cautions(qll_report *report);

/** A heading within a section, but of a short form, whose section is headed by it. */
void qll_report_heading(qll_report *report, qll_message message);

/** Closes a table whose caption is @p caption; of a short form that stands right under its heading it has
 * none: QLL_MESSAGE_COUNT. */
void qll_report_table(qll_report *report, qll_message caption, const char *align,
                      bool has_row_heads);

/** In a short form a cell with a bar, @p share of its greatest length (to 1.5 times that); else nothing. */
void qll_report_bar(qll_report *report, double share);

void qll_report_cell(qll_report *report, qll_message message);
void qll_report_heads(qll_report *report, const qll_message *heads, size_t count);

/** What people call the datum at @p key: "pressure wanted downstream of the station". */
const char *qll_report_key_name(const qll_report *report, const char *key);

/** A row of a table of two columns: what it is, and its value. */
void qll_report_fact(qll_report *report, qll_message what, const char *value);

/** How a grade stands out. */
qll_tone qll_report_tone(qll_grade grade);

#endif
