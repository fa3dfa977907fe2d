/* What one pass over a document finds wrong: the first 20 problems in reading order. */
#ifndef QUELL_DOCUMENTS_READER_H
#define QUELL_DOCUMENTS_READER_H

#include "base/assumed.h"
#include "base/document.h"
#include "base/problems.h"
#include "base/table.h"
#include "base/units.h"

/** Where a problem stands: at a value, at its key, or at a key that is missing in an object. */
typedef struct qll_where {
    const qll_node *node;
    bool at_key;
    const char *missing; /* NULL, or the missing key of object @p node */
} qll_where;

qll_where qll_at(const qll_node *node);
qll_where qll_at_key(const qll_node *node);
qll_where qll_at_missing(const qll_node *node, const char *key);

typedef struct qll_found {
    qll_where where;
    size_t offset;
    qll_code code;
    qll_level level;
    const qll_said *says, *hint;
    qll_fix fix;
} qll_found;

/**
 * Keeps the first 20 problems in reading order, whatever the order in which they are found; a
 * warning never pushes out a refusal. Memory stays bounded by them: what is not kept is not copied.
 */
typedef struct qll_reader {
    const qll_document *document;
    const qll_table *table; /* not NULL: nodes stand for cells, offset = row * columns + column */
    qll_arena *arena;
    qll_assumed *assumed;
    qll_unit_system units; /* for sentences */
    double barometric_pa;  /* turns absolute pressures to gauge */
    const char *manual;    /* page of docs/formats that lists the words */
    size_t refused_count;  /* of the arena, when the reading began */
    qll_found found[QLL_PROBLEMS_KEPT];
    size_t found_count;
    size_t dropped, dropped_refusals;
    size_t refusal_count;
} qll_reader;

qll_reader qll_reader_new(const qll_document *document, qll_arena *arena, qll_assumed *assumed);

/** Hands what was found to @p problems and says how the reading ended. */
QLL_MUST_USE qll_status qll_reader_end(qll_reader *reader, qll_problems *problems);

/** True if the arena has refused since the reading began. */
bool qll_reader_starves(const qll_reader *reader);

/** Zeroed room in the arena; NULL without memory. */
void *qll_reader_take(qll_reader *reader, size_t count, size_t size);

/** Adds a problem; @p hint NULL where there is none. Always false, so that `return` may stand before. */
bool qll_reader_refuse(qll_reader *reader, qll_where where, qll_code code, const qll_said *says,
                       const qll_said *hint);
bool qll_reader_warn(qll_reader *reader, qll_where where, qll_code code, const qll_said *says);

/** The same as qll_reader_refuse() with what mends it, at the place of the problem. */
bool qll_reader_refuse_fixed(qll_reader *reader, qll_where where, qll_code code,
                             const qll_said *says, const qll_said *hint, qll_fix fix);

/**
 * True if a refusal at @p where would not be kept; it is counted then, and its sentence need not be
 * made. For problems of which hostile input may hold millions.
 */
bool qll_reader_drops(qll_reader *reader, qll_where where);

/** What stands at @p node as it may be quoted: "95", 95, a list. */
qll_argument qll_as_found(const qll_node *node);

/** Path of @p node, "" for the root; in the arena. */
const char *qll_reader_path(qll_reader *reader, const qll_node *node);

/** "supply.static_high, line 12"; in the arena. */
qll_argument qll_as_origin(qll_reader *reader, const qll_node *node);

/** Refuses a value of the wrong kind: what was found, and what is @p expected ("a list of outlets"). */
bool qll_reader_wrong_kind(qll_reader *reader, const qll_node *node, const qll_said *expected);

/** Refuses a word: it is not @p what ("a pipe"), known are the words; the nearest is hint and fix. */
bool qll_reader_unknown_word(qll_reader *reader, qll_where where, const qll_said *what,
                             const char *const *words, size_t count);

#endif
