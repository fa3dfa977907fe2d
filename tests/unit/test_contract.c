/* The answers hold what docs/formats/answers.md promises: read back and walked, name by name. */
#include "attached.h"
#include "promises.h"

#include <math.h>

/* In the first scenario of metered.json. */
static const promise metered_log[] = {
    {"rows", QLL_A_WHOLE},           {"mended", QLL_AN_OBJECT},   {"mended.gap", QLL_A_WHOLE},
    {"covered_s", QLL_A_NUMBER},     {"unknown_s", QLL_A_NUMBER}, {"interval_s", QLL_A_NUMBER},
    {"hides_peaks", QLL_A_BOOL},     {"peaks", QLL_A_FULL_LIST},  {"says", QLL_A_TEXT},
    {"hidden.factor", QLL_A_NUMBER},
};

static const promise comparison[] = {
    {"from", QLL_A_TEXT},           {"to", QLL_A_TEXT},
    {"peak_ratio", QLL_A_FIGURE},   {"mean_ratio", QLL_A_FIGURE},
    {"low_share_to", QLL_A_NUMBER}, {"says", QLL_A_TEXT},
};

/* Under a station of design, and at the root of check. */
static const promise judged[] = {
    {"verdicts", QLL_A_FULL_LIST},
    {"verdicts[].rule", QLL_A_TEXT},
    {"verdicts[].verdict", QLL_A_TEXT},
    {"verdicts[].value", QLL_A_FIGURE},
    {"verdicts[].limit", QLL_A_FIGURE},
    {"verdicts[].says", QLL_A_TEXT},
    {"time_shares", QLL_AN_OBJECT},
    {"time_shares.idle", QLL_A_NUMBER},
    {"time_shares.below_stable", QLL_A_NUMBER},
    {"time_shares.below_band", QLL_A_NUMBER},
    {"time_shares.in_band", QLL_A_NUMBER},
    {"time_shares.above_band", QLL_A_NUMBER},
    {"time_shares.full_travel", QLL_A_NUMBER},
    {"time_shares.cavitating", QLL_A_NUMBER},
};

static const promise station[] = {
    {"stages", QLL_A_FULL_LIST},
    {"stages[].branches", QLL_A_FULL_LIST},
    {"stages[].branches[].valve", QLL_A_TEXT},
    {"stages[].branches[].nominal_mm", QLL_A_NUMBER},
    {"stages[].branches[].set_pressure_pa_gauge", QLL_A_NUMBER},
    {"stages[].branches[].setting", QLL_AN_OBJECT},
    {"stages[].branches[].setting.flow_m3s", QLL_A_FIGURE},
    {"stages[].branches[].setting.inlet_pa_gauge", QLL_A_FIGURE},
    {"stages[].branches[].setting.reading_pa_gauge", QLL_A_FIGURE},
    {"stages[].branches[].setting.correction_pa_per_10psi", QLL_A_FIGURE},
    {"stages[].branches[].setting.lockup_pa_gauge", QLL_A_FIGURE},
    {"stages[].branches[].strainer", QLL_AN_OBJECT},
    {"worst", QLL_AN_OBJECT},
    {"typical", QLL_AN_OBJECT},
    {"price", QLL_A_FIGURE},
};

static const promise point[] = {
    {"flow_m3s", QLL_A_NUMBER},
    {"inlet_pa_gauge", QLL_A_NUMBER},
    {"outlet_pa_gauge", QLL_A_FIGURE},
    {"stages", QLL_A_FULL_LIST},
    {"stages[].inlet_pa_gauge", QLL_A_FIGURE},
    {"stages[].outlet_pa_gauge", QLL_A_FIGURE},
    {"stages[].ratio_gauge", QLL_A_FIGURE},
    {"stages[].xf", QLL_A_FIGURE},
    {"stages[].sigma", QLL_A_FIGURE},
    {"stages[].regime", QLL_A_TEXT},
    {"stages[].branches", QLL_A_FULL_LIST},
    {"stages[].branches[].valve", QLL_A_TEXT},
    {"stages[].branches[].flow_m3s", QLL_A_FIGURE},
    {"stages[].branches[].opening", QLL_A_FIGURE},
    {"stages[].branches[].kv_m3h", QLL_A_FIGURE},
    {"stages[].branches[].velocity_m_s", QLL_A_FIGURE},
    {"stages[].branches[].stable", QLL_A_BOOL},
    {"stages[].branches[].full_travel", QLL_A_BOOL},
    {"stages[].branches[].level_dba", QLL_A_FIGURE},
    {"stages[].branches[].level_note", QLL_A_TEXT},
};

