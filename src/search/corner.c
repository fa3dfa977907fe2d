#include "search/corner.h"

#include <math.h>
#include <string.h>

qll_status qll_corner_room_make(const qll_site *site, const qll_duty *duty, qll_arena *arena,
                                qll_corner_room *room)
{
    size_t count = duty->scenario_count + 1;
    qll_corner_view *views = qll_arena_take(arena, count, sizeof *views);
    qll_operating_point *points = qll_arena_take(arena, count, sizeof *points);
    if (views == NULL || points == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        bool is_still = i == duty->scenario_count;
        points[i] = (qll_operating_point){
            .flow_m3s = is_still ? 0.0 : duty->scenarios[i].peak_m3s,
            .inlet_pa = is_still ? qll_corner_still_inlet_pa(duty)
                                 : qll_corner_peak_inlet_pa(site, duty, i),
            .stage_inlet_pa = views[i].inlet_pa,
            .stage_outlet_pa = views[i].outlet_pa,
            .branches = views[i].branches,
        };
    }
    *room = (qll_corner_room){.site = site, .duty = duty, .points = points, .views = views};
    return QLL_OK;
}

qll_status qll_stage_corners_make(const qll_duty *duty, qll_arena *arena,
                                  qll_stage_corners *corners)
{
    size_t count = duty->scenario_count + 1;
    corners->inlet_pa = qll_arena_take(arena, count, sizeof *corners->inlet_pa);
    corners->outlet_pa = qll_arena_take(arena, count, sizeof *corners->outlet_pa);
    corners->states = qll_arena_take(arena, count, sizeof *corners->states);
    bool has_all =
        corners->inlet_pa != NULL && corners->outlet_pa != NULL && corners->states != NULL;
    return has_all ? QLL_OK : QLL_NO_MEMORY;
}

void qll_stage_corners_begin(const qll_corner_room *room, qll_stage_corners *corners)
{
    for (size_t i = 0; i <= room->duty->scenario_count; i++) {
        corners->inlet_pa[i] = room->points[i].inlet_pa;
    }
}

void qll_stage_corners_follow(const qll_duty *duty, const qll_stage_corners *before,
                              qll_stage_corners *corners)
{
    memcpy(corners->inlet_pa, before->outlet_pa,
           (duty->scenario_count + 1) * sizeof *corners->inlet_pa);
}

void qll_stage_corners_solve(const qll_duty *duty, const qll_stage_solver *solver,
                             size_t branch_count, qll_stage_corners *corners)
{
    for (size_t i = 0; i <= duty->scenario_count; i++) {
        double flow_m3s = i < duty->scenario_count ? duty->scenarios[i].peak_m3s : 0.0;
        double inlet_pa = corners->inlet_pa[i];
        qll_stage_point solved = qll_stage_solve(solver, inlet_pa, flow_m3s);
        corners->outlet_pa[i] = solved.passes ? solved.outlet_pa : (double)NAN;
        if (solved.passes) {
            qll_stage_states(solver, inlet_pa, flow_m3s, solved.outlet_pa, corners->states[i]);
        } else {
            memset(corners->states[i], 0, branch_count * sizeof corners->states[i][0]);
        }
    }
}

static void show(const qll_corner_room *room, size_t stage, const qll_stage_corners *corners)
{
    for (size_t i = 0; i <= room->duty->scenario_count; i++) {
        qll_operating_point *point = &room->points[i];
        room->views[i].inlet_pa[stage] = corners->inlet_pa[i];
        room->views[i].outlet_pa[stage] = corners->outlet_pa[i];
        room->views[i].branches[stage] = corners->states[i];
        point->outlet_pa = corners->outlet_pa[i];
        point->passes = !isnan(corners->outlet_pa[i]);
    }
}

static qll_corner_points points_of(const qll_corner_room *room)
{
    return (qll_corner_points){.peak_low = room->points,
                               .still = &room->points[room->duty->scenario_count]};
}

qll_rule qll_corner_broken_by_stage(const qll_corner_room *room, const qll_stage *stage,
                                    const qll_stage_corners *corners)
{
    const qll_station alone = {.stages = stage, .stage_count = 1};
    const qll_corner_points points = points_of(room);
    show(room, 0, corners);
    return qll_hard_rule_broken_by_stage(&alone, room->site, room->duty, &points);
}

qll_rule qll_corner_broken(const qll_corner_room *room, const qll_station *station,
                           const qll_stage_corners *const *corners)
{
    const qll_corner_points points = points_of(room);
    for (size_t k = 0; k < station->stage_count; k++) {
        show(room, k, corners[k]);
    }
    return qll_hard_rule_broken(station, room->site, room->duty, &points);
}
