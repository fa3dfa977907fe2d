/* Which peak is taken and how it is counted: surveys as people write them. */
#include "base/customary.h"
#include "demand_says.h"
#include "survey_scene.h"

/* A survey of one scenario, read, and its demand. */
typedef struct asked {
    scene read;
    qll_demand demand;
    qll_status status;
} asked;

static asked ask_of(const char *scenario)
{
    char text[4096];
    snprintf(text, sizeof text,
             "{\"survey\":1,\"supply\":{\"static_high\":\"100 psi\",\"flow_test\":[{\"flow\":\"0 "
             "gpm\",\"pressure\":\"95 psi\"},{\"flow\":\"500 gpm\",\"pressure\":\"90 psi\"}]},"
             "\"scenarios\":[%s]}",
             scenario);
    asked at = {.read = read_survey(text)};
    if (CHECK(at.read.status == QLL_OK)) {
        at.status = qll_demand_of(&at.read.survey.scenarios[0], at.read.arena, &at.demand);
        CHECK(at.status == QLL_OK);
    }
    return at;
}

static const qll_peak_estimate *estimate(const asked *at, qll_peak_method method)
{
    for (size_t i = 0; i < at->demand.estimate_count; i++) {
        if (at->demand.estimates[i].method == method) {
            return &at->demand.estimates[i];
        }
    }
    return NULL;
}

/* Is @p part in the notes of @p method? */
static bool notes(const asked *at, qll_peak_method method, const char *part)
{
    const qll_peak_estimate *found = estimate(at, method);
    return found != NULL && demand_notes(at->read.arena, found, part);
}

static bool remarks(const asked *at, const char *part)
{
    const char *says = qll_wording_notes(at->read.arena, &demand_wording, at->demand.remarks);
    return strstr(says, part) != NULL;
}

static bool warns(const asked *at, const char *part)
{
    const char *says = qll_wording_notes(at->read.arena, &demand_wording, at->demand.warnings);
    return strstr(says, part) != NULL;
}

/* The design peak of a scenario, gpm. */
static double peak_gpm(const char *scenario)
{
    asked at = ask_of(scenario);
    const double peak = at.demand.peak_m3s / QLL_GPM_M3S;
    qll_arena_close(at.read.arena);
    return peak;
}

static void check_peak(const char *scenario, double gpm)
{
    CHECK_WITHIN(peak_gpm(scenario), gpm, 0.051);
}

/* 500 closets are 5000 units, 593 gpm, the table's last point; the 501st fell to 101 gpm. */
TEST(one_fixture_beyond_the_table_keeps_its_last_value)
{
    check_peak("{\"use\":\"school\",\"people\":6000,\"fixtures\":[{\"fixture\":\"water closet, "
               "flushometer\",\"count\":500}]}",
               593.0);
    asked at = ask_of("{\"use\":\"school\",\"people\":6000,\"fixtures\":[{\"fixture\":\"water "
                      "closet, flushometer\",\"count\":501}]}");
    CHECK_WITHIN(at.demand.peak_m3s / QLL_GPM_M3S, 593.0, 1e-9);
    CHECK(at.demand.estimates != NULL
          && at.demand.estimates[at.demand.chosen].method == QLL_PEAK_FIXTURE_UNITS_IPC);
    CHECK(warns(&at, "add up to 5010 units") && warns(&at, "give the \"peak\" as a flow"));
    qll_arena_close(at.read.arena);
    /* 1388 bathroom groups are 4996.8 units, 592.8 gpm; one more fell to 156.8. */
    check_peak(
        "{\"use\":\"apartment\",\"people\":3000,\"fixtures\":[{\"fixture\":\"bathroom group, "
        "tank\",\"count\":1388}]}",
        592.8);
    check_peak(
        "{\"use\":\"apartment\",\"people\":3000,\"fixtures\":[{\"fixture\":\"bathroom group, "
        "tank\",\"count\":1389}]}",
        593.0);
}

#define TEST_ROOMS                                                                          \
    "{\"use\":\"hotel\",\"people\":180,\"fixtures\":[{\"fixture\":\"water closet, tank\","  \
    "\"count\":120%s},{\"fixture\":\"lavatory\",\"count\":120%s},{\"fixture\":\"bathtub\"," \
    "\"count\":120%s}]}"

