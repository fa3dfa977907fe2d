/* A question as an object: the members of qll_question that are texts, by their names. What the page's engine and the server are
 * asked is read here. */
#ifndef QUELL_DOCUMENTS_READ_QUESTION_H
#define QUELL_DOCUMENTS_READ_QUESTION_H

#include "quell/quell.h"

#include "documents/reader.h"

/** A member that is a text. */
typedef struct qll_question_member {
    const char *key;
    size_t at;         /* of its text in qll_question, bytes */
    qll_text_id means; /* what it is for, as --help says it */
} qll_question_member;

/** All of them. */
const qll_question_member *qll_question_members(size_t *count);

#define QLL_QUESTION_FORM_COUNT (QLL_FORM_SCHEMA + 1)

/** The words of `form`, by qll_form: "text", "json"; and behind them "pdf", which only those know who have a printer (src/paper). */
extern const char *const qll_form_words[QLL_QUESTION_FORM_COUNT + 1];

/** X(NAME, key): where the documents of a question stand. Who reads the question reads them himself, for each has his own way
 * of handing bytes in. */
#define QLL_QUESTION_DOCUMENT_LIST(X) \
    X(DOCUMENT, "document")           \
    X(CATALOGUE, "catalogue")         \
    X(LIKELIHOOD, "likelihood")       \
    X(ATTACHMENTS, "attachments")     \
    X(LOG, "log")                     \
    X(RECORDING, "recording")         \
    X(QUIET, "quiet")

typedef enum qll_question_document {
#define QLL_QUESTION_DOCUMENT_NAME(name, key) QLL_QUESTION_##name,
    QLL_QUESTION_DOCUMENT_LIST(QLL_QUESTION_DOCUMENT_NAME)
#undef QLL_QUESTION_DOCUMENT_NAME
    QLL_QUESTION_DOCUMENT_COUNT
} qll_question_document;

extern const char *const qll_question_document_keys[QLL_QUESTION_DOCUMENT_COUNT];

/**
 * Reads `form` (JSON where it is not given), `help`, `arguments` and all members that are texts from @p root into @p question. Keys
 * that are none of these, of no document and not "verb" are refused.
 *
 * @param question its other members stay as they are; what is read lives in the reader's arena
 * @param on_paper whether the form is "pdf", which leaves that of the question JSON; NULL = there is no such form
 */
void qll_question_read(qll_reader *reader, const qll_node *root, qll_question *question,
                       bool *on_paper);

#endif
