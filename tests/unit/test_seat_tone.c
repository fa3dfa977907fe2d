#include "check.h"
#include "station/seat_tone.h"

/* One stage of one valve, from one pressure to another. */
static qll_seat_tone tone_of(double inlet_pa, double outlet_pa, bool working, double fl)
{
    const qll_valve valve = {.fl = fl};
    qll_branch branch = {.valve = &valve};
    qll_stage stage = {.branches = &branch, .branch_count = 1};
    const qll_station station = {.stages = &stage, .stage_count = 1};
    const qll_water water = {.density_kg_m3 = 1000.0};
    qll_branch_state state = {.working = working};
    qll_branch_state *const states[] = {&state};
    const qll_operating_point point = {
        .stage_inlet_pa = &inlet_pa, .stage_outlet_pa = &outlet_pa, .branches = states};
    qll_seat_tone tone = qll_seat_tone_none();
    qll_seat_tone_see(&tone, &station, &water, &point);
    return tone;
}

/* The example of docs/theory/sound.md: 25 m/s, 2 mm and a Strouhal number of 0.25 are 3.1 kHz, between the ends of the range. */
TEST(a_seat_whistles_at_strouhal_times_velocity_over_thickness)
{
    const qll_seat_tone tone = tone_of(412500.0, 100000.0, true, 1.0); /* 25 m/s */
    CHECK_NEAR(tone.slow_m_s, 25.0, 1e-12);
    CHECK_NEAR(tone.fast_m_s, 25.0, 1e-12);
    CHECK_NEAR(tone.low_hz, 0.2 * 25.0 / 0.005, 1e-12);
    CHECK_NEAR(tone.high_hz, 0.35 * 25.0 / 0.001, 1e-12);
    CHECK(tone.low_hz < 3125.0 && tone.high_hz > 3125.0);
}

TEST(recovery_makes_the_jet_faster_and_no_data_is_a_usual_valve)
{
    CHECK_NEAR(tone_of(412500.0, 100000.0, true, 0.5).fast_m_s, 50.0, 1e-12);
    CHECK_NEAR(tone_of(412500.0, 100000.0, true, NAN).fast_m_s, 25.0 / 0.9, 1e-12);
}

TEST(a_seat_that_passes_nothing_whistles_nowhere)
{
    CHECK(isnan(tone_of(412500.0, 100000.0, false, 1.0).low_hz));
    CHECK(isnan(tone_of(100000.0, 100000.0, true, 1.0).low_hz));
    CHECK(isnan(tone_of(412500.0, NAN, true, 1.0).low_hz));
}

int main(void)
{
    TEST_RUN(a_seat_whistles_at_strouhal_times_velocity_over_thickness);
    TEST_RUN(recovery_makes_the_jet_faster_and_no_data_is_a_usual_valve);
    TEST_RUN(a_seat_that_passes_nothing_whistles_nowhere);
    return TEST_END();
}
