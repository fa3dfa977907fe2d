#include "meter_log.h"

#include <math.h>
#include <stdint.h>

static const double base_gpm = 0.3;
static const double mean_gpm = 1.4;
static const double greatest_gpm = 10.4;

static double uniform(uint64_t *random)
{
    *random = *random * 6364136223846793005u + 1442695040888963407u;
    return (double)(*random >> 11) * 0x1p-53;
}

/* Uses of one to eight minutes that begin by chance, more often by day, as a share of the greatest. */
static void draw_uses(panel_log *log)
{
    uint64_t random = 8;
    double most = 0.0;
    for (size_t i = 0; i < QLL_PANEL_LOG_MINUTES; i++) {
        log->flow_gpm[i] = 0.0;
    }
    for (size_t i = 0; i < QLL_PANEL_LOG_MINUTES; i++) {
        size_t hour = i / 60 % 24;
        double chance = hour < 6 ? 0.02 : 0.25;
        if (uniform(&random) >= chance) {
            continue;
        }
        double flow = 0.5 + 2.5 * uniform(&random);
        size_t length = 1 + (size_t)(8.0 * uniform(&random));
        for (size_t at = i; at < i + length && at < QLL_PANEL_LOG_MINUTES; at++) {
            log->flow_gpm[at] += flow;
            most = fmax(most, log->flow_gpm[at]);
        }
    }
    for (size_t i = 0; i < QLL_PANEL_LOG_MINUTES; i++) {
        log->flow_gpm[i] /= most;
    }
}

static double mean_of_power(const panel_log *log, double power)
{
    double sum = 0.0;
    for (size_t i = 0; i < QLL_PANEL_LOG_MINUTES; i++) {
        sum += log->flow_gpm[i] > 0.0 ? pow(log->flow_gpm[i], power) : 0.0;
    }
    return sum / QLL_PANEL_LOG_MINUTES;
}

/* Bends the shares until their mean is as wanted; the greatest stays 1. */
static void bend(panel_log *log)
{
    double wanted = (mean_gpm - base_gpm) / (greatest_gpm - base_gpm);
    double low = 0.05;
    double high = 20.0;
    for (int i = 0; i < 60; i++) {
        double middle = 0.5 * (low + high);
        if (mean_of_power(log, middle) > wanted) {
            low = middle;
        } else {
            high = middle;
        }
    }
    for (size_t i = 0; i < QLL_PANEL_LOG_MINUTES; i++) {
        double share = log->flow_gpm[i] > 0.0 ? pow(log->flow_gpm[i], low) : 0.0;
        log->flow_gpm[i] = base_gpm + (greatest_gpm - base_gpm) * share;
    }
}

panel_log *panel_log_make(qll_arena *arena)
{
    panel_log *log = qll_arena_take(arena, 1, sizeof *log);
    if (log == NULL) {
        return NULL;
    }
    draw_uses(log);
    bend(log);
    qll_writer text = qll_writer_new(arena);
    qll_write(&text, "time,flow (gpm)\n");
    for (size_t i = 0; i < QLL_PANEL_LOG_MINUTES; i++) {
        qll_write_format(&text, "2025-03-%02zu %02zu:%02zu,%.3f\n", 3 + i / 1440, i / 60 % 24,
                         i % 60, log->flow_gpm[i]);
    }
    log->csv = qll_writer_text(&text);
    return log->csv.bytes == NULL ? NULL : log;
}

static qll_status stream(void *context, qll_bytes_sink *sink, void *sink_context, const char **why)
{
    const panel_log *log = context;
    *why = "";
    return sink(sink_context, log->csv.bytes, log->csv.size);
}

qll_attachment panel_log_attached(panel_log *log, const char *name)
{
    return (qll_attachment){.name = name, .stream = stream, .context = log};
}
