#include "wording/wording.h"

static void write_flaws(qll_writer *writer, const qll_wording *wording,
                        const qll_candidate *candidate)
{
    const qll_verdict *worst = NULL;
    for (size_t i = 0; i < candidate->assessment.verdict_count; i++) {
        const qll_verdict *verdict = &candidate->assessment.verdicts[i];
        if (verdict->grade != QLL_GRADE_GOOD && (worst == NULL || verdict->grade > worst->grade)) {
            worst = verdict;
        }
    }
    if (worst != NULL) {
        qll_wording_verdict(writer, wording, &candidate->station, worst);
    }
}

void qll_wording_reason(qll_writer *writer, const qll_wording *wording, const qll_design *design)
{
    qll_language language = wording->language;
    if (design->reason == QLL_REASON_SINGLE_WITHOUT_CAUTION
        && design->candidates[design->recommended].assessment.caution_count > 0) {
        qll_write(writer, qll_say(language, QLL_SAYS_SINGLE_WITH_CAUTION));
    } else if (design->reason < QLL_REASON_COUNT) {
        qll_write(writer,
                  qll_say(language, (qll_message)((size_t)QLL_SAYS_REASON_SINGLE_WITHOUT_CAUTION
                                                  + (size_t)design->reason)));
    }
    if (design->runner_up < design->count && design->runner_up != design->recommended) {
        const qll_candidate *simpler = &design->candidates[design->runner_up];
        qll_writer station = qll_writer_new(writer->arena);
        qll_wording_station(&station, wording, &simpler->station);
        writer->no_memory = writer->no_memory || station.no_memory;
        const qll_filling filling = {"station", qll_writer_text(&station).bytes};
        qll_write(writer, " ");
        qll_say_with(writer, language, QLL_SAYS_SIMPLER_WOULD_BE, &filling, 1);
        qll_write(writer, " ");
        write_flaws(writer, wording, simpler);
    }
}
