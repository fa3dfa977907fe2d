/* Texts that are stored as values (base/said.h), said. */
#include "base/count.h"
#include "base/customary.h"
#include "base/quote.h"
#include "base/units.h"
#include "wording/language.h"
#include "wording/wording.h"

#include <math.h>
#include <string.h>

/* Texts hold texts, but none holds itself. */
#define QLL_SAID_DEPTH 20

/* What no text of ours holds is no quantity of ours: it is shown as it stands. */
#define QLL_SHOWN_MOST 1e12

/* In the first language where the other lacks it. */
static const char *entry(qll_language language, qll_text_id id)
{
    const char *says = qll_said_entry(language, id);
    says = says == NULL ? qll_said_entry(QLL_LANGUAGE_EN, id) : says;
    return says == NULL ? "" : says;
}

static bool is_customary(qll_text text, qll_kind kind, qll_unit_system system)
{
    const char *blank = memchr(text.bytes, ' ', text.size);
    if (blank == NULL) {
        return false;
    }
    const size_t start = (size_t)(blank - text.bytes) + 1;
    return qll_units_is_customary((qll_text){text.bytes + start, text.size - start}, kind, system);
}

/* As it was written, if its unit is one of the reader's; degrees have a sign on paper that few keyboards write. */
static void write_written(qll_writer *writer, const qll_wording *wording, const qll_argument *one)
{
    qll_quantity quantity;
    qll_units_refusal refusal;
    const qll_unit_system units = wording->units;
    const bool is_degrees = one->kind == QLL_KIND_TEMPERATURE;
    if (one->kind == QLL_KIND_NUMBER || (is_customary(one->text, one->kind, units) && !is_degrees)
        || !qll_units_read(one->text, one->kind, writer->arena, &quantity, &refusal)
        || !(fabs(quantity.si) <= QLL_SHOWN_MOST)) {
        qll_write_text(writer, one->text);
    } else if (one->kind == QLL_KIND_PRESSURE && quantity.base == QLL_PRESSURE_ABSOLUTE) {
        qll_units_write_bare(writer, quantity.si, one->kind, units);
        qll_write(writer, units == QLL_UNITS_US ? " psia" : " bara");
    } else {
        qll_units_write(writer, quantity.si, one->kind, units);
    }
}

/* A difference of gauges to their lines: a whole psi from 1 psi up, 0.05 bar from 0.1 bar up, a tenth from 1 bar up; anything
 * else to two digits. */
static double thumb_step(double shown, qll_kind kind, qll_unit_system units)
{
    const double size = fabs(shown);
    if (kind == QLL_KIND_PRESSURE_DIFFERENCE && units == QLL_UNITS_US && size >= 1.0) {
        return 1.0;
    }
    if (kind == QLL_KIND_PRESSURE_DIFFERENCE && units == QLL_UNITS_SI && size >= 0.095) {
        return size < 0.95 ? 0.05 : 0.1;
    }
    return pow(10.0, floor(log10(size)) - 1.0);
}

static void write_thumb(qll_writer *writer, const qll_wording *wording, const qll_argument *one)
{
    const bool is_si = wording->units == QLL_UNITS_SI;
    double unit_si = 0.0; /* a kind that no rule of thumb speaks of */
    const char *unit = qll_units_name(one->kind, wording->units);
    if (one->kind == QLL_KIND_PRESSURE_DIFFERENCE) {
        unit_si = is_si ? QLL_BAR_PA : QLL_PSI_PA;
    } else if (one->kind == QLL_KIND_LENGTH) { /* a height or a run, not a bore */
        unit_si = is_si ? 1.0 : QLL_FOOT_M;
        unit = is_si ? "m" : "ft";
    }
    if (!(unit_si > 0.0) || !isfinite(one->value) || one->value == 0.0) {
        qll_units_write(writer, one->value, one->kind, wording->units);
        return;
    }
    const double shown = one->value / unit_si;
    const double step = thumb_step(shown, one->kind, wording->units);
    qll_write_format(writer, "%.10g %s", step * round(shown / step), unit);
}

static void write_said(qll_writer *writer, const qll_wording *wording, const qll_said *said,
                       int depth);

