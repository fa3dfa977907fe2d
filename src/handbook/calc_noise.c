/* How loud a reducing valve is. */
#include "base/count.h"
#include "handbook/work_valve.h"
#include "physics/material.h"
#include "physics/noise.h"

#include <math.h>

static const qll_calc_input noise_inputs[] = {
    {.key = "mass_flow", .kind = QLL_KIND_MASS_FLOW, .help = QLL_TEXT_HELP_THROUGH_VALVE},
    {.key = "flow", .kind = QLL_KIND_FLOW, .help = QLL_TEXT_HELP_BY_VOLUME},
    QLL_INPUT_INLET_OUTLET,
    QLL_INPUT_COEFFICIENT,
    QLL_INPUT_FL,
    QLL_INPUT_FD,
    {.key = "xfz", .kind = QLL_KIND_NUMBER, .help = QLL_TEXT_HELP_XFZ_OR_ESTIMATED},
    {.key = "valve_bore", .kind = QLL_KIND_LENGTH, .help = QLL_TEXT_HELP_ENDS_OR_PIPE},
    {.key = "seat_bore", .kind = QLL_KIND_LENGTH, .help = QLL_TEXT_HELP_SEAT},
    QLL_INPUT_PIPE_SIZE,
    {.key = "pipe_bore", .kind = QLL_KIND_LENGTH, .help = QLL_TEXT_HELP_PIPE_BORE},
    {.key = "pipe_wall", .kind = QLL_KIND_LENGTH, .help = QLL_TEXT_HELP_PIPE_WALL},
    {.key = "wall_density", .kind = QLL_KIND_DENSITY, .help = QLL_TEXT_HELP_MATERIAL},
    {.key = "wall_sound_speed", .kind = QLL_KIND_SPEED_OF_SOUND, .help = QLL_TEXT_HELP_IN_MATERIAL},
    {.key = "air_density",
     .kind = QLL_KIND_DENSITY,
     .fallback = "1.2 kg/m3",
     .help = QLL_TEXT_HELP_AIR},
    {.key = "air_sound_speed",
     .kind = QLL_KIND_SPEED_OF_SOUND,
     .fallback = "343 m/s",
     .help = QLL_TEXT_HELP_AIR},
    QLL_INPUT_FLUID,
    {.key = "sound_speed", .kind = QLL_KIND_SPEED_OF_SOUND, .help = QLL_TEXT_HELP_IN_LIQUID},
    {.key = "edition", .is_word = true, .fallback = "2015", .help = QLL_TEXT_HELP_EDITION},
};

static double number_or(qll_calc_work *work, const char *key, double otherwise, double low,
                        double high)
{
    if (!qll_work_given(work, key)) {
        return otherwise;
    }
    double value = qll_work_number(work, key);
    qll_work_within(work, key, value, low, high);
    return value;
}

/* Bore, wall and material: of a pipe in the table, or as given. */
static qll_noise_pipe read_pipe(qll_calc_work *work)
{
    qll_noise_pipe pipe = {.bore_m = NAN, .wall_m = NAN};
    const qll_material *material = qll_material_find(qll_text_of("copper"));
    if (qll_work_given(work, "pipe")) {
        const qll_pipe_size *size = qll_work_pipe_size(work);
        if (size != NULL) {
            pipe.bore_m = size->bore_m;
            pipe.wall_m = size->wall_m;
            material = qll_material_find(qll_text_of(size->material));
        }
        if (qll_work_given(work, "pipe_bore") || qll_work_given(work, "pipe_wall")) {
            qll_work_refuse(work, "pipe_bore", 0, QLL_CODE_CONTRADICTION,
                            QLL_SAYS_WITH(INPUT_EITHER, qll_as_is("pipe + nominal"),
                                          qll_as_is("pipe_bore + pipe_wall")),
                            NULL);
        }
    } else if (qll_work_given(work, "pipe_bore") && qll_work_given(work, "pipe_wall")) {
        pipe.bore_m = qll_work_length_or_none(work, "pipe_bore");
        pipe.wall_m = qll_work_number(work, "pipe_wall");
        qll_work_within(work, "pipe_wall", pipe.wall_m, 1e-4, 0.1);
        if (!qll_work_given(work, "wall_density") || !qll_work_given(work, "wall_sound_speed")) {
            qll_assumed_add(work->assumed, qll_as_is("wall_density, wall_sound_speed"),
                            qll_as_word("copper"), (qll_said){.id = QLL_TEXT_WHY_NO_MATERIAL});
        }
    } else {
        qll_work_refuse_no_pipe(work, "pipe", "pipe_bore + pipe_wall");
    }
    /* Layered pipe has no entry; like plastic, it is outside the method. */
    pipe.is_plastic = material == NULL || !material->is_metal;
    double density = material == NULL ? (double)NAN : material->density_kg_m3;
    double sound_speed = material == NULL ? (double)NAN : material->sound_speed_m_s;
    pipe.wall_density_kg_m3 = number_or(work, "wall_density", density, 100, 25000);
    pipe.wall_sound_speed_m_s = number_or(work, "wall_sound_speed", sound_speed, 100, 15000);
    pipe.air_density_kg_m3 = qll_work_number(work, "air_density");
    qll_work_within(work, "air_density", pipe.air_density_kg_m3, 0.1, 100);
    pipe.air_sound_speed_m_s = qll_work_number(work, "air_sound_speed");
    qll_work_within(work, "air_sound_speed", pipe.air_sound_speed_m_s, 100, 1000);
    return pipe;
}

