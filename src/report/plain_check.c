#include "report/columns.h"
#include "report/plain.h"
#include "report/sections.h"

static qll_wording wording_of(const qll_check_findings *findings)
{
    return (qll_wording){.units = findings->demand.survey->units,
                         .site = &findings->demand.survey->site,
                         .duty = findings->duty};
}

static void write_causes(qll_writer *writer, const qll_check_findings *findings)
{
    if (findings->cause_count == 0) {
        qll_write(writer, "  Nothing in its hydraulics would make it noisy.\n");
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

void qll_check_print(qll_writer *writer, const qll_check_findings *findings)
{
    const qll_wording wording = wording_of(findings);
    qll_write(writer, "CHECK: ");
    qll_write(writer, findings->demand.survey->name);
    qll_write(writer, "\n\nThe station there now: ");
    qll_wording_station(writer, &wording, findings->station);
    qll_write(writer, "\n");
    qll_section(writer, "WHY IT WOULD BE NOISY, most likely first");
    write_causes(writer, findings);
    qll_section(writer, "VERDICTS");
    qll_section_verdicts(writer, &wording, findings->station, findings->assessment);
    qll_section(writer, "WHAT IT DOES, from no flow to the peak");
    qll_section_points(writer, &wording, findings->station, findings->points,
                       findings->point_count);
    qll_section(writer, "WHERE ITS TIME GOES");
    qll_section_shares(writer, &findings->assessment->shares);
    qll_section_assumed(writer, findings->demand.assumed);
    qll_section_sources(writer, findings->demand.sources, findings->demand.source_count);
    qll_section_cautions(writer);
}
