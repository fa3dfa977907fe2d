/* The design peak never falls: for a fixture, a person or a home more, whatever table ends between. */
#include "base/customary.h"
#include "base/random.h"
#include "check.h"
#include "demand/demand.h"
#include "demand/usual.h"

#define TEST_CEILING ((size_t)256 << 20)
#define TEST_LOADS   8

static double between(qll_random *random, double least, double most)
{
    return least + (most - least) * qll_random_unit(random);
}

/* A random building, small ones as often as those beyond the code's table. */
typedef struct scene {
    qll_arena *arena;
    qll_fixture_table kinds;
    qll_fixture_load loads[TEST_LOADS + 1];
    qll_continuous flows[2];
    qll_scenario scenario;
} scene;

static qll_fixture_load draw_load(scene *at, qll_random *random)
{
    const double size = pow(10.0, between(random, 0.0, 3.2));
    return (qll_fixture_load){
        .kind = &at->kinds.kinds[(size_t)between(random, 0.0, (double)at->kinds.count - 1e-9)],
        .count = (size_t)size,
        .occupancy = (qll_occupancy)between(random, 0.0, 2.999),
        .flow_m3s = (double)NAN,
        .use_probability = (double)NAN};
}

static void draw(scene *at, qll_random *random)
{
    for (size_t i = 0; i < TEST_LOADS; i++) {
        at->loads[i] = draw_load(at, random);
    }
    at->flows[0] = (qll_continuous){"tower", between(random, 0.0, 2e-3), 0.0, 0.0};
    at->flows[1] = (qll_continuous){"irrigation", between(random, 0.0, 2e-3), 14400.0, 23400.0};
    const double people = floor(pow(10.0, between(random, 0.0, 3.0)));
    at->scenario = (qll_scenario){.name = "random",
                                  .use = (qll_use)between(random, 0.0, QLL_USE_COUNT - 1e-9),
                                  .people = people,
                                  .homes = floor(1.0 + people / between(random, 1.0, 4.0)),
                                  .loads = at->loads,
                                  .load_count = 1 + (size_t)between(random, 0.0, TEST_LOADS - 0.01),
                                  .continuous = at->flows,
                                  .continuous_count = (size_t)between(random, 0.0, 2.999),
                                  .weight = 1,
                                  .peak_method = QLL_PEAK_METHOD_COUNT,
                                  .peak_given_m3s = (double)NAN,
                                  .quantile = 0.99};
}

/* The design peak; its arena is given back, so that thousands can be asked. */
static double peak_m3s(const scene *at)
{
    const qll_arena_mark mark = qll_arena_now(at->arena);
    qll_demand demand;
    const qll_status status = qll_demand_of(&at->scenario, at->arena, &demand);
    qll_arena_reset(at->arena, mark);
    return CHECK(status == QLL_OK) ? demand.peak_m3s : (double)NAN;
}

static double check_not_lower(const scene *at, double before_m3s, const char *what)
{
    const double after_m3s = peak_m3s(at);
    if (!CHECK(after_m3s >= before_m3s * (1.0 - 1e-12))) {
        printf("    %s in %s: %.6g before, %.6g after, m3/s\n", what,
               qll_use_words[at->scenario.use], before_m3s, after_m3s);
    }
    return after_m3s;
}

static void open_scene(scene *at)
{
    *at = (scene){.arena = qll_arena_open(TEST_CEILING)};
    CHECK(qll_fixture_table_read(at->arena, &at->kinds) == QLL_OK);
}

TEST(one_more_never_lowers_the_design_peak)
{
    scene at;
    open_scene(&at);
    qll_random random = qll_random_seeded(7);
    for (size_t i = 0; i < 40; i++) {
        draw(&at, &random);
        const double before_m3s = peak_m3s(&at);
        const qll_scenario first = at.scenario;
        at.loads[first.load_count] = draw_load(&at, &random);
        at.loads[first.load_count].count = 1;
        at.scenario.load_count += 1;
        (void)check_not_lower(&at, before_m3s, at.loads[first.load_count].kind->word);
        at.scenario = first;
        at.scenario.people += 1;
        (void)check_not_lower(&at, before_m3s, "a person more");
        at.scenario.homes += 1;
        at.scenario.people += 2;
        for (size_t k = 0; k < first.load_count; k++) {
            at.loads[k].count += 1;
        }
        (void)check_not_lower(&at, before_m3s, "a home more");
    }
    qll_arena_close(at.arena);
}

