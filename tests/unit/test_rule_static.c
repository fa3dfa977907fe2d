#include "building_scene.h"
#include "check.h"
#include "station/rules.h"

#include <stdint.h>

/* What the static rule says where the station's outlet stands at @p still_psi with nothing running. */
static qll_verdict judge(const qll_site *site, double still_psi)
{
    const qll_operating_point still = {
        .passes = true, .outlet_pa = site->barometric_pa + still_psi * TEST_SCENE_PSI};
    const qll_operation operation = {.site = site, .still = &still};
    qll_verdict_list list = {0};
    qll_judge_static(&operation, &list);
    return list.worst[QLL_RULE_STATIC];
}

/* 2.31 ft of water are 1 psi. 80 psi are permitted: 85 psi at the station are 78.5 psi 15 ft up. Beta(2, 2) of
 * deviation 3 psi leaves one in ten at 4.1 psi: 75.9 psi and more are a caution. */
TEST(the_lowest_outlet_decides_though_it_lies_above)
{
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point main = {0.0, 110.0 * TEST_SCENE_PSI};
    qll_site site = scene_site(sizes, &main);
    qll_outlet outlets[] = {{.name = "top", .elevation_m = 70.0 * 0.3048},
                            {.name = "first floor", .elevation_m = 15.0 * 0.3048}};
    qll_verdict alone = judge(&site, 85.0);
    CHECK(alone.finding == QLL_FINDING_STATIC_ABOVE && alone.spot.outlet == SIZE_MAX);
    site.outlets = outlets;
    site.outlet_count = 2;
    qll_verdict still = judge(&site, 85.0);
    CHECK(still.grade == QLL_GRADE_CAUTION && still.spot.outlet == 1);
    CHECK_NEAR(still.value / TEST_SCENE_PSI, 85.0 - 15.0 / 2.31, 1e-3);
    CHECK(judge(&site, 82.0).grade == QLL_GRADE_GOOD);
    CHECK(judge(&site, 87.0).grade == QLL_GRADE_FAIL);
    site.outlet_count = 1; /* 70 ft up: 30.3 psi */
    CHECK(judge(&site, 106.0).grade == QLL_GRADE_GOOD);
    CHECK(judge(&site, 111.0).grade == QLL_GRADE_FAIL);
    outlets[0].elevation_m = -15.0 * 0.3048;
    CHECK(judge(&site, 73.0).grade == QLL_GRADE_CAUTION);
    CHECK(judge(&site, 74.0).grade == QLL_GRADE_FAIL);
}

int main(void)
{
    TEST_RUN(the_lowest_outlet_decides_though_it_lies_above);
    return TEST_END();
}
