#include "search/pair_sums.h"

#include <math.h>
#include <string.h>

/* Classes of less weight than this at every node are not worth a look. */
#define QLL_SUMMED_WEIGHT 2e-3

qll_status qll_pair_room_make(const qll_searching *searching, size_t set_count, qll_pair_room *room)
{
    const size_t count = searching->pool.count;
    const size_t flows = searching->yardstick->duty->flow_count;
    qll_arena *arena = searching->arena;
    *room = (qll_pair_room){
        .set_count = set_count,
        .seconds = qll_arena_take(arena, count, set_count * sizeof(void *)),
        .leads = qll_arena_take(arena, set_count, sizeof *room->leads),
        .classes = {.flow = qll_arena_take(arena, flows, sizeof *room->classes.flow),
                    .flow_m3s = qll_arena_take(arena, flows, sizeof *room->classes.flow_m3s),
                    .per_m3s = qll_arena_take(arena, flows, sizeof *room->classes.per_m3s)},
    };
    bool has_all = room->seconds != NULL && room->leads != NULL && room->classes.flow != NULL
                   && room->classes.flow_m3s != NULL && room->classes.per_m3s != NULL;
    return has_all ? QLL_OK : QLL_NO_MEMORY;
}

static bool is_worth(const qll_unknowns *unknowns, size_t flow)
{
    double most = 0.0;
    for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
        most = fmax(most, unknowns->flow_weight[flow][i]);
    }
    return most >= QLL_SUMMED_WEIGHT && unknowns->has_weight[flow];
}

/* What comes at the design peaks of the lowest supply, behind which the peaks are measured. */
static void begin_peaks(const qll_searching *searching, const qll_stage_place *place,
                        qll_pair_room *room)
{
    room->low_peak_pa = place->highest == NULL ? (double)INFINITY : (double)NAN;
    room->high_peak_pa = -INFINITY;
    for (size_t c = 0; c < searching->yardstick->duty->scenario_count; c++) {
        /* Once no number, always none. */
        const double inlet_pa = place->inlets.peak_pa[c * QLL_SUPPLY_LEVELS];
        room->low_peak_pa = inlet_pa >= room->low_peak_pa ? room->low_peak_pa : inlet_pa;
        room->high_peak_pa = inlet_pa <= room->high_peak_pa ? room->high_peak_pa : inlet_pa;
    }
}

void qll_pair_room_begin(const qll_searching *searching, const qll_stage_place *place,
                         qll_pair_room *room)
{
    const qll_duty *duty = searching->yardstick->duty;
    qll_class_list *classes = &room->classes;
    classes->count = 0;
    for (size_t s = 0; s < QLL_SUPPLY_LEVELS; s++) {
        classes->low_inlet_pa[s] = INFINITY;
        classes->high_inlet_pa[s] = -INFINITY;
    }
    for (size_t f = 0; f < duty->flow_count && place->highest == NULL; f++) {
        if (!is_worth(searching->yardstick->unknowns, f)) {
            continue;
        }
        classes->flow[classes->count] = f;
        classes->flow_m3s[classes->count] = duty->flow_m3s[f];
        for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
            classes->per_m3s[classes->count][i] =
                (float)(searching->yardstick->unknowns->flow_weight[f][i] / duty->flow_m3s[f]);
        }
        classes->count += 1;
        for (size_t s = 0; s < QLL_SUPPLY_LEVELS; s++) {
            /* Once no number, always none. */
            const double inlet_pa = place->inlets.grid_pa[s * duty->flow_count + f];
            double *low_pa = &classes->low_inlet_pa[s];
            double *high_pa = &classes->high_inlet_pa[s];
            *low_pa = inlet_pa >= *low_pa ? *low_pa : inlet_pa;
            *high_pa = inlet_pa <= *high_pa ? *high_pa : inlet_pa;
        }
    }
    for (size_t i = 0; i < searching->pool.count * room->set_count; i++) {
        room->seconds[i] = NULL;
    }
    begin_peaks(searching, place, room);
}

void qll_pair_room_of_lead(qll_pair_room *room)
{
    for (size_t set = 0; set < room->set_count; set++) {
        room->leads[set].has_duty = false;
        room->leads[set].has_peaks = false;
    }
}

/* Behind the inlets of one supply; close where a second valve has hardly opened. */
static qll_outlet_frame frame_of(const qll_pair_case *of, const qll_class_list *classes,
                                 size_t supply)
{
    return (qll_outlet_frame){.place = of->lead->place,
                              .set_pa_gauge = of->set_pa_gauge,
                              .low_inlet_pa = classes->low_inlet_pa[supply],
                              .high_inlet_pa = classes->high_inlet_pa[supply],
                              .upper_psi = 0.25,
                              .lower_psi = 0.75};
}

