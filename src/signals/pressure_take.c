/* Rows to copies: averages of seconds, of tenths, the rows themselves; and what is counted as they pass. */
#include "numeric/robust.h"
#include "signals/pressure_state.h"

#include <math.h>
#include <string.h>

#define QLL_SECOND_MS    ((int64_t)1000)
#define QLL_TENTH_MS     ((int64_t)100)
#define QLL_FAST_MS      ((int64_t)10) /* rows no further apart make a fast copy */
/* Seconds are cleaned; of rows further apart a single one may be a draw-off. */
#define QLL_CLEANED_MS   ((int64_t)2000)
#define QLL_HAMPEL_HALF  ((size_t)5)
#define QLL_HAMPEL_TIMES 3.0
#define QLL_HAMPEL_PA    4000.0
/* Differences that a block's noise is taken from. */
#define QLL_NOISE_PAIRS  ((size_t)4096)
/* Turns that are less do not count as turns of a cycle, and cycles from here on are counted: 50 psi. */
#define QLL_TURN_PA      5000.0
#define QLL_CYCLE_PA     344737.86
/* An outlet over its inlet by more, most of the time, has changed places with it. */
#define QLL_SWAPPED_PA   20000.0

static void count_cycle(void *context, double range, double cycles)
{
    qll_pressure_state *state = context;
    state->cycles += range >= QLL_CYCLE_PA ? cycles : 0.0;
}

static bool begin_copy(qll_copy *copy, const qll_channel_facts *facts, int64_t interval_ms,
                       size_t room, qll_arena *arena)
{
    *copy = (qll_copy){.room = room,
                       .interval_ms = interval_ms,
                       .bin = {.length_ms = interval_ms, .at_ms = INT64_MIN}};
    copy->at_ms = qll_arena_take(arena, room, sizeof *copy->at_ms);
    bool good = copy->at_ms != NULL;
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        if (facts->has[c]) {
            copy->value[c] = qll_arena_take(arena, room, sizeof *copy->value[c]);
            good = good && copy->value[c] != NULL;
        }
    }
    return good;
}

qll_pressure_state *qll_pressure_begin(const qll_channel_facts *facts, qll_arena *arena)
{
    qll_pressure_state *s = qll_arena_take(arena, 1, sizeof *s);
    if (s == NULL) {
        return NULL;
    }
    const int64_t interval_ms = facts->interval_ms;
    const int64_t slow_ms = interval_ms < QLL_SECOND_MS ? QLL_SECOND_MS : interval_ms;
    const int64_t middle_ms = interval_ms < QLL_TENTH_MS ? QLL_TENTH_MS : interval_ms;
    bool good = begin_copy(&s->slow, facts, slow_ms, QLL_SLOW_ROOM, arena);
    if (middle_ms < slow_ms) {
        good = good && begin_copy(&s->middle, facts, middle_ms, QLL_MIDDLE_ROOM, arena);
    }
    s->facts = *facts;
    s->whole_width_ms = slow_ms;
    s->scratch_room = 3 * QLL_SLOW_ROOM;
    s->scratch = qll_arena_take(arena, s->scratch_room, sizeof *s->scratch);
    s->windows = qll_arena_take(arena, QLL_KEPT_ROOM, sizeof *s->windows);
    s->runs = qll_arena_take(arena, QLL_KEPT_ROOM, sizeof *s->runs);
    good = good && s->scratch != NULL && s->windows != NULL && s->runs != NULL;
    for (size_t p = 0; p < 2; p++) {
        s->constancy[p] = (qll_constancy){
            .value = (double)NAN, .most = -(double)INFINITY, .least = (double)INFINITY};
        s->classes[p] = qll_arena_take(arena, QLL_CLASS_COUNT, sizeof *s->classes[p]);
        good = good && s->classes[p] != NULL;
        if (facts->has[p]) {
            s->cleaned[p] = qll_arena_take(arena, QLL_SLOW_ROOM, sizeof *s->cleaned[p]);
            good = good && s->cleaned[p] != NULL;
        }
    }
    qll_rainflow_begin(&s->rainflow, count_cycle, s);
    if (facts->has[QLL_CHANNEL_OUTLET]) {
        good = good && qll_hunt_begin(&s->hunt, middle_ms < slow_ms ? middle_ms : slow_ms, arena)
               && (interval_ms > QLL_FAST_MS || qll_fast_begin(&s->fast, interval_ms, arena));
    }
    s->windows = good ? s->windows : NULL;
    return good ? s : NULL;
}

