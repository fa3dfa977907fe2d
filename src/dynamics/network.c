#include "dynamics/network.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>

/* What nobody builds (our assumption); beyond it the arithmetic would be the trouble. */
static const double length_most_m = 1e4;
static const double bore_most_m = 10;
static const double wave_speed_least_m_s = 10;
static const double wave_speed_most_m_s = 2000;

static const size_t nobody = SIZE_MAX;

/* ---- loops ---- */

static size_t root_of(size_t *above, size_t joint)
{
    while (above[joint] != joint) {
        above[joint] = above[above[joint]];
        joint = above[joint];
    }
    return joint;
}

/* Joins two sets of joints; false where they are one already. */
static bool unite(size_t *above, size_t a, size_t b)
{
    const size_t one = root_of(above, a);
    const size_t other = root_of(above, b);
    above[one] = other;
    return one != other;
}

static bool is_between(const qll_boundary *boundary, size_t a, size_t b)
{
    return boundary->kind->port_count == 2
           && ((boundary->node[0] == a && boundary->node[1] == b)
               || (boundary->node[0] == b && boundary->node[1] == a));
}

static bool has_twin_before(const qll_network *network, size_t index)
{
    const qll_boundary *own = &network->boundaries[index];
    for (size_t i = 0; i < index; i++) {
        if (is_between(&network->boundaries[i], own->node[0], own->node[1])) {
            return true;
        }
    }
    return false;
}

static bool refuse(qll_problems *problems, const char *list, size_t index, qll_code code,
                   const qll_said *says)
{
    qll_writer path = qll_writer_new(problems->arena);
    qll_write_format(&path, "%s[%zu]", list, index);
    return qll_problems_add(
        problems, (qll_fault){.code = code,
                              .place = {.source = "", .path = qll_writer_text(&path).bytes},
                              .says = says});
}

static bool check_loops(const qll_network *network, qll_problems *problems)
{
    size_t *above = qll_arena_take(problems->arena, network->joint_count + 1, sizeof *above);
    if (above == NULL) {
        return false;
    }
    for (size_t j = 0; j < network->joint_count; j++) {
        above[j] = j;
    }
    bool good = true;
    for (size_t i = 0; i < network->line_count; i++) {
        if (!unite(above, network->lines[i].from, network->lines[i].to)) {
            good = refuse(problems, "pipes", i, QLL_CODE_CONTRADICTION, QLL_SAYS(PIPES_IN_A_LOOP));
        }
    }
    for (size_t i = 0; i < network->boundary_count; i++) {
        const qll_boundary *boundary = &network->boundaries[i];
        if (boundary->kind->port_count == 2 && !has_twin_before(network, i)
            && !unite(above, boundary->node[0], boundary->node[1])) {
            good = refuse(problems, "boundaries", i, QLL_CODE_CONTRADICTION,
                          QLL_SAYS(PIPES_IN_A_LOOP));
        }
    }
    return good;
}

/* ---- single pipes ---- */

static bool is_within(double value, double least, double most)
{
    return value > least && value <= most;
}

static bool check_line(const qll_line *line, size_t index, qll_problems *problems)
{
    if (!is_within(line->length_m, 0, length_most_m)) {
        return refuse(problems, "pipes", index, QLL_CODE_OUT_OF_RANGE,
                      QLL_SAYS_WITH(PIPE_LENGTH, qll_as_quantity(line->length_m, QLL_KIND_LENGTH),
                                    qll_as_quantity(length_most_m, QLL_KIND_LENGTH)));
    }
    if (!is_within(line->bore_m, 0, bore_most_m)) {
        return refuse(problems, "pipes", index, QLL_CODE_OUT_OF_RANGE,
                      QLL_SAYS_WITH(PIPE_BORE, qll_as_quantity(line->bore_m, QLL_KIND_LENGTH),
                                    qll_as_quantity(bore_most_m, QLL_KIND_LENGTH)));
    }
    if (!is_within(line->wave_speed_m_s, wave_speed_least_m_s, wave_speed_most_m_s)) {
        return refuse(problems, "pipes", index, QLL_CODE_OUT_OF_RANGE,
                      QLL_SAYS_WITH(PIPE_WAVE_SPEED,
                                    qll_as_quantity(line->wave_speed_m_s, QLL_KIND_SPEED_OF_SOUND),
                                    qll_as_quantity(wave_speed_least_m_s, QLL_KIND_SPEED_OF_SOUND),
                                    qll_as_quantity(wave_speed_most_m_s, QLL_KIND_SPEED_OF_SOUND)));
    }
    assert(line->friction.linear_pa_s_m3 >= 0 && line->friction.square_pa_s2_m6 >= 0);
    return true;
}