static const promise scenarios[] = {
    {"scenarios", QLL_A_FULL_LIST},
    {"scenarios[].name", QLL_A_TEXT},
    {"scenarios[].peak_flow_m3s", QLL_A_NUMBER},
    {"scenarios[].code_peak_flow_m3s", QLL_A_NUMBER},
    {"scenarios[].service_flow_m3s", QLL_A_FIGURE},
};

static const promise check[] = {
    {"points", QLL_A_FULL_LIST},
    {"causes", QLL_A_LIST},
    {"cost", QLL_AN_OBJECT},
    {"cost.installed", QLL_A_NUMBER},
    {"cost.callback_share", QLL_A_NUMBER},
    {"cost.callback", QLL_A_NUMBER},
    {"cost.expected", QLL_A_NUMBER},
    {"cost.mechanisms", QLL_A_FULL_LIST},
    {"cost.mechanisms[].mechanism", QLL_A_TEXT},
    {"cost.mechanisms[].share", QLL_A_NUMBER},
    {"fit", QLL_A_BOOL},
    {"breaks", QLL_A_LIST},
    {"cures", QLL_A_LIST},
    {"cures[].kind", QLL_A_TEXT},
    {"cures[].station", QLL_AN_OBJECT},
    {"cures[].station.name", QLL_A_TEXT},
    {"cures[].station.stages", QLL_A_FULL_LIST},
    {"cures[].station.stages[].branches", QLL_A_FULL_LIST},
    {"cures[].station.stages[].branches[].valve", QLL_A_TEXT},
    {"cures[].station.stages[].branches[].nominal_mm", QLL_A_NUMBER},
    {"cures[].station.stages[].branches[].set_pressure_pa_gauge", QLL_A_NUMBER},
    {"cures[].station.stages[].branches[].acting", QLL_A_TEXT},
    {"cures[].installed", QLL_A_FIGURE},
    {"cures[].callback_share", QLL_A_FIGURE},
    {"cures[].callback", QLL_A_FIGURE},
    {"cures[].expected", QLL_A_FIGURE},
    {"cures[].fit", QLL_A_BOOL},
    {"cures[].says", QLL_A_TEXT},
    {"noise.loudest.flow_m3s", QLL_A_NUMBER},
    {"noise.loudest.level_dba", QLL_A_FIGURE},
    {"noise.loudest.level_low_dba", QLL_A_FIGURE},
    {"noise.loudest.level_high_dba", QLL_A_FIGURE},
    {"noise.loudest.level_note", QLL_A_TEXT},
    {"noise.loudest.bands", QLL_A_LIST},
    {"noise.loudest.bands[].centre_hz", QLL_A_NUMBER},
    {"noise.loudest.bands[].level_db", QLL_A_FIGURE},
    {"noise.typical.flow_m3s", QLL_A_NUMBER},
    {"noise.typical.level_dba", QLL_A_FIGURE},
    {"noise.typical.level_note", QLL_A_TEXT},
    {"noise.typical.bands", QLL_A_LIST},
};

/* The least expected cost first, each less than to leave what is fit as it is; what has no figures last. */
static void check_cures(const qll_node *root)
{
    bool is_fit = qll_node_find(root, "fit")->kind == QLL_NODE_TRUE;
    double before = 0.0;
    for (const qll_node *one = list_at(root, "cures"); one != NULL; one = one->next) {
        const qll_node *expected = qll_node_find(one, "expected");
        if (expected->kind != QLL_NODE_NUMBER) {
            before = INFINITY;
            continue;
        }
        CHECK(expected->number >= before);
        before = expected->number;
        CHECK(!is_fit || expected->number < number_at(qll_node_find(root, "cost"), "expected"));
        double sum = number_at(one, "installed")
                     + number_at(one, "callback_share") * number_at(one, "callback");
        CHECK(fabs(sum - expected->number) <= 1e-9 * sum);
    }
}