static const qll_outlet_table *duty_of(const qll_pair_case *of, const qll_class_list *classes,
                                       const qll_part *part, double set_pa_gauge,
                                       qll_valve_tables *tables)
{
    for (size_t s = 0; s < QLL_SUPPLY_LEVELS && !tables->has_duty; s++) {
        const qll_outlet_frame frame = frame_of(of, classes, s);
        qll_outlet_table_make(of->searching, &frame, part, set_pa_gauge, &tables->duty[s]);
    }
    tables->has_duty = true;
    return tables->duty;
}

static const qll_outlet_table *second_of(const qll_pair_case *of, qll_pair_room *room)
{
    return duty_of(of, &room->classes, &of->searching->pool.parts[of->part], of->set_pa_gauge,
                   room->seconds[of->set * of->searching->pool.count + of->part]);
}

static const qll_outlet_table *lead_of(const qll_pair_case *of, qll_pair_room *room)
{
    return duty_of(of, &room->classes, of->lead->part, of->lead->set_pa_gauge,
                   &room->leads[of->set]);
}

/* Sums of one branch, node by node, so that its rows lie side by side. */
typedef float branch_sums[QLL_DEMAND_NODES][QLL_ROWS_PER_BRANCH];

/* Adds the least that a branch does in any of the spans; returns the energy of its noise. */
static float add_branch(const qll_outlet_table *table, qll_spans at,
                        const float per_m3s[QLL_DEMAND_NODES], branch_sums sums)
{
    float row_m3s[QLL_ROWS_PER_BRANCH];
    const float energy = qll_spans_least(table, at, row_m3s);
    for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
        for (size_t r = 0; r < QLL_ROWS_PER_BRANCH; r++) {
            sums[i][r] += row_m3s[r] * per_m3s[i];
        }
    }
    return energy;
}

static void put_branch(branch_sums from, qll_hazard_row *sums)
{
    for (size_t r = 0; r < QLL_ROWS_PER_BRANCH; r++) {
        for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
            sums[r][i] += QLL_SUMMED_DOWN * (double)from[i][r];
        }
    }
}

static void add_both(const qll_yardstick *yardstick, const qll_class_list *classes,
                     const qll_outlet_table *const tables[2], size_t alone_until,
                     qll_pair_sums sums)
{
    qll_both_pass both;
    qll_pass_together(tables, &both);
    branch_sums of_branch[2];
    memset(of_branch, 0, sizeof of_branch);
    qll_spans at = {.from = 0, .to = 1};
    for (size_t n = 0; n < classes->count; n++) {
        const double flow_m3s = classes->flow_m3s[n];
        if (classes->flow[n] < alone_until || (double)both.most_m3s[0] > flow_m3s) {
            continue;
        }
        if (!qll_spans_find(&both, flow_m3s, &at)) {
            break;
        }
        const float *per_m3s = classes->per_m3s[n];
        const float energy = add_branch(tables[0], at, per_m3s, of_branch[0])
                             + add_branch(tables[1], at, per_m3s, of_branch[1]);
        const double heard = qll_heard_severity(yardstick, QLL_SUMMED_DOWN * (double)energy);
        const double *weight = yardstick->unknowns->flow_weight[classes->flow[n]];
        for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
            sums[QLL_ROW_NOISE][i] += heard * weight[i];
        }
    }
    put_branch(of_branch[0], &sums[qll_row_cavitation(0)]);
    put_branch(of_branch[1], &sums[qll_row_cavitation(1)]);
}

static size_t alone_until(const qll_pair_case *of, size_t supply)
{
    const double effect = of->searching->pool.parts[of->part].branch.valve->inlet_effect;
    return qll_lead_alone_until(of->searching, of->lead, supply, of->open_from, of->set_pa_gauge,
                                (qll_effects){effect, effect});
}

bool qll_pair_has_tables(const qll_pair_case *of)
{
    const double effect = of->searching->pool.parts[of->part].branch.valve->inlet_effect;
    return of->lead->part->branch.valve->inlet_effect >= 0.0 && effect >= 0.0;
}

qll_status qll_pair_take(const qll_pair_case *of, qll_pair_room *room)
{
    qll_valve_tables **tables = &room->seconds[of->set * of->searching->pool.count + of->part];
    if (*tables == NULL && qll_pair_has_tables(of)) {
        *tables = qll_arena_take(of->searching->arena, 1, sizeof **tables);
        return *tables != NULL ? QLL_OK : QLL_NO_MEMORY;
    }
    return QLL_OK;
}

bool qll_pair_sums_alone(const qll_pair_case *of, const qll_pair_room *room,
                         qll_pair_sums sums[QLL_SUPPLY_LEVELS])
{
    if (room->classes.count == 0 || !qll_pair_has_tables(of)) {
        return false;
    }
    const size_t count = of->searching->yardstick->duty->flow_count;
    for (size_t s = 0; s < QLL_SUPPLY_LEVELS; s++) {
        const size_t row = s * (count + 1) + alone_until(of, s);
        memset(sums[s], 0, sizeof sums[s]);
        memcpy(sums[s], &of->lead->room->prefix[row * QLL_LEAD_ROWS],
               QLL_LEAD_ROWS * sizeof sums[s][0]);
    }
    return true;
}

