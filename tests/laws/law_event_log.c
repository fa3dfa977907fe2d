/* What a run shows, a log of it tells: hammer, hunting and creep of simulated stations, as a logger at the station would have
 * written them, are found by `quell log` as what they are. */
#include "quell/quell.h"

#include "survey_scene.h"
#include "transient/run.h"

#define TEST_PSI 6894.757293168361
#define TEST_GPM (3.785411784e-3 / 60)

static const char survey[] =
    "{\"survey\": 1, \"units\": \"us\", \"supply\": {\"static_high\": \"100 psi\","
    " \"static_low\": \"100 psi\"}, \"upstream\": [{\"pipe\": \"copper L\", \"nominal\": \"%s\","
    " \"length\": \"40 ft\"}],"
    "\"downstream\": {\"set_pressure\": \"60 psi\", %s \"outlets\": [{\"name\": \"washer\","
    " \"elevation\": \"0 ft\", \"needs\": \"20 psi\", \"path\": [{\"pipe\": \"copper L\","
    " \"nominal\": \"%s\", \"length\": \"60 ft\"}]}]},"
    "\"scenarios\": [{\"name\": \"house\", \"use\": \"house\", \"people\": 4, \"fixtures\": ["
    "{\"fixture\": \"shower\", \"count\": 2}]}],"
    "\"existing\": {\"stages\": [{\"branches\": [{\"valve\": \"%s\", \"set_pressure\": \"60 psi\"}]}]}}";

typedef struct station {
    scene at;
    qll_catalogue catalogue;
    qll_station made;
    qll_motion motion;
    qll_draw_plan draws[2];
    qll_run_plan plan;
    qll_run_found found;
} station;

static void build(station *s, const char *service, const char *more, const char *way,
                  const char *valve)
{
    char text[4096];
    (void)snprintf(text, sizeof text, survey, service, more, way, valve);
    *s = (station){.at = read_survey(text), .motion = qll_motion_usual()};
    s->catalogue = generic_catalogue(&s->at);
    CHECK(qll_survey_existing(&s->at.survey, &s->catalogue, s->at.arena, &s->made, &s->at.assumed,
                              &s->at.problems)
          == QLL_OK);
    s->plan = (qll_run_plan){.tree = {.site = &s->at.survey.site,
                                      .station = &s->made,
                                      .motion = &s->motion,
                                      .static_pa_gauge = 100 * TEST_PSI,
                                      .peak_m3s = 10 * TEST_GPM},
                             .draws = s->draws,
                             .heats_from_s = INFINITY,
                             .leaks_from_s = INFINITY,
                             .wakes_pa = INFINITY,
                             .stops_pa_gauge = INFINITY};
}

static qll_status stream(void *text, qll_bytes_sink *sink, void *context, const char **why)
{
    const qll_text *bytes = text;
    *why = "";
    return sink(context, bytes->bytes, bytes->size);
}

/* What a logger writes: a row every so many seconds, of what stands there then. */
typedef struct logger {
    qll_writer csv;
    double every_s, next_s;
    size_t outlet; /* which trace stands for the outlet's gauge */
} logger;

static void write_row(double time_s, const double *pa_gauge, void *context)
{
    logger *log = context;
    if (time_s >= log->next_s) {
        qll_write_format(&log->csv, "%.4f,%.2f,%.2f\n", log->next_s, pa_gauge[2] / 1e3,
                         pa_gauge[log->outlet] / 1e3);
        log->next_s += log->every_s;
    }
}

static const qll_node *run_and_log(station *s, double every_s, size_t outlet)
{
    logger log = {.csv = qll_writer_new(s->at.arena), .every_s = every_s, .outlet = outlet};
    qll_write(&log.csv, "Time (s),Inlet (kPa),Outlet (kPa)\n");
    s->plan.sees = write_row;
    s->plan.sees_context = &log;
    CHECK(qll_run_make(&s->plan, &s->at.problems, NULL, NULL, s->at.arena, &s->found) == QLL_OK);
    qll_text bytes = qll_writer_text(&log.csv);
    const qll_attachment file = {.name = "run.csv", .stream = stream, .context = &bytes};
    const qll_question question = {.verb = QLL_VERB_LOG, .form = QLL_FORM_JSON, .log = &file};
    qll_answer answer;
    if (!CHECK(qll_ask(&question, s->at.arena, &answer) == QLL_OK)) {
        return NULL;
    }
    qll_document *document = qll_arena_take(s->at.arena, 1, sizeof *document);
    qll_problems problems = qll_problems_none(s->at.arena);
    CHECK(qll_document_read((qll_text){answer.bytes, answer.size}, "log", s->at.arena, document,
                            &problems)
          == QLL_OK);
    return qll_node_find(document->root, "findings");
}

