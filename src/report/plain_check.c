#include "report/columns.h"
#include "report/plain.h"
#include "report/sections.h"

#include <string.h>

static qll_wording wording_of(const qll_check_findings *findings)
{
    return (qll_wording){.units = findings->demand.survey->units,
                         .language = findings->demand.language,
                         .site = &findings->demand.survey->site,
                         .duty = findings->duty};
}

static void write_causes(qll_writer *writer, const qll_check_findings *findings)
{
    if (findings->cause_count == 0) {
        qll_section_says_with(writer, findings->demand.language, QLL_SAYS_PLAIN_NOT_NOISY, NULL, 0);
        return;
    }
    for (size_t i = 0; i < findings->cause_count; i++) {
        qll_writer first = qll_writer_new(writer->arena);
        qll_write_format(&first, "  %zu. ", i + 1);
        writer->no_memory = writer->no_memory || first.no_memory;
        qll_text head = qll_writer_text(&first);
        qll_write_wrapped(writer, head.bytes == NULL ? "" : head.bytes,
                          qll_text_of(findings->causes[i].says));
    }
}

static void write_help(qll_writer *writer, const qll_wording *wording,
                       const qll_check_findings *findings)
{
    if (findings->assessment->help_count == 0) {
        return;
    }
    qll_section_says(writer, wording->language, QLL_SAYS_PLAIN_HELP);
    for (size_t i = 0; i < findings->assessment->help_count; i++) {
        qll_writer line = qll_writer_new(writer->arena);
        qll_wording_help(&line, wording, findings->station, &findings->assessment->help[i]);
        writer->no_memory = writer->no_memory || line.no_memory;
        qll_write_wrapped(writer, "  - ", qll_writer_text(&line));
    }
}

/* Which supply the rows are of, unless the question says it. */
static void write_inlets(qll_writer *writer, qll_language language,
                         const qll_check_findings *findings)
{
    if (strcmp(findings->point_supplies[0], "given") == 0) {
        return;
    }
    qll_message says =
        findings->point_count > 1 ? QLL_SAYS_PLAIN_INLETS : QLL_SAYS_PLAIN_INLET_MIDDLE;
    qll_section_says_with(writer, language, says, NULL, 0);
}

void qll_check_print(qll_writer *writer, const qll_check_findings *findings)
{
    const qll_wording wording = wording_of(findings);
    const qll_language language = wording.language;
    qll_write(writer, qll_say(language, QLL_SAYS_PLAIN_CHECK));
    qll_write(writer, ": ");
    qll_write(writer, findings->demand.survey->name);
    qll_write(writer, "\n\n");
    qll_writer station = qll_writer_new(writer->arena);
    qll_wording_station(&station, &wording, findings->station);
    writer->no_memory = writer->no_memory || station.no_memory;
    const qll_filling filling = {"station", qll_writer_text(&station).bytes};
    qll_line_says_with(writer, language, QLL_SAYS_PLAIN_THERE_NOW, &filling, 1);
    qll_section_says(writer, language, QLL_SAYS_PLAIN_WHY_NOISY);
    write_causes(writer, findings);
    write_help(writer, &wording, findings);
    qll_section_says(writer, language, QLL_SAYS_PLAIN_VERDICTS);
    qll_section_verdicts(writer, &wording, findings->station, findings->assessment);
    qll_section_how_sure(writer, language, findings->assessment, &findings->sensitivity);
    qll_section_says(writer, language, QLL_SAYS_PLAIN_WHAT_IT_DOES);
    qll_section_points(writer, &wording, findings->station, findings->points,
                       findings->point_count);
    write_inlets(writer, language, findings);
    qll_section_says(writer, language, QLL_SAYS_PLAIN_LADDER);
    qll_section_ladder(writer, &wording, &findings->way);
    qll_section_says(writer, language, QLL_SAYS_PLAIN_ITS_TIME);
    qll_section_shares(writer, language, &findings->assessment->shares);
    qll_section_assumed(writer, &wording, findings->demand.assumed);
    qll_section_sources(writer, &wording, findings->demand.sources, findings->demand.source_count);
    qll_section_cautions(writer, language);
}
