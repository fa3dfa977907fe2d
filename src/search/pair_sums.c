#include "search/pair_sums.h"

#include "search/foretold.h"
#include "station/hazard_terms.h"

#include <math.h>
#include <string.h>

/* Classes of less weight than this at every node are not worth a look. */
#define QLL_SUMMED_WEIGHT 2e-3

/* What a float may make of a figure, and a solver of an outlet. */
#define QLL_SUMMED_BITS 1e-6

qll_status qll_pair_room_make(const qll_searching *searching, size_t set_count, qll_pair_room *room)
{
    const size_t count = searching->pool.count;
    const size_t flows = searching->yardstick->duty->flow_count;
    const size_t each = QLL_SUPPLY_LEVELS * sizeof(qll_outlet_table);
    qll_arena *arena = searching->arena;
    *room = (qll_pair_room){
        .set_count = set_count,
        .seconds = qll_arena_take(arena, count, set_count * each),
        .leads = qll_arena_take(arena, set_count, each),
        .has_second = qll_arena_take(arena, count, set_count * sizeof *room->has_second),
        .has_lead = qll_arena_take(arena, set_count, sizeof *room->has_lead),
        .classes = {.flow = qll_arena_take(arena, flows, sizeof *room->classes.flow),
                    .flow_m3s = qll_arena_take(arena, flows, sizeof *room->classes.flow_m3s),
                    .per_m3s = qll_arena_take(arena, flows, sizeof *room->classes.per_m3s)},
    };
    bool has_all = room->seconds != NULL && room->leads != NULL && room->has_second != NULL
                   && room->has_lead != NULL && room->classes.flow != NULL
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
    memset(room->has_second, 0, searching->pool.count * room->set_count * sizeof *room->has_second);
}

void qll_pair_room_of_lead(qll_pair_room *room)
{
    memset(room->has_lead, 0, room->set_count * sizeof *room->has_lead);
}

/* Outlets of a table from the highest that a set-point may stand at, absolute: close where a second valve has hardly
 * opened. */
static void list_outlets(const qll_pair_case *of, const qll_class_list *classes, size_t supply,
                         double outlet_pa[QLL_OUTLET_COUNT])
{
    const double barometric_pa = of->searching->yardstick->site->barometric_pa;
    const double still_pa = of->lead->place->set_inlet_pa_gauge + barometric_pa;
    const qll_effects effects = of->searching->pool.effects;
    const double moved_pa =
        fmax(qll_effects_most_pa(effects, classes->low_inlet_pa[supply] - still_pa),
             qll_effects_most_pa(effects, classes->high_inlet_pa[supply] - still_pa));
    const size_t fine = QLL_SPAN_COUNT / 2;
    double below = 0.0;
    for (size_t k = 0; k < QLL_OUTLET_COUNT; k++) {
        outlet_pa[k] = of->set_pa_gauge + barometric_pa + moved_pa - below * QLL_PSI_PA;
        below += k < fine ? 0.25 : 0.75;
    }
}

/* A valve in a place, behind the inlets of one supply. */
typedef struct standing {
    const qll_searching *searching;
    qll_placed placed;
    double low_inlet_pa, high_inlet_pa;
    double low_set_pa, high_set_pa; /* where it stands set at those, absolute */
    double series_per_flow;         /* root of the drop in series with it; 0 = nothing there */
    qll_least_flow stable;
} standing;

static standing standing_of(const qll_pair_case *of, const qll_class_list *classes, size_t supply,
                            const qll_placed *placed)
{
    const qll_site *site = of->searching->yardstick->site;
    const qll_valve *valve = placed->part->branch.valve;
    const double series_kv_m3h = placed->part->branch.series_kv_m3h;
    const double still_pa = placed->place->set_inlet_pa_gauge + site->barometric_pa;
    const double set_pa = placed->set_pa_gauge + site->barometric_pa;
    const double low_pa = classes->low_inlet_pa[supply];
    const double high_pa = classes->high_inlet_pa[supply];
    return (standing){.searching = of->searching,
                      .placed = *placed,
                      .low_inlet_pa = low_pa,
                      .high_inlet_pa = high_pa,
                      .low_set_pa = set_pa + valve->inlet_effect * (low_pa - still_pa),
                      .high_set_pa = set_pa + valve->inlet_effect * (high_pa - still_pa),
                      .series_per_flow = series_kv_m3h > 0.0
                                             ? 1.0 / (series_kv_m3h * qll_flow_per_kv(&site->water))
                                             : 0.0,
                      .stable = qll_valve_least_flow(valve)};
}

