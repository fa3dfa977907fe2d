/* What a question of each verb may hold when it comes as an object: the request that is read, and the description of it, come
 * from this table. */
#ifndef QUELL_SERVER_VERBS_H
#define QUELL_SERVER_VERBS_H

#include "quell/quell.h"

#include "documents/read_question.h"

#define QLL_QUESTION_BIT(name) (1U << QLL_QUESTION_##name)

typedef struct qll_verb_takes {
    const char *
        document; /* what its document is: "survey", "case", "cases", "csv"; NULL = it takes none */
    unsigned documents;  /* a bit of each qll_question_document that it takes */
    unsigned needs;      /* and that has to be there */
    const char *members; /* what else: "parts,figures,seed"; beside what all take */
} qll_verb_takes;

const qll_verb_takes *qll_verb_takes_of(qll_verb verb);

/** Whether a question of @p verb may hold the member @p key, which is no document. */
bool qll_verb_takes_member(qll_verb verb, const char *key);

/** What a document is called where nobody says: "survey.json". */
const char *qll_verb_document_name(qll_verb verb, qll_question_document which);

#endif
