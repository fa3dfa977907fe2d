/* Equation numbers are those of docs/theory/valve_motion.md. */
#include "dynamics/lumped.h"

#include "numeric/root.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

static const double pi = 3.14159265358979323846;
static const double air_exponent = 1.2;

qll_plug qll_lumped_pipe_plug(const qll_lumped_pipe *pipe, double density_kg_m3,
                              double *holds_m3_pa)
{
    assert(pipe != NULL && holds_m3_pa != NULL);
    double area = pi / 4 * pipe->bore_m * pipe->bore_m;
    double impedance = density_kg_m3 * pipe->wave_speed_m_s / area;
    *holds_m3_pa =
        area * pipe->length_m / (density_kg_m3 * pipe->wave_speed_m_s * pipe->wave_speed_m_s);
    return (qll_plug){.inertance_kg_m4 = density_kg_m3 * pipe->length_m / area,
                      .resistance_pa_s_m3 = -impedance * log1p(-pipe->loss)};
}

static bool is_plug(const qll_plug *plug)
{
    return plug->inertance_kg_m4 >= 0 && isfinite(plug->inertance_kg_m4)
           && plug->resistance_pa_s_m3 >= 0 && isfinite(plug->resistance_pa_s_m3);
}

static bool is_over_0(double value)
{
    return value > 0 && isfinite(value);
}

static bool is_sound(const qll_around *around)
{
    return is_plug(&around->before) && is_plug(&around->behind) && is_over_0(around->supply_pa)
           && is_over_0(around->behind_m3_pa) && around->barometric_pa >= 0
           && around->barometric_pa < around->supply_pa && around->air_m3 >= 0
           && isfinite(around->air_m3) && (around->air_m3 == 0 || is_over_0(around->air_at_pa))
           && (around->before.inertance_kg_m4 == 0 || is_over_0(around->before_m3_pa))
           && (around->behind.inertance_kg_m4 == 0 || is_over_0(around->far_m3_pa));
}

static qll_lumped_places places_of(const qll_around *around, size_t valve_count)
{
    qll_lumped_places at = {.outlet = QLL_REGULATOR_VALUES * valve_count};
    size_t next = at.outlet + 1;
    at.far = at.outlet;
    if (around->behind.inertance_kg_m4 > 0) {
        at.flow_out = next;
        at.far = next + 1;
        next += 2;
    }
    if (around->before.inertance_kg_m4 > 0) {
        at.inlet = next;
        at.flow_in = next + 1;
        next += 2;
    }
    at.taps = next;
    at.count = next + 1;
    return at;
}

qll_status qll_lumped_make(const qll_regulator *valves, size_t valve_count,
                           const qll_around *around, qll_arena *arena, qll_lumped *lumped)
{
    assert(around != NULL && arena != NULL && lumped != NULL);
    if (valve_count == 0 || valve_count > SIZE_MAX / 16 || !is_sound(around)) {
        return QLL_REFUSED;
    }
    *lumped = (qll_lumped){.valves = valves,
                           .modes = qll_arena_take(arena, valve_count, sizeof *lumped->modes),
                           .valve_count = valve_count,
                           .around = *around,
                           .at = places_of(around, valve_count)};
    return lumped->modes != NULL ? QLL_OK : QLL_NO_MEMORY;
}

static double inlet_pa(const qll_lumped *l, const double *values)
{
    return qll_lumped_has_before(l) ? values[l->at.inlet] : l->around.supply_pa;
}

qll_regulator_place qll_lumped_place(const qll_lumped *lumped, const double *values, size_t j)
{
    return (qll_regulator_place){.lift_m = values[2 * j],
                                 .second = values[2 * j + 1],
                                 .inlet_pa = inlet_pa(lumped, values),
                                 .outlet_pa = values[lumped->at.outlet]};
}

/* What the outlet's node gives, and how that changes with its pressure. */
static double behind_m3_pa(const qll_around *around, double outlet_pa, double *slope)
{
    *slope = 0;
    if (around->air_m3 == 0) {
        return around->behind_m3_pa;
    }
    double pa = fmax(outlet_pa, 1); /* nearer to a vacuum than any water that still flows */
    double air =
        around->air_m3 * pow(around->air_at_pa / pa, 1 / air_exponent) / (air_exponent * pa);
    *slope = outlet_pa > 1 ? -air * (1 + 1 / air_exponent) / pa : 0;
    return around->behind_m3_pa + air;
}

/* What the taps draw at the pressure before them. */
static double taps_m3s(const qll_lumped *l, const double *values)
{
    return values[l->at.taps] * qll_smooth_root(values[l->at.far] - l->around.barometric_pa);
}