/* Between two outlets: what it does at least. Returns the energy of its noise. */
static double put_span(const standing *of, double high_outlet_pa, double low_outlet_pa,
                       qll_branch_between *at, double row[QLL_ROWS_PER_BRANCH])
{
    const qll_site *site = of->searching->yardstick->site;
    const qll_part *part = of->placed.part;
    const double pv_pa = site->water.vapour_pressure_pa;
    const double least_drop_pa = of->low_inlet_pa - high_outlet_pa;
    const double most_drop_pa = of->high_inlet_pa - low_outlet_pa;
    const qll_stability_here least =
        qll_stability_at(least_drop_pa, low_outlet_pa - site->barometric_pa);
    const qll_stability_here most =
        qll_stability_at(most_drop_pa, high_outlet_pa - site->barometric_pa);
    const double loss_root = at->most_m3s * of->series_per_flow;
    const double recovery =
        part->branch.recovery > 0.0 ? part->branch.recovery : part->branch.valve->fl;
    at->least_kv_m3h = qll_branch_curve_at(&part->curve, of->low_set_pa - high_outlet_pa).kv_m3h;
    at->most_kv_m3h = qll_branch_curve_at(&part->curve, of->high_set_pa - low_outlet_pa).kv_m3h;
    at->least_stable_m3s = qll_least_flow_m3s(&of->stable, &least);
    at->most_stable_m3s = qll_least_flow_m3s(&of->stable, &most);
    at->inlet_pa = of->low_inlet_pa - loss_root * loss_root;
    at->drop_pa =
        fmin(least_drop_pa - loss_root * loss_root, recovery * recovery * (at->inlet_pa - pv_pa));
    at->head_pa = of->high_inlet_pa - pv_pa;
    return qll_branch_least(&part->branch, &part->ruler, at, at->least_m3s, row);
}

static void fill_table(const standing *of, const double outlet_pa[QLL_OUTLET_COUNT],
                       qll_outlet_table *table)
{
    const double less = 1.0 - QLL_SUMMED_BITS;
    const double more = 1.0 + QLL_SUMMED_BITS;
    double least_m3s[QLL_OUTLET_COUNT], most_m3s[QLL_OUTLET_COUNT];
    for (size_t k = 0; k < QLL_OUTLET_COUNT; k++) {
        least_m3s[k] =
            less * qll_placed_m3s(of->searching, &of->placed, of->low_inlet_pa, outlet_pa[k]);
        most_m3s[k] =
            more * qll_placed_m3s(of->searching, &of->placed, of->high_inlet_pa, outlet_pa[k]);
        table->least_m3s[k] = (float)least_m3s[k];
        table->most_m3s[k] = (float)most_m3s[k];
    }
    for (size_t k = 0; k < QLL_SPAN_COUNT; k++) {
        double row[QLL_ROWS_PER_BRANCH] = {0.0};
        qll_branch_between at = {.least_m3s = least_m3s[k], .most_m3s = most_m3s[k + 1]};
        const double energy =
            at.least_m3s > 0.0 ? put_span(of, outlet_pa[k], outlet_pa[k + 1], &at, row) : 0.0;
        table->energy[k] = (float)(less * energy);
        for (size_t r = 0; r < QLL_ROWS_PER_BRANCH; r++) {
            table->row_m3s[k][r] = (float)(less * row[r]);
        }
    }
}

static void fill_tables(const qll_pair_case *of, const qll_class_list *classes,
                        const qll_placed *placed, qll_outlet_table tables[QLL_SUPPLY_LEVELS])
{
    for (size_t s = 0; s < QLL_SUPPLY_LEVELS; s++) {
        const standing at = standing_of(of, classes, s, placed);
        double outlet_pa[QLL_OUTLET_COUNT];
        list_outlets(of, classes, s, outlet_pa);
        fill_table(&at, outlet_pa, &tables[s]);
    }
}

static const qll_outlet_table *second_of(const qll_pair_case *of, qll_pair_room *room)
{
    const size_t at = of->set * of->searching->pool.count + of->part;
    qll_outlet_table *tables = &room->seconds[at * QLL_SUPPLY_LEVELS];
    if (!room->has_second[at]) {
        const qll_placed placed = {of->lead->place, &of->searching->pool.parts[of->part],
                                   of->set_pa_gauge};
        fill_tables(of, &room->classes, &placed, tables);
        room->has_second[at] = true;
    }
    return tables;
}

static const qll_outlet_table *lead_of(const qll_pair_case *of, qll_pair_room *room)
{
    qll_outlet_table *tables = &room->leads[of->set * QLL_SUPPLY_LEVELS];
    if (!room->has_lead[of->set]) {
        const qll_placed placed = {of->lead->place, of->lead->part, of->lead->set_pa_gauge};
        fill_tables(of, &room->classes, &placed, tables);
        room->has_lead[of->set] = true;
    }
    return tables;
}

/* Spans between which the outlet lies at one flow. */
typedef struct spans {
    size_t from, to;
} spans;

/* Sums of one branch, node by node, so that its rows lie side by side. */
typedef float branch_sums[QLL_DEMAND_NODES][QLL_ROWS_PER_BRANCH];

