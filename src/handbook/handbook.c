#include "handbook/handbook.h"

#include "base/words.h"
#include "handbook/work.h"

#include <math.h>
#include <string.h>

static const qll_calc *const calcs[] = {
    &qll_calc_velocity,
    &qll_calc_friction,
    &qll_calc_friction_factor,
    &qll_calc_valve_coefficient,
    &qll_calc_valve_flow,
    &qll_calc_cavitation,
    &qll_calc_noise,
    &qll_calc_stage_split,
    &qll_calc_parallel_split,
    &qll_calc_expansion_tank,
    &qll_calc_closed_rise,
    &qll_calc_seat_leak,
    &qll_calc_wave_speed,
    &qll_calc_surge,
    &qll_calc_strainer,
    &qll_calc_fixture_units,
    &qll_calc_simultaneous_use,
    &qll_calc_water,
};

const qll_calc *const *qll_calcs(size_t *count)
{
    *count = sizeof calcs / sizeof calcs[0];
    return calcs;
}

const qll_calc *qll_calc_find(qll_text name)
{
    for (size_t i = 0; i < sizeof calcs / sizeof calcs[0]; i++) {
        if (qll_text_is(name, calcs[i]->name)) {
            return calcs[i];
        }
    }
    return NULL;
}

static const qll_calc_input *find_input(const qll_calc *calc, qll_text key)
{
    for (size_t i = 0; i < calc->input_count; i++) {
        if (qll_text_is(key, calc->inputs[i].key)) {
            return &calc->inputs[i];
        }
    }
    return NULL;
}

static void refuse_unknown(qll_calc_work *work, const qll_calc_argument *argument)
{
    const qll_calc *calc = work->calc;
    const char **keys = qll_arena_take(work->arena, calc->input_count, sizeof *keys);
    if (keys == NULL) {
        return;
    }
    for (size_t i = 0; i < calc->input_count; i++) {
        keys[i] = calc->inputs[i].key;
    }
    const char *nearest = qll_words_nearest(argument->key, keys, calc->input_count);
    qll_problems_add(
        work->problems,
        (qll_fault){.code = QLL_CODE_UNKNOWN_KEY,
                    .place = {.source = argument->source},
                    .says = QLL_SAYS_WITH(KEY_UNKNOWN, qll_as_quoted(argument->key),
                                          qll_as_is(calc->name),
                                          qll_as_words(work->arena, keys, calc->input_count)),
                    .hint = qll_hint_word(nearest, work->arena)});
}

/* Unknown and doubled arguments, then missing ones: in reading order. */
static void check_arguments(qll_calc_work *work)
{
    for (size_t i = 0; i < work->argument_count; i++) {
        const qll_calc_argument *argument = &work->arguments[i];
        const qll_calc_input *input = find_input(work->calc, argument->key);
        if (input == NULL) {
            refuse_unknown(work, argument);
            continue;
        }
        for (size_t before = 0; before < i && !input->repeated; before++) {
            if (qll_text_equal(work->arguments[before].key, argument->key)) {
                qll_problems_add(work->problems, (qll_fault){.code = QLL_CODE_DUPLICATE_KEY,
                                                             .place = {.source = argument->source,
                                                                       .path = input->key},
                                                             .says = QLL_SAYS(INPUT_TWICE)});
                break;
            }
        }
    }
    for (size_t i = 0; i < work->calc->input_count; i++) {
        const qll_calc_input *input = &work->calc->inputs[i];
        if (input->required && !qll_work_given(work, input->key)) {
            qll_problems_add(work->problems,
                             (qll_fault){.code = QLL_CODE_MISSING_KEY,
                                         .place = {.source = work->calc->name, .path = input->key},
                                         .says = QLL_SAYS_WITH(
                                             KEY_MISSING, qll_as_is(work->calc->name),
                                             qll_as_is(input->key), qll_as_text(input->help))});
        }
    }
}

