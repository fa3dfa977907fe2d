#include "documents/read_costs.h"
#include "documents/read_survey.h"

#include <math.h>

/* Ids named in the list of what was assumed, before "and N more"; as for other defaults. */
#define QLL_IDS_NAMED 4

/* ---- one set of costs over another ---- */

static double valve_cost(const qll_costs *costs, double nominal_m, qll_acting acting)
{
    const qll_valve valve = {.nominal_m = nominal_m, .acting = acting, .price = NAN};
    return qll_costs_valve(costs, &valve);
}

static double or_else(double given, double otherwise)
{
    return isnan(given) ? otherwise : given;
}

/* What @p row gives over what @p under says of its size. */
static qll_size_cost laid_over(const qll_size_cost *row, const qll_costs *under)
{
    double nominal_m = row->nominal_m;
    return (qll_size_cost){
        .nominal_m = nominal_m,
        .branch = or_else(row->branch, qll_costs_branch(under, nominal_m)),
        .beside = or_else(row->beside, qll_costs_beside(under, nominal_m)),
        .direct = or_else(row->direct, valve_cost(under, nominal_m, QLL_ACTING_DIRECT)),
        .pilot = or_else(row->pilot, valve_cost(under, nominal_m, QLL_ACTING_PILOT)),
    };
}

/* Costs of @p over, NULL or with NaN where it says nothing, else of @p costs, which it becomes. */
static qll_status lay_over(const qll_costs *over, qll_arena *arena, qll_costs *costs)
{
    if (over == NULL) {
        return QLL_OK;
    }
    qll_size_cost *sizes =
        qll_arena_take(arena, costs->size_count + over->size_count, sizeof *sizes);
    if (sizes == NULL) {
        return QLL_NO_MEMORY;
    }
    const qll_costs under = *costs;
    for (size_t i = 0; i < under.size_count; i++) {
        sizes[i] = under.sizes[i];
    }
    costs->sizes = sizes;
    for (size_t i = 0; i < over->size_count; i++) {
        qll_size_cost row = over->sizes[i];
        size_t at = qll_costs_row(costs, row.nominal_m);
        /* A row keeps its size, so that sizes stay in order: 3/4 in and DN 20 are one. */
        row.nominal_m = at < costs->size_count ? sizes[at].nominal_m : row.nominal_m;
        row = laid_over(&row, &under);
        if (at < costs->size_count) {
            sizes[at] = row;
            continue;
        }
        for (at = costs->size_count; at > 0 && sizes[at - 1].nominal_m > row.nominal_m; at--) {
            sizes[at] = sizes[at - 1];
        }
        sizes[at] = row;
        costs->size_count += 1;
    }
    costs->visit = or_else(over->visit, costs->visit);
    costs->stage = or_else(over->stage, costs->stage);
    return QLL_OK;
}

/* ---- what was assumed ---- */

typedef struct cost_range {
    double least, most; /* NaN while there is nothing in it */
} cost_range;

static void take_in(cost_range *range, double cost)
{
    range->least = fmin(range->least, cost);
    range->most = fmax(range->most, cost);
}

/* "150" or "150 to 2000, by size". */
static void assume_range(qll_assumed *assumed, qll_argument what, const cost_range *range,
                         qll_text_id why)
{
    if (isnan(range->least)) {
        return;
    }
    const qll_argument least = qll_as_number(range->least);
    const qll_said both = {QLL_TEXT_VALUE_BY_SIZE, {least, qll_as_number(range->most)}};
    qll_assumed_add(assumed, what,
                    range->most > range->least ? qll_as_said(assumed->arena, both) : least,
                    (qll_said){.id = why});
}

static bool gives_branch(const qll_costs *costs, double nominal_m)
{
    size_t row = costs == NULL ? 0 : qll_costs_row(costs, nominal_m);
    return costs != NULL && row < costs->size_count && !isnan(costs->sizes[row].branch);
}

static void assume_defaults(const qll_costs *defaults, const qll_costs *const given[2],
                            qll_assumed *assumed)
{
    cost_range visit = {NAN, NAN};
    cost_range stage = {NAN, NAN};
    cost_range branch = {NAN, NAN};
    bool has_visit = false;
    bool has_stage = false;
    for (size_t i = 0; i < 2; i++) {
        has_visit = has_visit || (given[i] != NULL && !isnan(given[i]->visit));
        has_stage = has_stage || (given[i] != NULL && !isnan(given[i]->stage));
    }
    take_in(&visit, has_visit ? (double)NAN : defaults->visit);
    take_in(&stage, has_stage ? (double)NAN : defaults->stage);
    for (size_t i = 0; i < defaults->size_count; i++) {
        double nominal_m = defaults->sizes[i].nominal_m;
        if (!gives_branch(given[0], nominal_m) && !gives_branch(given[1], nominal_m)) {
            take_in(&branch, defaults->sizes[i].branch);
        }
    }
    assume_range(assumed, qll_as_is("costs.visit"), &visit, QLL_TEXT_WHY_SAME_MONEY);
    assume_range(assumed, qll_as_is("costs.stage"), &stage, QLL_TEXT_WHY_SAME_MONEY);
    assume_range(assumed, qll_as_is("costs.sizes[].branch"), &branch, QLL_TEXT_WHY_SAME_MONEY);
}

/* Valves of one kind without a price, as one line. */
static void assume_prices(const qll_catalogue *catalogue, const qll_costs *costs, qll_acting acting,
                          qll_assumed *assumed)
{
    qll_writer ids = qll_writer_new(assumed->arena);
    cost_range range = {NAN, NAN};
    size_t count = 0;
    for (size_t i = 0; i < catalogue->count; i++) {
        const qll_valve *valve = &catalogue->valves[i];
        if (isfinite(valve->price) || valve->acting != acting) {
            continue;
        }
        if (count < QLL_IDS_NAMED) {
            qll_write(&ids, count == 0 ? "" : ", ");
            qll_write(&ids, valve->id);
        }
        take_in(&range, qll_costs_valve(costs, valve));
        count += 1;
    }
    if (count == 0) {
        return;
    }
    assume_range(assumed,
                 qll_of_valves(assumed->arena, &ids,
                               count > QLL_IDS_NAMED ? count - QLL_IDS_NAMED : 0, "price"),
                 &range,
                 acting == QLL_ACTING_PILOT ? QLL_TEXT_WHY_PRICE_PILOT : QLL_TEXT_WHY_PRICE_DIRECT);
}

qll_status qll_costs_merge(const qll_costs *defaults, const qll_catalogue *catalogue,
                           qll_arena *arena, qll_survey *survey, qll_assumed *assumed)
{
    qll_costs *costs = qll_arena_take(arena, 1, sizeof *costs);
    if (costs == NULL) {
        return QLL_NO_MEMORY;
    }
    *costs = *defaults;
    const qll_costs *const given[2] = {catalogue->costs, survey->costs};
    for (size_t i = 0; i < 2; i++) {
        if (lay_over(given[i], arena, costs) != QLL_OK) {
            return QLL_NO_MEMORY;
        }
    }
    survey->site.costs = costs;
    assume_defaults(defaults, given, assumed);
    for (int acting = 0; acting < QLL_ACTING_COUNT; acting++) {
        assume_prices(catalogue, costs, (qll_acting)acting, assumed);
    }
    return QLL_OK;
}
