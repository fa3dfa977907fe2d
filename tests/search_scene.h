/* Made-up buildings for the laws of the search, from houses to hotels, and what they are measured by. */
#ifndef QUELL_TESTS_SEARCH_SCENE_H
#define QUELL_TESTS_SEARCH_SCENE_H

#include "limits_scene.h"
#include "varied_valves.h"
#include "yardstick_scene.h"

/* Bores and walls of ASTM B88 type L, inches; in the order of varied_sizes. */
static inline const qll_pipe_size *const *scene_pipes(void)
{
#define TEST_SCENE_PIPE(inches, bore, wall)                                                     \
    {                                                                                           \
        .material = "copper", .nominal = #inches " in", .nominal_m = (inches)*TEST_VARIED_INCH, \
        .outside_m = ((inches) + 0.125) * TEST_VARIED_INCH, .bore_m = (bore)*TEST_VARIED_INCH,  \
        .wall_m = (wall)*TEST_VARIED_INCH, .velocity_max_m_s = 8.0 * 0.3048                     \
    }
    static const qll_pipe_size sizes[TEST_VARIED_SIZES] = {
        TEST_SCENE_PIPE(0.50, 0.545, 0.040), TEST_SCENE_PIPE(0.75, 0.785, 0.045),
        TEST_SCENE_PIPE(1.00, 1.025, 0.050), TEST_SCENE_PIPE(1.25, 1.265, 0.055),
        TEST_SCENE_PIPE(1.50, 1.505, 0.060), TEST_SCENE_PIPE(2.00, 1.985, 0.070),
        TEST_SCENE_PIPE(2.50, 2.465, 0.080), TEST_SCENE_PIPE(3.00, 2.945, 0.090),
        TEST_SCENE_PIPE(4.00, 3.905, 0.110), TEST_SCENE_PIPE(6.00, 5.845, 0.140)};
#undef TEST_SCENE_PIPE
    static const qll_pipe_size *const pointers[TEST_VARIED_SIZES] = {
        &sizes[0], &sizes[1], &sizes[2], &sizes[3], &sizes[4],
        &sizes[5], &sizes[6], &sizes[7], &sizes[8], &sizes[9]};
    return pointers;
}

/* Round figures of the order of data/installed_costs.csv. */
static inline qll_costs scene_costs(void)
{
    static const double branch[] = {150, 170, 200, 250, 300, 380, 700, 850, 1200, 2000};
    static const double beside[] = {100, 120, 140, 180, 220, 300, 500, 600, 800, 1200};
    static qll_size_cost sizes[TEST_VARIED_SIZES];
    for (size_t i = 0; i < TEST_VARIED_SIZES; i++) {
        const varied_size *of = &varied_sizes[i];
        sizes[i] = (qll_size_cost){of->inches * TEST_VARIED_INCH, branch[i], beside[i],
                                   of->direct_price, 2000.0 + 800.0 * of->inches};
    }
    return (qll_costs){
        .visit = 400.0, .stage = 120.0, .sizes = sizes, .size_count = TEST_VARIED_SIZES};
}

/** A building: what comes in, what is wanted, and how much water, when. */
typedef struct scene {
    double static_low_psi, static_high_psi, set_psi;
    double peak_gpm;
    double typical_share; /* of the peak: the middle of the flows it sees */
    double spread;        /* of their logarithm */
    double idle_share;
    double drop_psi; /* of the flow test at the peak */
    size_t pipe;     /* of scene_pipes() */
    size_t class_count;
    qll_people people;
    double needs_psi; /* of an outlet 6 m up; NaN: none is named */
    double falloff_share;
} scene;

#define TEST_SCENE_STEPS 60

/** Everything a search needs; it points into itself, so it stays where it is. */
typedef struct scene_case {
    qll_site site;
    qll_costs costs;
    qll_duty duty;
    qll_yardstick yardstick;
    qll_point test[2];
    qll_outlet outlet;
    qll_point time[TEST_SCENE_STEPS], volume[TEST_SCENE_STEPS];
    qll_duty_scenario scenario;
} scene_case;

/* Flows spread about the typical one like a bell on a logarithmic scale, up to the peak. */
static inline void scene_flows(const scene *given, scene_case *made)
{
    double time = 0.0;
    double volume = 0.0;
    const double least = given->peak_gpm * 1e-3;
    const double step = pow(given->peak_gpm / least, 1.0 / (TEST_SCENE_STEPS - 1));
    for (size_t i = 0; i < TEST_SCENE_STEPS; i++) {
        double flow = i + 1 == TEST_SCENE_STEPS ? given->peak_gpm : least * pow(step, (double)i);
        double off = log(flow / (given->peak_gpm * given->typical_share)) / given->spread;
        double share = exp(-0.5 * off * off) + 1e-9;
        time += share;
        volume += share * flow;
        made->time[i] = (qll_point){flow * TEST_VARIED_GPM, time};
        made->volume[i] = (qll_point){flow * TEST_VARIED_GPM, volume};
    }
    for (size_t i = 0; i < TEST_SCENE_STEPS; i++) {
        made->time[i].y = given->idle_share + (1.0 - given->idle_share) * made->time[i].y / time;
        made->volume[i].y /= volume;
    }
    made->scenario = (qll_duty_scenario){.name = "scene",
                                         .peak_m3s = given->peak_gpm * TEST_VARIED_GPM,
                                         .code_peak_m3s = given->peak_gpm * TEST_VARIED_GPM,
                                         .idle_share = given->idle_share,
                                         .weight = 1.0,
                                         .time_at_or_below = made->time,
                                         .volume_at_or_below = made->volume,
                                         .count = TEST_SCENE_STEPS};
}

