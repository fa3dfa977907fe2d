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
        {QLL_FINDING_LOW_FLOW_NEVER, QLL_RULE_LOW_FLOW},
        {QLL_FINDING_LOW_FLOW_WEAK, QLL_RULE_LOW_FLOW},
        {QLL_FINDING_CAVITATION_QUIET, QLL_RULE_CAVITATION},
        {QLL_FINDING_RATING_WITHIN, QLL_RULE_RATING},
        {QLL_FINDING_EXPANSION_NO_HEATER, QLL_RULE_EXPANSION},
        {QLL_FINDING_STRAINER_NOTHING, QLL_RULE_STRAINER},
        {QLL_FINDING_HUNTING_STEADY, QLL_RULE_HUNTING},
        {QLL_FINDING_HAMMER_NOT_RUN, QLL_RULE_HAMMER},
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
    const qll_said run[] = {
        {QLL_TEXT_SIM_DEMAND,
         {qll_as_quantity(1e-3, QLL_KIND_FLOW), qll_as_quantity(1e-4, QLL_KIND_FLOW),
          qll_as_quantity(0.5, QLL_KIND_TIME), qll_as_quantity(6e5, QLL_KIND_PRESSURE)}},
        {QLL_TEXT_HUNTING_GOOD, {qll_as_is("A"), qll_as_quantity(1e4, QLL_KIND_PRESSURE)}}};
    for (int finding = 0; finding < QLL_FINDING_COUNT; finding++) {
        const qll_verdict verdict = {
            .rule = rule_of((qll_finding)finding),
            .finding = (qll_finding)finding,
            .value = 1,
            .limit = 2,
            .value_at_peak = 0.5,
            .right_size_m = 0.0254,
            .kind = QLL_KIND_VELOCITY,
            .run_says = run,
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
                           .finding = QLL_FINDING_VELOCITY_ABOVE_MAX,
                           .value = 0.6096,
                           .limit = 4.572,
                           .value_at_peak = 4.8768,
                           .right_size_m = NAN,
                           .kind = QLL_KIND_VELOCITY};
    CHECK_TEXT(
        say(&verdict, &single, arena),
        "The 2 in valve T-50 is too small: 16.0 ft/s in pipe of its size at the design peak, "
        "15.0 ft/s is the limit.");
    verdict.right_size_m = 0.0762;
    CHECK_TEXT(
        say(&verdict, &single, arena),
        "The 2 in valve T-50 is too small: 16.0 ft/s in pipe of its size at the design peak, "
        "15.0 ft/s is the limit; 3 in would do.");
    qll_arena_close(arena);
}

static void check_cells(const qll_verdict *verdict, const char *value, const char *limit)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_wording wording = {.units = QLL_UNITS_US, .site = &site, .duty = &duty};
    qll_writer values = qll_writer_new(arena);
    qll_writer limits = qll_writer_new(arena);
    qll_wording_value(&values, &wording, verdict);
    qll_wording_limit(&limits, &wording, verdict);
    CHECK_TEXT(qll_writer_text(&values).bytes, value);
    CHECK_TEXT(qll_writer_text(&limits).bytes, limit);
    qll_arena_close(arena);
}

/* 88 dB(A) beside a limit of 55 is not called good: what is good is how seldom it is so loud. */
TEST(what_is_past_its_limit_too_seldom_shows_how_long)
{
    qll_verdict noise = {.rule = QLL_RULE_NOISE,
                         .finding = QLL_FINDING_NOISE_SELDOM,
                         .kind = QLL_KIND_NUMBER,
                         .value = 88.0,
                         .limit = 55.0,
                         .value_at_peak = 50.0,
                         .past_share = 0.05};
    check_cells(&noise, "5 %", "-");
    noise.finding = QLL_FINDING_NOISE_HEARD;
    noise.past_share = NAN;
    check_cells(&noise, "88 dB(A)", "55 dB(A)");
    qll_verdict cavitation = {.rule = QLL_RULE_CAVITATION,
                              .finding = QLL_FINDING_CAVITATION_SLIGHT,
                              .kind = QLL_KIND_NUMBER,
                              .value = 1.45,
                              .limit = 1.0,
                              .value_at_peak = 0.0,
                              .past_share = 0.0};
    check_cells(&cavitation, "<1 %", "-");
    cavitation.finding = QLL_FINDING_CAVITATION_HEARD;
    cavitation.past_share = NAN;
    check_cells(&cavitation, "1.45", "1.00");
}