int64_t qll_pressure_clock_ms(const qll_pressure_state *state, int64_t at_ms)
{
    const int64_t day_ms = (int64_t)86400 * 1000;
    const int32_t offset_s =
        state->facts.zone == NULL ? 0 : qll_zone_offset_s(state->facts.zone, at_ms);
    const int64_t of_day = (at_ms + (int64_t)offset_s * 1000) % day_ms;
    return of_day < 0 ? of_day + day_ms : of_day;
}

bool qll_thin(qll_thinning *thinning, void *records, size_t size, size_t *count)
{
    thinning->stride = thinning->stride == 0 ? 1 : thinning->stride;
    thinning->skipped += 1;
    if (thinning->skipped < thinning->stride) {
        return false;
    }
    thinning->skipped = 0;
    if (*count == QLL_KEPT_ROOM) {
        char *at = records;
        for (size_t i = 1; i < QLL_KEPT_ROOM / 2; i++) {
            memcpy(at + i * size, at + 2 * i * size, size);
        }
        *count = QLL_KEPT_ROOM / 2;
        thinning->stride *= 2;
    }
    return true;
}

/* ---- evidence ---- */

static double average(const double *values, size_t from, size_t to)
{
    double sum = 0.0;
    size_t known = 0;
    for (size_t i = from; values != NULL && i < to; i++) {
        sum += isnan(values[i]) ? 0.0 : values[i];
        known += isnan(values[i]) ? 0U : 1U;
    }
    return known == 0 ? (double)NAN : sum / (double)known;
}

void qll_pressure_keep(qll_pressure_state *state, const qll_series *series, qll_pressure_word word,
                       double score, size_t from, size_t to)
{
    qll_stretch_kept *kept = &state->kept[word];
    if (to <= from || !(score > kept->score)) {
        return;
    }
    qll_pressure_stretch *stretch = &kept->stretch;
    const size_t count = to - from < QLL_STRETCH_POINTS ? to - from : QLL_STRETCH_POINTS;
    kept->score = score;
    stretch->from_unix_s = (double)series->at_ms[from] / 1000.0;
    stretch->to_unix_s = (double)(series->at_ms[to - 1] + series->interval_ms) / 1000.0;
    stretch->count = count;
    for (size_t p = 0; p < count; p++) {
        const size_t first = from + (to - from) * p / count;
        const size_t end = from + (to - from) * (p + 1) / count;
        stretch->inlet_pa[p] = average(series->value[QLL_CHANNEL_INLET], first, end);
        stretch->outlet_pa[p] = average(series->value[QLL_CHANNEL_OUTLET], first, end);
        stretch->flow_m3s[p] = average(series->value[QLL_CHANNEL_FLOW], first, end);
    }
}

/* Pairs of averages become one. */
static void widen_whole(qll_pressure_state *s)
{
    const size_t room = 2 * QLL_STRETCH_POINTS;
    for (size_t c = 0; c < 3; c++) {
        for (size_t k = 0; k < room; k++) {
            const bool half = k < room / 2;
            s->whole_sum[c][k] = half ? s->whole_sum[c][2 * k] + s->whole_sum[c][2 * k + 1] : 0.0;
            s->whole_count[c][k] =
                half ? s->whole_count[c][2 * k] + s->whole_count[c][2 * k + 1] : 0;
        }
    }
    s->whole_width_ms *= 2;
}

