#include "noise_annex.h"
#include "physics/valve.h"

static const double psi = 6894.757293168361;
static const double inlet_pa = 1135538.594;

static qll_noise_path copper_path(void)
{
    const qll_noise_pipe pipe = {.bore_m = 0.026035,
                                 .wall_m = 0.00127,
                                 .wall_density_kg_m3 = 8940,
                                 .wall_sound_speed_m_s = 3600,
                                 .air_density_kg_m3 = 1.2,
                                 .air_sound_speed_m_s = 343};
    qll_noise_path path;
    qll_noise_path_make(&pipe, &path);
    return path;
}

static qll_noise_case building_case(double outlet_psig, double cv, double xfz, double seat_m)
{
    const qll_water water = {.density_kg_m3 = 999.4963646, .vapour_pressure_pa = 1767.744231};
    double outlet_pa = inlet_pa - (150 - outlet_psig) * psi;
    double flow_m3s = 0.9458729087 / water.density_kg_m3;
    double kv = qll_valve_kv_m3h(flow_m3s, inlet_pa, outlet_pa, 0.9, &water);
    return (qll_noise_case){.mass_flow_kg_s = 0.9458729087,
                            .inlet_pa = inlet_pa,
                            .outlet_pa = outlet_pa,
                            .density_kg_m3 = water.density_kg_m3,
                            .vapour_pressure_pa = water.vapour_pressure_pa,
                            .sound_speed_m_s = 1470.201705,
                            .coefficient = isnan(cv) ? kv * QLL_CV_PER_KV : cv,
                            .form = QLL_FORM_CV,
                            .fl = 0.9,
                            .fd = 0.46,
                            .xfz = xfz,
                            .valve_bore_m = 0.0254,
                            .seat_bore_m = seat_m};
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/noise_building.csv", arena);
    const qll_noise_path path = copper_path();
    CHECK(rows.row_count > 0);
    for (size_t row = 0; row < rows.row_count; row++) {
        const qll_noise_case given =
            building_case(truth_number(&rows, row, "outlet_psig"),
                          qll_table_number(&rows, row, qll_table_column(&rows, "cv")),
                          qll_table_number(&rows, row, qll_table_column(&rows, "xfz")),
                          truth_number(&rows, row, "seat_m"));
        qll_noise noise;
        qll_noise_of(&given, &path, QLL_NOISE_2015, &noise);
        if (!CHECK_WITHIN(noise_quantity(&noise, &rows, row), truth_number(&rows, row, "expected"),
                          truth_number(&rows, row, "tolerance"))) {
            printf("    in noise_building.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