/* Where the size sold is just what is needed, the need is not named beside it. */
TEST(a_tank_is_named_by_the_size_to_buy)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_station single = {stages, 1};
    qll_verdict verdict = {.rule = QLL_RULE_EXPANSION,
                           .finding = QLL_FINDING_EXPANSION_TANK_MISSING,
                           .kind = QLL_KIND_VOLUME,
                           .value = 2.2 * 3.785411784e-3,
                           .value_at_peak = 53.0 * QLL_PSI_PA};
    CHECK_TEXT(say(&verdict, &single, arena),
               "No expansion tank in the survey. The heater needs 2.2 gal. Install one of 4.5 gal, "
               "precharged to 53 psi with the water side empty.");
    verdict.value = 4.5 * 3.785411784e-3;
    CHECK_TEXT(say(&verdict, &single, arena),
               "No expansion tank in the survey. Install one of 4.5 gal, precharged to 53 psi with "
               "the water side empty.");
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
        static const double ratios[] = {0.572, 1.75};
        for (size_t i = 0; i < 2; i++) {
            qll_disagreement alike[] = {{.estimate = 0, .ratio = ratios[i]},
                                        {.estimate = 0, .ratio = 1.5 * ratios[i]}};
            const qll_demand demand = {.estimates = &estimate,
                                       .estimate_count = 1,
                                       .disagreements = alike,
                                       .disagreement_count = 2};
            const qll_wording wording = {.units = QLL_UNITS_US};
            qll_writer writer = qll_writer_new(arena);
            CHECK(qll_wording_disagreement(&writer, &wording, &demand, 0, false));
            const char *says = qll_writer_text(&writer).bytes;
            const char *name = qll_say_method(QLL_LANGUAGE_EN, (qll_peak_method)method);
            CHECK(strstr(says, name) == says);
            CHECK(strstr(says, "50") != NULL && strstr(says, "gpm") != NULL);
            CHECK(strstr(says, i == 0 ? "0.57 times" : "1.75 times") != NULL);
            CHECK(strlen(says) > 100 && says[strlen(says) - 1] == '.');
            /* Both in one sentence, said once. */
            qll_writer both = qll_writer_new(arena);
            CHECK(qll_wording_disagreement(&both, &wording, &demand, 0, true));
            CHECK(strstr(qll_writer_text(&both).bytes, i == 0 ? "0.86 times" : "2.62 times")
                  != NULL);
            CHECK(!qll_wording_disagreement(&both, &wording, &demand, 1, true));
        }
    }
    qll_arena_close(arena);
}

/* Says what the service carries, why, and by whose peak; nothing where it carries the peak. */
TEST(the_service_is_named_as_the_limit)
{
    static const struct {
        double carries_gpm, peak_gpm;
        const char *says[3];
        qll_peak_method method;
        bool is_velocity;
    } facts[] = {
        {12.07,
         19.7,
         {"about 12 gpm", "8.0 ft/s in 3/4 in pipe", "the code's peak is 19.7 gpm"},
         QLL_PEAK_FIXTURE_UNITS_IPC,
         true},
        {9.37,
         19.7,
         {"about 9.4 gpm", "8.0 ft/s in 3/4 in pipe", "the given peak is 19.7 gpm"},
         QLL_PEAK_GIVEN,
         true},
        {134.0,
         150.0,
         {"about 130 gpm", "leaves less than 55 psi", "is 150"},
         QLL_PEAK_SIMULTANEOUS_USE,
         false},
        {19.5, 19.7, {NULL}, QLL_PEAK_FIXTURE_UNITS_IPC, true},
        {19.7, 19.7, {NULL}, QLL_PEAK_FIXTURE_UNITS_IPC, true},
    };

    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_site small = {.limits = {.velocity_max_m_s = 8.0 * 0.3048}};
    for (size_t i = 0; i < sizeof facts / sizeof facts[0]; i++) {
        double carries_m3s = facts[i].carries_gpm * QLL_GPM_M3S;
        double peak_m3s = facts[i].peak_gpm * QLL_GPM_M3S;
        const qll_duty_scenario scenario = {.peak_m3s = carries_m3s, .code_peak_m3s = peak_m3s};
        const qll_duty of = {.scenario_count = 1, .scenarios = &scenario};
        const qll_wording wording = {.units = QLL_UNITS_US, .site = &small, .duty = &of};
        const qll_service service = {.velocity_flow_m3s =
                                         facts[i].is_velocity ? carries_m3s : 2.0 * carries_m3s,
                                     .pipe_nominal_m = 0.75 * 0.0254,
                                     .inlet_pa_gauge = 55.0 * QLL_PSI_PA};
        const qll_peak_estimate estimate = {.method = facts[i].method, .peak_m3s = peak_m3s};
        const qll_demand demand = {.estimates = &estimate, .peak_m3s = peak_m3s};
        qll_writer writer = qll_writer_new(arena);
        bool is_limit = qll_wording_service(&writer, &wording, &service, &demand);
        CHECK(is_limit == (facts[i].says[0] != NULL));
        const char *says = is_limit ? qll_writer_text(&writer).bytes : "";
        for (size_t k = 0; k < 3 && facts[i].says[k] != NULL; k++) {
            if (!CHECK(strstr(says, facts[i].says[k]) != NULL)) {
                printf("    %s\n", says);
            }
        }
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(every_finding_has_a_sentence);
    TEST_RUN(what_is_not_known_is_left_out);
    TEST_RUN(what_is_past_its_limit_too_seldom_shows_how_long);
    TEST_RUN(a_tank_is_named_by_the_size_to_buy);
    TEST_RUN(cautions_name_what_can_hurt);
    TEST_RUN(disagreements_say_what_they_mean);
    TEST_RUN(the_service_is_named_as_the_limit);
    return TEST_END();
}
