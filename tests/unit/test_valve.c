#include "check.h"
#include "numeric/root.h"
#include "physics/valve.h"

static const double psi = 6894.757293168361;
static const double gpm = 6.30901964e-5;

static qll_valve unset_valve(qll_acting acting)
{
    return (qll_valve){.id = "V",
                       .nominal_m = 0.0508,
                       .acting = acting,
                       .kv_m3h = 18,
                       .set_min_pa_gauge = 25 * psi,
                       .set_max_pa_gauge = 75 * psi,
                       .inlet_max_pa_gauge = 300 * psi,
                       .temperature_max_degc = NAN,
                       .sheet_inlet_pa_gauge = 100 * psi,
                       .sheet_set_pa_gauge = 50 * psi,
                       .band_pa = 12 * psi,
                       .lockup_rise_pa = NAN,
                       .inlet_effect = NAN,
                       .flow_min_m3s = NAN,
                       .hysteresis_pa = NAN,
                       .fl = NAN,
                       .fd = NAN,
                       .xfz = NAN,
                       .seat_bore_m = NAN,
                       .strainer_kv_m3h = NAN,
                       .price = NAN,
                       .lead_days = NAN};
}

TEST(defaults_fill_only_what_is_unset)
{
    qll_valve valve = unset_valve(QLL_ACTING_DIRECT);
    valve.fl = 0.8;
    qll_valve_fill_defaults(&valve);
    CHECK(valve.fl == 0.8);
    CHECK((valve.defaulted & (1u << QLL_VALVE_FL)) == 0);
    CHECK_NEAR(valve.temperature_max_degc, 82.2222, 1e-6);
    CHECK_NEAR(valve.lockup_rise_pa, 3 * psi, 1e-12);
    CHECK_NEAR(valve.inlet_effect, 0.05, 1e-12);
    CHECK_NEAR(valve.hysteresis_pa, psi, 1e-12);
    /* 8 % of the full flow at 60 psi, a share that grows with the drop's power 1.07. */
    double full_m3s = 18.0 / 3600 * sqrt(50 * psi / 1e5);
    CHECK_NEAR(valve.flow_min_m3s, 0.080 * pow(50.0 / 60, 1.07) * full_m3s, 1e-12);
    CHECK_NEAR(valve.fd, 0.46, 1e-12);
    CHECK_NEAR(valve.seat_bore_m, 0.55 * 0.0508, 1e-12);
    CHECK(isnan(valve.xfz) && isnan(valve.strainer_kv_m3h) && isnan(valve.price));
    unsigned all = (1u << QLL_VALVE_DEFAULT_COUNT) - 1;
    /* How fast a pilot goes is no matter of a direct one. */
    CHECK(valve.defaulted == (all & ~(1u << QLL_VALVE_FL) & ~(1u << QLL_VALVE_STROKE_TIME)));
}

TEST(pilot_defaults_differ)
{
    qll_valve valve = unset_valve(QLL_ACTING_PILOT);
    qll_valve_fill_defaults(&valve);
    CHECK_NEAR(valve.lockup_rise_pa, psi, 1e-12);
    CHECK(valve.inlet_effect == 0);
    double full_m3s = 18.0 / 3600 * sqrt(50 * psi / 1e5);
    CHECK_NEAR(valve.flow_min_m3s, 0.05 * pow(50.0 / 60, 1.2) * full_m3s, 1e-12);
}

TEST(least_flow_without_sheet_pressures)
{
    qll_valve valve = unset_valve(QLL_ACTING_DIRECT);
    valve.sheet_inlet_pa_gauge = NAN;
    valve.sheet_set_pa_gauge = NAN;
    qll_valve_fill_defaults(&valve);
    CHECK_NEAR(valve.flow_min_m3s, 0.080 * pow(3e5 / (60 * psi), 1.07) * 18 / 3600 * sqrt(3.0),
               1e-12);
}

static double least_flow_m3s(const qll_valve *valve, double drop_pa, double outlet_pa_gauge)
{
    const qll_least_flow law = qll_valve_least_flow(valve);
    const qll_stability_here here = qll_stability_at(drop_pa, outlet_pa_gauge);
    return qll_least_flow_m3s(&law, &here);
}

/* What is estimated moves by the prior's law, what is stated by drop and outlet; either is itself at the
 * pressures of the sheet. */
