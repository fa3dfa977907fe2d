/* What is said of a design: chances, money, what stands in the way, close calls, what it hangs on. */
#include "base/customary.h"
#include "check.h"
#include "wording/wording.h"

#include <stdint.h>

static const qll_valve small = {.id = "S-20", .nominal_m = 0.01905, .acting = QLL_ACTING_DIRECT};
static const qll_valve large = {.id = "L-50", .nominal_m = 0.0508, .acting = QLL_ACTING_PILOT};
static const qll_branch pair[2] = {{.valve = &small, .set_pa_gauge = 65 * QLL_PSI_PA},
                                   {.valve = &large, .set_pa_gauge = 60 * QLL_PSI_PA}};
static const qll_stage one_stage[1] = {{&pair[0], 1, 9e5}};
static const qll_stage pair_stage[1] = {{pair, 2, 9e5}};
static const qll_stage two_stages[2] = {{&pair[1], 1, 9e5}, {&pair[0], 1, 6e5}};
static const double static_pa[3] = {8e5, 9e5, 101325.0 + 180 * QLL_PSI_PA};
static const qll_duty duty = {.inlet_static_pa = static_pa, .supply_count = 3};
static const qll_site site = {.barometric_pa = 101325.0,
                              .set_pa_gauge = 50 * QLL_PSI_PA,
                              .water = {.temperature_degc = 15.0},
                              .limits = {.ratio_max = 3.0}};
static const qll_wording english = {.units = QLL_UNITS_US, .site = &site, .duty = &duty};

static const char *closed(qll_writer *writer)
{
    CHECK(qll_arena_refused(writer->arena) == 0);
    return qll_writer_text(writer).bytes;
}

/* A sentence or a part of one: all its tokens are filled in. */
static bool is_whole(const char *says)
{
    return says[0] != '\0' && strpbrk(says, "{}[]") == NULL && strstr(says, "(unknown)") == NULL
           && strstr(says, "(desconocido)") == NULL;
}

static const char *chance(qll_arena *arena, qll_language language, double share,
                          qll_chance_form form)
{
    qll_writer writer = qll_writer_new(arena);
    qll_wording_chance(&writer, language, share, form);
    return closed(&writer);
}

TEST(chances_are_said_in_words)
{
    static const struct {
        double share;
        const char *bare, *about, *times;
    } facts[] = {
        {0.0, "hardly ever", "hardly ever", "hardly ever"},
        {0.0199, "hardly ever", "hardly ever", "hardly ever"},
        {0.02, "1 in 50", "about 1 in 50", "about 1 in 50"},
        {0.125, "1 in 8", "about 1 in 8", "about 1 in 8"},
        {0.33, "1 in 3", "about 1 in 3", "about 1 in 3"},
        {0.57, "1 in 2", "about 1 in 2", "about 1 in 2"},
        {0.66, "2 in 3", "about 2 in 3", "about 2 in 3"},
        {0.75, "3 in 4", "about 3 in 4", "about 3 in 4"},
        {0.95, "nearly always", "nearly always", "nearly always"},
    };

    qll_arena *arena = qll_arena_open(1 << 20);
    for (size_t i = 0; i < sizeof facts / sizeof facts[0]; i++) {
        double share = facts[i].share;
        CHECK_TEXT(chance(arena, QLL_LANGUAGE_EN, share, QLL_CHANCE_BARE), facts[i].bare);
        CHECK_TEXT(chance(arena, QLL_LANGUAGE_EN, share, QLL_CHANCE_ABOUT), facts[i].about);
        CHECK_TEXT(chance(arena, QLL_LANGUAGE_EN, share, QLL_CHANCE_TIMES), facts[i].times);
    }
    CHECK_TEXT(chance(arena, QLL_LANGUAGE_ES, 0.125, QLL_CHANCE_TIMES),
               "alrededor de 1 de cada 8 veces");
    qll_arena_close(arena);
}

TEST(money_has_its_currency_where_it_is_known)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_wording wording = english;
    qll_writer own = qll_writer_new(arena);
    qll_wording_amount(&own, &wording, 1240.4);
    CHECK_TEXT(closed(&own), "1240");
    wording.currency = "USD";
    qll_writer in = qll_writer_new(arena);
    qll_wording_amount(&in, &wording, 1240.4);
    CHECK_TEXT(closed(&in), "USD 1240");
    qll_arena_close(arena);
}

