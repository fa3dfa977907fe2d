#include "station/connection.h"

#include "physics/material.h"
#include "physics/sizing.h"

#include <math.h>

/* A header is larger only beyond this, so that two walls of one size are not a reducer. */
#define QLL_SAME_BORE 1.1

static double in_series_kv(double a, double b)
{
    if (!(a > 0.0)) {
        return b > 0.0 ? b : (double)NAN;
    }
    return b > 0.0 ? 1.0 / sqrt(1.0 / (a * a) + 1.0 / (b * b)) : a;
}

static void add_reducers(const qll_pipe_size *header, qll_branch *branch)
{
    branch->reducer_kv_m3h = NAN;
    branch->recovery = NAN;
    if (header == NULL || !(header->bore_m > QLL_SAME_BORE * branch->pipe_bore_m)) {
        return;
    }
    const qll_sizing_case given = {.fl = branch->valve->fl,
                                   .valve_bore_m = branch->pipe_bore_m,
                                   .pipe_in_bore_m = header->bore_m,
                                   .pipe_out_bore_m = header->bore_m};
    branch->reducer_kv_m3h = qll_sizing_series_kv(&given);
    /* It moves one way from FL to its value at full Kv: the lesser of the two holds throughout. */
    branch->recovery = fmin(branch->valve->fl, qll_sizing_recovery(&given, branch->valve->kv_m3h));
}

static qll_status make_path(const qll_pipe_size *pipe, qll_arena *arena, qll_branch *branch)
{
    branch->path = NULL;
    if (pipe == NULL || !(pipe->wall_m > 0.0)) {
        return QLL_OK;
    }
    const qll_material *material = qll_material_find(qll_text_of(pipe->material));
    /* Layered pipe stands in no list of materials: its inner wall is plastic. */
    bool is_metal = material != NULL && material->is_metal;
    qll_noise_path *path = qll_arena_take(arena, 1, sizeof *path);
    if (path == NULL) {
        return QLL_NO_MEMORY;
    }
    const qll_noise_pipe wall = {.bore_m = pipe->bore_m,
                                 .wall_m = pipe->wall_m,
                                 .wall_density_kg_m3 = is_metal ? material->density_kg_m3 : 0.0,
                                 .wall_sound_speed_m_s = is_metal ? material->sound_speed_m_s : 0.0,
                                 .air_density_kg_m3 = QLL_AIR_DENSITY_KG_M3,
                                 .air_sound_speed_m_s = QLL_AIR_SOUND_SPEED_M_S,
                                 .is_plastic = !is_metal};
    qll_noise_path_make(&wall, path);
    branch->path = path;
    return QLL_OK;
}

qll_status qll_branch_connect(const qll_site *site, qll_arena *arena, qll_branch *branch)
{
    const qll_valve *valve = branch->valve;
    const qll_pipe_size *pipe = qll_site_size(site, valve->nominal_m);
    branch->pipe_bore_m = pipe == NULL ? valve->nominal_m : pipe->bore_m;
    add_reducers(site->header, branch);
    branch->series_kv_m3h = in_series_kv(valve->strainer_kv_m3h, branch->reducer_kv_m3h);
    return make_path(pipe, arena, branch);
}
