/* What official sheets are known by: whose they are, who answers for them, from what they were made. */
#include "quell/quell.h"

#include "base/count.h"
#include "report/report_parts.h"

static const char *survey_text(const qll_report *report)
{
    const qll_provenance *from = &report->found->demand.provenance;
    const qll_filling fillings[] = {{"name", from->survey_file}, {"digest", from->survey_digest}};
    return qll_report_fill(report, QLL_SAYS_SURVEY_WITH_DIGEST, fillings, 2);
}

/* NULL where none was asked. */
static const char *catalogue_text(const qll_report *report)
{
    const qll_catalogue *catalogue = report->found->catalogue;
    if (catalogue == NULL) {
        return NULL;
    }
    return catalogue->invented ? qll_report_says(report, QLL_SAYS_CATALOGUE_INVENTED)
                               : catalogue->name;
}

static qll_title_field field_of(const qll_report *report, qll_message label, const char *value,
                                bool is_wide)
{
    return (qll_title_field){
        .label = qll_report_says(report, label),
        .value = value == NULL ? "" : value,
        .is_wide = is_wide,
    };
}

void qll_report_title(qll_report *report)
{
    const qll_project *project = &report->found->demand.survey->project;
    const char *catalogue = catalogue_text(report);
    const qll_title_field fields[] = {
        field_of(report, QLL_SAYS_TITLE_PROJECT, project->name, true),
        field_of(report, QLL_SAYS_TITLE_CUSTOMER, project->customer, true),
        field_of(report, QLL_SAYS_TITLE_ADDRESS, project->address, true),
        field_of(report, QLL_SAYS_TITLE_PREPARED_BY, project->prepared_by, false),
        field_of(report, QLL_SAYS_TITLE_LICENSE, project->license, false),
        field_of(report, QLL_SAYS_TITLE_DATE, report->found->demand.provenance.date, false),
        field_of(report, QLL_SAYS_TITLE_REVISION, project->revision, false),
        field_of(report,
                 report->of == QLL_REPORT_OF_DIAGNOSE ? QLL_SAYS_TITLE_CASE : QLL_SAYS_TITLE_SURVEY,
                 survey_text(report), true),
        field_of(report, QLL_SAYS_TITLE_PROGRAM, "quell " QLL_VERSION, false),
        field_of(report, QLL_SAYS_TITLE_CATALOGUE, catalogue, false),
    };
    size_t count = QLL_COUNT(fields) - (catalogue == NULL ? 1 : 0);
    qll_title_field *kept = qll_arena_take(report->arena, count, sizeof *kept);
    for (size_t i = 0; kept != NULL && i < count; i++) {
        kept[i] = fields[i];
    }
    report->sheet->title_block = (qll_title_block){
        .fields = kept,
        .field_count = kept == NULL ? 0 : count,
        .stamp = qll_report_says(report, QLL_SAYS_TITLE_STAMP),
    };
}
