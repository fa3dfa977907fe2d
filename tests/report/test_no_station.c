/* Where no valve is needed, or none is fit, there are sheets that say so, without those of a station. */
#include "ask_files.h"
#include "check.h"
#include "html_tables.h"
#include "wording/messages.h"

static const size_t plenty = (size_t)1 << 30;

static bool has_section(const qll_answer *answer, const char *word)
{
    char open[64];
    snprintf(open, sizeof open, "<section id=\"%s\"", word);
    return strstr(answer->bytes, open) != NULL;
}

TEST(reports_without_a_station_are_whole)
{
    static const struct {
        const char *survey;
        const char *says[QLL_LANGUAGE_COUNT];
    } facts[] = {
        {"no_valve.json", {"No valve is needed", "No hace falta válvula"}},
        {"not_fit.json", {"NOT FIT TO INSTALL", "NO APTA PARA INSTALAR"}},
    };

    for (size_t i = 0; i < 2 * sizeof facts / sizeof facts[0]; i++) {
        qll_arena *arena = qll_arena_open(plenty);
        qll_question question =
            survey_question(QLL_VERB_REPORT, facts[i / 2].survey, "valves.json", arena);
        question.form = QLL_FORM_HTML;
        question.language = qll_language_words[i % 2];
        qll_answer answer;
        if (CHECK(qll_ask(&question, arena, &answer) == QLL_OK)) {
            html_page page;
            html_check(answer.bytes, &page);
            CHECK(strstr(answer.bytes, facts[i / 2].says[i % 2]) != NULL);
            CHECK(has_section(&answer, "cover") && has_section(&answer, "demand"));
            CHECK(i >= 2 || !has_section(&answer, "commissioning"));
        }
        question.form = QLL_FORM_JSON;
        question.language = NULL;
        CHECK(qll_ask(&question, arena, &answer) == QLL_OK);
        question.form = QLL_FORM_SVG;
        question.plot = "duration";
        CHECK(qll_ask(&question, arena, &answer) == QLL_OK);
        question.plot = "schematic";
        CHECK(i >= 2 || qll_ask(&question, arena, &answer) == QLL_REFUSED);
        qll_arena_close(arena);
    }
}

/* Without a valve every outlet has its row, or the place of the station where the survey names no outlet. */
TEST(every_outlet_has_a_row_without_a_valve)
{
    static const char *const outlets[] = {
        "",
        "\"outlets\": [{\"name\": \"roof\", \"elevation\": \"9 ft\", \"needs\": \"8 psi\"}]",
        ("\"outlets\": [{\"name\": \"roof\", \"elevation\": \"9 ft\", \"needs\": \"8 psi\"},"
         "{\"name\": \"yard\", \"elevation\": \"0 ft\", \"needs\": \"8 psi\"}]"),
    };

    for (size_t count = 0; count < 3; count++) {
        qll_arena *arena = qll_arena_open(plenty);
        qll_writer survey = qll_writer_new(arena);
        qll_write_format(
            &survey,
            "{\"survey\": 1, \"supply\": {\"static_high\": \"75 psi\", \"flow_test\": [{\"flow\": \"0 gpm\", \"pressure\": \"72 psi\"}, {\"flow\": \"60 gpm\", \"pressure\": \"65 psi\"}]}, \"downstream\": {%s},"
            "\"scenarios\": [{\"use\": \"house\", \"people\": 3, \"fixtures\": [{\"fixture\":"
            "\"shower\", \"count\": 1}]}]}",
            outlets[count]);
        const qll_text text = qll_writer_text(&survey);
        const qll_question question = {.verb = QLL_VERB_REPORT,
                                       .form = QLL_FORM_HTML,
                                       .document = {"survey.json", text.bytes, text.size}};
        qll_answer answer;
        if (CHECK(qll_ask(&question, arena, &answer) == QLL_OK)) {
            const html_tables tables = html_tables_of(answer.bytes, arena);
            const html_table *table =
                html_table_named(&tables, qll_say(QLL_LANGUAGE_EN, QLL_SAYS_WITHOUT_VALVE), 0);
            CHECK(table != NULL && table->rows == 1 + (count == 0 ? 1 : count));
        } else {
            printf("    %s\n", answer.problem_count > 0 ? answer.problems[0].text : "");
        }
        qll_arena_close(arena);
    }
}

int main(void)
{
    TEST_RUN(reports_without_a_station_are_whole);
    TEST_RUN(every_outlet_has_a_row_without_a_valve);
    return TEST_END();
}