/* Every kind, where each rule of private and public holds: its first one, and one more where the table of
 * units ends. Without people, on whom no code's figure depends, the day costs no time. */
TEST(every_kind_may_be_the_one_more)
{
    static const qll_use uses[] = {QLL_USE_HOUSE, QLL_USE_HOTEL, QLL_USE_HOSPITAL, QLL_USE_SCHOOL};
    scene at;
    open_scene(&at);
    for (size_t k = 0; k < at.kinds.count; k++) {
        for (size_t u = 0; u < sizeof uses / sizeof uses[0]; u++) {
            at.loads[0] =
                (qll_fixture_load){.kind = qll_fixture_find(&at.kinds, qll_text_of("lav")),
                                   .flow_m3s = (double)NAN,
                                   .use_probability = (double)NAN};
            at.loads[1] = at.loads[0];
            at.loads[1].kind = &at.kinds.kinds[k];
            at.scenario = (qll_scenario){.use = uses[u],
                                         .homes = 4,
                                         .loads = at.loads,
                                         .load_count = 2,
                                         .peak_method = QLL_PEAK_METHOD_COUNT,
                                         .peak_given_m3s = (double)NAN,
                                         .quantile = 0.99};
            static const size_t counts[] = {1, 20, 2500, 2501, 7143};
            double before_m3s = 0.0;
            for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++) {
                at.loads[0].count = counts[i];
                at.loads[1].count = 0;
                before_m3s = check_not_lower(&at, before_m3s, "a lavatory");
                at.loads[1].count = 1;
                (void)check_not_lower(&at, before_m3s, at.kinds.kinds[k].word);
            }
        }
    }
    qll_arena_close(at.arena);
}

/* A survey of three lines: one bath, room, bed, pupil, seat or employee more. */
TEST(one_more_to_count_never_lowers_the_design_peak)
{
    static const struct {
        qll_use use;
        qll_usual_count counts;
        int least, most;
    } cases[] = {
        {QLL_USE_HOUSE, QLL_USUAL_BATHS, 1, 8},
        {QLL_USE_APARTMENT, QLL_USUAL_HOMES, 1, 45},
        {QLL_USE_HOTEL, QLL_USUAL_ROOMS, 1, 45},
        {QLL_USE_HOSPITAL, QLL_USUAL_BEDS, 1, 35},
        {QLL_USE_SCHOOL, QLL_USUAL_PUPILS, 180, 225}, /* flushometers from 201 on */
        {QLL_USE_RESTAURANT, QLL_USUAL_SEATS, 1, 35},
        {QLL_USE_OFFICE, QLL_USUAL_EMPLOYEES, 30, 70}, /* from 51 on */
    };

    scene at;
    open_scene(&at);
    qll_usual_table usual;
    CHECK(qll_usual_table_read(at.arena, &at.kinds, &usual) == QLL_OK);
    qll_fixture_load *loads = qll_arena_take(at.arena, usual.count, sizeof *loads);
    for (size_t c = 0; loads != NULL && c < sizeof cases / sizeof cases[0]; c++) {
        double before_m3s = 0.0;
        for (int count = cases[c].least; count <= cases[c].most; count++) {
            qll_usual_counted counted = {{0.0}};
            counted.of[cases[c].counts] = (double)count;
            const double people = qll_usual_people(&usual, cases[c].use, &counted);
            at.scenario =
                (qll_scenario){.use = cases[c].use,
                               .people = people,
                               .homes = cases[c].use == QLL_USE_APARTMENT ? (double)count : 1.0,
                               .loads = loads,
                               .load_count = qll_usual_loads(&usual, cases[c].use, &counted, loads),
                               .peak_method = QLL_PEAK_METHOD_COUNT,
                               .peak_given_m3s = (double)NAN,
                               .quantile = 0.99};
            CHECK(people > 0.0 && at.scenario.load_count > 0);
            before_m3s = check_not_lower(&at, before_m3s, "one more to count");
        }
        CHECK(before_m3s > 0.0);
    }
    qll_arena_close(at.arena);
}

int main(void)
{
    TEST_RUN(one_more_never_lowers_the_design_peak);
    TEST_RUN(every_kind_may_be_the_one_more);
    TEST_RUN(one_more_to_count_never_lowers_the_design_peak);
    return TEST_END();
}
