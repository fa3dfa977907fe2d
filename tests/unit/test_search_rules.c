/* For each hard rule a scene in which it alone decides what is found: a little looser, and the cheap station would be
 * the answer. docs/theory/recommendation.md, 1. */
#include "few_valves.h"

/** A scene of one rule. */
typedef struct rule_scene {
    qll_practice rule;
    /* Adds the valves and changes the site; the duty is made again afterwards. */
    void (*fill)(few_case *at, bool is_loose);
    double static_psi, set_psi, peak_gpm, loose_peak_gpm;
    size_t pipe;
} rule_scene;

static void open_scene(const rule_scene *of, bool is_loose, few_case *at)
{
    scene given = few_house();
    given.static_high_psi = of->static_psi;
    given.static_low_psi = of->static_psi - 5.0;
    given.set_psi = of->set_psi;
    given.peak_gpm = is_loose ? of->loose_peak_gpm : of->peak_gpm;
    given.pipe = of->pipe;
    few_open(at, &given);
    of->fill(at, is_loose);
    few_remake(at);
    (void)few_search(at);
}

/* The station found in one scene, as it would stand in another of the same valves. */
static void move_found(const few_case *from, few_case *to, qll_branch branches[3][3],
                       qll_stage stages[3], qll_station *made)
{
    const qll_station *station = &from->found.kinds[0].station;
    for (size_t k = 0; k < station->stage_count; k++) {
        const qll_stage *stage = &station->stages[k];
        for (size_t j = 0; j < stage->branch_count; j++) {
            size_t index = (size_t)(stage->branches[j].valve - from->valves);
            branches[k][j] = few_branch(to, index, stage->branches[j].set_pa_gauge);
        }
        stages[k] = (qll_stage){branches[k], stage->branch_count, stage->set_inlet_pa_gauge};
    }
    stages[0].set_inlet_pa_gauge = few_set_inlet_pa_gauge(to);
    *made = (qll_station){stages, station->stage_count};
}

/* What is found loose breaks this rule, and no other, where it is not loose; there something dearer is found. */
static void check_decides(const rule_scene *of)
{
    few_case loose, tight;
    open_scene(of, true, &loose);
    open_scene(of, false, &tight);
    bool holds = CHECK(loose.found.is_fit && tight.found.is_fit);
    qll_branch branches[3][3];
    qll_stage stages[3];
    qll_station moved;
    qll_fitness fitness;
    move_found(&loose, &tight, branches, stages, &moved);
    holds =
        CHECK(qll_station_fitness(&moved, &tight.made.yardstick, tight.arena, &fitness) == QLL_OK)
        && holds;
    for (size_t r = 0; r < QLL_PRACTICE_COUNT; r++) {
        bool is_broken = fitness.breach[r] > 0.0;
        if (!CHECK(is_broken == (r == (size_t)of->rule))) {
            printf("    %s: %g\n", qll_practice_words[r], fitness.breach[r]);
            holds = false;
        }
    }
    qll_cost there;
    holds = CHECK(qll_station_measure(&moved, &tight.made.yardstick, tight.arena, &there) == QLL_OK)
            && CHECK(there.expected < tight.found.kinds[0].cost.expected - 1.0) && holds;
    if (!holds) {
        printf("    %s, cheap one there %.2f\n", qll_practice_words[of->rule], there.expected);
        few_print(&loose);
        few_print(&tight);
    }
    qll_arena_close(loose.arena);
    qll_arena_close(tight.arena);
}

/* Two valves of 1 in that do the same; one is dear. */
static qll_valve *add_cheap_and_dear(few_case *at)
{
    qll_valve *cheap = few_add(at, "CHEAP", 2, 3.3);
    few_add(at, "DEAR", 2, 3.3)->price = cheap->price + 300.0;
    return cheap;
}

static void fill_rating(few_case *at, bool is_loose)
{
    add_cheap_and_dear(at)->inlet_max_pa_gauge = (is_loose ? 111.0 : 109.0) * TEST_VARIED_PSI;
}

static void fill_size(few_case *at, bool is_loose)
{
    add_cheap_and_dear(at)->nominal_m = 1.25 * TEST_VARIED_INCH;
    at->made.site.pipe_limit_m = (is_loose ? 1.25 : 1.0) * TEST_VARIED_INCH;
}

