/* What documents may hold. */
#include "base/quote.h"
#include "base/words.h"
#include "documents/describe.h"
#include "engine/choose.h"
#include "report/describe_help.h"

#include <string.h>

/* What is asked for, as bits. */
static unsigned read_about(qll_asked *asked)
{
    const qll_choice choice = {"describe", qll_described_words, QLL_DESCRIBED_COUNT,
                               QLL_TEXT_DESCRIBED_UNKNOWN};
    if (asked->question->about == NULL) {
        return (1U << (unsigned)QLL_DESCRIBED_COUNT) - 1U;
    }
    const size_t found = qll_choose(asked, &choice, asked->question->about);
    return found < QLL_DESCRIBED_COUNT ? 1U << found : 0U;
}

/* The paths of all keys that may be asked for, and whether one of them is. */
typedef struct known_paths {
    const char **paths; /* NULL without memory */
    size_t count;
    bool has_key;
} known_paths;

static void add_path(known_paths *known, const char *key, const char *path)
{
    known->has_key = known->has_key || qll_is_asked_key(key, path);
    known->paths[known->count] = path;
    known->count += 1;
}

static size_t count_keys(const qll_field_group *const *groups, size_t count)
{
    size_t keys = 0;
    for (size_t g = 0; g < count; g++) {
        keys += groups[g]->count;
    }
    return keys;
}

static known_paths list_keys(qll_arena *arena, const char *key, qll_described what)
{
    size_t count = 0;
    const qll_field_group **groups = qll_described_groups(what, arena, &count);
    known_paths known = {.paths =
                             qll_arena_take(arena, count_keys(groups, count), sizeof *known.paths)};
    for (size_t g = 0; known.paths != NULL && g < count; g++) {
        for (size_t f = 0; f < groups[g]->count; f++) {
            add_path(&known, key, qll_field_path(arena, groups[g], &groups[g]->fields[f]));
        }
    }
    return known;
}

static known_paths list_vocabularies(qll_arena *arena, const char *key)
{
    known_paths known = {.paths = qll_arena_take(arena, QLL_VOCABULARY_COUNT, sizeof *known.paths)};
    for (unsigned v = QLL_VOCABULARY_NONE + 1; known.paths != NULL && v < QLL_VOCABULARY_COUNT;
         v++) {
        add_path(&known, key, qll_vocabulary_words[v]);
    }
    return known;
}

/* Refuses a key that nothing of what is shown has. */
static qll_status check_key(qll_asked *asked, const qll_description *of)
{
    bool has_key = of->key == NULL;
    const char *nearest = NULL;
    const qll_text key = qll_text_of(of->key == NULL ? "" : of->key);
    for (unsigned i = 0; i < QLL_DESCRIBED_COUNT && !has_key; i++) {
        if ((of->shown & (1U << i)) == 0) {
            continue;
        }
        const known_paths known = i == QLL_DESCRIBED_WORDS
                                      ? list_vocabularies(asked->arena, of->key)
                                      : list_keys(asked->arena, of->key, (qll_described)i);
        if (known.paths == NULL) {
            return QLL_NO_MEMORY;
        }
        has_key = known.has_key;
        const char *near = qll_words_nearest(key, known.paths, known.count);
        nearest = near == NULL ? nearest : near;
    }
    if (has_key) {
        return QLL_OK;
    }
    const char *about = asked->question->about;
    qll_asked_refuse(
        asked, QLL_CODE_UNKNOWN_WORD, "describe",
        QLL_SAYS_WITH(DESCRIBED_KEY_UNKNOWN, qll_as_quoted(key),
                      qll_as_is(about == NULL ? qll_verb_words[QLL_VERB_DESCRIBE] : about)),
        qll_hint_word(nearest, asked->arena));
    return QLL_WRONG_USE;
}

static void write_schema(qll_asked *asked, const qll_description *of)
{
    qll_json json = qll_json_new(&asked->writer);
    for (unsigned i = 0; i < QLL_DESCRIBED_WORDS; i++) {
        if (of->shown == 1U << i) {
            qll_schema_write(&json, of, (qll_described)i);
        }
    }
    qll_write(&asked->writer, "\n");
}

static void write_answer(qll_asked *asked, const qll_description *of)
{
    switch (asked->question->form) {
    case QLL_FORM_SCHEMA: write_schema(asked, of); break;
    case QLL_FORM_JSON: {
        qll_json json = qll_json_new(&asked->writer);
        qll_describe_write(&json, of);
        qll_write(&asked->writer, "\n");
        break;
    }
    case QLL_FORM_TEXT:
    case QLL_FORM_HTML:
    case QLL_FORM_SVG: qll_describe_print(&asked->writer, of); break;
    }
}

/* The tables and the catalogue that words come from; what a catalogue leaves out is no matter here. */
static qll_status read_words(qll_asked *asked, qll_description *of, qll_tables *tables,
                             qll_knowledge *knowledge, qll_catalogue *catalogue)
{
    qll_status status = qll_tables_read(asked->arena, tables);
    if (status == QLL_OK) {
        status = qll_knowledge_read(asked->arena, knowledge);
    }
    for (unsigned v = QLL_VOCABULARY_NONE + 1; status == QLL_OK && v < QLL_VOCABULARY_COUNT; v++) {
        status = qll_names_of((qll_vocabulary)v, tables, knowledge, asked->arena, &of->names[v]);
    }
    return status == QLL_OK ? qll_read_catalogue(asked, catalogue) : status;
}

qll_status qll_ask_describe(qll_asked *asked)
{
    const qll_question *question = asked->question;
    const qll_wording wording = {.units = asked->units, .language = asked->language};
    const qll_assumed nothing = qll_assumed_none(asked->arena);
    qll_tables tables;
    qll_knowledge knowledge;
    qll_catalogue catalogue;
    qll_description of = {
        .wording = &wording,
        .shown = read_about(asked),
        .key = question->key,
        .tables = &tables,
        .knowledge = &knowledge,
        .catalogue = &catalogue,
        .assumed = &nothing,
        .problems = &asked->problems,
    };
    const bool is_of_one = question->about != NULL && of.shown != 1U << QLL_DESCRIBED_WORDS;
    if (question->form == QLL_FORM_SCHEMA && of.shown != 0 && !is_of_one) {
        qll_asked_refuse(asked, QLL_CODE_UNKNOWN_WORD, "--schema", QLL_SAYS(SCHEMA_OF_ONE), NULL);
    }
    if (asked->problems.refusal_count > 0) {
        return QLL_WRONG_USE;
    }
    qll_status status = check_key(asked, &of);
    if (status == QLL_OK) {
        status = read_words(asked, &of, &tables, &knowledge, &catalogue);
    }
    if (status != QLL_OK) {
        return status;
    }
    write_answer(asked, &of);
    return qll_asked_finish(asked);
}
