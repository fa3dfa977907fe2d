/* The handbook calculations, asked the way a user asks, against published figures. */
#include "base/table.h"
#include "check.h"
#include "handbook/handbook.h"
#include "reference/truth.h"
#include "said.h"
#include "wording/says_calc.h"

#define QLL_ARGUMENTS_MOST 24

/* "name|key=value|key=value" */
static const qll_calc *split(qll_text text, qll_calc_argument *arguments, size_t *count)
{
    const qll_calc *calc = NULL;
    *count = 0;
    while (text.size > 0) {
        const char *bar = memchr(text.bytes, '|', text.size);
        size_t size = bar == NULL ? text.size : (size_t)(bar - text.bytes);
        qll_text part = {text.bytes, size};
        if (calc == NULL) {
            calc = qll_calc_find(part);
        } else if (*count < QLL_ARGUMENTS_MOST) {
            const char *equals = memchr(part.bytes, '=', part.size);
            size_t key_size = equals == NULL ? part.size : (size_t)(equals - part.bytes);
            arguments[*count] =
                (qll_calc_argument){.key = {part.bytes, key_size},
                                    .value = {part.bytes + key_size + 1, part.size - key_size - 1},
                                    .source = "row"};
            *count += 1;
        }
        text = (qll_text){text.bytes + size + (bar != NULL), text.size - size - (bar != NULL)};
        if (calc == NULL) {
            return NULL;
        }
    }
    return calc;
}

static double result_of(const qll_calc_answer *answer, qll_text key)
{
    for (size_t i = 0; i < answer->result_count; i++) {
        if (qll_text_is(key, answer->results[i].key)) {
            return answer->results[i].values[0];
        }
    }
    return NAN;
}

static double ask(qll_text arguments_text, qll_text key, qll_arena *arena)
{
    qll_calc_argument arguments[QLL_ARGUMENTS_MOST];
    size_t count = 0;
    const qll_calc *calc = split(arguments_text, arguments, &count);
    if (!CHECK(calc != NULL)) {
        return NAN;
    }
    qll_problems problems = qll_problems_none(arena);
    qll_assumed assumed = qll_assumed_none(arena);
    qll_calc_answer answer;
    qll_status status = qll_calc_run(calc, arguments, count, arena, &answer, &assumed, &problems);
    if (!CHECK(status == QLL_OK)) {
        printf("    %s: %s\n", problems.kept[0].place.path, said_problem(&problems, 0).text);
        return NAN;
    }
    CHECK(answer.step_count > 0 || qll_text_is(qll_text_of(calc->name), "water"));
    return result_of(&answer, key);
}

TEST(published_figures)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    qll_table table = truth_read("tests/reference/calc.csv", arena);
    size_t arguments = qll_table_column(&table, "arguments");
    size_t result = qll_table_column(&table, "result");
    size_t read_rows = 0;
    for (size_t row = 0; row < table.row_count; row++) {
        double want = truth_number(&table, row, "want");
        double tolerance = truth_number(&table, row, "tolerance");
        double got =
            ask(qll_table_cell(&table, row, arguments), qll_table_cell(&table, row, result), arena);
        if (!CHECK_NEAR(got, want, tolerance)) {
            qll_text name = qll_table_cell(&table, row, 0);
            printf("    row \"%.*s\"\n", (int)name.size, name.bytes);
        }
        read_rows += truth_is(&table, row, "known", "READ");
    }
    CHECK(table.row_count > 0 && read_rows > 0);
    qll_arena_close(arena);
}

static qll_status run(const char *arguments_text, qll_arena *arena, qll_calc_answer *answer,
                      qll_problems *problems)
{
    qll_calc_argument *arguments = qll_arena_take(arena, QLL_ARGUMENTS_MOST, sizeof *arguments);
    qll_assumed *assumed = qll_arena_take(arena, 1, sizeof *assumed);
    size_t count = 0;
    const qll_calc *calc = split(qll_text_of(arguments_text), arguments, &count);
    *problems = qll_problems_none(arena);
    *assumed = qll_assumed_none(arena);
    *answer = (qll_calc_answer){.calc = calc};
    return CHECK(calc != NULL)
               ? qll_calc_run(calc, arguments, count, arena, answer, assumed, problems)
               : QLL_WRONG_USE;
}

