/* What the sections of a report share (report*.c). */
#ifndef QUELL_REPORT_REPORT_PARTS_H
#define QUELL_REPORT_REPORT_PARTS_H

#include "report/pictures.h"

typedef struct qll_report {
    qll_sheet *sheet;
    bool
        is_plain; /* for a terminal: no figures, tables of few columns, the short form of a section */
    qll_arena *arena;
    const qll_design_findings *found;
    const qll_shown
        *chosen; /* NULL where there is none: no valve is needed, or none can be put in */
    const qll_station_figures *figures; /* of the same */
    qll_wording wording;
} qll_report;

/** A report of @p findings that writes into @p sheet, which is begun anew. */
qll_report qll_report_begin(const qll_design_findings *findings, bool is_plain, qll_arena *arena,
                            qll_sheet *sheet);

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
void qll_report_cautions(qll_report *report);
void qll_report_sources(qll_report *report);

/* Parts of sections that the short form has alone. */
void qll_report_assumed(qll_report *report);
void qll_report_water(qll_report *report);
void qll_report_others(qll_report *report);
void qll_report_hangs(qll_report *report);

/* ---- texts, in the report's arena; NULL without memory, which the sheet notes ---- */

/** A plain message. */
const char *qll_report_says(const qll_report *report, qll_message message);

/** A message with its tokens filled in. */
const char *qll_report_fill(const qll_report *report, qll_message message,
                            const qll_filling *fillings, size_t count);

/** A quantity with its unit, or without; "-" if it is not finite. */
const char *qll_report_quantity(const qll_report *report, double si, qll_kind kind);
const char *qll_report_bare(const qll_report *report, double si, qll_kind kind);

/** A reading as a gauge or a bucket gives it, qll_reading_text(); "-" if it is not finite. And two of
 * pressure: "48 psi to 52 psi". */
const char *qll_report_reading(const qll_report *report, double si, qll_kind kind);
const char *qll_report_reading_range(const qll_report *report, double low_pa, double high_pa);

/** The same without its unit. */
const char *qll_report_bare_reading(const qll_report *report, double si, qll_kind kind);

/** "3.0 ft/s to 6.0 ft/s"; one figure where both read alike. */
const char *qll_report_range(const qll_report *report, double low, double high, qll_kind kind);

/** A size as the trade calls it; a share in per cent; a whole number. */
const char *qll_report_size(const qll_report *report, double nominal_m);
const char *qll_report_share(const qll_report *report, double share);
const char *qll_report_count(const qll_report *report, size_t count);

/** "A", or "1A" where there are stages: qll_valve_name_write(). */
const char *qll_report_branch(const qll_report *report, size_t stage, size_t branch);

/** "flow, gpm": a head with the unit of its column. */
const char *qll_report_head(const qll_report *report, qll_message head, qll_kind kind);

/** qll_wording_money() by the catalogue's currency. */
const char *qll_report_money(const qll_report *report, qll_message in, qll_message own);

/** A figure, if there is such a one; @p number as of qll_picture. */
void qll_report_picture(qll_report *report, qll_picture_kind kind, size_t number);

/* ---- cells ---- */

void qll_report_cell(qll_report *report, qll_message message);
void qll_report_heads(qll_report *report, const qll_message *heads, size_t count);

/** A row of a table of two columns: what it is, and its value. */
void qll_report_fact(qll_report *report, qll_message what, const char *value);

/** How a grade stands out. */
qll_tone qll_report_tone(qll_grade grade);

#endif
