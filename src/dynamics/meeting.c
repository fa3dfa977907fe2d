/* Newton's method on all nodes that boundaries join, node by node from the leaves of their tree to its
 * root and back: what is not in the tree is 0 and stays 0. Equation numbers: docs/theory/waves.md. */
#include "dynamics/meeting.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>
#include <stdint.h>

enum {
    QLL_ROUNDS_MOST = 100,
    QLL_TRIES_MOST = 30 /* along one direction */
};

static const size_t nobody = SIZE_MAX;
/* A pressure is found when a round moves it by less than this share of itself and an atmosphere. */
static const double exact_share = 1e-13;
static const double atmosphere_pa = 101325;
/* At rest a node cut off from every source would have no pressure at all; so little water leaks
 * towards the pressure it began with, m3/(s Pa). */
static const double rest_leak = 1e-18;

/* A tree of nodes that boundaries join. */
typedef struct group {
    size_t node_from, node_to;         /* in `order` */
    size_t boundary_from, boundary_to; /* in `sorted` */
} group;

/* The row of a node: slope times its own move + to_parent times the parent's = left; and what its own move does
 * in the parent's row. */
typedef struct row {
    double slope, to_parent, in_parent, left;
    double whole_slope, off; /* slope and what is left, before the children were taken out */
    double base_pa, move_pa, begun_pa;
    bool is_fixed;
} row;

struct qll_meeting {
    const qll_boundary *boundaries;
    size_t boundary_count, node_count;
    size_t *order;  /* nodes, group by group, parents first */
    size_t *parent; /* of each node; nobody for a root */
    size_t *sorted; /* boundaries, group by group */
    group *groups;
    size_t group_count;
    row *rows;
};

/* ---- the layout ---- */

/* For each node the boundaries with two ports at it, one list behind the other. */
typedef struct neighbours {
    size_t *from; /* by node; node_count + 1 of them */
    size_t *boundary;
} neighbours;

static bool joins(const qll_boundary *boundary)
{
    return boundary->kind->port_count == 2;
}

static bool list_neighbours(const qll_meeting *meeting, qll_arena *arena, neighbours *list)
{
    list->from = qll_arena_take(arena, meeting->node_count + 2, sizeof *list->from);
    list->boundary = qll_arena_take(arena, 2 * meeting->boundary_count + 1, sizeof *list->boundary);
    if (list->from == NULL || list->boundary == NULL) {
        return false;
    }
    for (size_t i = 0; i < meeting->boundary_count; i++) {
        for (size_t port = 0; joins(&meeting->boundaries[i]) && port < 2; port++) {
            list->from[meeting->boundaries[i].node[port] + 2] += 1;
        }
    }
    for (size_t n = 1; n < meeting->node_count + 2; n++) {
        list->from[n] += list->from[n - 1];
    }
    for (size_t i = 0; i < meeting->boundary_count; i++) {
        for (size_t port = 0; joins(&meeting->boundaries[i]) && port < 2; port++) {
            size_t *end = &list->from[meeting->boundaries[i].node[port] + 1];
            list->boundary[(*end)++] = i;
        }
    }
    return true;
}

static size_t other_end(const qll_boundary *boundary, size_t node)
{
    return boundary->node[0] == node ? boundary->node[1] : boundary->node[0];
}

/* Nodes reached from @p root, in order of distance; false where one is reached by two ways. */
static bool grow(qll_meeting *meeting, const neighbours *list, size_t root, size_t *count,
                 size_t *group_of, size_t number)
{
    size_t next = *count;
    meeting->order[(*count)++] = root;
    group_of[root] = number;
    meeting->parent[root] = nobody;
    for (; next < *count; next++) {
        const size_t node = meeting->order[next];
        for (size_t i = list->from[node]; i < list->from[node + 1]; i++) {
            const size_t to = other_end(&meeting->boundaries[list->boundary[i]], node);
            if (group_of[to] == nobody) {
                group_of[to] = number;
                meeting->parent[to] = node;
                meeting->order[(*count)++] = to;
            } else if (meeting->parent[to] != node && meeting->parent[node] != to) {
                return false;
            }
        }
    }
    return true;
}

