#include "report/describe_help.h"

#include "base/units_table.h"
#include "report/columns.h"
#include "wording/language.h"

#include <string.h>

/* A description that is being printed. */
typedef struct help {
    qll_writer *writer;
    const qll_description *of;
    qll_described what; /* the document at hand */
    const qll_field_group **all;
    size_t count;
} help;

static const char *say(const help *to, const qll_said *said)
{
    return qll_said_text(to->writer->arena, to->of->wording, said);
}

static const char *say_text(const help *to, qll_text_id id)
{
    return say(to, &(const qll_said){.id = id});
}

static bool shows(const help *to, qll_described what)
{
    return (to->of->shown & (1U << (unsigned)what)) != 0;
}

/* ---- all keys ---- */

/* "  static_high   highest street pressure, static; a pressure, "95 psi"; needed". */
static void print_row(const help *to, const qll_field_group *group, const qll_field *field,
                      size_t widest)
{
    qll_arena *arena = to->writer->arena;
    qll_writer first = qll_writer_new(arena);
    qll_writer line = qll_writer_new(arena);
    qll_write_format(&first, "  %s", field->key);
    qll_write_byte(&first, ' ', widest + 2 - strlen(field->key));
    qll_write(&line, qll_field_label(arena, to->of->wording, group, field));
    qll_write(&line, "; ");
    qll_write(&line, qll_field_takes(arena, to->of->wording, field));
    if (field->obligatory) {
        qll_write(&line, "; ");
        qll_write(&line, say_text(to, QLL_TEXT_DESCRIBE_NEEDED));
    }
    qll_write_wrapped(to->writer, qll_writer_text(&first).bytes, qll_writer_text(&line));
}

static void print_group(const help *to, const qll_field_group *group)
{
    size_t widest = 0;
    for (size_t f = 0; f < group->count; f++) {
        const size_t size = strlen(group->fields[f].key);
        widest = size > widest ? size : widest;
    }
    qll_write(to->writer, "\n");
    qll_write(to->writer,
              group->path[0] == '\0' ? say_text(to, QLL_TEXT_DESCRIBE_WHOLE) : group->path);
    qll_write(to->writer, "\n");
    for (size_t f = 0; f < group->count; f++) {
        print_row(to, group, &group->fields[f], widest);
    }
}

static void print_groups(help *to, qll_described what)
{
    to->what = what;
    to->all = qll_described_groups(what, to->writer->arena, &to->count);
    qll_write_format(to->writer, "%s\n", qll_described_words[what]);
    for (size_t i = 0; i < to->count; i++) {
        print_group(to, to->all[i]);
    }
}

/* ---- one key ---- */

static void print_fact(const help *to, qll_text_id head, const char *text)
{
    qll_writer first = qll_writer_new(to->writer->arena);
    const char *says = say_text(to, head);
    const size_t width = qll_text_width(qll_text_of(says));
    qll_write_format(&first, "  %s", says);
    qll_write_byte(&first, ' ', width < 11 ? 11 - width : 1);
    qll_write_wrapped(to->writer, qll_writer_text(&first).bytes, qll_text_of(text));
}

static void print_words(const help *to, const qll_field *field)
{
    for (size_t i = 0; i < field->word_count; i++) {
        const qll_said said = {QLL_TEXT_DESCRIBE_WORD,
                               {qll_as_is(field->words[i]), qll_as_word(field->words[i])}};
        print_fact(to, i == 0 ? QLL_TEXT_DESCRIBE_HEAD_WORDS : QLL_TEXT_NONE, say(to, &said));
    }
    if (field->names != QLL_VOCABULARY_NONE) {
        print_fact(
            to, QLL_TEXT_DESCRIBE_HEAD_WORDS,
            say(to, QLL_SAYS_WITH(DESCRIBE_NAMES, qll_as_is(qll_vocabulary_words[field->names]))));
    }
}

static void print_units(const help *to, const qll_field *field)
{
    const bool has_unit = field->kind != QLL_KIND_NUMBER;
    qll_writer units = qll_writer_new(to->writer->arena);
    const char *comma = "";
    for (size_t i = 0; i < qll_units_table_count && has_unit; i++) {
        if ((qll_units_table[i].kinds & qll_unit_kind_bit(field->kind)) != 0) {
            qll_write_format(&units, "%s%s", comma, qll_units_table[i].name);
            comma = ", ";
        }
    }
    if (has_unit) {
        print_fact(to, QLL_TEXT_DESCRIBE_HEAD_UNITS, qll_writer_text(&units).bytes);
    }
}

static void print_takes(const help *to, const qll_field *field)
{
    const char *takes = qll_field_takes(to->writer->arena, to->of->wording, field);
    if (field->entries_most > 0) {
        takes = say(to, QLL_SAYS_WITH(DESCRIBE_ENTRIES, qll_as_is(takes),
                                      qll_as_whole(field->entries_most)));
    }
    print_fact(to, QLL_TEXT_DESCRIBE_HEAD_TAKES, takes);
}

/* "3 ft/s to 6 ft/s" of a pair. */
static const char *default_text(const help *to, const qll_field *field)
{
    qll_arena *arena = to->writer->arena;
    const char *both = strstr(field->fallback, " to ");
    if (field->value != QLL_VALUE_PAIR || both == NULL) {
        return qll_limit_text(arena, to->of->wording, field->fallback, field->kind);
    }
    const qll_text low = {field->fallback, (size_t)(both - field->fallback)};
    return say(to, QLL_SAYS_WITH(VALUE_RANGE, qll_as_written(low, field->kind),
                                 qll_as_written(qll_text_of(both + strlen(" to ")), field->kind)));
}

