/* What a default was taken for: keys are for whoever writes the survey, words for whoever reads the sheet. */
#include "base/count.h"
#include "wording/wording.h"

#include <string.h>

static const char *const keys[] = {
#define QLL_KEY_WORD(name, key) (key),
    QLL_KEY_LIST(QLL_KEY_WORD)
#undef QLL_KEY_WORD
};

#define QLL_KEY_COUNT QLL_COUNT(keys)

/* Does @p what end in @p key, as "limits.falloff" or the key alone? */
static bool ends_in_key(qll_text what, const char *key)
{
    const size_t least = strlen(key);
    if (what.size < least || memcmp(what.bytes + what.size - least, key, least) != 0) {
        return false;
    }
    const size_t before = what.size - least;
    return before == 0 || what.bytes[before - 1] == '.';
}

/* The key that @p what ends in; the longest, so that "falloff.set" is not taken for another. */
static size_t key_of(qll_text what)
{
    size_t found = QLL_KEY_COUNT;
    for (size_t i = 0; i < QLL_KEY_COUNT; i++) {
        if (ends_in_key(what, keys[i])
            && (found == QLL_KEY_COUNT || strlen(keys[i]) > strlen(keys[found]))) {
            found = i;
        }
    }
    return found;
}

qll_text qll_wording_key_of_valves(const qll_argument *what)
{
    const bool is_of_valves = what->said != NULL && what->said->id == QLL_TEXT_WHAT_OF_VALVES;
    return is_of_valves ? what->said->arguments[1].text : (qll_text){0};
}

/* NULL for a key that has none. */
static const char *name_of(const qll_wording *wording, const qll_argument *what)
{
    const qll_text of_valves = qll_wording_key_of_valves(what);
    const size_t key = key_of(of_valves.size > 0 ? of_valves : what->text);
    return key == QLL_KEY_COUNT
               ? NULL
               : qll_say(wording->language, (qll_message)((size_t)QLL_SAYS_KEY_NAME + key));
}

const char *qll_wording_key_name(qll_arena *arena, const qll_wording *wording,
                                 const qll_argument *what)
{
    const char *name = name_of(wording, what);
    return name == NULL ? qll_argument_text(arena, wording, what) : name;
}

const char *qll_wording_key(qll_arena *arena, const qll_wording *wording, const qll_argument *what)
{
    const qll_filling fillings[] = {{"what", name_of(wording, what)},
                                    {"name", qll_argument_text(arena, wording, what)}};
    if (fillings[0].text == NULL || fillings[1].text == NULL) {
        return fillings[1].text;
    }
    qll_writer writer = qll_writer_new(arena);
    qll_say_with(&writer, wording->language, QLL_SAYS_WHAT_AND_KEY, fillings, 2);
    return qll_writer_text(&writer).bytes;
}
