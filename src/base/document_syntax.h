/* The grammar of RFC 8259, checked byte by byte before any tree is made: strictness and exact
 * places come from here. Used by document.c only. */
#ifndef QUELL_BASE_DOCUMENT_SYNTAX_H
#define QUELL_BASE_DOCUMENT_SYNTAX_H

#include "base/problems.h"

/** What a well-formed text holds, so that memory for its tree can be taken at once. */
typedef struct qll_syntax {
    size_t value_count;  /* objects, lists and single values */
    size_t key_count;    /* keys of all objects */
    size_t escaped_size; /* bytes between the quotes of all texts and keys that hold an escape */
} qll_syntax;

/**
 * Checks that @p source, well-formed UTF-8, is one JSON value, nested at most QLL_DOCUMENT_DEPTH
 * deep, of at most QLL_DOCUMENT_VALUES values. Takes one pass and no recursion.
 *
 * @return false after adding the first fault to @p problems: nothing behind it can be trusted
 */
bool qll_syntax_check(qll_text source, const char *name, qll_syntax *syntax,
                      qll_problems *problems);

#endif