/* The whole log in at most twice as many averages as are shown: when they are full, pairs become one. */
static void add_to_whole(qll_pressure_state *s, const qll_series *series, size_t from)
{
    static const qll_channel shown[3] = {QLL_CHANNEL_INLET, QLL_CHANNEL_OUTLET, QLL_CHANNEL_FLOW};
    const size_t room = 2 * QLL_STRETCH_POINTS;
    for (size_t i = from; i < series->count;) {
        size_t at = (size_t)((series->at_ms[i] - s->first_ms) / s->whole_width_ms);
        while (at >= room) {
            widen_whole(s);
            at /= 2;
        }
        const int64_t end_ms = s->first_ms + (int64_t)(at + 1) * s->whole_width_ms;
        size_t to = i;
        while (to < series->count && series->at_ms[to] < end_ms) {
            to += 1;
        }
        for (size_t c = 0; c < 3; c++) {
            const double *values = series->value[shown[c]];
            for (size_t k = i; values != NULL && k < to; k++) {
                s->whole_sum[c][at] += isnan(values[k]) ? 0.0 : values[k];
                s->whole_count[c][at] += isnan(values[k]) ? 0U : 1U;
            }
        }
        i = to;
    }
}

/* ---- a block of the slow copy ---- */

static void find_noise(qll_pressure_state *s, const double *outlet, size_t count)
{
    const size_t step = count / QLL_NOISE_PAIRS + 1;
    double *apart = s->scratch;
    size_t found = 0;
    for (size_t i = step; i < count; i += step) {
        const double difference = outlet[i] - outlet[i - 1];
        if (!isnan(difference)) {
            apart[found] = difference;
            found += 1;
        }
    }
    if (found > 16) {
        s->noise_pa = qll_mad_sigma(apart, found, apart + found) / sqrt(2.0);
        s->noise_sum += s->noise_pa;
        s->noise_count += 1;
    }
}

static void clean(qll_pressure_state *s, size_t channel)
{
    const double *values = s->slow.value[channel];
    const size_t count = s->slow.count;
    memcpy(s->cleaned[channel], values, count * sizeof *values);
    if (s->slow.interval_ms > QLL_CLEANED_MS) {
        return;
    }
    /* What is unknown parts what is cleaned. */
    for (size_t from = 0; from < count;) {
        size_t to = from;
        while (to < count && !isnan(values[to])
               && (to == from
                   || s->slow.at_ms[to] - s->slow.at_ms[to - 1]
                          <= QLL_GAP_TIMES * s->slow.interval_ms)) {
            to += 1;
        }
        (void)qll_hampel(values + from, to - from, QLL_HAMPEL_HALF, QLL_HAMPEL_TIMES, QLL_HAMPEL_PA,
                         s->cleaned[channel] + from, s->scratch);
        from = to > from ? to : from + 1;
    }
}

static void count_classes(qll_pressure_state *s, size_t channel, size_t from)
{
    const double *values = s->cleaned[channel];
    for (size_t i = from; i < s->slow.count; i++) {
        if (!isnan(values[i])) {
            const double class = (values[i] - QLL_CHANNEL_LEAST_PA) / QLL_CLASS_PA;
            const size_t at = class > 0.0 ? (size_t) class : 0;
            s->classes[channel][at < QLL_CLASS_COUNT ? at : QLL_CLASS_COUNT - 1] += 1;
            s->class_total[channel] += 1;
        }
    }
}

static void count_swapped(qll_pressure_state *s, size_t from)
{
    const double *inlet = s->cleaned[QLL_CHANNEL_INLET];
    const double *outlet = s->cleaned[QLL_CHANNEL_OUTLET];
    long long over = 0;
    long long both = 0;
    for (size_t i = from; i < s->slow.count; i++) {
        const double apart = outlet[i] - inlet[i];
        over += apart > QLL_SWAPPED_PA ? 1 : 0;
        both += isnan(apart) ? 0 : 1;
    }
    s->swapped_s += (double)over;
    s->both_s += (double)both;
}

