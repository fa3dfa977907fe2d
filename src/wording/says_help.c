#include "wording/wording.h"

#include <math.h>

static const char *share_text(qll_arena *arena, double share, bool *no_memory)
{
    if (isnan(share)) {
        return NULL;
    }
    qll_writer writer = qll_writer_new(arena);
    qll_write_format(&writer, "%.0f %%", 100.0 * share);
    *no_memory = *no_memory || writer.no_memory;
    return qll_writer_text(&writer).bytes;
}

void qll_wording_help(qll_writer *writer, const qll_wording *wording, const qll_station *station,
                      const qll_low_flow_help *help)
{
    qll_writer subject = qll_writer_new(writer->arena);
    qll_wording_subject(&subject, wording, station, &help->spot);
    qll_writer between = qll_writer_new(writer->arena);
    bool has_between = isfinite(help->between_pa_gauge);
    if (has_between) {
        qll_units_write(&between, help->between_pa_gauge, QLL_KIND_PRESSURE, wording->units);
    }
    writer->no_memory = writer->no_memory || subject.no_memory || between.no_memory;
    const qll_filling fillings[] = {
        {"subject", qll_writer_text(&subject).bytes},
        {"between", has_between ? qll_writer_text(&between).bytes : NULL},
        {"now", share_text(writer->arena, help->time_now, &writer->no_memory)},
        {"then", share_text(writer->arena, help->time_then, &writer->no_memory)},
    };
    qll_say_with(writer, wording->language,
                 (qll_message)(QLL_SAYS_HELP_MORE_FALLOFF + (int)help->kind), fillings,
                 sizeof fillings / sizeof fillings[0]);
}
