/* draw_figures FOLDER: every figure of the examples as SVG and PNG, for tests and for eyes. */
#include "building_answers.h"
#include "drawn.h"
#include "engine/find.h"
#include "paper/paper.h"
#include "physics/noise.h"
#include "report/diagram.h"

#define QLL_WIDTH_MM  170.0
#define QLL_HEIGHT_MM 95.0

static const char *const examples[] = {"hillside", "morning-rush", "repurposed-building"};

static const char *out;

static void save(qll_text bytes, const char *example, const char *name, const char *ending)
{
    char path[4096];
    int size = snprintf(path, sizeof path, "%s/%s-%s.%s", out, example, name, ending);
    FILE *file = size > 0 && (size_t)size < sizeof path ? fopen(path, "wb") : NULL;
    if (CHECK(file != NULL)) {
        CHECK(fwrite(bytes.bytes, 1, bytes.size, file) == bytes.size);
        CHECK(fclose(file) == 0);
    }
}

static void finish(const qll_canvas *canvas, const char *example, const char *name)
{
    CHECK(qll_arena_refused(canvas->arena) == 0 && canvas->count > 10 && canvas->open_marks == 0);
    CHECK(drawn_outside(canvas) == 0);
    CHECK(drawn_overlaps(canvas) == 0);
    save(drawn_svg(canvas, name), example, name, "svg");
    qll_paper paper;
    if (CHECK(qll_png_write(canvas, 0, 6, NULL, canvas->arena, &paper) == QLL_OK)) {
        save(paper.bytes, example, name, "png");
    }
}

static qll_figure figure_on(qll_canvas *canvas, const building *of)
{
    return (qll_figure){.canvas = canvas,
                        .area = {2, 2, QLL_WIDTH_MM - 4, QLL_HEIGHT_MM - 4},
                        .units = of->prepared.survey.units};
}

/* The last valve's map, or the ladder. */
static void draw_way(const qll_figure *figure, const qll_pictured *pictured, bool as_map)
{
    const qll_wording *wording = pictured->wording;
    qll_arena *arena = figure->canvas->arena;
    const qll_map *maps = NULL;
    const qll_ladder *ladders = NULL;
    size_t map_count = 0;
    size_t ladder_count = 0;
    CHECK(qll_maps_make(pictured->station, wording->site, wording->duty, arena, &maps, &map_count)
          == QLL_OK);
    CHECK(qll_ladders_make(pictured->station, wording->site, wording->duty, arena, &ladders,
                           &ladder_count)
          == QLL_OK);
    if (as_map && map_count > 0) {
        qll_figure_map_of(figure, &maps[map_count - 1], wording->duty->peak_m3s);
    } else {
        qll_figure_ladder_of(figure, wording, ladders, ladder_count);
    }
}

static qll_pictured pictured_of(const building *of, const qll_station *station, qll_arena *arena)
{
    const qll_standing at = {station, of->wording.site, of->wording.duty};
    qll_pictured pictured = {.wording = &of->wording, .station = station};
    CHECK(qll_find_curves(&at, arena, &pictured.curves) == QLL_OK);
    return pictured;
}

