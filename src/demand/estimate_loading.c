/* The peak by loading units (docs/theory/loading_units.md): sums by two tables, and a flow where the
 * survey brings points read off the table's graph. */
#include "demand/peaks.h"

#include <math.h>

typedef struct loading_table {
    qll_peak_method method;
    qll_text_id name, source;
} loading_table;

static const loading_table tables[QLL_LOADING_TABLE_COUNT] = {
    [QLL_LOADING_EN] = {QLL_PEAK_LOADING_UNITS_EN, QLL_TEXT_TABLE_EN, QLL_TEXT_SOURCE_EN},
    [QLL_LOADING_BS] = {QLL_PEAK_LOADING_UNITS_BS, QLL_TEXT_TABLE_BS, QLL_TEXT_SOURCE_BS},
};

static double units_of(const qll_fixture_kind *kind, qll_loading_table table, bool is_busy)
{
    if (table == QLL_LOADING_EN) {
        return kind->en_units;
    }
    return is_busy && !isnan(kind->bs_units_busy) ? kind->bs_units_busy : kind->bs_units;
}

static qll_loading_sum sum_of(const qll_scenario *scenario, qll_loading_table table)
{
    /* "Rapid succession (schools, peak offices)": BS 6700 Table D.1. */
    const bool is_busy = scenario->use == QLL_USE_SCHOOL || scenario->use == QLL_USE_OFFICE;
    qll_loading_sum sum = {0};
    for (size_t i = 0; i < scenario->load_count; i++) {
        const qll_fixture_load *load = &scenario->loads[i];
        const double units = units_of(load->kind, table, is_busy);
        if (load->count > 0 && isnan(units)) {
            sum.missing = sum.missing == NULL ? load->kind : sum.missing;
        } else {
            sum.units += load->count > 0 ? units * (double)load->count : 0.0;
        }
    }
    return sum;
}

static bool rises(qll_loading_graph graph)
{
    for (size_t i = 0; i < graph.count; i++) {
        const qll_point before = i > 0 ? graph.points[i - 1] : (qll_point){-1.0, 0.0};
        const qll_point here = graph.points[i];
        if (!isfinite(here.x) || !isfinite(here.y) || !(here.x > before.x)
            || !(here.y >= before.y)) {
            return false;
        }
    }
    return true;
}

static const qll_remark *loading_reason(qll_peaks *all, const loading_table *table,
                                        const qll_loading_sum *sum, qll_loading_graph graph)
{
    qll_remark reason = {.table = {.id = table->name}, .figures = {sum->units}};
    if (!qll_scenario_has_fixtures(all->scenario)) {
        reason.id = QLL_REMARK_NO_FIXTURES;
    } else if (sum->missing != NULL) {
        reason.id = QLL_REMARK_NO_LOADING;
        reason.name = sum->missing->word;
    } else if (graph.count == 0) {
        reason.id = QLL_REMARK_NO_GRAPH;
    } else if (!rises(graph)) {
        reason.id = QLL_REMARK_GRAPH_FALLS;
    } else if (sum->units < graph.points[0].x || sum->units > graph.points[graph.count - 1].x) {
        reason.id = QLL_REMARK_OUTSIDE_GRAPH;
        reason.figures[1] = graph.points[0].x;
        reason.figures[2] = graph.points[graph.count - 1].x;
    } else {
        return NULL;
    }
    return qll_peaks_remark(all, reason);
}

static void estimate_table(qll_peaks *all, qll_loading_table which, const qll_loading_sum *sum)
{
    const loading_table *table = &tables[which];
    const qll_loading_graph graph = all->scenario->graphs[which];
    const qll_remark *reason = loading_reason(all, table, sum, graph);
    all->reasons[table->method] = reason;
    if (reason != NULL) {
        return;
    }
    const qll_curve curve = {.points = graph.points, .count = graph.count};
    qll_remarks notes = {0};
    qll_peaks_note(
        all, &notes,
        (qll_remark){.id = QLL_REMARK_LOADING, .figures = {sum->units, (double)graph.count}});
    if (table->method == QLL_PEAK_LOADING_UNITS_BS) {
        qll_peaks_note(all, &notes, (qll_remark){.id = QLL_REMARK_BS_TAPS});
    }
    qll_peaks_note_apart(all, &notes);
    qll_peaks_note_continuous(all, &notes);
    qll_peaks_add(all, (qll_peak_estimate){
                           .method = table->method,
                           .peak_m3s = qll_curve_at(curve, sum->units) + all->continuous_m3s,
                           .table = {.id = table->name},
                           .source = {.id = table->source},
                           .notes = notes.first,
                       });
}

void qll_estimate_loading(qll_peaks *all, qll_loading_sum *sums)
{
    for (size_t t = 0; t < QLL_LOADING_TABLE_COUNT; t++) {
        sums[t] = sum_of(&all->apart, (qll_loading_table)t);
        estimate_table(all, (qll_loading_table)t, &sums[t]);
    }
}
