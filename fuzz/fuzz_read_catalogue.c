/* Any JSON as a catalogue, any CSV as one: read to valves that write and read back the same, or
 * refused at a place. A first byte of '{' makes it JSON. */
#include "documents/read_catalogue.h"
#include "documents/valve_table.h"
#include "require.h"

#include <math.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static qll_status read_json(qll_text source, qll_arena *arena, qll_catalogue *catalogue,
                            qll_problems *problems)
{
    qll_assumed assumed = qll_assumed_none(arena);
    qll_document *document = qll_arena_take(arena, 1, sizeof *document);
    qll_status status = qll_document_read(source, "valves.json", arena, document, problems);
    if (status != QLL_OK) {
        return status;
    }
    return qll_catalogue_read(document, arena, catalogue, &assumed, problems);
}

static qll_status read_csv(qll_text source, qll_arena *arena, qll_catalogue *catalogue,
                           qll_problems *problems)
{
    qll_assumed assumed = qll_assumed_none(arena);
    qll_table *table = qll_arena_take(arena, 1, sizeof *table);
    qll_status status = qll_valve_table_read(source, "valves.csv", arena, table, problems);
    if (status != QLL_OK) {
        return status;
    }
    return qll_catalogue_import(table, arena, catalogue, &assumed, problems);
}

static void require_law(const qll_valve *valve, const qll_opening_law *law)
{
    double before = 0.0;
    for (int i = 1; i <= 8; i++) {
        double kv_m3h = qll_opening_law_kv(law, law->full_falloff_pa * i / 8.0);
        QLL_REQUIRE(kv_m3h >= before);
        before = kv_m3h;
    }
    QLL_REQUIRE(before == valve->kv_m3h);
}

static void require_valve(const qll_valve *valve)
{
    QLL_REQUIRE(valve->id != NULL && valve->nominal_m > 0.0 && valve->kv_m3h > 0.0);
    QLL_REQUIRE(valve->set_min_pa_gauge < valve->set_max_pa_gauge);
    QLL_REQUIRE(valve->set_max_pa_gauge < valve->inlet_max_pa_gauge);
    QLL_REQUIRE(valve->sheet_set_pa_gauge < valve->sheet_inlet_pa_gauge);
    QLL_REQUIRE(valve->lockup_rise_pa >= 0.0 && valve->flow_min_m3s >= 0.0);
    QLL_REQUIRE(valve->fl > 0.0 && valve->fl <= 1.0 && isfinite(valve->inlet_effect));
    QLL_REQUIRE(isfinite(valve->fd) && isfinite(valve->temperature_max_degc));
}

static void require_round_trip(const qll_catalogue *catalogue, qll_arena *arena)
{
    qll_writer writer = qll_writer_new(arena);
    qll_json json = qll_json_new(&writer);
    qll_catalogue_write(&json, catalogue);
    qll_text text = qll_writer_text(&writer);
    qll_problems problems = qll_problems_none(arena);
    qll_catalogue again;
    QLL_REQUIRE(read_json(text, arena, &again, &problems) == QLL_OK);
    QLL_REQUIRE(again.count == catalogue->count);
    QLL_REQUIRE((again.currency == NULL) == (catalogue->currency == NULL));
    QLL_REQUIRE(again.currency == NULL || strcmp(again.currency, catalogue->currency) == 0);
    for (size_t i = 0; i < again.count; i++) {
        const qll_valve *a = &catalogue->valves[i];
        const qll_valve *b = &again.valves[i];
        QLL_REQUIRE(strcmp(a->id, b->id) == 0 && a->kv_m3h == b->kv_m3h);
        QLL_REQUIRE(a->nominal_m == b->nominal_m && a->flow_min_m3s == b->flow_min_m3s);
        QLL_REQUIRE(a->sheet_set_pa_gauge == b->sheet_set_pa_gauge);
        QLL_REQUIRE(a->falloff_count == b->falloff_count && a->defaulted == b->defaulted);
        QLL_REQUIRE(catalogue->laws[i].full_falloff_pa == again.laws[i].full_falloff_pa);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
    qll_problems problems = qll_problems_none(arena);
    qll_catalogue catalogue;
    qll_text source = {(const char *)data, size};
    bool is_json = size > 0 && data[0] == '{';
    qll_status status = is_json ? read_json(source, arena, &catalogue, &problems)
                                : read_csv(source, arena, &catalogue, &problems);
    QLL_REQUIRE(status == QLL_OK || status == QLL_REFUSED);
    QLL_REQUIRE((status == QLL_OK) == (problems.refusal_count == 0));
    require_clean_problems(&problems);
    if (status == QLL_OK) {
        for (size_t i = 0; i < catalogue.count; i++) {
            require_valve(&catalogue.valves[i]);
            require_law(&catalogue.valves[i], &catalogue.laws[i]);
        }
        require_round_trip(&catalogue, arena);
    }
    qll_arena_close(arena);
    return 0;
}
