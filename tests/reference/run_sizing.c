#include "physics/sizing.h"
#include "physics/water.h"
#include "truth.h"

/* NaN for an empty cell. */
static double maybe(const qll_table *rows, size_t row, const char *column)
{
    return qll_table_number(rows, row, qll_table_column(rows, column));
}

static qll_sizing_case case_of(const qll_table *rows, size_t row)
{
    double density = truth_number(rows, row, "relative_density") * QLL_REFERENCE_DENSITY_KG_M3;
    double nu = truth_number(rows, row, "kinematic_viscosity_m2_s");
    return (qll_sizing_case){
        .inlet_pa = truth_number(rows, row, "inlet_pa"),
        .outlet_pa = truth_number(rows, row, "outlet_pa"),
        .density_kg_m3 = density,
        .vapour_pressure_pa = truth_number(rows, row, "vapour_pressure_pa"),
        .critical_pressure_pa = truth_number(rows, row, "critical_pressure_pa"),
        .viscosity_pa_s = nu * density,
        .fl = truth_number(rows, row, "fl"),
        .fd = truth_number(rows, row, "fd"),
        .valve_bore_m = maybe(rows, row, "bore_mm") / 1000,
        .pipe_in_bore_m = maybe(rows, row, "in_mm") / 1000,
        .pipe_out_bore_m = maybe(rows, row, "out_mm") / 1000,
    };
}

static double quantity(const qll_table *rows, size_t row)
{
    const qll_sizing_case given = case_of(rows, row);
    double flow_m3s = truth_number(rows, row, "flow_m3h") / 3600;
    double kv = maybe(rows, row, "kv_m3h");
    qll_sizing sizing = isnan(kv) ? qll_sizing_kv(&given, flow_m3s) : qll_sizing_flow(&given, kv);

    const struct {
        const char *name;
        double value;
    } quantities[] = {
        {"kv", sizing.kv_m3h},
        {"flow_m3h", sizing.flow_m3s * 3600},
        {"ff", sizing.ff},
        {"choked", sizing.choked ? 1 : 0},
        {"choked_drop_pa", sizing.choked_drop_pa},
        {"fp", sizing.fp},
        {"flp", sizing.flp},
        {"xi1", sizing.loss.inlet},
        {"xi2", sizing.loss.outlet},
        {"xib1", sizing.loss.inlet_velocity},
        {"xib2", sizing.loss.outlet_velocity},
        {"sum", sizing.loss.sum},
        {"reynolds_at_flow", qll_sizing_reynolds(&given, kv, flow_m3s)},
        {"fr", qll_sizing_fr(&given, kv, maybe(rows, row, "reynolds"))},
    };

    for (size_t i = 0; i < sizeof quantities / sizeof quantities[0]; i++) {
        if (truth_is(rows, row, "quantity", quantities[i].name)) {
            CHECK(sizing.converged);
            return quantities[i].value;
        }
    }
    return NAN;
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/reference/sizing.csv", arena);
    CHECK(rows.row_count > 0);
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!CHECK_NEAR(quantity(&rows, row), truth_number(&rows, row, "expected"),
                        truth_number(&rows, row, "tolerance"))) {
            printf("    in sizing.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
