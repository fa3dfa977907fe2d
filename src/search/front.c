#include "search/front.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Two values closer than this are the same: sums in another order, or the same point found by
 * another way, differ in their last bits (our choice). */
#define QLL_TIE_SHARE       1e-9
/* Nothing below these is a difference: noise and wear are of order 1, the outlet pressure of a
 * point is found to far better than a pascal. */
#define QLL_TIE_LEAST       1e-12
#define QLL_TIE_UNSTEADY_PA 1e-3

/* Of some thousand members the one that beats nearly always stands among so many first (measured:
 * bench/bench_search.c). */
#define QLL_SOON_COUNT 64

/* -1 if a is clearly less, 1 if it is clearly more, else 0. */
static int compare_within(double a, double b, double least)
{
    double tie = fmax(least, QLL_TIE_SHARE * fmax(fabs(a), fabs(b)));
    if (a < b - tie) {
        return -1;
    }
    return a > b + tie ? 1 : 0;
}

typedef struct comparison {
    bool any_less, any_more;
} comparison;

static comparison compare_all(const qll_objectives *a, const qll_objectives *b)
{
    const int signs[] = {compare_within(a->price, b->price, QLL_TIE_LEAST),
                         compare_within(a->noise, b->noise, QLL_TIE_LEAST),
                         compare_within(a->unsteady, b->unsteady, QLL_TIE_UNSTEADY_PA),
                         compare_within(a->wear, b->wear, QLL_TIE_LEAST)};
    comparison result = {false, false};
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++) {
        result.any_less = result.any_less || signs[i] < 0;
        result.any_more = result.any_more || signs[i] > 0;
    }
    return result;
}

bool qll_objectives_beat(const qll_objectives *a, const qll_objectives *b)
{
    comparison result = compare_all(a, b);
    return result.any_less && !result.any_more;
}

static int compare_size(size_t a, size_t b)
{
    return (a > b) - (a < b);
}

static int compare_stage(const qll_stage_choice *a, const qll_stage_choice *b)
{
    int order = compare_size(a->branch_count, b->branch_count);
    for (size_t i = 0; i < a->branch_count && order == 0; i++) {
        order = strcmp(a->branches[i].valve->id, b->branches[i].valve->id);
    }
    for (size_t i = 0; i < a->branch_count && order == 0; i++) {
        double a_set = a->branches[i].set_pa_gauge;
        double b_set = b->branches[i].set_pa_gauge;
        /* The higher set-point first: it is the one nearer to what is wanted. */
        order = (a_set < b_set) - (a_set > b_set);
    }
    return order;
}

int qll_arrangement_compare(const qll_arrangement *a, const qll_arrangement *b)
{
    int order = compare_size(a->stage_count, b->stage_count);
    for (size_t i = 0; i < a->stage_count && order == 0; i++) {
        order = compare_stage(&a->stages[i], &b->stages[i]);
    }
    return order;
}

size_t qll_arrangement_parts(const qll_arrangement *arrangement)
{
    size_t parts = 0;
    for (size_t i = 0; i < arrangement->stage_count; i++) {
        parts += arrangement->stages[i].branch_count;
    }
    return parts;
}

bool qll_arrangement_station(const qll_arrangement *arrangement, qll_arena *arena,
                             qll_station *station)
{
    qll_stage *stages = qll_arena_take(arena, arrangement->stage_count, sizeof *stages);
    if (stages == NULL) {
        return false;
    }
    for (size_t i = 0; i < arrangement->stage_count; i++) {
        const qll_stage_choice *choice = &arrangement->stages[i];
        qll_branch *branches = qll_arena_take(arena, choice->branch_count, sizeof *branches);
        if (branches == NULL) {
            return false;
        }
        memcpy(branches, choice->branches, choice->branch_count * sizeof *branches);
        stages[i] = qll_stage_choice_view(choice);
        stages[i].branches = branches;
    }
    *station = (qll_station){.stages = stages, .stage_count = arrangement->stage_count};
    return true;
}