/* Boundaries by the group of their nodes. */
static void sort_boundaries(qll_meeting *meeting, const size_t *group_of)
{
    for (size_t i = 0; i < meeting->boundary_count; i++) {
        meeting->groups[group_of[meeting->boundaries[i].node[0]]].boundary_to += 1;
    }
    size_t sum = 0;
    for (size_t g = 0; g < meeting->group_count; g++) {
        group *each = &meeting->groups[g];
        const size_t size = each->boundary_to;
        each->boundary_from = each->boundary_to = sum;
        sum += size;
    }
    for (size_t i = 0; i < meeting->boundary_count; i++) {
        group *each = &meeting->groups[group_of[meeting->boundaries[i].node[0]]];
        meeting->sorted[each->boundary_to++] = i;
    }
}

static bool take_room(qll_meeting *meeting, qll_arena *arena)
{
    const size_t nodes = meeting->node_count;
    meeting->order = qll_arena_take(arena, nodes + 1, sizeof *meeting->order);
    meeting->parent = qll_arena_take(arena, nodes + 1, sizeof *meeting->parent);
    meeting->sorted = qll_arena_take(arena, meeting->boundary_count + 1, sizeof *meeting->sorted);
    meeting->groups = qll_arena_take(arena, nodes + 1, sizeof *meeting->groups);
    meeting->rows = qll_arena_take(arena, nodes + 1, sizeof *meeting->rows);
    return meeting->order != NULL && meeting->parent != NULL && meeting->sorted != NULL
           && meeting->groups != NULL && meeting->rows != NULL;
}

qll_status qll_meeting_make(const qll_boundary *boundaries, size_t boundary_count,
                            size_t node_count, qll_arena *arena, qll_meeting **meeting)
{
    qll_meeting *made = qll_arena_take(arena, 1, sizeof *made);
    size_t *group_of = qll_arena_take(arena, node_count + 1, sizeof *group_of);
    if (made == NULL || group_of == NULL) {
        return QLL_NO_MEMORY;
    }
    *made = (qll_meeting){
        .boundaries = boundaries, .boundary_count = boundary_count, .node_count = node_count};
    neighbours list = {0};
    if (!take_room(made, arena) || !list_neighbours(made, arena, &list)) {
        return QLL_NO_MEMORY;
    }
    for (size_t n = 0; n < node_count; n++) {
        group_of[n] = nobody;
    }
    size_t count = 0;
    for (size_t n = 0; n < node_count; n++) {
        if (group_of[n] != nobody) {
            continue;
        }
        group *each = &made->groups[made->group_count];
        each->node_from = count;
        if (!grow(made, &list, n, &count, group_of, made->group_count)) {
            return QLL_REFUSED;
        }
        each->node_to = count;
        made->group_count += 1;
    }
    sort_boundaries(made, group_of);
    *meeting = made;
    return QLL_OK;
}

/* ---- one step ---- */

static bool is_held(const qll_meeting_node *node)
{
    return isinf(node->arrival.admittance_m3s_pa);
}

static void ask(const qll_boundary *boundary, const qll_meeting_node *nodes, const qll_instant *now,
                qll_through *answer)
{
    double pressure_pa[QLL_PORTS_MOST] = {0};
    for (size_t port = 0; port < boundary->kind->port_count; port++) {
        pressure_pa[port] = nodes[boundary->node[port]].pressure_pa_gauge;
    }
    boundary->kind->through(boundary->state, now, pressure_pa, answer);
}

/* What is left over at the node's pressure, of eq. 9 and 11, before boundaries take their part. */
static row row_of(const row *before, const qll_meeting_node *node, const qll_instant *now)
{
    const double y = is_held(node) ? 0 : node->arrival.admittance_m3s_pa;
    const double leak = isinf(now->step_s) ? rest_leak : 0;
    const double p = node->pressure_pa_gauge;
    return (row){.slope = y + leak,
                 .left = (is_held(node) ? 0 : y * (node->arrival.pressure_pa_gauge - p))
                         - node->cavity_m3 / now->step_s + leak * (before->begun_pa - p),
                 .base_pa = before->base_pa,
                 .move_pa = before->move_pa,
                 .begun_pa = before->begun_pa};
}

static void add_boundary(qll_meeting *meeting, const qll_boundary *boundary,
                         const qll_through *answer)
{
    for (size_t port = 0; port < boundary->kind->port_count; port++) {
        row *own = &meeting->rows[boundary->node[port]];
        own->left -= answer->flow_m3s[port];
        own->slope += answer->slope[port][port];
    }
    if (joins(boundary)) {
        const size_t child = meeting->parent[boundary->node[1]] == boundary->node[0] ? 1 : 0;
        row *own = &meeting->rows[boundary->node[child]];
        own->to_parent += answer->slope[child][1 - child];
        own->in_parent += answer->slope[1 - child][child];
    }
}