/* Private units: 120 x (2.2 + 0.7 + 1.4) = 516: 124 + 16/250 x 46 = 126.944 gpm; public ones 1320, 247.4 gpm. */
TEST(guest_rooms_are_private_unless_said_otherwise)
{
    char said[1024];
    snprintf(said, sizeof said, TEST_ROOMS, "", "", "");
    asked at = ask_of(said);
    CHECK_WITHIN(at.demand.peak_m3s / QLL_GPM_M3S, 126.944, 1e-9);
    CHECK(notes(&at, QLL_PEAK_FIXTURE_UNITS_IPC, "516 fixture units (private)"));
    CHECK(notes(&at, QLL_PEAK_FIXTURE_UNITS_IPC, "IPC chapter 2, from memory"));
    /* 120 x 3.6 = 432 units, as in the same rooms listed as groups. */
    CHECK(notes(&at, QLL_PEAK_FIXTURE_UNITS_IPC,
                "120 of the bathrooms counted as groups it is 432 "
                "units"));
    for (size_t i = 0; i < 3; i++) {
        char what[64];
        snprintf(what, sizeof what, "scenarios[0].fixtures[%zu].occupancy", i);
        check_assumed(&at.read, what, "private");
    }
    qll_arena_close(at.read.arena);

    const char *is_public = ",\"occupancy\":\"public\"";
    snprintf(said, sizeof said, TEST_ROOMS, is_public, is_public, is_public);
    at = ask_of(said);
    CHECK_WITHIN(at.demand.peak_m3s / QLL_GPM_M3S, 247.4, 0.051);
    CHECK(notes(&at, QLL_PEAK_FIXTURE_UNITS_IPC, "1320 fixture units (public)"));
    CHECK(assumption(&at.read, "scenarios[0].fixtures[0].occupancy") == NULL);
    qll_arena_close(at.read.arena);

    at = ask_of("{\"use\":\"hotel\",\"people\":180,\"fixtures\":[{\"fixture\":\"bathroom group, "
                "tank\",\"count\":120}]}");
    CHECK(notes(&at, QLL_PEAK_FIXTURE_UNITS_IPC, "432 fixture units (private)"));
    CHECK(notes(&at, QLL_PEAK_FIXTURE_UNITS_IPC,
                "the 120 bathroom groups make it 516 units and "
                "127 gpm"));
    qll_arena_close(at.read.arena);
}

/* 60 patient rooms: 60 x (6 + 0.7 + 1.4) = 486 private units, not 960 public ones (203 gpm). A shared
 * laundry of 8 lb washers is public: 3.0 each. */
TEST(patient_rooms_and_shared_laundries)
{
    asked at =
        ask_of("{\"use\":\"hospital\",\"people\":60,\"fixtures\":[{\"fixture\":\"water closet, "
               "flushometer\",\"count\":60},{\"fixture\":\"lavatory\",\"count\":60},{"
               "\"fixture\":\"shower\",\"count\":60},{\"fixture\":\"service "
               "sink\",\"count\":2}]}");
    CHECK(notes(&at, QLL_PEAK_FIXTURE_UNITS_IPC, "492 fixture units,"));
    CHECK(notes(&at, QLL_PEAK_FIXTURE_UNITS_IPC, "Of them 486 are private, 6 public."));
    qll_arena_close(at.read.arena);
    at = ask_of(
        "{\"use\":\"apartment\",\"homes\":20,\"people\":40,\"fixtures\":[{\"fixture\":\"clothes "
        "washer\",\"count\":5,\"occupancy\":\"public\"}]}");
    CHECK(notes(&at, QLL_PEAK_FIXTURE_UNITS_IPC, "15 fixture units (public)"));
    qll_arena_close(at.read.arena);
    /* In a school nothing is private by itself. */
    at = ask_of(
        "{\"use\":\"school\",\"people\":40,\"fixtures\":[{\"fixture\":\"lavatory\",\"count\":5}]"
        "}");
    CHECK(notes(&at, QLL_PEAK_FIXTURE_UNITS_IPC, "10 fixture units (public)"));
    CHECK(!notes(&at, QLL_PEAK_FIXTURE_UNITS_IPC, "chapter 2"));
    qll_arena_close(at.read.arena);
}