/* What is not more than this in everything may beat @p objectives; almost nothing is. */
static qll_objectives loosened(const qll_objectives *objectives)
{
    const double share = 1.0 + 2.0 * QLL_TIE_SHARE;
    return (qll_objectives){.noise = objectives->noise * share + QLL_TIE_LEAST,
                            .unsteady = objectives->unsteady * share + QLL_TIE_UNSTEADY_PA,
                            .wear = objectives->wear * share + QLL_TIE_LEAST,
                            .price = objectives->price * share + QLL_TIE_LEAST};
}

/* What is not less than this in everything may be beaten by @p objectives: that is not more than such
 * a thing loosened. */
static qll_objectives tightened(const qll_objectives *objectives)
{
    const double share = 1.0 - 2.0 * QLL_TIE_SHARE;
    return (qll_objectives){.noise = objectives->noise * share - QLL_TIE_LEAST,
                            .unsteady = objectives->unsteady * share - QLL_TIE_UNSTEADY_PA,
                            .wear = objectives->wear * share - QLL_TIE_LEAST,
                            .price = objectives->price * share - QLL_TIE_LEAST};
}

/* A value rounded down to 15 bits: steps of 1/1024 of a power of two, from 2^-10 to 2^22. It never falls
 * as the value rises; what is below, or no number, is 0. */
static uint64_t coarse_of(double value)
{
    if (!(value > 0x1p-10)) {
        return 0;
    }
    if (value >= 0x1p22) {
        return 0x7fff;
    }
    uint64_t bits;
    memcpy(&bits, &value, sizeof bits);
    return (bits >> 42) - ((uint64_t)(1023 - 10) << 10);
}

/* One bit above each of the four. */
#define QLL_COARSE_GUARDS 0x8000800080008000u

static uint64_t coarse_objectives(const qll_objectives *of)
{
    return coarse_of(of->price) | coarse_of(of->noise) << 16 | coarse_of(of->unsteady) << 32
           | coarse_of(of->wear) << 48;
}

/* False only if some value of @p a is above that of @p most: then its guard is borrowed. */
static inline bool may_be_within(uint64_t a, uint64_t most)
{
    return (((most | QLL_COARSE_GUARDS) - a) & QLL_COARSE_GUARDS) == QLL_COARSE_GUARDS;
}

static inline double lesser(double a, double b)
{
    return a < b ? a : b;
}

/* Without branches: which of the four fails first cannot be foretold. */
static inline bool is_within(const qll_objectives *a, const qll_objectives *most)
{
    const double left = lesser(most->price - a->price, most->noise - a->noise);
    const double more = lesser(most->unsteady - a->unsteady, most->wear - a->wear);
    return lesser(left, more) >= 0.0;
}

static void swap(qll_front *front, size_t a, size_t b)
{
    if (a == b) {
        return;
    }
    qll_front_member *member = front->members[a];
    front->members[a] = front->members[b];
    front->members[b] = member;
    qll_objectives objectives = front->objectives[a];
    front->objectives[a] = front->objectives[b];
    front->objectives[b] = objectives;
    uint64_t coarse = front->coarse[a];
    front->coarse[a] = front->coarse[b];
    front->coarse[b] = coarse;
}

static bool some_beat(qll_front *front, const qll_objectives *objectives, size_t count)
{
    const qll_objectives most = loosened(objectives);
    const uint64_t coarse = coarse_objectives(&most);
    for (size_t i = 0; i < count; i++) {
        if (may_be_within(front->coarse[i], coarse) && is_within(&front->objectives[i], &most)
            && qll_objectives_beat(&front->objectives[i], objectives)) {
            swap(front, i, i / 2);
            return true;
        }
    }
    return false;
}

bool qll_front_beats(qll_front *front, const qll_objectives *objectives)
{
    return some_beat(front, objectives, front->count);
}

bool qll_front_beats_soon(qll_front *front, const qll_objectives *objectives)
{
    return some_beat(front, objectives,
                     front->count < QLL_SOON_COUNT ? front->count : QLL_SOON_COUNT);
}

