/* Harder sites, each with what one plumber would install (sites.csv): common practice, no source. */
#include "check.h"
#include "judge.h"
#include "meter_log.h"
#include "reference/truth.h"

static json_t *site_called(const char *name)
{
    char path[160];
    (void)snprintf(path, sizeof path, "tests/panel/sites/%s.json", name);
    return panel_read(path);
}

/* A cell as text; "" if it is longer than any name here. */
typedef struct name {
    char text[64];
} name;

static name cell_of(const qll_table *sites, size_t row, const char *column)
{
    name found = {""};
    qll_text cell = qll_table_cell(sites, row, qll_table_column(sites, column));
    if (cell.size < sizeof found.text) {
        (void)snprintf(found.text, sizeof found.text, "%.*s", (int)cell.size, cell.bytes);
    }
    return found;
}

static void ask_site(const qll_table *sites, size_t row, const qll_attachment *log)
{
    json_t *survey = site_called(cell_of(sites, row, "site").text);
    name catalogue = cell_of(sites, row, "catalogue");
    json_t *valves = catalogue.text[0] == '\0' ? NULL : site_called(catalogue.text);
    const json_t *scenario = json_array_get(json_object_get(survey, "scenarios"), 0);
    bool metered = json_object_get(scenario, "log") != NULL;
    panel_answer answer = panel_ask(&(panel_question){
        .survey = survey,
        .catalogue = valves,
        .attachments = metered ? log : NULL,
        .attachment_count = metered ? 1 : 0,
    });
    panel_want want = panel_want_of(sites, row);
    panel_faults faults = panel_judge(&want, survey, &answer);
    if (!CHECK(faults.count == 0)) {
        qll_text installs = qll_table_cell(sites, row, qll_table_column(sites, "installs"));
        printf("    %s: %s\n    a plumber: %.*s\n", cell_of(sites, row, "id").text, faults.text,
               (int)installs.size, installs.bytes);
    }
    panel_release(&answer);
    json_decref(survey);
    json_decref(valves);
}

TEST(the_log_is_what_it_says)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    panel_log *log = panel_log_make(arena);
    if (CHECK(log != NULL)) {
        double sum = 0.0;
        double least = INFINITY;
        double most = 0.0;
        for (size_t i = 0; i < QLL_PANEL_LOG_MINUTES; i++) {
            sum += log->flow_gpm[i];
            least = fmin(least, log->flow_gpm[i]);
            most = fmax(most, log->flow_gpm[i]);
        }
        CHECK_WITHIN(sum / QLL_PANEL_LOG_MINUTES, 1.4, 0.001);
        CHECK_WITHIN(least, 0.3, 1e-12);
        CHECK_WITHIN(most, 10.4, 1e-12);
    }
    qll_arena_close(arena);
}

TEST(each_site_gets_what_a_plumber_would_install)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    qll_table sites = truth_read("tests/panel/sites.csv", arena);
    panel_log *log = panel_log_make(arena);
    if (CHECK(log != NULL && sites.row_count == 15)) {
        qll_attachment attached = panel_log_attached(log, "meter.csv");
        for (size_t row = 0; row < sites.row_count; row++) {
            ask_site(&sites, row, &attached);
        }
    }
    qll_arena_close(arena);
}

/* 85 psi in the cellar are 78.5 psi at the lowest outlet, 15 ft up, and 80 psi are permitted there: the
 * risers of a tower are set so. */
TEST(what_is_permitted_is_judged_at_the_outlets)
{
    json_t *survey = site_called("f-85");
    panel_answer answer = panel_ask(&(panel_question){.survey = survey});
    if (!CHECK(panel_answered(&answer))) {
        printf("    %s\n", panel_complaint(&answer));
    }
    const json_t *station = panel_chosen(&answer);
    CHECK(station != NULL && json_array_size(json_object_get(station, "stages")) == 1);
    panel_release(&answer);
    json_decref(survey);
}

int main(void)
{
    TEST_RUN(the_log_is_what_it_says);
    TEST_RUN(each_site_gets_what_a_plumber_would_install);
    TEST_RUN(what_is_permitted_is_judged_at_the_outlets);
    return TEST_END();
}