TEST(stations_are_named_as_they_are_bought)
{
    static const struct {
        qll_station station;
        const char *bought, *kind;
    } facts[] = {
        {{one_stage, 1}, "one 3/4 in valve, S-20", "one valve, 3/4 in direct"},
        {{pair_stage, 1},
         "parallel valves 3/4 in S-20 + 2 in L-50",
         "parallel valves 3/4 in direct + 2 in pilot"},
        {{two_stages, 2},
         "2 stages in series: 2 in L-50, then 3/4 in S-20",
         "2 stages in series: 2 in pilot, then 3/4 in direct"},
    };

    qll_arena *arena = qll_arena_open(1 << 20);
    for (size_t i = 0; i < sizeof facts / sizeof facts[0]; i++) {
        qll_writer bought = qll_writer_new(arena);
        qll_writer kind = qll_writer_new(arena);
        qll_wording_purchase(&bought, &english, &facts[i].station);
        qll_wording_kind(&kind, &english, &facts[i].station);
        CHECK_TEXT(closed(&bought), facts[i].bought);
        CHECK_TEXT(closed(&kind), facts[i].kind);
    }
    qll_arena_close(arena);
}

/* A pair that beat one valve alone, which is cheaper and chatters one time in three. */
static void make_pair(qll_shown shown[2], qll_design *design)
{
    shown[0] = (qll_shown){.station = {pair_stage, 1},
                           .cost = {.installed = 900, .callback_share = 0.05, .expected = 960},
                           .fitness = {.is_fit = true}};
    shown[1] = (qll_shown){
        .station = {one_stage, 1},
        .cost = {.installed = 600, .callback_share = 0.33, .expected = 990},
        .fitness = {.is_fit = true},
    };
    shown[1].cost.mechanism_share[QLL_MECHANISM_CHATTER] = 0.3;
    shown[1].cost.mechanism_share[QLL_MECHANISM_NOISE] = 0.1;
    *design = (qll_design){.need = {.is_needed = true},
                           .shown = shown,
                           .count = 2,
                           .is_fit = true,
                           .reason = QLL_REASON_PAIR_PAYS,
                           .simpler = 1};
}

static const char *reason(qll_arena *arena, const qll_design *design)
{
    qll_writer writer = qll_writer_new(arena);
    qll_wording_reason(&writer, &english, design);
    return closed(&writer);
}

TEST(the_reason_names_what_was_beaten)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_shown shown[2];
    qll_design design;
    make_pair(shown, &design);
    CHECK_TEXT(
        reason(arena, &design),
        "One direct-acting 3/4 in valve alone would cost 300 less to install, with callbacks about 1 in 3, "
        "mostly because it chatters at low flow.");
    shown[1].cost.installed = 1500;
    shown[1].cost.callback_share = 0.01;
    CHECK_TEXT(
        reason(arena, &design),
        "One direct-acting 3/4 in valve alone would cost 600 more to install, with callbacks "
        "hardly ever.");
    /* Where all work the same way, there is nothing to tell. */
    shown[0].station = (qll_station){one_stage, 1};
    CHECK_TEXT(reason(arena, &design),
               "One 3/4 in valve alone would cost 600 more to install, with callbacks hardly "
               "ever.");
    shown[0].station = (qll_station){pair_stage, 1};
    design.reason = QLL_REASON_STAGES_BY_RATIO;
    design.one_stage_ratio = 3.6;
    design.simpler = SIZE_MAX;
    CHECK_TEXT(
        reason(arena, &design),
        "One stage would have to cut pressure 3.6 to 1; 3.0 to 1 is the limit, so two share the "
        "drop.");
    for (int why = 0; why < QLL_REASON_COUNT; why++) {
        design.reason = (qll_reason)why;
        CHECK(is_whole(reason(arena, &design)));
    }
    design.reason = QLL_REASON_ONE_VALVE;
    CHECK_TEXT(reason(arena, &design), "One valve is enough: a second would not pay for itself.");
    const qll_shown pair_of = shown[0];
    shown[0] = shown[1];
    shown[1] = pair_of;
    shown[0].cost.installed = 600;
    CHECK_TEXT(
        reason(arena, &design),
        "One valve is enough: parallel valves 3/4 in + 2 in would cost 300 more to install, with "
        "callbacks about 1 in 20.");
    design.count = 0;
    CHECK_TEXT(reason(arena, &design), "");
    qll_arena_close(arena);
}

