/* What a calculation reads its inputs from and writes its results and steps to. */
#ifndef QUELL_HANDBOOK_WORK_H
#define QUELL_HANDBOOK_WORK_H

#include "handbook/handbook.h"
#include "physics/pipe.h"
#include "physics/water.h"

struct qll_calc_work {
    const qll_calc *calc;
    const qll_calc_argument *arguments;
    size_t argument_count;
    qll_arena *arena;
    qll_assumed *assumed;
    qll_problems *problems;
    double barometric_pa;
    qll_calc_result *results;
    size_t result_count, result_room;
    qll_calc_step *steps;
    qll_writer *numbers; /* [step] */
    size_t step_count, step_room;
    qll_calc_figure *figures; /* of all steps, one step's after another's */
    size_t figure_count, figure_room;
    qll_writer nowhere; /* takes a step's numbers when there is no memory for them */
};

/** True if the user gave @p key. */
bool qll_work_given(const qll_calc_work *work, const char *key);

/** How often a repeated input was given. */
size_t qll_work_count(const qll_calc_work *work, const char *key);

/**
 * The input in SI, or its default (then listed as assumed); NaN after a problem or if it has none.
 * Pressures come as gauge Pa.
 */
double qll_work_number(qll_calc_work *work, const char *key);

/** A pressure input as absolute Pa, by the work's atmosphere. */
double qll_work_absolute_pa(qll_calc_work *work, const char *key);

/** A pressure of the liquid itself, absolute Pa; warns of one that is given as a gauge pressure. */
double qll_work_liquid_pa(qll_calc_work *work, const char *key);

/**
 * Which of @p words the input (or its default) is; @p count, and a problem that names them all, if it is
 * none.
 */
size_t qll_work_choice(qll_calc_work *work, const char *key, const char *const *words,
                       size_t count);

/** The @p nth (from 0) value given for @p key; the default or the empty text if there is none. */
qll_text qll_work_word(qll_calc_work *work, const char *key, size_t nth);

/** Water of the inputs "temperature" (and atmospheric pressure plus @p pressure_pa_gauge). */
qll_water qll_work_water(qll_calc_work *work, double pressure_pa_gauge);

/** The table's row for "pipe" and "nominal", which must both be given; NULL after a problem. */
const qll_pipe_size *qll_work_pipe_size(qll_calc_work *work);

/** The bore from "bore", or from "pipe" and "nominal"; @p size gets the table row or NULL. */
double qll_work_bore_m(qll_calc_work *work, const qll_pipe_size **size);

/** Reads one part of a compound value such as "4:18 gpm:0.02". */
double qll_work_part(qll_calc_work *work, const char *key, size_t nth, qll_text part,
                     qll_kind kind);

/** Splits @p value at ':' into exactly @p count parts; a problem and false otherwise. */
bool qll_work_split(qll_calc_work *work, const char *key, size_t nth, qll_text *parts,
                    size_t count);

/** Refuses the @p nth argument called @p key. */
void qll_work_refuse(qll_calc_work *work, const char *key, size_t nth, qll_code code,
                     const qll_said *says, const qll_said *hint);

/** Refuses that there is neither a pipe with its nominal size nor @p instead of it, with an example. */
void qll_work_refuse_no_pipe(qll_calc_work *work, const char *key, const char *instead);

/** Refuses @p key unless low <= value <= high; true if it is within (NaN, said already, is not). Of a
 * pressure all three are absolute. */
bool qll_work_within(qll_calc_work *work, const char *key, double value, double low, double high);

/** A part of the @p nth (from 0) value given for @p key. */
typedef struct qll_work_input {
    const char *key;
    size_t nth;
    qll_kind kind;
} qll_work_input;

/** The same of a part. */
bool qll_work_part_within(qll_calc_work *work, const qll_work_input *input, double value,
                          double low, double high);

void qll_work_result(qll_calc_work *work, const char *key, double value, qll_kind kind);
void qll_work_flag(qll_calc_work *work, const char *key, bool value);
void qll_work_word_result(qll_calc_work *work, const char *key, const char *word);
void qll_work_list(qll_calc_work *work, const char *key, const double *values, size_t count,
                   qll_kind kind);

/** A list of @p count objects with the same fields, unit in the key; @p values row by row. */
void qll_work_objects(qll_calc_work *work, const char *key, const char *const *fields,
                      size_t field_count, const double *values, size_t count);

/** Begins a step; its numbers in SI are written to what is returned (never NULL). */
qll_writer *qll_work_step(qll_calc_work *work, qll_calc_step_id id);

/** What goes into the formula of the last step, and a pressure above vacuum that does. */
void qll_work_with(qll_calc_work *work, const char *symbol, double value, qll_kind kind);
void qll_work_with_absolute(qll_calc_work *work, const char *symbol, double pressure_pa);

/** What comes out of the last step; @p key is one of QLL_CALC_FIGURE_LIST. */
void qll_work_finds(qll_calc_work *work, const char *key, double value, qll_kind kind);

/* The calculations, one file per subject. */
extern const qll_calc qll_calc_velocity, qll_calc_friction, qll_calc_friction_factor;
extern const qll_calc qll_calc_valve_coefficient, qll_calc_valve_flow, qll_calc_cavitation;
extern const qll_calc qll_calc_noise, qll_calc_expansion_tank, qll_calc_closed_rise,
    qll_calc_seat_leak;
extern const qll_calc qll_calc_wave_speed, qll_calc_surge;
extern const qll_calc qll_calc_stage_split, qll_calc_parallel_split, qll_calc_strainer;
extern const qll_calc qll_calc_fixture_units, qll_calc_simultaneous_use, qll_calc_water;

/* Inputs that many calculations share. */
#define QLL_INPUT_TEMPERATURE                                                      \
    {                                                                              \
        .key = "temperature", .kind = QLL_KIND_TEMPERATURE, .fallback = "60 degF", \
        .help = QLL_TEXT_HELP_OF_WATER                                             \
    }
#define QLL_INPUT_BAROMETRIC                                                           \
    {                                                                                  \
        .key = "barometric", .kind = QLL_KIND_PRESSURE, .fallback = "101.325 kPa abs", \
        .help = QLL_TEXT_HELP_BAROMETRIC                                               \
    }
#define QLL_INPUT_PIPE_SIZE                                                      \
    {.key = "pipe", .is_word = true, .help = QLL_TEXT_HELP_FAMILY},              \
    {                                                                            \
        .key = "nominal", .kind = QLL_KIND_LENGTH, .help = QLL_TEXT_HELP_NOMINAL \
    }
#define QLL_INPUT_PIPE                                                     \
    QLL_INPUT_PIPE_SIZE,                                                   \
    {                                                                      \
        .key = "bore", .kind = QLL_KIND_LENGTH, .help = QLL_TEXT_HELP_BORE \
    }

#endif
