#include "base/count.h"
#include "wording/texts.h"
#include "wording/wording.h"

#include <math.h>
#include <string.h>

static const char *flow_text(qll_writer *writer, const qll_wording *wording, double flow_m3s)
{
    return qll_text_quantity(writer, flow_m3s, QLL_KIND_FLOW, wording->units);
}

static const char *time_text(qll_writer *writer, const qll_wording *wording, double time_s)
{
    return qll_text_quantity(writer, time_s, QLL_KIND_TIME, wording->units);
}

static void write_read(qll_writer *writer, const qll_wording *wording, const char *name,
                       const qll_flow_log_result *log)
{
    qll_writer count = qll_writer_new(writer->arena);
    qll_write_format(&count, "%lld", log->row_count);
    const bool has_interval = log->kind != QLL_LOG_KIND_EVENTS;
    const qll_filling fillings[] = {
        {"name", name},
        {"count", qll_writer_text(&count).bytes},
        {"interval", has_interval ? time_text(writer, wording, log->interval_s) : NULL},
        {"covered", time_text(writer, wording, log->covered_s)},
        {"unknown", log->unknown_s > 0.0 ? time_text(writer, wording, log->unknown_s) : NULL},
    };
    qll_say_with(writer, wording->language, QLL_SAYS_LOG_READ, fillings, 5);
}

/* "10.8 gpm over 1 s, 9.6 gpm over 60 s" for the averaging times that tell most. */
static void write_peaks(qll_writer *writer, const qll_wording *wording,
                        const qll_flow_log_result *log)
{
    static const int told_s[] = {1, 60, 900, 3600};
    qll_writer list = qll_writer_new(writer->arena);
    for (size_t i = 0; i < QLL_LOG_PEAKS; i++) {
        const qll_log_peak *peak = &log->peaks[i];
        bool is_told = isfinite(peak->rolling_m3s) && list.size == 0; /* the finest */
        for (size_t t = 0; t < QLL_COUNT(told_s); t++) {
            is_told = is_told || (isfinite(peak->rolling_m3s) && peak->window_s == told_s[t]);
        }
        if (is_told) {
            const qll_filling fillings[] = {
                {"flow", flow_text(writer, wording, peak->rolling_m3s)},
                {"interval", time_text(writer, wording, peak->window_s)},
            };
            qll_write(&list, list.size == 0 ? "" : ", ");
            qll_say_with(&list, wording->language, QLL_SAYS_LOG_OVER, fillings, 2);
        }
    }
    if (list.size > 0) {
        const qll_filling filling = {"list", qll_writer_text(&list).bytes};
        qll_write(writer, " ");
        qll_say_with(writer, wording->language, QLL_SAYS_LOG_PEAKS, &filling, 1);
    }
}

void qll_wording_log_note(qll_writer *writer, const qll_wording *wording, qll_log_note_kind kind,
                          const qll_log_note *note)
{
    const char *count = qll_text_whole(writer, note->count);
    const qll_filling fillings[] = {
        {"share", qll_text_share(writer, wording->language, note->share)},
        {"count", count},
        {"times", count},
        {"total", qll_text_whole(writer, note->of)},
        {"volume", qll_text_quantity(writer, note->volume_m3, QLL_KIND_VOLUME, wording->units)},
        {"flow", flow_text(writer, wording, note->flow_m3s)},
        {"interval", time_text(writer, wording, note->time_s)},
    };
    qll_say_with(writer, wording->language,
                 (qll_message)((size_t)QLL_SAYS_NOTE_NEWEST_FIRST + (size_t)kind), fillings, 7);
}

/* What is no warning is said with the log. */
static void write_notes(qll_writer *writer, const qll_wording *wording,
                        const qll_flow_log_result *log)
{
    for (size_t i = 0; i < QLL_LOG_NOTE_COUNT; i++) {
        if (log->notes[i].holds && !qll_log_note_warns((qll_log_note_kind)i)) {
            qll_write(writer, " ");
            qll_wording_log_note(writer, wording, (qll_log_note_kind)i, &log->notes[i]);
        }
    }
}

void qll_wording_log(qll_writer *writer, const qll_wording *wording, const char *name,
                     const qll_flow_log_result *log)
{
    write_read(writer, wording, name, log);
    write_peaks(writer, wording, log);
    if (isfinite(log->night_least_m3s)) {
        const qll_filling filling = {"flow", flow_text(writer, wording, log->night_least_m3s)};
        qll_write(writer, " ");
        qll_say_with(writer, wording->language, QLL_SAYS_LOG_NIGHT, &filling, 1);
    }
    if (log->never_zero) {
        qll_write(writer, " ");
        qll_write(writer, qll_say(wording->language, QLL_SAYS_LOG_NEVER_ZERO));
    }
    write_notes(writer, wording, log);
}

/* Not known where the flow before is none. */
static const char *ratio_text(qll_writer *writer, double ratio)
{
    qll_writer text = qll_writer_new(writer->arena);
    qll_write_format(&text, "%.2f", ratio);
    return isfinite(ratio) ? qll_writer_text(&text).bytes : NULL;
}

void qll_wording_change(qll_writer *writer, const qll_wording *wording, const char *before,
                        const char *after, const qll_demand_change *change, double low_flow_m3s)
{
    const char *then = qll_text_share(writer, wording->language, change->after.below_share);
    const char *first = qll_text_share(writer, wording->language, change->before.below_share);
    const bool changes = strcmp(then, first) != 0;
    const qll_filling fillings[] = {
        {"first", before},
        {"second", after},
        {"peak", ratio_text(writer, change->peak_ratio)},
        {"mean", ratio_text(writer, change->mean_ratio)},
        {"times", ratio_text(writer, change->quantile_ratio)},
        {"flow", flow_text(writer, wording, low_flow_m3s)},
        {"value", changes ? then : NULL},
        {"share", first},
    };
    qll_say_with(writer, wording->language, QLL_SAYS_CHANGE, fillings, 8);
}
