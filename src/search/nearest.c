/* Where nothing fits: the station that comes nearest. docs/theory/search.md, 6. */
#include "search/between.h"
#include "search/trial.h"

#include <math.h>
#include <string.h>

/* So many single valves that come nearest alone are tried in pairs and in stages (our choice: what is
 * far off alone is no help beside another). */
#define QLL_NEAR_MOST   16
/* Distance of the set-points of a pair that nobody will install as it is: 6 psi. */
#define QLL_NEAR_OFFSET 2
/* A whole station looked at takes about as long as so many trials (our estimate). */
#define QLL_NEAR_TRIALS 4

typedef struct near_part {
    size_t part;
    double total; /* of its breaches, alone */
} near_part;

typedef struct nearing {
    qll_searching *searching;
    double set_inlet_pa_gauge;
    near_part near[QLL_NEAR_MOST];
    size_t near_count;
    qll_whole best;
    double best_total;
    bool has_best;
} nearing;

/* Totals that differ by less are one. */
static bool is_clearly_less(double a, double b)
{
    return a < b - 1e-9 * fmax(fabs(b), 1.0);
}

/* Whether there is a next one to look at. */
static bool goes_on(const nearing *at, qll_status status)
{
    return status == QLL_OK
           && (!at->has_best
               || qll_searching_looks(at->searching,
                                      (size_t)QLL_NEAR_TRIALS * QLL_LOOKS_PER_TRIAL));
}

/* Looks at a whole station; takes it if it is nearer, or as near and expected to cost less. */
static qll_status look(nearing *at, qll_whole *whole, double *total)
{
    qll_searching *searching = at->searching;
    qll_arena_mark mark = qll_arena_now(searching->arena);
    qll_station station;
    qll_fitness fitness;
    qll_cost cost;
    if (qll_whole_station(whole, &searching->pool, searching->arena, &station) != QLL_OK
        || qll_station_fitness(&station, searching->yardstick, searching->arena, &fitness) != QLL_OK
        || qll_station_measure(&station, searching->yardstick, searching->arena, &cost) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_arena_reset(searching->arena, mark);
    *total = fitness.total;
    whole->expected = cost.expected;
    whole->installed = cost.installed;
    bool is_less = is_clearly_less(fitness.total, at->best_total);
    bool is_like = !is_less && !is_clearly_less(at->best_total, fitness.total);
    if (!at->has_best || is_less
        || (is_like && qll_whole_before(&searching->pool, whole, &at->best))) {
        at->best = *whole;
        at->best_total = fitness.total;
        at->has_best = true;
    }
    return QLL_OK;
}

static void keep_near(nearing *at, size_t part, double total)
{
    size_t place = at->near_count;
    if (place == QLL_NEAR_MOST && !(total < at->near[place - 1].total)) {
        return;
    }
    place = place == QLL_NEAR_MOST ? place - 1 : place;
    at->near_count = place + 1;
    while (place > 0 && total < at->near[place - 1].total) {
        at->near[place] = at->near[place - 1];
        place--;
    }
    at->near[place] = (near_part){.part = part, .total = total};
}

static qll_status look_at_singles(nearing *at)
{
    const qll_searching *searching = at->searching;
    qll_status status = QLL_OK;
    for (size_t i = 0; i < searching->pool.count && goes_on(at, status); i++) {
        qll_whole whole = {.stage_count = 1, .set_inlet_pa_gauge = {at->set_inlet_pa_gauge}};
        whole.stages[0].count = 1;
        whole.stages[0].part[0] = i;
        whole.stages[0].set_pa_gauge[0] = searching->yardstick->site->set_pa_gauge;
        double total = 0.0;
        status = look(at, &whole, &total);
        keep_near(at, i, total);
    }
    return status;
}

static qll_status look_at_pairs(nearing *at)
{
    const qll_searching *searching = at->searching;
    const qll_part *parts = searching->pool.parts;
    const double set_pa_gauge = searching->yardstick->site->set_pa_gauge;
    const double offset_pa = qll_offsets_pa[QLL_NEAR_OFFSET];
    qll_status status = QLL_OK;
    for (size_t i = 0; i < at->near_count * at->near_count * 2 && goes_on(at, status); i++) {
        size_t a = at->near[i / 2 % at->near_count].part;
        size_t b = at->near[i / 2 / at->near_count].part;
        if (parts[a].rank > parts[b].rank) {
            continue;
        }
        qll_whole whole = {.stage_count = 1, .set_inlet_pa_gauge = {at->set_inlet_pa_gauge}};
        whole.stages[0].count = 2;
        whole.stages[0].part[0] = a;
        whole.stages[0].part[1] = b;
        whole.stages[0].set_pa_gauge[0] = set_pa_gauge + (i % 2 == 0 ? offset_pa : 0.0);
        whole.stages[0].set_pa_gauge[1] = whole.stages[0].set_pa_gauge[0] - offset_pa;
        double total = 0.0;
        status = look(at, &whole, &total);
    }
    return status;
}

/* Each nearest valve in the last stage, and each of the pool before it; two stages come nearer than one even
 * where they do not keep the ratio. */
static qll_status look_at_stages(nearing *at)
{
    const qll_searching *searching = at->searching;
    double between_pa_gauge;
    if (!qll_between_equal(searching->yardstick, searching->yardstick->site->set_pa_gauge,
                           &between_pa_gauge)) {
        return QLL_OK;
    }
    qll_status status = QLL_OK;
    for (size_t i = 0; i < searching->pool.count && goes_on(at, status); i++) {
        if (qll_breach_of_range(searching->pool.parts[i].branch.valve, between_pa_gauge) > 0.0) {
            continue;
        }
        for (size_t j = 0; j < at->near_count && goes_on(at, status); j++) {
            qll_whole whole = {.stage_count = 2,
                               .set_inlet_pa_gauge = {at->set_inlet_pa_gauge, between_pa_gauge}};
            whole.stages[0].count = 1;
            whole.stages[0].part[0] = i;
            whole.stages[0].set_pa_gauge[0] = between_pa_gauge;
            whole.stages[1].count = 1;
            whole.stages[1].part[0] = at->near[j].part;
            whole.stages[1].set_pa_gauge[0] = searching->yardstick->site->set_pa_gauge;
            double total = 0.0;
            status = look(at, &whole, &total);
        }
        if (i > (size_t)QLL_NEAR_MOST * QLL_NEAR_MOST) {
            break;
        }
    }
    return status;
}

qll_status qll_search_nearest(qll_searching *searching, const qll_catalogue *catalogue)
{
    const qll_yardstick *yardstick = searching->yardstick;
    if (qll_pool_make(searching->yardstick, catalogue, true, searching->arena, &searching->pool)
        != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    nearing at = {.searching = searching,
                  .best_total = INFINITY,
                  .set_inlet_pa_gauge =
                      qll_duty_set_inlet_pa_gauge(yardstick->duty, yardstick->site)};
    qll_status status = look_at_singles(&at);
    if (status == QLL_OK && searching->options->branches_max > 1) {
        status = look_at_pairs(&at);
    }
    if (status == QLL_OK && searching->options->stages_max > 1) {
        status = look_at_stages(&at);
    }
    if (status == QLL_OK && at.has_best) {
        qll_book_put(&searching->book, &searching->pool, &at.best);
    }
    return status;
}
