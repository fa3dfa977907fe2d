#include "engine/draw.h"
#include "engine/progress.h"

qll_status qll_find_demand(qll_asked *asked, qll_prepared *prepared, qll_demand_findings *findings)
{
    qll_status status = qll_prepare_survey(asked, prepared);
    if (status == QLL_OK) {
        prepared->service = qll_service_of(&prepared->survey.site);
        *findings = qll_prepared_findings(asked, prepared);
    }
    return status;
}

qll_status qll_ask_demand(qll_asked *asked)
{
    qll_prepared prepared;
    qll_demand_findings findings;
    qll_status status = qll_find_demand(asked, &prepared, &findings);
    if (status != QLL_OK) {
        return status;
    }
    const qll_subject subject = qll_subject_of_demand(&findings);
    qll_progress_phase(asked, 0.9, 1.0);
    status = qll_draw_figures(asked, &subject, &findings);
    if (status != QLL_OK) {
        return status;
    }
    if (asked->question->form == QLL_FORM_JSON) {
        qll_json json = qll_json_new(&asked->writer);
        qll_demand_write(&json, &findings);
        qll_write(&asked->writer, "\n");
    } else {
        qll_answer_print(&asked->writer, &subject);
    }
    return qll_asked_finish(asked);
}
