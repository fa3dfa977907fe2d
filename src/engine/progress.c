#include "engine/progress.h"

void qll_progress_phase(qll_asked *asked, double from, double to)
{
    asked->phase_from = from;
    asked->phase_to = to;
}

bool qll_progress_tell(double share, void *context)
{
    qll_asked *asked = context;
    const qll_question *question = asked->question;
    if (question->progress == NULL || asked->is_stopped) {
        return !asked->is_stopped;
    }
    double done = asked->phase_from + share * (asked->phase_to - asked->phase_from);
    asked->told = done > asked->told ? done : asked->told;
    asked->is_stopped = !question->progress(asked->told, question->progress_context);
    return !asked->is_stopped;
}

qll_status qll_progress_step(qll_asked *asked, size_t index, size_t count)
{
    double share = count == 0 ? 1.0 : (double)(index + 1) / (double)count;
    /* A search that was stopped gives the best so far, and that is seen to the end. */
    bool goes_on = asked->is_stopped || qll_progress_tell(share, asked);
    return goes_on ? QLL_OK : QLL_STOPPED;
}
