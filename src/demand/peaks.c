#include "demand/peaks.h"

#include <assert.h>
#include <math.h>

void qll_peaks_add(qll_peaks *all, qll_peak_estimate estimate)
{
    assert(isfinite(estimate.peak_m3s));
    all->applies[estimate.method] = true;
    all->estimates[estimate.method] = estimate;
}

static qll_remark *keep(qll_peaks *all, qll_remark remark)
{
    qll_remark *kept = qll_arena_take(all->arena, 1, sizeof *kept);
    if (kept != NULL) {
        *kept = remark;
    }
    return kept;
}

const qll_remark *qll_peaks_remark(qll_peaks *all, qll_remark remark)
{
    static const qll_remark none = {.id = QLL_REMARK_NO_FIXTURES};
    const qll_remark *kept = keep(all, remark);
    return kept == NULL ? &none : kept;
}

void qll_peaks_note(qll_peaks *all, qll_remarks *list, qll_remark remark)
{
    qll_remark *kept = keep(all, remark);
    if (kept == NULL) {
        return;
    }
    if (list->last == NULL) {
        list->first = kept;
    } else {
        list->last->next = kept;
    }
    list->last = kept;
}

void qll_peaks_note_apart(qll_peaks *all, qll_remarks *list)
{
    if (all->groups > 0.0) {
        qll_peaks_note(all, list,
                       (qll_remark){.id = QLL_REMARK_TAKEN_APART, .figures = {all->groups}});
    }
}

void qll_peaks_note_continuous(qll_peaks *all, qll_remarks *list)
{
    if (all->continuous_m3s > 0.0) {
        qll_peaks_note(all, list, (qll_remark){.id = QLL_REMARK_CONTINUOUS});
    }
}
