#include "report/columns.h"
#include "report/plain.h"
#include "report/sections.h"

#include <math.h>
#include <string.h>

static qll_wording wording_of(const qll_check_findings *findings)
{
    return (qll_wording){.units = findings->demand.survey->units,
                         .language = findings->demand.language,
                         .site = &findings->demand.survey->site,
                         .duty = findings->duty,
                         .currency = findings->catalogue->currency};
}

static void write_numbered(qll_writer *writer, size_t index, qll_text says)
{
    qll_writer first = qll_writer_new(writer->arena);
    qll_write_format(&first, "  %zu. ", index + 1);
    qll_text head = qll_writer_text(&first);
    writer->no_memory = writer->no_memory || head.bytes == NULL || says.bytes == NULL;
    if (!writer->no_memory) {
        qll_write_wrapped(writer, head.bytes, says);
    }
}

static void write_causes(qll_writer *writer, const qll_check_findings *findings)
{
    const qll_cost *now = &findings->cures->now;
    const qll_language language = findings->demand.language;
    if (findings->cause_count == 0) {
        const qll_filling why = {"why", qll_say_mechanism(language, now)};
        qll_section_says_with(
            writer, language,
            qll_is_worth_saying(now) ? QLL_SAYS_NO_CAUSE : QLL_SAYS_PLAIN_NOT_NOISY, &why, 1);
        return;
    }
    for (size_t i = 0; i < findings->cause_count; i++) {
        write_numbered(writer, i, qll_text_of(findings->causes[i].says));
    }
}

static bool is_figured(const qll_cure *cure)
{
    return isfinite(cure->cost.expected);
}

static void write_cures(qll_writer *writer, const qll_wording *wording,
                        const qll_check_findings *findings)
{
    const qll_cures *cures = findings->cures;
    qll_section_says(writer, wording->language, QLL_SAYS_PLAIN_CURES);
    qll_writer now = qll_writer_new(writer->arena);
    qll_wording_as_it_is(&now, wording, cures, findings->station);
    writer->no_memory = writer->no_memory || now.no_memory;
    qll_write_wrapped(writer, "  ", qll_writer_text(&now));
    if (cures->count == 0 || !is_figured(&cures->cures[0])) {
        qll_section_says_with(writer, wording->language, QLL_SAYS_CURE_NONE, NULL, 0);
    }
    for (size_t i = 0; i < cures->count; i++) {
        qll_writer says = qll_writer_new(writer->arena);
        qll_wording_cure(&says, wording, cures, findings->station, &cures->cures[i]);
        writer->no_memory = writer->no_memory || says.no_memory;
        write_numbered(writer, i, qll_writer_text(&says));
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

/* Causes, cures and verdicts: what is not asked for is not said to be good. */
static void write_judged(qll_writer *writer, const qll_wording *wording,
                         const qll_check_findings *findings)
{
    const unsigned left_out = findings->demand.left_out;
    if (qll_has_part(left_out, QLL_PART_CAUSES)) {
        qll_section_says(writer, wording->language, QLL_SAYS_PLAIN_WHY_NOISY);
        write_causes(writer, findings);
    }
    if (qll_has_part(left_out, QLL_PART_CURES)) {
        write_cures(writer, wording, findings);
    }
    if (qll_has_part(left_out, QLL_PART_VERDICTS)) {
        qll_section_says(writer, wording->language, QLL_SAYS_PLAIN_VERDICTS);
        qll_section_verdicts(writer, wording, findings->station, findings->assessment);
    }
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
    write_judged(writer, &wording, findings);
    const unsigned left_out = findings->demand.left_out;
    if (qll_has_part(left_out, QLL_PART_POINTS)) {
        qll_section_says(writer, language, QLL_SAYS_PLAIN_WHAT_IT_DOES);
        qll_section_points(writer, &wording, findings->station, findings->points,
                           findings->point_count);
        write_inlets(writer, language, findings);
    }
    qll_section_service(writer, &wording, &findings->demand, QLL_SAYS_PLAIN_WATER);
    if (qll_has_part(left_out, QLL_PART_LADDER)) {
        qll_section_says(writer, language, QLL_SAYS_PLAIN_LADDER);
        qll_section_ladder(writer, &wording, &findings->way);
    }
    if (qll_has_part(left_out, QLL_PART_VERDICTS)) {
        qll_section_says(writer, language, QLL_SAYS_PLAIN_ITS_TIME);
        qll_section_shares(writer, language, &findings->assessment->shares);
    }
    qll_section_assumed(writer, &wording, findings->demand.assumed);
    qll_section_sources(writer, &wording, findings->demand.sources, findings->demand.source_count);
    qll_section_cautions(writer, language);
}
