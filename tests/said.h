/* What is stored as a value, as a US reader reads it. */
#ifndef QUELL_TESTS_SAID_H
#define QUELL_TESTS_SAID_H

#include "wording/wording.h"

static inline const char *said_text(qll_arena *arena, const qll_said *said)
{
    const qll_wording wording = {.units = QLL_UNITS_US};
    return qll_said_text(arena, &wording, said);
}

static inline const char *said_argument(qll_arena *arena, const qll_argument *argument)
{
    const qll_wording wording = {.units = QLL_UNITS_US};
    return qll_argument_text(arena, &wording, argument);
}

/* A problem that was said already, as one of a list. */
static inline bool said_add(qll_problems *problems, const qll_problem *problem)
{
    const qll_said says = {QLL_TEXT_VALUE, {qll_as_is(problem->text)}};
    const qll_said hint = {QLL_TEXT_VALUE, {qll_as_is(problem->hint)}};
    return qll_problems_add(problems, (qll_fault){.code = problem->code,
                                                  .level = problem->level,
                                                  .place = problem->place,
                                                  .says = &says,
                                                  .hint = problem->hint[0] == '\0' ? NULL : &hint,
                                                  .fix = problem->fix});
}

/* The problem of that number. */
static inline qll_problem said_problem(const qll_problems *problems, size_t index)
{
    const qll_wording wording = {.units = QLL_UNITS_US};
    return qll_wording_problem(problems->arena, &wording, &problems->kept[index]);
}

#endif
