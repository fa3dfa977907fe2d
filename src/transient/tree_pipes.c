#include "physics/material.h"
#include "physics/surge.h"
#include "transient/tree_parts.h"

#include <math.h>

/* Of a layered wall nothing is published as one set: between plastic and its metal layer (our assumption). */
static const double layered_modulus_pa = 10e9;
static const double layered_poisson = 0.4;
/* Wall over bore where the pipe is not known: between tube and steel pipe (our assumption). */
static const double unknown_bore_m = 0.02, unknown_wall_m = 0.0015;
/* A piece of pipe between two valves: ten bores (our assumption). */
static const double header_bores = 10;
static const double header_bore_m = 0.05;

/* Of layered pipe, and without a size, as of a wall of 10 GPa; pipes are held against movement (our assumption). */
static double wave_speed_m_s(const qll_pipe_size *size, const qll_water *water, bool *is_assumed)
{
    const qll_material *material =
        size == NULL ? NULL : qll_material_find(qll_text_of(size->material));
    *is_assumed = material == NULL;
    const qll_surge_pipe pipe = {.bore_m = size == NULL ? unknown_bore_m : size->bore_m,
                                 .wall_m = size == NULL ? unknown_wall_m : size->wall_m,
                                 .modulus_pa =
                                     material == NULL ? layered_modulus_pa : material->modulus_pa,
                                 .poisson = material == NULL ? layered_poisson : material->poisson,
                                 .anchoring = QLL_ANCHORED_THROUGHOUT};
    return qll_wave_speed_m_s(&pipe, water->bulk_modulus_pa, water->density_kg_m3);
}

size_t qll_tree_add_joint(qll_tree_grows *of, double elevation_m, double start_pa_gauge)
{
    of->joints[of->joint_count] = (qll_joint){
        .elevation_m = elevation_m, .held_pa_gauge = (double)NAN, .start_pa_gauge = start_pa_gauge};
    of->is_bare[of->joint_count] = true;
    return of->joint_count++;
}

size_t qll_tree_add_line(qll_tree_grows *of, size_t from, const qll_tree_run *run)
{
    const qll_water *water = &of->order->site->water;
    qll_tree_pipe *pipe = &of->pipes[of->line_count];
    *pipe = run->origin;
    const double fall_pa =
        qll_site_column_pa(of->order->site, of->joints[from].elevation_m - run->elevation_m);
    const size_t to =
        qll_tree_add_joint(of, run->elevation_m, of->joints[from].start_pa_gauge + fall_pa);
    qll_friction friction = qll_friction_of(run->pipe, run->usual_m3s, water, &pipe->friction_off);
    friction.square_pa_s2_m6 += run->beside_pa / (run->usual_m3s * run->usual_m3s);
    of->lines[of->line_count] = (qll_line){
        .from = from,
        .to = to,
        .length_m = run->pipe->length_m,
        .bore_m = run->pipe->bore_m,
        .wave_speed_m_s = wave_speed_m_s(run->origin.size, water, &pipe->is_speed_assumed),
        .friction = friction};
    of->is_bare[from] = of->is_bare[to] = false;
    of->line_count += 1;
    return to;
}

void qll_tree_add_boundary(qll_tree_grows *of, const qll_boundary_kind *kind, void *state,
                           size_t first, size_t second)
{
    of->boundaries[of->boundary_count++] =
        (qll_boundary){.kind = kind, .state = state, .node = {first, second}};
}

size_t qll_tree_add_header(qll_tree_grows *of, size_t from, double beside_pa)
{
    const qll_pipe_size *size = of->order->site->header;
    const double bore_m = size == NULL ? header_bore_m : size->bore_m;
    const qll_pipe_run pipe = {.bore_m = bore_m,
                               .length_m = header_bores * bore_m,
                               .roughness_m = size == NULL ? 0 : size->roughness_m};
    return qll_tree_add_line(of, from,
                             &(qll_tree_run){.pipe = &pipe,
                                             .origin = {.part = QLL_TREE_HEADER, .size = size},
                                             .usual_m3s = of->order->peak_m3s,
                                             .beside_pa = beside_pa,
                                             .elevation_m = of->joints[from].elevation_m});
}

/* ---- the service ---- */

/* A backflow preventer is a check valve: its opening step, and what grows with the square of the flow. One with a
 * loss of its own opens at what it loses at its first point. */
static void lay_backflow(qll_tree_grows *of, const qll_element *element, size_t from, size_t to)
{
    qll_check_valve *check = qll_arena_take(of->arena, 1, sizeof *check);
    if (check == NULL) {
        of->has_memory = false;
        return;
    }
    const double usual_m3s = of->order->peak_m3s;
    const double opens_pa =
        element->loss.count > 0 ? element->loss.points[0].y : element->backflow.opening_pa;
    const double drop_pa = qll_element_drop_pa(element, usual_m3s, &of->order->site->water);
    *check = (qll_check_valve){.coefficient = usual_m3s / sqrt(fmax(drop_pa - opens_pa, 1)),
                               .opens_pa = opens_pa};
    qll_tree_add_boundary(of, &qll_check_valve_kind, check, from, to);
}

/* The rise of all pipes before the station: its outlet is at height 0. */
static double service_rise_m(const qll_site *site)
{
    double sum_m = 0;
    for (size_t i = 0; i < site->upstream_count; i++) {
        sum_m += site->upstream[i].kind == QLL_ELEMENT_PIPE ? site->upstream[i].pipe.rise_m : 0;
    }
    return sum_m;
}

/* A loss waits for the pipe behind it; what waits at the end sits in a piece of station pipe. */
size_t qll_tree_lay_service(qll_tree_grows *of)
{
    const qll_tree_order *order = of->order;
    const qll_site *site = order->site;
    size_t now = of->tree->main_joint =
        qll_tree_add_joint(of, -service_rise_m(site), order->static_pa_gauge);
    of->is_bare[now] = false;
    of->has_memory =
        of->has_memory
        && qll_supply_end_make(&site->supply, order->static_pa_gauge, of->arena, of->tree->main);
    qll_tree_add_boundary(of, &qll_supply_end_kind, of->tree->main, now, now);
    double waits_pa = 0;
    for (size_t i = 0; i < site->upstream_count; i++) {
        const qll_element *element = &site->upstream[i];
        if (element->kind == QLL_ELEMENT_PIPE) {
            const double to_m = of->joints[now].elevation_m + element->pipe.rise_m;
            const qll_tree_run run = {
                .pipe = &element->pipe,
                .origin = {.part = QLL_TREE_SERVICE, .element = i, .size = element->size},
                .usual_m3s = order->peak_m3s,
                .beside_pa = waits_pa,
                .elevation_m = to_m};
            now = qll_tree_add_line(of, now, &run);
            waits_pa = 0;
        } else if (element->kind == QLL_ELEMENT_BACKFLOW) {
            now = of->is_bare[now] ? qll_tree_add_header(of, now, 0) : now;
            const size_t behind =
                qll_tree_add_joint(of, of->joints[now].elevation_m, of->joints[now].start_pa_gauge);
            lay_backflow(of, element, now, behind);
            now = behind;
        } else {
            waits_pa += qll_element_drop_pa(element, order->peak_m3s, &site->water);
        }
    }
    return of->is_bare[now] || waits_pa > 0 ? qll_tree_add_header(of, now, waits_pa) : now;
}
