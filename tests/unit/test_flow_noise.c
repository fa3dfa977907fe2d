#include "check.h"
#include "search_scene.h"
#include "station/connection.h"
#include "station/flow_noise.h"

/* One made-up valve in its copper pipe, and how it sounds. */
typedef struct noise_scene {
    qll_valve valve;
    qll_opening_law law;
    qll_site site;
    qll_branch branch;
    qll_noise_shape shape;
    qll_flow_noise noise;
} noise_scene;

static bool scene_open(uint64_t seed, size_t size, qll_arena *arena, noise_scene *made)
{
    qll_random random = qll_random_seeded(seed);
    made->site = (qll_site){.water = qll_water_at(12.0, 5e5),
                            .barometric_pa = 101325.0,
                            .station_sizes = scene_pipes(),
                            .station_size_count = TEST_VARIED_SIZES};
    if (!CHECK(varied_valve(&random, size, seed, arena, &made->valve, &made->law))) {
        return false;
    }
    made->branch = (qll_branch){.valve = &made->valve, .law = &made->law};
    if (!CHECK(qll_branch_connect(&made->site, arena, &made->branch) == QLL_OK)
        || !CHECK(made->branch.path != NULL && made->branch.path->limit == QLL_NOISE_WITHIN)) {
        return false;
    }
    qll_noise_shape_make(made->branch.path, &made->shape);
    made->noise = qll_flow_noise_of(&made->branch, &made->site.water, &made->shape);
    return true;
}

static double turbulent(const noise_scene *at, double inlet_pa, double drop_pa, double kv_m3h,
                        double flow_m3s)
{
    const qll_water *water = &at->site.water;
    const qll_noise_case given = {.mass_flow_kg_s = flow_m3s * water->density_kg_m3,
                                  .inlet_pa = inlet_pa,
                                  .outlet_pa = inlet_pa - drop_pa,
                                  .density_kg_m3 = water->density_kg_m3,
                                  .vapour_pressure_pa = water->vapour_pressure_pa,
                                  .sound_speed_m_s = water->sound_speed_m_s,
                                  .coefficient = kv_m3h,
                                  .form = QLL_FORM_KV,
                                  .fl = at->valve.fl,
                                  .fd = at->valve.fd,
                                  .xfz = at->valve.xfz,
                                  .valve_bore_m = at->branch.pipe_bore_m,
                                  .seat_bore_m = qll_valve_seat_m(&at->valve)};
    return qll_noise_turbulent_energy(&given, at->branch.path);
}

static double short_way(const noise_scene *at, double inlet_pa, double drop_pa, double kv_m3h,
                        double flow_m3s)
{
    double xfz =
        isnan(at->valve.xfz) ? qll_xfz_estimate(kv_m3h, at->valve.fl, at->valve.fd) : at->valve.xfz;
    double head_pa = inlet_pa - at->site.water.vapour_pressure_pa;
    double heard_pa = fmin(drop_pa, at->valve.fl * at->valve.fl * head_pa);
    return qll_flow_noise_energy(&at->noise, flow_m3s, heard_pa, kv_m3h,
                                 qll_xfz_scaled(xfz, inlet_pa), pow(head_pa, -0.57));
}

/* The method in full against the table, on every size of pipe, from a trickle to full travel. */
TEST(the_short_way_is_the_method_within_0_02_db)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    double worst = 0.0;
    size_t count = 0;
    for (uint64_t seed = 0; seed < 40; seed++) {
        noise_scene at;
        if (!scene_open(seed, (size_t)seed % TEST_VARIED_SIZES, arena, &at)) {
            continue;
        }
        at.valve.xfz = seed % 3 == 0 ? 0.35 : (double)NAN;
        for (int i = 0; i < 12; i++) {
            for (int k = 0; k < 8; k++) {
                double inlet_pa = 101325.0 + 2e5 * (k + 1);
                double drop_pa = (0.02 + 0.08 * i) * (inlet_pa - 5e4);
                double kv_m3h = at.valve.kv_m3h * pow(0.01, 1.0 - (double)(i * 8 + k) / 95.0);
                double flow_m3s = kv_m3h / 3600.0 * sqrt(drop_pa / 1e5);
                double want = turbulent(&at, inlet_pa, drop_pa, kv_m3h, flow_m3s);
                double got = short_way(&at, inlet_pa, drop_pa, kv_m3h, flow_m3s);
                worst = fmax(worst, fabs(10.0 * log10(got / want)));
                CHECK_WITHIN(10.0 * log10(got), 10.0 * log10(want), 0.02);
                double most = qll_flow_noise_most(
                    &at.noise, flow_m3s,
                    fmin(drop_pa, at.valve.fl * at.valve.fl
                                      * (inlet_pa - at.site.water.vapour_pressure_pa)));
                CHECK(most >= got * (1.0 - 1e-12));
                count += 1;
            }
        }
    }
    printf("    %zu points, off by at most %.4f dB\n", count, worst);
    CHECK(count > 3000);
    qll_arena_close(arena);
}

TEST(without_a_drop_a_flow_or_a_pipe_nothing_is_heard)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    noise_scene at;
    if (scene_open(1, 2, arena, &at)) {
        CHECK(short_way(&at, 6e5, 3e5, 2.0, 1e-3) > 0.0);
        CHECK(short_way(&at, 6e5, 0.0, 2.0, 1e-3) == 0.0);
        CHECK(short_way(&at, 6e5, 3e5, 2.0, 0.0) == 0.0);
        const qll_flow_noise silent = qll_flow_noise_of(&at.branch, &at.site.water, NULL);
        CHECK(qll_flow_noise_energy(&silent, 1e-3, 3e5, 2.0, 0.3, 1e-3) == 0.0);
        CHECK(qll_flow_noise_most(&silent, 1e-3, 3e5) == 0.0);
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(the_short_way_is_the_method_within_0_02_db);
    TEST_RUN(without_a_drop_a_flow_or_a_pipe_nothing_is_heard);
    return TEST_END();
}
