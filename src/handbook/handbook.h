/* Handbook calculations: a table of formulas, each with inputs, steps, validity and source. */
#ifndef QUELL_HANDBOOK_HANDBOOK_H
#define QUELL_HANDBOOK_HANDBOOK_H

#include "base/assumed.h"
#include "base/problems.h"
#include "base/units.h"
#include "handbook/names.h"

typedef struct qll_calc_input {
    const char *key;
    qll_kind kind; /* ignored if is_word */
    bool is_word;  /* "copper L", "tank" */
    bool required;
    bool repeated;        /* may be given more than once */
    const char *fallback; /* text read when it is not given; NULL if none */
    qll_text_id help;     /* what it is */
    const char *example;  /* NULL: any of its kind will do */
} qll_calc_input;

/** One "key=value" as the user gave it. */
typedef struct qll_calc_argument {
    qll_text key, value;
    const char *source; /* for places: "argument 3" */
} qll_calc_argument;

typedef struct qll_calc_result {
    const char *key;      /* unit in the key: velocity_m_s */
    const double *values; /* several for a list */
    size_t count;
    bool is_list;
    qll_kind kind;    /* how people read it */
    const char *word; /* for results that are words, else NULL: regime */
    bool is_flag;     /* values[0] is 0 or 1 */
    /* For a list of objects: the field names, unit in the name; values then holds count rows of
     * field_count numbers. NULL and 0 otherwise. */
    const char *const *fields;
    size_t field_count;
} qll_calc_result;

/** A figure of a step: what goes into its formula, or what comes out of it. */
typedef struct qll_calc_figure {
    const char *symbol; /* as its formula writes it: "Q"; "" if it is in none */
    const char *key;    /* of what comes out, as of a result; NULL of what goes in */
    double value;
    qll_kind kind;
    bool is_absolute; /* a pressure above vacuum */
} qll_calc_figure;

typedef struct qll_calc_step {
    qll_calc_step_id id;
    const char *numbers; /* its formula with SI numbers in it */
    const qll_calc_figure *figures;
    size_t figure_count;
} qll_calc_step;

typedef struct qll_calc qll_calc;

typedef struct qll_calc_answer {
    const qll_calc *calc;
    qll_unit_system units; /* of an answer for machines: as asked for */
    const qll_calc_argument *arguments;
    size_t argument_count;
    bool
        is_beyond; /* the method gives no number here: the last problem, whose hint is the caller's */
    const qll_calc_result *results;
    size_t result_count;
    const qll_calc_step *steps;
    size_t step_count;
    const qll_assumed *assumed;
} qll_calc_answer;

/** What a calculation reads from and writes to; handbook.c and the calc_*.c files share it. */
typedef struct qll_calc_work qll_calc_work;

struct qll_calc {
    qll_calc_id id;
    const char *name;
    const qll_calc_input *inputs;
    size_t input_count;
    const char *formula;
    void (*run)(qll_calc_work *work);
};

/** All calculations, in the order in which they are listed. */
const qll_calc *const *qll_calcs(size_t *count);

/** The calculation called @p name, or NULL. */
const qll_calc *qll_calc_find(qll_text name);

/** The system in which most of the arguments were given; where as many are in either, the first one's; US
 * where none has a unit. */
qll_unit_system qll_calc_units(const qll_calc_argument *arguments, size_t count);

/**
 * Answers one calculation. Unknown, doubled, missing and unreadable arguments are problems.
 * @return QLL_OK, QLL_REFUSED, QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_calc_run(const qll_calc *calc, const qll_calc_argument *arguments,
                                     size_t argument_count, qll_arena *arena,
                                     qll_calc_answer *answer, qll_assumed *assumed,
                                     qll_problems *problems);

#endif