/* The texts stand in the order of the kinds. */
#define SAME(name, ...)                                                        \
    _Static_assert((size_t)QLL_TEXT_KIND_##name - (size_t)QLL_TEXT_KIND_NUMBER \
                       == (size_t)QLL_KIND_##name,                             \
                   #name);
QLL_KIND_LIST(SAME)
#undef SAME

static const char *kind_text(qll_language language, qll_kind kind)
{
    return entry(language, (qll_text_id)((size_t)QLL_TEXT_KIND_NUMBER + (size_t)kind));
}

/* "write a pressure with its unit, for example "95 psi"". */
static void write_example(qll_writer *writer, const qll_wording *wording, qll_kind kind, int depth)
{
    const qll_argument example = qll_as_is(qll_units_example(kind));
    const qll_said number = {QLL_TEXT_WRITE_NUMBER, {example}};
    const qll_said quantity = {QLL_TEXT_WRITE_QUANTITY, {qll_as_kind(kind), example}};
    write_said(writer, wording, kind == QLL_KIND_NUMBER ? &number : &quantity, depth + 1);
}

static void write_list(qll_writer *writer, const qll_wording *wording, double count, int depth)
{
    const qll_said one = {.id = QLL_TEXT_FOUND_LIST_OF_ONE};
    const qll_said many = {QLL_TEXT_FOUND_LIST_OF, {qll_as_number(count)}};
    write_said(writer, wording, count == 1.0 ? &one : &many, depth + 1);
}

static void write_argument(qll_writer *writer, const qll_wording *wording, const qll_argument *one,
                           int depth)
{
    const qll_unit_system units = wording->units;
    switch (one->form) {
    case QLL_ARGUMENT_NONE: break;
    case QLL_ARGUMENT_AS_IS: qll_write_text(writer, one->text); break;
    case QLL_ARGUMENT_WORD: qll_wording_word(writer, wording->language, one->text); break;
    case QLL_ARGUMENT_QUOTED: qll_write_quoted(writer, one->text); break;
    case QLL_ARGUMENT_WHOLE: qll_write_format(writer, "%.0f", one->value); break;
    case QLL_ARGUMENT_NUMBER: qll_write_format(writer, "%.10g", one->value); break;
    case QLL_ARGUMENT_EXACT: qll_write_number(writer, one->value); break;
    case QLL_ARGUMENT_QUANTITY: qll_units_write(writer, one->value, one->kind, units); break;
    case QLL_ARGUMENT_SIZE: qll_units_write_pipe_size(writer, one->value, units); break;
    case QLL_ARGUMENT_THUMB: write_thumb(writer, wording, one); break;
    case QLL_ARGUMENT_WRITTEN: write_written(writer, wording, one); break;
    case QLL_ARGUMENT_SAID: write_said(writer, wording, one->said, depth + 1); break;
    case QLL_ARGUMENT_TEXT:
        qll_write(writer, entry(wording->language, (qll_text_id)one->value));
        break;
    case QLL_ARGUMENT_KIND: qll_write(writer, kind_text(wording->language, one->kind)); break;
    case QLL_ARGUMENT_EXAMPLE: write_example(writer, wording, one->kind, depth); break;
    case QLL_ARGUMENT_LIST: write_list(writer, wording, one->value, depth); break;
    }
}

static void write_said(qll_writer *writer, const qll_wording *wording, const qll_said *said,
                       int depth)
{
    const char *says = depth < QLL_SAID_DEPTH ? entry(wording->language, said->id) : "";
    while (*says != '\0') {
        const size_t size = strcspn(says, "{");
        qll_write_text(writer, (qll_text){says, size});
        says += size;
        if (*says == '{' && says[1] >= '1' && says[1] < '1' + QLL_ARGUMENTS && says[2] == '}') {
            write_argument(writer, wording, &said->arguments[says[1] - '1'], depth);
            says += 3;
        } else if (*says == '{') {
            qll_write(writer, "{");
            says += 1;
        }
    }
}

void qll_wording_said(qll_writer *writer, const qll_wording *wording, const qll_said *said)
{
    write_said(writer, wording, said, 0);
}

const char *qll_said_text(qll_arena *arena, const qll_wording *wording, const qll_said *said)
{
    qll_writer writer = qll_writer_new(arena);
    qll_wording_said(&writer, wording, said);
    return qll_writer_text(&writer).bytes;
}

const char *qll_wording_scenario(qll_arena *arena, const qll_wording *wording,
                                 const qll_scenario *scenario)
{
    const qll_said called = {QLL_TEXT_SCENARIO_NUMBER, {qll_as_whole(scenario->number)}};
    return scenario->number == 0 ? scenario->name : qll_said_text(arena, wording, &called);
}

const char *qll_argument_text(qll_arena *arena, const qll_wording *wording,
                              const qll_argument *argument)
{
    qll_writer writer = qll_writer_new(arena);
    write_argument(&writer, wording, argument, 0);
    return qll_writer_text(&writer).bytes;
}

static const char *visible(qll_arena *arena, const qll_wording *wording, const qll_said *said)
{
    if (said == NULL) {
        return "";
    }
    qll_writer plain = qll_writer_new(arena);
    qll_wording_said(&plain, wording, said);
    qll_writer shown = qll_writer_new(arena);
    qll_write_visible(&shown, qll_writer_text(&plain));
    return qll_writer_text(&shown).bytes;
}

qll_problem qll_wording_problem(qll_arena *arena, const qll_wording *wording,
                                const qll_fault *fault)
{
    return (qll_problem){.code = fault->code,
                         .level = fault->level,
                         .place = fault->place,
                         .text = visible(arena, wording, fault->says),
                         .hint = visible(arena, wording, fault->hint),
                         .fix = fault->fix};
}
