#include "search/picks.h"

#include <math.h>

static bool is_same(const qll_front_member *a, const qll_front_member *b)
{
    return a == b || qll_arrangement_compare(&a->arrangement, &b->arrangement) == 0;
}

void qll_pick(qll_picks *picked, const qll_front_member *member)
{
    if (member == NULL || picked->count == QLL_DESIGN_KEPT) {
        return;
    }
    for (size_t i = 0; i < picked->count; i++) {
        if (is_same(picked->members[i], member)) {
            return;
        }
    }
    picked->members[picked->count] = member;
    picked->count += 1;
}

enum {
    QLL_AXES = 4
};

static double axis_value(const qll_front_member *member, size_t axis)
{
    const qll_objectives *objectives = &member->objectives;
    const double values[QLL_AXES] = {objectives->noise, objectives->price, objectives->unsteady,
                                     objectives->wear};
    return values[axis];
}

/* The range of each objective over the front. */
typedef struct ranges {
    double least[QLL_AXES], most[QLL_AXES];
} ranges;

static ranges ranges_of(const qll_front *front)
{
    ranges made = {0};
    for (size_t axis = 0; axis < QLL_AXES; axis++) {
        made.least[axis] = INFINITY;
        made.most[axis] = -INFINITY;
        for (size_t i = 0; i < front->count; i++) {
            made.least[axis] = fmin(made.least[axis], axis_value(front->members[i], axis));
            made.most[axis] = fmax(made.most[axis], axis_value(front->members[i], axis));
        }
    }
    return made;
}

/* Distance between two members when each objective runs from 0 to 1 over the front. */
static double distance(const qll_front_member *a, const qll_front_member *b, const ranges *over)
{
    double sum = 0.0;
    for (size_t axis = 0; axis < QLL_AXES; axis++) {
        double span = over->most[axis] - over->least[axis];
        double step = span > 0.0 ? (axis_value(a, axis) - axis_value(b, axis)) / span : 0.0;
        sum += step * step;
    }
    return sqrt(sum);
}

/* The member farthest from all picked ones; NULL if all are picked. The front is sorted and a later
 * one must be clearly farther, so that the last bit does not decide. */
static const qll_front_member *farthest(const qll_front *front, const qll_picks *picked,
                                        const ranges *over)
{
    const qll_front_member *found = NULL;
    double greatest = 1e-9;
    for (size_t i = 0; i < front->count; i++) {
        double nearest = INFINITY;
        for (size_t k = 0; k < picked->count; k++) {
            nearest = fmin(nearest, distance(front->members[i], picked->members[k], over));
        }
        if (nearest > greatest * (1.0 + 1e-6)) {
            greatest = nearest;
            found = front->members[i];
        }
    }
    return found;
}

void qll_pick_representatives(const qll_front *front, qll_picks *picked)
{
    for (size_t axis = 0; axis < QLL_AXES; axis++) {
        const qll_front_member *least = NULL;
        for (size_t i = 0; i < front->count; i++) {
            const qll_front_member *member = front->members[i];
            double value = axis_value(member, axis);
            if (least == NULL
                || value < axis_value(least, axis) - 1e-9 * fabs(axis_value(least, axis))) {
                least = member;
            }
        }
        qll_pick(picked, least);
    }
    if (front->count > 0) {
        qll_pick(picked, front->members[0]); /* fewest valves */
    }
    const ranges over = ranges_of(front);
    while (picked->count < QLL_DESIGN_KEPT) {
        const qll_front_member *next = farthest(front, picked, &over);
        if (next == NULL) {
            break;
        }
        qll_pick(picked, next);
    }
}
