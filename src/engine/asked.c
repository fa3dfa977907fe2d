/* What every question may do with itself: name its verb, be refused, end. */
#include "engine/engine.h"

const char *const qll_verb_words[QLL_VERB_COUNT] = {
#define QLL_VERB_WORD(name, word) [QLL_VERB_##name] = (word),
    QLL_VERB_LIST(QLL_VERB_WORD)
#undef QLL_VERB_WORD
};

void qll_asked_refuse(qll_asked *asked, qll_code code, const char *source, const qll_said *says,
                      const qll_said *hint)
{
    qll_problems_add(&asked->problems, (qll_fault){
                                           .code = code,
                                           .level = QLL_REFUSAL,
                                           .place = {.source = source, .path = ""},
                                           .says = says,
                                           .hint = hint,
                                       });
}

qll_status qll_asked_finish(const qll_asked *asked)
{
    return qll_problems_status(&asked->problems);
}
