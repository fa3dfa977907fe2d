#include "documents/vocabulary.h"

#include "base/words.h"
#include "diagnosis/case.h"
#include "documents/read_survey.h"

#include <string.h>

const char *const qll_vocabulary_words[QLL_VOCABULARY_COUNT] = {
#define QLL_VOCABULARY_WORD(name, word) [QLL_VOCABULARY_##name] = (word),
    QLL_VOCABULARY_LIST(QLL_VOCABULARY_WORD)
#undef QLL_VOCABULARY_WORD
};

/* Names are added one by one to room that was taken for all. */
typedef struct naming {
    qll_arena *arena;
    qll_name *names;
    size_t count;
} naming;

static naming begin(qll_arena *arena, size_t most)
{
    return (naming){.arena = arena, .names = qll_arena_take(arena, most, sizeof(qll_name))};
}

static void add(naming *to, const char *word, qll_text_id says)
{
    if (to->names != NULL) {
        to->names[to->count] = (qll_name){.word = word, .says = says};
        to->count += 1;
    }
}

/* The other words for the name that was added last, out of a list of all. */
static void add_others(naming *to, const qll_other_word *others, size_t count)
{
    const char **also = qll_arena_take(to->arena, count, sizeof *also);
    if (to->names == NULL || also == NULL) {
        return;
    }
    qll_name *name = &to->names[to->count - 1];
    for (size_t i = 0; i < count; i++) {
        if (strcmp(others[i].word, name->word) == 0) {
            also[name->also_count] = others[i].said;
            name->also_count += 1;
        }
    }
    name->also = also;
}

static void add_pipes(naming *to)
{
    size_t count = 0;
    size_t other_count = 0;
    const qll_pipe_family *families = qll_pipe_families(&count);
    const qll_other_word *others = qll_pipe_other_words(&other_count);
    *to = begin(to->arena, count);
    for (size_t i = 0; i < count; i++) {
        add(to, families[i].word, QLL_TEXT_NONE);
        add_others(to, others, other_count);
    }
}

static void add_fittings(naming *to)
{
    size_t count = 0;
    size_t other_count = 0;
    const qll_fitting *fittings = qll_fittings(&count);
    const qll_other_word *others = qll_fitting_other_words(&other_count);
    *to = begin(to->arena, count);
    for (size_t i = 0; i < count; i++) {
        add(to, fittings[i].word, QLL_TEXT_NONE);
        add_others(to, others, other_count);
    }
}

/* "shower head|shower stall". */
static void add_synonyms(naming *to, const char *synonyms)
{
    size_t count = synonyms[0] == '\0' ? 0 : 1;
    for (const char *at = synonyms; *at != '\0'; at++) {
        count += *at == '|' ? 1 : 0;
    }
    const char **also = qll_arena_take(to->arena, count, sizeof *also);
    if (to->names == NULL || also == NULL) {
        return;
    }
    qll_name *name = &to->names[to->count - 1];
    name->also = also;
    const char *at = synonyms;
    for (size_t i = 0; i < count; i++) {
        const size_t size = strcspn(at, "|");
        const char *one = qll_text_closed((qll_text){at, size}, to->arena);
        also[i] = one == NULL ? "" : one;
        at += size + 1;
    }
    name->also_count = count;
}

static void add_fixtures(naming *to, const qll_fixture_table *fixtures)
{
    *to = begin(to->arena, fixtures->count);
    for (size_t i = 0; i < fixtures->count; i++) {
        add(to, fixtures->kinds[i].word, QLL_TEXT_NONE);
        add_synonyms(to, fixtures->kinds[i].synonyms);
    }
}

static void add_meshes(naming *to)
{
    size_t count = 0;
    const int *meshes = qll_screen_meshes(&count);
    *to = begin(to->arena, count);
    for (size_t i = 0; i < count; i++) {
        qll_writer word = qll_writer_new(to->arena);
        qll_write_format(&word, "%d", meshes[i]);
        add(to, qll_writer_text(&word).bytes, QLL_TEXT_NONE);
    }
}

static void add_findings(naming *to, qll_finding_of of)
{
    const char *const *words = NULL;
    size_t count = 0;
    if (qll_finding_words(of, to->arena, &words, &count) != QLL_OK) {
        return;
    }
    *to = begin(to->arena, count);
    for (size_t i = 0; i < count; i++) {
        add(to, words[i], QLL_TEXT_NONE);
    }
}

static void add_questions(naming *to, const qll_knowledge *knowledge)
{
    *to = begin(to->arena, knowledge->evidence_count);
    for (size_t e = 0; e < knowledge->evidence_count; e++) {
        add(to, knowledge->evidence[e].word, knowledge->evidence[e].asks);
    }
}

static void add_causes(naming *to, const qll_knowledge *knowledge)
{
    *to = begin(to->arena, knowledge->cause_count);
    for (size_t c = 0; c < knowledge->cause_count; c++) {
        add(to, knowledge->causes[c].word, knowledge->causes[c].says);
    }
}

qll_status qll_names_of(qll_vocabulary which, const qll_tables *tables,
                        const qll_knowledge *knowledge, qll_arena *arena, qll_names *names)
{
    const size_t refused = qll_arena_refused(arena);
    naming to = {.arena = arena};
    switch (which) {
    case QLL_VOCABULARY_PIPES: add_pipes(&to); break;
    case QLL_VOCABULARY_FITTINGS: add_fittings(&to); break;
    case QLL_VOCABULARY_FIXTURES: add_fixtures(&to, &tables->fixtures); break;
    case QLL_VOCABULARY_MESHES: add_meshes(&to); break;
    case QLL_VOCABULARY_QUESTIONS: add_questions(&to, knowledge); break;
    case QLL_VOCABULARY_CAUSES: add_causes(&to, knowledge); break;
    case QLL_VOCABULARY_LOG_FINDINGS: add_findings(&to, QLL_FINDING_OF_LOG); break;
    case QLL_VOCABULARY_SOUND_FINDINGS: add_findings(&to, QLL_FINDING_OF_SOUND); break;
    case QLL_VOCABULARY_TOGETHER: add_findings(&to, QLL_FINDING_OF_BOTH); break;
    case QLL_VOCABULARY_NONE:
    case QLL_VOCABULARY_COUNT: break;
    }
    *names = (qll_names){to.names, to.count, which == QLL_VOCABULARY_FIXTURES};
    return qll_arena_refused(arena) == refused ? QLL_OK : QLL_NO_MEMORY;
}
