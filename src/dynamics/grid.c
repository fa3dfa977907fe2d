#include "dynamics/grid.h"

#include <assert.h>
#include <math.h>

static const double pi = 3.14159265358979323846;
/* Our assumptions; docs/theory/waves.md, eq. 6 and 7. */
static const double lumped_share = 1.0 / 200;
static const double usual_speed_off = 0.01;
static const size_t usual_cells_most = 20000;

enum {
    QLL_FINE_VALUES = 16 /* steps tried between one division of the shortest pipe and the next */
};

static qll_grid_limits filled(const qll_grid_limits *limits, double longest_s)
{
    return (qll_grid_limits){
        .step_most_s = limits->step_most_s > 0 ? limits->step_most_s : (double)INFINITY,
        .lumped_s = limits->lumped_s > 0 ? limits->lumped_s : lumped_share * longest_s,
        .speed_off_most = limits->speed_off_most > 0 ? limits->speed_off_most : usual_speed_off,
        .cells_most = limits->cells_most > 0 ? limits->cells_most : usual_cells_most};
}

/* Eq. 7: (w tau)^2/6 + w dt/2 = 0.05 solved for pi/w. */
static double lumped_5_percent_s(double travel_s, double step_s)
{
    const double half = step_s / 2;
    const double square = travel_s * travel_s / 6;
    const double w = 2 * 0.05 / (half + sqrt(half * half + 4 * square * 0.05));
    return pi / w;
}

static bool is_lumped(double travel_s, const qll_grid_limits *limits)
{
    return travel_s < limits->lumped_s;
}

/* How far the worst speed is off with this step, and how many cells it takes. */
typedef struct trial {
    double step_s, off, cells;
} trial;

static trial try_step(const double *travel_s, size_t count, const qll_grid_limits *limits,
                      double step_s)
{
    trial tried = {.step_s = step_s};
    for (size_t i = 0; i < count; i++) {
        if (!is_lumped(travel_s[i], limits)) {
            const double cells = fmax(1, round(travel_s[i] / step_s));
            tried.cells += cells;
            tried.off = fmax(tried.off, fabs(travel_s[i] / (cells * step_s) - 1));
        }
    }
    return tried;
}

static double shortest_kept_s(const double *travel_s, size_t count, const qll_grid_limits *limits)
{
    double least_s = (double)INFINITY;
    for (size_t i = 0; i < count; i++) {
        if (!is_lumped(travel_s[i], limits)) {
            least_s = fmin(least_s, travel_s[i]);
        }
    }
    return least_s;
}

/* The longest step within all limits, or the best of those within the number of cells. */
static trial best_step(const double *travel_s, size_t count, const qll_grid_limits *limits)
{
    const double shortest_s = shortest_kept_s(travel_s, count, limits);
    if (isinf(shortest_s)) { /* all lumped */
        return (trial){.step_s = fmin(limits->step_most_s, limits->lumped_s)};
    }
    double step_s = fmin(shortest_s, limits->step_most_s);
    trial best = try_step(travel_s, count, limits, step_s);
    while (best.off > limits->speed_off_most) {
        const double division = shortest_s / step_s;
        step_s = shortest_s / (division + 1.0 / QLL_FINE_VALUES);
        const trial tried = try_step(travel_s, count, limits, step_s);
        if (tried.cells > (double)limits->cells_most) {
            break;
        }
        if (tried.off < best.off) {
            best = tried;
        }
    }
    return best;
}

qll_status qll_grid_choose(const double *travel_s, size_t count, double longest_s,
                           const qll_grid_limits *limits, qll_arena *arena, qll_grid *grid)
{
    assert(travel_s != NULL && count > 0 && longest_s > 0 && limits != NULL);
    const qll_grid_limits all = filled(limits, longest_s);
    const trial best = best_step(travel_s, count, &all);
    *grid = (qll_grid){.step_s = best.step_s,
                       .pipes = qll_arena_take(arena, count, sizeof *grid->pipes),
                       .speed_off_most = best.off,
                       .is_within = best.off <= all.speed_off_most};
    if (grid->pipes == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        qll_grid_pipe *pipe = &grid->pipes[i];
        if (is_lumped(travel_s[i], &all)) {
            pipe->lumped_5_percent_s = lumped_5_percent_s(travel_s[i], best.step_s);
        } else {
            pipe->cells = (size_t)fmax(1, round(travel_s[i] / best.step_s));
            pipe->speed_off = travel_s[i] / ((double)pipe->cells * best.step_s) - 1;
            grid->cells += pipe->cells;
        }
    }
    return QLL_OK;
}
