#include "transient/tree_parts.h"

#include <math.h>

/* Heights this near are the same, m. */
static const double same_m = 1e-6;

static double way_length_m(const qll_outlet *outlet, size_t runs)
{
    double sum_m = 0;
    for (size_t i = 0; i < runs; i++) {
        sum_m += outlet->path[i].pipe.length_m;
    }
    return sum_m;
}

/* Height of the far end of a way's pipe: the way rises evenly. */
static double height_m(const qll_outlet *outlet, size_t run)
{
    return run + 1 == outlet->path_count ? outlet->elevation_m
                                         : outlet->elevation_m * way_length_m(outlet, run + 1)
                                               / way_length_m(outlet, outlet->path_count);
}

static bool is_same_flow(double a, double b)
{
    return (isnan(a) && isnan(b)) || a == b;
}

static bool is_same_pipe(const qll_path_run *a, const qll_path_run *b)
{
    return a->size == b->size && a->pipe.bore_m == b->pipe.bore_m
           && a->pipe.length_m == b->pipe.length_m && a->pipe.minor_loss == b->pipe.minor_loss
           && is_same_flow(a->carries_m3s, b->carries_m3s);
}

/* The joint behind pipe @p run of a way where another way has laid it from @p from already; joint_count: none. Where
 * ways end they share the pipe only if they end at one height. */
static size_t laid_before(const qll_tree_grows *of, size_t from, const qll_outlet *outlet,
                          size_t run)
{
    const qll_outlet *outlets = of->order->site->outlets;
    for (size_t i = 0; i < of->line_count; i++) {
        const qll_tree_pipe *pipe = &of->pipes[i];
        if (pipe->part != QLL_TREE_WAY || of->lines[i].from != from
            || !is_same_pipe(&outlets[pipe->outlet].path[pipe->run], &outlet->path[run])) {
            continue;
        }
        const double apart_m = of->joints[of->lines[i].to].elevation_m - outlet->elevation_m;
        if (run + 1 < outlet->path_count || fabs(apart_m) < same_m) {
            return of->lines[i].to;
        }
    }
    return of->joint_count;
}

static void lay_way(qll_tree_grows *of, size_t start, size_t index)
{
    const qll_outlet *outlet = &of->order->site->outlets[index];
    size_t now = start;
    for (size_t run = 0; run < outlet->path_count; run++) {
        const size_t before = laid_before(of, now, outlet, run);
        if (before < of->joint_count) {
            now = before;
            continue;
        }
        const qll_path_run *own = &outlet->path[run];
        const double usual_m3s = qll_path_carries_m3s(own, of->order->peak_m3s);
        now = qll_tree_add_line(
            of, now,
            &(qll_tree_run){
                .pipe = &own->pipe,
                .origin = {QLL_TREE_WAY, .outlet = index, .run = run, .size = own->size},
                .usual_m3s = usual_m3s > 0 ? usual_m3s : of->order->peak_m3s,
                .elevation_m = height_m(outlet, run)});
    }
    of->tree->draws[index].joint = now;
}

/* Short ways first, so that a longer one finds the height at which a shorter one ends on it. */
static void lay_all(qll_tree_grows *of, size_t start)
{
    const qll_site *site = of->order->site;
    size_t most = 0;
    for (size_t i = 0; i < site->outlet_count; i++) {
        most = site->outlets[i].path_count > most ? site->outlets[i].path_count : most;
    }
    for (size_t length = 0; length <= most; length++) {
        for (size_t i = 0; i < site->outlet_count; i++) {
            if (site->outlets[i].path_count == length) {
                lay_way(of, start, i);
            }
        }
    }
}

qll_status qll_tree_lay_ways(qll_tree_grows *of, size_t outlet)
{
    const qll_site *site = of->order->site;
    qll_tree *tree = of->tree;
    tree->draw_count = site->outlet_count + 1;
    tree->draws = qll_arena_take(of->arena, tree->draw_count, sizeof *tree->draws);
    if (tree->draws == NULL) {
        return QLL_NO_MEMORY;
    }
    lay_all(of, outlet);
    if (of->is_bare[outlet]) {
        (void)qll_tree_add_header(of, outlet, 0);
    }
    tree->draws[site->outlet_count].joint = outlet;
    for (size_t i = 0; i < tree->draw_count; i++) {
        qll_tree_add_boundary(of, &qll_opening_kind, &tree->draws[i].opening, tree->draws[i].joint,
                              tree->draws[i].joint);
    }
    return QLL_OK;
}