static void print_default(const help *to, const qll_field *field)
{
    if (field->obligatory) {
        print_fact(to, QLL_TEXT_DESCRIBE_HEAD_DEFAULT, say_text(to, QLL_TEXT_DESCRIBE_NEEDED));
    } else if (field->fallback != NULL) {
        const qll_argument taken = qll_is_figure(field->fallback)
                                       ? qll_as_is(default_text(to, field))
                                       : qll_as_word(field->fallback);
        print_fact(to, QLL_TEXT_DESCRIBE_HEAD_DEFAULT,
                   say(to, QLL_SAYS_WITH(DESCRIBE_WORD, taken,
                                         qll_as_said(to->writer->arena, field->why))));
    } else if (field->computed != QLL_TEXT_NONE) {
        print_fact(to, QLL_TEXT_DESCRIBE_HEAD_DEFAULT, say_text(to, field->computed));
    }
}

static void print_example(const help *to, const qll_field *field)
{
    const char *example = qll_field_example(to->writer->arena, field);
    if (example[0] != '\0') {
        qll_writer line = qll_writer_new(to->writer->arena);
        qll_write_format(&line, "\"%s\": %s", field->key, example);
        print_fact(to, QLL_TEXT_DESCRIBE_HEAD_EXAMPLE, qll_writer_text(&line).bytes);
    }
}

static void print_field(const help *to, const qll_field_group *group, const qll_field *field)
{
    qll_arena *arena = to->writer->arena;
    qll_write(to->writer, qll_field_path(arena, group, field));
    qll_write(to->writer, ": ");
    qll_write(to->writer, qll_field_label(arena, to->of->wording, group, field));
    qll_write(to->writer, "\n");
    qll_write_wrapped(to->writer, "  ", qll_text_of(say_text(to, field->means)));
    print_takes(to, field);
    if (field->least != NULL) {
        const qll_wording *wording = to->of->wording;
        const qll_argument least =
            qll_as_is(qll_limit_text(arena, wording, field->least, field->kind));
        const qll_argument most =
            qll_as_is(qll_limit_text(arena, wording, field->most, field->kind));
        print_units(to, field);
        print_fact(
            to, QLL_TEXT_DESCRIBE_HEAD_RANGE,
            say(to, QLL_SAYS_WITH(DESCRIBE_RANGE, least, most, qll_as_text(field->because))));
    }
    print_words(to, field);
    print_default(to, field);
    print_example(to, field);
    const qll_groups_inside inside = qll_groups_in(to->all, to->count, group, field);
    for (size_t i = 0; i < inside.count; i++) {
        print_group(to, inside.groups[i]);
    }
}

/* Objects that share a path may all have the key. */
static void print_key(help *to, qll_described what)
{
    const char *blank_line = "";
    to->what = what;
    to->all = qll_described_groups(what, to->writer->arena, &to->count);
    for (size_t i = 0; i < to->count; i++) {
        const qll_field_group *group = to->all[i];
        for (size_t f = 0; f < group->count; f++) {
            const char *path = qll_field_path(to->writer->arena, group, &group->fields[f]);
            if (qll_is_asked_key(to->of->key, path)) {
                qll_write(to->writer, blank_line);
                print_field(to, group, &group->fields[f]);
                blank_line = "\n";
            }
        }
    }
}

/* ---- words ---- */

static void print_name(const help *to, const qll_name *name)
{
    const qll_argument says =
        name->says == QLL_TEXT_NONE ? qll_as_word(name->word) : qll_as_text(name->says);
    qll_writer others = qll_writer_new(to->writer->arena);
    for (size_t i = 0; i < name->also_count; i++) {
        qll_write_format(&others, "%s\"%s\"", i == 0 ? "" : ", ", name->also[i]);
    }
    const qll_argument also = qll_as_is_text(qll_writer_text(&others));
    const qll_said said = {name->also_count > 0 ? QLL_TEXT_DESCRIBE_ALSO : QLL_TEXT_DESCRIBE_WORD,
                           {qll_as_is(name->word), says, also}};
    qll_write_wrapped(to->writer, "  ", qll_text_of(say(to, &said)));
}

static void print_vocabularies(const help *to)
{
    qll_write_format(to->writer, "%s\n", qll_described_words[QLL_DESCRIBED_WORDS]);
    for (unsigned v = QLL_VOCABULARY_NONE + 1; v < QLL_VOCABULARY_COUNT; v++) {
        if (!qll_is_asked_key(to->of->key, qll_vocabulary_words[v])) {
            continue;
        }
        qll_write_format(to->writer, "\n%s\n", qll_vocabulary_words[v]);
        for (size_t i = 0; i < to->of->names[v].count; i++) {
            print_name(to, &to->of->names[v].names[i]);
        }
    }
}

void qll_describe_print(qll_writer *writer, const qll_description *of)
{
    help to = {.writer = writer, .of = of};
    const char *blank_line = "";
    if (of->key == NULL) {
        qll_write_wrapped(writer, "", qll_text_of(say_text(&to, QLL_TEXT_DESCRIBE_INTRO)));
        blank_line = "\n";
    }
    for (unsigned i = 0; i < QLL_DESCRIBED_WORDS; i++) {
        if (!shows(&to, (qll_described)i)) {
            continue;
        }
        qll_write(writer, blank_line);
        if (of->key == NULL) {
            print_groups(&to, (qll_described)i);
        } else {
            print_key(&to, (qll_described)i);
        }
        blank_line = "\n";
    }
    if (shows(&to, QLL_DESCRIBED_WORDS)) {
        qll_write(writer, blank_line);
        print_vocabularies(&to);
    }
}
