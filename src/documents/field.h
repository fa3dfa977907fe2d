/* One field of an object: its kind, range, default and the problems it may have.
 *
 * Every object type of a survey or catalogue is a group of fields. The readers, the hints for
 * unknown keys and the tables of docs/formats come from the same lists. */
#ifndef QUELL_DOCUMENTS_FIELD_H
#define QUELL_DOCUMENTS_FIELD_H

#include "documents/reader.h"
#include "documents/vocabulary.h"
#include "numeric/curve.h"

#include <math.h>

/** The form of a value. */
typedef enum qll_value {
    QLL_VALUE_TEXT,     /* any words */
    QLL_VALUE_WORD,     /* one of a list */
    QLL_VALUE_QUANTITY, /* text with a unit; a bare number where the kind has none */
    QLL_VALUE_PAIR,     /* a list of two rising quantities */
    QLL_VALUE_WHOLE,    /* a whole number */
    QLL_VALUE_VERSION,  /* 1 */
    QLL_VALUE_FLAG,     /* true or false */
    QLL_VALUE_OBJECT,
    QLL_VALUE_LIST, /* of objects */
    /* By a rule of its own, which `form` tells. */
    QLL_VALUE_NAME,             /* a word of `names` */
    QLL_VALUE_WORD_OR_QUANTITY, /* one of a list, or a quantity */
    QLL_VALUE_COUNTS,           /* an object, words of `names` to whole numbers */
    QLL_VALUE_MESH,             /* "40 mesh", "40" or 40 of `names` */
    QLL_VALUE_METER_SIZE,       /* a length, or "5/8 x 3/4 in" */
    QLL_VALUE_HOURS,            /* "09:00-17:00" */
    QLL_VALUE_HOURLY,           /* 24 numbers, not all of them 0 */
    QLL_VALUE_CURRENCY,         /* three capital letters */
    QLL_VALUE_TEXTS,            /* a list of texts */
    QLL_VALUE_SURVEY,           /* a whole survey */
    QLL_VALUE_ANSWERS,          /* an object, words of `names` to their answers */
    QLL_VALUE_MEASURED,         /* a quantity of any kind */
    QLL_VALUE_FIGURE,           /* a number or null */
    QLL_VALUE_SHARES,           /* an object, answers to shares */
    QLL_VALUE_ID,               /* a UUID, small letters */
    QLL_VALUE_IDS,              /* a list of those, also an empty one */
    QLL_VALUE_DAY,              /* "2026-11-20" */
    QLL_VALUE_MOMENT,           /* "2026-11-20T21:40:00-07:00" */
    QLL_VALUE_HASH,             /* a SHA-256 */
    QLL_VALUE_CASE,             /* a whole case */
    QLL_VALUE_BODY,             /* of a record: an object, by its kind */
} qll_value;

/** Limits and defaults are texts with units, read like a user's own. NULL where there is none. */
typedef struct qll_field {
    const char *key;
    qll_value value;
    qll_kind kind;        /* of quantities and pairs */
    const char *least;    /* inclusive, as is most */
    const char *most;     /* both or neither */
    qll_text_id because;  /* why the limits stand there */
    bool obligatory;      /* always; `meaning` tells what is needed only sometimes */
    const char *fallback; /* default; taking it is listed as assumed */
    qll_said why;         /* where the default comes from */
    qll_text_id computed; /* what holds else: worked out from other values, or nothing */
    qll_text_id form;     /* how it is written, where value and kind do not say */
    const char *example;  /* NULL: any of its kind will do */
    qll_text_id means;    /* what it is; said where it must be there and is missing, too */
    const char *const *words;
    size_t word_count;
    qll_vocabulary names; /* that tables hold */
    size_t entries_most;  /* of a list, which has one at least */
} qll_field;

typedef struct qll_pair {
    double low, high;
} qll_pair;

typedef struct qll_field_group {
    qll_text_id name; /* in sentences: "supply", "a point of the flow test" */
    const char *path; /* where such objects stand: "supply.flow_test[]" */
    const qll_field *fields;
    size_t count;
    bool is_open; /* may hold keys that nobody reads */
} qll_field_group;

/**
 * True if @p root may be read by @p group, whose first field is the version: an object of version 1
 * that has at least one key of the group. Else adds the one problem there is.
 */
bool qll_reader_begins(qll_reader *reader, const qll_node *root, const qll_field_group *group);

/** An object that is read by a group. node NULL: it was not given, all defaults hold. */
typedef struct qll_object {
    qll_reader *reader;
    const qll_node *node;
    const qll_field_group *group;
    bool broken; /* given, but no object: nothing is assumed and nothing more is said */
} qll_object;

/** Checks that @p node (may be NULL) is an object with known keys and all obligatory ones. */
qll_object qll_object_open(qll_reader *reader, const qll_node *node, const qll_field_group *group);