static void refuses(const char *arguments_text, qll_code code)
{
    qll_arena *arena = qll_arena_open(1 << 22);
    qll_problems problems;
    qll_calc_answer answer;
    CHECK(run(arguments_text, arena, &answer, &problems) == QLL_REFUSED);
    if (!CHECK(problems.kept_count > 0 && problems.kept[0].code == code)) {
        printf("    %s: %s\n", arguments_text, said_problem(&problems, 0).text);
    }
    qll_arena_close(arena);
}

/* One problem per cause, which quotes what was found; the hint is a clause. */
static void refuses_with(const char *arguments_text, const char *says, const char *hint)
{
    qll_arena *arena = qll_arena_open(1 << 22);
    qll_problems problems;
    qll_calc_answer answer;
    CHECK(run(arguments_text, arena, &answer, &problems) == QLL_REFUSED);
    CHECK(problems.count == 1);
    CHECK_TEXT(said_problem(&problems, 0).text, says);
    CHECK_TEXT(said_problem(&problems, 0).hint, hint);
    qll_arena_close(arena);
}

TEST(a_refusal_quotes_and_hints)
{
    refuses_with("velocity|flow=5 gpx|bore=1 in", "\"5 gpx\": unit \"gpx\" is not known",
                 "did you mean \"gpm\"?");
    refuses_with(
        "velocity|flow=5 gpm|pipe=coper L|nominal=1 in",
        "\"coper L\" is not a word for pipe; known are copper K, copper L, copper M, steel 40, steel 80, stainless 10S, PEX, CPVC, EN 1057, EN 1057 X, EN 10255, EN 10312, PP, PVC-C, PB, multilayer, PE-X, AS 1432",
        "did you mean \"copper L\"?");
    refuses_with("velocity|flow=5 gpm|pipe=copper L|nominal=1.1 in",
                 "\"1.1 in\" is not a size of copper L", "did you mean \"1 in\"?");
    refuses_with("fixture-units|units=100|system=tnak",
                 "\"tnak\" is not a word for system; known are tank, flushometer",
                 "did you mean \"tank\"?");
    refuses_with("stage-split|inlet=100 psi|outlet=20 psi|stages=9",
                 "\"9\" is above 8, the most it may be", "");
    refuses_with("stage-split|inlet=100 psi|outlet=20 psi|stages=2.5",
                 "2.5 is not a whole number; things are counted here", "");
    refuses_with("stage-split|inlet=100 psi|outlet=20 psi|xfz=0.01|xfz=0.4",
                 "0.01 is below 0.05, the least it may be", "");
    refuses_with("strainer|mesh=20|opening=1 mm|flow=5 gpm|bore=1 in",
                 "give either mesh or opening + wire", "");
    refuses_with("strainer|mesh=20.4|flow=5 gpm|bore=1 in",
                 "20.4 is not a mesh of ASTM E11 that is known here: 20, 30, 40, 50, 60, 80 or 100",
                 "");
    refuses_with("water|temperature=60 degC|pressure=-12 psi",
                 "is below the vapor pressure: there it boils, and is not a liquid", "");
}

/* The law that is named is the one that gives the figure: Hagen-Poiseuille, a straight line, and
 * Colebrook. */
TEST(the_step_names_the_law_that_was_taken)
{
    static const struct {
        const char *asked, *formula;
    } laws[] = {
        {"friction-factor|reynolds=1000|relative_roughness=0.001", "f = 64/Re"},
        {"friction-factor|reynolds=3000|relative_roughness=0.001",
         "f on a straight line from 64/Re at 2000 to Colebrook at 4000"},
        {"friction-factor|reynolds=5000|relative_roughness=0.001",
         "1/sqrt f = -2 lg(e/(3.7 d) + 2.51/(Re sqrt f))"},
        {"friction|flow=0.01 gpm|bore=1 in|length=10 ft", "f = 64/Re"},
    };

    for (size_t i = 0; i < sizeof laws / sizeof *laws; i++) {
        qll_arena *arena = qll_arena_open(1 << 22);
        qll_problems problems;
        qll_calc_answer answer;
        bool named = false;
        CHECK(run(laws[i].asked, arena, &answer, &problems) == QLL_OK);
        for (size_t s = 0; s < answer.step_count; s++) {
            const char *formula = qll_say_calc_step(QLL_LANGUAGE_EN, answer.steps[s].id);
            named = named || strcmp(formula, laws[i].formula) == 0;
        }
        CHECK(named);
        qll_arena_close(arena);
    }
}

