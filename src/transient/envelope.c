/* The way from the main to a draw, and what was seen along it. */
#include "transient/envelope.h"

#include "dynamics/pipeline.h"

#include <stdint.h>

/* Lines from the main to @p joint, the first one first; how many. Between lines stand valves: then it goes on behind
 * the joint that the boundary leads back to. */
static size_t list_way(const qll_tree *tree, size_t joint, size_t *way)
{
    const qll_network *network = &tree->network;
    size_t count = 0;
    /* Lines and boundaries lead away from the main, so that each joint is behind one at most. */
    for (size_t steps = 0; joint != tree->main_joint && steps <= 2 * network->joint_count;
         steps++) {
        size_t line = 0;
        while (line < network->line_count && network->lines[line].to != joint) {
            line += 1;
        }
        if (line < network->line_count) {
            way[count++] = line;
            joint = network->lines[line].from;
            continue;
        }
        size_t i = 0;
        while (i < network->boundary_count
               && (network->boundaries[i].kind->port_count != 2
                   || network->boundaries[i].node[1] != joint)) {
            i += 1;
        }
        joint = i < network->boundary_count ? network->boundaries[i].node[0] : tree->main_joint;
    }
    for (size_t i = 0; i < count / 2; i++) {
        const size_t other = way[i];
        way[i] = way[count - 1 - i];
        way[count - 1 - i] = other;
    }
    return count;
}

static size_t sections_of(const qll_grid *grid, size_t line)
{
    return grid->pipes[line].cells == 0 ? 1 : grid->pipes[line].cells;
}

typedef struct envelope_rows {
    double *at_m, *high, *low, *before;
    size_t count;
} envelope_rows;

static void put_line(const qll_pipeline *pipeline, const qll_run_found *found, size_t line,
                     double from_m, envelope_rows *rows)
{
    const qll_line *own = &found->tree.network.lines[line];
    const size_t sections = sections_of(&found->grid, line);
    const qll_joint_seen *first = &found->joints[own->from], *last = &found->joints[own->to];
    for (size_t s = 0; s <= sections; s++) {
        const double share = (double)s / (double)sections;
        const qll_joint_seen *end = s == 0 ? first : last;
        qll_range range = {end->high_pa_gauge, end->low_pa_gauge};
        if (s > 0 && s < sections) {
            range = qll_pipeline_range(pipeline, line, s);
        }
        rows->at_m[rows->count] = from_m + share * own->length_m;
        rows->high[rows->count] = range.high_pa_gauge;
        rows->low[rows->count] = range.low_pa_gauge;
        rows->before[rows->count] =
            first->before_pa_gauge * (1 - share) + last->before_pa_gauge * share;
        rows->count += 1;
    }
}

qll_status qll_envelope_make(const qll_pipeline *pipeline, size_t draw, qll_arena *arena,
                             qll_run_found *found)
{
    const qll_tree *tree = &found->tree;
    size_t *way = qll_arena_take(arena, tree->network.line_count, sizeof *way);
    if (way == NULL) {
        return QLL_NO_MEMORY;
    }
    const size_t count = list_way(tree, tree->draws[draw].joint, way);
    size_t room = 0;
    for (size_t i = 0; i < count; i++) {
        room += sections_of(&found->grid, way[i]) + 1;
    }
    envelope_rows rows = {.at_m = qll_arena_take(arena, room, sizeof(double)),
                          .high = qll_arena_take(arena, room, sizeof(double)),
                          .low = qll_arena_take(arena, room, sizeof(double)),
                          .before = qll_arena_take(arena, room, sizeof(double))};
    if (rows.at_m == NULL || rows.high == NULL || rows.low == NULL || rows.before == NULL) {
        return QLL_NO_MEMORY;
    }
    double at_m = 0, station_m = 0;
    for (size_t i = 0; i < count; i++) {
        put_line(pipeline, found, way[i], at_m, &rows);
        at_m += tree->network.lines[way[i]].length_m;
        station_m = tree->pipes[way[i]].part == QLL_TREE_SERVICE ? at_m : station_m;
    }
    found->envelope = (qll_run_envelope){.at_m = rows.at_m,
                                         .high_pa_gauge = rows.high,
                                         .low_pa_gauge = rows.low,
                                         .before_pa_gauge = rows.before,
                                         .count = rows.count,
                                         .station_m = station_m};
    return QLL_OK;
}