TEST(least_flow_moves_as_stated_or_as_estimated)
{
    for (int acting = 0; acting < QLL_ACTING_COUNT; acting++) {
        qll_valve valve = unset_valve((qll_acting)acting);
        qll_valve_fill_defaults(&valve);
        double at_sheet_m3s = least_flow_m3s(&valve, 50 * psi, 50 * psi);
        CHECK_NEAR(at_sheet_m3s, valve.flow_min_m3s, 1e-12);
        CHECK_NEAR(least_flow_m3s(&valve, 100 * psi, 20 * psi),
                   at_sheet_m3s * pow(2, acting == QLL_ACTING_PILOT ? 1.7 : 1.57), 1e-12);
        CHECK_NEAR(least_flow_m3s(&valve, 3000 * psi, psi), 18.0 / 3600 * sqrt(3000 * psi / 1e5),
                   1e-12); /* no more than all */
        CHECK(least_flow_m3s(&valve, 0, 50 * psi) == 0);
        CHECK(least_flow_m3s(&valve, -psi, 50 * psi) == 0);

        qll_valve stated = unset_valve((qll_acting)acting);
        stated.flow_min_m3s = 1e-4;
        qll_valve_fill_defaults(&stated);
        CHECK_NEAR(least_flow_m3s(&stated, 50 * psi, 50 * psi), 1e-4, 1e-12);
        CHECK_NEAR(least_flow_m3s(&stated, 100 * psi, 50 * psi),
                   1e-4 * sqrt(2.0) * (1.0 / 50 + 1.0 / 50) / (1.0 / 100 + 1.0 / 50), 1e-12);
        CHECK(least_flow_m3s(&stated, 0, 50 * psi) == 0);
    }
}

TEST(chatter_is_that_of_the_prior_or_of_the_sheet)
{
    qll_valve valve = unset_valve(QLL_ACTING_DIRECT);
    qll_valve_fill_defaults(&valve);
    qll_chatter_prior silent = qll_valve_chatter(&valve, 90 * psi, 20 * psi);
    qll_chatter_prior prior = qll_stability_prior(false, 90 * psi);
    CHECK_NEAR(silent.chatters, prior.chatters, 1e-12);
    CHECK_NEAR(silent.median_share, prior.median_share, 1e-12);
    CHECK_NEAR(silent.ln_sigma, prior.ln_sigma, 1e-12);

    qll_valve stated = unset_valve(QLL_ACTING_DIRECT);
    stated.flow_min_m3s = 1e-4;
    qll_valve_fill_defaults(&stated);
    qll_chatter_prior known = qll_valve_chatter(&stated, 50 * psi, 50 * psi);
    CHECK(known.chatters == 1 && known.ln_sigma == 0.5);
    CHECK_NEAR(known.median_share, 1e-4 / (18.0 / 3600 * sqrt(50 * psi / 1e5)), 1e-12);
    known = qll_valve_chatter(&stated, 0, 50 * psi);
    CHECK(known.chatters == 0 && known.median_share == 0);
    stated.flow_min_m3s = 1;
    CHECK(qll_valve_chatter(&stated, 50 * psi, 50 * psi).median_share == 1);
}

typedef struct balance {
    const qll_opening_law *law;
    double set_pa, inlet_pa, flow_m3s;
    const qll_water *water;
} balance;

static double flow_error(double outlet_pa, void *context)
{
    const balance *b = context;
    double kv = qll_opening_law_kv(b->law, b->set_pa - outlet_pa);
    return qll_valve_flow_m3s(kv, b->inlet_pa, outlet_pa, 1, b->water) - b->flow_m3s;
}

/* Q = Kvs min(1, (set - p2)/B) sqrt(p1 - p2), Kvs 6.3, set 3.5 bar, B 1.2 bar, p1 8 bar; figures
 * computed apart from the program (tests/oracles/pipes.py has the same equation). Gauge and absolute do not matter but for the choke. */
TEST(band_law_holds_the_outlet)
{
    qll_arena *arena = qll_arena_open(1 << 16);
    qll_valve valve = unset_valve(QLL_ACTING_DIRECT);
    valve.kv_m3h = 6.3;
    valve.band_pa = 1.2e5;
    qll_opening_law law;
    CHECK(qll_opening_law_make(&valve, arena, &law) == QLL_OK);
    CHECK(law.full_falloff_pa == 1.2e5);
    const qll_water water = {.density_kg_m3 = QLL_REFERENCE_DENSITY_KG_M3,
                             .vapour_pressure_pa = 1705.7};
    const double rows[][2] = {{1, 3.41108}, {2, 3.32383}, {4, 3.15390}, {6.3, 2.96520}};
    for (size_t i = 0; i < 4; i++) {
        balance b = {.law = &law,
                     .set_pa = 3.5e5,
                     .inlet_pa = 8e5,
                     .flow_m3s = rows[i][0] / 3600,
                     .water = &water};
        qll_root root = qll_root_find(1e5, 3.5e5, 1e-6, flow_error, &b);
        CHECK(root.converged);
        CHECK_WITHIN(root.value / 1e5, rows[i][1], 6e-6);
    }
    qll_arena_close(arena);
}

