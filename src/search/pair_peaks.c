/* What a pair does at the design peaks, by tables over the outlet: docs/theory/search.md, 3. */
#include "search/pair_sums.h"

#include <math.h>
#include <string.h>

static const qll_outlet_table *peaks_of(const qll_pair_case *of, const qll_pair_room *room,
                                        const qll_part *part, double set_pa_gauge,
                                        qll_valve_tables *tables)
{
    const double step_psi = 0.75;
    const qll_outlet_frame frame = {.place = of->lead->place,
                                    .set_pa_gauge = of->set_pa_gauge,
                                    .low_inlet_pa = room->low_peak_pa,
                                    .high_inlet_pa = room->high_peak_pa,
                                    .upper_psi = step_psi,
                                    .lower_psi = step_psi};
    if (!tables->has_peaks) {
        qll_outlet_table_make(of->searching, &frame, part, set_pa_gauge, &tables->peaks);
        tables->has_peaks = true;
    }
    return &tables->peaks;
}

static const qll_outlet_table *second_peaks_of(const qll_pair_case *of, const qll_pair_room *room)
{
    return peaks_of(of, room, &of->searching->pool.parts[of->part], of->set_pa_gauge,
                    room->seconds[of->set * of->searching->pool.count + of->part]);
}

static const qll_outlet_table *lead_peaks_of(const qll_pair_case *of, const qll_pair_room *room)
{
    return peaks_of(of, room, of->lead->part, of->lead->set_pa_gauge, &room->leads[of->set]);
}

/* Adds the least that a branch does in any of the spans; returns the energy of its noise. */
static double add_peak(const qll_outlet_table *table, qll_spans at, double per_m3s, double *row)
{
    float least[QLL_ROWS_PER_BRANCH];
    const float energy = qll_spans_least(table, at, least);
    for (size_t r = 0; r < QLL_ROWS_PER_BRANCH; r++) {
        row[r] += per_m3s * (double)least[r];
    }
    return (double)energy;
}

void qll_pair_peaks(const qll_pair_case *of, qll_pair_room *room, double row[QLL_ROWS(2)])
{
    const qll_yardstick *yardstick = of->searching->yardstick;
    memset(row, 0, QLL_ROWS(2) * sizeof *row);
    if (!qll_pair_has_tables(of) || !(room->low_peak_pa <= room->high_peak_pa)) {
        return;
    }
    const qll_outlet_table *const tables[2] = {lead_peaks_of(of, room), second_peaks_of(of, room)};
    qll_both_pass both;
    qll_pass_together(tables, &both);
    const double weight = QLL_SUMMED_DOWN * qll_peak_weight(yardstick);
    for (size_t c = 0; c < yardstick->duty->scenario_count; c++) {
        const double peak_m3s = yardstick->peak_m3s[c];
        qll_spans at = {.from = 0, .to = 1};
        if ((double)both.most_m3s[0] > peak_m3s || !qll_spans_find(&both, peak_m3s, &at)) {
            continue; /* not both are surely open, or the outlet lies below the table */
        }
        double energy = 0.0;
        for (size_t j = 0; j < 2; j++) {
            energy += add_peak(tables[j], at, weight / peak_m3s, &row[qll_row_cavitation(j)]);
        }
        row[QLL_ROW_NOISE] += weight * qll_heard_severity(yardstick, QLL_SUMMED_DOWN * energy);
    }
}

double qll_pair_peaks_survival(const qll_pair_case *of, const double row[QLL_ROWS(2)])
{
    double left = qll_falls_to(row[QLL_ROW_NOISE]);
    const double *lead = &row[qll_row_cavitation(0)];
    double least = lead[0];
    for (size_t d = 1; d < QLL_OWN_NODES; d++) {
        least = lead[d] < least ? lead[d] : least;
    }
    left *= qll_falls_to(least);
    double cavitates = 0.0;
    double chatters = 0.0;
    for (size_t d = 0; d < QLL_OWN_NODES; d++) {
        cavitates += qll_falls_to(row[qll_row_cavitation(1) + d]);
        chatters += qll_falls_to(row[qll_row_chatter(1) + d]);
    }
    left *= cavitates / QLL_OWN_NODES;
    return left * (1.0 - of->chatters + of->chatters * chatters / QLL_OWN_NODES);
}
