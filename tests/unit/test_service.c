#include "building_scene.h"
#include "check.h"
#include "station/service.h"

#define TEST_SERVICE_RATED_GPM 20.0

/* A main of @p still_psi that a flow test found 10 psi lower at 20 gpm, and 3/4 in and 1 in pipes so short
 * that nothing is lost in them. */
typedef struct service_scene {
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point test[2];
    qll_element elements[3];
    qll_site site;
} service_scene;

static void scene_make(service_scene *made, double still_psi, double wanted_psi)
{
    made->test[0] = (qll_point){0.0, still_psi * TEST_SCENE_PSI};
    made->test[1] =
        (qll_point){TEST_SERVICE_RATED_GPM * TEST_SCENE_GPM, (still_psi - 10.0) * TEST_SCENE_PSI};
    made->site = scene_site(made->sizes, &made->test[0]);
    made->site.supply.count = 2;
    made->site.set_pa_gauge = wanted_psi * TEST_SCENE_PSI;
    for (size_t i = 0; i < 2; i++) {
        made->elements[i] = (qll_element){.kind = QLL_ELEMENT_PIPE,
                                          .pipe = {.bore_m = scene_sizes[1 - i].bore_m},
                                          .size = &scene_sizes[1 - i]};
    }
    made->elements[2] =
        (qll_element){.kind = QLL_ELEMENT_BACKFLOW,
                      .backflow = {.opening_pa = 10.0 * TEST_SCENE_PSI,
                                   .rated_flow_m3s = TEST_SERVICE_RATED_GPM * TEST_SCENE_GPM,
                                   .rated_drop_pa = 10.0 * TEST_SCENE_PSI}};
    made->site.upstream = made->elements;
}

/* The trade's Q = 2.448 v d^2 (gpm, ft/s, in; plumbing handbooks print 2.45): 3/4 in type L at 8 ft/s,
 * 12.07 gpm. */
TEST(eight_feet_a_second_in_the_narrowest_pipe)
{
    service_scene made;
    scene_make(&made, 150.0, 50.0);
    made.site.upstream_count = 2;
    qll_service service = qll_service_of(&made.site);
    CHECK(service.limit == QLL_SERVICE_VELOCITY);
    CHECK_NEAR(service.flow_m3s / TEST_SCENE_GPM, 2.448 * 8.0 * 0.785 * 0.785, 1e-3);
    CHECK(service.pipe_nominal_m == scene_sizes[0].nominal_m);
    made.elements[1].size = NULL;
    CHECK(isnan(qll_service_of(&made.site).pipe_nominal_m));
    made.site.upstream_count = 1;
    CHECK_NEAR(qll_service_of(&made.site).velocity_flow_m3s / TEST_SCENE_GPM,
               2.448 * 8.0 * 1.025 * 1.025, 1e-3);
    made.site.upstream_count = 0;
    CHECK(isnan(qll_service_of(&made.site).velocity_flow_m3s));
}

/* Flow tests: the drop grows with flow to the power 1.85, so 10 psi at 20 gpm are 15 psi at
 * 20 * 1.5^(1/1.85) = 24.90 gpm. */
TEST(the_flow_that_leaves_enough)
{
    static const struct {
        double still_psi, wanted_psi, left_psi, flow_gpm;
    } facts[] = {
        {70.0, 50.0, 55.0, 24.901}, /* wanted + 5 psi: 15 psi to spend */
        {60.0, 60.0, 48.0, 22.071}, /* 0.8 of 60 psi: 12 psi to spend */
        {60.0, 40.0, 45.0, 24.901},
    };

    for (size_t i = 0; i < sizeof facts / sizeof *facts; i++) {
        service_scene made;
        scene_make(&made, facts[i].still_psi, facts[i].wanted_psi);
        qll_service service = qll_service_of(&made.site);
        CHECK(service.limit == QLL_SERVICE_PRESSURE);
        CHECK_NEAR(service.inlet_pa_gauge / TEST_SCENE_PSI, facts[i].left_psi, 1e-6);
        CHECK_NEAR(service.flow_m3s / TEST_SCENE_GPM, facts[i].flow_gpm, 1e-4);
        double left_pa =
            qll_site_inlet_pa(&made.site, made.site.supply.static_low_pa_gauge, service.flow_m3s);
        CHECK_NEAR(left_pa - made.site.barometric_pa, service.inlet_pa_gauge, 1e-6);
    }
}

