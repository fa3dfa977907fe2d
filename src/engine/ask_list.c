#include "engine/engine.h"
#include "report/report.h"

#include <string.h>

qll_status qll_ask_list(qll_asked *asked)
{
    qll_catalogue catalogue = {0};
    qll_status status = qll_read_catalogue(asked, &catalogue);
    if (status != QLL_OK) {
        return status;
    }
    bool si = asked->question->units != NULL && strcmp(asked->question->units, "si") == 0;
    const qll_list_findings findings = {
        .catalogue = &catalogue,
        .units = si ? QLL_UNITS_SI : QLL_UNITS_US,
        .language = asked->language,
        .assumed = &asked->assumed,
        .problems = &asked->problems,
    };
    if (asked->question->form == QLL_FORM_JSON) {
        qll_json json = qll_json_new(&asked->writer);
        qll_list_write(&json, &findings);
        qll_write(&asked->writer, "\n");
    } else {
        qll_list_print(&asked->writer, &findings);
    }
    return qll_asked_finish(asked);
}