static const promise calc[] = {
    {"name", QLL_A_TEXT},       {"inputs", QLL_AN_OBJECT},
    {"results", QLL_AN_OBJECT}, {"results.velocity_m_s", QLL_A_NUMBER},
    {"steps", QLL_A_FULL_LIST}, {"source", QLL_A_TEXT},
};

/* The flow classes of the time shares sum to 1. */
static void check_shares(const qll_node *judged_node)
{
    const qll_node *shares = qll_node_find(judged_node, "time_shares");
    if (!CHECK(shares != NULL)) {
        return;
    }
    double sum = number_at(shares, "idle") + number_at(shares, "below_stable")
                 + number_at(shares, "below_band") + number_at(shares, "in_band")
                 + number_at(shares, "above_band");
    CHECK_WITHIN(sum, 1.0, 1e-9);
}

TEST(demand_keeps_the_contract)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = survey_question(QLL_VERB_DEMAND, "flats.json", NULL, arena);
    const qll_node *root = ask(&question, QLL_OK, arena);
    if (root != NULL) {
        CHECK(qll_text_is(qll_node_find(root, "quell")->text, "demand/1"));
        check_promises(root, "demand", CHECK_OF(common));
        check_promises(root, "demand", CHECK_OF(demand));
        for (const qll_node *one = list_at(root, "scenarios"); one != NULL; one = one->next) {
            const qll_node *last = NULL;
            bool rising = true;
            for (const qll_node *p = list_at(one, "flow_duration"); p != NULL; p = p->next) {
                rising = rising
                         && (last == NULL
                             || (number_at(p, "flow_m3s") > number_at(last, "flow_m3s")
                                 && number_at(p, "time_share") >= number_at(last, "time_share")));
                last = p;
            }
            CHECK(rising);
            CHECK_WITHIN(number_at(last, "time_share"), 1.0, 0.0);
            CHECK_WITHIN(number_at(last, "volume_share"), 1.0, 0.0);
            CHECK_WITHIN(number_at(list_at(one, "flow_duration"), "flow_m3s"), 0.0, 0.0);
            CHECK_WITHIN(number_at(list_at(one, "flow_duration"), "time_share"),
                         number_at(one, "idle_share"), 1e-12);
        }
    }
    qll_arena_close(arena);
}

/* 240 rows every 4 s of which 30 are missing: 210 x 4 s are known. */
TEST(a_log_keeps_the_contract)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = survey_question(QLL_VERB_DEMAND, "metered.json", NULL, arena);
    attach_from(&question, QUELL_ROOT "/tests/cli/", arena);
    const qll_node *root = ask(&question, QLL_OK, arena);
    if (root != NULL) {
        check_promises(root, "demand", CHECK_OF(demand));
        const qll_node *log = qll_node_find(list_at(root, "scenarios"), "log");
        check_promises(log, "log", CHECK_OF(metered_log));
        CHECK(number_at(log, "rows") == 210.0);
        CHECK(number_at(log, "covered_s") == 840.0 && number_at(log, "unknown_s") == 120.0);
        CHECK(number_at(qll_node_find(log, "mended"), "gap") == 1.0);
        CHECK(qll_node_find(list_at(root, "scenarios")->next, "log")->kind == QLL_NODE_NULL);
        const qll_node *other = list_at(root, "comparison");
        check_promises(other, "comparison", CHECK_OF(comparison));
        const qll_node *first = list_at(root, "scenarios");
        CHECK_NEAR(number_at(other, "peak_ratio"),
                   number_at(first->next, "peak_flow_m3s") / number_at(first, "peak_flow_m3s"),
                   1e-12);
        CHECK(other->next == NULL);
    }
    qll_arena_close(arena);
}

