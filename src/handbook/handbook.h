/* Handbook calculations: a table of formulas, each with inputs, steps, validity and source. */
#ifndef QUELL_HANDBOOK_HANDBOOK_H
#define QUELL_HANDBOOK_HANDBOOK_H

#include "base/assumed.h"
#include "base/problems.h"
#include "base/units.h"

typedef struct qll_calc_input {
    const char *key;
    qll_kind kind; /* ignored if is_word */
    bool is_word;  /* "copper L", "tank" */
    bool required;
    bool repeated;        /* may be given more than once */
    const char *fallback; /* text read when it is not given; NULL if none */
    const char *help;
    const char *example; /* NULL: any of its kind will do */
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

typedef struct qll_calc_step {
    const char *formula; /* "v = Q / (pi d^2 / 4)" */
    const char *numbers; /* the same with the numbers in it */
} qll_calc_step;

typedef struct qll_calc qll_calc;

typedef struct qll_calc_answer {
    const qll_calc *calc;
    qll_unit_system units;
    const qll_calc_argument *arguments;
    size_t argument_count;
    const qll_calc_result *results;
    size_t result_count;
    const qll_calc_step *steps;
    size_t step_count;
    const qll_assumed *assumed;
} qll_calc_answer;

/** What a calculation reads from and writes to; handbook.c and the calc_*.c files share it. */
typedef struct qll_calc_work qll_calc_work;

struct qll_calc {
    const char *name;
    const char *question; /* what it answers, one line */
    const qll_calc_input *inputs;
    size_t input_count;
    const char *formula;
    const char *validity;
    const char *source;
    void (*run)(qll_calc_work *work);
};

/** All calculations, in the order in which they are listed. */
const qll_calc *const *qll_calcs(size_t *count);

/** The calculation called @p name, or NULL. */
const qll_calc *qll_calc_find(qll_text name);

/**
 * Answers one calculation. Unknown, doubled, missing and unreadable arguments are problems.
 * @return QLL_OK, QLL_REFUSED, QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_calc_run(const qll_calc *calc, const qll_calc_argument *arguments,
                                     size_t argument_count, qll_arena *arena,
                                     qll_calc_answer *answer, qll_assumed *assumed,
                                     qll_problems *problems);

#endif
