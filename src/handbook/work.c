#include "handbook/work.h"

#include "base/quote.h"
#include "base/words.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

static const qll_calc_input *input_of(const qll_calc_work *work, const char *key)
{
    for (size_t i = 0; i < work->calc->input_count; i++) {
        if (strcmp(work->calc->inputs[i].key, key) == 0) {
            return &work->calc->inputs[i];
        }
    }
    assert(false); /* a calculation asked for an input it does not list */
    return NULL;
}

static const qll_calc_argument *argument_of(const qll_calc_work *work, const char *key, size_t nth)
{
    for (size_t i = 0; i < work->argument_count; i++) {
        if (qll_text_is(work->arguments[i].key, key)) {
            if (nth == 0) {
                return &work->arguments[i];
            }
            nth -= 1;
        }
    }
    return NULL;
}

bool qll_work_given(const qll_calc_work *work, const char *key)
{
    return argument_of(work, key, 0) != NULL;
}

size_t qll_work_count(const qll_calc_work *work, const char *key)
{
    size_t count = 0;
    while (argument_of(work, key, count) != NULL) {
        count += 1;
    }
    return count;
}

void qll_work_refuse(qll_calc_work *work, const char *key, size_t nth, qll_code code,
                     const qll_said *says, const qll_said *hint)
{
    const qll_calc_argument *argument = argument_of(work, key, nth);
    const char *source = argument == NULL ? work->calc->name : argument->source;
    qll_problems_add(work->problems, (qll_fault){.code = code,
                                                 .place = {.source = source, .path = key},
                                                 .says = says,
                                                 .hint = hint});
}

void qll_work_refuse_no_pipe(qll_calc_work *work, const char *key, const char *instead)
{
    qll_work_refuse(work, key, 0, QLL_CODE_MISSING_KEY,
                    QLL_SAYS_WITH(INPUT_EITHER, qll_as_is("pipe + nominal"), qll_as_is(instead)),
                    QLL_SAYS_WITH(VALUE, qll_as_is("pipe=\"copper L\" nominal=\"1 in\"")));
}

/* A limit of an input as its reader knows it: pressures are limited above vacuum. */
static qll_argument limit_of(qll_calc_work *work, double limit, qll_kind kind)
{
    if (kind != QLL_KIND_PRESSURE) {
        return qll_as_quantity(limit, kind);
    }
    const qll_argument pressure = qll_as_quantity(limit, QLL_KIND_PRESSURE_DIFFERENCE);
    return qll_as_said(work->arena, (qll_said){QLL_TEXT_VALUE_ABSOLUTE, {pressure}});
}

/* Where a method begins at next to nothing, what is less is said not to be above 0. */
#define QLL_NEXT_TO_NOTHING 1e-6

static bool is_within(qll_calc_work *work, const qll_work_input *input, qll_argument found,
                      double value, double low, double high)
{
    if (!(value >= low && value <= high) && !isnan(value)) {
        const bool is_below = value < low;
        const bool is_nothing = is_below && low > 0 && low <= QLL_NEXT_TO_NOTHING;
        const qll_said says = {is_nothing ? QLL_TEXT_INPUT_NOTHING
                               : is_below ? QLL_TEXT_INPUT_BELOW
                                          : QLL_TEXT_INPUT_ABOVE,
                               {found, limit_of(work, is_below ? low : high, input->kind)}};
        qll_work_refuse(work, input->key, input->nth, QLL_CODE_OUT_OF_RANGE, &says, NULL);
    }
    return value >= low && value <= high;
}

bool qll_work_within(qll_calc_work *work, const char *key, double value, double low, double high)
{
    const qll_work_input input = {.key = key, .kind = input_of(work, key)->kind};
    return is_within(work, &input, qll_as_quoted(qll_work_word(work, key, 0)), value, low, high);
}

bool qll_work_part_within(qll_calc_work *work, const qll_work_input *input, double value,
                          double low, double high)
{
    return is_within(work, input, qll_as_quantity(value, input->kind), value, low, high);
}

qll_text qll_work_word(qll_calc_work *work, const char *key, size_t nth)
{
    const qll_calc_argument *argument = argument_of(work, key, nth);
    if (argument != NULL) {
        return argument->value;
    }
    const qll_calc_input *input = input_of(work, key);
    if (input->fallback == NULL || nth > 0) {
        return (qll_text){"", 0};
    }
    const qll_text taken = qll_text_of(input->fallback);
    qll_assumed_add(work->assumed, qll_as_is(key),
                    input->is_word ? qll_as_is_text(taken) : qll_as_written(taken, input->kind),
                    (qll_said){.id = input->help});
    return taken;
}

