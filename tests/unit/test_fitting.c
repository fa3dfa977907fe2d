#include "check.h"
#include "physics/fitting.h"

static const double psi = 6894.757293168361;
static const double gpm = 6.30901964e-5;

TEST(words_find_their_row)
{
    size_t count = 0;
    const qll_fitting *all = qll_fittings(&count);
    CHECK(count >= 14);
    for (size_t i = 0; i < count; i++) {
        CHECK(qll_fitting_find(qll_text_of(all[i].word)) == &all[i]);
        CHECK(isnan(all[i].n_ft) != isnan(all[i].fixed_k));
        CHECK(all[i].source != NULL && all[i].source[0] != '\0');
    }
    CHECK(qll_fitting_find(qll_text_of("tee")) == NULL); /* which way? it matters by three */
    CHECK(qll_fitting_find(qll_text_of("elbow")) == qll_fitting_find(qll_text_of("elbow 90")));
    CHECK(qll_fitting_find(qll_text_of("45 ell")) == qll_fitting_find(qll_text_of("elbow 45")));
    CHECK(qll_fitting_find(qll_text_of("")) == NULL);
}

TEST(full_turbulence_is_colebrook_without_end)
{
    /* The whole formula at Re = 1e13, 1/sqrt f = -2 lg(e/3.7 + 2.51/(Re sqrt f)), with f put in. */
    double f = qll_fully_turbulent_factor(1e-3);
    CHECK_NEAR(-2 * log10(1e-3 / 3.7 + 2.51 / (1e13 * sqrt(f))), 1 / sqrt(f), 1e-9);
    CHECK(isnan(qll_fully_turbulent_factor(0)));
    CHECK(isnan(qll_fully_turbulent_factor(0.2)));
    CHECK(isnan(qll_fitting_k(qll_fitting_find(qll_text_of("elbow 90")), 0)));
    CHECK(qll_fitting_k(qll_fitting_find(qll_text_of("pipe exit")), 0.05) == 1);
}

/* Open area of the sieves, (w/(w + d))^2, computed from the ASTM E11 openings. */
TEST(meshes_have_the_open_area_of_their_sieve)
{
    const struct {
        int mesh;
        double open;
    } rows[] = {{20, .396}, {30, .360}, {40, .363}, {50, .360},
                {60, .372}, {80, .348}, {100, .360}};

    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        qll_screen screen = qll_screen_mesh(rows[i].mesh);
        double share = screen.opening_m / (screen.opening_m + screen.wire_m);
        CHECK_WITHIN(share * share, rows[i].open, 6e-4);
    }
    CHECK(isnan(qll_screen_mesh(25).opening_m));
}

/* Loss of a blocked screen over the clean one with open share 0.40: 1.93, 4.57, 18.9 and 119 at
 * 25, 50, 75 and 90 % blocked, from K = beta (1 - a^2)/a^2 at one beta. */
TEST(blocking_multiplies_the_loss)
{
    double w = sqrt(0.4);
    const qll_screen screen = {.opening_m = 1e-2 * w, .wire_m = 1e-2 * (1 - w), .area_ratio = 2};
    const qll_water water = qll_water_at(15, 5e5);
    const double rows[][2] = {{0.25, 1.93}, {0.5, 4.57}, {0.75, 18.9}, {0.9, 119}};
    double clean = qll_screen_drop_pa(&screen, 0.05, 0, 2e-3, &water);
    for (size_t i = 0; i < 4; i++) {
        double ratio = qll_screen_drop_pa(&screen, 0.05, rows[i][0], 2e-3, &water) / clean;
        CHECK_NEAR(ratio, rows[i][1], 3e-3);
    }
}

TEST(screen_nonsense_is_nan)
{
    const qll_water water = qll_water_at(15, 5e5);
    const qll_screen screen = qll_screen_mesh(40);
    const qll_screen unknown = qll_screen_mesh(41);
    CHECK(qll_screen_drop_pa(&screen, 0.05, 0, 0, &water) == 0);
    CHECK(isnan(qll_screen_drop_pa(&screen, 0.05, 1, 1e-3, &water)));
    CHECK(isnan(qll_screen_drop_pa(&screen, 0.05, -0.1, 1e-3, &water)));
    CHECK(isnan(qll_screen_drop_pa(&screen, 0.05, 0, -1e-3, &water)));
    CHECK(isnan(qll_screen_drop_pa(&screen, 0, 0, 1e-3, &water)));
    CHECK(isnan(qll_screen_drop_pa(&unknown, 0.05, 0, 1e-3, &water)));
}

/* Greatest loss at rated flow of ASSE 1013 / AWWA C511 (from memory). */
TEST(backflow_passes_its_rated_point)
{
    const double rows[][3] = {{0.75, 30, 20}, {1, 50, 18},  {1.5, 100, 16}, {2, 160, 16},
                              {2.5, 225, 16}, {3, 320, 15}, {4, 500, 14}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        qll_backflow reduced =
            qll_backflow_default(QLL_BACKFLOW_REDUCED_PRESSURE, rows[i][0] * 0.0254);
        CHECK_NEAR(qll_backflow_drop_pa(&reduced, rows[i][1] * gpm), rows[i][2] * psi, 1e-6);
        qll_backflow two = qll_backflow_default(QLL_BACKFLOW_DOUBLE_CHECK, rows[i][0] * 0.0254);
        CHECK_NEAR(qll_backflow_drop_pa(&two, rows[i][1] * gpm), 10 * psi, 1e-6);
        CHECK(qll_backflow_drop_pa(&two, gpm) < qll_backflow_drop_pa(&reduced, gpm));
    }
}

TEST(backflow_opens_with_a_step)
{
    qll_backflow reduced = qll_backflow_default(QLL_BACKFLOW_REDUCED_PRESSURE, 0.050);
    CHECK_NEAR(reduced.opening_pa, 8 * psi, 1e-12);
    CHECK(qll_backflow_drop_pa(&reduced, 0) == 0);
    CHECK_NEAR(qll_backflow_drop_pa(&reduced, 1e-9), 8 * psi, 1e-9);
    CHECK_NEAR(qll_backflow_drop_pa(&reduced, reduced.rated_flow_m3s / 2), (8 + 8 / 4.0) * psi,
               1e-12);
    CHECK(isnan(qll_backflow_drop_pa(&reduced, -1e-3)));
    qll_backflow unknown = qll_backflow_default(QLL_BACKFLOW_REDUCED_PRESSURE, 0.017);
    CHECK(isnan(unknown.opening_pa) && isnan(unknown.rated_flow_m3s));
    CHECK(isnan(qll_backflow_drop_pa(&unknown, 1e-3)));
}

int main(void)
{
    TEST_RUN(words_find_their_row);
    TEST_RUN(full_turbulence_is_colebrook_without_end);
    TEST_RUN(meshes_have_the_open_area_of_their_sieve);
    TEST_RUN(blocking_multiplies_the_loss);
    TEST_RUN(screen_nonsense_is_nan);
    TEST_RUN(backflow_passes_its_rated_point);
    TEST_RUN(backflow_opens_with_a_step);
    return TEST_END();
}