static void pipe_rates(const qll_lumped *l, const double *values, double drawn, double *rates)
{
    const qll_around *around = &l->around;
    if (qll_lumped_has_before(l)) {
        double flow = values[l->at.flow_in];
        rates[l->at.inlet] = (flow - drawn) / around->before_m3_pa;
        rates[l->at.flow_in] =
            (around->supply_pa - values[l->at.inlet] - around->before.resistance_pa_s_m3 * flow)
            / around->before.inertance_kg_m4;
    }
    if (qll_lumped_has_behind(l)) {
        double flow = values[l->at.flow_out];
        rates[l->at.flow_out] =
            (values[l->at.outlet] - values[l->at.far] - around->behind.resistance_pa_s_m3 * flow)
            / around->behind.inertance_kg_m4;
        rates[l->at.far] = (flow - taps_m3s(l, values)) / around->far_m3_pa;
    }
}

void qll_lumped_rates(const void *lumped, const double *values, double *rates)
{
    const qll_lumped *l = lumped;
    double drawn = 0, given = 0;
    for (size_t j = 0; j < l->valve_count; j++) {
        qll_regulator_place place = qll_lumped_place(l, values, j);
        qll_regulator_moves moves = qll_regulator_at(&l->valves[j], l->modes[j], &place);
        rates[2 * j] = moves.rate[0];
        rates[2 * j + 1] = moves.rate[1];
        drawn += moves.from_inlet_m3s;
        given += moves.to_outlet_m3s;
    }
    pipe_rates(l, values, drawn, rates);
    double away = qll_lumped_has_behind(l) ? values[l->at.flow_out] : taps_m3s(l, values);
    double slope;
    rates[l->at.outlet] = (given - away) / behind_m3_pa(&l->around, values[l->at.outlet], &slope);
    rates[l->at.taps] = l->taps_rate;
}

/* Adds what one valve does to the rows of its own values and of the nodes. */
static void valve_slopes(const qll_lumped *l, const double *values, size_t j, double *slopes)
{
    size_t n = l->at.count;
    qll_regulator_place place = qll_lumped_place(l, values, j);
    qll_regulator_slopes s = qll_regulator_slopes_at(&l->valves[j], l->modes[j], &place);
    const size_t columns[QLL_BY_COUNT] = {2 * j, 2 * j + 1, l->at.inlet, l->at.outlet};
    for (int c = 0; c < QLL_BY_COUNT; c++) {
        if (c == QLL_BY_INLET && !qll_lumped_has_before(l)) {
            continue;
        }
        slopes[2 * j * n + columns[c]] += s.rate[0][c];
        slopes[(2 * j + 1) * n + columns[c]] += s.rate[1][c];
        slopes[l->at.outlet * n + columns[c]] += s.to_outlet[c];
        if (qll_lumped_has_before(l)) {
            slopes[l->at.inlet * n + columns[c]] -= s.from_inlet[c] / l->around.before_m3_pa;
        }
    }
}

static void taps_slopes(const qll_lumped *l, const double *values, double *row, double held)
{
    double above = values[l->at.far] - l->around.barometric_pa;
    row[l->at.far] -= values[l->at.taps] * qll_smooth_root_slope(above) / held;
    row[l->at.taps] -= qll_smooth_root(above) / held;
}

static void pipe_slopes(const qll_lumped *l, const double *values, double *slopes)
{
    const qll_around *around = &l->around;
    size_t n = l->at.count;
    if (qll_lumped_has_before(l)) {
        slopes[l->at.inlet * n + l->at.flow_in] += 1 / around->before_m3_pa;
        double *row = &slopes[l->at.flow_in * n];
        row[l->at.inlet] = -1 / around->before.inertance_kg_m4;
        row[l->at.flow_in] = -around->before.resistance_pa_s_m3 / around->before.inertance_kg_m4;
    }
    if (qll_lumped_has_behind(l)) {
        double *row = &slopes[l->at.flow_out * n];
        row[l->at.outlet] = 1 / around->behind.inertance_kg_m4;
        row[l->at.far] = -1 / around->behind.inertance_kg_m4;
        row[l->at.flow_out] = -around->behind.resistance_pa_s_m3 / around->behind.inertance_kg_m4;
        slopes[l->at.far * n + l->at.flow_out] = 1 / around->far_m3_pa;
        taps_slopes(l, values, &slopes[l->at.far * n], around->far_m3_pa);
    }
}