TEST(design_keeps_the_contract)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = survey_question(QLL_VERB_DESIGN, "flats.json", "valves.json", arena);
    const qll_node *root = ask(&question, QLL_OK, arena);
    if (root != NULL) {
        CHECK(qll_text_is(qll_node_find(root, "quell")->text, "design/1"));
        check_promises(root, "design", CHECK_OF(common));
        check_promises(root, "design", CHECK_OF(design));
        check_promises(root, "design", CHECK_OF(scenarios));
        check_promises(root, "design", CHECK_OF(way));
        size_t count = 0;
        for (const qll_node *one = list_at(root, "stations"); one != NULL; one = one->next) {
            check_promises(one, "station", CHECK_OF(station));
            check_promises(one, "station", CHECK_OF(judged));
            check_shares(one);
            check_promises(qll_node_find(one, "worst"), "worst", CHECK_OF(point));
            check_promises(qll_node_find(one, "typical"), "typical", CHECK_OF(point));
            count += 1;
        }
        CHECK(number_at(root, "recommended") < (double)count);
        CHECK(qll_node_find(root, "sensitivity") == NULL);
    }
    qll_arena_close(arena);
}

static void check_check(const char *survey, const char *catalogue, bool has_cures)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = survey_question(QLL_VERB_CHECK, survey, catalogue, arena);
    const qll_node *root = ask(&question, QLL_OK, arena);
    if (root != NULL) {
        CHECK(qll_text_is(qll_node_find(root, "quell")->text, "check/1"));
        check_promises(root, "check", CHECK_OF(common));
        check_promises(root, "check", CHECK_OF(check));
        check_promises(root, "check", CHECK_OF(scenarios));
        check_promises(root, "check", CHECK_OF(way));
        check_promises(root, "check", CHECK_OF(judged));
        check_shares(root);
        CHECK(!has_cures || list_at(root, "cures") != NULL);
        check_cures(root);
        double flow = -1.0;
        for (const qll_node *one = list_at(root, "points"); one != NULL; one = one->next) {
            check_promises(one, "point", CHECK_OF(point));
            CHECK(number_at(one, "flow_m3s") >= flow);
            flow = number_at(one, "flow_m3s");
        }
    }
    qll_arena_close(arena);
}

TEST(check_keeps_the_contract)
{
    check_check("flats.json", "valves.json", false);
    check_check("warehouse.json", NULL, true);
    check_check("service_limit.json", NULL, false);
}

TEST(calc_keeps_the_contract)
{
    static const char *const arguments[] = {"flow=12 gpm", "bore=1 in"};
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = {
        .verb = QLL_VERB_CALC,
        .form = QLL_FORM_JSON,
        .calc = "velocity",
        .arguments = arguments,
        .argument_count = 2,
    };
    const qll_node *root = ask(&question, QLL_OK, arena);
    if (root != NULL) {
        CHECK(qll_text_is(qll_node_find(root, "quell")->text, "calc/1"));
        check_promises(root, "calc", CHECK_OF(calc));
        /* 12 US gallons of 3.785411784 L a minute; 1 in = 25.4 mm (NIST SP 811). */
        const qll_node *inputs = qll_node_find(root, "inputs");
        CHECK_NEAR(number_at(inputs, "flow_m3s"), 12.0 * 3.785411784e-3 / 60.0, 1e-12);
        CHECK_NEAR(number_at(inputs, "bore_m"), 0.0254, 1e-12);
        double area_m2 = 3.14159265358979324 * 0.0127 * 0.0127;
        CHECK_NEAR(number_at(qll_node_find(root, "results"), "velocity_m_s"),
                   12.0 * 3.785411784e-3 / 60.0 / area_m2, 1e-12);
    }
    qll_arena_close(arena);
}

TEST(every_calculation_is_listed_with_its_inputs)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_question question = {.verb = QLL_VERB_CALC, .form = QLL_FORM_JSON};
    const qll_node *root = ask(&question, QLL_OK, arena);
    if (root != NULL) {
        static const promise list[] = {
            {"calculations", QLL_A_FULL_LIST},       {"calculations[].name", QLL_A_TEXT},
            {"calculations[].inputs", QLL_A_LIST},   {"calculations[].inputs[].key", QLL_A_TEXT},
            {"calculations[].formula", QLL_A_TEXT},  {"calculations[].source", QLL_A_TEXT},
            {"calculations[].validity", QLL_A_TEXT},
        };
        check_promises(root, "calc list", CHECK_OF(list));
    }
    qll_arena_close(arena);
}