static bool is_preferred(const qll_front_member *a, const qll_front_member *b)
{
    if (a->part_count != b->part_count) {
        return a->part_count < b->part_count;
    }
    return qll_arrangement_compare(&a->arrangement, &b->arrangement) < 0;
}

static bool supersedes(const qll_front_member *a, const qll_front_member *b)
{
    comparison result = compare_all(&a->objectives, &b->objectives);
    return !result.any_more && (result.any_less || is_preferred(a, b));
}

qll_status qll_front_reserve(qll_front *front, size_t more, qll_arena *arena)
{
    if (front->room - front->count >= more) {
        return QLL_OK;
    }
    size_t added = more > front->room ? more : front->room;
    /* NOLINTNEXTLINE(bugprone-sizeof-expression): pointers are meant */
    qll_front_member **members = qll_arena_take(arena, front->room + added, sizeof *members);
    qll_objectives *objectives = qll_arena_take(arena, front->room + added, sizeof *objectives);
    uint64_t *coarse = qll_arena_take(arena, front->room + added, sizeof *coarse);
    qll_front_member *spare = qll_arena_take(arena, added, sizeof *spare);
    if (members == NULL || objectives == NULL || coarse == NULL || spare == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < front->room; i++) {
        members[i] = front->members[i];
        objectives[i] = front->objectives[i];
        coarse[i] = front->coarse[i];
    }
    for (size_t i = 0; i < added; i++) {
        members[front->room + i] = &spare[i];
    }
    front->members = members;
    front->objectives = objectives;
    front->coarse = coarse;
    front->room += added;
    return QLL_OK;
}

void qll_front_add(qll_front *front, const qll_front_member *member)
{
    const qll_objectives most = loosened(&member->objectives);
    const qll_objectives least = tightened(&member->objectives);
    const uint64_t coarse_most = coarse_objectives(&most);
    const uint64_t coarse_least = coarse_objectives(&least);
    bool some_leave = false;
    for (size_t i = 0; i < front->count; i++) {
        if (may_be_within(front->coarse[i], coarse_most) && is_within(&front->objectives[i], &most)
            && supersedes(front->members[i], member)) {
            swap(front, i, i / 2); /* as in some_beat(): what supersedes one does others */
            return;
        }
        some_leave = some_leave || may_be_within(coarse_least, front->coarse[i]);
    }
    size_t kept = front->count;
    for (size_t i = 0; some_leave && i < kept;) {
        if (may_be_within(coarse_least, front->coarse[i])
            && is_within(&least, &front->objectives[i]) && supersedes(member, front->members[i])) {
            kept -= 1;
            swap(front, i, kept); /* the newest come forward: what is tried next is like them */
        } else {
            i += 1;
        }
    }
    assert(kept < front->room);
    *front->members[kept] = *member;
    front->objectives[kept] = member->objectives;
    front->coarse[kept] = coarse_objectives(&member->objectives);
    front->count = kept + 1;
}

static int compare_members(const void *left, const void *right)
{
    const qll_front_member *a = *(qll_front_member *const *)left;
    const qll_front_member *b = *(qll_front_member *const *)right;
    int order = compare_size(a->part_count, b->part_count);
    if (order == 0) {
        order = (a->objectives.price > b->objectives.price)
                - (a->objectives.price < b->objectives.price);
    }
    return order == 0 ? qll_arrangement_compare(&a->arrangement, &b->arrangement) : order;
}

void qll_front_sort(qll_front *front)
{
    if (front->count < 2) {
        return;
    }
    /* NOLINTNEXTLINE(bugprone-sizeof-expression): pointers are meant */
    qsort(front->members, front->count, sizeof *front->members, compare_members);
    for (size_t i = 0; i < front->count; i++) {
        front->objectives[i] = front->members[i]->objectives;
        front->coarse[i] = coarse_objectives(&front->objectives[i]);
    }
}
