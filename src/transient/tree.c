#include "transient/tree.h"

#include "station/closed.h"
#include "transient/tree_parts.h"

#include <assert.h>
#include <math.h>

/* A heater warms its whole water in an hour: what heaters for homes are sold by (our assumption). */
static const double heating_s = 3600;

/* ---- what is refused ---- */

static bool refuse_length(qll_problems *problems, qll_writer *path, double length_m)
{
    qll_write(path, ".length");
    return qll_problems_add(
        problems, (qll_fault){.code = QLL_CODE_OUT_OF_RANGE,
                              .place = {.source = "", .path = qll_writer_text(path).bytes},
                              .says = QLL_SAYS_WITH(PIPE_NO_LENGTH,
                                                    qll_as_quantity(length_m, QLL_KIND_LENGTH)),
                              .hint = QLL_SAYS(HINT_PIPE_NO_LENGTH)});
}

static bool check_lengths(const qll_site *site, qll_problems *problems)
{
    bool good = true;
    for (size_t i = 0; i < site->upstream_count; i++) {
        const qll_element *element = &site->upstream[i];
        if (element->kind == QLL_ELEMENT_PIPE && !(element->pipe.length_m > 0)) {
            qll_writer path = qll_writer_new(problems->arena);
            qll_write_format(&path, "upstream[%zu]", i);
            good = refuse_length(problems, &path, element->pipe.length_m);
        }
    }
    for (size_t i = 0; i < site->outlet_count; i++) {
        for (size_t k = 0; k < site->outlets[i].path_count; k++) {
            if (!(site->outlets[i].path[k].pipe.length_m > 0)) {
                qll_writer path = qll_writer_new(problems->arena);
                qll_write_format(&path, "downstream.outlets[%zu].path[%zu]", i, k);
                good = refuse_length(problems, &path, site->outlets[i].path[k].pipe.length_m);
            }
        }
    }
    return good;
}

/* ---- room ---- */

static size_t line_room(const qll_tree_order *order)
{
    const qll_site *site = order->site;
    /* At most two a thing of the service, a piece of pipe behind each stage, one at either end. */
    size_t room = 2 * site->upstream_count + order->station->stage_count + 2;
    for (size_t i = 0; i < site->outlet_count; i++) {
        room += site->outlets[i].path_count;
    }
    return room;
}

static bool take_room(qll_tree_grows *of, size_t arrester_count)
{
    const qll_tree_order *order = of->order;
    const size_t lines = line_room(order);
    const size_t joints = lines + order->site->upstream_count + order->station->stage_count + 1;
    const size_t boundaries = order->site->upstream_count
                              + 2 * qll_station_valve_count(order->station)
                              + order->site->outlet_count + arrester_count + 5;
    of->lines = qll_arena_take(of->arena, lines, sizeof *of->lines);
    of->pipes = qll_arena_take(of->arena, lines, sizeof *of->pipes);
    of->joints = qll_arena_take(of->arena, joints, sizeof *of->joints);
    of->is_bare = qll_arena_take(of->arena, joints, sizeof *of->is_bare);
    of->boundaries = qll_arena_take(of->arena, boundaries, sizeof *of->boundaries);
    of->tree->main = qll_arena_take(of->arena, 1, sizeof *of->tree->main);
    return of->lines != NULL && of->pipes != NULL && of->joints != NULL && of->is_bare != NULL
           && of->boundaries != NULL && of->tree->main != NULL;
}

/* ---- what hangs at the station's outlet ---- */

/* Where the tank's charge is not said it is the station's outlet at no flow. */
static double precharge_pa_gauge(const qll_tree_order *order)
{
    const double own_pa_gauge = order->site->tank.precharge_pa_gauge;
    if (!isnan(own_pa_gauge)) {
        return own_pa_gauge;
    }
    const qll_stage *last = &order->station->stages[order->station->stage_count - 1];
    double highest_pa_gauge = 0;
    for (size_t j = 0; j < last->branch_count; j++) {
        highest_pa_gauge = fmax(highest_pa_gauge, last->branches[j].set_pa_gauge
                                                      + last->branches[j].valve->lockup_rise_pa);
    }
    return highest_pa_gauge;
}

