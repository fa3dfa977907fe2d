#include "base/problems.h"

#include "base/quote.h"

#include <assert.h>

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
    qll_writer writer = qll_writer_new(problems->arena);
    qll_write_visible(&writer, qll_text_of(text));
    qll_text copy = qll_writer_text(&writer);
    if (copy.bytes == NULL) {
        problems->no_memory = true;
        return "";
    }
    return copy.bytes;
}

bool qll_problems_add(qll_problems *problems, qll_problem problem)
{
    problems->count += 1;
    if (problem.level == QLL_REFUSAL) {
        problems->refusal_count += 1;
    }
    if (problems->kept_count < QLL_PROBLEMS_KEPT) {
        bool is_lost =
            problem.text == NULL || (problem.place.line > 0 && problem.place.path == NULL);
        problems->no_memory = problems->no_memory || is_lost;
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

const char *qll_hint_word(const char *word, qll_arena *arena)
{
    if (word == NULL) {
        return "";
    }
    qll_writer writer = qll_writer_new(arena);
    qll_write(&writer, "did you mean ");
    qll_write_quoted(&writer, qll_text_of(word));
    qll_write(&writer, "?");
    qll_text hint = qll_writer_text(&writer);
    return hint.bytes == NULL ? "" : hint.bytes;
}

static bool is_given(const char *text)
{
    return text != NULL && text[0] != '\0';
}

void qll_problem_write(qll_writer *writer, const qll_problem *problem, const char *warning)
{
    const qll_place *place = &problem->place;
    bool has_place = is_given(place->source) || place->line > 0;
    if (is_given(place->source)) {
        qll_write(writer, place->source);
        qll_write(writer, ":");
    }
    if (place->line > 0) {
        qll_write_format(writer, "%d:", place->line);
    }
    if (place->line > 0 && place->column > 0) {
        qll_write_format(writer, "%d:", place->column);
    }
    qll_write(writer, has_place ? " " : "");
    if (problem->level == QLL_WARNING) {
        qll_write(writer, warning == NULL ? "warning" : warning);
        qll_write(writer, ": ");
    }
    if (is_given(place->path)) {
        qll_write(writer, place->path);
        qll_write(writer, ": ");
    }
    qll_write(writer, problem->text);
    if (is_given(problem->hint)) {
        qll_write(writer, "; ");
        qll_write(writer, problem->hint);
    }
    qll_write(writer, "\n");
}
