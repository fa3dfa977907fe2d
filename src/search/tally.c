#include "search/tally.h"

#include <math.h>

/* Points that are solved together. */
#define QLL_CHUNK 32

static double flow_weight(const qll_duty *duty, size_t flow)
{
    double sum = 0.0;
    for (size_t s = 0; s < duty->supply_count; s++) {
        sum += qll_point_weight(duty, s, flow);
    }
    return sum;
}

/* The classes by falling weight, the smaller flow first among equals. */
static void order_flows(const qll_duty *duty, size_t *order)
{
    for (size_t f = 0; f < duty->flow_count; f++) {
        size_t at = f;
        double weight = flow_weight(duty, f);
        while (at > 0 && flow_weight(duty, order[at - 1]) < weight) {
            order[at] = order[at - 1];
            at--;
        }
        order[at] = f;
    }
}

qll_status qll_duty_points_make(const qll_duty *duty, qll_arena *arena, qll_duty_points *points)
{
    if (duty->supply_count != 0 && duty->flow_count > (size_t)-1 / duty->supply_count) {
        return QLL_NO_MEMORY;
    }
    size_t *order = qll_arena_take(arena, duty->flow_count, sizeof *order);
    qll_duty_point *made =
        qll_arena_take(arena, duty->flow_count * duty->supply_count, sizeof *made);
    if (order == NULL || made == NULL) {
        return QLL_NO_MEMORY;
    }
    order_flows(duty, order);
    size_t count = 0;
    for (size_t i = 0; i < duty->flow_count; i++) {
        size_t f = order[i];
        for (size_t s = 0; s < duty->supply_count; s++) {
            double weight = qll_point_weight(duty, s, f);
            if (weight > 0.0) {
                made[count] = (qll_duty_point){.flow = f,
                                               .inlet_pa = duty->inlet_pa[s * duty->flow_count + f],
                                               .flow_m3s = duty->flow_m3s[f],
                                               .weight = weight};
                count += 1;
            }
        }
    }
    *points = (qll_duty_points){.points = made, .count = count};
    return QLL_OK;
}

qll_status qll_tally_stage_make(const qll_stage_choice *choice, const qll_site *site,
                                qll_arena *arena, qll_tally_stage **made)
{
    qll_tally_stage *of = qll_arena_take(arena, 1, sizeof *of);
    if (of == NULL) {
        return QLL_NO_MEMORY;
    }
    of->site = site;
    of->yardstick = qll_yardstick_of(site);
    of->stage = qll_stage_choice_view(choice);
    *made = of;
    return qll_stage_solver_make(&of->stage, &site->water, site->barometric_pa, arena, &of->solver);
}

static inline qll_tally_term term_of(const qll_tally_stage *of, double inlet_pa, double flow_m3s,
                                     const qll_stage_point *solved)
{
    const qll_penalty penalty =
        qll_stage_penalty(of->solver, &of->yardstick, inlet_pa, flow_m3s, solved);
    return (qll_tally_term){.outlet_pa = solved->passes ? solved->outlet_pa : (double)NAN,
                            .noise = penalty.noise,
                            .wear = penalty.wear,
                            .unsteady_pa = penalty.unsteady_pa};
}

qll_tally_term qll_tally_at(const qll_tally_stage *of, double inlet_pa, double flow_m3s)
{
    const qll_stage_point solved = qll_stage_solve(of->solver, inlet_pa, flow_m3s);
    return term_of(of, inlet_pa, flow_m3s, &solved);
}

void qll_tally_many(const qll_tally_stage *of, const double *inlet_pa, const double *flow_m3s,
                    size_t count, qll_tally_term *terms)
{
    qll_stage_point solved[QLL_CHUNK];
    for (size_t from = 0; from < count; from += QLL_CHUNK) {
        size_t here = count - from < QLL_CHUNK ? count - from : QLL_CHUNK;
        qll_stage_solve_many(of->solver, inlet_pa + from, flow_m3s + from, here, solved);
        for (size_t i = 0; i < here; i++) {
            terms[from + i] = term_of(of, inlet_pa[from + i], flow_m3s[from + i], &solved[i]);
        }
    }
}

double qll_tally_price(const qll_stage_choice *choice)
{
    const qll_stage stage = qll_stage_choice_view(choice);
    const qll_station alone = {.stages = &stage, .stage_count = 1};
    return qll_station_price(&alone);
}
