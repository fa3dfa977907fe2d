#include "demand/peaks.h"

#include <assert.h>
#include <math.h>

const char *qll_peaks_written(qll_peaks *all, qll_writer *writer)
{
    const qll_text text = qll_writer_text(writer);
    if (text.bytes == NULL) {
        all->no_memory = true;
        return "";
    }
    return text.bytes;
}

void qll_peaks_add(qll_peaks *all, qll_peak_estimate estimate)
{
    assert(isfinite(estimate.peak_m3s));
    all->applies[estimate.method] = true;
    all->estimates[estimate.method] = estimate;
}

const char *qll_peaks_continuous_note(const qll_peaks *all)
{
    return all->continuous_m3s > 0.0 ? " Continuous flows are added to it." : "";
}