/** The object called @p key of @p object, opened by @p group; NULL node if it is not there. */
qll_object qll_object_inner(const qll_object *object, const char *key,
                            const qll_field_group *group);

/**
 * Refuses the lack of @p key, which is needed as things stand; says nothing where another key is
 * likely a misspelling of it. Always false.
 */
bool qll_object_needs(const qll_object *object, const char *key);

/** The range of @p field, SI, ends included; NaN where it has none. */
qll_pair qll_field_range(const qll_field *field, qll_arena *arena);

/** The value of @p key, which is one of the group's; NULL if it is not there. */
const qll_node *qll_object_find(const qll_object *object, const char *key);

/** The field of @p group with @p key; never NULL. */
const qll_field *qll_group_field(const qll_field_group *group, const char *key);

/** SI value; else the default, listed as assumed; NaN if there is none or a problem was added. */
double qll_object_quantity(const qll_object *object, const char *key);

/** The same for a whole number. */
double qll_object_whole(const qll_object *object, const char *key);

/** What is not given counts for nothing. */
static inline double qll_or_0(double value)
{
    return isnan(value) ? 0.0 : value;
}

/** Two rising SI values; the default; NaN twice where there is none or a problem was added. */
qll_pair qll_object_pair(const qll_object *object, const char *key);

/** The text, trimmed and closed; the default; NULL if there is none or a problem was added. */
const char *qll_object_text(const qll_object *object, const char *key);

/** Index among the field's words; of the default; SIZE_MAX if there is none or a problem. */
size_t qll_object_word(const qll_object *object, const char *key);

/** The flag, or @p otherwise. */
bool qll_object_flag(const qll_object *object, const char *key, bool otherwise);

/** The list with 1 to the field's most entries; NULL if it is not there or a problem was added. */
const qll_node *qll_object_list(const qll_object *object, const char *key);

/** How the y of points must run while their x rises. */
typedef enum qll_run {
    QLL_RUN_ANY,
    QLL_RUN_RISING,      /* strictly */
    QLL_RUN_NOT_FALLING, /* level allowed */
    QLL_RUN_NOT_RISING,
} qll_run;

/** A list of points: two fields of a group, and what must hold between points. */
typedef struct qll_points_rule {
    const qll_field_group *group;
    const char *x_key, *y_key;
    qll_run run;
    qll_text_id because; /* why y must run so, a whole clause */
} qll_points_rule;

/**
 * Reads the list @p key of points; x must rise strictly.
 *
 * @param first_free how many zeroed points to leave free before the first, for a point of one's own
 * @return the points read (x or y NaN where a problem was added), first_free + *count in all; NULL
 *         and 0 if there is no list
 */
qll_point *qll_object_points(const qll_object *object, const char *key, const qll_points_rule *rule,
                             size_t first_free, size_t *count);

/** Lists a default as assumed, under the path of @p key. */
void qll_object_assume(const qll_object *object, const char *key, qll_argument value, qll_said why);

/** The same for a quantity; nothing where it is not finite. */
void qll_object_assume_quantity(const qll_object *object, const char *key, double si, qll_kind kind,
                                qll_said why);

/** The same for a text as value, and for a reason, without figures. */
void qll_object_assume_text(const qll_object *object, const char *key, qll_text_id value,
                            qll_text_id why);

/** "G-D15, G-D20 and 5 more: fd": a key of several valves, whose first are named in @p ids. */
qll_argument qll_of_valves(qll_arena *arena, qll_writer *ids, size_t more, const char *key);

/** The default of a field that is a word or a name, for the reason that the field gives. */
void qll_object_assume_word(const qll_object *object, const qll_field *field);

/** Where @p key stands, or that it is missing. */
qll_where qll_object_where(const qll_object *object, const char *key);

/** A limit with its origin: "132 psi (supply.static_high, line 12)" or "60 psi (the default of
 * downstream.set_pressure)". */
qll_argument qll_as_limit(const qll_object *object, const char *key);

/** The value of @p key as it was given; the default with its origin if it was not. */
qll_argument qll_as_own(const qll_object *object, const char *key);

/**
 * Refuses @p key as CONTRADICTION by the text @p says: {1} is its value, {2} the value of @p other_key
 * with its origin. Always false.
 */
bool qll_object_contradicts(const qll_object *object, const char *key, const qll_object *other,
                            const char *other_key, qll_text_id says);

/** The same where either key of two may stand at its default: @p key is refused by @p says if it was given, else
 * @p other_key by @p other_says. */
void qll_object_disagrees(const qll_object *object, const char *key, qll_text_id says,
                          const char *other_key, qll_text_id other_says);

/** Path of @p key, there or not; in the arena. */
const char *qll_object_path(const qll_object *object, const char *key);

/** Reads the quantity at @p node by the kind and range of @p field; NaN after a problem. */
double qll_reader_quantity(qll_reader *reader, const qll_node *node, const qll_field *field);

#endif
