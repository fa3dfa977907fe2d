/* A report of each example: the whole command, start to PDF on disk, and what of it goes into the design
 * and what into the sheets. Budget: the command under 0.5 s (processor time of one core); a PDF under
 * 1 MB is a test too (tests/report/pdf.sh). */
#include "quell/report.h"

#include "engine/engine.h"
#include "report/html.h"
#include "report/layout.h"
#include "report/report.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <time.h>

/* The command is run so often, and the least counts: other work on the machine only adds to it. */
#define QLL_RUNS 5

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

/* Processor time of all commands that have been run. */
static double commands_s(void)
{
    struct rusage used = {0};
    (void)getrusage(RUSAGE_CHILDREN, &used);
    return (double)(used.ru_utime.tv_sec + used.ru_stime.tv_sec)
           + 1e-6 * (double)(used.ru_utime.tv_usec + used.ru_stime.tv_usec);
}

static long size_of(const char *path)
{
    long size = -1;
    FILE *file = fopen(path, "rb");
    if (file != NULL && fseek(file, 0, SEEK_END) == 0) {
        size = ftell(file);
    }
    if (file != NULL) {
        fclose(file);
    }
    return size;
}

static void survey_path(const char *example, char path[512])
{
    snprintf(path, 512, "%s/examples/%s/survey.json", QUELL_ROOT, example);
}

static void time_command(const char *example)
{
    static const char pdf[] = "bench_report.pdf";
    char survey[512];
    char command[2048];
    survey_path(example, survey);
    double least_s = INFINITY;
    double least_work_s = INFINITY;
    snprintf(command, sizeof command, "%s report %s -o %s 2>/dev/null", QUELL_COMMAND, survey, pdf);
    for (int i = 0; i < QLL_RUNS; i++) {
        double start = now_s();
        double work_before = commands_s();
        if (system(command) != 0) {
            printf("%-20s the command failed\n", example);
            return;
        }
        least_s = fmin(least_s, now_s() - start);
        least_work_s = fmin(least_work_s, commands_s() - work_before);
    }
    printf("%-20s command %6.3f s (%.3f s of one core), PDF %.2f MB\n", example, least_s,
           least_work_s, (double)size_of(pdf) / 1e6);
    remove(pdf);
}

static void report(const char *example)
{
    char path[512];
    survey_path(example, path);
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
        const qll_subject subject = qll_subject_of_design(&designed.findings);
        qll_report_make(&subject, QLL_SECTIONS_ALL, QLL_REPORT_LENGTH_FULL, arena, &sheet);
    }
    double made = now_s();
    double html = made;
    qll_canvas pages = {.page_count = 0};
    if (status == QLL_OK) {
        qll_html_write(&asked.writer, &sheet);
        html = now_s();
        qll_layout_pages(&sheet, arena, &pages);
    }
    double laid = now_s();
    printf(
        "%-20s status %d, design %6.3f s, sheets %6.3f s, HTML %6.3f s (%zu bytes), pages %6.3f s "
        "(%zu), %.1f MiB\n",
        example, (int)status, found - start, made - found, html - made, asked.writer.size,
        laid - html, pages.page_count, (double)qll_arena_size(arena) / 1048576.0);
    qll_arena_close(arena);
}

int main(void)
{
    static const char *const examples[] = {
        "repurposed-building", "morning-rush", "hillside", "house", "low-street", "metered"};
    for (size_t i = 0; i < sizeof examples / sizeof examples[0]; i++) {
        time_command(examples[i]);
    }
    /* The last one's log is a file, which only the command attaches. */
    for (size_t i = 0; i + 1 < sizeof examples / sizeof examples[0]; i++) {
        report(examples[i]);
    }
    return 0;
}
