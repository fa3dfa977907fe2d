/* Calculations in a language that brackets every text: answers, what they assume, and refusals. */
#include "quell/quell.h"

#include "brackets.h"
#include "handbook/handbook.h"
#include "physics/pipe.h"

/* Keys, symbols and words of the calculations, which are the same in every language. */
static void write_calculations(qll_writer *words)
{
    size_t count = 0;
    const qll_calc *const *calcs = qll_calcs(&count);
    for (size_t i = 0; i < count; i++) {
        qll_write_format(words, "%s %s\n", calcs[i]->name, calcs[i]->formula);
        for (size_t k = 0; k < calcs[i]->input_count; k++) {
            qll_write_format(words, "%s\n", calcs[i]->inputs[k].key);
        }
    }
    const qll_pipe_family *families = qll_pipe_families(&count);
    for (size_t i = 0; i < count; i++) {
        qll_write_format(words, "%s\n", families[i].word);
    }
    /* What places call an argument, the unit of a screen, and words of inputs. */
    qll_write(words, "argument mesh joints throughout upstream tank flushometer\n");
    /* Symbols of steps that stand in no formula above. */
    qll_write(words, "xFz eta mu pc dpc Fd FL NStr\n");
}

/* "velocity|flow=1 gpm": true if it is refused. */
static bool check_calculation(const char *asked)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 24);
    const char *parts[12];
    size_t count = 0;
    char *rest = qll_arena_copy(arena, asked, strlen(asked));
    for (char *part = rest; part != NULL && count < 12; count++) {
        char *bar = strchr(part, '|');
        parts[count] = part;
        part = bar == NULL ? NULL : bar + 1;
        if (bar != NULL) {
            *bar = '\0';
        }
    }
    const qll_question question = {.verb = QLL_VERB_CALC,
                                   .language = "pseudo",
                                   .calc = parts[0],
                                   .arguments = parts + 1,
                                   .argument_count = count - 1};
    qll_writer words = qll_writer_new(arena);
    qll_write_format(&words, "%s\n", asked);
    write_calculations(&words);
    const char *known = qll_writer_text(&words).bytes;
    qll_answer answer;
    const qll_status status = qll_ask(&question, arena, &answer);
    CHECK(status == QLL_OK || answer.problem_count > 0);
    for (size_t i = 0; i < answer.problem_count; i++) {
        check_outside(asked, answer.problems[i].text, known);
        check_outside(asked, answer.problems[i].hint, known);
    }
    if (status == QLL_OK) {
        check_outside(asked, qll_arena_copy(arena, answer.bytes, answer.size), known);
    }
    qll_arena_close(arena);
    return status == QLL_REFUSED;
}

TEST(calculations_are_said_in_brackets_only)
{
    static const char *const answered[] = {
        "velocity|flow=12 gpm|pipe=copper L|nominal=1 in",
        "friction|flow=12 gpm|bore=1 in|length=10 ft",
        "expansion-tank|volume=50 gal|line=60 psi|limit=120 psi",
        "wave-speed|bore=1 in|wall=0.05 in|modulus=120 GPa|anchoring=throughout",
        "strainer|mesh=20|flow=12 gpm|bore=1 in",
        "fixture-units|units=100",
        "valve-flow|kv=6 m3/h|inlet=100 psi|outlet=60 psi|vapour_pressure=1.7 kPa",
        "noise|kv=2 m3/h|flow=5 m3/h|inlet=9 bar|outlet=4 bar|pipe_bore=26 mm|pipe_wall=2 mm"};
    for (size_t i = 0; i < sizeof answered / sizeof answered[0]; i++) {
        CHECK(!check_calculation(answered[i]));
    }
    static const char *const refused[] = {
        "velocity|flw=1 gpm",
        "velocity|flow=1 gpm|flow=2 gpm|bore=1 in|pipe=copper L",
        "velocity|flow=5 gpm",
        "velocity|flow=5 gpm|pipe=copper L",
        "velocity|flow=5 gpx|pipe=coper L|nominal=1 in",
        "velocity|flow=5 gpm|pipe=copper L|nominal=1.1 in",
        "velocity|flow=-5 gpm|bore=9 ft",
        "friction|flow=0 gpm|bore=1 in|length=1 ft",
        "friction-factor|reynolds=0|relative_roughness=0.5",
        "cavitation|inlet=3000 psi|outlet=4000 psi|barometric=1 psia",
        "cavitation|inlet=100 psi|outlet=50 psi|barometric=1 psi abs",
        "valve-flow|kv=6 m3/h|cv=6|inlet=100 psi|outlet=60 psi|pipe_in_bore=2 in",
        "valve-flow|kv=6 m3/h|inlet=100 psi|outlet=60 psi|vapour_pressure=300 bar",
        "stage-split|inlet=100 psi|outlet=20 psi|stages=2.5",
        "stage-split|inlet=100 psi|outlet=20 psi|stages=3|xfz=0.4",
        "stage-split|inlet=100 psi|outlet=20 psi|xfz=0.01|xfz=0.4",
        "stage-split|inlet=100 psi|outlet=-14.6 psi",
        "parallel-split|inlet=100 psi|flow=900 gpm|valves=6.3 m3/h:3.5 bar:1.2 bar",
        "parallel-split|inlet=100 psi|flow=9 gpm|valves=6.3 m3/h:0 bar:1.2 bar",
        "parallel-split|inlet=100 psi|flow=9 gpm|valves=6.3 m3/h",
        "expansion-tank|volume=0 gal|cold=90 degF|hot=80 degF|line=60 psi|limit=50 psi",
        "closed-rise|pipe=multilayer|nominal=20 mm",
        "wave-speed|bore=1 in|anchoring=downstream",
        "strainer|mesh=21|opening=1 mm|flow=5 gpm|bore=1 in|blocked=2",
        "strainer|flow=5 gpm|bore=1 in",
        "fixture-units|units=7000|system=tnak",
        "simultaneous-use|fixtures=3.5:2 gpm:0.04",
        "simultaneous-use|fixtures=3:2 gpm:4|quantile=2",
        "water|temperature=60 degC|pressure=-12 psi",
        "noise|kv=2 m3/h|inlet=10 bar|outlet=4 bar|pipe=copper L|nominal=1 in|pipe_wall=1 mm",
        "noise|kv=2 m3/h|flow=1 m3/h|inlet=10 bar|outlet=0 bar|pipe=copper L|nominal=1 in",
        "noise|kv=2 m3/h|flow=1 m3/h|inlet=10 bar|outlet=5 bar|pipe=PEX|nominal=1 in"};
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        if (!CHECK(check_calculation(refused[i]))) {
            printf("    %s\n", refused[i]);
        }
    }
}

int main(void)
{
    TEST_RUN(calculations_are_said_in_brackets_only);
    return TEST_END();
}
