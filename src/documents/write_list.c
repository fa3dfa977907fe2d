#include "documents/write_common.h"

void qll_list_write(qll_json *json, const qll_list_findings *findings)
{
    const qll_catalogue *catalogue = findings->catalogue;
    qll_json_open_object(json);
    const qll_wording wording = {.units = findings->units, .language = findings->language};
    qll_json_put_head(json, "list", &wording, findings->problems);
    qll_json_put_parents(json, &wording, findings->assumed, NULL, 0);
    qll_json_put_text(json, "catalogue", catalogue->name);
    qll_json_put_bool(json, "invented", catalogue->invented);
    qll_json_put_text_or_null(json, "currency", catalogue->currency);
    qll_json_put_list(json, "valves");
    for (size_t i = 0; i < catalogue->count; i++) {
        const qll_valve *valve = &catalogue->valves[i];
        qll_json_open_object(json);
        qll_json_put_text(json, "id", valve->id);
        qll_json_put_number(json, "nominal_m", valve->nominal_m);
        qll_json_put_text(json, "acting", qll_acting_words[valve->acting]);
        qll_json_put_number(json, "kv_m3h", valve->kv_m3h);
        qll_json_put_number(json, "set_min_pa_gauge", valve->set_min_pa_gauge);
        qll_json_put_number(json, "set_max_pa_gauge", valve->set_max_pa_gauge);
        qll_json_put_number(json, "inlet_max_pa_gauge", valve->inlet_max_pa_gauge);
        qll_json_put_figure(json, "price", valve->price);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}
