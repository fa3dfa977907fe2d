/* Every sentence a customer or plumber reads, in one place. */
#ifndef QUELL_WORDING_WORDING_H
#define QUELL_WORDING_WORDING_H

#include "demand/demand.h"
#include "search/search.h"
#include "signals/flow_log.h"
#include "station/ladder.h"
#include "wording/messages.h"

/** What a sentence may need to name things and figures. */
typedef struct qll_wording {
    qll_unit_system units;
    qll_language language;
    const qll_site *site;
    const qll_duty *duty;
} qll_wording;

/** Below this a level is only said to be below it: no room is so quiet. */
#define QLL_LEVEL_SHOWN_DBA 20.0

/** One sentence for a verdict: plainly said, then the number, then the reason. */
void qll_wording_verdict(qll_writer *writer, const qll_wording *wording, const qll_station *station,
                         const qll_verdict *verdict);

/** What a verdict or a help speaks of: "The 2 in valve G-50", "Stage 1". */
void qll_wording_subject(qll_writer *writer, const qll_wording *wording, const qll_station *station,
                         const qll_spot *spot);

/** One sentence for what would make a valve steadier. */
void qll_wording_help(qll_writer *writer, const qll_wording *wording, const qll_station *station,
                      const qll_low_flow_help *help);
/** A figure of a verdict, value or limit, as its sentence shows it; "-" if it is not finite. */
void qll_wording_figure(qll_writer *writer, const qll_wording *wording, const qll_verdict *verdict,
                        double figure);

/** Why the recommended station was chosen, one or two sentences. */
void qll_wording_reason(qll_writer *writer, const qll_wording *wording, const qll_design *design);

/** @p in with the currency for its {unit}, or @p own where none is known: head, fact or note of
 * prices. NULL without memory. */
const char *qll_wording_money(qll_arena *arena, qll_language language, const char *currency,
                              qll_message in, qll_message own);

/** One line that names an arrangement: "parallel valves 3/4 in + 1-1/2 in". */
void qll_wording_station(qll_writer *writer, const qll_wording *wording,
                         const qll_station *station);

/** What a valve is called in figures and sheets: "A", or "2A" where there are stages; its letter alone. */
void qll_valve_name_write(qll_writer *writer, const qll_station *station, size_t stage,
                          size_t branch);
void qll_valve_letter_write(qll_writer *writer, size_t branch);

/** The strainer of the valve called @p name ("A"): where it is, and the gauge difference at which it
 * wants cleaning. */
void qll_wording_strainer(qll_writer *writer, const qll_wording *wording, const char *name,
                          const qll_strainer *strainer);

/**
 * An estimate that lies far from the design peak: its figure, how many times the design peak it is,
 * and what that means for the station.
 */
void qll_wording_disagreement(qll_writer *writer, const qll_wording *wording,
                              const qll_demand *demand, const qll_disagreement *disagreement);

/** What is said of a demand; needs units and language only. */
void qll_wording_remark(qll_writer *writer, const qll_wording *wording, const qll_remark *remark);

/**
 * A text that another module wrote for an answer (qll_phrase()), its quantities (qll_units_keep()) in
 * the units of the answer; NULL without memory.
 */
const char *qll_wording_text(qll_arena *arena, const qll_wording *wording, const char *text);

/** An estimate's notes as one paragraph, "" if there are none; NULL without memory. */
const char *qll_wording_notes(qll_arena *arena, const qll_wording *wording,
                              const qll_remark *notes);

/** A step of the way from the main to an outlet: "pipe, 2 in", "meter", an outlet's name. */
void qll_wording_step(qll_writer *writer, const qll_wording *wording, const qll_ladder *ladder,
                      const qll_ladder_step *step);

/** What was read of a log: rows, time, greatest means, the night; what was mended is not in it. */
void qll_wording_log(qll_writer *writer, const qll_wording *wording, const char *name,
                     const qll_flow_log_result *log);

/** Two scenarios of one building side by side, the second in the terms of the first. */
void qll_wording_change(qll_writer *writer, const qll_wording *wording, const qll_demand *before,
                        const qll_demand *after, double low_flow_m3s);

/** A cause of noise that check finds, most likely first. */
typedef struct qll_noise_cause {
    qll_rule rule;
    qll_spot spot;
    double weight; /* for the order: share of time or water touched, times severity */
    const char *says;
} qll_noise_cause;

/** The causes of an assessment's verdicts; array and texts live in @p arena. */
QLL_MUST_USE qll_status qll_noise_causes(const qll_wording *wording, const qll_station *station,
                                         const qll_assessment *assessment, qll_arena *arena,
                                         const qll_noise_cause **causes, size_t *count);

/** What a default was taken for, in words and as the key it could be given by: "greatest gauge ratio
 * (limits.ratio_max)"; the key alone if it has no words. NULL without memory, which the arena counts. */
const char *qll_wording_key(qll_arena *arena, qll_language language, const char *what);

/** A quantity with its unit; NULL without memory, which the arena counts. */
const char *qll_quantity_text(qll_arena *arena, double si, qll_kind kind, qll_unit_system units);

/** The cautions in their order, and each one's sentence. */
typedef enum qll_caution_id {
#define QLL_CAUTION_NAME(name) QLL_CAUTION_##name,
    QLL_CAUTION_LIST(QLL_CAUTION_NAME)
#undef QLL_CAUTION_NAME
    QLL_CAUTION_COUNT
} qll_caution_id;

const char *qll_caution(qll_language language, size_t index);

#endif