static void hang_tank(qll_tree_grows *of)
{
    const qll_site *site = of->order->site;
    if (!(site->tank.volume_m3 > 0)) {
        return;
    }
    of->tree->tank = qll_arena_take(of->arena, 1, sizeof *of->tree->tank);
    of->has_memory = of->has_memory && of->tree->tank != NULL;
    if (of->has_memory) {
        *of->tree->tank = qll_air_chamber_of(site->tank.volume_m3,
                                             precharge_pa_gauge(of->order) + site->barometric_pa,
                                             site->barometric_pa);
        qll_tree_add_boundary(of, &qll_air_chamber_kind, of->tree->tank, of->tree->outlet_joint,
                              of->tree->outlet_joint);
    }
}

/* Cold, and it stays so until somebody sets its power. */
static void hang_heater(qll_tree_grows *of)
{
    const qll_site *site = of->order->site;
    if (!(site->heater.volume_m3 > 0)) {
        return;
    }
    of->tree->heater = qll_arena_take(of->arena, 1, sizeof *of->tree->heater);
    of->has_memory = of->has_memory && of->tree->heater != NULL;
    if (of->has_memory) {
        const double heat_j_k =
            site->water.density_kg_m3 * QLL_WATER_HEAT_J_KG_K * site->heater.volume_m3;
        *of->tree->heater = (qll_warming){
            .vessel = qll_heater_part(&site->heater),
            .power_w = heat_j_k * (site->heater.hot_degc - site->heater.cold_degc) / heating_s,
            .begins_s = INFINITY,
            .hot_degc = site->heater.hot_degc,
            .barometric_pa = site->barometric_pa,
            .pressure_pa_gauge = qll_tree_outlet_pa_gauge(of->order)};
        qll_tree_add_boundary(of, &qll_warming_kind, of->tree->heater, of->tree->outlet_joint,
                              of->tree->outlet_joint);
    }
}

static void hang_arresters(qll_tree_grows *of, const qll_tree_arrester *arresters, size_t count)
{
    const double barometric_pa = of->order->site->barometric_pa;
    qll_air_chamber *made = qll_arena_take(of->arena, count + 1, sizeof *made);
    of->has_memory = of->has_memory && made != NULL;
    for (size_t i = 0; i < count && of->has_memory; i++) {
        assert(arresters[i].draw < of->tree->draw_count);
        const size_t joint = of->tree->draws[arresters[i].draw].joint;
        made[i] = qll_air_chamber_of(
            arresters[i].volume_m3, arresters[i].precharge_pa_gauge + barometric_pa, barometric_pa);
        qll_tree_add_boundary(of, &qll_air_chamber_kind, &made[i], joint, joint);
    }
    of->tree->arresters = made;
    of->tree->arrester_count = count;
}

static void finish(qll_tree_grows *of)
{
    const qll_site *site = of->order->site;
    of->tree->pipes = of->pipes;
    of->tree->network =
        (qll_network){.lines = of->lines,
                      .line_count = of->line_count,
                      .joints = of->joints,
                      .joint_count = of->joint_count,
                      .boundaries = of->boundaries,
                      .boundary_count = of->boundary_count,
                      .density_kg_m3 = site->water.density_kg_m3,
                      .vapour_pa_gauge = site->water.vapour_pressure_pa - site->barometric_pa};
}

qll_status qll_tree_make(const qll_tree_order *order, const qll_tree_arrester *arresters,
                         size_t arrester_count, qll_problems *problems, qll_arena *arena,
                         qll_tree *tree)
{
    assert(order != NULL && order->station->stage_count > 0 && order->peak_m3s > 0);
    if (!check_lengths(order->site, problems)) {
        return qll_problems_status(problems);
    }
    *tree = (qll_tree){0};
    qll_tree_grows of = {
        .order = order, .arena = arena, .problems = problems, .tree = tree, .has_memory = true};
    if (!take_room(&of, arrester_count)) {
        return QLL_NO_MEMORY;
    }
    qll_status status = qll_tree_lay_station(&of, qll_tree_lay_service(&of), &tree->outlet_joint);
    status = status == QLL_OK ? qll_tree_lay_ways(&of, tree->outlet_joint) : status;
    if (status != QLL_OK) {
        return status;
    }
    hang_tank(&of);
    hang_heater(&of);
    hang_arresters(&of, arresters, arrester_count);
    finish(&of);
    return of.has_memory ? QLL_OK : QLL_NO_MEMORY;
}
