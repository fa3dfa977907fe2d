/* The answer to `quell design` as plain text: the short form of the report's sections. */
#include "report/columns.h"
#include "report/plain.h"
#include "report/plain_sheet.h"
#include "report/report_parts.h"

typedef struct plain_section {
    qll_section_kind kind;
    qll_message heading; /* QLL_MESSAGE_COUNT: none */
    bool needs_station;
    void (*write)(qll_report *report);
} plain_section;

/* What a plumber needs first stands first. */
static const plain_section sections[] = {
    {QLL_SECTION_COVER, QLL_MESSAGE_COUNT, false, qll_report_cover},
    {QLL_SECTION_ALTERNATIVES, QLL_SAYS_SECTION_ALTERNATIVES, false, qll_report_others},
    {QLL_SECTION_ALTERNATIVES, QLL_SAYS_HANGS_ON, false, qll_report_hangs},
    {QLL_SECTION_VERDICTS, QLL_SAYS_SECTION_VERDICTS, true, qll_report_verdicts},
    {QLL_SECTION_EXPECT, QLL_SAYS_SECTION_EXPECT, true, qll_report_expect},
    {QLL_SECTION_STATION, QLL_SAYS_SECTION_STATION, true, qll_report_station},
    {QLL_SECTION_DEMAND, QLL_SAYS_SECTION_DEMAND, false, qll_report_water},
    {QLL_SECTION_SURVEY, QLL_SAYS_PLAIN_ASSUMED, false, qll_report_assumed},
    {QLL_SECTION_SOURCES, QLL_SAYS_SECTION_SOURCES, false, qll_report_sources},
    {QLL_SECTION_CAUTIONS, QLL_SAYS_SECTION_CAUTIONS, false, qll_report_cautions},
};

/* "STATION: its name"; a name may come from anywhere. */
static void write_title(qll_writer *writer, const qll_report *report)
{
    qll_writer title = qll_writer_new(writer->arena);
    qll_write(&title, qll_report_says(report, QLL_SAYS_PLAIN_STATION));
    qll_write(&title, ": ");
    qll_write(&title, report->found->demand.survey->name);
    qll_text text = qll_writer_text(&title);
    if (text.bytes != NULL) {
        text = qll_text_clean(text, writer->arena);
    }
    writer->no_memory = writer->no_memory || text.bytes == NULL;
    if (!writer->no_memory) {
        qll_write_wrapped(writer, "", qll_text_trimmed(text));
    }
}

void qll_design_print(qll_writer *writer, const qll_design_findings *findings)
{
    qll_sheet sheet;
    qll_report report = qll_report_begin(findings, true, writer->arena, &sheet);
    write_title(writer, &report);
    for (size_t i = 0; i < sizeof sections / sizeof sections[0]; i++) {
        const plain_section *section = &sections[i];
        if (section->needs_station && report.chosen == NULL) {
            continue;
        }
        bool has_heading = section->heading != QLL_MESSAGE_COUNT;
        qll_sheet_section(&sheet, section->kind,
                          has_heading ? qll_report_says(&report, section->heading) : "");
        section->write(&report);
    }
    qll_sheet_end(&sheet);
    writer->no_memory = writer->no_memory || sheet.no_memory;
    if (!writer->no_memory) {
        qll_sheet_print(writer, sheet.sections, sheet.section_count);
    }
}
