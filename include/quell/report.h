/* A report for a program that writes the file itself, and what can be reported of it then. */
#ifndef QUELL_REPORT_H
#define QUELL_REPORT_H

#include "quell/pages.h"
#include "quell/quell.h"

QLL_C_BEGIN

/** What a report can be, and the word of each. X(NAME, word). */
#define QLL_SHEETS_LIST(X) \
    X(PDF, "pdf")          \
    X(HTML, "html")        \
    X(SVG, "svg")

typedef enum qll_sheets_form {
#define QLL_SHEETS_NAME(name, word) QLL_SHEETS_##name,
    QLL_SHEETS_LIST(QLL_SHEETS_NAME)
#undef QLL_SHEETS_NAME
    QLL_SHEETS_COUNT
} qll_sheets_form;

QLL_API extern const char *const qll_sheets_words[QLL_SHEETS_COUNT];

/** A report, in the arena. */
typedef struct qll_made_report {
    qll_sheets_form form;
    qll_text text;           /* HTML or SVG; else no bytes */
    const qll_canvas *pages; /* PDF: to be put on paper; else NULL */
    const char *title, *subject;
    const char *language;               /* BCP 47 */
    const struct qll_report_told *told; /* for qll_report_tell(); NULL of a recording */
} qll_made_report;

/**
 * Asks for a report (verb REPORT), or for the sheets of a recording (verb LISTEN, but no SVG), as @p form. The question's form is TEXT or JSON and says how a refusal
 * comes.
 *
 *     qll_question question = {.verb = QLL_VERB_REPORT, .document = survey};
 *     qll_made_report made;
 *     qll_answer answer;
 *     if (qll_make_report(&question, QLL_SHEETS_HTML, arena, &made, &answer) == QLL_OK) {
 *         fwrite(made.text.bytes, 1, made.text.size, file);
 *     }
 *
 * @param made   filled only on QLL_OK; in @p arena
 * @param answer the problems that came with it; bytes only of a refusal in JSON
 * @return as qll_ask()
 */
QLL_API QLL_MUST_USE qll_status qll_make_report(const qll_question *question, qll_sheets_form form,
                                                qll_arena *arena, qll_made_report *made,
                                                qll_answer *answer);

/** The report/1 document (docs/formats/answers.md) of @p made, which was written to @p path with @p size
 * bytes. QLL_OK or QLL_NO_MEMORY. */
QLL_API QLL_MUST_USE qll_status qll_report_tell(const qll_made_report *made, const char *path,
                                                size_t size, qll_arena *arena, qll_text *json);

/** The refused report/1 document of one that could not be written to @p path. QLL_OK or QLL_NO_MEMORY. */
QLL_API QLL_MUST_USE qll_status qll_report_tell_failure(const char *path, const char *says,
                                                        qll_arena *arena, qll_text *json);

QLL_C_END

#endif