static double read_mass_flow(qll_calc_work *work, double density_kg_m3)
{
    bool by_volume = qll_work_given(work, "flow");
    if (qll_work_given(work, "mass_flow") == by_volume) {
        qll_work_refuse(work, "flow", 0, QLL_CODE_MISSING_KEY,
                        QLL_SAYS_WITH(INPUT_EITHER, qll_as_is("flow"), qll_as_is("mass_flow")),
                        NULL);
        return NAN;
    }
    double value = qll_work_number(work, by_volume ? "flow" : "mass_flow");
    qll_work_within(work, by_volume ? "flow" : "mass_flow", value, 1e-9, 1e5);
    return by_volume ? value * density_kg_m3 : value;
}

static void assume(qll_calc_work *work, const char *key, qll_text_id value, qll_text_id why)
{
    qll_assumed_add(work->assumed, qll_as_is(key), qll_as_text(value), (qll_said){.id = why});
}

static qll_noise_case read_case(qll_calc_work *work, double pipe_bore_m)
{
    qll_work_pressures at = qll_work_pressures_read(work);
    qll_work_fluid_read(work, &at.water);
    bool is_cv = false;
    double coefficient = qll_work_coefficient(work, &is_cv);
    qll_work_within(work, is_cv ? "cv" : "kv", coefficient, 1e-9, 1e5);
    qll_noise_case given = {.mass_flow_kg_s = read_mass_flow(work, at.water.density_kg_m3),
                            .inlet_pa = at.inlet_pa,
                            .outlet_pa = at.outlet_pa,
                            .density_kg_m3 = at.water.density_kg_m3,
                            .vapour_pressure_pa = at.water.vapour_pressure_pa,
                            .coefficient = coefficient,
                            .form = is_cv ? QLL_FORM_CV : QLL_FORM_KV,
                            .fl = qll_work_fl(work),
                            .fd = qll_work_fd(work),
                            .xfz = NAN,
                            .valve_bore_m = qll_work_length_or_none(work, "valve_bore"),
                            .seat_bore_m = qll_work_length_or_none(work, "seat_bore")};
    given.sound_speed_m_s = number_or(work, "sound_speed", at.water.sound_speed_m_s, 100, 5000);
    if (qll_work_given(work, "xfz")) {
        given.xfz = qll_work_number(work, "xfz");
        qll_work_within(work, "xfz", given.xfz, 0.05, 0.99);
    } else {
        assume(work, "xfz", QLL_TEXT_VALUE_ESTIMATED_XFZ, QLL_TEXT_WHY_ONE_PATH);
    }
    if (!qll_work_given(work, "valve_bore")) {
        given.valve_bore_m = pipe_bore_m;
        assume(work, "valve_bore", QLL_TEXT_VALUE_LIKE_PIPE, QLL_TEXT_WHY_OURS);
    }
    if (!qll_work_given(work, "seat_bore")) {
        assume(work, "seat_bore", QLL_TEXT_VALUE_LIKE_VALVE, QLL_TEXT_WHY_OURS);
    }
    return given;
}

static void refuse_beyond(qll_calc_work *work, qll_noise_limit limit)
{
    qll_work_refuse(work, limit == QLL_NOISE_PLASTIC ? "pipe" : "outlet", 0, QLL_CODE_OUT_OF_RANGE,
                    QLL_SAYS_WITH(INPUT_NO_LEVEL, qll_as_text(qll_noise_limit_texts[limit])), NULL);
}