static bool read_quantity(qll_calc_work *work, const char *key, size_t nth, qll_text text,
                          qll_kind kind, qll_quantity *quantity)
{
    qll_units_refusal refusal = {.code = QLL_CODE_NO_NUMBER, .hint = ""};
    if (qll_units_read(text, kind, work->arena, quantity, &refusal)) {
        return true;
    }
    const qll_calc_argument *argument = argument_of(work, key, nth);
    qll_problems_add(
        work->problems,
        (qll_fault){.code = refusal.code,
                    .place = {.source = argument == NULL ? work->calc->name : argument->source,
                              .path = key},
                    .says = &refusal.says,
                    .hint = qll_hint_word(refusal.hint, work->arena)});
    return false;
}

double qll_work_part(qll_calc_work *work, const char *key, size_t nth, qll_text part, qll_kind kind)
{
    qll_quantity quantity;
    if (!read_quantity(work, key, nth, part, kind, &quantity)) {
        return NAN;
    }
    return kind == QLL_KIND_PRESSURE ? qll_units_gauge_pa(quantity, work->barometric_pa)
                                     : quantity.si;
}

double qll_work_number(qll_calc_work *work, const char *key)
{
    qll_text text = qll_work_word(work, key, 0);
    if (text.size == 0 && !qll_work_given(work, key)) {
        return NAN;
    }
    return qll_work_part(work, key, 0, text, input_of(work, key)->kind);
}

double qll_work_absolute_pa(qll_calc_work *work, const char *key)
{
    qll_text text = qll_work_word(work, key, 0);
    qll_quantity quantity;
    if ((text.size == 0 && !qll_work_given(work, key))
        || !read_quantity(work, key, 0, text, QLL_KIND_PRESSURE, &quantity)) {
        return NAN;
    }
    return qll_units_absolute_pa(quantity, work->barometric_pa);
}

double qll_work_liquid_pa(qll_calc_work *work, const char *key)
{
    double pressure_pa = qll_work_absolute_pa(work, key);
    const qll_calc_argument *argument = argument_of(work, key, 0);
    qll_quantity quantity;
    if (argument == NULL || isnan(pressure_pa)
        || !read_quantity(work, key, 0, argument->value, QLL_KIND_PRESSURE, &quantity)
        || quantity.base == QLL_PRESSURE_ABSOLUTE) {
        return pressure_pa;
    }
    qll_problems_add(work->problems,
                     (qll_fault){.code = QLL_CODE_WRONG_UNIT,
                                 .level = QLL_WARNING,
                                 .place = {.source = argument->source, .path = key},
                                 .says = QLL_SAYS_WITH(
                                     INPUT_READ_AS_GAUGE, qll_as_quoted(argument->value),
                                     qll_as_quantity(pressure_pa, QLL_KIND_PRESSURE_DIFFERENCE))});
    return pressure_pa;
}

size_t qll_work_choice(qll_calc_work *work, const char *key, const char *const *words, size_t count)
{
    qll_text word = qll_work_word(work, key, 0);
    for (size_t i = 0; i < count; i++) {
        if (qll_text_is(word, words[i])) {
            return i;
        }
    }
    const qll_said what = {QLL_TEXT_A_WORD_FOR, {qll_as_is(key)}};
    qll_work_refuse(work, key, 0, QLL_CODE_UNKNOWN_WORD,
                    QLL_SAYS_WITH(WORD_UNKNOWN, qll_as_quoted(word), qll_as_said(work->arena, what),
                                  qll_as_words(work->arena, words, count)),
                    qll_hint_word(qll_words_nearest(word, words, count), work->arena));
    return count;
}

qll_water qll_work_water(qll_calc_work *work, double pressure_pa_gauge)
{
    double temperature = qll_work_number(work, "temperature");
    qll_work_within(work, "temperature", temperature, 0, 100);
    return qll_water_at(temperature, work->barometric_pa + pressure_pa_gauge);
}

static const qll_pipe_family *find_family(qll_calc_work *work)
{
    size_t count = 0;
    const qll_pipe_family *families = qll_pipe_families(&count);
    const char **words = qll_arena_take(work->arena, count, sizeof *words);
    if (words == NULL) {
        return NULL;
    }
    for (size_t i = 0; i < count; i++) {
        words[i] = families[i].word;
    }
    size_t found = qll_work_choice(work, "pipe", words, count);
    return found < count ? &families[found] : NULL;
}

