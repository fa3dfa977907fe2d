#include "signals/pressure_log.h"

#include "signals/log_reader.h"

struct qll_pressure_log {
    qll_channel_taker taker;
    qll_flow_log *reader;
    qll_arena *arena;
};

static void *begin(void *context, const qll_channel_facts *facts, qll_arena *arena)
{
    (void)context;
    return qll_pressure_begin(facts, arena);
}

static void take(void *state, const int64_t *at_ms, const double *const *values, size_t count)
{
    qll_pressure_take(state, at_ms, values, count);
}

qll_pressure_log *qll_pressure_log_open(const qll_flow_log_options *options, qll_arena *arena)
{
    qll_pressure_log *log = qll_arena_take(arena, 1, sizeof *log);
    if (log == NULL) {
        return NULL;
    }
    qll_flow_log_options of = *options;
    log->taker = (qll_channel_taker){.begin = begin, .take = take};
    log->arena = arena;
    of.taker = &log->taker;
    log->reader = qll_flow_log_open(&of, arena);
    return log->reader == NULL ? NULL : log;
}

qll_status qll_pressure_log_feed(qll_pressure_log *log, const char *bytes, size_t size)
{
    return qll_flow_log_feed(log->reader, bytes, size);
}

qll_flow_log *qll_pressure_log_reader(qll_pressure_log *log)
{
    return log->reader;
}

static qll_status judge(qll_pressure_log *log, qll_status status, const qll_pressure_expect *expect,
                        qll_pressure_result *result)
{
    if (status != QLL_OK) {
        return status;
    }
    return qll_pressure_judge(result->log.taken, expect, log->arena, result) ? QLL_OK
                                                                             : QLL_NO_MEMORY;
}

qll_status qll_pressure_log_finish(qll_pressure_log *log, const qll_pressure_expect *expect,
                                   qll_pressure_result *result, qll_problems *problems)
{
    const qll_status status = qll_flow_log_finish(log->reader, &result->log, problems);
    /* What is read again is judged then. */
    if (status == QLL_OK && qll_flow_log_wants_again(log->reader)) {
        return QLL_OK;
    }
    return judge(log, status, expect, result);
}

qll_status qll_pressure_log_again(qll_pressure_log *log, const qll_log_source *source,
                                  const qll_pressure_expect *expect, qll_pressure_result *result,
                                  qll_problems *problems)
{
    const qll_status status = qll_flow_log_again(log->reader, source, &result->log, problems);
    return judge(log, status, expect, result);
}
