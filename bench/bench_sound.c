/* How fast a recording is listened to, and how often rightly: the confusion, Brier score and calibration of docs/theory/sound.md,
 * by recordings of seeds that were never used for tuning. bench_sound 30 60000: recordings of each kind, first seed. */
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
#define QLL_ALARMS  4 /* the first kinds */

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

static void judge(const qll_sound_stretch *stretch, recording_kind truth, tally *tally,
                  calibration *calibration)
{
    const bool is_right = (int)stretch->kind == (int)truth;
    for (int kind = 0; kind < QLL_SOUND_KIND_COUNT; kind++) {
        const double off = stretch->scores[kind] - (kind == (int)truth ? 1.0 : 0.0);
        tally->brier += off * off;
    }
    tally->found[truth][stretch->kind] += 1;
    tally->count += 1;
    tally->right += is_right;
    const int bin = (int)fmin(QLL_BINS - 1, stretch->scores[stretch->kind] * QLL_BINS);
    calibration->count[bin] += 1;
    calibration->right[bin] += is_right;
    calibration->sum[bin] += stretch->scores[stretch->kind];
}

static void print_tally(const tally *tally)
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
            printf("%9d", tally->found[truth][kind]);
            all += tally->found[truth][kind];
            alarms += truth >= QLL_ALARMS && kind < QLL_ALARMS ? tally->found[truth][kind] : 0;
        }
        healthy += truth >= QLL_ALARMS ? all : 0;
        printf("%9.3f\n", (double)tally->found[truth][truth] / all);
    }
    printf("all %.3f, Brier %.3f, alarms on rush, none and other %.3f\n\n",
           (double)tally->right / tally->count, tally->brier / tally->count,
           (double)alarms / healthy);
}

static void print_calibration(const calibration *calibration)
{
    printf("confidence, said, right, recordings\n");
    for (int bin = 0; bin < QLL_BINS; bin++) {
        const int count = calibration->count[bin];
        if (count > 0) {
            printf("%.1f to %.1f, %.2f, %.2f, %d\n", 0.1 * bin, 0.1 * (bin + 1),
                   calibration->sum[bin] / count, (double)calibration->right[bin] / count, count);
        }
    }
    printf("\n");
}

static void judge_one(recording one, recording_kind kind, tally *tally, calibration *calibration,
                      qll_arena *arena)
{
    qll_sound_result result;
    if (!listen(&one, arena, &result)) {
        exit(1);
    }
    judge(&result.stretches[0], kind, tally, calibration);
}

static void bench_rules(const char *name, maker *make, int each, uint64_t seed)
{
    calibration calibration = {0};
    for (int hard = 0; hard <= 1; hard++) {
        tally tally = {0};
        for (int i = 0; i < each * QLL_RECORDING_COUNT; i++) {
            qll_arena *arena = qll_arena_open((size_t)512 << 20);
            const recording_kind kind = (recording_kind)(i / each);
            judge_one(make(kind, hard == 1, seed + (uint64_t)(i % each), arena), kind, &tally,
                      &calibration, arena);
            qll_arena_close(arena);
        }
        printf("%s, %s, %d each\n", name, hard == 1 ? "hard" : "in range", each);
        print_tally(&tally);
    }
    print_calibration(&calibration);
}

int main(int count, char **arguments)
{
    const int each = count > 1 ? (int)strtol(arguments[1], NULL, 10) : 5;
    const uint64_t seed = count > 2 ? strtoull(arguments[2], NULL, 10) : 60000;
    bench_speed();
    bench_rules("first generator", recording_make, each, seed);
    bench_rules("second generator", recording_make_other, each, seed);
    return 0;
}