static inline bool scene_make(const scene *given, qll_arena *arena, scene_case *made)
{
    const double middle_psi = 0.5 * (given->static_low_psi + given->static_high_psi);
    const qll_pipe_size *pipe = scene_pipes()[given->pipe];
    made->test[0] = (qll_point){0.0, middle_psi * TEST_VARIED_PSI};
    made->test[1] = (qll_point){given->peak_gpm * TEST_VARIED_GPM,
                                (middle_psi - given->drop_psi) * TEST_VARIED_PSI};
    made->outlet = (qll_outlet){
        .name = "top", .elevation_m = 6.0, .needs_pa_gauge = given->needs_psi * TEST_VARIED_PSI};
    made->costs = scene_costs();
    made->site = (qll_site){
        .name = "scene",
        .water = qll_water_at(12.0, 5e5),
        .barometric_pa = 101325.0,
        .supply = {.test = made->test,
                   .count = 2,
                   .static_high_pa_gauge = given->static_high_psi * TEST_VARIED_PSI,
                   .static_low_pa_gauge = given->static_low_psi * TEST_VARIED_PSI},
        .station_sizes = scene_pipes(),
        .station_size_count = TEST_VARIED_SIZES,
        .header = pipe,
        .service_m = pipe->nominal_m,
        .pipe_limit_m = pipe->nominal_m,
        .people = given->people,
        .costs = &made->costs,
        .set_pa_gauge = given->set_psi * TEST_VARIED_PSI,
        .static_max_pa_gauge = 80.0 * TEST_VARIED_PSI,
        .outlets = &made->outlet,
        .outlet_count = isnan(given->needs_psi) ? 0u : 1u,
        .limits = scene_limits(),
    };
    made->site.limits.falloff_share = given->falloff_share;
    scene_flows(given, made);
    return qll_duty_make(&made->site, &made->scenario, 1, given->class_count, arena, &made->duty)
               == QLL_OK
           && scene_yardstick(&made->site, &made->duty, arena, &made->yardstick);
}

/** Some building between a house and a hotel, with a static supply of 1.3 to @p ratio_most times the wanted
 * pressure. */
static inline scene scene_draw(qll_random *random, double ratio_most)
{
    scene drawn = {.set_psi = floor(varied_between(random, 45.0, 65.0)),
                   .peak_gpm = exp(varied_between(random, log(8.0), log(260.0))),
                   .typical_share = exp(varied_between(random, log(0.01), log(0.15))),
                   .spread = varied_between(random, 0.6, 1.1),
                   .idle_share = varied_between(random, 0.0, 0.9),
                   .drop_psi = varied_between(random, 1.0, 12.0),
                   .class_count = 16,
                   .people = (qll_people)(3.0 * qll_random_unit(random)),
                   .needs_psi = NAN,
                   .falloff_share = NAN};
    if (drawn.peak_gpm > 60.0 && drawn.people == QLL_PEOPLE_SAME_ROOM) {
        drawn.people = QLL_PEOPLE_PLANT_ROOM; /* nobody sleeps beside a hotel's station */
    }
    drawn.static_high_psi = drawn.set_psi * exp(varied_between(random, log(1.3), log(ratio_most)));
    drawn.static_low_psi = drawn.static_high_psi * varied_between(random, 0.75, 0.98);
    if (qll_random_unit(random) < 0.5) {
        drawn.needs_psi = floor(varied_between(random, 10.0, 30.0));
    } else if (qll_random_unit(random) < 0.5) {
        drawn.falloff_share = varied_between(random, 0.1, 0.4);
    }
    const double least_m2 = drawn.peak_gpm * TEST_VARIED_GPM / (8.0 * 0.3048);
    while (drawn.pipe + 1 < TEST_VARIED_SIZES
           && 0.25 * 3.141592653589793 * scene_pipes()[drawn.pipe]->bore_m
                      * scene_pipes()[drawn.pipe]->bore_m
                  < least_m2) {
        drawn.pipe += 1;
    }
    if (drawn.pipe + 1 < TEST_VARIED_SIZES && qll_random_unit(random) < 0.3) {
        drawn.pipe += 1;
    }
    return drawn;
}

/** Valves of the sizes that a pipe may ask for, and the next larger one, which must not be used. */
static inline bool scene_catalogue(uint64_t seed, size_t count, const scene *given,
                                   qll_arena *arena, qll_catalogue *made)
{
    const size_t least = given->pipe < 3 ? 0 : given->pipe - 3;
    const size_t most =
        given->pipe + 1 < TEST_VARIED_SIZES ? given->pipe + 1 : TEST_VARIED_SIZES - 1;
    return varied_catalogue(seed, count, least, most, arena, made);
}

#endif
