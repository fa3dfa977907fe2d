#include "wording/texts.h"

#include "wording/wording.h"

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

const char *qll_text_ratio(qll_writer *writer, double ratio)
{
    qll_writer made = qll_writer_new(writer->arena);
    qll_write_format(&made, "%.1f", ratio);
    return qll_writer_text(&made).bytes;
}
