#include "numeric/rainflow.h"

#include <math.h>
#include <string.h>

void qll_rainflow_begin(qll_rainflow *r, qll_rainflow_sink *sink, void *context)
{
    r->count = 0;
    r->started = r->has_last = r->rises = false;
    r->last = 0.0;
    r->sink = sink;
    r->context = context;
}

static void drop(qll_rainflow *r, size_t at, size_t count)
{
    memmove(r->turns + at, r->turns + at + count, (r->count - at - count) * sizeof *r->turns);
    r->count -= count;
}

/* With the points S (start), A, B, C at the end of the list: X = |C - B|, Y = |B - A|. */
static void close_cycles(qll_rainflow *r)
{
    while (r->count >= 3) {
        const double *end = r->turns + r->count;
        const double x = fabs(end[-1] - end[-2]);
        const double y = fabs(end[-2] - end[-3]);
        if (x < y) {
            return;
        }
        if (r->count == 3) { /* Y holds the start: half a cycle, and the start moves on */
            r->sink(r->context, y, 0.5);
            drop(r, 0, 1);
        } else {
            r->sink(r->context, y, 1.0);
            drop(r, r->count - 3, 2);
        }
    }
}

static void take_turn(qll_rainflow *r, double value)
{
    if (r->count == QLL_RAINFLOW_ROOM) {
        r->sink(r->context, fabs(r->turns[1] - r->turns[0]), 0.5);
        drop(r, 0, 1);
    }
    r->turns[r->count] = value;
    r->count += 1;
    close_cycles(r);
}

void qll_rainflow_add(qll_rainflow *r, double value)
{
    if (!r->started) {
        r->started = true;
        take_turn(r, value);
        return;
    }
    const double before = r->has_last ? r->last : r->turns[r->count - 1];
    if (value == before) {
        return;
    }
    const bool rises = value > before;
    if (r->has_last && rises != r->rises) {
        take_turn(r, r->last);
    }
    r->last = value;
    r->has_last = true;
    r->rises = rises;
}

void qll_rainflow_end(qll_rainflow *r)
{
    if (r->has_last) {
        take_turn(r, r->last);
        r->has_last = false;
    }
    for (size_t i = 0; i + 1 < r->count; i++) {
        r->sink(r->context, fabs(r->turns[i + 1] - r->turns[i]), 0.5);
    }
    r->count = 0;
    r->started = false;
}