void qll_pair_sums_add(const qll_pair_case *of, size_t supply, qll_pair_room *room,
                       qll_pair_sums sums)
{
    const qll_class_list *classes = &room->classes;
    if (classes->low_inlet_pa[supply] <= classes->high_inlet_pa[supply]) {
        const qll_outlet_table *const tables[2] = {&lead_of(of, room)[supply],
                                                   &second_of(of, room)[supply]};
        add_both(of->searching->yardstick, classes, tables, alone_until(of, supply), sums);
    }
}

/* Where the lead is alone its own outlets; where both may be open at least those, as a further valve only adds flow, and
 * between the ends of the spans. */
static void put_outlets(const qll_pair_case *of, size_t supply, qll_pair_room *room,
                        double *least_pa, double *most_pa)
{
    const qll_class_list *classes = &room->classes;
    const double *alone_pa =
        &of->lead->room->outlet_pa[supply * of->searching->yardstick->duty->flow_count];
    const qll_outlet_table *const tables[2] = {&lead_of(of, room)[supply],
                                               &second_of(of, room)[supply]};
    const size_t until = alone_until(of, supply);
    double outlet_pa[QLL_OUTLET_COUNT];
    const qll_outlet_frame frame = frame_of(of, classes, supply);
    qll_outlets_of(of->searching, &frame, outlet_pa);
    qll_both_pass both;
    qll_pass_together(tables, &both);
    qll_spans at = {.from = 0, .to = 1};
    bool is_known = true;
    for (size_t n = 0; n < classes->count; n++) {
        const size_t f = classes->flow[n];
        if (f < until) {
            continue;
        }
        is_known = is_known && qll_spans_find(&both, classes->flow_m3s[n], &at);
        const double high_pa =
            (double)both.most_m3s[0] > classes->flow_m3s[n] ? outlet_pa[0] : outlet_pa[at.from];
        const double low_pa = is_known ? outlet_pa[at.to] : -(double)INFINITY;
        most_pa[f] = alone_pa[f] > high_pa ? alone_pa[f] : high_pa;
        least_pa[f] = alone_pa[f] > low_pa ? alone_pa[f] : low_pa;
    }
}

void qll_pair_outlets(const qll_pair_case *of, qll_pair_room *room, double *least_pa,
                      double *most_pa)
{
    const size_t count = of->searching->yardstick->duty->flow_count;
    for (size_t s = 0; s < QLL_SUPPLY_LEVELS; s++) {
        const size_t until = alone_until(of, s);
        const double *alone_pa = &of->lead->room->outlet_pa[s * count];
        for (size_t f = 0; f < count; f++) {
            least_pa[s * count + f] = isnan(alone_pa[f]) ? -(double)INFINITY : alone_pa[f];
            most_pa[s * count + f] = f < until ? alone_pa[f] : (double)INFINITY;
        }
        if (room->classes.low_inlet_pa[s] <= room->classes.high_inlet_pa[s]) {
            put_outlets(of, s, room, least_pa + s * count, most_pa + s * count);
        }
    }
}

static double mean_falls_to(qll_hazard_row *sums, size_t node)
{
    double left = 0.0;
    for (size_t d = 0; d < QLL_OWN_NODES; d++) {
        left += qll_falls_to(sums[d][node]);
    }
    return left / QLL_OWN_NODES;
}

void qll_pair_sums_survival(const qll_pair_case *of, qll_pair_sums sums[QLL_SUPPLY_LEVELS],
                            const double peaks[QLL_ROWS(2)], double survival[QLL_NODES])
{
    const qll_unknowns *unknowns = of->searching->yardstick->unknowns;
    const double chatters[2] = {of->lead->picked.rulers[0].chatters, of->chatters};
    for (size_t n = 0; n < QLL_SUPPLY_NODES; n++) {
        const double *weight = unknowns->supply_weight[n];
        qll_pair_sums all;
        for (size_t r = 0; r < QLL_ROWS(2); r++) {
            for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
                all[r][i] = peaks[r] + weight[0] * sums[0][r][i] + weight[1] * sums[1][r][i]
                            + weight[2] * sums[2][r][i];
            }
        }
        for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
            double left = qll_falls_to(all[QLL_ROW_NOISE][i] + all[QLL_ROW_WEAR][i]
                                       + all[QLL_ROW_STARVED][i]);
            for (size_t j = 0; j < 2; j++) {
                left *= mean_falls_to(&all[qll_row_cavitation(j)], i);
                left *=
                    1.0 - chatters[j] + chatters[j] * mean_falls_to(&all[qll_row_chatter(j)], i);
            }
            survival[n * QLL_DEMAND_NODES + i] = left;
        }
    }
}