/* Looks at a block; what is not finished stays at its beginning, and that many are known already next time. */
static void look_at_block(qll_pressure_state *s, size_t *known, bool is_last)
{
    qll_copy *slow = &s->slow;
    qll_series series = {
        .at_ms = slow->at_ms, .count = slow->count, .interval_ms = slow->interval_ms};
    if (slow->count == 0) {
        return;
    }
    if (slow->value[QLL_CHANNEL_OUTLET] != NULL) {
        find_noise(s, slow->value[QLL_CHANNEL_OUTLET], slow->count);
    }
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        series.value[c] = series.cleaned[c] = slow->value[c];
        if (c <= QLL_CHANNEL_OUTLET && slow->value[c] != NULL) {
            clean(s, c);
            series.cleaned[c] = s->cleaned[c];
            count_classes(s, c, *known);
        }
    }
    if (s->cleaned[0] != NULL && s->cleaned[1] != NULL) {
        count_swapped(s, *known);
    }
    add_to_whole(s, &series, *known);
    size_t keep = slow->count;
    if (slow->value[QLL_CHANNEL_OUTLET] != NULL) {
        const size_t rest = qll_pressure_rest(s, &series, is_last);
        const size_t run = qll_pressure_runs(s, &series, is_last);
        const size_t hunt =
            s->middle.room == 0 ? qll_pressure_hunt(s, &series, is_last) : slow->count;
        keep = rest < run ? rest : run;
        keep = hunt < keep ? hunt : keep;
    }
    keep = is_last ? slow->count : keep;
    slow->count -= keep;
    *known = slow->count;
    memmove(slow->at_ms, slow->at_ms + keep, slow->count * sizeof *slow->at_ms);
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        if (slow->value[c] != NULL) {
            memmove(slow->value[c], slow->value[c] + keep, slow->count * sizeof *slow->value[c]);
        }
    }
}

static void look_at_middle(qll_pressure_state *s, bool is_last)
{
    qll_copy *middle = &s->middle;
    qll_series series = {
        .at_ms = middle->at_ms, .count = middle->count, .interval_ms = middle->interval_ms};
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        series.value[c] = series.cleaned[c] = middle->value[c];
    }
    size_t keep = middle->count;
    if (middle->value[QLL_CHANNEL_OUTLET] != NULL && middle->count > 0) {
        keep = qll_pressure_hunt(s, &series, is_last);
    }
    middle->count -= keep;
    memmove(middle->at_ms, middle->at_ms + keep, middle->count * sizeof *middle->at_ms);
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        if (middle->value[c] != NULL) {
            memmove(middle->value[c], middle->value[c] + keep,
                    middle->count * sizeof *middle->value[c]);
        }
    }
}

/* ---- rows into copies ---- */

static void make_room(qll_pressure_state *s, qll_copy *copy)
{
    if (copy->count == copy->room) {
        if (copy == &s->slow) {
            look_at_block(s, &s->known, false);
        } else {
            look_at_middle(s, false);
        }
    }
}

static void close_bin(qll_pressure_state *s, qll_copy *copy)
{
    qll_binning *bin = &copy->bin;
    if (bin->at_ms == INT64_MIN) {
        return;
    }
    make_room(s, copy);
    copy->at_ms[copy->count] = bin->at_ms;
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        if (copy->value[c] != NULL) {
            copy->value[c][copy->count] =
                bin->count[c] > 0 ? bin->sum[c] / (double)bin->count[c] : (double)NAN;
        }
        bin->sum[c] = 0.0;
        bin->count[c] = 0;
    }
    copy->count += 1;
    bin->at_ms = INT64_MIN;
}

/* Averages of rows that come faster than the copy. */
static void add_averages(qll_pressure_state *s, qll_copy *copy, const int64_t *at_ms,
                         const double *const *values, size_t from, size_t to)
{
    qll_binning *bin = &copy->bin;
    for (size_t i = from; i < to; i++) {
        const int64_t start_ms = at_ms[i] - at_ms[i] % bin->length_ms;
        if (start_ms != bin->at_ms) {
            close_bin(s, copy);
            bin->at_ms = start_ms;
        }
        for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
            if (copy->value[c] != NULL && !isnan(values[c][i])) {
                bin->sum[c] += values[c][i];
                bin->count[c] += 1;
            }
        }
    }
}

