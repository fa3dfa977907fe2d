#include "wording/messages.h"

#include "wording/language.h"
#include "wording/template.h"

const char *const qll_language_words[QLL_LANGUAGE_COUNT] = {
#define QLL_LANGUAGE_WORD(name, code) [QLL_LANGUAGE_##name] = #code,
    QLL_LANGUAGE_LIST(QLL_LANGUAGE_WORD)
#undef QLL_LANGUAGE_WORD
};

/* clang-format off */
static const char *const names[QLL_MESSAGE_COUNT] = {
#define QLL_FINDING_TEXT(name)      [QLL_SAYS_FINDING_##name] = "FINDING_" #name,
#define QLL_RULE_TEXT(name, word)   [QLL_SAYS_RULE_##name] = "RULE_" #name,
#define QLL_METHOD_TEXT(name, word) [QLL_SAYS_METHOD_##name] = "METHOD_" #name,
#define QLL_REASON_TEXT(name)       [QLL_SAYS_REASON_##name] = "REASON_" #name,
#define QLL_CAUTION_TEXT(name)      [QLL_SAYS_CAUTION_##name] = "CAUTION_" #name,
#define QLL_ADVICE_TEXT(name)       [QLL_SAYS_ADVICE_##name] = "ADVICE_" #name,
#define QLL_LIMIT_TEXT(name, word)  [QLL_SAYS_LIMIT_FROM_##name] = "LIMIT_FROM_" #name,
#define QLL_USE_TEXT(name, ...)     [QLL_SAYS_USE_##name] = "USE_" #name,
#define QLL_PEOPLE_TEXT(name, ...)  [QLL_SAYS_PEOPLE_##name] = "PEOPLE_" #name,
#define QLL_REMARK_TEXT(name)       [QLL_SAYS_REMARK_##name] = "REMARK_" #name,
#define QLL_MECHANISM_TEXT(name, w) [QLL_SAYS_MECHANISM_##name] = "MECHANISM_" #name,
#define QLL_BREAKS_TEXT(name, word) [QLL_SAYS_BREAKS_##name] = "BREAKS_" #name,
#define QLL_MENDS_TEXT(name, word)  [QLL_SAYS_MENDS_##name] = "MENDS_" #name,
#define QLL_ROLE_TEXT(name, word)   [QLL_SAYS_ROLE_##name] = "ROLE_" #name,
#define QLL_CLOSE_TEXT(name)        [QLL_SAYS_CLOSE_##name] = "CLOSE_" #name,
#define QLL_MORE_TEXT(name, word)   [QLL_SAYS_MORE_##name] = "MORE_" #name,
#define QLL_LESS_TEXT(name, word)   [QLL_SAYS_LESS_##name] = "LESS_" #name,
#define QLL_CALC_TITLE_NAME(name) [QLL_SAYS_CALC_TITLE_##name] = "CALC_TITLE_" #name,
#define QLL_CALC_VALID_NAME(name) [QLL_SAYS_CALC_VALID_##name] = "CALC_VALID_" #name,
#define QLL_CALC_SOURCE_NAME(name) [QLL_SAYS_CALC_SOURCE_##name] = "CALC_SOURCE_" #name,
#define QLL_CALC_STEP_NAME(name) [QLL_SAYS_CALC_STEP_##name] = "CALC_STEP_" #name,
#define QLL_CALC_FROM_NAME(name) [QLL_SAYS_CALC_FROM_##name] = "CALC_FROM_" #name,
#define QLL_CALC_FIGURE_NAME(name, w) [QLL_SAYS_CALC_FIGURE_##name] = "CALC_FIGURE_" #name,
#define QLL_CALC_WORD_NAME(name, w) [QLL_SAYS_CALC_WORD_##name] = "CALC_WORD_" #name,
#define QLL_CALC_TEXT_NAME(name) [QLL_SAYS_CALC_TEXT_##name] = "CALC_TEXT_" #name,
#define QLL_TAPS_TEXT(name, word)   [QLL_SAYS_TAPS_##name] = "TAPS_" #name,
#define QLL_PIECE_TEXT(name, word)  [QLL_SAYS_PIECE_##name] = "PIECE_" #name,
#define QLL_INSTALL_TEXT(name, w)   [QLL_SAYS_INSTALL_##name] = "INSTALL_" #name,
#define QLL_PRESSURE_WORD_TEXT(name, word, kind) [QLL_SAYS_PRESSURE_##name] = "PRESSURE_" #name,
#define QLL_CHANNEL_TEXT(name, word) [QLL_SAYS_CHANNEL_##name] = "CHANNEL_" #name,
#define QLL_UNTOLD_TEXT(name, w)    [QLL_SAYS_UNTOLD_##name] = "UNTOLD_" #name,
#define QLL_PHRASE_TEXT(name)       [QLL_SAYS_##name] = #name,
#define QLL_MEND_TEXT(name, w, s)   [QLL_SAYS_MEND_##name] = "MEND_" #name,
#define QLL_NOTE_TEXT(name, w, b)   [QLL_SAYS_NOTE_##name] = "NOTE_" #name,
    QLL_FINDING_LIST(QLL_FINDING_TEXT)
    QLL_RULE_LIST(QLL_RULE_TEXT)
    QLL_PEAK_METHOD_LIST(QLL_METHOD_TEXT)
    QLL_REASON_LIST(QLL_REASON_TEXT)
    QLL_CAUTION_LIST(QLL_CAUTION_TEXT)
    QLL_ADVICE_LIST(QLL_ADVICE_TEXT)
    QLL_PHRASE_LIST(QLL_PHRASE_TEXT)
    QLL_SHEET_LIST(QLL_PHRASE_TEXT)
    QLL_NAMES_LIST(QLL_PHRASE_TEXT)
    QLL_FIGURE_LIST(QLL_PHRASE_TEXT)
    QLL_METERED_LIST(QLL_PHRASE_TEXT)
    QLL_LOG_MEND_LIST(QLL_MEND_TEXT)
    QLL_LOG_NOTE_LIST(QLL_NOTE_TEXT)
    QLL_FIT_LIST(QLL_PHRASE_TEXT)
    QLL_CATALOGUE_LIST(QLL_PHRASE_TEXT)
    QLL_SAID_LIST(QLL_PHRASE_TEXT)
    QLL_USE_LIST(QLL_PEOPLE_TEXT)
    QLL_REMARK_LIST(QLL_REMARK_TEXT)
    QLL_PEAK_TEXT_LIST(QLL_PHRASE_TEXT)
    QLL_USE_LIST(QLL_USE_TEXT)
    QLL_RULE_LIST(QLL_LIMIT_TEXT)
    QLL_REPORT_LIST(QLL_PHRASE_TEXT)
    QLL_CURES_LIST(QLL_PHRASE_TEXT)
    QLL_FLOW_LIST(QLL_PHRASE_TEXT)
    QLL_TAP_LIST(QLL_TAPS_TEXT)
    QLL_FORM_LIST(QLL_PHRASE_TEXT)
    QLL_PIECE_LIST(QLL_PIECE_TEXT)
    QLL_INSTALL_LIST(QLL_INSTALL_TEXT)
    QLL_DESIGN_LIST(QLL_PHRASE_TEXT)
    QLL_MECHANISM_LIST(QLL_MECHANISM_TEXT)
    QLL_PRACTICE_LIST(QLL_BREAKS_TEXT)
    QLL_PRACTICE_LIST(QLL_MENDS_TEXT)
    QLL_ROLE_LIST(QLL_ROLE_TEXT)
    QLL_CLOSE_LIST(QLL_CLOSE_TEXT)
    QLL_DATUM_LIST(QLL_MORE_TEXT)
    QLL_DATUM_LIST(QLL_LESS_TEXT)
    QLL_CALC_LIST(QLL_CALC_TITLE_NAME)
    QLL_CALC_LIST(QLL_CALC_VALID_NAME)
    QLL_CALC_LIST(QLL_CALC_SOURCE_NAME)
    QLL_CALC_STEP_LIST(QLL_CALC_STEP_NAME)
    QLL_CALC_STEP_LIST(QLL_CALC_FROM_NAME)
    QLL_CALC_FIGURE_LIST(QLL_CALC_FIGURE_NAME)
    QLL_CALC_WORD_LIST(QLL_CALC_WORD_NAME)
    QLL_CALC_TEXT_LIST(QLL_CALC_TEXT_NAME)
    QLL_PRESSURE_WORD_LIST(QLL_PRESSURE_WORD_TEXT)
    QLL_CHANNEL_LIST(QLL_CHANNEL_TEXT)
    QLL_PRESSURE_SAYS_LIST(QLL_PHRASE_TEXT)
    QLL_LISTEN_LIST(QLL_PHRASE_TEXT)
    QLL_SOUND_LIMIT_LIST(QLL_UNTOLD_TEXT)
#undef QLL_FINDING_TEXT
#undef QLL_RULE_TEXT
#undef QLL_METHOD_TEXT
#undef QLL_REASON_TEXT
#undef QLL_CAUTION_TEXT
#undef QLL_ADVICE_TEXT
#undef QLL_LIMIT_TEXT
#undef QLL_USE_TEXT
#undef QLL_PEOPLE_TEXT
#undef QLL_REMARK_TEXT
#undef QLL_MECHANISM_TEXT
#undef QLL_BREAKS_TEXT
#undef QLL_MENDS_TEXT
#undef QLL_ROLE_TEXT
#undef QLL_CLOSE_TEXT
#undef QLL_MORE_TEXT
#undef QLL_LESS_TEXT
#undef QLL_TAPS_TEXT
#undef QLL_PIECE_TEXT
#undef QLL_INSTALL_TEXT
#undef QLL_PHRASE_TEXT
#undef QLL_UNTOLD_TEXT
#undef QLL_MEND_TEXT
#undef QLL_NOTE_TEXT
#undef QLL_CALC_TITLE_NAME
#undef QLL_CALC_VALID_NAME
#undef QLL_CALC_SOURCE_NAME
#undef QLL_CALC_STEP_NAME
#undef QLL_CALC_FROM_NAME
#undef QLL_CALC_FIGURE_NAME
#undef QLL_CALC_WORD_NAME
#undef QLL_CALC_TEXT_NAME
#undef QLL_PRESSURE_WORD_TEXT
#undef QLL_CHANNEL_TEXT
};