static void draw_all(const char *example, qll_arena *arena)
{
    building made;
    if (!CHECK(building_answers(example, arena, &made))) {
        return;
    }
    const qll_pictured pictured = pictured_of(&made, &made.design.shown[0].station, arena);
    bool has_existing = made.existing.stage_count > 0;
    const qll_pictured existing =
        has_existing ? pictured_of(&made, &made.existing, arena) : pictured;
    static const char *const names[] = {
        "duration",        "day", "falloff",   "falloff_existing",   "map",
        "ladder_existing", "set", "schematic", "schematic_existing", "noise",
        "spectrum"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        qll_canvas canvas = qll_canvas_new(QLL_WIDTH_MM, QLL_HEIGHT_MM, arena);
        qll_figure figure = figure_on(&canvas, &made);
        const qll_pictured *either = &existing;
        switch (i) {
        case 0: qll_figure_duration_of(&figure, &made.prepared.demands[0], &pictured); break;
        case 1: qll_figure_day_of(&figure, &made.prepared.demands[0]); break;
        case 2: qll_figure_falloff_of(&figure, &pictured); break;
        case 3: qll_figure_falloff_of(&figure, either); break;
        case 4: draw_way(&figure, &pictured, true); break;
        case 5: draw_way(&figure, either, false); break;
        case 6: qll_figure_candidates_of(&figure, &made.design, NULL); break;
        case 7: qll_diagram_draw(&figure, &(qll_diagram){.station = pictured.station}); break;
        case 9: qll_figure_noise_of(&figure, &pictured); break;
        case 10: qll_figure_spectrum_of(&figure, &pictured); break;
        default:
            qll_diagram_draw(&figure,
                             &(qll_diagram){.station = either->station, .has_relief = true});
            break;
        }
        finish(&canvas, example, names[i]);
    }
}

/* Three stages of three branches, whose ids nobody would choose. */
static void draw_widest(qll_arena *arena)
{
    static const char *const ids[] = {
        "G-D50",
        "a valve with a name so long that no drawing has room for all of it, not by far",
        "<b>&\"'\xE2\x80\xAE\x01",
    };
    static qll_valve valves[3];
    static qll_branch branches[3];
    static qll_stage stages[3];
    for (size_t i = 0; i < 3; i++) {
        valves[i] = (qll_valve){.id = ids[i],
                                .nominal_m = 0.05,
                                .acting = i == 0 ? QLL_ACTING_PILOT : QLL_ACTING_DIRECT};
        branches[i] = (qll_branch){.valve = &valves[i], .set_pa_gauge = 4e5 - 1e4 * (double)i};
        stages[i] = (qll_stage){.branches = branches, .branch_count = 3};
    }
    const qll_station station = {stages, 3};
    qll_canvas canvas = qll_canvas_new(QLL_WIDTH_MM, QLL_HEIGHT_MM, arena);
    qll_figure figure = {
        &canvas, {2, 2, QLL_WIDTH_MM - 4, QLL_HEIGHT_MM - 4}, QLL_UNITS_US, QLL_LANGUAGE_EN};
    static const qll_branch_sizes sizes[] = {
        {.in = -1, .between = -1, .out = 1, .has_cock = true}, {.has_cock = true}, {.out = 1}};
    static const qll_branch_sizes *const rows[] = {sizes, sizes, sizes};
    qll_diagram_draw(&figure,
                     &(qll_diagram){.station = &station, .sizes = rows, .has_relief = true});
    finish(&canvas, "made", "widest");
}

static void draw_ladder(qll_arena *arena)
{
    static const char *const names[] = {
        "main",           "behind the meter",  "station inlet",       "between the stages",
        "station outlet", "foot of the riser", "seventh-floor shower"};
    static const double at_night[] = {910e3, 910e3, 890e3, 620e3, 430e3, 425e3, 190e3};
    static const double at_peak[] = {800e3, 735e3, 700e3, 560e3, 345e3, 320e3, 110e3};
    qll_canvas canvas = qll_canvas_new(QLL_WIDTH_MM, QLL_HEIGHT_MM, arena);
    qll_figure figure = {
        &canvas, {2, 2, QLL_WIDTH_MM - 4, QLL_HEIGHT_MM - 4}, QLL_UNITS_US, QLL_LANGUAGE_ES};
    const qll_guide levels[] = {
        qll_figure_pressure_guide(&figure, QLL_SAYS_FIGURE_NEVER_ABOVE, 551e3),
        qll_figure_pressure_guide(&figure, QLL_SAYS_FIGURE_WANTED, 425e3)};
    qll_figure_ladder(&figure, &(qll_ladder_figure){names, at_night, at_peak, 7, levels, 2});
    finish(&canvas, "made", "ladder");
}

