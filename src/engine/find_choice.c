/* From a survey to the station for it, and nothing about that station yet. */
#include "engine/engine.h"
#include "engine/hangs_on.h"
#include "engine/progress.h"

/* Survey, catalogue and duty. The catalogue is read even after a refused survey: one pass shows the
 * problems of both. */
qll_status qll_design_prepare(qll_asked *asked, qll_designed *designed)
{
    qll_status status = qll_prepare_survey(asked, &designed->prepared);
    if (status == QLL_NO_MEMORY) {
        return status;
    }
    qll_status second = qll_prepare_catalogue(asked, &designed->prepared, &designed->catalogue);
    if (status != QLL_OK || second != QLL_OK) {
        return status != QLL_OK ? status : second;
    }
    qll_prepare_header(asked, &designed->prepared);
    return qll_prepare_duty(asked, &designed->prepared, &designed->duty);
}

static qll_search_options options_of(qll_asked *asked)
{
    qll_search_options options = qll_search_options_default();
    options.progress = asked->question->progress == NULL ? NULL : qll_progress_tell;
    options.progress_context = asked;
    return options;
}

qll_status qll_design_choose(qll_asked *asked, qll_designed *designed)
{
    const bool hangs = qll_has_part(asked->skipped, QLL_PART_HANGS_ON);
    const qll_search_options options = options_of(asked);
    const qll_design_case given = {
        .site = &designed->prepared.survey.site,
        .duty = &designed->duty,
        .catalogue = &designed->catalogue,
        .options = &options,
        .has_alternatives = qll_has_part(asked->skipped, QLL_PART_ALTERNATIVES),
    };
    const double chosen = hangs ? QLL_SHARE_SEARCHED : QLL_SHARE_CHOSEN;
    qll_progress_phase(asked, QLL_SHARE_PREPARED, chosen);
    qll_status status = qll_design_make(&given, asked->arena, &designed->design);
    const qll_design *design = &designed->design;
    if (status == QLL_OK && design->stopped && design->count == 0 && design->need.is_needed) {
        return QLL_STOPPED; /* before anything was tried: that nothing fits is not known */
    }
    if (status == QLL_OK && hangs) {
        status = qll_find_hangs(asked, designed);
    }
    return status;
}
