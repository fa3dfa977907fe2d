/* Do thumps and surges go together? As many as possible are paired at one lag of the clocks; then one clock is turned round against the other, by
 * all turns that the clocks cannot be off by, and how often as many go together is what chance does. */
#include "signals/sound_beside_state.h"

#include <math.h>

/* A thump and its surge are so near each other; not nearer than the log's rows tell. */
#define QLL_PAIR_NEAR_S 0.25
/* Turns that are tried at most. */
#define QLL_TURNS_MOST  1000.0

qll_together qll_together_none(void)
{
    return (qll_together){.chance = NAN,
                          .lag_s = NAN,
                          .per_hour = NAN,
                          .correlation = NAN,
                          .heard_hz = NAN,
                          .logged_hz = NAN};
}

double qll_beside_chance(size_t as_good, size_t tried)
{
    return (1.0 + (double)as_good) / (1.0 + (double)tried);
}

/* Both in rising order. */
typedef struct trains {
    const double *heard, *logged;
    size_t heard_count, logged_count;
    double near_s;
} trains;

/* How many of those heard have one of those logged near, @p lag_s later; each counts once. */
static size_t pairs_at(const trains *of, double lag_s)
{
    size_t count = 0, next = 0;
    for (size_t i = 0; i < of->heard_count; i++) {
        const double at_s = of->heard[i] + lag_s;
        while (next < of->logged_count && of->logged[next] < at_s - of->near_s) {
            next += 1;
        }
        if (next < of->logged_count && of->logged[next] <= at_s + of->near_s) {
            count += 1;
            next += 1;
        }
    }
    return count;
}

/* The most pairs at any lag that the clocks may have; the least of the lags that have as many. */
static size_t most_pairs(const trains *of, double *best_s)
{
    size_t most = 0;
    const long steps = (long)(2.0 * QLL_BESIDE_CLOCKS_S / of->near_s);
    for (long i = -steps; i <= steps; i++) {
        const double lag_s = 0.5 * of->near_s * (double)i;
        const size_t count = pairs_at(of, lag_s);
        if (count > most || (count == most && fabs(lag_s) < fabs(*best_s))) {
            most = count;
            *best_s = lag_s;
        }
    }
    return most;
}

/* Turns the train by @p turn_s within [from, from + length): what goes out comes in again in front. */
static void turn(const double *times, size_t count, double from_s, double length_s, double turn_s,
                 double *turned)
{
    size_t first = count;
    for (size_t i = 0; i < count && first == count; i++) {
        first = times[i] + turn_s >= from_s + length_s ? i : count;
    }
    for (size_t i = 0; i < count; i++) {
        const size_t j = (first + i) % count;
        turned[i] = times[j] + turn_s - (j >= first ? length_s : 0.0);
    }
}

static size_t thumps_of(const qll_sound_result *heard, double from_s, double to_s, double *times)
{
    size_t count = 0;
    for (size_t i = 0; i < heard->event_count; i++) {
        const qll_sound_event *event = &heard->events[i];
        if (event->kind == QLL_SOUND_HAMMER && event->from_s >= from_s && event->from_s < to_s) {
            times[count] = event->from_s;
            count += 1;
        }
    }
    return count;
}

static void judge(const trains *of, double from_s, double length_s, double *turned,
                  qll_together *together)
{
    double lag_s = 0.0;
    together->paired = most_pairs(of, &lag_s);
    together->lag_s = together->paired > 0 ? lag_s : (double)NAN;
    trains by_chance = *of;
    by_chance.heard = turned;
    const double step_s = fmax(of->near_s, length_s / QLL_TURNS_MOST);
    /* Where it is turned over the seam an even rhythm may lose a pair, which is no better by that. */
    const size_t seam = together->paired > 2 ? 1 : 0;
    size_t tried = 0, as_good = 0;
    const double first_s = 2.0 * QLL_BESIDE_CLOCKS_S, last_s = length_s - first_s;
    const size_t turns = (size_t)fmax(0.0, (last_s - first_s) / step_s) + 1;
    for (; tried < turns; tried++) {
        turn(of->heard, of->heard_count, from_s, length_s, first_s + step_s * (double)tried,
             turned);
        as_good += most_pairs(&by_chance, &lag_s) + seam >= together->paired;
    }
    together->chance = qll_beside_chance(as_good, tried);
    together->is_judged = true;
    together->coincides = together->chance <= QLL_BESIDE_CHANCE;
}

/* How often it is hammer: surges that are hard enough, which go together with a thump at that lag. A log that is too slow flattens
 * them, so that none says nothing. @p hard: room for all surges. */
static void count_hammer(const trains *of, const qll_beside_result *result, double *hard,
                         qll_together *together)
{
    trains hardest = {of->heard, hard, of->heard_count, 0, of->near_s};
    for (size_t i = 0; i < result->surge_count; i++) {
        if (fabs(result->surges[i].change_pa) >= QLL_BESIDE_HAMMER_PA) {
            hard[hardest.logged_count] = result->surges[i].at_s;
            hardest.logged_count += 1;
        }
    }
    const size_t count = together->paired > 0 ? pairs_at(&hardest, together->lag_s) : 0;
    together->per_hour = count > 0 ? 3600.0 * (double)count / result->overlap_s : (double)NAN;
}

qll_status qll_beside_pair(const qll_sound_result *heard, qll_arena *arena,
                           qll_beside_result *result)
{
    qll_together *together = &result->together[QLL_BESIDE_BANGS];
    double *times = qll_arena_take(arena, 2 * heard->event_count + 1, sizeof *times);
    double *logged = qll_arena_take(arena, result->surge_count + 1, sizeof *logged);
    if (times == NULL || logged == NULL) {
        return QLL_NO_MEMORY;
    }
    const double from_s = fmax(0.0, result->log_from_s), to_s = from_s + result->overlap_s;
    for (size_t i = 0; i < result->surge_count; i++) {
        logged[i] = result->surges[i].at_s;
    }
    together->heard = thumps_of(heard, from_s, to_s, times);
    together->logged = result->surge_count;
    const trains of = {times, logged, together->heard, together->logged,
                       fmax(QLL_PAIR_NEAR_S, result->interval_s)};
    if (together->heard > 0 && together->logged > 0) {
        judge(&of, from_s, result->overlap_s, times + heard->event_count, together);
        count_hammer(&of, result, logged, together);
    }
    return QLL_OK;
}
