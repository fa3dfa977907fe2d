#include "building_scene.h"
#include "check.h"
#include "station/setting.h"

/* A valve of Kv 10 with 8 psi fall-off at full travel, its least stable flow stated at 8 bar before and
 * 3 bar behind it, set to 60 psi with 110 psi on its inlet gauge. */
typedef struct setting_scene {
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still;
    qll_site site;
    scene_valve valve;
    qll_branch branch;
    qll_stage stage;
    qll_station station;
} setting_scene;

static qll_setting set(setting_scene *made, double flow_min_m3s, double peak_m3s)
{
    made->still = (qll_point){0.0, 110.0 * TEST_SCENE_PSI};
    made->site = scene_site(made->sizes, &made->still);
    scene_valve_make(&made->valve, 10.0, 8.0 * TEST_SCENE_PSI, flow_min_m3s, 0.0254);
    made->branch = scene_branch(&made->valve, 60.0 * TEST_SCENE_PSI, scene_sizes[1].bore_m);
    made->stage = (qll_stage){&made->branch, 1, 110.0 * TEST_SCENE_PSI};
    made->station = (qll_station){&made->stage, 1};
    return qll_setting_of(&made->station, &made->site, peak_m3s, 0, 0);
}

/* Worked by hand: the least stable flow goes with sqrt(drop)/(1/drop + 1/outlet), 5 and 3 bar on the
 * sheet, 50 and 60 psi here; Kv = Q/sqrt(50 psi in bar); the fall-off is its share of 8 psi. */
TEST(twice_the_least_stable_flow_and_the_reading_there)
{
    setting_scene made;
    qll_setting setting = set(&made, 2e-5, INFINITY);
    double here = sqrt(50.0) / (1.0 / 50.0 + 1.0 / 60.0);
    double psi_bar = TEST_SCENE_PSI / TEST_SCENE_BAR;
    double sheet = sqrt(5.0 / psi_bar) / (psi_bar / 5.0 + psi_bar / 3.0);
    double flow_m3s = 2.0 * 2e-5 * here / sheet;
    CHECK_NEAR(setting.flow_m3s, flow_m3s, 1e-12);
    double kv_m3h = flow_m3s * 3600.0 / sqrt(50.0 * psi_bar);
    CHECK_NEAR(setting.reading_pa_gauge, (60.0 - 8.0 * kv_m3h / 10.0) * TEST_SCENE_PSI, 1e-9);
    CHECK_NEAR(setting.set_pa_gauge, 60.0 * TEST_SCENE_PSI, 1e-12);
    CHECK_NEAR(setting.lockup_pa_gauge, 60.0 * TEST_SCENE_PSI + 0.2e5, 1e-12);
}

/* No more can be asked for than the open valve passes: Kv 10 from 110 to 52 psi. */
TEST(no_flow_is_asked_for_that_does_not_pass)
{
    setting_scene made;
    qll_setting setting = set(&made, 6e-3, INFINITY);
    CHECK_NEAR(setting.reading_pa_gauge, 52.0 * TEST_SCENE_PSI, 1e-12);
    double most_m3s = 10.0 / 3600.0 * sqrt(58.0 * TEST_SCENE_PSI / TEST_SCENE_BAR);
    CHECK_NEAR(setting.flow_m3s, most_m3s, 1e-9);
}

/* Nor more than the building is made to draw; the reading is the one at that flow. */
TEST(no_flow_is_asked_for_beyond_the_design_peak)
{
    setting_scene made;
    const double peak_m3s = 1e-4;
    CHECK(set(&made, 2e-4, INFINITY).flow_m3s > 2.0 * peak_m3s);
    qll_setting setting = set(&made, 2e-4, peak_m3s);
    CHECK_NEAR(setting.flow_m3s, peak_m3s, 1e-12);
    double kv_m3h = peak_m3s * 3600.0 / sqrt(50.0 * TEST_SCENE_PSI / TEST_SCENE_BAR);
    CHECK_NEAR(setting.reading_pa_gauge, (60.0 - 8.0 * kv_m3h / 10.0) * TEST_SCENE_PSI, 1e-9);
}

TEST(a_valve_that_is_always_stable_is_set_at_a_trickle)
{
    setting_scene made;
    qll_setting setting = set(&made, 0.0, INFINITY);
    CHECK(setting.flow_m3s == 0.0);
    CHECK_NEAR(setting.reading_pa_gauge, 60.0 * TEST_SCENE_PSI, 1e-12);
}

int main(void)
{
    TEST_RUN(twice_the_least_stable_flow_and_the_reading_there);
    TEST_RUN(no_flow_is_asked_for_that_does_not_pass);
    TEST_RUN(no_flow_is_asked_for_beyond_the_design_peak);
    TEST_RUN(a_valve_that_is_always_stable_is_set_at_a_trickle);
    return TEST_END();
}