static void add_rows(qll_pressure_state *s, qll_copy *copy, const int64_t *at_ms,
                     const double *const *values, size_t from, size_t to)
{
    while (from < to) {
        make_room(s, copy);
        const size_t left = copy->room - copy->count;
        const size_t part = to - from < left ? to - from : left;
        memcpy(copy->at_ms + copy->count, at_ms + from, part * sizeof *at_ms);
        for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
            if (copy->value[c] != NULL) {
                memcpy(copy->value[c] + copy->count, values[c] + from, part * sizeof(double));
            }
        }
        copy->count += part;
        from += part;
    }
}

static void add_to(qll_pressure_state *s, qll_copy *copy, const int64_t *at_ms,
                   const double *const *values, size_t from, size_t to)
{
    if (copy->interval_ms > s->facts.interval_ms) {
        add_averages(s, copy, at_ms, values, from, to);
    } else {
        add_rows(s, copy, at_ms, values, from, to);
    }
}

/* ---- what is counted row by row ---- */

static void end_same(qll_constancy *of, int64_t end_ms)
{
    if (end_ms - of->since_ms > of->longest_ms && of->pairs_now > 0) {
        of->longest_ms = end_ms - of->since_ms;
        of->longest_start_ms = of->since_ms;
        of->longest_pairs = of->pairs_now;
    }
    of->pairs_now = 0;
    of->since_ms = end_ms;
}

static void count_constancy(qll_constancy *of, const int64_t *at_ms, const double *values,
                            size_t from, size_t to)
{
    for (size_t i = from; i < to; i++) {
        const double value = values[i];
        if (value == of->value) {
            of->equal += 1;
            of->pairs_now += 1;
        } else {
            const double apart = fabs(value - of->value);
            end_same(of, at_ms[i]);
            of->step_pa =
                apart > 0.0 && (apart < of->step_pa || of->step_pa == 0.0) ? apart : of->step_pa;
            of->value = value;
        }
        of->pairs += 1;
        if (value >= of->most) {
            of->at_most = value == of->most ? of->at_most + 1 : 1;
            of->most = value;
        }
        if (value <= of->least) {
            of->at_least = value == of->least ? of->at_least + 1 : 1;
            of->least = value;
        }
    }
}

static void count_turns(qll_pressure_state *s, const double *outlet, size_t from, size_t to)
{
    double before = s->turn_pa;
    for (size_t i = from; i < to; i++) {
        if (fabs(outlet[i] - before) >= QLL_TURN_PA) {
            before = outlet[i];
            qll_rainflow_add(&s->rainflow, before);
        }
    }
    s->turn_pa = before;
}

/* Rows without a gap between them. */
static void take_stretch(qll_pressure_state *s, const int64_t *at_ms, const double *const *values,
                         size_t from, size_t to)
{
    for (size_t p = 0; p < 2; p++) {
        if (values[p] != NULL) {
            count_constancy(&s->constancy[p], at_ms, values[p], from, to);
        }
    }
    if (values[QLL_CHANNEL_OUTLET] != NULL) {
        count_turns(s, values[QLL_CHANNEL_OUTLET], from, to);
        if (s->fast.on) {
            const double *flow = values[QLL_CHANNEL_FLOW];
            qll_fast_take(s, at_ms + from, values[QLL_CHANNEL_OUTLET] + from,
                          flow == NULL ? NULL : flow + from, to - from);
        }
    }
    if (s->middle.room > 0) {
        add_to(s, &s->middle, at_ms, values, from, to);
    }
    add_to(s, &s->slow, at_ms, values, from, to);
}

