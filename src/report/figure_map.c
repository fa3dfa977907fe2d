/* Flow against inlet pressure: what would happen, and how often it does. */
#include "report/figures_of.h"
#include "report/points.h"

#include <math.h>

#define QLL_MAP_FLOWS  18
#define QLL_MAP_INLETS 7

/* Flows more than this below the peak are one column. */
#define QLL_MAP_DECADES 2.5

typedef struct map {
    double flow_edges[QLL_MAP_FLOWS + 1];
    double inlet_edges[QLL_MAP_INLETS + 1]; /* gauge */
    qll_fill fills[QLL_MAP_FLOWS * QLL_MAP_INLETS];
    double shares[QLL_MAP_FLOWS * QLL_MAP_INLETS];
} map;

static void make_edges(map *made, const qll_wording *wording)
{
    const qll_duty *duty = wording->duty;
    double low = INFINITY;
    double high = -INFINITY;
    for (size_t s = 0; s < duty->supply_count; s++) {
        low = fmin(low, duty->inlet_static_pa[s] - wording->site->barometric_pa);
        high = fmax(high, duty->inlet_static_pa[s] - wording->site->barometric_pa);
        for (size_t f = 0; f < duty->flow_count; f++) {
            double inlet = duty->inlet_pa[s * duty->flow_count + f] - wording->site->barometric_pa;
            low = fmin(low, inlet);
            high = fmax(high, inlet);
        }
    }
    /* A main that never changes still needs rows with some height. */
    double margin = fmax((high - low) * 0.02, high * 0.01);
    low = fmax(low - margin, 0);
    high += margin;
    for (size_t i = 0; i <= QLL_MAP_INLETS; i++) {
        made->inlet_edges[i] = low + (high - low) * (double)i / QLL_MAP_INLETS;
    }
    double least = fmax(duty->flow_m3s[0] * 0.9, duty->peak_m3s / pow(10, QLL_MAP_DECADES));
    double most = duty->peak_m3s * 1.1;
    for (size_t i = 0; i <= QLL_MAP_FLOWS; i++) {
        made->flow_edges[i] = least * pow(most / least, (double)i / QLL_MAP_FLOWS);
    }
}

/* The interval that holds @p value; the first or last if none does. */
static size_t place(const double *edges, size_t count, double value)
{
    size_t at = 0;
    while (at + 1 < count && value >= edges[at + 1]) {
        at += 1;
    }
    return at;
}

static void add_times(map *made, const qll_wording *wording)
{
    const qll_duty *duty = wording->duty;
    for (size_t s = 0; s < duty->supply_count; s++) {
        for (size_t f = 0; f < duty->flow_count; f++) {
            double inlet = duty->inlet_pa[s * duty->flow_count + f] - wording->site->barometric_pa;
            size_t column = place(made->flow_edges, QLL_MAP_FLOWS, duty->flow_m3s[f]);
            size_t row = place(made->inlet_edges, QLL_MAP_INLETS, inlet);
            made->shares[row * QLL_MAP_FLOWS + column] +=
                duty->weight_time[f] * duty->supply_weight[s];
        }
    }
}

/* Every cell is judged at its middle. */
static qll_status judge(map *made, const qll_pictured *pictured, qll_arena *arena)
{
    static const qll_fill fills[QLL_GRADE_COUNT] = {QLL_FILL_WHITE, QLL_FILL_STRIPED,
                                                    QLL_FILL_CROSSED};
    const qll_wording *wording = pictured->wording;
    qll_operator *operates = NULL;
    qll_operating_point *points = NULL;
    qll_status status = qll_operator_make(pictured->station, wording->site, arena, &operates);
    if (status == QLL_OK) {
        status = qll_points_make(pictured->station, QLL_MAP_FLOWS, arena, &points);
    }
    for (size_t row = 0; row < QLL_MAP_INLETS && status == QLL_OK; row++) {
        double flow[QLL_MAP_FLOWS];
        double inlet[QLL_MAP_FLOWS];
        for (size_t i = 0; i < QLL_MAP_FLOWS; i++) {
            flow[i] = sqrt(made->flow_edges[i] * made->flow_edges[i + 1]);
            inlet[i] = (made->inlet_edges[row] + made->inlet_edges[row + 1]) / 2
                       + wording->site->barometric_pa;
        }
        qll_operate(operates, inlet, flow, QLL_MAP_FLOWS, points);
        for (size_t i = 0; i < QLL_MAP_FLOWS; i++) {
            qll_note note = qll_note_of(wording, pictured->station, &points[i]);
            made->fills[row * QLL_MAP_FLOWS + i] = fills[note.grade];
        }
    }
    return status;
}

void qll_figure_map_of(const qll_figure *figure, const qll_pictured *pictured)
{
    const qll_wording *wording = pictured->wording;
    qll_arena *arena = figure->canvas->arena;
    map *made = qll_arena_take(arena, 1, sizeof *made);
    if (made == NULL) {
        figure->canvas->no_memory = true;
        return;
    }
    make_edges(made, wording);
    add_times(made, wording);
    if (judge(made, pictured, arena) != QLL_OK) {
        figure->canvas->no_memory = true;
        return;
    }
    qll_figure_map(figure, &(qll_map_figure){.flow_edges_m3s = made->flow_edges,
                                             .inlet_edges_pa = made->inlet_edges,
                                             .flow_count = QLL_MAP_FLOWS,
                                             .inlet_count = QLL_MAP_INLETS,
                                             .fills = made->fills,
                                             .time_shares = made->shares,
                                             .peak_m3s = wording->duty->peak_m3s});
}