/* 300 units of lavatories 85.0 gpm by tanks, 109.9 with one closet of 10 (306 units: 85.8 and so on). */
TEST(one_flushometer_turns_the_column_and_says_so)
{
    asked at = ask_of("{\"use\":\"office\",\"people\":400,\"fixtures\":[{\"fixture\":\"lavatory\","
                      "\"count\":150},{\"fixture\":\"water closet, flushometer\",\"count\":1}]}");
    CHECK(notes(&at, QLL_PEAK_FIXTURE_UNITS_IPC, "Flushometers are 3.2 % of the units"));
    CHECK(notes(&at, QLL_PEAK_FIXTURE_UNITS_IPC, "predominate (from memory)"));
    CHECK(notes(&at, QLL_PEAK_FIXTURE_UNITS_IPC, "The flush tank column gives 87 gpm"));
    qll_arena_close(at.read.arena);
    check_peak(
        "{\"use\":\"office\",\"people\":400,\"fixtures\":[{\"fixture\":\"lavatory\",\"count\":"
        "150}]}",
        85.0);
    at = ask_of(
        "{\"use\":\"office\",\"people\":400,\"fixtures\":[{\"fixture\":\"lavatory\",\"count\":"
        "10},{\"fixture\":\"water closet, flushometer\",\"count\":10}]}");
    CHECK(!notes(&at, QLL_PEAK_FIXTURE_UNITS_IPC, "predominate"));
    qll_arena_close(at.read.arena);
}

/* IPC Table 604.3: a flushometer closet 25 gpm, a urinal 12 gpm. At 6 units the table has 17.4 gpm, at 5
 * units 15.0. */
TEST(one_flushometer_is_the_least)
{
    check_peak(
        "{\"use\":\"house\",\"homes\":1,\"people\":2,\"fixtures\":[{\"fixture\":\"water closet, "
        "flushometer\",\"count\":1}]}",
        25.0);
    check_peak("{\"use\":\"house\",\"homes\":1,\"people\":2,\"fixtures\":[{\"fixture\":\"bathroom "
               "group, flushometer\",\"count\":1}]}",
               25.0);
    check_peak(
        "{\"use\":\"office\",\"people\":20,\"fixtures\":[{\"fixture\":\"urinal, flushometer 3/4 "
        "in\",\"count\":1}]}",
        15.0);
    check_peak("{\"use\":\"office\",\"people\":20,\"fixtures\":[{\"fixture\":\"water closet, "
               "flushometer\",\"count\":1}]}",
               27.0);
}

/* 40 flats as groups and piece by piece: the same 42 and 30 gpm by the methods that count fixtures. */
TEST(groups_are_taken_apart_for_methods_that_count_fixtures)
{
    static const char *const rest =
        "{\"fixture\":\"kitchen faucet\",\"count\":40},{\"fixture\":\"dishwasher\",\"count\":40}]}";
    char said[1024];
    snprintf(
        said, sizeof said,
        "{\"use\":\"apartment\",\"homes\":40,\"people\":92,\"fixtures\":[{\"fixture\":\"bathroom "
        "group\",\"count\":40},{\"fixture\":\"half bath\",\"count\":10},%s",
        rest);
    asked groups = ask_of(said);
    snprintf(said, sizeof said,
             "{\"use\":\"apartment\",\"homes\":40,\"people\":92,\"fixtures\":[{\"fixture\":\"WC\","
             "\"count\":50},{\"fixture\":\"lavatory\",\"count\":50},{\"fixture\":\"bath/"
             "shower\",\"count\":40},%s",
             rest);
    asked pieces = ask_of(said);
    static const qll_peak_method methods[] = {QLL_PEAK_SIMULTANEOUS_USE,
                                              QLL_PEAK_NORMAL_APPROXIMATION, QLL_PEAK_DIN_1988_300,
                                              QLL_PEAK_PER_FIXTURE};
    for (size_t i = 0; i < 4; i++) {
        const qll_peak_estimate *a = estimate(&groups, methods[i]);
        const qll_peak_estimate *b = estimate(&pieces, methods[i]);
        if (CHECK(a != NULL && b != NULL)) {
            CHECK_NEAR(a->peak_m3s, b->peak_m3s, 1e-12);
        }
    }
    CHECK(groups.demand.loading[QLL_LOADING_EN].units
          == pieces.demand.loading[QLL_LOADING_EN].units);
    CHECK(notes(&groups, QLL_PEAK_DIN_1988_300, "The 50 bathroom groups are split up"));
    CHECK(!notes(&pieces, QLL_PEAK_DIN_1988_300, "split up"));
    qll_arena_close(groups.read.arena);
    qll_arena_close(pieces.read.arena);
}

/* A group with a flow and a probability of its own stays one fixture. */
TEST(a_group_of_the_surveys_own_stays_whole)
{
    asked at =
        ask_of("{\"use\":\"apartment\",\"homes\":1,\"people\":2,\"fixtures\":[{\"fixture\":"
               "\"bathroom group\",\"count\":1,\"flow\":\"4 gpm\",\"use_probability\":0.5}]}");
    const qll_peak_estimate *use = estimate(&at, QLL_PEAK_SIMULTANEOUS_USE);
    if (CHECK(use != NULL)) {
        CHECK_NEAR(use->peak_m3s, 4.0 * QLL_GPM_M3S, 1e-9);
    }
    CHECK(!notes(&at, QLL_PEAK_SIMULTANEOUS_USE, "split up"));
    qll_arena_close(at.read.arena);
}

