#include "wording/texts.h"

#include <math.h>

const char *qll_text_size(qll_writer *writer, double nominal_m, qll_unit_system units)
{
    qll_writer size = qll_writer_new(writer->arena);
    qll_units_write_pipe_size(&size, nominal_m, units);
    return qll_writer_text(&size).bytes;
}

const char *qll_text_reading(qll_arena *arena, double change_pa, qll_unit_system units)
{
    const double lines = round(change_pa / QLL_GAUGE_SI_PA);
    return qll_quantity_text(arena, units == QLL_UNITS_SI ? lines * QLL_GAUGE_SI_PA : change_pa,
                             QLL_KIND_PRESSURE_DIFFERENCE, units);
}

const char *qll_text_quantity(qll_writer *writer, double si, qll_kind kind, qll_unit_system units)
{
    return qll_quantity_text(writer->arena, si, kind, units);
}

const char *qll_text_near(qll_unit_system units)
{
    return units == QLL_UNITS_SI ? "1 m" : "3 ft";
}

const char *qll_text_capital(qll_arena *arena, const char *text)
{
    if (text[0] < 'a' || text[0] > 'z') {
        return text;
    }
    qll_writer capital = qll_writer_new(arena);
    qll_write_byte(&capital, (char)(text[0] - 'a' + 'A'), 1);
    qll_write(&capital, text + 1);
    return qll_writer_text(&capital).bytes;
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

const char *qll_text_beside(qll_writer *writer, double si, double other_si, qll_kind kind,
                            qll_unit_system units)
{
    qll_writer made = qll_writer_new(writer->arena);
    qll_units_write_beside(&made, si, other_si, kind, units);
    return qll_writer_text(&made).bytes;
}

static bool is_hardly_any(double share)
{
    return share > 0.0 && share < 0.005;
}

const char *qll_text_share(qll_writer *writer, qll_language language, double share)
{
    return is_hardly_any(share) ? qll_say(language, QLL_SAYS_UNDER_ONE_PERCENT)
                                : qll_text_bare_share(writer, share);
}

const char *qll_text_bare_share(qll_writer *writer, double share)
{
    if (!isfinite(share)) {
        return "-";
    }
    if (is_hardly_any(share)) {
        return "<1 %";
    }
    bool is_nearly_all = share >= 0.995 && share < 0.9995;
    qll_writer made = qll_writer_new(writer->arena);
    qll_write_format(&made, is_nearly_all ? "%.1f %%" : "%.0f %%", 100.0 * share);
    return qll_writer_text(&made).bytes;
}

const char *qll_text_decimals(qll_writer *writer, double value, double other, int decimals)
{
    qll_writer made = qll_writer_new(writer->arena);
    qll_write_format(&made, "%.*f", qll_decimals_beside(value, other, decimals), value);
    return qll_writer_text(&made).bytes;
}

const char *qll_quantity_text(qll_arena *arena, double si, qll_kind kind, qll_unit_system units)
{
    if (!isfinite(si)) {
        return "-";
    }
    qll_writer writer = qll_writer_new(arena);
    qll_units_write(&writer, si, kind, units);
    return qll_writer_text(&writer).bytes;
}
