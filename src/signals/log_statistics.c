/* Time is cut into cells of one length, the log's usual interval where it divides the averaging
 * times. Their volumes are added up within every stretch without a gap, so that
 *
 *   1. the mean over any window is a difference of two sums (docs/theory/flow_log.md, eq. 3);
 *   2. a window without flow has two equal sums, to the last bit;
 *   3. only as many sums are kept as the longest window has cells, and a batch.
 *
 * The classes of flow take every stretch as it is, uncut. */
#include "signals/log_statistics.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define QLL_BATCH_CELLS    8192
#define QLL_HOUR_MS        ((int64_t)3600 * 1000)
#define QLL_DAY_MS         (24 * QLL_HOUR_MS)
/* The hours of least use (common practice, no source). */
#define QLL_NIGHT_START_MS (2 * QLL_HOUR_MS)
#define QLL_NIGHT_END_MS   (5 * QLL_HOUR_MS)
/* Cells are not cut finer than this to make a window fit. */
#define QLL_CELL_LEAST_MS  1000

const int qll_log_peak_windows_s[QLL_LOG_PEAKS] = {1, 4, 10, 30, 60, 300, 900, 1800, 3600};

static int64_t greatest_divisor(int64_t a, int64_t b)
{
    while (b != 0) {
        int64_t rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

static int64_t floor_mod(int64_t a, int64_t b)
{
    int64_t rest = a % b;
    return rest < 0 ? rest + b : rest;
}

/* A cell length that divides every window not shorter than the interval. */
static int64_t cell_length_ms(int64_t interval_ms)
{
    int64_t cell_ms = interval_ms;
    for (size_t w = 0; w < QLL_LOG_PEAKS; w++) {
        int64_t window_ms = (int64_t)qll_log_peak_windows_s[w] * 1000;
        if (window_ms >= interval_ms) {
            cell_ms = greatest_divisor(cell_ms, window_ms);
        }
    }
    return cell_ms < QLL_CELL_LEAST_MS && cell_ms < interval_ms ? QLL_CELL_LEAST_MS : cell_ms;
}

/* An interval under it would make the sums of an hour too many. */
#define QLL_CELL_MS_LEAST 100

/* Cells for the interval, and the windows that it resolves. */
static void set_cells(qll_statistics *s, int64_t interval_ms)
{
    s->cell_ms = cell_length_ms(interval_ms);
    s->cell_ms = s->cell_ms < QLL_CELL_MS_LEAST ? QLL_CELL_MS_LEAST : s->cell_ms;
    s->cell_s = (double)s->cell_ms / 1000.0;
    s->longest = 0;
    for (size_t w = 0; w < QLL_LOG_PEAKS; w++) {
        int64_t window_ms = (int64_t)qll_log_peak_windows_s[w] * 1000;
        s->windows[w].cells = 0;
        if (window_ms >= interval_ms && window_ms % s->cell_ms == 0) {
            s->windows[w].cells = (size_t)(window_ms / s->cell_ms);
            s->longest = s->windows[w].cells;
        }
    }
    s->room = s->longest + QLL_BATCH_CELLS;
}

bool qll_statistics_begin(qll_statistics *s, int64_t interval_ms, bool may_refine,
                          const qll_zone *zone, bool blocks_from_first, qll_arena *arena)
{
    assert(interval_ms > 0);
    *s = (qll_statistics){.zone = *zone,
                          .blocks_from_first = blocks_from_first,
                          .next_ms = INT64_MIN,
                          .since_ms = INT64_MIN,
                          .night_least_m3 = INFINITY};
    set_cells(s, interval_ms);
    s->capacity = s->room + 1;
    if (may_refine) {
        s->capacity = (size_t)(QLL_HOUR_MS / QLL_CELL_MS_LEAST) + QLL_BATCH_CELLS + 1;
    }
    s->classes = qll_arena_take(arena, QLL_CLASS_COUNT, sizeof *s->classes);
    s->cumulative = qll_arena_take(arena, s->capacity, sizeof *s->cumulative);
    s->hours = qll_arena_take(arena, QLL_CLASS_COUNT, sizeof *s->hours);
    return s->classes != NULL && s->cumulative != NULL && s->hours != NULL;
}

static int64_t local_ms(const qll_statistics *s, int64_t utc_ms)
{
    const int32_t offset_s =
        utc_ms < s->since_ms ? s->offset_before_s : qll_zone_offset_s(&s->zone, utc_ms);
    return utc_ms + (int64_t)offset_s * 1000;
}

/* How many of @p at most cells from @p start_ms on belong to the same local hour. */
static qll_log_hour *hour_of(qll_statistics *s, int64_t start_ms, size_t *cells)
{
    int64_t local = local_ms(s, start_ms);
    int64_t in_hour = floor_mod(local, QLL_HOUR_MS);
    *cells = (size_t)((QLL_HOUR_MS - in_hour + s->cell_ms - 1) / s->cell_ms);
    int64_t days = (local - floor_mod(local, QLL_DAY_MS)) / QLL_DAY_MS;
    int64_t weekday = floor_mod(days + 4, 7); /* 1970-01-01 was a Thursday, day 4 from Sunday */
    return &s->profile[weekday == 0 || weekday == 6][floor_mod(local, QLL_DAY_MS) / QLL_HOUR_MS];
}

static void look_at_hours(qll_statistics *s)
{
    if (s->cell_ms > QLL_HOUR_MS) {
        return;
    }
    for (size_t i = s->done; i < s->count;) {
        size_t cells = 0;
        qll_log_hour *hour = hour_of(s, s->start_ms + (int64_t)i * s->cell_ms, &cells);
        cells = cells < s->count - i ? cells : s->count - i;
        hour->time_s += (double)cells * s->cell_s;
        hour->volume_m3 += s->cumulative[i + cells] - s->cumulative[i];
        i += cells;
    }
}

/* The first cell boundary from @p first on that is the clock's, or follows it within a cell. */
static size_t block_end(const qll_statistics *s, size_t first, size_t cells)
{
    int64_t window_ms = (int64_t)cells * s->cell_ms;
    int64_t at_ms = s->start_ms + (int64_t)first * s->cell_ms;
    int64_t anchored = s->blocks_from_first ? at_ms - s->first_ms : local_ms(s, at_ms);
    int64_t past = floor_mod(anchored, window_ms);
    return past < s->cell_ms ? first
                             : first + (size_t)((window_ms - past + s->cell_ms - 1) / s->cell_ms);
}

/* Greatest difference over @p cells of the sums up to first..last; four at a time, because each
 * comparison waits for the one before. */
static double greatest_rise(const double *sums, size_t first, size_t last, size_t cells)
{
    double best[4] = {0.0, 0.0, 0.0, 0.0};
    size_t i = first;
    for (; i + 3 <= last; i += 4) {
        const double *end = sums + i;
        const double *start = end - cells;
        for (size_t j = 0; j < 4; j++) {
            double rise = end[j] - start[j];
            best[j] = rise > best[j] ? rise : best[j];
        }
    }
    for (; i <= last; i++) {
        double rise = sums[i] - sums[i - cells];
        best[0] = rise > best[0] ? rise : best[0];
    }
    best[0] = best[1] > best[0] ? best[1] : best[0];
    best[2] = best[3] > best[2] ? best[3] : best[2];
    return best[2] > best[0] ? best[2] : best[0];
}

static void add_hours(qll_statistics *s, double volume_m3, double count)
{
    qll_class *class = &s->hours[qll_class_of(volume_m3 / 3600.0)];
    class->time_s += 3600.0 * count;
    class->volume_m3 += volume_m3 * count;
}

static void look_at_window(qll_statistics *s, qll_window *window)
{
    size_t cells = window->cells;
    size_t first = s->done + 1 > cells ? s->done + 1 : cells;
    if (cells == 0 || first > s->count) {
        return;
    }
    double rise = greatest_rise(s->cumulative, first, s->count, cells);
    window->seen = true;
    window->rolling_m3 = rise > window->rolling_m3 ? rise : window->rolling_m3;
    for (size_t i = block_end(s, first, cells); i <= s->count; i += cells) {
        double volume_m3 = s->cumulative[i] - s->cumulative[i - cells];
        window->block_m3 = volume_m3 > window->block_m3 ? volume_m3 : window->block_m3;
        window->blocks += 1;
        window->zero_blocks += volume_m3 == 0.0 ? 1 : 0;
        if (window == &s->windows[QLL_LOG_PEAKS - 1] && volume_m3 > 0.0) {
            add_hours(s, volume_m3, 1.0);
        }
    }
}

/* True if the hour that ends at cell @p end begins within a night: not if the clock was put forward
 * meanwhile. */
static bool begins_at_night(const qll_statistics *s, size_t end, size_t cells)
{
    const int64_t start = local_ms(s, s->start_ms + (int64_t)(end - cells) * s->cell_ms);
    const int64_t of_day = floor_mod(start, QLL_DAY_MS);
    return of_day >= QLL_NIGHT_START_MS && of_day < QLL_NIGHT_END_MS;
}

/* Every hour that begins and ends within a night. Days are passed in one step, or in two where the
 * clock may be set in between. */
static void look_at_nights(qll_statistics *s)
{
    size_t cells = s->windows[QLL_LOG_PEAKS - 1].cells;
    size_t i = s->done + 1 > cells ? s->done + 1 : cells;
    while (cells > 0 && i <= s->count) {
        int64_t end = local_ms(s, s->start_ms + (int64_t)i * s->cell_ms);
        int64_t of_day = floor_mod(end, QLL_DAY_MS);
        int64_t wait = QLL_NIGHT_START_MS + QLL_HOUR_MS - of_day;
        if (of_day > QLL_NIGHT_END_MS) {
            wait += QLL_DAY_MS;
        }
        if (wait > 0) {
            wait -= s->zone.has_summer && wait > QLL_HOUR_MS ? QLL_HOUR_MS : 0;
            i += (size_t)((wait + s->cell_ms - 1) / s->cell_ms);
            continue;
        }
        if (!begins_at_night(s, i, cells)) {
            i += 1;
            continue;
        }
        size_t last = i + (size_t)((QLL_NIGHT_END_MS - of_day) / s->cell_ms);
        for (last = last < s->count ? last : s->count; i <= last; i++) {
            double volume_m3 = s->cumulative[i] - s->cumulative[i - cells];
            s->night_least_m3 = volume_m3 < s->night_least_m3 ? volume_m3 : s->night_least_m3;
        }
    }
}

void qll_statistics_look(qll_statistics *s)
{
    look_at_hours(s);
    for (size_t w = 0; w < QLL_LOG_PEAKS; w++) {
        look_at_window(s, &s->windows[w]);
    }
    look_at_nights(s);
    s->covered_ms += (int64_t)(s->count - s->done) * s->cell_ms;
    s->volume_m3 += s->cumulative[s->count] - s->cumulative[s->done];
    if (s->count == s->room) {
        size_t shift = s->count - s->longest;
        double base_m3 = s->cumulative[shift];
        for (size_t i = 0; i <= s->longest; i++) {
            s->cumulative[i] = s->cumulative[i + shift] - base_m3;
        }
        s->start_ms += (int64_t)shift * s->cell_ms;
        s->count = s->longest;
    }
    s->done = s->count;
}

/* Ends the stretch: what follows is unknown, or nothing. */
static void break_off(qll_statistics *s)
{
    if (s->next_ms == INT64_MIN) {
        return;
    }
    qll_statistics_look(s);
    if (s->cell_filled_ms > 0 && s->cell_ms <= QLL_HOUR_MS) {
        size_t cells = 0;
        qll_log_hour *hour = hour_of(s, s->next_ms - s->cell_filled_ms, &cells);
        hour->time_s += (double)s->cell_filled_ms / 1000.0;
        hour->volume_m3 += s->cell_volume_m3;
    }
    s->covered_ms += s->cell_filled_ms;
    s->volume_m3 += s->cell_volume_m3;
    s->next_ms = INT64_MIN;
    s->count = s->done = 0;
    s->cell_filled_ms = 0;
    s->cell_volume_m3 = 0.0;
}

static void push_cell(qll_statistics *s, double volume_m3)
{
    s->cumulative[s->count + 1] = s->cumulative[s->count] + volume_m3;
    s->count += 1;
    if (s->count == s->room) {
        qll_statistics_look(s);
    }
}

/* Many days of one flow: what whole days in the middle add to every figure is known at once, because
 * the hour and all windows divide the day. */
static void skip_days(qll_statistics *s, int64_t days, double flow_m3s)
{
    qll_statistics_look(s);
    for (size_t w = 0; w < QLL_LOG_PEAKS; w++) {
        qll_window *window = &s->windows[w];
        if (window->cells > 0) {
            long long blocks = days * (QLL_DAY_MS / ((int64_t)window->cells * s->cell_ms));
            window->blocks += blocks;
            window->zero_blocks += flow_m3s == 0.0 ? blocks : 0;
            if (w == QLL_LOG_PEAKS - 1 && flow_m3s > 0.0) {
                add_hours(s, flow_m3s * 3600.0, (double)blocks);
            }
        }
    }
    for (int64_t day = 0; day < days && s->cell_ms <= QLL_HOUR_MS; day++) {
        int64_t from_ms = s->next_ms + day * QLL_DAY_MS;
        for (int64_t hour = 0; hour < 24; hour++) {
            size_t cells = 0;
            qll_log_hour *of = hour_of(s, from_ms + hour * QLL_HOUR_MS, &cells);
            of->time_s += 3600.0;
            of->volume_m3 += 3600.0 * flow_m3s;
        }
    }
    s->covered_ms += days * QLL_DAY_MS;
    s->volume_m3 += flow_m3s * (double)days * 86400.0;
    s->start_ms += days * QLL_DAY_MS;
    s->next_ms += days * QLL_DAY_MS;
}

static void add_cells(qll_statistics *s, int64_t length_ms, double flow_m3s)
{
    while (length_ms > 0) {
        int64_t left = s->cell_ms - s->cell_filled_ms;
        int64_t part = length_ms < left ? length_ms : left;
        s->cell_volume_m3 += flow_m3s * ((double)part / 1000.0);
        s->cell_filled_ms += part;
        s->next_ms += part;
        length_ms -= part;
        if (s->cell_filled_ms == s->cell_ms) {
            double volume_m3 = s->cell_volume_m3;
            s->cell_volume_m3 = 0.0;
            s->cell_filled_ms = 0;
            push_cell(s, volume_m3);
        }
    }
}

void qll_statistics_refine(qll_statistics *s, int64_t interval_ms)
{
    assert(s->max_m3s == 0.0 && interval_ms > 0);
    qll_window before[QLL_LOG_PEAKS];
    memcpy(before, s->windows, sizeof before);
    qll_statistics_look(s);
    /* What is left of a cell is looked at with the cells that follow: it is counted there. */
    const int64_t stretch_ms = (int64_t)s->count * s->cell_ms;
    const int64_t looked_ms = s->start_ms + stretch_ms;
    set_cells(s, interval_ms);
    assert(s->room < s->capacity);
    for (size_t w = 0; w < QLL_LOG_PEAKS; w++) {
        qll_window *window = &s->windows[w];
        const int64_t window_ms = (int64_t)qll_log_peak_windows_s[w] * 1000;
        if (before[w].cells == 0 && window->cells > 0) {
            window->blocks = window->zero_blocks = s->covered_ms / window_ms;
            window->seen = window->blocks > 0;
        }
    }
    if (s->next_ms == INT64_MIN) {
        return;
    }
    const size_t whole = (size_t)(stretch_ms / s->cell_ms);
    s->count = s->done = whole < s->longest ? whole : s->longest;
    s->start_ms = looked_ms - (int64_t)s->count * s->cell_ms;
    memset(s->cumulative, 0, (s->count + 1) * sizeof *s->cumulative);
    const int64_t rest_ms = s->next_ms - looked_ms;
    s->next_ms = looked_ms;
    s->cell_filled_ms = 0;
    if (rest_ms > 0) {
        add_cells(s, rest_ms, 0.0);
    }
}

void qll_statistics_offset(qll_statistics *s, int64_t utc_ms, int32_t offset_s)
{
    if (offset_s == s->zone.standard_s) {
        return;
    }
    if (s->next_ms != INT64_MIN) {
        qll_statistics_look(s);
    }
    s->offset_before_s = s->zone.standard_s;
    s->since_ms = utc_ms;
    s->zone = (qll_zone){.standard_s = offset_s};
}

void qll_statistics_add_any(qll_statistics *s, int64_t start_ms, int64_t length_ms, double flow_m3s)
{
    assert(length_ms > 0 && flow_m3s >= 0.0 && flow_m3s < QLL_CLASS_END_M3S);
    assert(s->next_ms == INT64_MIN || start_ms >= s->next_ms);
    if (start_ms != s->next_ms) {
        s->first_ms = s->covered_ms == 0 && s->next_ms == INT64_MIN ? start_ms : s->first_ms;
        break_off(s);
        s->start_ms = s->next_ms = start_ms;
        s->cumulative[0] = 0.0;
    }
    double length_s = (double)length_ms / 1000.0;
    qll_class *class = &s->classes[qll_class_of(flow_m3s)];
    class->time_s += length_s;
    class->volume_m3 += flow_m3s * length_s;
    s->max_m3s = flow_m3s > s->max_m3s ? flow_m3s : s->max_m3s;
    if (length_ms > 4 * QLL_DAY_MS && QLL_DAY_MS % s->cell_ms == 0) {
        int64_t before_ms = 2 * QLL_DAY_MS - s->cell_filled_ms;
        int64_t days = (length_ms - before_ms) / QLL_DAY_MS - 1;
        add_cells(s, before_ms, flow_m3s);
        skip_days(s, days, flow_m3s);
        length_ms -= before_ms + days * QLL_DAY_MS;
    }
    add_cells(s, length_ms, flow_m3s);
}

/* The classes that hold time, from no flow on, as shares. */
static bool end_points(const qll_class *classes, double idle_s, qll_arena *arena,
                       qll_flow_log_result *result)
{
    size_t count = 0;
    double time_s = 0.0;
    double volume_m3 = 0.0;
    for (size_t i = 0; i < QLL_CLASS_COUNT; i++) {
        const double class_s = i == 0 ? idle_s : classes[i].time_s;
        count += class_s > 0.0 ? 1U : 0U;
        time_s += class_s;
        volume_m3 += classes[i].volume_m3;
    }
    qll_log_point *points = qll_arena_take(arena, count, sizeof *points);
    if (points == NULL) {
        return false;
    }
    double time_until_s = 0.0;
    double volume_until_m3 = 0.0;
    for (size_t i = 0, n = 0; i < QLL_CLASS_COUNT; i++) {
        const double class_s = i == 0 ? idle_s : classes[i].time_s;
        if (class_s > 0.0) {
            time_until_s += class_s;
            volume_until_m3 += classes[i].volume_m3;
            points[n] = (qll_log_point){classes[i].volume_m3 / class_s, time_until_s / time_s,
                                        volume_m3 > 0.0 ? volume_until_m3 / volume_m3 : 1.0};
            n += 1;
        }
    }
    result->points = points;
    result->point_count = count;
    result->idle_share = time_s > 0.0 ? idle_s / time_s : (double)NAN;
    result->mean_m3s = time_s > 0.0 ? volume_m3 / time_s : (double)NAN;
    return true;
}

bool qll_statistics_hours(const qll_statistics *s, qll_arena *arena, qll_flow_log_result *result)
{
    const qll_window *hour = &s->windows[QLL_LOG_PEAKS - 1];
    const double mean_m3s = result->mean_m3s;
    const double idle_share = result->idle_share;
    if (hour->blocks > hour->zero_blocks
        && !end_points(s->hours, 3600.0 * (double)hour->zero_blocks, arena, result)) {
        return false;
    }
    result->mean_m3s = mean_m3s;
    result->idle_share = idle_share;
    return true;
}

bool qll_statistics_end(qll_statistics *s, qll_arena *arena, qll_flow_log_result *result)
{
    break_off(s);
    result->covered_s = (double)s->covered_ms / 1000.0;
    result->volume_m3 = s->volume_m3;
    result->max_m3s = s->max_m3s;
    for (size_t w = 0; w < QLL_LOG_PEAKS; w++) {
        const qll_window *window = &s->windows[w];
        double length_s = qll_log_peak_windows_s[w];
        qll_log_peak *peak = &result->peaks[w];
        *peak = (qll_log_peak){qll_log_peak_windows_s[w], (double)NAN, (double)NAN, (double)NAN,
                               window->blocks};
        if (window->seen) {
            peak->rolling_m3s = window->rolling_m3 / length_s;
        }
        if (window->blocks > 0) {
            peak->block_m3s = window->block_m3 / length_s;
            peak->zero_share = (double)window->zero_blocks / (double)window->blocks;
        }
    }
    result->night_least_m3s = isinf(s->night_least_m3) ? (double)NAN : s->night_least_m3 / 3600.0;
    memcpy(result->profile, s->profile, sizeof s->profile);
    return end_points(s->classes, s->classes[0].time_s, arena, result);
}