static void fill_pilot(few_case *at, bool is_loose)
{
    add_cheap_and_dear(at)->acting = QLL_ACTING_PILOT;
    at->made.site.service_m = (is_loose ? 1.5 : 1.25) * TEST_VARIED_INCH;
}

static void fill_ratio(few_case *at, bool is_loose)
{
    (void)few_add(at, "ONLY", 2, 3.3);
    at->made.costs.stage += 2000.0;
    at->made.site.limits.ratio_max = is_loose ? 3.1 : 3.0; /* 184 psi over 60 */
}

/* 100 psi over 60 with at most 1.4 a stage: only 75 and 80 psi between, and 70 psi to keep clear of. */
static void fill_order(few_case *at, bool is_loose)
{
    add_cheap_and_dear(at)->hysteresis_pa = (is_loose ? 1.0 : 6.0) * TEST_VARIED_PSI;
    at->made.site.limits.ratio_max = 1.4;
}

/* One of 1-1/4 in carries no 40 gpm; with one of 3/4 in beside it. */
static void fill_handover(few_case *at, bool is_loose)
{
    qll_valve *small = few_add(at, "SMALL", 1, 2.1);
    qll_valve *large = few_add(at, "LARGE", 3, 5.3);
    qll_valve *dear = few_add(at, "DEAR", 4, 12.0);
    small->hysteresis_pa = (is_loose ? 1.0 : 5.5) * TEST_VARIED_PSI;
    large->hysteresis_pa = small->hysteresis_pa;
    dear->price += 2000.0;
}

/* 15 ft/s in 3/4 in are 20.7 gpm. */
static void fill_speed(few_case *at, bool is_loose)
{
    (void)is_loose;
    qll_valve *cheap = add_cheap_and_dear(at);
    cheap->nominal_m = 0.75 * TEST_VARIED_INCH;
    cheap->kv_m3h = 6.0;
    at->valves[1].kv_m3h = 6.0;
}

static void fill_delivery(few_case *at, bool is_loose)
{
    qll_valve *cheap = few_add(at, "CHEAP", 2, 2.6);
    few_add(at, "DEAR", 2, 5.0)->price = cheap->price + 300.0;
    at->made.site.limits.falloff_share = is_loose ? 0.20 : 0.10;
}

/* 60 psi and 5 of lock-up. */
static void fill_static(few_case *at, bool is_loose)
{
    add_cheap_and_dear(at)->lockup_rise_pa = 5.0 * TEST_VARIED_PSI;
    at->valves[1].lockup_rise_pa = 1.0 * TEST_VARIED_PSI;
    at->valves[1].price += 1500.0; /* dearer than all the callbacks for too much at rest */
    at->made.site.static_max_pa_gauge = (is_loose ? 72.0 : 64.5) * TEST_VARIED_PSI;
}

TEST(each_rule_alone_decides_somewhere)
{
    static const rule_scene scenes[QLL_PRACTICE_COUNT] = {
        {QLL_PRACTICE_RATING, fill_rating, 110.0, 60.0, 14.0, 14.0, 2},
        {QLL_PRACTICE_SIZE, fill_size, 110.0, 60.0, 14.0, 14.0, 2},
        {QLL_PRACTICE_PILOT, fill_pilot, 110.0, 60.0, 14.0, 14.0, 2},
        {QLL_PRACTICE_RATIO, fill_ratio, 184.0, 60.0, 14.0, 14.0, 2},
        {QLL_PRACTICE_ORDER, fill_order, 100.0, 60.0, 9.0, 9.0, 2},
        {QLL_PRACTICE_HANDOVER, fill_handover, 110.0, 60.0, 40.0, 40.0, 4},
        {QLL_PRACTICE_SPEED, fill_speed, 110.0, 60.0, 21.0, 20.5, 2},
        {QLL_PRACTICE_DELIVERY, fill_delivery, 110.0, 60.0, 14.0, 14.0, 2},
        {QLL_PRACTICE_STATIC, fill_static, 110.0, 60.0, 14.0, 14.0, 2},
    };
    for (size_t r = 0; r < QLL_PRACTICE_COUNT; r++) {
        CHECK(scenes[r].rule == (qll_practice)r);
        check_decides(&scenes[r]);
    }
}

int main(void)
{
    TEST_RUN(each_rule_alone_decides_somewhere);
    return TEST_END();
}
