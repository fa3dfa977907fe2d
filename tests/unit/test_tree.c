/* A survey's pipes as a tree: what is shared, how high it lies, and that rest is what the still sums say. */
#include "dynamics/pipeline.h"
#include "station/operate.h"
#include "survey_scene.h"
#include "transient/tree.h"

#define TEST_GPM (3.785411784e-3 / 60)

static const char head[] =
    "{\"survey\": 1, \"units\": \"us\", \"water\": {\"temperature\": \"55 degF\"},"
    "\"supply\": {\"static_high\": \"110 psi\", \"static_low\": \"110 psi\", \"flow_test\": ["
    "{\"flow\": \"0 gpm\", \"pressure\": \"110 psi\"}, {\"flow\": \"100 gpm\", \"pressure\": \"95 psi\"}]},"
    "\"upstream\": [{\"pipe\": \"copper L\", \"nominal\": \"2 in\", \"length\": \"60 ft\", \"rise\": \"5 ft\","
    " \"fittings\": {\"elbow 90\": 4}}, {\"meter\": \"displacement\", \"nominal\": \"2 in\"},"
    " {\"backflow\": \"reduced pressure\", \"nominal\": \"2 in\"}],"
    "\"scenarios\": [{\"name\": \"flats\", \"use\": \"apartment\", \"people\": 20, \"fixtures\": ["
    "{\"fixture\": \"shower\", \"count\": 10}]}],";

/* Two ways part behind the riser; the third ends on it, higher than where it would be by length. */
static const char ways[] =
    "\"downstream\": {\"set_pressure\": \"60 psi\", \"heater\": {\"volume\": \"80 gal\"},"
    " \"expansion_tank\": {\"volume\": \"5 gal\"}, \"outlets\": ["
    "{\"name\": \"shower\", \"elevation\": \"40 ft\", \"needs\": \"20 psi\", \"path\": ["
    "{\"pipe\": \"copper L\", \"nominal\": \"2 in\", \"length\": \"60 ft\"},"
    "{\"pipe\": \"copper L\", \"nominal\": \"3/4 in\", \"length\": \"20 ft\", \"carries\": \"5 gpm\"}]},"
    "{\"name\": \"washer\", \"elevation\": \"36 ft\", \"needs\": \"20 psi\", \"path\": ["
    "{\"pipe\": \"copper L\", \"nominal\": \"2 in\", \"length\": \"60 ft\"},"
    "{\"pipe\": \"PEX\", \"nominal\": \"3/4 in\", \"length\": \"30 ft\", \"carries\": \"5 gpm\"}]},"
    "{\"name\": \"hose\", \"elevation\": \"28 ft\", \"needs\": \"20 psi\", \"path\": ["
    "{\"pipe\": \"copper L\", \"nominal\": \"2 in\", \"length\": \"60 ft\"}]}]},";

static const char parallel[] =
    "\"existing\": {\"stages\": [{\"branches\": [{\"valve\": \"2 in direct\", \"set_pressure\": \"85 psi\"}]},"
    "{\"branches\": [{\"valve\": \"3/4 in direct\", \"set_pressure\": \"65 psi\"},"
    " {\"valve\": \"2 in direct\", \"set_pressure\": \"60 psi\"}]}]}}";

typedef struct laid {
    scene at;
    qll_catalogue catalogue;
    qll_station station;
    qll_motion motion;
    qll_tree tree;
    qll_status status;
} laid;

static laid lay(const char *downstream, const char *existing, const qll_tree_arrester *arrester)
{
    char text[8192];
    (void)snprintf(text, sizeof text, "%s%s%s", head, downstream, existing);
    laid made = {.at = read_survey(text), .motion = qll_motion_usual()};
    CHECK(made.at.status == QLL_OK);
    made.catalogue = generic_catalogue(&made.at);
    CHECK(qll_survey_existing(&made.at.survey, &made.catalogue, made.at.arena, &made.station,
                              &made.at.assumed, &made.at.problems)
          == QLL_OK);
    const qll_tree_order order = {.site = &made.at.survey.site,
                                  .station = &made.station,
                                  .motion = &made.motion,
                                  .static_pa_gauge = 110 * 6894.757293168361,
                                  .peak_m3s = 50 * TEST_GPM};
    made.status = qll_tree_make(&order, arrester, arrester == NULL ? 0 : 1, &made.at.problems,
                                made.at.arena, &made.tree);
    return made;
}

static size_t lines_of(const qll_tree *tree, qll_tree_part part)
{
    size_t count = 0;
    for (size_t i = 0; i < tree->network.line_count; i++) {
        count += tree->pipes[i].part == part;
    }
    return count;
}

TEST(ways_share_what_they_have_in_common)
{
    laid made = lay(ways, parallel, NULL);
    const qll_tree *tree = &made.tree;
    CHECK(made.status == QLL_OK);
    CHECK(lines_of(tree, QLL_TREE_SERVICE) == 1);
    /* Between backflow preventer and valve, where the meter's loss sits; between the stages. */
    CHECK(lines_of(tree, QLL_TREE_HEADER) == 2);
    CHECK(lines_of(tree, QLL_TREE_WAY) == 3);
    CHECK(tree->valve_count == 3 && tree->stage_count == 2);
    CHECK(tree->heater != NULL && tree->tank != NULL);
    const qll_joint *joints = tree->network.joints;
    CHECK_NEAR(joints[tree->draws[2].joint].elevation_m, 28 * 0.3048, 1e-12);
    CHECK_NEAR(joints[tree->draws[0].joint].elevation_m, 40 * 0.3048, 1e-12);
    CHECK_WITHIN(joints[tree->main_joint].elevation_m, -5 * 0.3048, 1e-12);
    CHECK(joints[tree->outlet_joint].elevation_m == 0);
    for (size_t i = 0; i < tree->network.line_count; i++) {
        const qll_line *line = &tree->network.lines[i];
        const qll_tree_pipe *pipe = &tree->pipes[i];
        CHECK(pipe->part == QLL_TREE_HEADER || !pipe->is_speed_assumed);
        if (pipe->part == QLL_TREE_WAY && pipe->run == 1) {
            CHECK(line->from == tree->draws[2].joint);
            CHECK(strcmp(pipe->size->material, "PEX") == 0 ? line->wave_speed_m_s < 400
                                                           : line->wave_speed_m_s > 1200);
        }
    }
    qll_arena_close(made.at.arena);
}

