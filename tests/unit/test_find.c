/* The figures of an answer before anybody writes: what they must add up to, from the structs beside them. */
#include "building_answers.h"
#include "engine/find.h"

static double energy(double level_db)
{
    return isnan(level_db) ? 0.0 : pow(10.0, level_db / 10.0);
}

/* Levels of sources add by energy; what is no source of sound adds nothing. */
static void check_sound(const qll_station_curves *curves, const qll_station *station)
{
    size_t valves = qll_station_valve_count(station);
    size_t heard = 0;
    for (size_t i = 0; i < QLL_SOUND_POINTS; i++) {
        double sum = 0.0;
        for (size_t v = 0; v < valves; v++) {
            sum += energy(curves->valve_dba[v][i]);
        }
        if (isfinite(curves->sound_dba[i])) {
            CHECK_NEAR(10.0 * log10(sum), curves->sound_dba[i], 1e-9);
            heard += 1;
        }
    }
    CHECK(heard > 10);
}

static void check_falloff(const qll_station_curves *curves, const building *of,
                          const qll_station *station, qll_arena *arena)
{
    size_t middle = of->duty.supply_count / 2;
    const qll_site *site = of->wording.site;
    const qll_falloff_found *curve = &curves->falloffs[0];
    CHECK(curve->kind == QLL_FALLOFF_MIDDLE);
    CHECK_NEAR(curves->falloff_m3s[QLL_FALLOFF_POINTS - 1], 1.15 * of->duty.peak_m3s, 1e-12);
    for (size_t i = 0; i < QLL_FALLOFF_POINTS; i += 20) {
        double flow_m3s = curves->falloff_m3s[i];
        qll_operating_point point;
        CHECK(qll_station_operate(
                  station, site,
                  qll_site_inlet_pa(site, of->duty.supply_static_pa_gauge[middle], flow_m3s),
                  flow_m3s, arena, &point)
              == QLL_OK);
        CHECK(isnan(point.outlet_pa) == isnan(curve->outlet_pa_gauge[i]));
        if (point.passes) {
            CHECK_NEAR(curve->outlet_pa_gauge[i] + site->barometric_pa, point.outlet_pa, 1e-12);
        }
    }
    /* Nothing stands above its lock-up, and the street's highest is never below its lowest. */
    for (size_t i = 0; i < QLL_FALLOFF_POINTS; i++) {
        double low = curves->falloffs[1].outlet_pa_gauge[i];
        double high = curves->falloffs[2].outlet_pa_gauge[i];
        CHECK(!(curve->outlet_pa_gauge[i] > curve->lockup_pa_gauge));
        CHECK(!(low > high + 1.0) || station->stage_count > 1);
    }
}

static void check_ranges(const qll_flow_range *ranges, size_t count, const qll_duty *duty)
{
    double before_m3s = duty->flow_m3s[0];
    for (size_t i = 0; i < count; i++) {
        CHECK(ranges[i].from_m3s >= before_m3s && ranges[i].to_m3s >= ranges[i].from_m3s);
        before_m3s = ranges[i].to_m3s;
    }
    CHECK(before_m3s <= duty->peak_m3s * (1.0 + 1e-12));
}

/* At the peak something passes water; a valve is in its band only where it passes some. */
static void check_works(const qll_station_curves *curves, const building *of,
                        const qll_station *station)
{
    double last_m3s = 0.0;
    for (size_t v = 0; v < qll_station_valve_count(station); v++) {
        const qll_valve_work *work = &curves->works[v];
        check_ranges(work->passing, work->passing_count, &of->duty);
        check_ranges(work->in_band, work->in_band_count, &of->duty);
        for (size_t i = 0; i < work->in_band_count; i++) {
            bool is_within = false;
            for (size_t k = 0; k < work->passing_count; k++) {
                is_within = is_within
                            || (work->in_band[i].from_m3s >= work->passing[k].from_m3s
                                && work->in_band[i].to_m3s <= work->passing[k].to_m3s);
            }
            CHECK(is_within);
        }
        if (work->passing_count > 0) {
            last_m3s = fmax(last_m3s, work->passing[work->passing_count - 1].to_m3s);
        }
    }
    CHECK_NEAR(last_m3s, of->duty.peak_m3s, 1e-12);
}

TEST(curves_add_up)
{
    static const char *const examples[] = {"hillside", "morning-rush", "repurposed-building"};
    for (size_t e = 0; e < sizeof examples / sizeof *examples; e++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 30);
        static building made;
        if (CHECK(building_answers(examples[e], arena, &made))) {
            const qll_station *station = &made.design.shown[0].station;
            const qll_standing at = {station, made.wording.site, &made.duty};
            const qll_station_curves *curves = NULL;
            if (CHECK(qll_find_curves(&at, arena, &curves) == QLL_OK)) {
                check_sound(curves, station);
                check_falloff(curves, &made, station, arena);
                check_works(curves, &made, station);
            }
        }
        qll_arena_close(arena);
    }
}