/* What is not a size of the family, with the nearest that is. */
static void refuse_size(qll_calc_work *work, const qll_pipe_table *table,
                        const qll_pipe_family *family, double nominal_m)
{
    const qll_pipe_size *nearest = NULL;
    for (size_t i = 0; i < table->count; i++) {
        const qll_pipe_size *size = &table->sizes[i];
        bool is_of = qll_text_is(qll_text_of(size->standard), family->standard);
        if (is_of
            && (nearest == NULL
                || fabs(size->nominal_m - nominal_m) < fabs(nearest->nominal_m - nominal_m))) {
            nearest = size;
        }
    }
    qll_work_refuse(work, "nominal", 0, QLL_CODE_UNKNOWN_WORD,
                    QLL_SAYS_WITH(INPUT_NO_SIZE, qll_as_quoted(qll_work_word(work, "nominal", 0)),
                                  qll_as_is(family->word)),
                    qll_hint_word(nearest == NULL ? NULL : nearest->nominal, work->arena));
}

const qll_pipe_size *qll_work_pipe_size(qll_calc_work *work)
{
    if (!qll_work_given(work, "pipe") || !qll_work_given(work, "nominal")) {
        qll_work_refuse(work, qll_work_given(work, "pipe") ? "nominal" : "pipe", 0,
                        QLL_CODE_MISSING_KEY,
                        QLL_SAYS_WITH(INPUT_WITH, qll_as_is("pipe"), qll_as_is("nominal")), NULL);
        return NULL;
    }
    qll_pipe_table table;
    if (qll_pipe_table_read(work->arena, &table) != QLL_OK) {
        return NULL;
    }
    const qll_pipe_family *family = find_family(work);
    double nominal_m = qll_work_number(work, "nominal");
    if (family == NULL || isnan(nominal_m)) {
        return NULL;
    }
    const qll_pipe_size *size = qll_pipe_find(&table, family, nominal_m);
    if (size == NULL) {
        refuse_size(work, &table, family, nominal_m);
    }
    return size;
}

double qll_work_bore_m(qll_calc_work *work, const qll_pipe_size **size)
{
    *size = NULL;
    if (qll_work_given(work, "bore")) {
        if (qll_work_given(work, "pipe") || qll_work_given(work, "nominal")) {
            qll_work_refuse(
                work, "bore", 0, QLL_CODE_CONTRADICTION,
                QLL_SAYS_WITH(INPUT_EITHER, qll_as_is("bore"), qll_as_is("pipe + nominal")), NULL);
            return NAN;
        }
        double bore_m = qll_work_number(work, "bore");
        qll_work_within(work, "bore", bore_m, 1e-3, 2.0);
        return bore_m;
    }
    if (!qll_work_given(work, "pipe") || !qll_work_given(work, "nominal")) {
        qll_work_refuse_no_pipe(work, "bore", "bore");
        return NAN;
    }
    *size = qll_work_pipe_size(work);
    return *size == NULL ? (double)NAN : (*size)->bore_m;
}

bool qll_work_split(qll_calc_work *work, const char *key, size_t nth, qll_text *parts, size_t count)
{
    qll_text rest = qll_work_word(work, key, nth);
    for (size_t i = 0; i < count; i++) {
        const char *colon = rest.size == 0 ? NULL : memchr(rest.bytes, ':', rest.size);
        bool last = i + 1 == count;
        if ((colon == NULL) != last) {
            qll_work_refuse(work, key, nth, QLL_CODE_BAD_ROW, QLL_SAYS(INPUT_PARTS),
                            &(const qll_said){.id = input_of(work, key)->help});
            return false;
        }
        size_t size = last ? rest.size : (size_t)(colon - rest.bytes);
        parts[i] = qll_text_trimmed((qll_text){rest.bytes, size});
        if (!last) {
            rest = (qll_text){colon + 1, rest.size - size - 1};
        }
    }
    return true;
}

static qll_calc_result *add_result(qll_calc_work *work, const char *key)
{
    if (work->result_count == work->result_room) {
        size_t room = work->result_room == 0 ? 16 : work->result_room * 2;
        qll_calc_result *results = qll_arena_take(work->arena, room, sizeof *results);
        if (results == NULL) {
            return NULL;
        }
        if (work->result_count > 0) {
            memcpy(results, work->results, work->result_count * sizeof *results);
        }
        work->results = results;
        work->result_room = room;
    }
    qll_calc_result *result = &work->results[work->result_count];
    work->result_count += 1;
    *result = (qll_calc_result){.key = key};
    return result;
}

