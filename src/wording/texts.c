#include "wording/texts.h"

#include <math.h>

const char *qll_text_size(qll_writer *writer, double nominal_m, qll_unit_system units)
{
    qll_writer size = qll_writer_new(writer->arena);
    qll_units_write_pipe_size(&size, nominal_m, units);
    return qll_writer_text(&size).bytes;
}

const char *qll_text_reading(qll_writer *writer, double si, qll_kind kind, qll_unit_system units)
{
    return isfinite(si) ? qll_reading_text(writer->arena, si, kind, units) : "-";
}

const char *qll_text_quantity(qll_writer *writer, double si, qll_kind kind, qll_unit_system units)
{
    return qll_quantity_text(writer->arena, si, kind, units);
}

const char *qll_text_whole(qll_writer *writer, double whole)
{
    qll_writer made = qll_writer_new(writer->arena);
    qll_write_format(&made, "%.0f", whole);
    return qll_writer_text(&made).bytes;
}

const char *qll_text_said(qll_writer *writer, qll_language language, qll_message message,
                          const qll_filling *fillings, size_t count)
{
    qll_writer made = qll_writer_new(writer->arena);
    qll_say_with(&made, language, message, fillings, count);
    return qll_writer_text(&made).bytes;
}

const char *qll_text_ratio(qll_writer *writer, double ratio)
{
    qll_writer made = qll_writer_new(writer->arena);
    qll_write_format(&made, "%.1f", ratio);
    return qll_writer_text(&made).bytes;
}
