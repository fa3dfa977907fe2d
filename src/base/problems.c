#include "base/problems.h"

#include <assert.h>
#include <string.h>

typedef struct code_entry {
    const char *word;
    const char *sentence;
} code_entry;

static const code_entry codes[QLL_CODE_COUNT] = {
#define QLL_CODE_ENTRY(name, word, sentence) [QLL_CODE_##name] = {word, sentence},
    QLL_CODE_LIST(QLL_CODE_ENTRY)
#undef QLL_CODE_ENTRY
};

const char *qll_code_word(qll_code code)
{
    assert(code < QLL_CODE_COUNT);
    return codes[code].word;
}

const char *qll_code_sentence(qll_code code)
{
    assert(code < QLL_CODE_COUNT);
    return codes[code].sentence;
}

qll_problems qll_problems_none(qll_arena *arena)
{
    return (qll_problems){.arena = arena};
}

static const char *keep(qll_problems *problems, const char *text)
{
    if (text == NULL || text[0] == '\0') {
        return "";
    }
    const char *copy = qll_arena_copy(problems->arena, text, strlen(text));
    if (copy == NULL) {
        problems->no_memory = true;
        return "";
    }
    return copy;
}

bool qll_problems_add(qll_problems *problems, qll_problem problem)
{
    problems->count += 1;
    if (problem.level == QLL_REFUSAL) {
        problems->refusal_count += 1;
    }
    if (problems->kept_count < QLL_PROBLEMS_KEPT) {
        problem.place.source = keep(problems, problem.place.source);
        problem.place.path = keep(problems, problem.place.path);
        problem.text = keep(problems, problem.text);
        problem.hint = keep(problems, problem.hint);
        problems->kept[problems->kept_count] = problem;
        problems->kept_count += 1;
    }
    return false;
}

qll_status qll_problems_status(const qll_problems *problems)
{
    if (problems->no_memory) {
        return QLL_NO_MEMORY;
    }
    return problems->refusal_count > 0 ? QLL_REFUSED : QLL_OK;
}
