#include "engine/draw.h"
#include "engine/progress.h"
#include "report/plain.h"

qll_status qll_ask_demand(qll_asked *asked)
{
    qll_prepared prepared;
    qll_status status = qll_prepare_survey(asked, &prepared);
    if (status != QLL_OK) {
        return status;
    }
    prepared.service = qll_service_of(&prepared.survey.site);
    qll_demand_findings findings = qll_prepared_findings(asked, &prepared);
    const qll_picture_source source = {.demand = &findings};
    qll_progress_phase(asked, 0.9, 1.0);
    status = qll_draw_figures(asked, &source, &findings);
    if (status != QLL_OK) {
        return status;
    }
    if (asked->question->form == QLL_FORM_JSON) {
        qll_json json = qll_json_new(&asked->writer);
        qll_demand_write(&json, &findings);
        qll_write(&asked->writer, "\n");
    } else {
        qll_demand_print(&asked->writer, &findings);
    }
    return qll_asked_finish(asked);
}
