#include "check.h"
#include "physics/sizing.h"
#include "physics/valve.h"

static qll_sizing_case water_case(double inlet_pa, double outlet_pa)
{
    const qll_water water = qll_water_at(15, inlet_pa);
    return (qll_sizing_case){.inlet_pa = inlet_pa,
                             .outlet_pa = outlet_pa,
                             .density_kg_m3 = water.density_kg_m3,
                             .vapour_pressure_pa = water.vapour_pressure_pa,
                             .critical_pressure_pa = QLL_WATER_CRITICAL_PA,
                             .viscosity_pa_s = water.viscosity_pa_s,
                             .fl = 0.9,
                             .fd = 0.46,
                             .valve_bore_m = NAN,
                             .pipe_in_bore_m = NAN,
                             .pipe_out_bore_m = NAN};
}

static const double shares[] = {0.02, 0.3, 0.6, 0.85, 0.97};

TEST(without_reducers_and_turbulent_it_is_the_simple_form)
{
    for (size_t i = 0; i < 5; i++) {
        const qll_sizing_case given = water_case(1e6, 1e6 * (1 - shares[i]));
        const qll_water water = qll_water_at(15, 1e6);
        double simple = qll_valve_kv_m3h(1e-3, given.inlet_pa, given.outlet_pa, 0.9, &water);
        qll_sizing sizing = qll_sizing_kv(&given, 1e-3);
        CHECK(sizing.converged && sizing.regime == QLL_SIZING_TURBULENT);
        CHECK_NEAR(sizing.kv_m3h, simple, 1e-14);
        CHECK(sizing.fp == 1 && sizing.flp == 0.9 && sizing.fr == 1 && sizing.loss.sum == 0);
        CHECK(sizing.choked == (shares[i] > 0.8));
    }
}

static void there_and_back(const qll_sizing_case *given, double flow_m3s)
{
    qll_sizing kv = qll_sizing_kv(given, flow_m3s);
    if (!kv.converged) {
        CHECK(isnan(kv.kv_m3h));
        return;
    }
    qll_sizing flow = qll_sizing_flow(given, kv.kv_m3h);
    CHECK(flow.converged);
    CHECK_NEAR(flow.flow_m3s, flow_m3s, 1e-9);
    CHECK(flow.regime == kv.regime && flow.choked == kv.choked);
}

TEST(kv_to_flow_and_back_with_reducers)
{
    for (size_t i = 0; i < 5; i++) {
        qll_sizing_case given = water_case(1e6, 1e6 * (1 - shares[i]));
        given.valve_bore_m = 0.025;
        given.pipe_in_bore_m = 0.04;
        given.pipe_out_bore_m = 0.05;
        for (int k = 0; k < 14; k++) {
            there_and_back(&given, 1e-5 * pow(1.7, k));
        }
        /* A wider pipe behind than before gives back velocity head. */
        given.pipe_in_bore_m = 0.026;
        given.pipe_out_bore_m = 0.026;
        there_and_back(&given, 1e-3);
    }
}

TEST(kv_to_flow_and_back_when_viscous)
{
    int viscous = 0;
    for (int i = 0; i < 8; i++) {
        qll_sizing_case given = water_case(5e5, 3e5);
        given.viscosity_pa_s *= pow(3, i);
        given.valve_bore_m = 0.05; /* reduced trim throughout */
        for (int k = 0; k < 7; k++) {
            const double flow = 1e-7 * pow(3, k);
            there_and_back(&given, flow);
            qll_sizing sizing = qll_sizing_kv(&given, flow);
            CHECK(sizing.converged && sizing.fr <= 1 && sizing.iterations < 1800);
            viscous += sizing.regime != QLL_SIZING_TURBULENT;
            given.valve_bore_m = NAN;
            there_and_back(&given, flow);
            CHECK(qll_sizing_kv(&given, flow).kv_m3h >= sizing.kv_m3h * (1 - 1e-9));
            given.valve_bore_m = 0.05;
        }
    }
    CHECK(viscous > 30);
}

TEST(a_reducer_asks_for_a_larger_kv)
{
    qll_sizing_case given = water_case(1e6, 7e5);
    given.valve_bore_m = 0.025;
    double plain = qll_sizing_kv(&given, 2e-3).kv_m3h;
    given.pipe_in_bore_m = 0.05;
    given.pipe_out_bore_m = 0.05;
    CHECK(qll_sizing_kv(&given, 2e-3).kv_m3h > plain);
}

TEST(what_makes_no_sense_has_no_answer)
{
    qll_sizing_case given = water_case(1e6, 7e5);
    CHECK(qll_sizing_kv(&given, 0).kv_m3h == 0 && qll_sizing_flow(&given, 0).flow_m3s == 0);
    CHECK(qll_sizing_kv(&given, 0).reynolds == 0 && qll_sizing_flow(&given, 0).reynolds == 0);
    CHECK(isnan(qll_sizing_kv(&given, -1).kv_m3h) && isnan(qll_sizing_kv(&given, NAN).kv_m3h));
    CHECK(isnan(qll_sizing_flow(&given, -1).flow_m3s));
    CHECK(isnan(qll_sizing_flow(&given, INFINITY).flow_m3s));
    given.outlet_pa = 1e6;
    CHECK(isnan(qll_sizing_kv(&given, 1e-3).kv_m3h) && !qll_sizing_kv(&given, 1e-3).converged);
    given = water_case(1e6, 7e5);
    given.pipe_in_bore_m = 0.05; /* a reducer at a valve of unknown bore */
    CHECK(isnan(qll_sizing_kv(&given, 1e-3).kv_m3h));
    CHECK(isnan(qll_sizing_flow(&given, 5).flow_m3s));
    given.valve_bore_m = 0.01; /* the reducers alone take more than the drop */
    given.pipe_out_bore_m = 0.05;
    CHECK(isnan(qll_sizing_kv(&given, 0.01).kv_m3h));
}

int main(void)
{
    TEST_RUN(without_reducers_and_turbulent_it_is_the_simple_form);
    TEST_RUN(kv_to_flow_and_back_with_reducers);
    TEST_RUN(kv_to_flow_and_back_when_viscous);
    TEST_RUN(a_reducer_asks_for_a_larger_kv);
    TEST_RUN(what_makes_no_sense_has_no_answer);
    return TEST_END();
}