/* A gauge reading of a vapour pressure is nearly always a slip, and moves the choke. */
TEST(a_vapour_pressure_above_the_atmosphere_is_asked_about)
{
    static const char *const asked[] = {
        "valve-flow|kv=6 m3/h|inlet=100 psi|outlet=60 psi|vapour_pressure=1.7 kPa",
        "valve-flow|kv=6 m3/h|inlet=100 psi|outlet=60 psi|vapour_pressure=1.7 kPa abs"};
    for (size_t i = 0; i < 2; i++) {
        qll_arena *arena = qll_arena_open(1 << 22);
        qll_problems problems;
        qll_calc_answer answer;
        CHECK(run(asked[i], arena, &answer, &problems) == QLL_OK);
        CHECK(problems.count == 1 - i && problems.refusal_count == 0);
        qll_arena_close(arena);
    }
}

TEST(what_makes_no_sense_is_refused)
{
    refuses("velocity|flow=15 gpm", QLL_CODE_MISSING_KEY);
    refuses("velocity|flow=15 gpm|bore=1 in|bore=2 in", QLL_CODE_DUPLICATE_KEY);
    refuses("velocity|flow=15 gpm|boer=1 in", QLL_CODE_UNKNOWN_KEY);
    refuses("velocity|flow=15 psi|bore=1 in", QLL_CODE_WRONG_UNIT);
    refuses("velocity|flow=15|bore=1 in", QLL_CODE_NO_UNIT);
    refuses("velocity|flow=-15 gpm|bore=1 in", QLL_CODE_OUT_OF_RANGE);
    refuses("velocity|flow=15 gpm|bore=1 in|pipe=copper L", QLL_CODE_CONTRADICTION);
    refuses("velocity|flow=15 gpm|pipe=coper L|nominal=1 in", QLL_CODE_UNKNOWN_WORD);
    refuses("valve-flow|kv=1 m3/h|inlet=50 psi|outlet=60 psi", QLL_CODE_CONTRADICTION);
    refuses("cavitation|inlet=50 psi|outlet=20 psi|xfz=3", QLL_CODE_OUT_OF_RANGE);
    refuses("parallel-split|inlet=8 bar|flow=1 m3/h|valves=1 m3/h:2 bar", QLL_CODE_BAD_ROW);
    refuses("fixture-units|units=6000", QLL_CODE_OUT_OF_RANGE);
    refuses("valve-coefficient|flow=15 gpm|inlet=150 psi|outlet=50 psi|pipe_in_bore=2 in",
            QLL_CODE_MISSING_KEY);
    refuses("valve-coefficient|flow=15 gpm|inlet=150 psi|outlet=50 psi|fd=2",
            QLL_CODE_OUT_OF_RANGE);
    refuses("valve-coefficient|flow=1500 gpm|inlet=150 psi|outlet=149 psi|valve_bore=1 in|"
            "pipe_in_bore=4 in|pipe_out_bore=4 in",
            QLL_CODE_OUT_OF_RANGE);
    refuses("closed-rise|pipe=multilayer|nominal=16 mm", QLL_CODE_OUT_OF_RANGE);
    refuses("closed-rise|pipe=copper L", QLL_CODE_MISSING_KEY);
    refuses("closed-rise|pipe=copper L|nominal=1 in|temperature=60 degC|rise=60 K",
            QLL_CODE_OUT_OF_RANGE);
    refuses("expansion-tank|volume=80 gal|line=60 psi|limit=50 psi", QLL_CODE_CONTRADICTION);
    refuses("expansion-tank|volume=80 gal|line=60 psi|limit=80 psi|cold=140 degF",
            QLL_CODE_CONTRADICTION);
    refuses("wave-speed|bore=1 in|wall=2 mm", QLL_CODE_MISSING_KEY);
    refuses("wave-speed|pipe=copper L|nominal=1 in|anchoring=loose", QLL_CODE_UNKNOWN_WORD);
    refuses("surge|wave_speed=1250 m/s|velocity_change=-1 m/s", QLL_CODE_OUT_OF_RANGE);
    refuses("simultaneous-use|fixtures=1.5:2 gpm:0.1", QLL_CODE_OUT_OF_RANGE);
    refuses("water|temperature=140 degC", QLL_CODE_OUT_OF_RANGE);
}

