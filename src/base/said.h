/* What is said to people, as a value: the name of a text and its figures. Whoever finds something
 * stores this; src/wording has the text of each name in every language. */
#ifndef QUELL_BASE_SAID_H
#define QUELL_BASE_SAID_H

#include "base/kind.h"
#include "base/said_list.h"
#include "base/text.h"

/* The texts of a part lie together: from QLL_TEXT_FIRST_x to before QLL_TEXT_END_x. */
typedef enum qll_text_id {
    QLL_TEXT_NONE, /* nothing is said */
#define QLL_TEXT_NAME(name) QLL_TEXT_##name,
#define QLL_TEXT_PART(part, table, list)                                       \
    QLL_TEXT_FIRST_##part, QLL_TEXT_BEFORE_##part = QLL_TEXT_FIRST_##part - 1, \
                           list(QLL_TEXT_NAME) QLL_TEXT_END_##part,            \
                           QLL_TEXT_LAST_##part = QLL_TEXT_END_##part - 1,
    QLL_TEXT_PART_LIST(QLL_TEXT_PART)
#undef QLL_TEXT_NAME
#undef QLL_TEXT_PART
    QLL_TEXT_COUNT
} qll_text_id;

/** How many texts a part has. */
#define QLL_TEXT_SIZE(part) (QLL_TEXT_END_##part - QLL_TEXT_FIRST_##part)

/** How an argument of a text is shown. */
typedef enum qll_argument_form {
    QLL_ARGUMENT_NONE,
    QLL_ARGUMENT_AS_IS,    /* a key, a name, a standard: the same in every language */
    QLL_ARGUMENT_WORD,     /* a word for machines, which people may read in their language */
    QLL_ARGUMENT_QUOTED,   /* what a user wrote: in quotes, cut, safe to show */
    QLL_ARGUMENT_WHOLE,    /* a count */
    QLL_ARGUMENT_NUMBER,   /* to ten digits */
    QLL_ARGUMENT_EXACT,    /* with as many digits as read back the same */
    QLL_ARGUMENT_QUANTITY, /* SI, in the reader's units */
    QLL_ARGUMENT_THUMB,    /* SI, a rule of thumb: round in the reader's units */
    QLL_ARGUMENT_SIZE,     /* of a pipe, m */
    QLL_ARGUMENT_WRITTEN, /* a quantity as somebody wrote it: so where its unit is usual, else as above */
    QLL_ARGUMENT_SAID,    /* another text with its figures */
    QLL_ARGUMENT_TEXT,    /* another text without figures */
    QLL_ARGUMENT_KIND,    /* what a quantity of a kind is called: "a pressure" */
    QLL_ARGUMENT_EXAMPLE, /* how such a quantity is written */
    QLL_ARGUMENT_LIST,    /* a list with so many entries, as a value that was found */
} qll_argument_form;

typedef struct qll_argument {
    qll_argument_form form;
    qll_kind kind;
    double value;
    qll_text text; /* lives as long as what it is said of */
    const struct qll_said *said;
} qll_argument;

/* No text has more. */
#define QLL_ARGUMENTS 7

typedef struct qll_said {
    qll_text_id id;
    qll_argument arguments[QLL_ARGUMENTS]; /* {1}, {2} ... of the text */
} qll_said;

/** The text with that name, "WHY_NO_NAME", as data files give it; QLL_TEXT_NONE if there is none. */
qll_text_id qll_text_named(qll_text name);

/** The name of a text, for data files and tests. */
const char *qll_text_name(qll_text_id id);

qll_argument qll_as_is(const char *text); /* NULL counts as "" */
qll_argument qll_as_is_text(qll_text text);
qll_argument qll_as_word(const char *word);
qll_argument qll_as_quoted(qll_text text);
qll_argument qll_as_whole(size_t count);
qll_argument qll_as_number(double value);
qll_argument qll_as_exact(double value);
qll_argument qll_as_quantity(double si, qll_kind kind);

/** A rule of thumb: 5 psi is 0.35 bar, not 0.34, and 1000 ft are 300 m. */
qll_argument qll_as_thumb(double si, qll_kind kind);

qll_argument qll_as_size(double nominal_m);
qll_argument qll_as_written(qll_text text, qll_kind kind);

/** Another text as argument, kept in @p arena; nothing without memory, which the arena counts. */
qll_argument qll_as_said(qll_arena *arena, qll_said said);

/** The same of a text without figures. */
qll_argument qll_as_text(qll_text_id id);

qll_argument qll_as_kind(qll_kind kind);
qll_argument qll_as_example(qll_kind kind);
qll_argument qll_as_list(size_t count);

/** "a, b, c"; in the arena. */
qll_argument qll_as_words(qll_arena *arena, const char *const *words, size_t count);

/** A text, with its figures, for as long as the block lasts. */
#define QLL_SAYS(name)           (&(const qll_said){.id = QLL_TEXT_##name})
#define QLL_SAYS_WITH(name, ...) (&(const qll_said){QLL_TEXT_##name, {__VA_ARGS__}})

/** The same text with the same figures? */
bool qll_said_equal(const qll_said *a, const qll_said *b);
bool qll_argument_equal(const qll_argument *a, const qll_argument *b);

#endif
