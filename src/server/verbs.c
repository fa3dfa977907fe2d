#include "server/verbs.h"

#include "base/words.h"

#include <string.h>

/* Every question says in which form, units and language. */
static const char all_take[] = "form,units,language";

static const qll_verb_takes takes[QLL_ASKED_COUNT] = {
    [QLL_VERB_DEMAND] = {"survey", QLL_QUESTION_BIT(DOCUMENT) | QLL_QUESTION_BIT(ATTACHMENTS),
                         QLL_QUESTION_BIT(DOCUMENT), "parts,figures,seed"},
    [QLL_VERB_DESIGN] = {"survey",
                         QLL_QUESTION_BIT(DOCUMENT) | QLL_QUESTION_BIT(CATALOGUE)
                             | QLL_QUESTION_BIT(ATTACHMENTS),
                         QLL_QUESTION_BIT(DOCUMENT), "parts,figures,seed"},
    [QLL_VERB_CHECK] = {"survey",
                        QLL_QUESTION_BIT(DOCUMENT) | QLL_QUESTION_BIT(CATALOGUE)
                            | QLL_QUESTION_BIT(ATTACHMENTS),
                        QLL_QUESTION_BIT(DOCUMENT), "parts,figures,seed,flow,inlet"},
    [QLL_VERB_CALC] = {NULL, 0, 0, "calc,arguments,help"},
    [QLL_VERB_IMPORT] = {"csv", QLL_QUESTION_BIT(DOCUMENT), QLL_QUESTION_BIT(DOCUMENT), ""},
    [QLL_VERB_FIT] = {"csv", QLL_QUESTION_BIT(DOCUMENT), QLL_QUESTION_BIT(DOCUMENT), ""},
    [QLL_VERB_LIST] = {NULL, QLL_QUESTION_BIT(CATALOGUE), 0, ""},
    [QLL_VERB_REPORT] = {"survey",
                         QLL_QUESTION_BIT(DOCUMENT) | QLL_QUESTION_BIT(CATALOGUE)
                             | QLL_QUESTION_BIT(LIKELIHOOD) | QLL_QUESTION_BIT(ATTACHMENTS),
                         QLL_QUESTION_BIT(DOCUMENT), "of,sections,length,date,plot,parts,seed"},
    [QLL_VERB_DIAGNOSE] = {"case",
                           QLL_QUESTION_BIT(DOCUMENT) | QLL_QUESTION_BIT(CATALOGUE)
                               | QLL_QUESTION_BIT(LIKELIHOOD) | QLL_QUESTION_BIT(ATTACHMENTS),
                           QLL_QUESTION_BIT(DOCUMENT), "arguments"},
    [QLL_VERB_LEARN] = {"cases",
                        QLL_QUESTION_BIT(DOCUMENT) | QLL_QUESTION_BIT(CATALOGUE)
                            | QLL_QUESTION_BIT(LIKELIHOOD),
                        QLL_QUESTION_BIT(DOCUMENT), ""},
    [QLL_VERB_LOG] = {"survey",
                      QLL_QUESTION_BIT(LOG) | QLL_QUESTION_BIT(DOCUMENT)
                          | QLL_QUESTION_BIT(CATALOGUE) | QLL_QUESTION_BIT(ATTACHMENTS),
                      QLL_QUESTION_BIT(LOG), "parts,arguments"},
    [QLL_VERB_LISTEN] = {"survey",
                         QLL_QUESTION_BIT(RECORDING) | QLL_QUESTION_BIT(QUIET)
                             | QLL_QUESTION_BIT(LOG) | QLL_QUESTION_BIT(DOCUMENT)
                             | QLL_QUESTION_BIT(CATALOGUE) | QLL_QUESTION_BIT(ATTACHMENTS),
                         QLL_QUESTION_BIT(RECORDING), "begins,parts,arguments"},
    [QLL_VERB_DESCRIBE] = {NULL, QLL_QUESTION_BIT(CATALOGUE), 0, "about,key"},
    [QLL_VERB_SIMULATE] = {"survey",
                           QLL_QUESTION_BIT(DOCUMENT) | QLL_QUESTION_BIT(CATALOGUE)
                               | QLL_QUESTION_BIT(ATTACHMENTS),
                           QLL_QUESTION_BIT(DOCUMENT), "event,outlet,flow,before,within,seed"},
    [QLL_ASKED_RANK] = {NULL, QLL_QUESTION_BIT(CATALOGUE), 0, "date"},
};

const char *qll_asked_word(unsigned asked)
{
    return asked == QLL_ASKED_RANK ? "rank" : qll_verb_words[asked];
}

const qll_verb_takes *qll_verb_takes_of(unsigned asked)
{
    return &takes[asked];
}

bool qll_verb_takes_member(unsigned asked, const char *key)
{
    const qll_text word = qll_text_of(key);
    return qll_words_hold(all_take, ',', word) || qll_words_hold(takes[asked].members, ',', word);
}

bool qll_verb_goes_on_paper(unsigned asked)
{
    return asked == QLL_VERB_REPORT || asked == QLL_VERB_LOG || asked == QLL_VERB_LISTEN
           || asked == QLL_VERB_SIMULATE;
}

const char *qll_verb_document_name(unsigned asked, qll_question_document which)
{
    switch (which) {
    case QLL_QUESTION_CATALOGUE: return "catalogue.json";
    case QLL_QUESTION_LIKELIHOOD: return "likelihood.json";
    case QLL_QUESTION_ATTACHMENTS:
    case QLL_QUESTION_LOG: return "log.csv";
    case QLL_QUESTION_RECORDING: return "recording.wav";
    case QLL_QUESTION_QUIET: return "quiet.wav";
    case QLL_QUESTION_DOCUMENT:
    case QLL_QUESTION_DOCUMENT_COUNT: break;
    }
    const char *document = takes[asked].document;
    if (document == NULL || strcmp(document, "csv") == 0) {
        return "table.csv";
    }
    return strcmp(document, "survey") == 0 ? "survey.json"
           : strcmp(document, "case") == 0 ? "case.json"
                                           : "cases.json";
}