/* Fills the rows of a group at the nodes' pressures. */
static void assemble(qll_meeting *meeting, const group *each, const qll_meeting_node *nodes,
                     const qll_instant *now)
{
    for (size_t i = each->node_from; i < each->node_to; i++) {
        const size_t n = meeting->order[i];
        meeting->rows[n] = row_of(&meeting->rows[n], &nodes[n], now);
    }
    for (size_t i = each->boundary_from; i < each->boundary_to; i++) {
        const qll_boundary *boundary = &meeting->boundaries[meeting->sorted[i]];
        qll_through answer = {0};
        ask(boundary, nodes, now, &answer);
        add_boundary(meeting, boundary, &answer);
    }
    for (size_t i = each->node_from; i < each->node_to; i++) {
        const qll_meeting_node *node = &nodes[meeting->order[i]];
        row *own = &meeting->rows[meeting->order[i]];
        const bool boils = node->pressure_pa_gauge <= node->vapour_pa_gauge && own->left < 0;
        own->is_fixed = is_held(node) || boils;
        own->whole_slope = own->slope;
        own->off = own->left;
    }
}

/* Whether the pressure of a node, or of all that hang on it, makes any difference: not in a pocket that is shut. */
static bool matters(const row *own)
{
    return !own->is_fixed && own->slope > 1e-13 * own->whole_slope;
}

/* Work that what is left over would do along the last moves: it falls from over 0 through 0, since whatever
 * stands at the nodes takes energy. */
static double work_along(const qll_meeting *meeting, const group *each)
{
    double sum = 0;
    for (size_t i = each->node_from; i < each->node_to; i++) {
        const row *own = &meeting->rows[meeting->order[i]];
        sum += own->is_fixed ? 0 : own->off * own->move_pa;
    }
    return sum;
}

/* Solves the rows of a group; the greatest move, Pa. */
static double solve(qll_meeting *meeting, const group *each)
{
    row *rows = meeting->rows;
    for (size_t i = each->node_to; i-- > each->node_from;) {
        row *own = &rows[meeting->order[i]];
        const size_t parent = meeting->parent[meeting->order[i]];
        if (!matters(own) || parent == nobody || rows[parent].is_fixed) {
            continue;
        }
        const double share = own->in_parent / own->slope;
        rows[parent].slope -= share * own->to_parent;
        rows[parent].left -= share * own->left;
    }
    double most_pa = 0;
    for (size_t i = each->node_from; i < each->node_to; i++) {
        row *own = &rows[meeting->order[i]];
        const size_t parent = meeting->parent[meeting->order[i]];
        const double above_pa = parent == nobody ? 0 : rows[parent].move_pa;
        own->move_pa = matters(own) ? (own->left - own->to_parent * above_pa) / own->slope : 0;
        most_pa = fmax(most_pa, fabs(own->move_pa));
    }
    return most_pa;
}

/* Puts the nodes at @p share of the way; true where that moves nothing that a double would notice. */
static bool go(const qll_meeting *meeting, const group *each, qll_meeting_node *nodes, double share)
{
    bool is_exact = true;
    for (size_t i = each->node_from; i < each->node_to; i++) {
        qll_meeting_node *node = &nodes[meeting->order[i]];
        const row *own = &meeting->rows[meeting->order[i]];
        const double move_pa = share * own->move_pa;
        is_exact = is_exact && fabs(move_pa) <= exact_share * (fabs(own->base_pa) + atmosphere_pa);
        node->pressure_pa_gauge = fmax(own->base_pa + move_pa, node->vapour_pa_gauge);
    }
    return is_exact;
}

static void remember(qll_meeting *meeting, const group *each, const qll_meeting_node *nodes)
{
    for (size_t i = each->node_from; i < each->node_to; i++) {
        const size_t n = meeting->order[i];
        meeting->rows[n].base_pa = nodes[n].pressure_pa_gauge;
    }
}

static void begin(qll_meeting *meeting, const group *each, qll_meeting_node *nodes)
{
    for (size_t i = each->node_from; i < each->node_to; i++) {
        const size_t n = meeting->order[i];
        qll_meeting_node *node = &nodes[n];
        node->pressure_pa_gauge = is_held(node)
                                      ? node->arrival.pressure_pa_gauge
                                      : fmax(node->pressure_pa_gauge, node->vapour_pa_gauge);
        meeting->rows[n].begun_pa = node->pressure_pa_gauge;
    }
}

/* Where a whole move goes too far, looks along it for where little is left: false position, the end that
 * stays counting half (Illinois). */