bool qll_network_check(const qll_network *network, qll_problems *problems)
{
    assert(network != NULL && problems != NULL && network->line_count > 0);
    bool good = true;
    for (size_t i = 0; i < network->line_count; i++) {
        assert(network->lines[i].from < network->joint_count
               && network->lines[i].to < network->joint_count);
        good = check_line(&network->lines[i], i, problems) && good;
    }
    return check_loops(network, problems) && good;
}

/* ---- the longest way ---- */

/* Ways from joint to joint, both directions; those that leave a joint are a chain. */
typedef struct way {
    size_t to, next;
    double takes_s;
} way;

typedef struct ways {
    way *all;
    size_t count;
    size_t *first; /* by joint */
    size_t *queue;
    double *at_s; /* NaN = not reached */
} ways;

static void add_way(ways *w, size_t from, size_t to, double takes_s)
{
    w->all[w->count] = (way){.to = to, .next = w->first[from], .takes_s = takes_s};
    w->first[from] = w->count++;
}

/* The joint reached last from @p start, and when. */
static size_t farthest(ways *w, size_t joint_count, size_t start, double *longest_s)
{
    for (size_t j = 0; j < joint_count; j++) {
        w->at_s[j] = (double)NAN;
    }
    size_t count = 0;
    w->queue[count++] = start;
    w->at_s[start] = 0;
    size_t last = start;
    for (size_t i = 0; i < count; i++) {
        const size_t joint = w->queue[i];
        last = w->at_s[joint] > w->at_s[last] ? joint : last;
        for (size_t k = w->first[joint]; k != nobody; k = w->all[k].next) {
            if (isnan(w->at_s[w->all[k].to])) {
                w->at_s[w->all[k].to] = w->at_s[joint] + w->all[k].takes_s;
                w->queue[count++] = w->all[k].to;
            }
        }
    }
    *longest_s = w->at_s[last];
    return last;
}

static bool list_ways(const qll_network *network, qll_arena *arena, ways *w)
{
    const size_t joints = network->joint_count;
    const size_t most = 2 * (network->line_count + network->boundary_count);
    *w = (ways){.all = qll_arena_take(arena, most + 1, sizeof *w->all),
                .first = qll_arena_take(arena, joints + 1, sizeof *w->first),
                .queue = qll_arena_take(arena, joints + 1, sizeof *w->queue),
                .at_s = qll_arena_take(arena, joints + 1, sizeof *w->at_s)};
    if (w->all == NULL || w->first == NULL || w->queue == NULL || w->at_s == NULL) {
        return false;
    }
    for (size_t j = 0; j < joints; j++) {
        w->first[j] = nobody;
    }
    for (size_t i = 0; i < network->line_count; i++) {
        const qll_line *line = &network->lines[i];
        add_way(w, line->from, line->to, line->length_m / line->wave_speed_m_s);
        add_way(w, line->to, line->from, line->length_m / line->wave_speed_m_s);
    }
    for (size_t i = 0; i < network->boundary_count; i++) {
        const qll_boundary *boundary = &network->boundaries[i];
        if (boundary->kind->port_count == 2) {
            add_way(w, boundary->node[0], boundary->node[1], 0);
            add_way(w, boundary->node[1], boundary->node[0], 0);
        }
    }
    return true;
}

double qll_network_longest_s(const qll_network *network, qll_arena *arena)
{
    ways w;
    if (!list_ways(network, arena, &w)) {
        return NAN;
    }
    double longest_s = 0;
    for (size_t i = 0; i < network->line_count; i++) {
        const size_t start = network->lines[i].from;
        if (i > 0 && !isnan(w.at_s[start])) {
            continue; /* of a part that was measured last */
        }
        double one_way_s = 0;
        const size_t end = farthest(&w, network->joint_count, start, &one_way_s);
        farthest(&w, network->joint_count, end, &one_way_s);
        longest_s = fmax(longest_s, one_way_s);
    }
    return longest_s;
}