/* Adds a result with a copy of @p count numbers; NULL without memory. */
static qll_calc_result *add_values(qll_calc_work *work, const char *key, const double *values,
                                   size_t count)
{
    qll_calc_result *result = add_result(work, key);
    double *copy = qll_arena_take(work->arena, count, sizeof *copy);
    if (result == NULL || copy == NULL) {
        return NULL;
    }
    if (count > 0) {
        memcpy(copy, values, count * sizeof *copy);
    }
    result->values = copy;
    return result;
}

static qll_calc_result *add_list(qll_calc_work *work, const char *key, const double *values,
                                 size_t count, qll_kind kind)
{
    qll_calc_result *result = add_values(work, key, values, count);
    if (result != NULL) {
        result->count = count;
        result->kind = kind;
    }
    return result;
}

void qll_work_list(qll_calc_work *work, const char *key, const double *values, size_t count,
                   qll_kind kind)
{
    qll_calc_result *result = add_list(work, key, values, count, kind);
    if (result != NULL) {
        result->is_list = true;
    }
}

void qll_work_objects(qll_calc_work *work, const char *key, const char *const *fields,
                      size_t field_count, const double *values, size_t count)
{
    assert(field_count > 0 && count <= SIZE_MAX / field_count);
    qll_calc_result *result = add_values(work, key, values, count * field_count);
    if (result != NULL) {
        result->count = count;
        result->fields = fields;
        result->field_count = field_count;
        result->is_list = true;
    }
}

void qll_work_result(qll_calc_work *work, const char *key, double value, qll_kind kind)
{
    (void)add_list(work, key, &value, 1, kind);
}

void qll_work_flag(qll_calc_work *work, const char *key, bool value)
{
    const double number = value ? 1 : 0;
    qll_calc_result *result = add_list(work, key, &number, 1, QLL_KIND_NUMBER);
    if (result != NULL) {
        result->is_flag = true;
    }
}

void qll_work_word_result(qll_calc_work *work, const char *key, const char *word)
{
    qll_calc_result *result = add_result(work, key);
    if (result != NULL) {
        result->word = word;
    }
}

qll_writer *qll_work_step(qll_calc_work *work, qll_calc_step_id id)
{
    if (work->step_count == work->step_room) {
        size_t room = work->step_room == 0 ? 8 : work->step_room * 2;
        qll_calc_step *steps = qll_arena_take(work->arena, room, sizeof *steps);
        qll_writer *numbers = qll_arena_take(work->arena, room, sizeof *numbers);
        if (steps == NULL || numbers == NULL) {
            work->nowhere = (qll_writer){.no_memory = true};
            return &work->nowhere;
        }
        if (work->step_count > 0) {
            memcpy(steps, work->steps, work->step_count * sizeof *steps);
            memcpy(numbers, work->numbers, work->step_count * sizeof *numbers);
        }
        work->steps = steps;
        work->numbers = numbers;
        work->step_room = room;
    }
    size_t at = work->step_count;
    work->step_count += 1;
    work->steps[at] = (qll_calc_step){.id = id};
    work->numbers[at] = qll_writer_new(work->arena);
    return &work->numbers[at];
}

static void add_figure(qll_calc_work *work, const qll_calc_figure *figure)
{
    if (work->figure_count == work->figure_room) {
        size_t room = work->figure_room == 0 ? 16 : work->figure_room * 2;
        qll_calc_figure *figures = qll_arena_take(work->arena, room, sizeof *figures);
        if (figures == NULL) {
            return;
        }
        if (work->figure_count > 0) {
            memcpy(figures, work->figures, work->figure_count * sizeof *figures);
        }
        work->figures = figures;
        work->figure_room = room;
    }
    if (work->step_count > 0) {
        work->figures[work->figure_count] = *figure;
        work->figure_count += 1;
        work->steps[work->step_count - 1].figure_count += 1;
    }
}

void qll_work_with(qll_calc_work *work, const char *symbol, double value, qll_kind kind)
{
    add_figure(work, &(qll_calc_figure){.symbol = symbol, .value = value, .kind = kind});
}

void qll_work_with_absolute(qll_calc_work *work, const char *symbol, double pressure_pa)
{
    add_figure(work, &(qll_calc_figure){.symbol = symbol,
                                        .value = pressure_pa,
                                        .kind = QLL_KIND_PRESSURE,
                                        .is_absolute = true});
}

void qll_work_finds(qll_calc_work *work, const char *key, double value, qll_kind kind)
{
    add_figure(work, &(qll_calc_figure){.symbol = "", .key = key, .value = value, .kind = kind});
}
