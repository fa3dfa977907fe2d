/* Where no valve is needed, or none is fit, there are sheets that say so, without those of a station. */
#include "ask_files.h"
#include "check.h"
#include "html_check.h"
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

int main(void)
{
    TEST_RUN(reports_without_a_station_are_whole);
    return TEST_END();
}