#define TEST_IRRIGATED                                                                     \
    "{\"use\":\"house\",\"homes\":1,\"people\":4,\"fixtures\":[{\"fixture\":\"bathroom "   \
    "group\",\"count\":3},{\"fixture\":\"kitchen faucet\",\"count\":1}],\"continuous\":[{" \
    "\"name\":\"irrigation\",\"flow\":\"%s\",\"hours\":\"%s\"}]}"

/* 22 gpm of irrigation from 04:00 to 06:30 do not meet the evening's peak; all day long they do. */
TEST(flows_by_the_clock_and_the_busiest_hour)
{
    char said[1024];
    snprintf(said, sizeof said, TEST_IRRIGATED, "22 gpm", "04:00-06:30");
    asked at = ask_of(said);
    const double alone_m3s = at.demand.peak_m3s - 22.0 * QLL_GPM_M3S;
    CHECK(remarks(&at, "\"irrigation\" (22 gpm) does not run in the busiest hour"));
    CHECK(remarks(&at, "Take it off upstream of the station"));
    qll_writer left = qll_writer_new(at.read.arena);
    qll_units_write(&left, alone_m3s, QLL_KIND_FLOW, QLL_UNITS_US);
    CHECK(remarks(&at, qll_writer_text(&left).bytes));
    qll_arena_close(at.read.arena);
    snprintf(said, sizeof said, TEST_IRRIGATED, "22 gpm", "00:00-24:00");
    at = ask_of(said);
    CHECK(remarks(&at, "runs in the busiest hour"));
    qll_arena_close(at.read.arena);
    snprintf(said, sizeof said, TEST_IRRIGATED, "0.1 gpm", "04:00-06:30");
    at = ask_of(said);
    CHECK(at.demand.remarks == NULL);
    qll_arena_close(at.read.arena);
}

/* No flow in a school's day whose wash runs until @p end. */
static double idle_until(const char *end)
{
    char said[1024];
    (void)snprintf(said, sizeof said,
                   "{\"use\":\"school\",\"people\":300,\"fixtures\":[{\"fixture\":\"lavatory\","
                   "\"count\":9}],\"breaks\":{\"share\":0.6,\"length\":\"15 min\"},\"variation\":0,"
                   "\"variation_hour\":0,\"continuous\":[{\"name\":\"wash\",\"flow\":\"15.5 "
                   "gpm\",\"hours\":\"01:00-%s\"}]}",
                   end);
    asked at = ask_of(said);
    const double idle = at.demand.no_flow_share;
    qll_arena_close(at.read.arena);
    return idle;
}

/* 0.6 of an hour's uses in its first 15 min: 0.4 + 0.6 x 4 = 2.8 times the rate inside, 0.4 times outside. Nobody draws
 * for e to the less the rate of the time (Poisson), so the logarithms are as 7 to 1, which shows only where a flow that
 * stops with the break is told apart from one that stops with the hour. */
TEST(breaks_are_told_apart_from_a_flow_that_stops_within_an_hour)
{
    const double hour_begins = idle_until("10:00");
    const double break_ends = idle_until("10:15");
    const double hour_ends = idle_until("11:00");
    const double in_break = (hour_begins - break_ends) * 96.0;
    const double outside = (break_ends - hour_ends) * 32.0;
    CHECK(in_break > 0.0 && outside < 0.999);
    CHECK_NEAR(log(in_break), 7.0 * log(outside), 1e-6);
}

/* Offices with 10 h of 4 gpm: it flows in 10/24 of what was idle, with no fixture open; of 14
 * flats in the US one in ten leaks, so that none does 0.9^14 of the time. */