static bool has(const qll_node *findings, const char *word)
{
    bool found = false;
    for (const qll_node *one = findings == NULL ? NULL : findings->first_child; one != NULL;
         one = one->next) {
        const qll_node *kind = qll_node_find(one, "finding");
        const qll_node *strength = qll_node_find(one, "strength");
        printf("    %.*s %.2f\n", (int)kind->text.size, kind->text.bytes, strength->number);
        found = found || (qll_text_is(kind->text, word) && strength->number >= 0.5);
    }
    return found;
}

/* A washer shuts while a faucet at the station runs on, so that what rings dies. */
TEST(a_hammering_station_is_found)
{
    station s;
    build(&s, "1 in", "", "3/4 in", "1 in direct");
    const qll_opening_move shuts = {.begins_s = 2, .takes_s = 0.02, .from = 1, .to = 0, .power = 1};
    s.draws[0] = (qll_draw_plan){3 * TEST_GPM, 1, &shuts, 1};
    s.draws[1] = (qll_draw_plan){2 * TEST_GPM, 1, NULL, 0};
    s.plan.until_s = 4;
    s.plan.watched_s = 1;
    CHECK(has(run_and_log(&s, 0.002, 0), "hammer"));
    qll_arena_close(s.at.arena);
}

/* A pilot-operated valve with a quick needle and a long sensing line. */
TEST(a_hunting_station_is_found)
{
    station s;
    build(&s, "4 in", "\"expansion_tank\": {\"volume\": \"20 gal\", \"precharge\": \"40 psi\"},",
          "2-1/2 in", "4 in pilot");
    s.motion.of[QLL_MOTION_STROKE_S] = 20;
    s.motion.of[QLL_MOTION_FRICTION_PA] = 50;
    s.motion.of[QLL_MOTION_LAG_S] = 1;
    const qll_opening_move shuts = {
        .begins_s = 1, .takes_s = 0.5, .from = 1, .to = 0.3, .power = 1};
    s.draws[1] = (qll_draw_plan){25 * TEST_GPM, 1, &shuts, 1};
    s.plan.quiet_step_s = 0.01;
    s.plan.until_s = 450;
    s.plan.watched_s = 100;
    const qll_node *findings = run_and_log(&s, 1, 1);
    const qll_motion_found *motion = &s.found.valves[0].motion;
    printf("    run: %s, %.2f Hz, %.1f psi\n", qll_motion_state_words[motion->state],
           motion->frequency_hz, (motion->most_pa - motion->least_pa) / 2 / TEST_PSI);
    CHECK(motion->state == QLL_MOTION_STATE_HUNTING);
    CHECK(has(findings, "hunting"));
    qll_arena_close(s.at.arena);
}

/* Two drops a second past the seat, and a tank that makes hours of it; the valve has locked up before. */
TEST(a_creeping_station_is_found)
{
    station s;
    build(&s, "1 in", "\"expansion_tank\": {\"volume\": \"2 gal\", \"precharge\": \"60 psi\"},",
          "3/4 in", "1 in direct");
    s.plan.tree.leak_m3s = 1e-7;
    s.plan.leaks_from_s = 600;
    s.plan.quiet_step_s = 5;
    s.plan.until_s = 6 * 3600;
    const qll_node *findings = run_and_log(&s, 10, 1);
    printf("    run: %.1f to %.1f psi\n",
           s.found.joints[s.found.tree.outlet_joint].before_pa_gauge / TEST_PSI,
           s.found.joints[s.found.tree.outlet_joint].high_pa_gauge / TEST_PSI);
    CHECK(has(findings, "creep"));
    CHECK(!has(findings, "thermal-expansion"));
    qll_arena_close(s.at.arena);
}

int main(void)
{
    TEST_RUN(a_creeping_station_is_found);
    TEST_RUN(a_hammering_station_is_found);
    TEST_RUN(a_hunting_station_is_found);
    return TEST_END();
}