static bool result_is_finite(const qll_calc_result *result)
{
    size_t count = result->word != NULL ? 0 : result->count;
    size_t each = result->field_count > 0 ? result->field_count : 1;
    for (size_t i = 0; i < count * each; i++) {
        if (!isfinite(result->values[i])) {
            return false;
        }
    }
    return true;
}

static bool all_finite(const qll_calc_work *work)
{
    for (size_t r = 0; r < work->result_count; r++) {
        if (!result_is_finite(&work->results[r])) {
            return false;
        }
    }
    return true;
}

static void close_steps(qll_calc_work *work)
{
    const qll_calc_figure *figures = work->figures;
    for (size_t i = 0; i < work->step_count; i++) {
        work->steps[i].numbers = qll_writer_text(&work->numbers[i]).bytes;
        work->steps[i].figures = figures;
        figures += work->steps[i].figure_count;
    }
}

/* Adds the systems of a typed value's quantities, "6.3 m3/h:3.5 bar:1.2 bar" being three. */
static void count_systems(qll_text value, int counts[2], qll_unit_system *first)
{
    qll_text rest = value;
    while (rest.size > 0) {
        const char *colon = memchr(rest.bytes, ':', rest.size);
        size_t size = colon == NULL ? rest.size : (size_t)(colon - rest.bytes);
        qll_unit_system system = QLL_UNITS_US;
        if (qll_units_system_of(qll_text_trimmed((qll_text){rest.bytes, size}), &system)) {
            *first = counts[0] + counts[1] == 0 ? system : *first;
            counts[system] += 1;
        }
        size += colon == NULL ? 0 : 1;
        rest = (qll_text){rest.bytes + size, rest.size - size};
    }
}

qll_unit_system qll_calc_units(const qll_calc_argument *arguments, size_t count)
{
    int counts[2] = {0, 0};
    qll_unit_system first = QLL_UNITS_US;
    for (size_t i = 0; i < count; i++) {
        count_systems(arguments[i].value, counts, &first);
    }
    if (counts[QLL_UNITS_US] == counts[QLL_UNITS_SI]) {
        return first;
    }
    return counts[QLL_UNITS_US] > counts[QLL_UNITS_SI] ? QLL_UNITS_US : QLL_UNITS_SI;
}

qll_status qll_calc_run(const qll_calc *calc, const qll_calc_argument *arguments,
                        size_t argument_count, qll_arena *arena, qll_calc_answer *answer,
                        qll_assumed *assumed, qll_problems *problems)
{
    qll_calc_work work = {
        .calc = calc,
        .arguments = arguments,
        .argument_count = argument_count,
        .arena = arena,
        .assumed = assumed,
        .problems = problems,
        .barometric_pa = qll_barometric_pa(0),
    };
    size_t refused = qll_arena_refused(arena);
    check_arguments(&work);
    if (problems->refusal_count == 0 && find_input(calc, qll_text_of("barometric")) != NULL) {
        work.barometric_pa = qll_work_absolute_pa(&work, "barometric");
        qll_work_within(&work, "barometric", work.barometric_pa, 30e3, 110e3);
    }
    if (problems->refusal_count == 0) {
        calc->run(&work);
        close_steps(&work);
    }
    if (qll_arena_refused(arena) != refused) {
        return QLL_NO_MEMORY;
    }
    bool is_beyond = problems->refusal_count == 0 && !all_finite(&work);
    if (is_beyond) {
        qll_problems_add(problems, (qll_fault){.code = QLL_CODE_OUT_OF_RANGE,
                                               .place = {.source = calc->name},
                                               .says = QLL_SAYS(INPUT_BEYOND)});
    }
    *answer = (qll_calc_answer){.calc = calc,
                                .arguments = arguments,
                                .argument_count = argument_count,
                                .is_beyond = is_beyond,
                                .results = work.results,
                                .result_count = work.result_count,
                                .steps = work.steps,
                                .step_count = work.step_count,
                                .assumed = assumed};
    return qll_problems_status(problems);
}
