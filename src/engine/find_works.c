/* Where valves work: ranges of flow by the classes of the duty, at the middle supply. */
#include "engine/find.h"

#include <math.h>

/* Where a flow class begins: half way, in the logarithm, to the one before it. */
static double class_edge_m3s(const qll_duty *duty, size_t index)
{
    if (index == 0) {
        return duty->flow_m3s[0];
    }
    if (index >= duty->flow_count) {
        return duty->flow_m3s[duty->flow_count - 1];
    }
    return sqrt(duty->flow_m3s[index - 1] * duty->flow_m3s[index]);
}

/* Does @p point belong to a range of branch @p branch of stage @p stage? */
typedef bool is_in_range(const qll_limits *limits, const qll_operating_point *point, size_t stage,
                         size_t branch);

static bool is_passing(const qll_limits *limits, const qll_operating_point *point, size_t stage,
                       size_t branch)
{
    (void)limits;
    return point->branches[stage][branch].working;
}

static bool is_in_band(const qll_limits *limits, const qll_operating_point *point, size_t stage,
                       size_t branch)
{
    const qll_branch_state *state = &point->branches[stage][branch];
    return state->working && point->stages[stage].in_charge == branch
           && state->velocity_m_s >= limits->velocity_low_m_s
           && state->velocity_m_s <= limits->velocity_high_m_s;
}

/* A valve of a station at the flow classes. */
typedef struct class_points {
    const qll_standing *at;
    const qll_operating_point *points; /* [flow class] */
    size_t stage, branch;
} class_points;

/* The ranges of flow over which @p is_in holds, at most one per two classes; NULL without memory. */
static const qll_flow_range *ranges_of(const class_points *of, is_in_range *is_in, qll_arena *arena,
                                       size_t *count)
{
    const qll_duty *duty = of->at->duty;
    qll_flow_range *ranges = qll_arena_take(arena, duty->flow_count / 2 + 1, sizeof *ranges);
    bool inside = false;
    *count = 0;
    for (size_t i = 0; ranges != NULL && i < duty->flow_count; i++) {
        bool is = is_in(&of->at->site->limits, &of->points[i], of->stage, of->branch);
        if (is && !inside) {
            ranges[*count] = (qll_flow_range){class_edge_m3s(duty, i), 0.0};
            *count += 1;
        }
        if (is) {
            ranges[*count - 1].to_m3s = class_edge_m3s(duty, i + 1);
        }
        inside = is;
    }
    return ranges;
}

qll_status qll_find_works(const qll_standing *at, const qll_operating_point *points,
                          qll_arena *arena, const qll_valve_work **works)
{
    const qll_station *station = at->station;
    qll_valve_work *made = qll_arena_take(arena, qll_station_valve_count(station), sizeof *made);
    *works = made;
    class_points of = {.at = at, .points = points};
    for (; made != NULL && of.stage < station->stage_count; of.stage++) {
        for (of.branch = 0; of.branch < station->stages[of.stage].branch_count; of.branch++) {
            made->passing = ranges_of(&of, is_passing, arena, &made->passing_count);
            made->in_band = ranges_of(&of, is_in_band, arena, &made->in_band_count);
            if (made->passing == NULL || made->in_band == NULL) {
                return QLL_NO_MEMORY;
            }
            made += 1;
        }
    }
    return made == NULL ? QLL_NO_MEMORY : QLL_OK;
}