/* clang-format on */

QLL_LANGUAGE_LIST(QLL_LANGUAGE_TEXTS)

static const qll_language_texts *const languages[QLL_LANGUAGE_COUNT] = {
#define QLL_LANGUAGE_ROW(name, code) [QLL_LANGUAGE_##name] = &qll_texts_##code,
    QLL_LANGUAGE_LIST(QLL_LANGUAGE_ROW)
#undef QLL_LANGUAGE_ROW
};

static const qll_language_texts *language_of(qll_language language)
{
    return languages[language];
}

const char *qll_said_entry(qll_language language, qll_text_id id)
{
    const qll_language_texts *texts = language_of(language);
#define QLL_TEXT_OF_PART(part, table, list)                                  \
    if (id >= QLL_TEXT_FIRST_##part && id < QLL_TEXT_END_##part) {           \
        const char *const *table_of = texts->said[QLL_TEXT_PART_##part];     \
        return table_of == NULL ? "" : table_of[id - QLL_TEXT_FIRST_##part]; \
    }
    QLL_TEXT_PART_LIST(QLL_TEXT_OF_PART)
#undef QLL_TEXT_OF_PART
    return "";
}

const char *qll_message_name(qll_message message)
{
    return names[message];
}

const char *qll_message_entry(qll_language language, qll_message message)
{
    const qll_language_texts *texts = languages[language];
    if ((size_t)message < QLL_FINDING_COUNT) {
        return texts->findings[message];
    }
    if (message >= QLL_LISTEN_FIRST) {
        return texts->sound[message - QLL_LISTEN_FIRST];
    }
    if (message >= QLL_PRESSURE_FIRST) {
        return texts->pressure[message - QLL_PRESSURE_FIRST];
    }
    if (message >= QLL_CALC_FIRST) {
        return texts->calc[message - QLL_CALC_FIRST];
    }
    if (message >= QLL_DESIGN_FIRST) {
        return texts->design[message - QLL_DESIGN_FIRST];
    }
    if (message >= QLL_FORMS_FIRST) {
        return texts->forms[message - QLL_FORMS_FIRST];
    }
    if (message >= QLL_REPORT_FIRST) {
        return texts->report[message - QLL_REPORT_FIRST];
    }
    if (message >= QLL_PEAKS_FIRST) {
        return texts->remarks[message - QLL_PEAKS_FIRST];
    }
    return texts->messages[message];
}

const char *qll_say(qll_language language, qll_message message)
{
    const char *says = qll_message_entry(language, message);
    if (says == NULL) {
        says = qll_message_entry(QLL_LANGUAGE_EN, message);
    }
    return says == NULL ? "" : says;
}

const char *qll_say_rule(qll_language language, qll_rule rule)
{
    return qll_say(language, (qll_message)((size_t)QLL_SAYS_RULE_DELIVERY + (size_t)rule));
}

const char *qll_say_method(qll_language language, qll_peak_method method)
{
    return qll_say(language,
                   (qll_message)((size_t)QLL_SAYS_METHOD_FIXTURE_UNITS_IPC + (size_t)method));
}

const char *qll_say_mend(qll_language language, qll_log_mend_kind kind)
{
    return qll_say(language, (qll_message)((size_t)QLL_SAYS_MEND_DUPLICATE + (size_t)kind));
}

typedef struct filling_list {
    const qll_filling *fillings;
    size_t count;
} filling_list;

static bool write_filling(qll_writer *writer, qll_text token, const void *context)
{
    const filling_list *list = context;
    for (size_t i = 0; i < list->count; i++) {
        if (list->fillings[i].text != NULL && qll_text_is(token, list->fillings[i].token)) {
            qll_write(writer, list->fillings[i].text);
            return true;
        }
    }
    return false;
}

void qll_say_with(qll_writer *writer, qll_language language, qll_message message,
                  const qll_filling *fillings, size_t count)
{
    const filling_list list = {fillings, count};
    qll_template_write(writer, qll_say(language, message), write_filling, &list,
                       qll_say(language, QLL_SAYS_UNKNOWN));
}