static const char *why_not(qll_arena *arena, const qll_design *design, size_t index)
{
    qll_writer writer = qll_writer_new(arena);
    qll_wording_why_not(&writer, &english, design, index);
    return closed(&writer);
}

TEST(others_say_why_they_are_not_the_one)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_shown shown[2];
    qll_design design;
    make_pair(shown, &design);
    CHECK_TEXT(why_not(arena, &design, 0), "");
    CHECK_TEXT(why_not(arena, &design, 1), "it chatters at low flow");
    shown[1].cost.callback_share = 0.04;
    CHECK_TEXT(why_not(arena, &design, 1), "nearly the same");
    shown[1].cost.installed = 1000;
    CHECK_TEXT(why_not(arena, &design, 1), "100 more to install");
    shown[1].fitness = (qll_fitness){.is_fit = false};
    shown[1].fitness.breach[QLL_PRACTICE_SPEED] = 0.2;
    shown[1].fitness.value[QLL_PRACTICE_SPEED] = 18 * 0.3048;
    shown[1].fitness.limit[QLL_PRACTICE_SPEED] = 15 * 0.3048;
    CHECK_TEXT(why_not(arena, &design, 1),
               "not fit. At the design peak water runs 18.0 ft/s through a valve; 15.0 ft/s is the "
               "limit.");
    qll_arena_close(arena);
}

typedef struct broken_rule {
    qll_practice rule;
    double value, limit;
    const char *has[2]; /* in English */
} broken_rule;

static void check_breach(const broken_rule *fact, qll_language language, qll_arena *arena)
{
    qll_shown shown = {.station = {pair_stage, 1}};
    shown.fitness.value[fact->rule] = fact->value;
    shown.fitness.limit[fact->rule] = fact->limit;
    qll_wording wording = english;
    wording.language = language;
    qll_writer writer = qll_writer_new(arena);
    qll_wording_breach(&writer, &wording, &shown.station, &shown.fitness, fact->rule);
    const char *says = closed(&writer);
    CHECK(is_whole(says));
    for (size_t k = 0; language == QLL_LANGUAGE_EN && k < 2; k++) {
        if (!CHECK(strstr(says, fact->has[k]) != NULL)) {
            printf("    %s\n", says);
        }
    }
}

TEST(every_broken_rule_is_said_with_its_figures)
{
    static const broken_rule facts[] = {
        {QLL_PRACTICE_RATING, 420 * QLL_PSI_PA, 400 * QLL_PSI_PA, {"420 psi at its inlet", "400"}},
        {QLL_PRACTICE_RATING, 65 * QLL_PSI_PA, 55 * QLL_PSI_PA, {"set to 65 psi", "55 psi"}},
        {QLL_PRACTICE_RATING, 15.0, 10.0, {"59", "50"}},
        {QLL_PRACTICE_SIZE, 0.0508, 0.0254, {"A 2 in valve", "1 in pipe"}},
        {QLL_PRACTICE_PILOT, 0.0254, 0.0381, {"1 in service", "1-1/2 in is the smallest"}},
        {QLL_PRACTICE_RATIO, 3.6, 3.0, {"3.6", "3.0"}},
        {QLL_PRACTICE_ORDER, 61 * QLL_PSI_PA, 70 * QLL_PSI_PA, {"61 psi", "70 psi"}},
        {QLL_PRACTICE_HANDOVER, NAN, NAN, {"set-points", "parallel"}},
        {QLL_PRACTICE_DELIVERY, 30 * QLL_PSI_PA, 45 * QLL_PSI_PA, {"30 psi", "45 psi is needed"}},
        {QLL_PRACTICE_STATIC, 90 * QLL_PSI_PA, 80 * QLL_PSI_PA, {"90 psi", "80 psi"}},
    };

    qll_arena *arena = qll_arena_open(1 << 20);
    for (size_t i = 0; i < sizeof facts / sizeof facts[0]; i++) {
        for (int language = 0; language < QLL_LANGUAGE_COUNT; language++) {
            check_breach(&facts[i], (qll_language)language, arena);
        }
    }
    qll_arena_close(arena);
}

