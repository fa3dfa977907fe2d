/* The way of the water as members of an answer: the ladder of pressures, and the maps of the valves. */
#include "documents/write_common.h"

#include <stdint.h>

static void put_step(qll_json *json, const qll_wording *wording, const qll_ladder *ladder,
                     const qll_ladder_step *step)
{
    qll_json_open_object(json);
    qll_writer what = qll_writer_new(json->writer->arena);
    qll_wording_step(&what, wording, ladder, step);
    qll_json_put_written(json, "what", &what);
    qll_json_put_figure(json, "pressure_pa_gauge", step->pressure_pa_gauge);
    qll_json_put_figure(json, "flow_m3s", step->flow_m3s);
    qll_json_put_figure(json, "velocity_m_s", step->velocity_m_s);
    qll_json_put_figure(json, "velocity_max_m_s", step->velocity_max_m_s);
    qll_json_put_bool(json, "too_fast", step->too_fast);
    qll_json_close_object(json);
}

static void put_ladders(qll_json *json, const qll_wording *wording, const qll_way *way)
{
    qll_json_put_list(json, "ladder");
    for (size_t i = 0; i < way->ladder_count; i++) {
        const qll_ladder *ladder = &way->ladders[i];
        qll_json_open_object(json);
        qll_json_put_text(json, "at", qll_ladder_time_words[ladder->time]);
        const bool is_named = ladder->outlet != SIZE_MAX;
        qll_json_put_text_or_null(json, "outlet",
                                  is_named ? wording->site->outlets[ladder->outlet].name : NULL);
        qll_json_put_list(json, "steps");
        for (size_t k = 0; k < ladder->count; k++) {
            put_step(json, wording, ladder, &ladder->steps[k]);
        }
        qll_json_close_list(json);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_numbers(qll_json *json, const char *key, const double *numbers, size_t count)
{
    qll_json_put_list(json, key);
    for (size_t i = 0; i < count; i++) {
        qll_json_number(json, numbers[i]);
    }
    qll_json_close_list(json);
}

static void put_cell(qll_json *json, const qll_map_cell *cell)
{
    qll_json_open_object(json);
    qll_json_put_text(json, "verdict", qll_grade_words[cell->grade]);
    qll_json_put_text_or_null(json, "regime",
                              cell->working ? qll_regime_words[cell->regime] : NULL);
    qll_json_put_number(json, "time_share", cell->time_share);
    qll_json_close_object(json);
}

static void put_map(qll_json *json, const qll_map *map)
{
    qll_json_open_object(json);
    qll_json_put_whole(json, "stage", (long long)map->stage);
    qll_json_put_whole(json, "branch", (long long)map->branch);
    put_numbers(json, "inlet_pa_gauge", map->inlet_pa_gauge, map->inlet_count);
    put_numbers(json, "flow_m3s", map->flow_m3s, map->flow_count);
    qll_json_put_list(json, "cells");
    for (size_t i = 0; i < map->inlet_count; i++) {
        qll_json_open_list(json);
        for (size_t f = 0; f < map->flow_count; f++) {
            put_cell(json, &map->cells[i * map->flow_count + f]);
        }
        qll_json_close_list(json);
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}

void qll_json_put_way(qll_json *json, const qll_wording *wording, const qll_way *way,
                      unsigned left_out)
{
    if (qll_has_part(left_out, QLL_PART_LADDER)) {
        put_ladders(json, wording, way);
    }
    if (!qll_has_part(left_out, QLL_PART_MAPS)) {
        return;
    }
    qll_json_put_list(json, "maps");
    for (size_t i = 0; i < way->map_count; i++) {
        put_map(json, &way->maps[i]);
    }
    qll_json_close_list(json);
}