void qll_lumped_slopes(const void *lumped, const double *values, double *slopes)
{
    const qll_lumped *l = lumped;
    size_t n = l->at.count;
    double *outlet = &slopes[l->at.outlet * n];
    double slope;
    double held = behind_m3_pa(&l->around, values[l->at.outlet], &slope);
    for (size_t j = 0; j < l->valve_count; j++) {
        valve_slopes(l, values, j, slopes);
    }
    for (size_t c = 0; c < n; c++) {
        outlet[c] /= held;
    }
    if (qll_lumped_has_behind(l)) {
        outlet[l->at.flow_out] -= 1 / held;
    } else {
        taps_slopes(l, values, outlet, held);
    }
    if (slope != 0) { /* the air gives less the harder it is pressed */
        double into = 0;
        for (size_t j = 0; j < l->valve_count; j++) {
            qll_regulator_place place = qll_lumped_place(l, values, j);
            into += qll_regulator_at(&l->valves[j], l->modes[j], &place).to_outlet_m3s;
        }
        into -= qll_lumped_has_behind(l) ? values[l->at.flow_out] : taps_m3s(l, values);
        outlet[l->at.outlet] -= into * slope / (held * held);
    }
    pipe_slopes(l, values, slopes);
}

typedef struct rest_question {
    const qll_lumped *lumped;
    double inlet_pa, flow_m3s;
} rest_question;

static double excess_m3s(double outlet_pa, void *context)
{
    const rest_question *question = context;
    double sum = -question->flow_m3s;
    for (size_t j = 0; j < question->lumped->valve_count; j++) {
        const qll_regulator *valve = &question->lumped->valves[j];
        double lift_m = qll_regulator_rest_m(valve, question->inlet_pa, outlet_pa);
        qll_regulator_place place = {
            .lift_m = lift_m, .inlet_pa = question->inlet_pa, .outlet_pa = outlet_pa};
        sum += qll_regulator_flow_m3s(valve, qll_regulator_region(valve, lift_m), &place);
    }
    return sum;
}

/* Where the first valve just begins to open. */
static double shut_pa(const qll_lumped *l, double inlet)
{
    double highest = 0;
    for (size_t j = 0; j < l->valve_count; j++) {
        const qll_regulator *valve = &l->valves[j];
        double effect = valve->inlet_m2 / valve->outlet_m2;
        highest = fmax(highest, valve->set_pa + effect * (inlet - valve->set_inlet_pa));
    }
    return fmin(highest, inlet);
}

bool qll_lumped_rest(qll_lumped *lumped, double flow_m3s, double *values)
{
    assert(lumped != NULL && values != NULL);
    const qll_around *around = &lumped->around;
    double inlet =
        around->supply_pa
        - (qll_lumped_has_before(lumped) ? around->before.resistance_pa_s_m3 * flow_m3s : 0);
    if (!(flow_m3s >= 0) || !(inlet > around->barometric_pa)) {
        return false;
    }
    double outlet = shut_pa(lumped, inlet);
    if (flow_m3s > 0) {
        rest_question question = {lumped, inlet, flow_m3s};
        qll_root root =
            qll_root_find(around->barometric_pa, outlet, 1e-13 * inlet, excess_m3s, &question);
        if (!root.converged) {
            return false;
        }
        outlet = root.value;
    }
    double far =
        outlet - (qll_lumped_has_behind(lumped) ? around->behind.resistance_pa_s_m3 * flow_m3s : 0);
    if (!(far > around->barometric_pa)) {
        return false;
    }
    memset(values, 0, lumped->at.count * sizeof *values);
    for (size_t j = 0; j < lumped->valve_count; j++) {
        double lift_m = qll_regulator_rest_m(&lumped->valves[j], inlet, outlet);
        values[2 * j] = lift_m;
        values[2 * j + 1] = lumped->valves[j].acting == QLL_ACTING_PILOT ? outlet : 0;
        lumped->modes[j] = (qll_regulator_mode){
            .region = qll_regulator_region(&lumped->valves[j], lift_m), .drive = QLL_DRIVE_FREE};
    }
    values[lumped->at.outlet] = outlet;
    if (qll_lumped_has_behind(lumped)) {
        values[lumped->at.flow_out] = flow_m3s;
        values[lumped->at.far] = far;
    }
    if (qll_lumped_has_before(lumped)) {
        values[lumped->at.inlet] = inlet;
        values[lumped->at.flow_in] = flow_m3s;
    }
    values[lumped->at.taps] = flow_m3s / qll_smooth_root(far - around->barometric_pa);
    lumped->taps_rate = 0;
    return true;
}
