/* The report's answer holds what docs/formats/answers.md says: read back and walked, name by name. */
#include "quell/report.h"

#include "promises.h"

static const promise report[] = {
    {"files", QLL_A_LIST},
    {"of", QLL_A_TEXT},
    {"language", QLL_A_TEXT},
    {"paper", QLL_A_TEXT},
    {"title.survey_file", QLL_A_TEXT},
    {"title.survey_sha256_begins", QLL_A_TEXT},
    {"title.version", QLL_A_TEXT},
    {"sections", QLL_A_FULL_LIST},
    {"sections[]", QLL_A_TEXT},
    {"commissioning", QLL_AN_OBJECT},
    {"commissioning.set_tolerance_pa", QLL_A_NUMBER},
    {"commissioning.falloff", QLL_A_FULL_LIST},
    {"commissioning.falloff[].flow_m3s", QLL_A_NUMBER},
    {"commissioning.falloff[].inlet_pa_gauge", QLL_A_NUMBER},
    {"commissioning.falloff[].outlet_pa_gauge", QLL_A_FIGURE},
    {"commissioning.falloff[].least_pa_gauge", QLL_A_FIGURE},
    {"commissioning.falloff[].correction_pa_per_10psi", QLL_A_FIGURE},
    {"commissioning.creep_tight_pa", QLL_A_NUMBER},
    {"commissioning.creep_leaks_pa", QLL_A_NUMBER},
};

/* Of the file that a room has written. */
static const promise file[] = {
    {"path", QLL_A_TEXT},
    {"format", QLL_A_TEXT},
    {"bytes", QLL_A_WHOLE},
    {"pages", QLL_A_FIGURE},
};

/* Everything of demand/1 and design/1 that stands on the sheets, the sheets themselves, and the file. */
TEST(report_keeps_the_contract)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = survey_question(QLL_VERB_REPORT, "flats.json", "valves.json", arena);
    question.language = "es";
    question.sections = "cover,station";
    const qll_node *root = ask(&question, QLL_OK, arena);
    if (root != NULL) {
        CHECK(qll_text_is(qll_node_find(root, "quell")->text, "report/1"));
        check_promises(root, "report", CHECK_OF(common));
        check_promises(root, "report", CHECK_OF(report));
        check_promises(root, "report", CHECK_OF(demand));
        check_promises(root, "report", CHECK_OF(design));
        check_promises(root, "report", CHECK_OF(way));
        CHECK(qll_text_is(qll_node_find(root, "language")->text, "es"));
        CHECK(qll_text_is(qll_node_find(root, "paper")->text, "Letter"));
        CHECK(qll_node_find(root, "plot")->kind == QLL_NODE_NULL);
        CHECK(qll_node_find(root, "files")->child_count == 0);
        static const char *const made[] = {"cover", "cautions", "station"};
        const qll_node *section = list_at(root, "sections");
        for (size_t i = 0; i < 3; i++, section = section == NULL ? NULL : section->next) {
            CHECK(section != NULL && qll_text_is(section->text, made[i]));
        }
        CHECK(section == NULL);
    }
    qll_arena_close(arena);
}

/* Of a check the members of check/1, of a demand those of demand/1, with what every report has. */
TEST(reports_of_other_answers_tell_theirs)
{
    static const promise checked[] = {
        {"stages", QLL_A_FULL_LIST},   {"points", QLL_A_FULL_LIST},
        {"verdicts", QLL_A_FULL_LIST}, {"sensitivity", QLL_A_FULL_LIST},
        {"causes", QLL_A_LIST},        {"cures", QLL_A_LIST},
        {"cost", QLL_AN_OBJECT},       {"scenarios[].estimates", QLL_A_FULL_LIST},
    };
    static const promise of_water[] = {{"comparison", QLL_A_LIST}};
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = survey_question(QLL_VERB_REPORT, "flats.json", "valves.json", arena);
    for (int i = 0; i < 2; i++) {
        question.of = i == 0 ? "check" : "demand";
        const qll_node *root = ask(&question, QLL_OK, arena);
        if (root == NULL) {
            continue;
        }
        check_promises(root, "report", CHECK_OF(common));
        check_promises(root, "report", report, 8); /* up to its sections */
        check_promises(root, "report", CHECK_OF(demand));
        if (i == 0) {
            check_promises(root, "report", CHECK_OF(checked));
            check_promises(root, "report", CHECK_OF(way));
        } else {
            check_promises(root, "report", CHECK_OF(of_water));
        }
        CHECK(qll_text_is(qll_node_find(root, "of")->text, question.of));
        CHECK(qll_node_find(root, "commissioning") == NULL);
    }
    qll_arena_close(arena);
}

TEST(a_report_that_was_written_says_where)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = survey_question(QLL_VERB_REPORT, "flats.json", "valves.json", arena);
    question.units = "si";
    question.plot = "map-1";
    qll_made_report made;
    qll_answer answer;
    qll_text json;
    CHECK(qll_make_report(&question, QLL_SHEETS_PDF, arena, &made, &answer) == QLL_OK);
    CHECK(answer.bytes == NULL && made.text.bytes == NULL);
    CHECK(qll_report_tell(&made, "a \"b\"\xff.pdf", 1234, arena, &json) == QLL_OK);
    const qll_node *root = read_answer(json, arena);
    check_promises(list_at(root, "files"), "file", CHECK_OF(file));
    CHECK(number_at(list_at(root, "files"), "bytes") == 1234.0);
    CHECK(number_at(list_at(root, "files"), "pages") == (double)made.pages->page_count);
    CHECK(qll_text_is(qll_node_find(list_at(root, "files"), "format")->text, "pdf"));
    CHECK(qll_text_is(qll_node_find(root, "paper")->text, "A4"));
    CHECK(qll_make_report(&question, QLL_SHEETS_SVG, arena, &made, &answer) == QLL_OK);
    CHECK(qll_report_tell(&made, "m.svg", made.text.size, arena, &json) == QLL_OK);
    root = read_answer(json, arena);
    CHECK(qll_text_is(qll_node_find(root, "plot")->text, "map-1"));
    CHECK(qll_node_find(root, "paper")->kind == QLL_NODE_NULL);
    CHECK(qll_node_find(root, "sections")->child_count == 0);
    CHECK(qll_node_find(list_at(root, "files"), "pages")->kind == QLL_NODE_NULL);
    CHECK(qll_report_tell_failure("m.svg", "cannot write m.svg: it rains", arena, &json) == QLL_OK);
    check_promises(read_answer(json, arena), "failure", CHECK_OF(refusal));
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(report_keeps_the_contract);
    TEST_RUN(reports_of_other_answers_tell_theirs);
    TEST_RUN(a_report_that_was_written_says_where);
    return TEST_END();
}