/* What the main holds at the peak less what each element takes is what stands before the station. */
TEST(losses_before_the_station_add_up_to_its_inlet)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    static building made;
    if (CHECK(building_answers("hillside", arena, &made))) {
        const qll_site *site = made.wording.site;
        const double peak_m3s = made.duty.peak_m3s;
        const double *drop_pa = NULL;
        CHECK(qll_find_upstream(site, peak_m3s, arena, &drop_pa) == QLL_OK);
        double standing_pa_gauge = made.duty.supply_static_pa_gauge[0];
        double pressure_pa =
            qll_supply_pressure_pa_gauge(&site->supply, standing_pa_gauge, peak_m3s)
            + site->barometric_pa;
        for (size_t i = 0; i < site->upstream_count; i++) {
            pressure_pa -= drop_pa[i];
        }
        CHECK(site->upstream_count > 0);
        CHECK_NEAR(pressure_pa, qll_site_inlet_pa(site, standing_pa_gauge, peak_m3s), 1e-12);
    }
    qll_arena_close(arena);
}

/* A price is the sum of the valves'; a setting is of the valve at its place. */
TEST(figures_are_of_their_station)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    static building made;
    bool is_made = CHECK(building_answers("morning-rush", arena, &made));
    for (size_t i = 0; is_made && i < made.design.count; i++) {
        const qll_shown *shown = &made.design.shown[i];
        const qll_standing at = {&shown->station, made.wording.site, &made.duty};
        qll_station_figures figures;
        CHECK(qll_find_station(&at, &shown->assessment.closed, QLL_UNITS_US, arena, &figures)
              == QLL_OK);
        double price = 0.0;
        for (size_t s = 0; s < shown->station.stage_count; s++) {
            const qll_stage *stage = &shown->station.stages[s];
            for (size_t b = 0; b < stage->branch_count; b++) {
                price += stage->branches[b].valve->price;
                CHECK_NEAR(figures.settings[s][b].set_pa_gauge, stage->branches[b].set_pa_gauge,
                           1e-12);
            }
        }
        CHECK(isnan(price) ? isnan(figures.list_price) : price == figures.list_price);
        CHECK(!(figures.relief_least_pa_gauge > figures.relief_clear_pa_gauge));
        /* A tank is a part where there is none that does, and then of a size sold, or as large as is needed. */
        CHECK(isnan(figures.tank_part_m3) || figures.tank_part_m3 == figures.tank_sold_m3
              || figures.tank_part_m3 == shown->assessment.closed.tank_m3);
    }
    qll_arena_close(arena);
}

/* A heater of 300 L that needs 30 L: a tank that is there is bought anew where it has less than 28.5 L (95 %), unless
 * it would do once it is charged as it should be. */
TEST(a_tank_too_small_is_bought_anew)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    static building made;
    if (CHECK(building_answers("morning-rush", arena, &made))) {
        static const struct {
            double there_l, at_own_l, part_l;
        } facts[] = {{0, NAN, 35},  {10, 30, 35},   {10, NAN, 35}, {28, 30, 35},
                     {29, 30, NAN}, {40, NAN, NAN}, {26, 27, NAN}};

        qll_site site = *made.wording.site;
        site.heater.volume_m3 = 0.3;
        const qll_standing at = {&made.design.shown[0].station, &site, &made.duty};
        for (size_t i = 0; i < sizeof facts / sizeof *facts; i++) {
            qll_closed_system closed = made.design.shown[0].assessment.closed;
            closed.has_heater = true;
            closed.has_tank = facts[i].there_l > 0;
            closed.tank_m3 = 0.030;
            closed.tank_at_own_m3 = facts[i].at_own_l / 1000.0;
            site.tank.volume_m3 = closed.has_tank ? facts[i].there_l / 1000.0 : (double)NAN;
            qll_station_figures figures;
            CHECK(qll_find_station(&at, &closed, QLL_UNITS_SI, arena, &figures) == QLL_OK);
            CHECK(isnan(facts[i].part_l)
                      ? isnan(figures.tank_part_m3)
                      : fabs(figures.tank_part_m3 - facts[i].part_l / 1000.0) < 1e-12);
        }
    }
    qll_arena_close(arena);
}

/* Of flows of a day: rising shares have rising flows, and the first scenario is no change. */
TEST(quantiles_rise)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    static building made;
    if (CHECK(building_answers("repurposed-building", arena, &made))) {
        const size_t count = made.prepared.survey.scenario_count;
        for (size_t i = 0; i < count; i++) {
            const qll_scenario_figures *figures = &made.prepared.figures[i];
            for (size_t k = 1; k < QLL_FLOW_QUANTILES; k++) {
                CHECK(figures->quantiles[k].share > figures->quantiles[k - 1].share);
                CHECK(figures->quantiles[k].flow_m3s >= figures->quantiles[k - 1].flow_m3s);
            }
            CHECK(figures->quantiles[4].share == 0.99
                  && figures->quantiles[4].flow_m3s == figures->seldom_more_m3s);
        }
        CHECK(count > 1 && made.prepared.figures[0].change.peak_ratio == 1.0);
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(curves_add_up);
    TEST_RUN(losses_before_the_station_add_up_to_its_inlet);
    TEST_RUN(figures_are_of_their_station);
    TEST_RUN(a_tank_too_small_is_bought_anew);
    TEST_RUN(quantiles_rise);
    return TEST_END();
}
