/* What both files of the solved recordings share: noise that falls at any slope, masses on springs. */
#ifndef QUELL_TESTS_RECORDINGS_SOLVED_H
#define QUELL_TESTS_RECORDINGS_SOLVED_H

#include "sound/recordings_simulated.h"

/* One pole; what is left over is its high pass. */
typedef struct lag {
    double share, y;
} lag;

static inline lag lag_of(const stage *on, double hz)
{
    return (lag){.share = 1.0 - exp(-QLL_TWO_PI * hz / on->rate_hz)};
}

static inline double behind(lag *of, double x)
{
    of->y += of->share * (x - of->y);
    return of->y;
}

/* Noise whose density falls with a power of the frequency: poles and zeros by turns, as many of each a decade, so that the steps
 * between them make a slope. Twice, so that either one falls by less than a pole does. */
#define QLL_RUNGS 9

typedef struct ladder {
    double pole[QLL_RUNGS], zero[QLL_RUNGS];
    double x[2][QLL_RUNGS], y[2][QLL_RUNGS];
} ladder;

static inline ladder ladder_of(const stage *on, double power)
{
    ladder made = {.x = {{0}}};
    for (int i = 0; i < QLL_RUNGS; i++) { /* from 12 Hz on, two a decade and some */
        const double hz = 12.0 * pow(10.0, i / 2.6);
        made.pole[i] = exp(-QLL_TWO_PI * hz / on->rate_hz);
        made.zero[i] = exp(-QLL_TWO_PI * hz * pow(10.0, 0.25 * power / 2.6) / on->rate_hz);
    }
    return made;
}

static inline double fall(ladder *of, double x)
{
    for (int pass = 0; pass < 2; pass++) {
        for (int i = 0; i < QLL_RUNGS; i++) {
            const double gain = (1.0 - of->pole[i]) / (1.0 - of->zero[i]);
            const double y =
                gain * (x - of->zero[i] * of->x[pass][i]) + of->pole[i] * of->y[pass][i];
            of->x[pass][i] = x;
            of->y[pass][i] = x = y;
        }
    }
    return x;
}

/* Masses on springs, moved by a force a step at a time; what is heard is how fast they move. */
#define QLL_SPRINGS 7

typedef struct springs {
    double stiff[QLL_SPRINGS], loses[QLL_SPRINGS], height[QLL_SPRINGS];
    double x[QLL_SPRINGS], v[QLL_SPRINGS];
    int count;
} springs;

static inline void add_spring(const stage *on, springs *to, double hz, double loss, double height)
{
    const double turn = 2.0 * sin(0.5 * QLL_TWO_PI * hz / on->rate_hz);
    to->stiff[to->count] = turn * turn;
    to->loses[to->count] = loss * turn;
    to->height[to->count] = height;
    to->x[to->count] = to->v[to->count] = 0.0;
    to->count += 1;
}

static inline double move(springs *of, double force)
{
    double sum = 0.0;
    for (int i = 0; i < of->count; i++) {
        of->v[i] += force - of->stiff[i] * of->x[i] - of->loses[i] * of->v[i];
        of->x[i] += of->v[i];
        sum += of->height[i] * of->v[i];
    }
    return sum;
}

/* A room at rest; somebody talks, plucks or types; recordings_solved_room.c. */
void solve_none(stage *on);
void solve_other(stage *on);

/* Through the room and the phone, to @p samples. */
void solve_phone(stage *on, recording_kind kind, float *samples);

#endif
