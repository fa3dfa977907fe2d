#include "demand/scenario.h"

const char *const qll_use_words[QLL_USE_COUNT] = {
#define QLL_USE_WORD(name, word, set, profile) [QLL_USE_##name] = (word),
    QLL_USE_LIST(QLL_USE_WORD)
#undef QLL_USE_WORD
};

const char *const qll_peak_method_words[QLL_PEAK_METHOD_COUNT] = {
#define QLL_PEAK_METHOD_WORD(name, word) [QLL_PEAK_##name] = (word),
    QLL_PEAK_METHOD_LIST(QLL_PEAK_METHOD_WORD)
#undef QLL_PEAK_METHOD_WORD
};

bool qll_use_is_dwelling(qll_use use)
{
    return use == QLL_USE_APARTMENT || use == QLL_USE_HOUSE;
}