TEST(no_flow_no_fixture_open_and_leak_only_are_three_things)
{
    asked at = ask_of("{\"use\":\"office\",\"people\":60,\"fixtures\":[{\"fixture\":\"lavatory\","
                      "\"count\":8}],\"continuous\":[{\"name\":\"cooling tower\",\"flow\":\"4 "
                      "gpm\",\"hours\":\"08:00-18:00\"}]}");
    double free_share = 0.0; /* of the hours without the tower */
    for (size_t h = 0; h < 24; h++) {
        free_share += h < 8 || h >= 18 ? at.demand.day.hours[h].none_share / 24.0 : 0.0;
    }
    CHECK_NEAR(at.demand.no_flow_share, free_share, 1e-9);
    CHECK(at.demand.no_fixture_open_share > at.demand.no_flow_share + 0.2);
    CHECK(at.demand.no_fixture_open_share == at.demand.day.none_share);
    CHECK(at.demand.leak_only_share == 0.0);
    qll_arena_close(at.read.arena);
    at = ask_of("{\"use\":\"apartment\",\"homes\":14,\"people\":32,\"fixtures\":[{\"fixture\":"
                "\"bathroom group\",\"count\":14}]}");
    const double none_leaks = pow(0.9, 14.0);
    CHECK_NEAR(at.demand.leak_only_share, (1.0 - none_leaks) * at.demand.no_fixture_open_share,
               1e-9);
    CHECK_NEAR(at.demand.no_flow_share, none_leaks * at.demand.no_fixture_open_share, 1e-3);
    CHECK(at.demand.leak_only_share > 0.4);
    qll_arena_close(at.read.arena);
}

TEST(figures_out_of_proportion_are_remarked)
{
    static const struct {
        const char *scenario, *says; /* NULL = nothing to say */
    } cases[] = {
        {"{\"use\":\"apartment\",\"people\":19000,\"homes\":9,\"fixtures\":[{\"fixture\":\"lav\","
         "\"count\":5000}]}",
         "19000 people in 9 homes: more than 12"},
        {"{\"use\":\"school\",\"people\":6000,\"fixtures\":[{\"fixture\":\"lav\",\"count\":2}]}",
         "6000 students and 2 fixtures: more than 100"},
        {"{\"use\":\"office\",\"people\":2,\"fixtures\":[{\"fixture\":\"lav\",\"count\":2000}]}",
         "2000 fixtures and 2 occupants: more than 40"},
        {"{\"use\":\"apartment\",\"people\":3,\"homes\":48,\"fixtures\":[{\"fixture\":\"lav\",\"count\":"
         "48}]}",
         "48 homes and 3 people: more than 4"},
        {"{\"use\":\"apartment\",\"people\":110,\"homes\":48,\"fixtures\":[{\"fixture\":\"bathroom\","
         "\"count\":48}]}",
         NULL},
        {"{\"use\":\"house\",\"people\":1,\"homes\":1,\"fixtures\":[{\"fixture\":\"bathroom\",\"count\":"
         "4}]}",
         NULL},
    };

    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        asked at = ask_of(cases[i].scenario);
        CHECK(cases[i].says == NULL ? at.demand.warnings == NULL : warns(&at, cases[i].says));
        qll_arena_close(at.read.arena);
    }
}

/* States under the UPC, and the taps of BS 6700: said where the figure is. */
TEST(what_the_tables_leave_open_is_said_with_the_figure)
{
    asked at = ask_of("{\"use\":\"house\",\"baths\":2,\"loading_units\":{\"bs_6700\":[{\"units\":0,"
                      "\"flow\":\"0 gpm\"},{\"units\":100,\"flow\":\"20 gpm\"}]},\"fixtures\":[{"
                      "\"fixture\":\"bathtub\",\"count\":1}]}");
    CHECK(notes(&at, QLL_PEAK_FIXTURE_UNITS_IPC, "Where the plumbing code is the UPC"));
    CHECK(notes(&at, QLL_PEAK_LOADING_UNITS_BS, "each of its two faucets"));
    qll_arena_close(at.read.arena);
}

int main(void)
{
    TEST_RUN(one_fixture_beyond_the_table_keeps_its_last_value);
    TEST_RUN(guest_rooms_are_private_unless_said_otherwise);
    TEST_RUN(patient_rooms_and_shared_laundries);
    TEST_RUN(one_flushometer_turns_the_column_and_says_so);
    TEST_RUN(one_flushometer_is_the_least);
    TEST_RUN(groups_are_taken_apart_for_methods_that_count_fixtures);
    TEST_RUN(a_group_of_the_surveys_own_stays_whole);
    TEST_RUN(flows_by_the_clock_and_the_busiest_hour);
    TEST_RUN(breaks_are_told_apart_from_a_flow_that_stops_within_an_hour);
    TEST_RUN(no_flow_no_fixture_open_and_leak_only_are_three_things);
    TEST_RUN(figures_out_of_proportion_are_remarked);
    TEST_RUN(what_the_tables_leave_open_is_said_with_the_figure);
    return TEST_END();
}
