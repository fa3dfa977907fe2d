#include "quell/records.h"

#include "documents/purpose.h"

#include <string.h>

const char *const qll_record_kind_words[QLL_RECORD_KIND_COUNT] = {
#define QLL_RECORD_KIND_WORD(name, word, is_fact) [QLL_RECORD_##name] = (word),
    QLL_RECORD_KIND_LIST(QLL_RECORD_KIND_WORD)
#undef QLL_RECORD_KIND_WORD
};

bool qll_record_is_fact(qll_record_kind kind)
{
    static const bool facts[QLL_RECORD_KIND_COUNT] = {
#define QLL_RECORD_KIND_FACT(name, word, is_fact) [QLL_RECORD_##name] = (is_fact),
        QLL_RECORD_KIND_LIST(QLL_RECORD_KIND_FACT)
#undef QLL_RECORD_KIND_FACT
    };
    return facts[kind];
}

const char *const qll_purpose_words[QLL_PURPOSE_COUNT] = {
#define QLL_PURPOSE_WORD(name, word) [QLL_PURPOSE_##name] = (word),
    QLL_PURPOSE_LIST(QLL_PURPOSE_WORD)
#undef QLL_PURPOSE_WORD
};

bool qll_record_is_later(const qll_record *one, const qll_record *other)
{
    return one->written_ms > other->written_ms
           || (one->written_ms == other->written_ms && strcmp(one->id, other->id) > 0);
}
