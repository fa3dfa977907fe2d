#include "wording/wording.h"

#include <stdint.h>

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
    switch (design->reason) {
    case QLL_REASON_SINGLE_WITHOUT_CAUTION:
        qll_write(writer,
                  design->candidates[design->recommended].assessment.caution_count == 0
                      ? "One valve does it without a single caution, so a second would earn "
                        "nothing."
                      : "One valve does it, and what is cautioned below no second valve "
                        "would mend.");
        break;
    case QLL_REASON_SIMPLEST_NOT_BEATEN:
        qll_write(writer, "It is the simplest station that no other clearly beats.");
        break;
    case QLL_REASON_QUIETER_EARNS_PARTS:
        qll_write(writer, "It earns its extra parts: it is clearly quieter than the best simpler "
                          "station.");
        break;
    case QLL_REASON_STAGES_SHARE_THE_DROP:
        qll_write(writer, "One stage cannot take the whole drop quietly, so two share it.");
        break;
    case QLL_REASON_LEAST_BAD:
        qll_write(writer, "Nothing in the catalogue is right in every respect; this has the least "
                          "against it. Another valve, or another set pressure, may do better.");
        break;
    case QLL_REASON_COUNT: break;
    }
    if (design->runner_up < design->count && design->runner_up != design->recommended) {
        const qll_candidate *simpler = &design->candidates[design->runner_up];
        qll_write(writer, " The best simpler one would be ");
        qll_wording_station(writer, wording, &simpler->station);
        qll_write(writer, ". ");
        write_flaws(writer, wording, simpler);
    }
}
