/* The way of the water through a station: pressures step by step, and where each valve is in trouble. */
#include "report/figure_parts.h"
#include "report/figures_of.h"

#include <math.h>

/* Names and pressures of all steps, being gathered. */
typedef struct ladder_arrays {
    const char **names;
    double *night_pa, *peak_pa;
    size_t count;
} ladder_arrays;

/* Which outlet has least in hand at the peak: the one the station must reach. From 1; 0 if there is none. */
static size_t hardest_outlet(const qll_ladder *peaks, size_t each)
{
    size_t hardest = 0;
    for (size_t i = 1; i < each; i++) {
        if (peaks[i].count > 0
            && (hardest == 0 || peaks[i].in_hand_pa < peaks[hardest].in_hand_pa)) {
            hardest = i;
        }
    }
    return hardest;
}

/* Appends the steps of one part of the way, night and peak side by side. */
static void add_steps(const qll_figure *figure, const qll_wording *wording, const qll_ladder *night,
                      const qll_ladder *peak, ladder_arrays *arrays)
{
    for (size_t i = 0; i < peak->count && i < night->count; i++) {
        qll_writer name = qll_writer_new(figure->canvas->arena);
        qll_wording_step(&name, wording, peak, &peak->steps[i]);
        arrays->names[arrays->count] = qll_writer_text(&name).bytes;
        arrays->night_pa[arrays->count] = night->steps[i].pressure_pa_gauge;
        arrays->peak_pa[arrays->count] = peak->steps[i].pressure_pa_gauge;
        arrays->count += 1;
    }
}

void qll_figure_ladder_of(const qll_figure *figure, const qll_wording *wording,
                          const qll_ladder *ladders, size_t count)
{
    size_t each = count / QLL_LADDER_TIME_COUNT;
    if (each == 0) {
        return;
    }
    const qll_ladder *nights = ladders;
    const qll_ladder *peaks = ladders + each;
    const qll_site *site = wording->site;
    size_t hardest = hardest_outlet(peaks, each);
    size_t room = peaks[0].count + (hardest > 0 ? peaks[hardest].count : 0);
    ladder_arrays arrays = {.names = qll_figure_take(figure, room, sizeof *arrays.names),
                            .night_pa = qll_figure_take(figure, room, sizeof *arrays.night_pa),
                            .peak_pa = qll_figure_take(figure, room, sizeof *arrays.peak_pa)};
    if (arrays.names == NULL || arrays.night_pa == NULL || arrays.peak_pa == NULL) {
        return;
    }
    add_steps(figure, wording, &nights[0], &peaks[0], &arrays);
    if (hardest > 0) {
        add_steps(figure, wording, &nights[hardest], &peaks[hardest], &arrays);
    }
    const qll_guide levels[] = {
        qll_figure_pressure_guide(figure, QLL_SAYS_FIGURE_ALLOWED, site->static_max_pa_gauge),
        qll_figure_pressure_guide(figure, QLL_SAYS_FIGURE_WANTED, site->set_pa_gauge),
    };
    qll_figure_ladder(figure, &(qll_ladder_figure){.names = arrays.names,
                                                   .static_pa = arrays.night_pa,
                                                   .peak_pa = arrays.peak_pa,
                                                   .count = arrays.count,
                                                   .levels = levels,
                                                   .level_count = 2});
}

/* Edges between values that rise evenly, or evenly in the logarithm; count + 1 of them. A single value
 * gets a little room. */
static double *edges_of(const qll_figure *figure, const double *values, size_t count, bool is_log)
{
    double *edges = qll_figure_take(figure, count + 1, sizeof *edges);
    if (edges == NULL) {
        return NULL;
    }
    double last = values[count - 1];
    double ratio = count > 1 ? last / values[count - 2] : 1.05;
    double step = count > 1 ? last - values[count - 2] : fmax(fabs(last) * 0.05, 1);
    for (size_t i = 0; i < count; i++) {
        edges[i] = is_log ? values[i] / sqrt(ratio) : values[i] - step / 2;
    }
    edges[count] = is_log ? last * sqrt(ratio) : last + step / 2;
    return edges;
}

static qll_fill cell_fill(const qll_map_cell *cell)
{
    static const qll_fill fills[QLL_GRADE_COUNT] = {
        [QLL_GRADE_GOOD] = QLL_FILL_WHITE,
        [QLL_GRADE_UNKNOWN] = QLL_FILL_LIGHT,
        [QLL_GRADE_CAUTION] = QLL_FILL_STRIPED,
        [QLL_GRADE_FAIL] = QLL_FILL_CROSSED,
    };
    if (!cell->passes) {
        return QLL_FILL_CROSSED;
    }
    return cell->working ? fills[cell->grade] : QLL_FILL_LIGHT;
}

void qll_figure_map_of(const qll_figure *figure, const qll_map *map, double peak_m3s)
{
    size_t count = map->flow_count * map->inlet_count;
    if (count == 0) {
        return;
    }
    double *flows = edges_of(figure, map->flow_m3s, map->flow_count, true);
    double *inlets = edges_of(figure, map->inlet_pa_gauge, map->inlet_count, false);
    qll_fill *fills = qll_figure_take(figure, count, sizeof *fills);
    double *shares = qll_figure_take(figure, count, sizeof *shares);
    if (flows == NULL || inlets == NULL || fills == NULL || shares == NULL) {
        return;
    }
    for (size_t i = 0; i < count; i++) {
        fills[i] = cell_fill(&map->cells[i]);
        shares[i] = map->cells[i].time_share;
    }
    qll_figure_map(figure, &(qll_map_figure){.flow_edges_m3s = flows,
                                             .inlet_edges_pa = inlets,
                                             .flow_count = map->flow_count,
                                             .inlet_count = map->inlet_count,
                                             .fills = fills,
                                             .time_shares = shares,
                                             .peak_m3s = peak_m3s});
}