static void note_gap(qll_pressure_state *s, int64_t from_ms, int64_t to_ms)
{
    const qll_log_gap gap = {(double)from_ms / 1000.0, (double)to_ms / 1000.0};
    const double length_s = gap.to_unix_s - gap.from_unix_s;
    s->gap_total += 1;
    s->gap_s += length_s;
    if (s->gap_count == QLL_GAPS_LISTED) {
        size_t least = 0;
        for (size_t i = 1; i < QLL_GAPS_LISTED; i++) {
            least = s->gaps[i].to_unix_s - s->gaps[i].from_unix_s
                            < s->gaps[least].to_unix_s - s->gaps[least].from_unix_s
                        ? i
                        : least;
        }
        if (s->gaps[least].to_unix_s - s->gaps[least].from_unix_s >= length_s) {
            return;
        }
        s->gap_count -= 1;
        memmove(&s->gaps[least], &s->gaps[least + 1], (s->gap_count - least) * sizeof *s->gaps);
    }
    s->gaps[s->gap_count] = gap;
    s->gap_count += 1;
}

void qll_pressure_take(qll_pressure_state *s, const int64_t *at_ms, const double *const *values,
                       size_t count)
{
    const int64_t gap_ms = QLL_GAP_TIMES * s->facts.interval_ms;
    size_t from = 0;
    if (!s->started && count > 0) {
        s->started = true;
        s->first_ms = at_ms[0];
        s->last_ms = at_ms[0];
        s->turn_pa = -(double)INFINITY;
    }
    for (size_t i = 0; i < count; i++) {
        const int64_t before_ms = i == 0 ? s->last_ms : at_ms[i - 1];
        if (at_ms[i] - before_ms > gap_ms) {
            take_stretch(s, at_ms, values, from, i);
            note_gap(s, before_ms, at_ms[i]);
            for (size_t p = 0; p < 2; p++) {
                end_same(&s->constancy[p], before_ms);
                s->constancy[p].since_ms = at_ms[i];
            }
            qll_fast_gap(&s->fast);
            from = i;
        }
    }
    take_stretch(s, at_ms, values, from, count);
    s->last_ms = count > 0 ? at_ms[count - 1] : s->last_ms;
}

static qll_pressure_stretch whole_of(const qll_pressure_state *s)
{
    qll_pressure_stretch whole = {.from_unix_s = (double)s->first_ms / 1000.0,
                                  .to_unix_s =
                                      (double)(s->last_ms + s->facts.interval_ms) / 1000.0};
    const size_t used = (size_t)((s->last_ms - s->first_ms) / s->whole_width_ms) + 1;
    const size_t step = used > QLL_STRETCH_POINTS ? 2 : 1;
    for (size_t k = 0; k < used; k += step) {
        double *const to[3] = {whole.inlet_pa, whole.outlet_pa, whole.flow_m3s};
        for (size_t c = 0; c < 3; c++) {
            const bool has_second = step == 2 && k + 1 < used;
            const double sum = s->whole_sum[c][k] + (has_second ? s->whole_sum[c][k + 1] : 0.0);
            const double n = (double)s->whole_count[c][k]
                             + (has_second ? (double)s->whole_count[c][k + 1] : 0.0);
            to[c][whole.count] = n > 0.0 ? sum / n : (double)NAN;
        }
        whole.count += 1;
    }
    return whole;
}

bool qll_pressure_judge(qll_pressure_state *s, const qll_pressure_expect *expect, qll_arena *arena,
                        qll_pressure_result *result)
{
    if (s->middle.room > 0) {
        close_bin(s, &s->middle);
        look_at_middle(s, true);
    }
    close_bin(s, &s->slow);
    look_at_block(s, &s->known, true);
    for (size_t p = 0; p < 2; p++) {
        end_same(&s->constancy[p], s->last_ms);
    }
    qll_rainflow_end(&s->rainflow);
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        result->has[c] = s->facts.has[c];
    }
    memcpy(result->gaps, s->gaps, sizeof s->gaps);
    result->gap_count = s->gap_count;
    result->gap_total = s->gap_total;
    result->gap_s = s->gap_s;
    result->overview = whole_of(s);
    return qll_pressure_findings(s, expect, arena, result);
}