/* A valve of 50 mm from 8 to 3 bar, by the standard's method, at three flows and over all of them. */
static void draw_noise(qll_arena *arena)
{
    static const char *const names[] = {"1 L/s", "3 L/s", "8 L/s"};
    static const double flows[] = {1e-3, 3e-3, 8e-3};
    static double centres[3][QLL_NOISE_BAND_COUNT];
    static double levels[3][QLL_NOISE_BAND_COUNT];
    static double flow_axis[40];
    static double dba[40];
    const qll_noise_pipe pipe = {.bore_m = 0.0525,
                                 .wall_m = 3.9e-3,
                                 .wall_density_kg_m3 = 7800,
                                 .wall_sound_speed_m_s = 5000,
                                 .air_density_kg_m3 = QLL_AIR_DENSITY_KG_M3,
                                 .air_sound_speed_m_s = QLL_AIR_SOUND_SPEED_M_S};
    qll_noise_path path;
    qll_noise_path_make(&pipe, &path);
    qll_noise_case one = {.inlet_pa = 9.0e5,
                          .outlet_pa = 4.0e5,
                          .density_kg_m3 = 998,
                          .vapour_pressure_pa = 2339,
                          .sound_speed_m_s = 1480,
                          .form = QLL_FORM_KV,
                          .fl = 0.9,
                          .fd = 0.45,
                          .xfz = 0.5,
                          .valve_bore_m = 0.05,
                          .seat_bore_m = NAN};
    qll_level_curve curves[3];
    for (size_t i = 0; i < 3; i++) {
        one.mass_flow_kg_s = flows[i] * 998;
        one.coefficient = flows[i] * 3600 / sqrt(5.0);
        qll_noise noise;
        qll_noise_of(&one, &path, QLL_NOISE_2015, &noise);
        for (size_t k = 0; k < QLL_NOISE_BAND_COUNT; k++) {
            centres[i][k] = noise.bands[k].centre_hz;
            levels[i][k] = noise.bands[k].outside_db;
        }
        curves[i] = (qll_level_curve){names[i], "", centres[i], levels[i], QLL_NOISE_BAND_COUNT};
    }
    qll_canvas canvas = qll_canvas_new(QLL_WIDTH_MM, QLL_HEIGHT_MM, arena);
    qll_figure figure = {
        &canvas, {2, 2, QLL_WIDTH_MM - 4, QLL_HEIGHT_MM - 4}, QLL_UNITS_SI, QLL_LANGUAGE_EN};
    qll_figure_spectrum(&figure, curves, 3);
    finish(&canvas, "made", "spectrum");
    for (size_t i = 0; i < 40; i++) {
        flow_axis[i] = 2e-4 * (double)(i + 1);
        one.mass_flow_kg_s = flow_axis[i] * 998;
        one.coefficient = flow_axis[i] * 3600 / sqrt(5.0);
        dba[i] = qll_noise_level_dba(&one, &path, NULL);
    }
    const qll_level_curve curve = {"G-D50 (A)", "A", flow_axis, dba, 40};
    const qll_guide limit = {"bedroom next door 30 dB(A)", 30};
    canvas = qll_canvas_new(QLL_WIDTH_MM, QLL_HEIGHT_MM, arena);
    qll_figure_noise(&figure, &curve, 1, &limit, 1);
    finish(&canvas, "made", "noise");
}

TEST(figures_that_no_example_has_are_drawn)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 28);
    draw_widest(arena);
    draw_ladder(arena);
    draw_noise(arena);
    qll_arena_close(arena);
}

TEST(every_figure_of_every_example_is_drawn)
{
    for (size_t i = 0; i < sizeof examples / sizeof examples[0]; i++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 29);
        draw_all(examples[i], arena);
        qll_arena_close(arena);
    }
}

int main(int count, char **arguments)
{
    out = count > 1 ? arguments[1] : ".";
    TEST_RUN(every_figure_of_every_example_is_drawn);
    TEST_RUN(figures_that_no_example_has_are_drawn);
    return TEST_END();
}
