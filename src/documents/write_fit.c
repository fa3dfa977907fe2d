#include "base/count.h"
#include "documents/read_catalogue.h"
#include "documents/write_common.h"

static void put_points(qll_json *json, const qll_fit_findings *findings)
{
    qll_json_put_list(json, "points");
    for (size_t i = 0; i < findings->sheet->count; i++) {
        const qll_capacity_point *point = &findings->sheet->points[i];
        const qll_fit_row *row = &findings->fit->rows[i];
        qll_json_open_object(json);
        qll_json_put_number(json, "inlet_pa_gauge", point->inlet_pa_gauge);
        qll_json_put_number(json, "set_pa_gauge", point->set_pa_gauge);
        qll_json_put_number(json, "flow_m3s", point->flow_m3s);
        qll_json_put_number(json, "falloff_pa", point->falloff_pa);
        qll_json_put_number(json, "kv_m3h", row->kv_m3h);
        qll_json_put_number(json, "fitted_flow_m3s", row->fitted_flow_m3s);
        qll_json_put_number(json, "residual_share", row->residual_share);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

void qll_fit_write(qll_json *json, const qll_fit_findings *findings)
{
    static const qll_said sources[] = {{.id = QLL_TEXT_SOURCE_KV},
                                       {.id = QLL_TEXT_SOURCE_OPENING_LAW}};
    const qll_wording wording = {.units = findings->units, .language = findings->language};
    const qll_valve_fit *fit = findings->fit;
    qll_json_open_object(json);
    qll_json_put_head(json, "fit", &wording, findings->problems);
    qll_json_put_parents(json, &wording, findings->assumed, sources, QLL_COUNT(sources));
    qll_json_put_text(json, "law", findings->is_straight ? "band" : "points");
    qll_json_put_object(json, "straight");
    qll_json_put_number(json, "kv_m3h", fit->kv_m3h);
    qll_json_put_number(json, "band_pa", fit->band_pa);
    qll_json_put_bool(json, "full_travel_seen", fit->full_travel_seen);
    qll_json_put_number(json, "rms_share", fit->rms_share);
    qll_json_put_number(json, "worst_share", fit->worst_share);
    qll_json_close_object(json);
    put_points(json, findings);
    qll_json_key(json, "catalogue");
    qll_catalogue_write(json, &findings->catalogue);
    qll_json_close_object(json);
}