#define QLL_NOISE_ASKED "noise|flow=15 gpm|inlet=150 psi|"

TEST(noise_beyond_its_method_is_refused)
{
    refuses(QLL_NOISE_ASKED "outlet=5 psi|kv=1.3 m3/h|pipe=copper L|nominal=1 in",
            QLL_CODE_OUT_OF_RANGE);
    refuses(QLL_NOISE_ASKED "outlet=50 psi|kv=1.3 m3/h|pipe=PEX|nominal=1 in",
            QLL_CODE_OUT_OF_RANGE);
    refuses(QLL_NOISE_ASKED "outlet=50 psi|kv=1.3 m3/h|pipe=multilayer|nominal=16 mm",
            QLL_CODE_OUT_OF_RANGE);
    refuses(QLL_NOISE_ASKED "outlet=50 psi|pipe=copper L|nominal=1 in", QLL_CODE_MISSING_KEY);
    refuses(QLL_NOISE_ASKED "outlet=50 psi|kv=1.3 m3/h|cv=1.5|pipe=copper L|nominal=1 in",
            QLL_CODE_MISSING_KEY);
    refuses(QLL_NOISE_ASKED "outlet=50 psi|cv=0|pipe=copper L|nominal=1 in", QLL_CODE_OUT_OF_RANGE);
    refuses(QLL_NOISE_ASKED "outlet=50 psi|cv=1.5|pipe=copper L|nominal=1 in|air_density=0 kg/m3",
            QLL_CODE_OUT_OF_RANGE);
    refuses(QLL_NOISE_ASKED "outlet=50 psi|kv=1.3 m3/h|pipe_bore=1 in", QLL_CODE_MISSING_KEY);
    refuses(QLL_NOISE_ASKED "outlet=50 psi|kv=1.3 m3/h|pipe=copper L|nominal=1 in|pipe_wall=1 mm",
            QLL_CODE_CONTRADICTION);
    refuses(QLL_NOISE_ASKED "outlet=50 psi|kv=1.3 m3/h|pipe=copper L|nominal=1 in|edition=1999",
            QLL_CODE_UNKNOWN_WORD);
    refuses("noise|inlet=150 psi|outlet=50 psi|kv=1.3 m3/h|pipe=copper L|nominal=1 in",
            QLL_CODE_MISSING_KEY);
}

TEST(noise_bands_are_objects_of_33_third_octaves)
{
    qll_arena *arena = qll_arena_open(1 << 22);
    qll_calc_argument arguments[QLL_ARGUMENTS_MOST];
    size_t count = 0;
    const qll_calc *calc =
        split(qll_text_of(QLL_NOISE_ASKED "outlet=50 psi|kv=1.3 m3/h|pipe=copper L|nominal=1 in"),
              arguments, &count);
    qll_problems problems = qll_problems_none(arena);
    qll_assumed assumed = qll_assumed_none(arena);
    qll_calc_answer answer;
    CHECK(qll_calc_run(calc, arguments, count, arena, &answer, &assumed, &problems) == QLL_OK);
    const qll_calc_result *bands = &answer.results[answer.result_count - 1];
    CHECK_TEXT(bands->key, "bands");
    CHECK(bands->count == 33 && bands->field_count == 2 && bands->is_list);
    CHECK_TEXT(bands->fields[0], "centre_hz");
    CHECK_TEXT(bands->fields[1], "external_db");
    CHECK(bands->values[0] == 12.5 && bands->values[64] == 20000);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(published_figures);
    TEST_RUN(what_makes_no_sense_is_refused);
    TEST_RUN(a_refusal_quotes_and_hints);
    TEST_RUN(the_step_names_the_law_that_was_taken);
    TEST_RUN(a_vapour_pressure_above_the_atmosphere_is_asked_about);
    TEST_RUN(noise_beyond_its_method_is_refused);
    TEST_RUN(noise_bands_are_objects_of_33_third_octaves);
    return TEST_END();
}