TEST(law_gives_back_the_sheet)
{
    qll_arena *arena = qll_arena_open(1 << 16);
    qll_valve valve = unset_valve(QLL_ACTING_DIRECT);
    const qll_point points[] = {{10 * gpm, 1.5 * psi}, {30 * gpm, 4 * psi}, {60 * gpm, 8 * psi}};
    valve.falloff_points = points;
    valve.falloff_count = 3;
    qll_valve_fill_defaults(&valve);
    qll_opening_law law;
    CHECK(qll_opening_law_make(&valve, arena, &law) == QLL_OK);
    const qll_water water = {.density_kg_m3 = QLL_REFERENCE_DENSITY_KG_M3,
                             .vapour_pressure_pa = 1705.7};
    for (size_t i = 0; i < 3; i++) {
        double kv = qll_opening_law_kv(&law, points[i].y);
        double flow = qll_valve_flow_m3s(kv, 100 * psi + 101325, 50 * psi - points[i].y + 101325,
                                         valve.fl, &water);
        CHECK_NEAR(flow, points[i].x, 1e-12);
    }
    CHECK(qll_opening_law_kv(&law, 0) == 0);
    CHECK(qll_opening_law_kv(&law, -psi) == 0);
    CHECK(qll_opening_law_kv(&law, law.full_falloff_pa) == 18);
    CHECK(qll_opening_law_kv(&law, 1e9) == 18);
    CHECK(isnan(qll_opening_law_kv(&law, NAN)));
    /* beyond the last point the last slope goes on */
    double slope = (qll_opening_law_kv(&law, 8 * psi) - qll_opening_law_kv(&law, 4 * psi)) / 4;
    CHECK_NEAR(qll_opening_law_kv(&law, 9 * psi), qll_opening_law_kv(&law, 8 * psi) + slope, 1e-12);
    qll_arena_close(arena);
}

TEST(choked_sheet_points_are_given_back_too)
{
    qll_arena *arena = qll_arena_open(1 << 16);
    qll_valve valve = unset_valve(QLL_ACTING_DIRECT);
    valve.sheet_inlet_pa_gauge = 300 * psi;
    valve.sheet_set_pa_gauge = 30 * psi;
    const qll_point points[] = {{60 * gpm, 8 * psi}};
    valve.falloff_points = points;
    valve.falloff_count = 1;
    qll_valve_fill_defaults(&valve);
    qll_opening_law law;
    CHECK(qll_opening_law_make(&valve, arena, &law) == QLL_OK);
    qll_water water = qll_water_at(15, 101325);
    water.density_kg_m3 = QLL_REFERENCE_DENSITY_KG_M3;
    CHECK_NEAR(qll_valve_flow_m3s(qll_opening_law_kv(&law, 8 * psi), 300 * psi + 101325,
                                  22 * psi + 101325, valve.fl, &water),
               60 * gpm, 1e-12);
    qll_arena_close(arena);
}

TEST(law_ends_at_a_point_of_full_travel)
{
    qll_arena *arena = qll_arena_open(1 << 16);
    qll_valve valve = unset_valve(QLL_ACTING_DIRECT);
    const qll_point points[] = {
        {0, 0}, {18.0 / 3600 * sqrt(58 * 6894.757293168361 / 1e5), 8 * 6894.757293168361}};
    valve.falloff_points = points;
    valve.falloff_count = 2;
    qll_opening_law law;
    CHECK(qll_opening_law_make(&valve, arena, &law) == QLL_OK);
    CHECK_NEAR(law.full_falloff_pa, 8 * psi, 1e-12);
    CHECK(law.kv_of_falloff.count == 2);
    qll_arena_close(arena);
}

static qll_status make_with(const qll_point *points, size_t count, double band_pa)
{
    qll_arena *arena = qll_arena_open(1 << 16);
    qll_valve valve = unset_valve(QLL_ACTING_DIRECT);
    valve.falloff_points = points;
    valve.falloff_count = count;
    valve.band_pa = band_pa;
    qll_opening_law law;
    qll_status status = qll_opening_law_make(&valve, arena, &law);
    qll_arena_close(arena);
    return status;
}

