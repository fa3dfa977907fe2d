#include "base/said.h"

#include <math.h>
#include <string.h>

static const char *const names[QLL_TEXT_COUNT] = {[QLL_TEXT_NONE] = "NONE",
#define QLL_TEXT_WORD(name)              [QLL_TEXT_##name] = #name,
#define QLL_TEXT_PART(part, table, list) list(QLL_TEXT_WORD)
                                                  QLL_TEXT_PART_LIST(QLL_TEXT_PART)
#undef QLL_TEXT_WORD
#undef QLL_TEXT_PART
};

qll_text_id qll_text_named(qll_text name)
{
    for (size_t i = 0; i < QLL_TEXT_COUNT; i++) {
        if (qll_text_is(name, names[i])) {
            return (qll_text_id)i;
        }
    }
    return QLL_TEXT_NONE;
}

const char *qll_text_name(qll_text_id id)
{
    return names[id];
}

qll_argument qll_as_is_text(qll_text text)
{
    return (qll_argument){.form = QLL_ARGUMENT_AS_IS, .text = text};
}

qll_argument qll_as_is(const char *text)
{
    return qll_as_is_text(qll_text_of(text == NULL ? "" : text));
}

qll_argument qll_as_word(const char *word)
{
    return (qll_argument){.form = QLL_ARGUMENT_WORD, .text = qll_text_of(word)};
}

qll_argument qll_as_quoted(qll_text text)
{
    return (qll_argument){.form = QLL_ARGUMENT_QUOTED, .text = text};
}

qll_argument qll_as_whole(size_t count)
{
    return (qll_argument){.form = QLL_ARGUMENT_WHOLE, .value = (double)count};
}

qll_argument qll_as_number(double value)
{
    return (qll_argument){.form = QLL_ARGUMENT_NUMBER, .value = value};
}

qll_argument qll_as_exact(double value)
{
    return (qll_argument){.form = QLL_ARGUMENT_EXACT, .value = value};
}

qll_argument qll_as_quantity(double si, qll_kind kind)
{
    return (qll_argument){.form = QLL_ARGUMENT_QUANTITY, .value = si, .kind = kind};
}

qll_argument qll_as_thumb(double si, qll_kind kind)
{
    return (qll_argument){.form = QLL_ARGUMENT_THUMB, .value = si, .kind = kind};
}

qll_argument qll_as_size(double nominal_m)
{
    return (qll_argument){.form = QLL_ARGUMENT_SIZE, .value = nominal_m};
}

qll_argument qll_as_written(qll_text text, qll_kind kind)
{
    return (qll_argument){.form = QLL_ARGUMENT_WRITTEN, .text = text, .kind = kind};
}

qll_argument qll_as_said(qll_arena *arena, qll_said said)
{
    qll_said *kept = qll_arena_take(arena, 1, sizeof *kept);
    if (kept == NULL) {
        return (qll_argument){.form = QLL_ARGUMENT_NONE};
    }
    *kept = said;
    return (qll_argument){.form = QLL_ARGUMENT_SAID, .said = kept};
}

qll_argument qll_as_text(qll_text_id id)
{
    return (qll_argument){.form = QLL_ARGUMENT_TEXT, .value = (double)id};
}

qll_argument qll_as_kind(qll_kind kind)
{
    return (qll_argument){.form = QLL_ARGUMENT_KIND, .kind = kind};
}

qll_argument qll_as_example(qll_kind kind)
{
    return (qll_argument){.form = QLL_ARGUMENT_EXAMPLE, .kind = kind};
}

qll_argument qll_as_list(size_t count)
{
    return (qll_argument){.form = QLL_ARGUMENT_LIST, .value = (double)count};
}

qll_argument qll_as_words(qll_arena *arena, const char *const *words, size_t count)
{
    qll_writer list = qll_writer_new(arena);
    for (size_t i = 0; i < count; i++) {
        qll_write(&list, i == 0 ? "" : ", ");
        qll_write(&list, words[i]);
    }
    return qll_as_is_text(qll_writer_text(&list));
}

bool qll_argument_equal(const qll_argument *a, const qll_argument *b)
{
    const bool is_same_said =
        a->said == b->said
        || (a->said != NULL && b->said != NULL && qll_said_equal(a->said, b->said));
    return a->form == b->form && a->kind == b->kind && a->value == b->value
           && qll_text_equal(a->text, b->text) && is_same_said;
}

bool qll_said_equal(const qll_said *a, const qll_said *b)
{
    bool is_equal = a->id == b->id;
    for (size_t i = 0; i < QLL_ARGUMENTS && is_equal; i++) {
        is_equal = qll_argument_equal(&a->arguments[i], &b->arguments[i]);
    }
    return is_equal;
}
