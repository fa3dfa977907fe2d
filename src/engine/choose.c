#include "engine/choose.h"

#include "base/words.h"
#include "report/pictures.h"

#include <string.h>

const char *const qll_part_words[QLL_PART_COUNT] = {
#define QLL_PART_WORD(name, word) [QLL_PART_##name] = (word),
    QLL_PART_LIST(QLL_PART_WORD)
#undef QLL_PART_WORD
};

#define QLL_BIT(name) QLL_PART_BIT(QLL_PART_##name)

/* What each answer has of them. */
#define QLL_PARTS_DEMAND \
    (QLL_BIT(ESTIMATES) | QLL_BIT(DURATION) | QLL_BIT(HOURS) | QLL_BIT(LOG) | QLL_BIT(COMPARISON))
#define QLL_PARTS_DESIGN                                                             \
    (QLL_BIT(HANGS_ON) | QLL_BIT(ALTERNATIVES) | QLL_BIT(VERDICTS) | QLL_BIT(POINTS) \
     | QLL_BIT(LADDER) | QLL_BIT(MAPS) | QLL_BIT(MOTION))
#define QLL_PARTS_CHECK                                                                     \
    (QLL_BIT(VERDICTS) | QLL_BIT(POINTS) | QLL_BIT(LADDER) | QLL_BIT(MAPS) | QLL_BIT(NOISE) \
     | QLL_BIT(CAUSES) | QLL_BIT(CURES) | QLL_BIT(CHANCE) | QLL_BIT(MOTION))

#define QLL_PARTS_LISTEN                                                             \
    (QLL_BIT(STRETCHES) | QLL_BIT(EVENTS) | QLL_BIT(SPECTRUM) | QLL_BIT(SPECTROGRAM) \
     | QLL_BIT(SHEETS))

/* Those that no list but their own name asks for. */
#define QLL_PARTS_BY_NAME (QLL_BIT(MOTION) | QLL_BIT(SHEETS))

static const unsigned parts_of[QLL_VERB_COUNT] = {
    [QLL_VERB_DEMAND] = QLL_PARTS_DEMAND,
    [QLL_VERB_DESIGN] = QLL_PARTS_DESIGN,
    [QLL_VERB_CHECK] = QLL_PARTS_CHECK,
    [QLL_VERB_LISTEN] = QLL_PARTS_LISTEN,
    [QLL_VERB_LOG] = QLL_BIT(SHEETS),
    [QLL_VERB_REPORT] = (QLL_PARTS_DEMAND & ~QLL_BIT(COMPARISON)) | QLL_PARTS_DESIGN,
};

size_t qll_choose(qll_asked *asked, const qll_choice *choice, const char *word)
{
    for (size_t i = 0; i < choice->count; i++) {
        if (strcmp(word, choice->words[i]) == 0) {
            return i;
        }
    }
    const char *nearest = qll_words_nearest(qll_text_of(word), choice->words, choice->count);
    const qll_said said = {choice->says,
                           {qll_as_quoted(qll_text_of(word)),
                            qll_as_words(asked->arena, choice->words, choice->count),
                            qll_as_is(qll_verb_words[asked->question->verb])}};
    qll_asked_refuse(asked, QLL_CODE_UNKNOWN_WORD, choice->option, &said,
                     qll_hint_word(nearest, asked->arena));
    return choice->count;
}

/* The next word of a list; false after the last, and without memory, which the arena counts. */
static bool next_word(qll_asked *asked, qll_text *rest, const char **word)
{
    qll_text item;
    if (!qll_text_take_item(rest, &item)) {
        return false;
    }
    *word = qll_text_closed(item, asked->arena);
    return *word != NULL;
}

unsigned qll_choose_set(qll_asked *asked, const qll_choice *choice, const char *list)
{
    unsigned set = 0;
    qll_text rest = qll_text_of(list);
    const char *word = NULL;
    while (next_word(asked, &rest, &word)) {
        size_t found = qll_choose(asked, choice, word);
        set |= found < choice->count ? 1U << found : 0U;
    }
    return set;
}

/* ---- parts ---- */

/* What takes a run of its own is in no answer that does not name it, but on a sheet that is signed; nor are sheets. */
static unsigned usual_parts(qll_verb verb)
{
    const unsigned all = parts_of[verb];
    return verb == QLL_VERB_REPORT ? all : all & ~QLL_PARTS_BY_NAME;
}

/* The parts that the list names; "all" stands for all but those. */
static unsigned read_parts(qll_asked *asked, const char *list)
{
    const qll_verb verb = asked->question->verb;
    const char *words[QLL_PART_COUNT + 1];
    unsigned bits[QLL_PART_COUNT + 1];
    size_t count = 0;
    for (unsigned part = 0; part < QLL_PART_COUNT; part++) {
        if ((parts_of[verb] & QLL_PART_BIT(part)) != 0) {
            words[count] = qll_part_words[part];
            bits[count] = QLL_PART_BIT(part);
            count += 1;
        }
    }
    words[count] = "all";
    bits[count] = parts_of[verb] & ~QLL_PARTS_BY_NAME;
    count += 1;
    const qll_choice choice = {"--parts", words, count, QLL_TEXT_PART_UNKNOWN};
    const unsigned chosen = qll_choose_set(asked, &choice, list);
    unsigned named = 0;
    for (size_t i = 0; i < count; i++) {
        named |= (chosen & (1U << i)) != 0 ? bits[i] : 0U;
    }
    return named;
}

