/* What an answer has found, as sections of a sheet: those that are handed over, and those of the terminal. */
#ifndef QUELL_REPORT_REPORT_H
#define QUELL_REPORT_REPORT_H

#include "findings/findings.h"
#include "findings/pressure.h"
#include "findings/simulated.h"
#include "handbook/handbook.h"
#include "report/sheet.h"

/** A set of sections: one bit each. */
#define QLL_SECTION_BIT(kind) (1U << (unsigned)(kind))
#define QLL_SECTIONS_ALL      ((1U << (unsigned)QLL_SECTION_COUNT) - 1U)

/** X(NAME, word of --of): whose answer the sheets are. */
#define QLL_REPORT_OF_LIST(X) \
    X(DEMAND, "demand")       \
    X(DESIGN, "design")       \
    X(CHECK, "check")         \
    X(DIAGNOSE, "diagnose")

typedef enum qll_report_of {
#define QLL_REPORT_OF_NAME(name, word) QLL_REPORT_OF_##name,
    QLL_REPORT_OF_LIST(QLL_REPORT_OF_NAME)
#undef QLL_REPORT_OF_NAME
    QLL_REPORT_OF_COUNT
} qll_report_of;

extern const char *const qll_report_of_words[QLL_REPORT_OF_COUNT];

/** X(NAME, word of --length): how much the sheets say. */
#define QLL_REPORT_LENGTH_LIST(X) \
    X(SHORT, "short")             \
    X(FULL, "full")

typedef enum qll_report_length {
#define QLL_REPORT_LENGTH_NAME(name, word) QLL_REPORT_LENGTH_##name,
    QLL_REPORT_LENGTH_LIST(QLL_REPORT_LENGTH_NAME)
#undef QLL_REPORT_LENGTH_NAME
    QLL_REPORT_LENGTH_COUNT /* as the station asks for: short for a plain house, else full */
} qll_report_length;

extern const char *const qll_report_length_words[QLL_REPORT_LENGTH_COUNT];

/** An answer about a survey, as its sheets and figures read it. */
typedef struct qll_subject {
    qll_report_of of;
    qll_design_findings
        found; /* of a check, the station that is there as the only one shown, its points
                                * those of the middle supply; of a demand, no station, no duty */
    const qll_check_findings *check; /* NULL but of a check */
} qll_subject;

qll_subject qll_subject_of_demand(const qll_demand_findings *findings);
qll_subject qll_subject_of_design(const qll_design_findings *findings);
/** QLL_OK or QLL_NO_MEMORY; what @p subject points at lives in @p arena and in @p findings. */
QLL_MUST_USE qll_status qll_subject_of_check(const qll_check_findings *findings, qll_arena *arena,
                                             qll_subject *subject);

/**
 * Makes the report of @p subject with the sections of @p set; the cautions are in it whatever the set
 * says, and a section that would be empty is not.
 *
 * @param length COUNT = short for one valve of one house, else full
 * @param sheet its arrays and texts live in @p arena and in the findings; what found no room there is left
 *              out, and the arena counts it
 */
void qll_report_make(const qll_subject *subject, unsigned set, qll_report_length length,
                     qll_arena *arena, qll_sheet *sheet);

/* The answers for a terminal (sheet_text.h): the same blocks in their short form, what is to be done first
 * on top. */
void qll_answer_print(qll_writer *writer, const qll_subject *subject);
void qll_fit_print(qll_writer *writer, const qll_fit_findings *findings);
void qll_list_print(qll_writer *writer, const qll_list_findings *findings);

/** What a log of pressures says, for a terminal; and as a sheet for any pen, in @p arena. */
void qll_pressure_print(qll_writer *writer, const qll_pressure_findings *findings);
void qll_pressure_sheet(const qll_pressure_findings *findings, qll_arena *arena, bool is_plain,
                        qll_sheet *sheet);
void qll_listen_print(qll_writer *writer, const qll_listen_findings *findings);

/** The sheets of a recording, with its drawings; as of qll_report_make(). */
void qll_listen_make(const qll_listen_findings *findings, qll_arena *arena, qll_sheet *sheet);
/** An event in the pipes, for a terminal; and with its drawings, as of qll_report_make(). */
void qll_simulated_print(qll_writer *writer, const qll_simulated_findings *findings);
void qll_simulated_make(const qll_simulated_findings *findings, qll_arena *arena, qll_sheet *sheet);
/** @p wording needs units and language only. */
void qll_calc_print(qll_writer *writer, const qll_calc_answer *answer, const qll_wording *wording);

/** What @p calc takes, its formula, validity and source. */
void qll_calc_help(qll_writer *writer, const qll_calc *calc, const qll_wording *wording);

#endif
