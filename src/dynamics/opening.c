#include "dynamics/opening.h"

#include "dynamics/orifice.h"

#include <assert.h>
#include <math.h>

static bool refuse(qll_problems *problems, const char *path, size_t move, qll_code code,
                   const qll_said *says)
{
    qll_writer place = qll_writer_new(problems->arena);
    qll_write_format(&place, "%s.moves[%zu]", path, move);
    return qll_problems_add(
        problems, (qll_fault){.code = code,
                              .place = {.source = "", .path = qll_writer_text(&place).bytes},
                              .says = says});
}

static bool is_share(double share)
{
    return share >= 0 && share <= 1;
}

static bool check_move(const qll_opening *opening, size_t index, const char *path,
                       qll_problems *problems)
{
    const qll_opening_move *move = &opening->moves[index];
    if (!(move->takes_s > 0 && isfinite(move->takes_s))) {
        return refuse(problems, path, index, QLL_CODE_OUT_OF_RANGE,
                      QLL_SAYS_WITH(MOVE_TIME, qll_as_quantity(move->takes_s, QLL_KIND_TIME)));
    }
    if (!is_share(move->from) || !is_share(move->to)) {
        return refuse(
            problems, path, index, QLL_CODE_OUT_OF_RANGE,
            QLL_SAYS_WITH(MOVE_SHARE, qll_as_number(is_share(move->from) ? move->to : move->from)));
    }
    assert(move->power > 0);
    const qll_opening_move *before = index > 0 ? &opening->moves[index - 1] : NULL;
    if (before != NULL && !(move->begins_s >= before->begins_s + before->takes_s)) {
        return refuse(
            problems, path, index, QLL_CODE_NOT_RISING,
            QLL_SAYS_WITH(MOVE_ORDER, qll_as_quantity(move->begins_s, QLL_KIND_TIME),
                          qll_as_quantity(before->begins_s + before->takes_s, QLL_KIND_TIME)));
    }
    return true;
}

bool qll_opening_check(const qll_opening *opening, const char *path, qll_problems *problems)
{
    bool good = true;
    for (size_t i = 0; i < opening->move_count; i++) {
        good = check_move(opening, i, path, problems) && good;
    }
    return good;
}

double qll_opening_coefficient(double flow_m3s, double pressure_pa_gauge)
{
    return flow_m3s * sqrt(pressure_pa_gauge + QLL_ORIFICE_SOFT_PA) / pressure_pa_gauge;
}

static double during(const qll_opening_move *move, double time_s)
{
    const double left = 1 - (time_s - move->begins_s) / move->takes_s;
    return move->to + (move->from - move->to) * pow(fmin(fmax(left, 0), 1), move->power);
}

/* Index of the first move that is not over at a time. */
static size_t next_at(const qll_opening *opening, double time_s)
{
    size_t next = opening->next;
    while (next < opening->move_count
           && opening->moves[next].begins_s + opening->moves[next].takes_s <= time_s) {
        next += 1;
    }
    return next;
}

double qll_opening_share(const qll_opening *opening, double time_s)
{
    const size_t next = next_at(opening, time_s);
    if (next < opening->move_count && opening->moves[next].begins_s <= time_s) {
        return during(&opening->moves[next], time_s);
    }
    return next == 0 ? opening->at_first : opening->moves[next - 1].to;
}

static void through(const void *state, const qll_instant *now, const double *pressure_pa,
                    qll_through *answer)
{
    const qll_opening *opening = state;
    if (pressure_pa[0] <= 0) { /* air comes in, which is not followed */
        return;
    }
    const double coefficient = opening->coefficient * qll_opening_share(opening, now->time_s);
    answer->flow_m3s[0] = qll_orifice_m3s(coefficient, pressure_pa[0], &answer->slope[0][0]);
}

static void accept(void *state, const qll_instant *now, const double *pressure_pa)
{
    (void)pressure_pa; /* only time moves it */
    qll_opening *opening = state;
    opening->next = next_at(opening, now->time_s);
}

const qll_boundary_kind qll_opening_kind = {
    .port_count = 1,
    .through = through,
    .accept = accept,
};