void qll_choose_parts(qll_asked *asked)
{
    const char *list = asked->question->parts;
    const qll_verb verb = asked->question->verb;
    if (list != NULL && parts_of[verb] == 0) {
        qll_asked_refuse(asked, QLL_CODE_UNKNOWN_KEY, "--parts", QLL_SAYS(PARTS_NONE), NULL);
        return;
    }
    const unsigned named = list == NULL ? usual_parts(verb) : read_parts(asked, list);
    asked->left_out = parts_of[verb] & ~named;
    asked->skipped = asked->left_out;
    if (verb == QLL_VERB_REPORT) {
        asked->skipped &=
            ~QLL_BIT(POINTS); /* the forms for commissioning and service are filled in from them */
    }
}

/* ---- figures ---- */

void qll_choose_figure(qll_asked *asked, const char *option, const char *plot, bool all_of_kind,
                       qll_asked_figure *figure)
{
    size_t size = strlen(plot);
    size_t digits = 0;
    while (digits < size && plot[size - digits - 1] >= '0' && plot[size - digits - 1] <= '9') {
        digits += 1;
    }
    const char *word = plot;
    double number = 1;
    bool has_number = digits > 0 && digits < 9 && digits < size && plot[size - digits - 1] == '-';
    if (has_number) {
        word = qll_text_closed((qll_text){plot, size - digits - 1}, asked->arena);
        (void)qll_text_number((qll_text){plot + size - digits, digits}, &number);
    }
    if (word == NULL) {
        return; /* the arena counts it */
    }
    const qll_choice choice = {option, qll_picture_words, QLL_PICTURE_COUNT,
                               QLL_TEXT_FIGURE_UNKNOWN};
    figure->kind = qll_choose(asked, &choice, word);
    /* 0 becomes a figure that does not exist. */
    figure->number = number < 1 ? SIZE_MAX - 1 : (size_t)number - 1;
    if (!has_number && all_of_kind) {
        figure->number = SIZE_MAX;
    }
}

/* What a figure is drawn from. */
static unsigned parts_for(size_t kind)
{
    switch ((qll_picture_kind)kind) {
    case QLL_PICTURE_LADDER: return QLL_BIT(LADDER);
    case QLL_PICTURE_MAP: return QLL_BIT(MAPS);
    case QLL_PICTURE_FALLOFF: return QLL_BIT(POINTS);
    case QLL_PICTURE_CANDIDATES: return QLL_BIT(ALTERNATIVES);
    case QLL_PICTURE_SCHEMATIC:
    case QLL_PICTURE_DAY:
    case QLL_PICTURE_DURATION:
    case QLL_PICTURE_NOISE:
    case QLL_PICTURE_SPECTRUM:
    case QLL_PICTURE_COUNT: break;
    }
    return 0;
}

static bool has_figures(const qll_question *question)
{
    bool is_verb = question->verb == QLL_VERB_DEMAND || question->verb == QLL_VERB_DESIGN
                   || question->verb == QLL_VERB_CHECK;
    return is_verb && question->form == QLL_FORM_JSON;
}

/* Room for every word of the list, or for every kind. */
static size_t room_of(const char *list)
{
    size_t count = 1;
    for (const char *at = list; *at != '\0'; at++) {
        count += *at == ',' ? 1 : 0;
    }
    return count + QLL_PICTURE_COUNT;
}

static void add_figure(qll_asked *asked, const qll_asked_figure *figure)
{
    asked->figures[asked->figure_count] = *figure;
    asked->figure_count += 1;
    asked->skipped &= ~parts_for(figure->kind);
}

void qll_choose_figures(qll_asked *asked)
{
    const char *list = asked->question->figures;
    if (list == NULL) {
        return;
    }
    if (!has_figures(asked->question)) {
        qll_asked_refuse(asked, QLL_CODE_UNKNOWN_KEY, "--figures", QLL_SAYS(FIGURES_NONE), NULL);
        return;
    }
    asked->figures = qll_arena_take(asked->arena, room_of(list), sizeof *asked->figures);
    if (asked->figures == NULL) {
        return;
    }
    qll_text rest = qll_text_of(list);
    const char *word = NULL;
    bool has_all = false;
    while (next_word(asked, &rest, &word)) {
        if (strcmp(word, "all") == 0) {
            has_all = true;
            continue;
        }
        qll_asked_figure figure = {.kind = QLL_PICTURE_COUNT};
        qll_choose_figure(asked, "--figures", word, true, &figure);
        add_figure(asked, &figure);
    }
    for (size_t kind = 0; has_all && kind < QLL_PICTURE_COUNT; kind++) {
        add_figure(asked, &(qll_asked_figure){.kind = kind, .number = SIZE_MAX});
    }
}
