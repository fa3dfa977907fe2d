/* Every figure of every calculation has a name for people, in every language, and a unit of theirs. */
#include "base/table.h"
#include "check.h"
#include "handbook/handbook.h"
#include "reference/truth.h"
#include "wording/says_calc.h"

#include <string.h>

#define QLL_ARGUMENTS_MOST 24

static bool run(qll_text row, qll_arena *arena, qll_calc_answer *answer)
{
    static qll_calc_argument arguments[QLL_ARGUMENTS_MOST];
    const qll_calc *calc = NULL;
    size_t count = 0;
    while (row.size > 0 && count < QLL_ARGUMENTS_MOST) {
        const char *bar = memchr(row.bytes, '|', row.size);
        size_t size = bar == NULL ? row.size : (size_t)(bar - row.bytes);
        const char *equals = memchr(row.bytes, '=', size);
        if (calc == NULL) {
            calc = qll_calc_find((qll_text){row.bytes, size});
        } else if (equals != NULL) {
            size_t key_size = (size_t)(equals - row.bytes);
            arguments[count] = (qll_calc_argument){
                .key = {row.bytes, key_size},
                .value = {row.bytes + key_size + 1, size - key_size - 1},
                .source = "row",
            };
            count += 1;
        }
        size += bar == NULL ? 0 : 1;
        row = (qll_text){row.bytes + size, row.size - size};
    }
    qll_problems problems = qll_problems_none(arena);
    qll_assumed assumed = qll_assumed_none(arena);
    return calc != NULL
           && qll_calc_run(calc, arguments, count, arena, answer, &assumed, &problems) == QLL_OK;
}

static void check_key(const char *key)
{
    for (int l = 0; l < QLL_LANGUAGE_COUNT; l++) {
        const char *says = qll_say_calc_figure((qll_language)l, key);
        /* Two keys are words of their own in English. */
        bool is_word = strcmp(key, "choked") == 0 || strcmp(key, "regime") == 0;
        CHECK(strchr(says, '_') == NULL && (is_word || strcmp(says, key) != 0));
    }
}

/* What goes in is named as the formula names it. */
static void check_symbol(const qll_calc_step *step, const char *symbol)
{
    /* The curve has no formula; both numbers choose the law of the friction factor. */
    bool is_free =
        step->id == QLL_CALC_STEP_UNITS_CURVE
        || (step->id >= QLL_CALC_STEP_FACTOR_LAMINAR && step->id <= QLL_CALC_STEP_FACTOR_TURBULENT);
    if (!is_free && !CHECK(strstr(qll_say_calc_step(QLL_LANGUAGE_EN, step->id), symbol) != NULL)) {
        printf("    %s\n", symbol);
    }
}

static void check_answer(const qll_calc_answer *answer, qll_arena *arena)
{
    for (size_t r = 0; r < answer->result_count; r++) {
        const qll_calc_result *result = &answer->results[r];
        check_key(result->key);
        for (size_t f = 0; f < result->field_count; f++) {
            check_key(result->fields[f]);
        }
        if (result->word != NULL) {
            qll_writer said = qll_writer_new(arena);
            qll_wording_calc_value(&said, QLL_LANGUAGE_EN, QLL_UNITS_US, result, 0);
            CHECK(qll_text_is(qll_writer_text(&said), result->word));
        }
    }
    for (size_t s = 0; s < answer->step_count; s++) {
        const qll_calc_step *step = &answer->steps[s];
        size_t found = 0;
        for (size_t f = 0; f < step->figure_count; f++) {
            if (step->figures[f].key != NULL) {
                check_key(step->figures[f].key);
                found += 1;
            } else {
                check_symbol(step, step->figures[f].symbol);
            }
        }
        CHECK(found > 0);
    }
}

