#include "signals/pressure_log.h"

#include "signals/log_reader.h"

static void *begin(void *context, const qll_channel_facts *facts, qll_arena *arena)
{
    (void)context;
    return qll_pressure_begin(facts, arena);
}

static void take(void *state, const int64_t *at_ms, const double *const *values, size_t count)
{
    qll_pressure_take(state, at_ms, values, count);
}

qll_flow_log *qll_pressure_log_open(const qll_flow_log_options *options, qll_arena *arena)
{
    static const qll_channel_taker taker = {.begin = begin, .take = take};
    qll_flow_log_options of = *options;
    of.taker = &taker;
    return qll_flow_log_open(&of, arena);
}
