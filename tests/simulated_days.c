/* Histogram, profile, peaks and percentiles of simulated days. */
#include "simulated_days.h"

#include <math.h>
#include <string.h>

/* A running mean and sum of squared distances (Welford 1962). */
typedef struct spread_sum {
    size_t count;
    double mean, squares, greatest;
} spread_sum;

typedef struct day_counts {
    size_t level_count; /* room for levels under this, for each base */
    uint32_t *seconds;  /* of the day at hand, [base][level] */
    uint64_t *total;    /* of the days before */
} day_counts;

typedef struct collector {
    const qll_simulation *wanted;
    qll_arena *arena;
    size_t base_count;
    double *bases_m3s;
    double step_m3s;
    day_counts counts;
    double *volume_m3; /* from midnight to the end of each second of the day at hand */
    double hour_m3[24];
    uint64_t none_s;
    spread_sum *quantiles, *peaks;
    spread_sum volume;
    qll_flow_time *cells;
    bool no_memory;
} collector;

static void add_to(spread_sum *sum, double value)
{
    sum->count += 1;
    const double away = value - sum->mean;
    sum->mean += away / (double)sum->count;
    sum->squares += away * (value - sum->mean);
    sum->greatest = sum->count == 1 ? value : fmax(sum->greatest, value);
}

static qll_day_spread spread_of(const spread_sum *sum)
{
    const double deviation =
        sum->count > 1 ? sqrt(sum->squares / (double)(sum->count - 1)) : (double)NAN;
    return (qll_day_spread){.mean = sum->mean, .deviation = deviation, .greatest = sum->greatest};
}

/* ---- counting ---- */

/* Room for levels up to @p top; doubled each time, so that little is copied. */
static bool grow(collector *all, size_t top)
{
    day_counts *old = &all->counts;
    size_t count = old->level_count == 0 ? 512 : old->level_count;
    while (count <= top) {
        count *= 2;
    }
    if (count == old->level_count) {
        return true;
    }
    const size_t cells = all->base_count * count;
    const day_counts made = {.level_count = count,
                             .seconds = qll_arena_take(all->arena, cells, sizeof *made.seconds),
                             .total = qll_arena_take(all->arena, cells, sizeof *made.total)};
    qll_flow_time *sorted = qll_arena_take(all->arena, cells, sizeof *sorted);
    if (made.seconds == NULL || made.total == NULL || sorted == NULL) {
        all->no_memory = true;
        return false;
    }
    for (size_t b = 0; b < all->base_count && old->level_count > 0; b++) {
        memcpy(made.seconds + b * count, old->seconds + b * old->level_count,
               old->level_count * sizeof *made.seconds);
        memcpy(made.total + b * count, old->total + b * old->level_count,
               old->level_count * sizeof *made.total);
    }
    *old = made;
    all->cells = sorted;
    return true;
}

static void collect(void *context, const qll_second_block *block)
{
    collector *all = context;
    int32_t top = 0;
    for (size_t s = 0; s < block->count; s++) {
        top = block->levels[s] > top ? block->levels[s] : top;
    }
    top += block->leak_level;
    if (all->no_memory || !grow(all, (size_t)top)) {
        return;
    }
    all->step_m3s = block->step_m3s;
    all->bases_m3s[block->base] = block->base_m3s;
    uint32_t *seconds = all->counts.seconds + block->base * all->counts.level_count;
    double *volume_m3 = all->volume_m3 + block->first_s;
    double hour_m3 = 0.0;
    for (size_t s = 0; s < block->count; s++) {
        seconds[block->levels[s] + block->leak_level] += 1;
        all->none_s += block->levels[s] == 0;
        hour_m3 += block->flow_m3s[s];
        volume_m3[s + 1] = volume_m3[s] + block->flow_m3s[s];
    }
    all->hour_m3[block->first_s / 3600] += hour_m3;
}

/* ---- the end of a day ---- */

static size_t list_cells(const collector *all, bool is_total)
{
    size_t count = 0;
    for (size_t b = 0; b < all->base_count; b++) {
        for (size_t level = 0; level < all->counts.level_count; level++) {
            const size_t at = b * all->counts.level_count + level;
            const double time =
                is_total ? (double)all->counts.total[at] : (double)all->counts.seconds[at];
            if (time > 0.0) {
                const double flow_m3s = all->bases_m3s[b] + all->step_m3s * (double)level;
                all->cells[count] = (qll_flow_time){.flow_m3s = flow_m3s, .time = time};
                count += 1;
            }
        }
    }
    return count;
}