TEST(impossible_sheets_are_refused)
{
    const qll_point above_full[] = {{200 * 6.30901964e-5, 5e4}};
    const qll_point falling_falloff[] = {{1e-3, 5e4}, {2e-3, 4e4}};
    const qll_point falling_flow[] = {{2e-3, 4e4}, {1e-3, 5e4}};
    const qll_point no_falloff[] = {{1e-3, 0}};
    const qll_point below_atmosphere[] = {{1e-3, 4e5}};
    const qll_point broken[] = {{NAN, 4e4}};
    const qll_point origin_only[] = {{0, 0}};
    CHECK(make_with(above_full, 1, NAN) == QLL_REFUSED);
    CHECK(make_with(falling_falloff, 2, NAN) == QLL_REFUSED);
    CHECK(make_with(falling_flow, 2, NAN) == QLL_REFUSED);
    CHECK(make_with(no_falloff, 1, NAN) == QLL_REFUSED);
    CHECK(make_with(below_atmosphere, 1, NAN) == QLL_REFUSED);
    CHECK(make_with(broken, 1, NAN) == QLL_REFUSED);
    CHECK(make_with(origin_only, 1, NAN) == QLL_REFUSED);
    CHECK(make_with(NULL, 0, NAN) == QLL_REFUSED);
    CHECK(make_with(NULL, 0, 0) == QLL_REFUSED);
    CHECK(make_with(NULL, 0, INFINITY) == QLL_REFUSED);
    CHECK(make_with(NULL, 0, 5e4) == QLL_OK);
}

TEST(recovery_factor_of_zero_is_refused)
{
    qll_arena *arena = qll_arena_open(1 << 16);
    qll_valve valve = unset_valve(QLL_ACTING_DIRECT);
    const qll_point points[] = {{1e-3, 5e4}};
    valve.falloff_points = points;
    valve.falloff_count = 1;
    valve.fl = 0;
    qll_opening_law law;
    CHECK(qll_opening_law_make(&valve, arena, &law) == QLL_REFUSED);
    qll_arena_close(arena);
}

TEST(no_memory_is_told)
{
    qll_arena *arena = qll_arena_open(1 << 16);
    qll_arena_fail(arena, 1, true);
    qll_valve valve = unset_valve(QLL_ACTING_DIRECT);
    qll_opening_law law;
    CHECK(qll_opening_law_make(&valve, arena, &law) == QLL_NO_MEMORY);
    qll_arena_close(arena);
}

TEST(cv_is_gallons_a_minute_at_one_psi)
{
    /* Cv = 1 passes 1 US gpm at 1 psi, Kv = 1 passes 1 m3/h at 1 bar: exact unit definitions. */
    double kv_of_cv_1 = 231 * 16.387064e-6 * 60 / sqrt(psi / 1e5);
    CHECK_NEAR(QLL_CV_PER_KV, 1 / kv_of_cv_1, 1e-14);
}

TEST(odd_pressures_give_no_flow_or_nan)
{
    const qll_water water = qll_water_at(15, 101325);
    CHECK(qll_valve_flow_m3s(5, 3e5, 3e5, 0.9, &water) == 0);
    CHECK(qll_valve_flow_m3s(5, 3e5, 4e5, 0.9, &water) == 0);
    CHECK(qll_valve_flow_m3s(5, 1000, 0, 0.9, &water) == 0); /* inlet below FF pv */
    CHECK(isnan(qll_valve_flow_m3s(-1, 4e5, 3e5, 0.9, &water)));
    CHECK(isnan(qll_valve_flow_m3s(5, NAN, 3e5, 0.9, &water)));
    CHECK(isnan(qll_valve_flow_m3s(5, 4e5, 3e5, NAN, &water)));
    CHECK(qll_valve_kv_m3h(0, 3e5, 3e5, 0.9, &water) == 0);
    CHECK(isnan(qll_valve_kv_m3h(1e-3, 3e5, 3e5, 0.9, &water)));
    CHECK(isnan(qll_valve_kv_m3h(-1e-3, 4e5, 3e5, 0.9, &water)));
}

int main(void)
{
    TEST_RUN(defaults_fill_only_what_is_unset);
    TEST_RUN(pilot_defaults_differ);
    TEST_RUN(least_flow_without_sheet_pressures);
    TEST_RUN(least_flow_moves_as_stated_or_as_estimated);
    TEST_RUN(chatter_is_that_of_the_prior_or_of_the_sheet);
    TEST_RUN(band_law_holds_the_outlet);
    TEST_RUN(law_gives_back_the_sheet);
    TEST_RUN(choked_sheet_points_are_given_back_too);
    TEST_RUN(law_ends_at_a_point_of_full_travel);
    TEST_RUN(impossible_sheets_are_refused);
    TEST_RUN(recovery_factor_of_zero_is_refused);
    TEST_RUN(no_memory_is_told);
    TEST_RUN(cv_is_gallons_a_minute_at_one_psi);
    TEST_RUN(odd_pressures_give_no_flow_or_nan);
    return TEST_END();
}
