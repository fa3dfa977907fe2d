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
    return (qll_problems){.arena = arena, .refused_count = qll_arena_refused(arena)};
}

static const char *keep(qll_problems *problems, const char *text)
{
    if (text == NULL || text[0] == '\0') {
        return "";
    }
    qll_writer writer = qll_writer_new(problems->arena);
    qll_write_visible(&writer, qll_text_of(text));
    return qll_writer_text(&writer).bytes;
}

const qll_said *qll_said_kept(qll_arena *arena, const qll_said *said)
{
    if (said == NULL) {
        return NULL;
    }
    qll_said *kept = qll_arena_take(arena, 1, sizeof *kept);
    if (kept != NULL) {
        *kept = *said;
    }
    return kept;
}

bool qll_problems_add(qll_problems *problems, qll_fault fault)
{
    problems->count += 1;
    if (fault.level == QLL_REFUSAL) {
        problems->refusal_count += 1;
    }
    if (problems->kept_count < QLL_PROBLEMS_KEPT) {
        const qll_said *says = qll_said_kept(problems->arena, fault.says);
        const qll_said *hint = qll_said_kept(problems->arena, fault.hint);
        fault.place.source = keep(problems, fault.place.source);
        fault.place.path = keep(problems, fault.place.path);
        fault.fix.path = keep(problems, fault.fix.path);
        fault.fix.value = keep(problems, fault.fix.value);
        fault.says = says;
        fault.hint = hint;
        problems->kept[problems->kept_count] = fault;
        problems->kept_count += 1;
    }
    return false;
}

qll_status qll_problems_status(const qll_problems *problems)
{
    if (qll_arena_refused(problems->arena) != problems->refused_count) {
        return QLL_NO_MEMORY;
    }
    return problems->refusal_count > 0 ? QLL_REFUSED : QLL_OK;
}

const qll_said *qll_hint_word(const char *word, qll_arena *arena)
{
    return word == NULL || word[0] == '\0'
               ? NULL
               : qll_said_kept(arena,
                               QLL_SAYS_WITH(HINT_DID_YOU_MEAN, qll_as_quoted(qll_text_of(word))));
}

qll_fix qll_fix_text(qll_fix_op op, const char *word, qll_arena *arena)
{
    if (word == NULL || word[0] == '\0') {
        return (qll_fix){.op = QLL_FIX_NONE};
    }
    qll_writer value = qll_writer_new(arena);
    qll_write_json_text(&value, qll_text_of(word));
    return (qll_fix){.op = op, .value = qll_writer_text(&value).bytes};
}

const char *qll_fix_word(qll_fix_op op)
{
    static const char *const words[] = {
        [QLL_FIX_NONE] = "",   [QLL_FIX_RENAME] = "rename", [QLL_FIX_REPLACE] = "replace",
        [QLL_FIX_ADD] = "add", [QLL_FIX_REMOVE] = "remove",
    };
    return words[op];
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
