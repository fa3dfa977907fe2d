#include "documents/write_diagnosis.h"
#include "engine/diagnose.h"
#include "report/diagnosis_sheet.h"

qll_status qll_ask_diagnose(qll_asked *asked)
{
    qll_diagnosed_case *made = qll_arena_take(asked->arena, 1, sizeof *made);
    if (made == NULL) {
        return QLL_NO_MEMORY;
    }
    const qll_status status = qll_find_diagnosis(asked, made);
    if (status != QLL_OK) {
        return status;
    }
    if (asked->question->form == QLL_FORM_JSON) {
        qll_json json = qll_json_new(&asked->writer);
        qll_diagnosis_write(&json, &made->findings);
        qll_write(&asked->writer, "\n");
    } else {
        qll_diagnosis_print(&asked->writer, &made->findings);
    }
    return qll_asked_finish(asked);
}
