#include "wording/texts.h"

#include "base/customary.h"

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

/* The least that is told of a difference of two gauges: what a gauge cannot show is no number (our choice). */
static double least_told_pa(qll_unit_system units)
{
    return units == QLL_UNITS_SI ? 0.01 * QLL_BAR_PA : 0.1 * QLL_PSI_PA;
}

static double told_difference_pa(double pa, qll_unit_system units)
{
    const double least_pa = least_told_pa(units);
    if (!isfinite(pa) || fabs(pa) >= least_pa || pa == 0.0) {
        return pa;
    }
    /* What is wanting is never none at all. */
    return pa >= 0.5 * least_pa || pa < 0.0 ? copysign(least_pa, pa) : 0.0;
}

static bool is_too_little_to_tell(double pa, qll_unit_system units)
{
    return pa > 0.0 && told_difference_pa(pa, units) == 0.0;
}

const char *qll_text_difference(qll_writer *writer, qll_language language, double pa,
                                qll_unit_system units)
{
    const qll_kind kind = QLL_KIND_PRESSURE_DIFFERENCE;
    const qll_filling least = {"value",
                               qll_quantity_text(writer->arena, least_told_pa(units), kind, units)};
    return is_too_little_to_tell(pa, units)
               ? qll_text_said(writer, language, QLL_SAYS_LESS_THAN, &least, 1)
               : qll_quantity_text(writer->arena, told_difference_pa(pa, units), kind, units);
}

const char *qll_text_bare_difference(qll_writer *writer, double pa, qll_unit_system units)
{
    const qll_kind kind = QLL_KIND_PRESSURE_DIFFERENCE;
    qll_writer made = qll_writer_new(writer->arena);
    const bool is_little = is_too_little_to_tell(pa, units);
    qll_write(&made, is_little ? "<" : "");
    qll_write(&made,
              qll_quantity_text(writer->arena,
                                is_little ? least_told_pa(units) : told_difference_pa(pa, units),
                                kind, units));
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
