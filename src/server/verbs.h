/* What a question of each verb may hold when it comes as an object: the request that is read, and the description of it, come
 * from this table. */
#ifndef QUELL_SERVER_VERBS_H
#define QUELL_SERVER_VERBS_H

#include "quell/quell.h"

#include "documents/read_question.h"

#define QLL_QUESTION_BIT(name) (1U << QLL_QUESTION_##name)

/** What may be asked: a question of the engine, by its verb, or one of these. */
enum {
    QLL_ASKED_RANK = QLL_VERB_COUNT, /* of the records: where to go first */
    QLL_ASKED_COUNT,
    QLL_ASKED_NOTHING = QLL_ASKED_COUNT,
};

/** The word of what is asked, as in its path: "design", "rank". */
const char *qll_asked_word(unsigned asked);

typedef struct qll_verb_takes {
    const char *
        document; /* what its document is: "survey", "case", "cases", "csv"; NULL = it takes none */
    unsigned documents;  /* a bit of each qll_question_document that it takes */
    unsigned needs;      /* and that has to be there */
    const char *members; /* what else: "parts,figures,seed"; beside what all take */
} qll_verb_takes;

const qll_verb_takes *qll_verb_takes_of(unsigned asked);

/** Whether a question of @p asked may hold the member @p key, which is no document. */
bool qll_verb_takes_member(unsigned asked, const char *key);

/** Whether what is @p asked may be answered with a PDF. */
bool qll_verb_goes_on_paper(unsigned asked);

/** What a document is called where nobody says: "survey.json". */
const char *qll_verb_document_name(unsigned asked, qll_question_document which);

#endif