/* The lesser limit counts; the lowest supply decides, not the highest. */
TEST(the_lesser_limit_counts)
{
    service_scene made;
    scene_make(&made, 56.0, 50.0);
    made.site.upstream_count = 2;
    CHECK(qll_service_of(&made.site).limit == QLL_SERVICE_VELOCITY);
    made.site.supply.static_low_pa_gauge = 10.0 * TEST_SCENE_PSI;
    qll_service low = qll_service_of(&made.site);
    CHECK(low.limit == QLL_SERVICE_PRESSURE);
    CHECK_NEAR(low.flow_m3s / TEST_SCENE_GPM, 20.0 * pow(0.2, 1.0 / 1.85), 1e-6);
    CHECK(low.flow_m3s < low.velocity_flow_m3s);
}

/* 50 psi less the 10 psi that open the preventer, whether anything flows or not: 0.8 of 40 psi, 8 psi
 * to spend. */
TEST(a_preventer_that_opens_is_not_a_service_that_carries_nothing)
{
    service_scene made;
    scene_make(&made, 50.0, 50.0);
    made.elements[0] = made.elements[2];
    made.site.upstream_count = 1;
    qll_service service = qll_service_of(&made.site);
    CHECK_NEAR(service.inlet_pa_gauge / TEST_SCENE_PSI, 32.0, 1e-6);
    CHECK_NEAR(service.flow_m3s / TEST_SCENE_GPM, 20.0 * pow(0.8, 1.0 / 1.85), 1e-6);
}

TEST(nothing_limits_where_nothing_is_known)
{
    service_scene made;
    scene_make(&made, 80.0, 50.0);
    made.site.supply.count = 1; /* a main that does not fall */
    qll_service service = qll_service_of(&made.site);
    CHECK(service.limit == QLL_SERVICE_UNLIMITED && isnan(service.flow_m3s));
    CHECK(qll_service_peak_m3s(&service, 1e-3, false) == 1e-3);
    /* Nor can a main that brings nothing up here be asked how much. */
    made.site.supply.static_low_pa_gauge = -1.0;
    service = qll_service_of(&made.site);
    CHECK(service.limit == QLL_SERVICE_UNLIMITED && isnan(service.inlet_pa_gauge));
}

TEST(what_was_metered_ran_through_the_pipe)
{
    service_scene made;
    scene_make(&made, 70.0, 50.0);
    made.site.upstream_count = 2;
    qll_service service = qll_service_of(&made.site);
    double peak_m3s = 20.0 * TEST_SCENE_GPM;
    CHECK(qll_service_peak_m3s(&service, peak_m3s, false) == service.velocity_flow_m3s);
    CHECK(qll_service_peak_m3s(&service, peak_m3s, true) == peak_m3s);
    CHECK(qll_service_peak_m3s(&service, 2.0 * peak_m3s, true) == service.pressure_flow_m3s);
    CHECK(qll_service_peak_m3s(&service, 0.1 * peak_m3s, false) == 0.1 * peak_m3s);
}

int main(void)
{
    TEST_RUN(eight_feet_a_second_in_the_narrowest_pipe);
    TEST_RUN(the_flow_that_leaves_enough);
    TEST_RUN(the_lesser_limit_counts);
    TEST_RUN(a_preventer_that_opens_is_not_a_service_that_carries_nothing);
    TEST_RUN(nothing_limits_where_nothing_is_known);
    TEST_RUN(what_was_metered_ran_through_the_pipe);
    return TEST_END();
}