static void show_steps(qll_calc_work *work, const qll_noise_case *given, const qll_noise *noise)
{
    const qll_noise_source *s = &noise->source;
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_NOISE_RATIO),
                     "(%.8g - %.8g)/(%.8g - %.6g) = %.6g; xFz = %.6g, xFzp1 = %.6g: %s",
                     given->inlet_pa, given->outlet_pa, given->inlet_pa, given->vapour_pressure_pa,
                     s->xf, s->xfz, s->xfzp1, s->is_cavitating ? "cavitating" : "turbulent");
    qll_work_with_absolute(work, "p1", given->inlet_pa);
    qll_work_with_absolute(work, "p2", given->outlet_pa);
    qll_work_with_absolute(work, "pv", given->vapour_pressure_pa);
    qll_work_with(work, "xFz", s->xfz, QLL_KIND_NUMBER);
    qll_work_finds(work, "xf", s->xf, QLL_KIND_NUMBER);
    qll_work_finds(work, "xfzp1", s->xfzp1, QLL_KIND_NUMBER);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_NOISE_JET),
                     "dpc = %.6g Pa: Dj = %.6g m, Uvc = %.6g m/s", s->critical_drop_pa, s->jet_m,
                     s->jet_velocity_m_s);
    qll_work_with(work, "dpc", s->critical_drop_pa, QLL_KIND_PRESSURE_DIFFERENCE);
    qll_work_with(work, "rho", given->density_kg_m3, QLL_KIND_DENSITY);
    qll_work_with(work, "FL", given->fl, QLL_KIND_NUMBER);
    qll_work_with(work, "Fd", given->fd, QLL_KIND_NUMBER);
    qll_work_finds(work, "jet_m", s->jet_m, QLL_KIND_LENGTH);
    qll_work_finds(work, "jet_velocity_m_s", s->jet_velocity_m_s, QLL_KIND_VELOCITY);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_NOISE_POWER),
                     "Wm = %.6g W, eta_t = %.6g, eta_c = %.6g: Wa = %.6g W", s->stream_power_w,
                     s->efficiency_turbulent, s->efficiency_cavitating, s->sound_power_w);
    qll_work_with(work, "m", given->mass_flow_kg_s, QLL_KIND_MASS_FLOW);
    qll_work_finds(work, "stream_power_w", s->stream_power_w, QLL_KIND_NUMBER);
    qll_work_finds(work, "sound_power_w", s->sound_power_w, QLL_KIND_NUMBER);
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_NOISE_INSIDE), "%.6g dB", s->inside_db);
    qll_work_with(work, "rho", given->density_kg_m3, QLL_KIND_DENSITY);
    qll_work_with(work, "c", given->sound_speed_m_s, QLL_KIND_SPEED_OF_SOUND);
    qll_work_finds(work, "inside_db", s->inside_db, QLL_KIND_NUMBER);
    qll_writer *peaks = qll_work_step(work, QLL_CALC_STEP_NOISE_PEAKS);
    qll_write_format(peaks, "NStr = %.6g: fp,turb = %.6g Hz", s->strouhal, s->peak_turbulent_hz);
    if (s->is_cavitating) {
        qll_write_format(peaks, ", fp,cav = %.6g Hz", s->peak_cavitating_hz);
    }
    qll_work_with(work, "NStr", s->strouhal, QLL_KIND_NUMBER);
    qll_work_finds(work, "peak_turbulent_hz", s->peak_turbulent_hz, QLL_KIND_NUMBER);
    if (s->is_cavitating) {
        qll_work_finds(work, "peak_cavitating_hz", s->peak_cavitating_hz, QLL_KIND_NUMBER);
    }
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_NOISE_WALL),
                     "fr = %.6g Hz, TLfr = %.6g dB, spread to 1 m %.6g dB", noise->ring_hz,
                     noise->ring_loss_db, noise->spread_db);
    qll_work_finds(work, "ring_hz", noise->ring_hz, QLL_KIND_NUMBER);
    qll_work_finds(work, "ring_loss_db", noise->ring_loss_db, QLL_KIND_NUMBER);
    qll_work_finds(work, "spread_db", noise->spread_db, QLL_KIND_NUMBER);
}

