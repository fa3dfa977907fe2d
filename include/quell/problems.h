/* What went wrong, where, and what to write instead. */
#ifndef QUELL_PROBLEMS_H
#define QUELL_PROBLEMS_H

#include "quell/api.h"

#include <stdbool.h>
#include <stddef.h>

QLL_C_BEGIN

/** What a caller branches on. Every fallible function returns it. */
typedef enum QLL_MUST_USE_TYPE qll_status {
    QLL_OK,
    QLL_REFUSED,   /* the input was refused; the problem list says why */
    QLL_NO_MEMORY, /* the arena's ceiling or the machine's memory is reached */
    QLL_BUSY,      /* another program holds what is needed */
    QLL_IO,        /* a file or device failed */
    QLL_WRONG_USE, /* the command line makes no sense */
    QLL_STOPPED,   /* whoever asked said stop before there was an answer */
} qll_status;

/**
 * Why a document or value was refused: X(NAME, word, sentence for the manual).
 *
 * Every code is produced by at least one file in tests/refused; a test checks that.
 */
#define QLL_CODE_LIST(X)                                                                          \
    X(SYNTAX, "syntax", "The text is not well-formed JSON or CSV at this place.")                 \
    X(ENCODING, "encoding",                                                                       \
      "The text is not UTF-8, or holds a character that may not stand here.")                     \
    X(TOO_DEEP, "too-deep", "Objects and lists are nested deeper than any document needs.")       \
    X(TOO_LARGE, "too-large", "The text or a list is larger than the stated limit.")              \
    X(DUPLICATE_KEY, "duplicate-key", "The same key stands twice in one object.")                 \
    X(UNKNOWN_KEY, "unknown-key", "The key has no meaning here.")                                 \
    X(MISSING_KEY, "missing-key", "A key that must be there is missing.")                         \
    X(WRONG_KIND, "wrong-kind",                                                                   \
      "Another kind of value is expected: text, number, list or object.")                         \
    X(WRONG_VERSION, "wrong-version", "The document is of a version this program does not read.") \
    X(UNKNOWN_WORD, "unknown-word", "The word is not one of those that may stand here.")          \
    X(NO_NUMBER, "no-number", "A number is expected.")                                            \
    X(NO_UNIT, "no-unit", "The number has no unit.")                                              \
    X(UNKNOWN_UNIT, "unknown-unit", "The unit is not known.")                                     \
    X(WRONG_UNIT, "wrong-unit", "The unit measures something else than what is asked for.")       \
    X(OUT_OF_RANGE, "out-of-range", "The value lies outside what can be meant.")                  \
    X(CONTRADICTION, "contradiction", "Two values cannot both be true.")                          \
    X(EMPTY_LIST, "empty-list", "The list needs at least one entry.")                             \
    X(NOT_RISING, "not-rising", "The points must be in rising order.")                            \
    X(BAD_ROW, "bad-row", "The row has too few or too many cells.")                               \
    X(BAD_COLUMN, "bad-column", "A column is missing, doubled or unknown.")                       \
    X(NO_FILE, "no-file", "A file that is named was not handed in, or cannot be read or written.")

typedef enum qll_code {
#define QLL_CODE_NAME(name, word, sentence) QLL_CODE_##name,
    QLL_CODE_LIST(QLL_CODE_NAME)
#undef QLL_CODE_NAME
    QLL_CODE_COUNT
} qll_code;

typedef enum qll_level {
    QLL_REFUSAL,
    QLL_WARNING,
} qll_level;

/** Where a user can put a finger. */
typedef struct qll_place {
    const char *source; /* as the user named it; "" for text without a file */
    int line, column;   /* from 1, in characters; 0 = unknown */
    const char *path;   /* "stages[1].branches[0].set_pressure", or "row 812, outlet" */
} qll_place;

/** How a document's own text can be changed so that a problem is gone. */
typedef enum qll_fix_op {
    QLL_FIX_NONE,    /* nobody can tell */
    QLL_FIX_RENAME,  /* the key at `path` becomes `value` */
    QLL_FIX_REPLACE, /* the value at `path` becomes `value` */
    QLL_FIX_ADD,     /* `path` is added with `value` */
    QLL_FIX_REMOVE,  /* `path` is taken out */
} qll_fix_op;

typedef struct qll_fix {
    qll_fix_op op;
    const char *path;  /* of a JSON document: "scenarios[0].people" */
    const char *value; /* as JSON: "\"95 psi\"", "12"; "" where none is needed */
} qll_fix;

/** The word of @p op, for machines: "rename". */
QLL_API const char *qll_fix_word(qll_fix_op op);

typedef struct qll_problem {
    qll_code code;
    qll_level level;
    qll_place place;
    const char *text; /* one sentence: what was found, what is expected */
    const char *hint; /* a clause: `did you mean "psi"?`, `remove the comma`; "" if none */
    qll_fix fix;
} qll_problem;

/** The word of @p code, for machines: "unknown-key". */
QLL_API const char *qll_code_word(qll_code code);

/** The sentence of @p code, for the manual. */
QLL_API const char *qll_code_sentence(qll_code code);

QLL_C_END

#endif
