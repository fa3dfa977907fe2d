#include "quell/quell.h"

#include "base/quote.h"
#include "base/words.h"
#include "engine/engine.h"
#include "engine/make_report.h"
#include "report/pictures.h"
#include "report/report.h"

#include <string.h>

const char *const qll_verb_words[QLL_VERB_COUNT] = {
#define QLL_VERB_WORD(name, word) [QLL_VERB_##name] = (word),
    QLL_VERB_LIST(QLL_VERB_WORD)
#undef QLL_VERB_WORD
};

typedef qll_status ask_function(qll_asked *asked);

static ask_function *const asks[QLL_VERB_COUNT] = {
    [QLL_VERB_DEMAND] = qll_ask_demand, [QLL_VERB_DESIGN] = qll_ask_design,
    [QLL_VERB_CHECK] = qll_ask_check,   [QLL_VERB_CALC] = qll_ask_calc,
    [QLL_VERB_IMPORT] = qll_ask_import, [QLL_VERB_FIT] = qll_ask_fit,
    [QLL_VERB_LIST] = qll_ask_list,     [QLL_VERB_REPORT] = qll_ask_report,
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

/* The place of @p word among @p words; their count, and a refusal, if it is none of them. */
static size_t read_choice(qll_asked *asked, const char *option, const char *word,
                          const char *const *words, size_t count, qll_text_id says)
{
    for (size_t i = 0; i < count; i++) {
        if (strcmp(word, words[i]) == 0) {
            return i;
        }
    }
    const char *nearest = qll_words_nearest(qll_text_of(word), words, count);
    qll_writer known = qll_writer_new(asked->arena);
    for (size_t i = 0; i < count; i++) {
        qll_write(&known, i == 0 ? "" : ", ");
        qll_write(&known, words[i]);
    }
    const qll_said said = {
        says, {qll_as_quoted(qll_text_of(word)), qll_as_is_text(qll_writer_text(&known))}};
    qll_asked_refuse(asked, QLL_CODE_UNKNOWN_WORD, option, &said,
                     qll_hint_word(nearest, asked->arena));
    return count;
}

/* A whole number of at most 18 digits; refused if it is none. */
static uint64_t read_seed(qll_asked *asked, const char *word)
{
    uint64_t seed = 0;
    size_t count = strlen(word);
    bool is_whole = count > 0 && count <= 18;
    for (size_t i = 0; i < count && is_whole; i++) {
        is_whole = word[i] >= '0' && word[i] <= '9';
        seed = 10 * seed + (uint64_t)(unsigned char)(word[i] - '0');
    }
    if (!is_whole) {
        qll_asked_refuse(asked, QLL_CODE_NO_NUMBER, "--seed",
                         QLL_SAYS_WITH(SEED_UNKNOWN, qll_as_quoted(qll_text_of(word))), NULL);
    }
    return seed;
}

/* "cover,station" to bits; blanks around a word do not matter. */
static unsigned read_sections(qll_asked *asked, const char *list)
{
    unsigned set = 0;
    qll_text rest = qll_text_of(list);
    for (;;) {
        const char *comma = rest.size == 0 ? NULL : memchr(rest.bytes, ',', rest.size);
        size_t size = comma == NULL ? rest.size : (size_t)(comma - rest.bytes);
        const char *word =
            qll_text_closed(qll_text_trimmed((qll_text){rest.bytes, size}), asked->arena);
        if (word == NULL) {
            return set; /* the arena counts it */
        }
        size_t kind = read_choice(asked, "--sections", word, qll_section_words, QLL_SECTION_COUNT,
                                  QLL_TEXT_SECTION_UNKNOWN);
        set |= kind < QLL_SECTION_COUNT ? QLL_SECTION_BIT(kind) : 0U;
        if (comma == NULL) {
            return set;
        }
        rest = (qll_text){comma + 1, rest.size - size - 1};
    }
}

/* "day-2": the word of a figure, and the scenario or valve it is of, from 1. */
static void read_plot(qll_asked *asked, const char *plot)
{
    size_t size = strlen(plot);
    size_t digits = 0;
    while (digits < size && plot[size - digits - 1] >= '0' && plot[size - digits - 1] <= '9') {
        digits += 1;
    }
    const char *word = plot;
    double number = 1;
    if (digits > 0 && digits < 9 && digits < size && plot[size - digits - 1] == '-') {
        word = qll_text_closed((qll_text){plot, size - digits - 1}, asked->arena);
        (void)qll_text_number((qll_text){plot + size - digits, digits}, &number);
    }
    if (word == NULL) {
        return; /* the arena counts it */
    }
    asked->plot = read_choice(asked, "--plot", word, qll_picture_words, QLL_PICTURE_COUNT,
                              QLL_TEXT_FIGURE_UNKNOWN);
    /* 0 becomes a figure that does not exist. */
    asked->plot_number = number < 1 ? SIZE_MAX : (size_t)number - 1;
}

/* A report has forms of its own, which no other answer has; which one, where a room makes the file, is
 * said apart from the question. */
static void check_form(qll_asked *asked)
{
    const qll_question *question = asked->question;
    bool is_sheets = question->form == QLL_FORM_HTML || question->form == QLL_FORM_SVG;
    bool is_report = question->verb == QLL_VERB_REPORT;
    if (asked->made != NULL ? is_sheets || !is_report
                            : (is_report ? question->form == QLL_FORM_TEXT : is_sheets)) {
        qll_asked_refuse(asked, QLL_CODE_UNKNOWN_WORD, "", QLL_SAYS(FORM_WRONG), NULL);
    }
}

/* Does the question itself make sense? */
static bool makes_sense(qll_asked *asked)
{
    static const char *const systems[] = {"us", "si"};
    const qll_question *question = asked->question;
    if (question->language != NULL) {
        size_t found = read_choice(asked, "--language", question->language, qll_language_words,
                                   QLL_LANGUAGE_COUNT, QLL_TEXT_LANGUAGE_UNKNOWN);
        asked->language = found < QLL_LANGUAGE_COUNT ? (qll_language)found : QLL_LANGUAGE_EN;
    }
    if (question->units != NULL) {
        asked->units =
            read_choice(asked, "--units", question->units, systems, 2, QLL_TEXT_UNITS_UNKNOWN) == 1
                ? QLL_UNITS_SI
                : QLL_UNITS_US;
    }
    asked->seed = question->seed == NULL ? 1 : read_seed(asked, question->seed);
    asked->of = question->of == NULL
                    ? QLL_REPORT_OF_DESIGN
                    : (unsigned)read_choice(asked, "--of", question->of, qll_report_of_words,
                                            QLL_REPORT_OF_COUNT, QLL_TEXT_SHEETS_UNKNOWN);
    asked->sections =
        question->sections == NULL ? QLL_SECTIONS_ALL : read_sections(asked, question->sections);
    if (question->plot != NULL) {
        read_plot(asked, question->plot);
    }
    check_form(asked);
    bool needs_document = question->verb != QLL_VERB_CALC && question->verb != QLL_VERB_LIST;
    if (needs_document && question->document.bytes == NULL) {
        qll_asked_refuse(asked, QLL_CODE_MISSING_KEY, "", QLL_SAYS(DOCUMENT_MISSING), NULL);
    }
    return asked->problems.refusal_count == 0;
}

/* The problems as machines read them, in place of an answer. */
static void write_refusal(qll_asked *asked)
{
    asked->writer = qll_writer_new(asked->arena);
    qll_json json = qll_json_new(&asked->writer);
    const qll_wording wording = {.units = asked->units, .language = asked->language};
    qll_refusal_write(&json, qll_verb_words[asked->question->verb], &wording, &asked->problems);
    qll_write(&asked->writer, "\n");
}

/* Moves the text and the problems into the answer. */
static qll_status hand_over(qll_asked *asked, qll_status status, qll_answer *answer)
{
    bool is_json = asked->question->form == QLL_FORM_JSON;
    if ((status == QLL_REFUSED || status == QLL_IO) && is_json) {
        write_refusal(asked);
    }
    if (status == QLL_OK || ((status == QLL_REFUSED || status == QLL_IO) && is_json)) {
        qll_text text = qll_writer_text(&asked->writer);
        answer->bytes = text.bytes;
        answer->size = text.size;
    }
    size_t count = asked->problems.kept_count;
    qll_problem *problems = qll_arena_take(asked->arena, count, sizeof *problems);
    if (problems == NULL) {
        *answer = (qll_answer){0};
        return QLL_NO_MEMORY;
    }
    const qll_wording wording = {.units = asked->units, .language = asked->language};
    for (size_t i = 0; i < count; i++) {
        problems[i] = qll_wording_problem(asked->arena, &wording, &asked->problems.kept[i]);
    }
    answer->problems = problems;
    answer->problem_count = count;
    answer->problem_total = asked->problems.count;
    answer->warning = qll_say(asked->language, QLL_SAYS_WARNING);
    return status;
}

static qll_status ask(qll_asked *asked, qll_answer *answer)
{
    if (!makes_sense(asked)) {
        return hand_over(asked, QLL_WRONG_USE, answer);
    }
    return hand_over(asked, asks[asked->question->verb](asked), answer);
}

static qll_status ask_whole(const qll_question *question, qll_arena *arena, qll_made_report *made,
                            qll_answer *answer)
{
    *answer = (qll_answer){0};
    qll_asked asked = {
        .question = question,
        .arena = arena,
        .problems = qll_problems_none(arena),
        .assumed = qll_assumed_none(arena),
        .made = made,
        .writer = qll_writer_new(arena),
    };
    size_t refused = qll_arena_refused(arena);
    qll_status status = ask(&asked, answer);
    /* A hint or a place may be left out when memory is short; an answer is whole or none. */
    if (qll_arena_refused(arena) != refused) {
        *answer = (qll_answer){0};
        return QLL_NO_MEMORY;
    }
    return status;
}

qll_status qll_ask(const qll_question *question, qll_arena *arena, qll_answer *answer)
{
    return ask_whole(question, arena, NULL, answer);
}

qll_status qll_make_report(const qll_question *question, qll_sheets_form form, qll_arena *arena,
                           qll_made_report *made, qll_answer *answer)
{
    *made = (qll_made_report){.form = form};
    qll_status status = ask_whole(question, arena, made, answer);
    if (status == QLL_OK) {
        answer->bytes = NULL;
        answer->size = 0;
    }
    return status;
}