static void put_source(qll_calc_work *work, const qll_noise_source *s)
{
    const struct {
        const char *key;
        double value;
        qll_kind kind;
    } results[] = {
        {"xf", s->xf, QLL_KIND_NUMBER},
        {"xfz", s->xfz, QLL_KIND_NUMBER},
        {"xfzp1", s->xfzp1, QLL_KIND_NUMBER},
        {"critical_drop_pa", s->critical_drop_pa, QLL_KIND_PRESSURE_DIFFERENCE},
        {"jet_m", s->jet_m, QLL_KIND_LENGTH},
        {"jet_velocity_m_s", s->jet_velocity_m_s, QLL_KIND_VELOCITY},
        {"stream_power_w", s->stream_power_w, QLL_KIND_NUMBER},
        {"efficiency_turbulent", s->efficiency_turbulent, QLL_KIND_NUMBER},
        {"efficiency_cavitating", s->efficiency_cavitating, QLL_KIND_NUMBER},
        {"sound_power_w", s->sound_power_w, QLL_KIND_NUMBER},
        {"inside_db", s->inside_db, QLL_KIND_NUMBER},
        {"strouhal", s->strouhal, QLL_KIND_NUMBER},
        {"peak_turbulent_hz", s->peak_turbulent_hz, QLL_KIND_NUMBER},
    };

    for (size_t i = 0; i < QLL_COUNT(results); i++) {
        qll_work_result(work, results[i].key, results[i].value, results[i].kind);
    }
    if (s->is_cavitating) {
        qll_work_result(work, "peak_cavitating_hz", s->peak_cavitating_hz, QLL_KIND_NUMBER);
    }
    qll_work_word_result(work, "regime", s->is_cavitating ? "cavitating" : "turbulent");
}

static void put_wall(qll_calc_work *work, const qll_noise *noise)
{
    qll_work_result(work, "ring_hz", noise->ring_hz, QLL_KIND_NUMBER);
    qll_work_result(work, "ring_loss_db", noise->ring_loss_db, QLL_KIND_NUMBER);
    qll_work_result(work, "spread_db", noise->spread_db, QLL_KIND_NUMBER);
    if (isfinite(noise->loss_turbulent_db)) {
        qll_work_result(work, "loss_turbulent_db", noise->loss_turbulent_db, QLL_KIND_NUMBER);
    }
    if (isfinite(noise->loss_cavitating_db)) {
        qll_work_result(work, "loss_cavitating_db", noise->loss_cavitating_db, QLL_KIND_NUMBER);
    }
    static const char *const fields[] = {"centre_hz", "external_db"};
    double values[2 * QLL_NOISE_BAND_COUNT];
    for (size_t k = 0; k < QLL_NOISE_BAND_COUNT; k++) {
        values[2 * k] = noise->bands[k].centre_hz;
        values[2 * k + 1] = noise->bands[k].outside_db;
    }
    qll_work_objects(work, "bands", fields, QLL_COUNT(fields), values, QLL_NOISE_BAND_COUNT);
}

static void run_noise(qll_calc_work *work)
{
    static const char *const editions[] = {"2015", "2005"};
    bool is_2005 = qll_work_choice(work, "edition", editions, QLL_COUNT(editions)) == 1;
    const qll_noise_pipe pipe = read_pipe(work);
    const qll_noise_case given = read_case(work, pipe.bore_m);
    if (work->problems->refusal_count > 0) {
        return;
    }
    qll_noise_path path;
    qll_noise_path_make(&pipe, &path);
    qll_noise noise;
    qll_noise_of(&given, &path, is_2005 ? QLL_NOISE_2005 : QLL_NOISE_2015, &noise);
    if (noise.source.limit != QLL_NOISE_WITHIN) {
        refuse_beyond(work, noise.source.limit);
        return;
    }
    qll_work_result(work, "level_dba", noise.level_dba, QLL_KIND_NUMBER);
    if (!is_2005) {
        qll_noise_range range = qll_noise_range_of(&given, &path,
                                                   isnan(given.xfz) ? QLL_XFZ_UNCERTAINTY_ESTIMATED
                                                                    : QLL_XFZ_UNCERTAINTY_SHEET);
        qll_work_result(work, "level_low_dba", range.low_dba, QLL_KIND_NUMBER);
        qll_work_result(work, "level_high_dba", range.high_dba, QLL_KIND_NUMBER);
    }
    put_source(work, &noise.source);
    put_wall(work, &noise);
    show_steps(work, &given, &noise);
    qll_write_format(
        qll_work_step(work, is_2005 ? QLL_CALC_STEP_NOISE_OVERALL : QLL_CALC_STEP_NOISE_BANDS),
        "%.6g dB(A) at 1 m from the pipe", noise.level_dba);
    qll_work_finds(work, "level_dba", noise.level_dba, QLL_KIND_NUMBER);
}

const qll_calc qll_calc_noise = {
    .id = QLL_CALC_NOISE,
    .name = "noise",
    .inputs = noise_inputs,
    .input_count = QLL_COUNT(noise_inputs),
    .formula = "2015: third octaves inside the pipe less the wall's loss; 2005: one loss for all",
    .run = run_noise,
};