static void search_along(qll_meeting *meeting, const group *each, qll_meeting_node *nodes,
                         const qll_instant *now, double first)
{
    const double little = 0.3 * fabs(first);
    double low = 0, high = 1;
    double at_low = first, at_high = work_along(meeting, each);
    for (int i = 0; i < QLL_TRIES_MOST && at_high < -little; i++) {
        const double share =
            low + (high - low) * fmin(fmax(at_low / (at_low - at_high), 0.01), 0.99);
        go(meeting, each, nodes, share);
        assemble(meeting, each, nodes, now);
        const double at_share = work_along(meeting, each);
        if (fabs(at_share) <= little) {
            break;
        }
        if (at_share > 0) {
            low = share;
            at_low = at_share;
            at_high /= 2;
        } else {
            high = share;
            at_high = at_share;
            at_low /= 2;
        }
    }
}

/* Newton's method. */
static double find(qll_meeting *meeting, const group *each, qll_meeting_node *nodes,
                   const qll_instant *now)
{
    begin(meeting, each, nodes);
    assemble(meeting, each, nodes, now);
    double move_pa = 0;
    for (int round = 0; round < QLL_ROUNDS_MOST; round++) {
        remember(meeting, each, nodes);
        move_pa = solve(meeting, each);
        const double first = work_along(meeting, each);
        const bool is_exact = go(meeting, each, nodes, 1);
        assemble(meeting, each, nodes, now);
        if (is_exact) {
            break;
        }
        search_along(meeting, each, nodes, now, first);
    }
    return move_pa;
}

/* Pipes alone: eq. 8, and what fills the cavity that is open. */
static void end_without_boundaries(qll_meeting_node *node, const qll_instant *now)
{
    const double y = node->arrival.admittance_m3s_pa;
    if (is_held(node)) {
        node->pressure_pa_gauge = node->arrival.pressure_pa_gauge;
    } else if (y > 0) {
        node->pressure_pa_gauge =
            fmax(node->vapour_pa_gauge,
                 node->arrival.pressure_pa_gauge - node->cavity_m3 / (now->step_s * y));
    }
}

/* Eq. 11: the room that vapor has at the end of the step. */
static double cavity_after_m3(const qll_meeting_node *node, const qll_instant *now)
{
    if (is_held(node) || isinf(now->step_s) || node->pressure_pa_gauge > node->vapour_pa_gauge) {
        return 0;
    }
    const double inflow_m3s = node->arrival.admittance_m3s_pa
                              * (node->arrival.pressure_pa_gauge - node->pressure_pa_gauge);
    return fmax(0, node->cavity_m3 + now->step_s * (node->outflow_m3s - inflow_m3s));
}

static void close_step(qll_meeting *meeting, const group *each, qll_meeting_node *nodes,
                       const qll_instant *now)
{
    for (size_t i = each->node_from; i < each->node_to; i++) {
        nodes[meeting->order[i]].outflow_m3s = 0;
    }
    for (size_t i = each->boundary_from; i < each->boundary_to; i++) {
        const qll_boundary *boundary = &meeting->boundaries[meeting->sorted[i]];
        qll_through answer = {0};
        ask(boundary, nodes, now, &answer);
        double pressure_pa[QLL_PORTS_MOST] = {0};
        for (size_t port = 0; port < boundary->kind->port_count; port++) {
            nodes[boundary->node[port]].outflow_m3s += answer.flow_m3s[port];
            pressure_pa[port] = nodes[boundary->node[port]].pressure_pa_gauge;
        }
        if (boundary->kind->accept != NULL) {
            boundary->kind->accept(boundary->state, now, pressure_pa);
        }
    }
    for (size_t i = each->node_from; i < each->node_to; i++) {
        qll_meeting_node *node = &nodes[meeting->order[i]];
        node->cavity_m3 = cavity_after_m3(node, now);
    }
}

double qll_meeting_end_step(qll_meeting *meeting, qll_meeting_node *nodes, const qll_instant *now)
{
    assert(meeting != NULL && now->step_s > 0);
    double worst_pa = 0;
    for (size_t g = 0; g < meeting->group_count; g++) {
        const group *each = &meeting->groups[g];
        if (each->boundary_from == each->boundary_to) {
            end_without_boundaries(&nodes[meeting->order[each->node_from]], now);
        } else {
            worst_pa = fmax(worst_pa, find(meeting, each, nodes, now));
        }
        close_step(meeting, each, nodes, now);
    }
    return worst_pa;
}