/* At rest with 50 gpm drawn at the station's outlet, waves know nothing that the still sums do not. */
TEST(rest_is_what_the_still_sums_say)
{
    laid made = lay(ways, parallel, NULL);
    const double flow_m3s = 50 * TEST_GPM, psi = 6894.757293168361;
    const qll_site *site = &made.at.survey.site;
    const double inlet_pa = qll_site_inlet_pa(site, 110 * psi, flow_m3s);
    qll_operator *made_of = NULL;
    qll_operating_point *point = NULL;
    CHECK(qll_operator_make(&made.station, site, made.at.arena, &made_of) == QLL_OK);
    CHECK(qll_points_make(&made.station, 1, made.at.arena, &point) == QLL_OK);
    qll_operate(made_of, &inlet_pa, &flow_m3s, 1, point);
    const double outlet_pa_gauge = point->outlet_pa - site->barometric_pa;
    qll_tree *tree = &made.tree;
    tree->draws[3].opening.coefficient = qll_opening_coefficient(flow_m3s, outlet_pa_gauge);
    tree->draws[3].opening.at_first = 1;
    qll_pipeline *pipeline = NULL;
    CHECK(qll_pipeline_make(&tree->network, &(qll_grid_limits){0}, &made.at.problems, made.at.arena,
                            &pipeline)
          == QLL_OK);
    CHECK(qll_pipeline_rest(pipeline, 0) < 1e-3);
    const double found_pa = qll_pipeline_joint(pipeline, tree->outlet_joint)->pressure_pa_gauge;
    const double before_pa = qll_pipeline_joint(pipeline, tree->stage_joint[0])->pressure_pa_gauge;
    printf("    psi: %.3f before, %.3f behind; still sums %.3f and %.3f\n", before_pa / psi,
           found_pa / psi, (inlet_pa - site->barometric_pa) / psi, outlet_pa_gauge / psi);
    CHECK_WITHIN(before_pa, inlet_pa - site->barometric_pa, 0.1 * psi);
    CHECK_WITHIN(found_pa, outlet_pa_gauge, 0.1 * psi);
    /* The top of the building stands lower by the column of water alone. */
    CHECK_WITHIN(qll_pipeline_joint(pipeline, tree->draws[0].joint)->pressure_pa_gauge,
                 found_pa - qll_site_column_pa(site, 40 * 0.3048), 100);
    qll_arena_close(made.at.arena);
}

TEST(nothing_behind_and_nothing_before)
{
    static const char bare[] = "\"downstream\": {\"set_pressure\": \"60 psi\"},";
    static const char one[] =
        "\"existing\": {\"stages\": [{\"branches\": [{\"valve\": \"2 in direct\", \"set_pressure\": \"60 psi\"}]}]}}";
    const qll_tree_arrester arrester = {
        .draw = 0, .volume_m3 = 1e-4, .precharge_pa_gauge = 60 * 6894.757293168361};
    laid made = lay(bare, one, &arrester);
    CHECK(made.status == QLL_OK);
    CHECK(made.tree.draw_count == 1 && made.tree.draws[0].joint == made.tree.outlet_joint);
    CHECK(made.tree.heater == NULL && made.tree.tank == NULL && made.tree.arrester_count == 1);
    CHECK(lines_of(&made.tree, QLL_TREE_WAY) == 0);
    qll_problems problems = qll_problems_none(made.at.arena);
    CHECK(qll_network_check(&made.tree.network, &problems));
    qll_arena_close(made.at.arena);
}

TEST(pipes_without_length_are_refused_at_their_place)
{
    static const char flat[] =
        "\"downstream\": {\"outlets\": [{\"name\": \"a\", \"elevation\": \"0 ft\", \"needs\": \"20 psi\","
        "\"path\": [{\"pipe\": \"PEX\", \"nominal\": \"1 in\", \"length\": \"10 ft\"},"
        "{\"pipe\": \"PEX\", \"nominal\": \"1 in\", \"length\": \"0 ft\"}]}]},";
    laid made = lay(flat, parallel, NULL);
    CHECK(made.status == QLL_REFUSED);
    CHECK(made.at.problems.refusal_count == 1);
    CHECK_TEXT(made.at.problems.kept[made.at.problems.kept_count - 1].place.path,
               "downstream.outlets[0].path[1].length");
    qll_arena_close(made.at.arena);
}

int main(void)
{
    TEST_RUN(ways_share_what_they_have_in_common);
    TEST_RUN(rest_is_what_the_still_sums_say);
    TEST_RUN(nothing_behind_and_nothing_before);
    TEST_RUN(pipes_without_length_are_refused_at_their_place);
    return TEST_END();
}
