/* A report of each example: how long the sheets take beyond the design they show, and how much memory.
 * Budget: the sheets under 0.5 s; a PDF under 1 MB is a test (tests/report/pdf.sh). */
#include "engine/engine.h"
#include "engine/pages.h"
#include "report/html.h"
#include "report/layout.h"
#include "report/report.h"

#include <stdio.h>
#include <time.h>

static double now_s(void)
{
    struct timespec now = {0};
    (void)timespec_get(&now, TIME_UTC);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static qll_text read_file(const char *path, qll_arena *arena)
{
    qll_writer writer = qll_writer_new(arena);
    FILE *file = fopen(path, "rb");
    char block[4096];
    for (size_t size = 1; file != NULL && size > 0;) {
        size = fread(block, 1, sizeof block, file);
        qll_write_text(&writer, (qll_text){block, size});
    }
    if (file != NULL) {
        fclose(file);
    }
    return qll_writer_text(&writer);
}

static void report(const char *example)
{
    char path[512];
    snprintf(path, sizeof path, "%s/examples/%s/survey.json", QUELL_ROOT, example);
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    qll_text survey = read_file(path, arena);
    const qll_question question = {
        .verb = QLL_VERB_REPORT,
        .form = QLL_FORM_HTML,
        .document = {.name = path, .bytes = survey.bytes, .size = survey.size},
    };
    qll_asked asked = {
        .question = &question,
        .arena = arena,
        .seed = 1,
        .problems = qll_problems_none(arena),
        .assumed = qll_assumed_none(arena),
        .writer = qll_writer_new(arena),
    };
    static qll_designed designed;
    static qll_sheet sheet;
    double start = now_s();
    qll_status status = qll_find_design(&asked, &designed);
    double found = now_s();
    if (status == QLL_OK) {
        status = qll_report_make(&designed.findings, QLL_SECTIONS_ALL, arena, &sheet);
    }
    double made = now_s();
    qll_html_write(&asked.writer, &sheet);
    double html = now_s();
    qll_canvas pages;
    if (status == QLL_OK) {
        status = qll_layout_pages(&sheet, arena, &pages);
    }
    double laid = now_s();
    if (status != QLL_OK) {
        printf("%-20s status %d\n", example, (int)status);
    } else {
        printf(
            "%-20s design %6.3f s, sheets %6.3f s, HTML %6.3f s (%zu bytes), pages %6.3f s (%zu), "
            "%.1f MiB\n",
            example, found - start, made - found, html - made, asked.writer.size, laid - html,
            pages.page_count, (double)qll_arena_size(arena) / 1048576.0);
    }
    qll_arena_close(arena);
}

int main(void)
{
    report("repurposed-building");
    report("morning-rush");
    report("hillside");
    return 0;
}