TEST(refusals_keep_the_contract)
{
    static const qll_verb verbs[] = {QLL_VERB_DEMAND, QLL_VERB_DESIGN, QLL_VERB_CHECK,
                                     QLL_VERB_REPORT};
    for (size_t i = 0; i < sizeof verbs / sizeof verbs[0]; i++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 30);
        qll_question question = survey_question(verbs[i], "refused.json", NULL, arena);
        const qll_node *root = ask(&question, QLL_REFUSED, arena);
        if (root != NULL) {
            check_promises(root, qll_verb_words[verbs[i]], CHECK_OF(refusal));
        }
        qll_arena_close(arena);
    }
}

static bool is_word_byte(char byte)
{
    return (byte >= 'a' && byte <= 'z') || (byte >= '0' && byte <= '9') || byte == '_'
           || byte == '-';
}

/* Does @p word stand in @p page as a whole word? */
static bool names(const char *page, const char *word)
{
    size_t size = strlen(word);
    for (const char *at = strstr(page, word); at != NULL; at = strstr(at + 1, word)) {
        if ((at == page || !is_word_byte(at[-1])) && !is_word_byte(at[size])) {
            return true;
        }
    }
    return false;
}

/* Keys of inputs and results belong to the calculation; quell calc NAME --help lists them. */
static bool is_of_a_calculation(const qll_node *node)
{
    const qll_node *parent = node->parent;
    return parent != NULL
           && (qll_text_is(parent->key, "inputs") || qll_text_is(parent->key, "results"));
}

static void check_documented(const char *page, const qll_node *node, qll_arena *arena)
{
    const char *key = qll_text_closed(node->key, arena);
    if (key != NULL && key[0] != '\0' && !is_of_a_calculation(node)) {
        check_report(names(page, key), __FILE__, __LINE__, key);
    }
    for (const qll_node *child = node->first_child; child != NULL; child = child->next) {
        check_documented(page, child, arena);
    }
}

TEST(every_member_stands_in_the_manual)
{
    static const char *const arguments[] = {"flow=12 gpm", "bore=1 in"};
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_input page = test_input("../../docs/formats/answers.md", arena);
    qll_question questions[] = {
        survey_question(QLL_VERB_DEMAND, "flats.json", NULL, arena),
        survey_question(QLL_VERB_DESIGN, "flats.json", "valves.json", arena),
        survey_question(QLL_VERB_CHECK, "flats.json", "valves.json", arena),
        survey_question(QLL_VERB_REPORT, "flats.json", "valves.json", arena),
        survey_question(QLL_VERB_FIT, "capacity.csv", NULL, arena),
        {.verb = QLL_VERB_LIST, .form = QLL_FORM_JSON},
        {.verb = QLL_VERB_DESCRIBE, .form = QLL_FORM_JSON},
        {.verb = QLL_VERB_CALC, .form = QLL_FORM_JSON},
        {.verb = QLL_VERB_CALC,
         .form = QLL_FORM_JSON,
         .calc = "velocity",
         .arguments = arguments,
         .argument_count = 2},
    };
    for (size_t i = 0; i < sizeof questions / sizeof questions[0]; i++) {
        const qll_node *root = ask(&questions[i], QLL_OK, arena);
        if (root != NULL && CHECK(page.bytes != NULL)) {
            check_documented(page.bytes, root, arena);
        }
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(demand_keeps_the_contract);
    TEST_RUN(a_log_keeps_the_contract);
    TEST_RUN(design_keeps_the_contract);
    TEST_RUN(check_keeps_the_contract);
    TEST_RUN(calc_keeps_the_contract);
    TEST_RUN(every_calculation_is_listed_with_its_inputs);
    TEST_RUN(refusals_keep_the_contract);
    TEST_RUN(every_member_stands_in_the_manual);
    return TEST_END();
}
