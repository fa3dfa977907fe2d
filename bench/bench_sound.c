/* How fast a recording is listened to, and how often rightly: the confusion, Brier score and calibration of docs/theory/sound.md,
 * by recordings of seeds that were never used for tuning. bench_sound 30 60000: recordings of each kind, first seed; a third
 * number: by that generator alone. */
#include "signals/sound.h"
#include "sound/recordings.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define QLL_TIMES   5
#define QLL_BENCH_S 60
#define QLL_BINS    10
#define QLL_ALARMS  4                 /* the first kinds */
#define QLL_SIGMAS  1.959963984540054 /* of 95 % */

static double seconds(void)
{
    return (double)clock() / CLOCKS_PER_SEC;
}

static bool listen(const recording *recorded, qll_arena *arena, qll_sound_result *result)
{
    qll_sound *sound = NULL;
    return qll_sound_open(recorded->rate_hz, 1, NULL, arena, &sound) == QLL_OK
           && qll_sound_take(sound, recorded->samples, recorded->count) == QLL_OK
           && qll_sound_finish(sound, result) == QLL_OK;
}

/* The same ten seconds again and again. */
static void bench_speed(void)
{
    qll_arena *arena = qll_arena_open((size_t)512 << 20);
    const recording ten = recording_make(QLL_RECORDING_RUSH, false, 1, arena);
    recording minute = {ten.rate_hz, ten.count * QLL_BENCH_S / QLL_RECORDING_SECONDS, NULL};
    minute.samples = qll_arena_take(arena, minute.count, sizeof *minute.samples);
    for (size_t j = 0; j < minute.count; j++) {
        minute.samples[j] = ten.samples[j % ten.count];
    }
    double least = INFINITY;
    for (int i = 0; i < QLL_TIMES; i++) {
        const qll_arena_mark mark = qll_arena_now(arena);
        qll_sound_result result;
        const double start = seconds();
        if (!listen(&minute, arena, &result)) {
            exit(1);
        }
        least = fmin(least, seconds() - start);
        qll_arena_reset(arena, mark);
    }
    printf("%d s at %.0f Hz: %.1f ms, %.0f times real time\n\n", QLL_BENCH_S, minute.rate_hz,
           1e3 * least, QLL_BENCH_S / least);
    qll_arena_close(arena);
}

typedef recording maker(recording_kind kind, bool is_hard, uint64_t seed, qll_arena *arena);

typedef struct tally {
    int found[QLL_RECORDING_COUNT][QLL_SOUND_KIND_COUNT];
    double brier;
    int count, right;
} tally;

typedef struct calibration {
    int count[QLL_BINS], right[QLL_BINS];
    double sum[QLL_BINS];
} calibration;

/* Wilson's interval of a share (J. Am. Stat. Assoc. 22 (1927) 209, from memory). */
static void print_share(const char *what, int count, int of)
{
    const double z2 = QLL_SIGMAS * QLL_SIGMAS, share = (double)count / of;
    const double middle = (share + 0.5 * z2 / of) / (1.0 + z2 / of);
    const double half =
        QLL_SIGMAS * sqrt(share * (1.0 - share) / of + 0.25 * z2 / of / of) / (1.0 + z2 / of);
    printf("%s%.3f (%.3f to %.3f)", what, share, middle - half, middle + half);
}

static void judge(const qll_sound_stretch *stretch, recording_kind truth, tally *counts,
                  calibration *curve)
{
    const bool is_right = (int)stretch->kind == (int)truth;
    for (int kind = 0; kind < QLL_SOUND_KIND_COUNT; kind++) {
        const double off = stretch->scores[kind] - (kind == (int)truth ? 1.0 : 0.0);
        counts->brier += off * off;
    }
    counts->found[truth][stretch->kind] += 1;
    counts->count += 1;
    counts->right += is_right;
    const int bin = (int)fmin(QLL_BINS - 1, stretch->scores[stretch->kind] * QLL_BINS);
    curve->count[bin] += 1;
    curve->right[bin] += is_right;
    curve->sum[bin] += stretch->scores[stretch->kind];
}

static void print_tally(const tally *counts)
{
    printf("%-9s", "true");
    for (int kind = 0; kind < QLL_SOUND_KIND_COUNT; kind++) {
        printf("%9s", qll_sound_kind_word((qll_sound_kind)kind));
    }
    printf("   recall\n");
    int healthy = 0, alarms = 0;
    for (int truth = 0; truth < QLL_RECORDING_COUNT; truth++) {
        printf("%-9s", recording_words[truth]);
        int all = 0;
        for (int kind = 0; kind < QLL_SOUND_KIND_COUNT; kind++) {
            printf("%9d", counts->found[truth][kind]);
            all += counts->found[truth][kind];
            alarms += truth >= QLL_ALARMS && kind < QLL_ALARMS ? counts->found[truth][kind] : 0;
        }
        healthy += truth >= QLL_ALARMS ? all : 0;
        print_share("   ", counts->found[truth][truth], all);
        printf("\n");
    }
    print_share("all ", counts->right, counts->count);
    print_share(", alarms on rush, none and other ", alarms, healthy);
    printf(", Brier %.3f\n\n", counts->brier / counts->count);
}

static void print_calibration(const calibration *curve)
{
    printf("confidence, said, right, recordings\n");
    for (int bin = 0; bin < QLL_BINS; bin++) {
        const int count = curve->count[bin];
        if (count > 0) {
            printf("%.1f to %.1f, %.2f, %.2f, %d\n", 0.1 * bin, 0.1 * (bin + 1),
                   curve->sum[bin] / count, (double)curve->right[bin] / count, count);
        }
    }
    printf("\n");
}

static void judge_one(recording one, recording_kind kind, tally *counts, calibration *curve,
                      qll_arena *arena)
{
    qll_sound_result result;
    if (!listen(&one, arena, &result)) {
        exit(1);
    }
    judge(&result.stretches[0], kind, counts, curve);
}

static void bench_rules(const char *name, maker *make, int each, uint64_t seed)
{
    calibration curve = {0};
    for (int hard = 0; hard <= 1; hard++) {
        tally counts = {0};
        for (int i = 0; i < each * QLL_RECORDING_COUNT; i++) {
            qll_arena *arena = qll_arena_open((size_t)512 << 20);
            const recording_kind kind = (recording_kind)(i / each);
            judge_one(make(kind, hard == 1, seed + (uint64_t)(i % each), arena), kind, &counts,
                      &curve, arena);
            qll_arena_close(arena);
        }
        printf("%s, %s, %d each\n", name, hard == 1 ? "hard" : "in range", each);
        print_tally(&counts);
    }
    print_calibration(&curve);
}

int main(int count, char **arguments)
{
    const int each = count > 1 ? (int)strtol(arguments[1], NULL, 10) : 5;
    const uint64_t seed = count > 2 ? strtoull(arguments[2], NULL, 10) : 60000;
    const long only = count > 3 ? strtol(arguments[3], NULL, 10) : 0;

    static const struct {
        const char *name;
        maker *make;
    } generators[] = {
        {"first generator", recording_make},           {"second generator", recording_make_other},
        {"third generator", recording_make_simulated}, {"fourth generator", recording_make_summed},
        {"fifth generator", recording_make_driven},    {"sixth generator", recording_make_solved}};

    bench_speed();
    for (long i = 0; i < (long)(sizeof generators / sizeof generators[0]); i++) {
        if (only == 0 || only == i + 1) {
            bench_rules(generators[i].name, generators[i].make, each, seed);
        }
    }
    return 0;
}
