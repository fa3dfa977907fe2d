#include "dynamics/pipeline_state.h"
#include "physics/water.h"

#include <assert.h>
#include <math.h>

static const double pi = 3.14159265358979323846;

static double area_m2(const qll_line *line)
{
    return pi / 4 * line->bore_m * line->bore_m;
}

static qll_short_pipe short_pipe_of(const qll_network *network, const qll_line *line)
{
    const double speed = line->wave_speed_m_s;
    const double volume_m3 = line->length_m * area_m2(line);
    const double rise_m =
        network->joints[line->to].elevation_m - network->joints[line->from].elevation_m;
    return (qll_short_pipe){.inertia_pa_s2_m3 =
                                network->density_kg_m3 * line->length_m / area_m2(line),
                            .room_m3_pa = volume_m3 / (network->density_kg_m3 * speed * speed),
                            .rise_pa = network->density_kg_m3 * QLL_GRAVITY_M_S2 * rise_m,
                            .friction = line->friction};
}

static bool take_waves(qll_waves *waves, size_t sections, qll_arena *arena)
{
    waves->forward = qll_arena_take(arena, sections, sizeof *waves->forward);
    waves->backward = qll_arena_take(arena, sections, sizeof *waves->backward);
    return waves->forward != NULL && waves->backward != NULL;
}

static bool make_pipe(const qll_network *network, size_t index, const qll_grid *grid,
                      qll_arena *arena, qll_pipe *made)
{
    const qll_line *line = &network->lines[index];
    const qll_grid_pipe *cut = &grid->pipes[index];
    const double speed_m_s = line->wave_speed_m_s * (1 + cut->speed_off);
    const double weight = network->density_kg_m3 * QLL_GRAVITY_M_S2;
    *made = (qll_pipe){
        .first = {.joint = line->from, .rise_pa = weight * network->joints[line->from].elevation_m},
        .last = {.joint = line->to, .rise_pa = weight * network->joints[line->to].elevation_m}};
    if (cut->cells == 0) {
        return true;
    }
    const double cells = (double)cut->cells;
    made->cell_m3 = line->length_m * area_m2(line) / cells;
    made->cells =
        qll_cells_of(cut->cells, network->density_kg_m3 * speed_m_s / area_m2(line), grid->step_s,
                     (qll_friction){line->friction.linear_pa_s_m3 / cells,
                                    line->friction.square_pa_s2_m6 / cells});
    const size_t sections = cut->cells + 1;
    made->cavity_m3 = qll_arena_take(arena, sections, sizeof *made->cavity_m3);
    made->envelope.twice_high = qll_arena_take(arena, sections, sizeof(double));
    made->envelope.twice_low = qll_arena_take(arena, sections, sizeof(double));
    return take_waves(&made->now, sections, arena) && take_waves(&made->next, sections, arena)
           && made->cavity_m3 != NULL && made->envelope.twice_high != NULL
           && made->envelope.twice_low != NULL;
}

/* The boundaries and the pipes that count as one piece: lumped ones, or all. */
static qll_status make_meeting(qll_pipeline *made, bool all, qll_arena *arena,
                               qll_meeting **meeting)
{
    qll_boundary *list =
        qll_arena_take(arena, made->boundary_count + made->pipe_count, sizeof *list);
    if (list == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t count = 0;
    for (; count < made->boundary_count; count++) {
        list[count] = made->boundaries[count];
    }
    for (size_t i = 0; i < made->pipe_count; i++) {
        if (all || made->pipes[i].cells.count == 0) {
            list[count++] =
                (qll_boundary){.kind = &qll_short_pipe_kind,
                               .state = &made->short_pipes[i],
                               .node = {made->pipes[i].first.joint, made->pipes[i].last.joint}};
        }
    }
    return qll_meeting_make(list, count, made->joint_count, arena, meeting);
}

static qll_status make_grid(const qll_network *network, const qll_grid_limits *limits,
                            qll_arena *arena, qll_pipeline *made)
{
    double *travel_s = qll_arena_take(arena, network->line_count, sizeof *travel_s);
    const double longest_s = qll_network_longest_s(network, arena);
    if (travel_s == NULL || isnan(longest_s)) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < network->line_count; i++) {
        travel_s[i] = network->lines[i].length_m / network->lines[i].wave_speed_m_s;
    }
    made->loop_s = 2 * longest_s;
    return qll_grid_choose(travel_s, network->line_count, longest_s, limits, arena, &made->grid);
}

static qll_status fill_pipeline(const qll_network *network, const qll_grid_limits *limits,
                                qll_arena *arena, qll_pipeline *made)
{
    made->pipes = qll_arena_take(arena, made->pipe_count, sizeof *made->pipes);
    made->short_pipes = qll_arena_take(arena, made->pipe_count, sizeof *made->short_pipes);
    made->nodes = qll_arena_take(arena, made->joint_count, sizeof *made->nodes);
    made->seen = qll_arena_take(arena, made->joint_count, sizeof *made->seen);
    if (made->pipes == NULL || made->short_pipes == NULL || made->nodes == NULL
        || made->seen == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_status status = make_grid(network, limits, arena, made);
    for (size_t i = 0; i < made->pipe_count && status == QLL_OK; i++) {
        made->short_pipes[i] = short_pipe_of(network, &network->lines[i]);
        if (!make_pipe(network, i, &made->grid, arena, &made->pipes[i])) {
            status = QLL_NO_MEMORY;
        }
    }
    if (status == QLL_OK) {
        status = make_meeting(made, false, arena, &made->waves);
    }
    return status == QLL_OK ? make_meeting(made, true, arena, &made->quiet) : status;
}

qll_status qll_pipeline_make(const qll_network *network, const qll_grid_limits *limits,
                             qll_problems *problems, qll_arena *arena, qll_pipeline **pipeline)
{
    assert(network != NULL && limits != NULL && network->joint_count > 0);
    if (!qll_network_check(network, problems)) {
        return qll_problems_status(problems);
    }
    qll_pipeline *made = qll_arena_take(arena, 1, sizeof *made);
    if (made == NULL) {
        return QLL_NO_MEMORY;
    }
    *made = (qll_pipeline){.vapour_pa_gauge = network->vapour_pa_gauge,
                           .pipe_count = network->line_count,
                           .joints = network->joints,
                           .joint_count = network->joint_count,
                           .boundaries = network->boundaries,
                           .boundary_count = network->boundary_count};
    *pipeline = made;
    return fill_pipeline(network, limits, arena, made);
}