TEST(close_calls_say_what_would_win)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_shown shown[2];
    qll_design design;
    make_pair(shown, &design);
    for (int why = 0; why < QLL_CLOSE_COUNT; why++) {
        design.close = (qll_close_call){(qll_close)why, 1, 0.023};
        qll_writer writer = qll_writer_new(arena);
        bool is_close = qll_wording_close(&writer, &english, &design);
        const char *says = closed(&writer);
        CHECK(is_close == (why != QLL_CLOSE_NOT));
        CHECK(!is_close || (is_whole(says) && strstr(says, "one valve, 3/4 in") != NULL));
        CHECK(!is_close || strstr(says, "2 % more") != NULL);
    }
    design.close = (qll_close_call){QLL_CLOSE_WITHIN, SIZE_MAX, 0.02};
    qll_writer none = qll_writer_new(arena);
    CHECK(!qll_wording_close(&none, &english, &design));
    qll_arena_close(arena);
}

static const char *hang(qll_arena *arena, qll_language language, const qll_hang *of)
{
    qll_wording wording = english;
    wording.language = language;
    qll_writer writer = qll_writer_new(arena);
    qll_wording_hang(&writer, &wording, of);
    return closed(&writer);
}

TEST(every_datum_says_from_where_on_it_is_another_kind)
{
    static const struct {
        qll_datum datum;
        double now, at;
        const char *says;
    } facts[] = {
        {QLL_DATUM_STREET, 120 * QLL_PSI_PA, 128 * QLL_PSI_PA,
         "With street pressure 128 psi or more (here 120 psi) "},
        {QLL_DATUM_STREET, 120 * QLL_PSI_PA, 101 * QLL_PSI_PA,
         "With street pressure 101 psi or less (here 120 psi) "},
        {QLL_DATUM_WANTED, 60 * QLL_PSI_PA, 54 * QLL_PSI_PA,
         "With 54 psi or less wanted downstream of the station (here 60 psi) "},
        {QLL_DATUM_DEMAND, 1.0, 1.5, "With 1.5 times this building's everyday water, or more, "},
        {QLL_DATUM_PEAK, 12 * QLL_GPM_M3S, 15 * QLL_GPM_M3S,
         "With a design peak of 15 gpm or more (here 12 gpm) "},
        {QLL_DATUM_PEOPLE, QLL_PEOPLE_NEXT_ROOM, QLL_PEOPLE_SAME_ROOM,
         "With people in the same room (here in the next room) "},
        {QLL_DATUM_VISIT, 400, 650, "With a callback costing 650 or more (here 400) "},
        {QLL_DATUM_LEAST_FLOW, 1.0, 0.4,
         "With 0.4 times the least stable flow assumed here, or less, "},
    };

    qll_arena *arena = qll_arena_open(1 << 20);
    for (size_t i = 0; i < sizeof facts / sizeof facts[0]; i++) {
        const qll_hang of = {.datum = facts[i].datum,
                             .now = facts[i].now,
                             .at = facts[i].at,
                             .is_needed = true,
                             .is_fit = true,
                             .instead = {pair_stage, 1}};
        const char *says = hang(arena, QLL_LANGUAGE_EN, &of);
        if (!CHECK(strncmp(says, facts[i].says, strlen(facts[i].says)) == 0)) {
            printf("    %s\n", says);
        }
        CHECK_TEXT(says + strlen(facts[i].says), "it would be parallel valves 3/4 in + 2 in.");
        CHECK(is_whole(hang(arena, QLL_LANGUAGE_ES, &of)));
    }
    qll_arena_close(arena);
}

TEST(from_there_on_nothing_may_be_needed_or_fit)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_hang of = {.datum = QLL_DATUM_STREET, .now = 90 * QLL_PSI_PA, .at = 79 * QLL_PSI_PA};
    CHECK_TEXT(hang(arena, QLL_LANGUAGE_EN, &of),
               "With street pressure 79 psi or less (here 90 psi) no valve would be needed.");
    of.is_needed = true;
    CHECK_TEXT(hang(arena, QLL_LANGUAGE_EN, &of),
               "With street pressure 79 psi or less (here 90 psi) nothing in the catalog would be "
               "fit to install.");
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(chances_are_said_in_words);
    TEST_RUN(money_has_its_currency_where_it_is_known);
    TEST_RUN(stations_are_named_as_they_are_bought);
    TEST_RUN(the_reason_names_what_was_beaten);
    TEST_RUN(others_say_why_they_are_not_the_one);
    TEST_RUN(every_broken_rule_is_said_with_its_figures);
    TEST_RUN(close_calls_say_what_would_win);
    TEST_RUN(every_datum_says_from_where_on_it_is_another_kind);
    TEST_RUN(from_there_on_nothing_may_be_needed_or_fit);
    return TEST_END();
}
