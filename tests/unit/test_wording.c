#include "base/customary.h"
#include "check.h"
#include "wording/wording.h"

#include <stdint.h>

/* A station of two stages, so that every token has something to name. */
static const qll_valve valve = {.id = "T-50", .nominal_m = 0.0508};
static const qll_branch branch = {.valve = &valve, .set_pa_gauge = 4e5};
static const qll_stage stages[2] = {{&branch, 1, 9e5}, {&branch, 1, 6e5}};
static const qll_outlet outlet = {.name = "top shower"};
static const qll_site site = {.outlets = &outlet, .outlet_count = 1};
static const qll_duty_scenario scenarios[2] = {{.name = "last tenant"}, {.name = "next tenant"}};
static const qll_duty duty = {.scenario_count = 2, .scenarios = scenarios};

static qll_rule rule_of(qll_finding finding)
{
    static const struct {
        qll_finding first;
        qll_rule rule;
    } starts[] = {
        {QLL_FINDING_DELIVERY_MET, QLL_RULE_DELIVERY},
        {QLL_FINDING_STATIC_MET, QLL_RULE_STATIC},
        {QLL_FINDING_RATIO_PREFERRED, QLL_RULE_RATIO},
        {QLL_FINDING_VELOCITY_IN_BAND, QLL_RULE_VELOCITY},
        {QLL_FINDING_CAPACITY_IN_HAND, QLL_RULE_CAPACITY},
        {QLL_FINDING_LOW_FLOW_STABLE, QLL_RULE_LOW_FLOW},
        {QLL_FINDING_CAVITATION_QUIET, QLL_RULE_CAVITATION},
        {QLL_FINDING_RATING_WITHIN, QLL_RULE_RATING},
        {QLL_FINDING_EXPANSION_NO_HEATER, QLL_RULE_EXPANSION},
        {QLL_FINDING_STRAINER_EASY, QLL_RULE_STRAINER},
    };

    qll_rule rule = QLL_RULE_DELIVERY;
    for (size_t i = 0; i < sizeof starts / sizeof starts[0]; i++) {
        if (finding >= starts[i].first) {
            rule = starts[i].rule;
        }
    }
    return rule;
}

static const char *say(const qll_verdict *verdict, const qll_station *station, qll_arena *arena)
{
    const qll_wording wording = {.units = QLL_UNITS_US, .site = &site, .duty = &duty};
    qll_writer writer = qll_writer_new(arena);
    qll_wording_verdict(&writer, &wording, station, verdict);
    return qll_writer_text(&writer).bytes;
}

TEST(every_finding_has_a_sentence)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_station station = {stages, 2};
    for (int finding = 0; finding < QLL_FINDING_COUNT; finding++) {
        const qll_verdict verdict = {
            .rule = rule_of((qll_finding)finding),
            .finding = (qll_finding)finding,
            .value = 1,
            .limit = 2,
            .value_at_peak = 0.5,
            .right_size_m = 0.0254,
            .kind = QLL_KIND_VELOCITY,
        };
        const char *text = say(&verdict, &station, arena);
        CHECK(text != NULL && strlen(text) > 20);
        CHECK(text != NULL && text[strlen(text) - 1] == '.');
        CHECK(text != NULL && strpbrk(text, "{}[]") == NULL && strstr(text, "(unknown)") == NULL);
    }
    qll_arena_close(arena);
}

TEST(what_is_not_known_is_left_out)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_station single = {stages, 1};
    qll_verdict verdict = {.rule = QLL_RULE_VELOCITY,
                           .finding = QLL_FINDING_VELOCITY_OVERSIZED,
                           .value = 0.2,
                           .limit = 0.9144,
                           .value_at_peak = 0.6096,
                           .right_size_m = NAN,
                           .kind = QLL_KIND_VELOCITY};
    CHECK_TEXT(say(&verdict, &single, arena),
               "The 2 in valve T-50 is oversized: its pipe reaches only 2.0 ft/s even at the "
               "design peak, the band begins at 3.0 ft/s.");
    verdict.right_size_m = 0.0381;
    CHECK_TEXT(say(&verdict, &single, arena),
               "The 2 in valve T-50 is oversized: its pipe reaches only 2.0 ft/s even at the "
               "design peak, the band begins at 3.0 ft/s; 1-1/2 in would not be.");
    qll_arena_close(arena);
}

TEST(cautions_name_what_can_hurt)
{
    const char *const words[] = {"relieve",  "scalds",   "expansion", "fire",
                                 "Backflow", "licensed", "estimates"};
    CHECK(QLL_CAUTION_COUNT == sizeof words / sizeof words[0]);
    for (size_t i = 0; i < QLL_CAUTION_COUNT; i++) {
        CHECK(strstr(qll_caution(QLL_LANGUAGE_EN, i), words[i]) != NULL);
    }
}

/* Every method below and above the design peak says what it means for the station. */
TEST(disagreements_say_what_they_mean)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    for (int method = 0; method < QLL_PEAK_METHOD_COUNT; method++) {
        const qll_peak_estimate estimate = {.method = (qll_peak_method)method,
                                            .peak_m3s = 50.0 * QLL_GPM_M3S};
        const qll_demand demand = {.estimates = &estimate, .estimate_count = 1};
        static const double ratios[] = {0.572, 1.75};
        for (size_t i = 0; i < 2; i++) {
            const qll_disagreement one = {.estimate = 0, .ratio = ratios[i]};
            const qll_wording wording = {.units = QLL_UNITS_US};
            qll_writer writer = qll_writer_new(arena);
            qll_wording_disagreement(&writer, &wording, &demand, &one);
            const char *says = qll_writer_text(&writer).bytes;
            const char *name = qll_say_method(QLL_LANGUAGE_EN, (qll_peak_method)method);
            CHECK(strstr(says, name) == says);
            CHECK(strstr(says, "50") != NULL && strstr(says, "gpm") != NULL);
            CHECK(strstr(says, i == 0 ? "0.57 times" : "1.75 times") != NULL);
            CHECK(strlen(says) > 100 && says[strlen(says) - 1] == '.');
        }
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(every_finding_has_a_sentence);
    TEST_RUN(what_is_not_known_is_left_out);
    TEST_RUN(cautions_name_what_can_hurt);
    TEST_RUN(disagreements_say_what_they_mean);
    return TEST_END();
}