/* Greatest mean over any @p window_s seconds within the day. */
static double greatest_mean(const double *volume_m3, size_t window_s)
{
    double greatest = 0.0;
    for (size_t s = window_s; s <= QLL_DAY_SECONDS; s++) {
        greatest = fmax(greatest, volume_m3[s] - volume_m3[s - window_s]);
    }
    return greatest / (double)window_s;
}

static void end_day(collector *all)
{
    const qll_simulation *wanted = all->wanted;
    const qll_arena_mark mark = qll_arena_now(all->arena);
    qll_duration day;
    if (qll_duration_make(all->cells, list_cells(all, false), all->arena, &day) != QLL_OK) {
        all->no_memory = true;
        return;
    }
    for (size_t i = 0; i < wanted->share_count; i++) {
        add_to(&all->quantiles[i], qll_duration_quantile(&day, wanted->shares[i]));
    }
    for (size_t i = 0; i < wanted->averaging_count; i++) {
        add_to(&all->peaks[i], greatest_mean(all->volume_m3, (size_t)wanted->averaging_s[i]));
    }
    add_to(&all->volume, all->volume_m3[QLL_DAY_SECONDS]);
    const size_t cells = all->base_count * all->counts.level_count;
    for (size_t i = 0; i < cells; i++) {
        all->counts.total[i] += all->counts.seconds[i];
        all->counts.seconds[i] = 0;
    }
    qll_arena_reset(all->arena, mark);
}

/* ---- all of it ---- */

static bool in_range(const qll_simulation *wanted)
{
    for (size_t i = 0; i < wanted->share_count; i++) {
        if (!(wanted->shares[i] > 0.0 && wanted->shares[i] <= 1.0)) {
            return false;
        }
    }
    for (size_t i = 0; i < wanted->averaging_count; i++) {
        const double time_s = wanted->averaging_s[i];
        if (!(time_s >= 1.0 && time_s <= QLL_DAY_SECONDS) || floor(time_s) != time_s) {
            return false;
        }
    }
    return wanted->days >= 1;
}

static bool take_room(collector *all)
{
    all->bases_m3s = qll_arena_take(all->arena, all->base_count, sizeof *all->bases_m3s);
    all->volume_m3 = qll_arena_take(all->arena, QLL_DAY_SECONDS + 1, sizeof *all->volume_m3);
    all->quantiles = qll_arena_take(all->arena, all->wanted->share_count, sizeof *all->quantiles);
    all->peaks = qll_arena_take(all->arena, all->wanted->averaging_count, sizeof *all->peaks);
    return all->bases_m3s != NULL && all->volume_m3 != NULL && all->quantiles != NULL
           && all->peaks != NULL;
}

static const qll_day_spread *spreads(const spread_sum *sums, size_t count, qll_arena *arena)
{
    qll_day_spread *list = qll_arena_take(arena, count, sizeof *list);
    for (size_t i = 0; list != NULL && i < count; i++) {
        list[i] = spread_of(&sums[i]);
    }
    return list;
}

static qll_status finish(collector *all, qll_simulated *result)
{
    const qll_simulation *wanted = all->wanted;
    const double seconds = (double)wanted->days * QLL_DAY_SECONDS;
    *result = (qll_simulated){
        .days = wanted->days,
        .none_share = (double)all->none_s / seconds,
        .volume_m3 = spread_of(&all->volume),
        .quantiles = spreads(all->quantiles, wanted->share_count, all->arena),
        .peaks = spreads(all->peaks, wanted->averaging_count, all->arena),
    };
    for (size_t h = 0; h < 24; h++) {
        result->hour_mean_m3s[h] = all->hour_m3[h] * 24.0 / seconds;
    }
    if (result->quantiles == NULL || result->peaks == NULL) {
        return QLL_NO_MEMORY;
    }
    return qll_duration_make(all->cells, list_cells(all, true), all->arena, &result->duration);
}

qll_status qll_simulate(const qll_scenario *scenario, const qll_simulation *wanted,
                        qll_arena *arena, qll_simulated *result)
{
    if (!in_range(wanted) || qll_scenario_fault(scenario).id != QLL_TEXT_NONE) {
        return QLL_REFUSED;
    }
    qll_simulator *simulator = NULL;
    const qll_status status = qll_simulator_make(scenario, wanted->seed, arena, &simulator);
    if (status != QLL_OK) {
        return status;
    }
    collector all = {
        .wanted = wanted, .arena = arena, .base_count = qll_simulator_base_count(simulator)};
    if (!take_room(&all)) {
        return QLL_NO_MEMORY;
    }
    for (size_t day = 0; day < wanted->days && !all.no_memory; day++) {
        qll_simulator_day(simulator, collect, &all);
        if (!all.no_memory) {
            end_day(&all);
        }
    }
    return all.no_memory ? QLL_NO_MEMORY : finish(&all, result);
}