TEST(every_figure_has_a_name)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    qll_table table = truth_read("tests/reference/calc.csv", arena);
    size_t column = qll_table_column(&table, "arguments");
    bool seen[QLL_CALC_COUNT] = {false};
    for (size_t row = 0; row < table.row_count; row++) {
        qll_calc_answer answer;
        if (CHECK(run(qll_table_cell(&table, row, column), arena, &answer))) {
            check_answer(&answer, arena);
            seen[answer.calc->id] = true;
        }
    }
    size_t count = 0;
    for (size_t i = 0; i < QLL_CALC_COUNT; i++) {
        count += seen[i] ? 1U : 0U;
    }
    /* Those without a published figure are in tests/cli. */
    CHECK(count >= 14);
    qll_arena_close(arena);
}

TEST(names_follow_the_list)
{
    size_t count = 0;
    const qll_calc *const *calcs = qll_calcs(&count);
    CHECK(count == QLL_CALC_COUNT);
    for (size_t i = 0; i < count; i++) {
        CHECK(calcs[i]->id == (qll_calc_id)i);
    }
}

static qll_unit_system units_of(const char *first, const char *second)
{
    const qll_calc_argument arguments[] = {
        {.key = qll_text_of("a"), .value = qll_text_of(first)},
        {.key = qll_text_of("b"), .value = qll_text_of(second)},
    };
    return qll_calc_units(arguments, 2);
}

TEST(units_are_those_typed)
{
    CHECK(units_of("12gpm", "1-1/2 in") == QLL_UNITS_US);
    CHECK(units_of("0.5 L/s", "copper L") == QLL_UNITS_SI);
    CHECK(units_of("0.5 L/s", "1 in") == QLL_UNITS_SI);
    CHECK(units_of("1 in", "0.5 L/s") == QLL_UNITS_US);
    CHECK(units_of("40:2 gpm:0.045", "3 bar") == QLL_UNITS_US);
    CHECK(units_of("6.3 m3/h:3.5 bar:1.2 bar", "1 in") == QLL_UNITS_SI);
    CHECK(units_of("imperial", "5 imp gpm") == QLL_UNITS_US);
    CHECK(units_of("", "") == QLL_UNITS_US);
}

static void check_said(const char *key, double si, qll_kind kind, qll_unit_system units,
                       const char *want, qll_arena *arena)
{
    qll_writer writer = qll_writer_new(arena);
    qll_wording_calc_figure(&writer, key, si, kind, units);
    CHECK(qll_text_is(qll_writer_text(&writer), want));
}

TEST(figures_have_units)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    /* 5.8 ft/s is 1.76784 m/s exactly. */
    check_said("velocity_m_s", 1.76784, QLL_KIND_VELOCITY, QLL_UNITS_US, "5.8 ft/s", arena);
    check_said("level_dba", 43.4, QLL_KIND_NUMBER, QLL_UNITS_US, "43 dB(A)", arena);
    check_said("inside_db", 43.44, QLL_KIND_NUMBER, QLL_UNITS_SI, "43.4 dB", arena);
    check_said("idle_share", 0.1295, QLL_KIND_NUMBER, QLL_UNITS_SI, "12.95 %", arena);
    check_said("ring_hz", 44014.2, QLL_KIND_NUMBER, QLL_UNITS_SI, "44014 Hz", arena);
    check_said("sound_power_w", 1.71e-4, QLL_KIND_NUMBER, QLL_UNITS_SI, "0.000171 W", arena);
    /* 1 psi/degF is 6894.757293 Pa x 1.8 a kelvin. */
    check_said("rise_pa_per_k", 12410.5631277, QLL_KIND_NUMBER, QLL_UNITS_US, "1 psi/\u00B0F",
               arena);
    check_said("rise_pa_per_k", 1e5, QLL_KIND_NUMBER, QLL_UNITS_SI, "1 bar/K", arena);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(every_figure_has_a_name);
    TEST_RUN(names_follow_the_list);
    TEST_RUN(units_are_those_typed);
    TEST_RUN(figures_have_units);
    return TEST_END();
}