/* Adds the least that a branch does in any of the spans; returns the energy of its noise. */
static float add_branch(const qll_outlet_table *table, spans at,
                        const float per_m3s[QLL_DEMAND_NODES], branch_sums sums)
{
    float row_m3s[QLL_ROWS_PER_BRANCH];
    float energy = table->energy[at.from];
    memcpy(row_m3s, table->row_m3s[at.from], sizeof row_m3s);
    for (size_t k = at.from + 1; k < at.to; k++) {
        energy = table->energy[k] < energy ? table->energy[k] : energy;
        for (size_t r = 0; r < QLL_ROWS_PER_BRANCH; r++) {
            row_m3s[r] = table->row_m3s[k][r] < row_m3s[r] ? table->row_m3s[k][r] : row_m3s[r];
        }
    }
    for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
        for (size_t r = 0; r < QLL_ROWS_PER_BRANCH; r++) {
            sums[i][r] += row_m3s[r] * per_m3s[i];
        }
    }
    return energy;
}

/* What a float may make of so many sums. */
#define QLL_SUMMED_DOWN (1.0 - 2e-5)

static void put_branch(branch_sums from, qll_hazard_row *sums)
{
    for (size_t r = 0; r < QLL_ROWS_PER_BRANCH; r++) {
        for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
            sums[r][i] += QLL_SUMMED_DOWN * (double)from[i][r];
        }
    }
}

/* The outlet at a flow lies between those at which both together surely pass no more, and surely no less. */
static void add_both(const qll_yardstick *yardstick, const qll_class_list *classes,
                     const qll_outlet_table *const tables[2], size_t alone_until,
                     qll_pair_sums sums)
{
    float least_m3s[QLL_OUTLET_COUNT], most_m3s[QLL_OUTLET_COUNT];
    for (size_t k = 0; k < QLL_OUTLET_COUNT; k++) {
        least_m3s[k] = tables[0]->least_m3s[k] + tables[1]->least_m3s[k];
        most_m3s[k] = tables[0]->most_m3s[k] + tables[1]->most_m3s[k];
    }
    branch_sums of_branch[2];
    memset(of_branch, 0, sizeof of_branch);
    spans at = {.from = 0, .to = 1};
    for (size_t n = 0; n < classes->count; n++) {
        const double flow_m3s = classes->flow_m3s[n];
        if (classes->flow[n] < alone_until || (double)most_m3s[0] > flow_m3s) {
            continue;
        }
        while (at.from + 1 < QLL_SPAN_COUNT && (double)most_m3s[at.from + 1] <= flow_m3s) {
            at.from += 1;
        }
        while (at.to < QLL_OUTLET_COUNT && (double)least_m3s[at.to] < flow_m3s) {
            at.to += 1;
        }
        if (at.to == QLL_OUTLET_COUNT) {
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

bool qll_pair_sums_alone(const qll_pair_case *of, const qll_pair_room *room,
                         qll_pair_sums sums[QLL_SUPPLY_LEVELS])
{
    const double effect = of->searching->pool.parts[of->part].branch.valve->inlet_effect;
    if (room->classes.count == 0 || !(of->lead->part->branch.valve->inlet_effect >= 0.0)
        || !(effect >= 0.0)) {
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

/* e^-2x at most: below the line less of the series than all of it. */
static double falls_to(double severity)
{
    const double x = QLL_COMPLAINT * severity;
    return 1.0 / (1.0 + x * (1.0 + x * (0.5 + x * (1.0 / 6.0 + x / 24.0))));
}

static double mean_falls_to(qll_hazard_row *sums, size_t node)
{
    double left = 0.0;
    for (size_t d = 0; d < QLL_OWN_NODES; d++) {
        left += falls_to(sums[d][node]);
    }
    return left / QLL_OWN_NODES;
}

void qll_pair_sums_survival(const qll_pair_case *of, qll_pair_sums sums[QLL_SUPPLY_LEVELS],
                            double survival[QLL_NODES])
{
    const qll_unknowns *unknowns = of->searching->yardstick->unknowns;
    const double chatters[2] = {of->lead->picked.rulers[0].chatters, of->chatters};
    for (size_t n = 0; n < QLL_SUPPLY_NODES; n++) {
        const double *weight = unknowns->supply_weight[n];
        qll_pair_sums all;
        for (size_t r = 0; r < QLL_ROWS(2); r++) {
            for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
                all[r][i] = weight[0] * sums[0][r][i] + weight[1] * sums[1][r][i]
                            + weight[2] * sums[2][r][i];
            }
        }
        for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
            double left =
                falls_to(all[QLL_ROW_NOISE][i] + all[QLL_ROW_WEAR][i] + all[QLL_ROW_STARVED][i]);
            for (size_t j = 0; j < 2; j++) {
                left *= mean_falls_to(&all[qll_row_cavitation(j)], i);
                left *=
                    1.0 - chatters[j] + chatters[j] * mean_falls_to(&all[qll_row_chatter(j)], i);
            }
            survival[n * QLL_DEMAND_NODES + i] = left;
        }
    }
}
