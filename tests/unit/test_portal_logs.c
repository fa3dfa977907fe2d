/* Sixty logs of the shapes that portals, loggers and building systems write, against the figures of
 * tests/oracles/portal_logs.py (pandas 1.5.3). */
#include "log_options.h"
#include "log_scene.h"
#include "reference/truth.h"

static qll_text cell(const qll_table *rows, size_t row, const char *column)
{
    return qll_table_cell(rows, row, qll_table_column(rows, column));
}

static bool is_near(const qll_table *rows, size_t row, const char *column, double got, double share)
{
    if (cell(rows, row, column).size == 0) {
        return true; /* no figure can be had of it */
    }
    const double want = truth_number(rows, row, column);
    if (!CHECK_WITHIN(got, want, share * want + 1e-15)) {
        printf("    %s\n", column);
        return false;
    }
    return true;
}

static bool check_figures(const qll_table *rows, size_t row, const qll_flow_log_result *result)
{
    bool good = CHECK(truth_is(rows, row, "kind", qll_log_kind_word(result->kind)));
    good = is_near(rows, row, "mean_m3s", result->mean_m3s, 1e-9) && good;
    good = is_near(rows, row, "volume_m3", result->volume_m3, 1e-9) && good;
    good = is_near(rows, row, "max_m3s", result->max_m3s, 1e-6) && good;
    good = is_near(rows, row, "idle_share", result->idle_share, 1e-9) && good;
    good = is_near(rows, row, "p99_m3s", qll_flow_log_percentile_m3s(result, 0.99),
                   QLL_LOG_CLASS_WIDTH)
           && good;
    for (size_t note = 0; note < QLL_LOG_NOTE_COUNT; note++) {
        if (truth_is(rows, row, "notes", qll_log_note_word((qll_log_note_kind)note))) {
            good = CHECK(result->notes[note].holds) && good;
        }
    }
    return good;
}

TEST(sixty_logs_have_the_figures_of_another_library)
{
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    qll_table rows = truth_read("tests/data/logs/portal.csv", arena);
    size_t refused = 0;
    CHECK(rows.row_count >= 60);
    for (size_t row = 0; row < rows.row_count; row++) {
        char path[200];
        option_text room;
        const qll_text name = cell(&rows, row, "file");
        snprintf(path, sizeof path, "tests/data/logs/portal/%.*s", (int)name.size, name.bytes);
        const qll_flow_log_options options = read_options(cell(&rows, row, "options"), &room);
        size_t size = 0;
        char *bytes = log_scene_bytes(path, &size);
        log_scene scene = log_scene_whole(bytes, size, &options);
        bool good = true;
        if (truth_is(&rows, row, "outcome", "ok")) {
            good = CHECK(scene.status == QLL_OK) && check_figures(&rows, row, &scene.result);
        } else {
            refused += 1;
            good = CHECK(scene.status == QLL_REFUSED)
                   && CHECK(
                       truth_is(&rows, row, "outcome", qll_code_word(scene.problems.kept[0].code)));
        }
        if (!good) {
            printf("    in %s\n", path);
            log_scene_print(&scene);
        }
        free(bytes);
        log_scene_end(&scene);
    }
    CHECK(refused <= 10);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(sixty_logs_have_the_figures_of_another_library);
    return TEST_END();
}
