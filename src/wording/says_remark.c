#include "base/count.h"
#include "base/customary.h"
#include "wording/texts.h"
#include "wording/wording.h"

#include <math.h>

/* How a figure of a remark is written. */
typedef enum figure_form {
    QLL_AS_NONE,
    QLL_AS_SHARE,       /* "99 %" */
    QLL_AS_ROUGH_SHARE, /* "9 %" of 0.0913 */
    QLL_AS_COUNT,       /* "210" */
    QLL_AS_PLAIN,       /* "0.94" */
    QLL_AS_ONE_PLACE,   /* "120.0" */
    QLL_AS_TWO_PLACES,  /* "6.76" */
    QLL_AS_FLOW,
    QLL_AS_SMALL_FLOW, /* to three digits, however small */
    QLL_AS_TIME,
    QLL_AS_HOUR, /* "06:00" */
} figure_form;

typedef struct figure {
    const char *token;
    figure_form form;
} figure;

/* What the figures of each remark are, in the order of demand/remark.h. */
/* clang-format off */
static const figure figures[QLL_REMARK_COUNT][QLL_REMARK_FIGURES] = {
    [QLL_REMARK_PULSE] = {{"share", QLL_AS_SHARE}, {"count", QLL_AS_COUNT}},
    [QLL_REMARK_LOG] = {{"mean", QLL_AS_TIME}, {"covered", QLL_AS_TIME}, {"interval", QLL_AS_TIME}},
    [QLL_REMARK_LOG_EVENTS] = {{"mean", QLL_AS_TIME}, {"covered", QLL_AS_TIME}},
    [QLL_REMARK_LOG_FACTOR] = {{"times", QLL_AS_TWO_PLACES}, {"count", QLL_AS_PLAIN}},
    [QLL_REMARK_DIN] = {{"flow", QLL_AS_FLOW}, {"a", QLL_AS_PLAIN}, {"b", QLL_AS_PLAIN},
                        {"c", QLL_AS_PLAIN}},
    [QLL_REMARK_LOADING] = {{"value", QLL_AS_ONE_PLACE}, {"count", QLL_AS_COUNT}},
    [QLL_REMARK_BAND] = {{"count", QLL_AS_COUNT}, {"flow", QLL_AS_SMALL_FLOW}, {"low", QLL_AS_FLOW},
                         {"high", QLL_AS_FLOW}},
    [QLL_REMARK_UNITS_TANK] = {{"value", QLL_AS_COUNT}},
    [QLL_REMARK_UNITS_FLUSH] = {{"value", QLL_AS_COUNT}},
    [QLL_REMARK_QUANTILE] = {{"share", QLL_AS_SHARE}},
    [QLL_REMARK_STEPS] = {{"flow", QLL_AS_SMALL_FLOW}, {"most", QLL_AS_SMALL_FLOW}},
    [QLL_REMARK_NORMAL_WITHIN] = {{"value", QLL_AS_TWO_PLACES}},
    [QLL_REMARK_NORMAL_OUTSIDE] = {{"value", QLL_AS_TWO_PLACES}},
    [QLL_REMARK_DIN_RANGE] = {{"flow", QLL_AS_FLOW}, {"low", QLL_AS_FLOW}, {"high", QLL_AS_FLOW}},
    [QLL_REMARK_NO_GRAPH] = {{"value", QLL_AS_ONE_PLACE}},
    [QLL_REMARK_OUTSIDE_GRAPH] = {{"value", QLL_AS_ONE_PLACE}, {"low", QLL_AS_COUNT},
                                  {"high", QLL_AS_COUNT}},
    [QLL_REMARK_UNITS_SPLIT] = {{"low", QLL_AS_COUNT}, {"high", QLL_AS_COUNT}},
    [QLL_REMARK_COUNTED_APART] = {{"count", QLL_AS_COUNT}, {"value", QLL_AS_COUNT},
                                  {"flow", QLL_AS_FLOW}},
    [QLL_REMARK_COUNTED_GROUPS] = {{"count", QLL_AS_COUNT}, {"value", QLL_AS_COUNT},
                                   {"flow", QLL_AS_FLOW}},
    [QLL_REMARK_FLUSH_TURNS] = {{"share", QLL_AS_ROUGH_SHARE}, {"flow", QLL_AS_FLOW}},
    [QLL_REMARK_FLUSH_LEAST] = {{"flow", QLL_AS_FLOW}, {"low", QLL_AS_FLOW}},
    [QLL_REMARK_TAKEN_APART] = {{"count", QLL_AS_COUNT}},
    [QLL_REMARK_CLOCK_APART] = {{"flow", QLL_AS_FLOW}, {"hour", QLL_AS_HOUR}, {"peak", QLL_AS_FLOW},
                                {"without", QLL_AS_FLOW}},
    [QLL_REMARK_CLOCK_MEETS] = {{"flow", QLL_AS_FLOW}, {"hour", QLL_AS_HOUR}, {"peak", QLL_AS_FLOW},
                                {"without", QLL_AS_FLOW}},
    [QLL_REMARK_PEOPLE_GIVEN] = {{"count", QLL_AS_COUNT}, {"value", QLL_AS_COUNT},
                                 {"other", QLL_AS_COUNT}},
    [QLL_REMARK_UNITS_END] = {{"value", QLL_AS_COUNT}, {"flow", QLL_AS_FLOW}},
    [QLL_REMARK_LOG_ABOVE] = {{"flow", QLL_AS_FLOW}, {"low", QLL_AS_FLOW}},
    [QLL_REMARK_CROWDED_HOMES] = {{"count", QLL_AS_COUNT}, {"value", QLL_AS_COUNT},
                                  {"most", QLL_AS_COUNT}},
    [QLL_REMARK_CROWDED] = {{"count", QLL_AS_COUNT}, {"value", QLL_AS_COUNT},
                            {"most", QLL_AS_COUNT}},
    [QLL_REMARK_EMPTY] = {{"count", QLL_AS_COUNT}, {"value", QLL_AS_COUNT},
                          {"most", QLL_AS_COUNT}},
    [QLL_REMARK_EMPTY_HOMES] = {{"count", QLL_AS_COUNT}, {"value", QLL_AS_COUNT},
                                {"most", QLL_AS_COUNT}},
    [QLL_REMARK_LOG_COARSE] = {{"interval", QLL_AS_TIME}},
    [QLL_REMARK_LOG_SHORT] = {{"covered", QLL_AS_TIME}},
};

/* clang-format on */

static void write_small_flow(qll_writer *writer, double flow_m3s, qll_unit_system units)
{
    const double unit_m3s = units == QLL_UNITS_US ? QLL_GPM_M3S : 1e-3;
    qll_write_format(writer, "%.3g %s", flow_m3s / unit_m3s, qll_units_name(QLL_KIND_FLOW, units));
}

/* The figure as text; NULL where it is not known. */
static const char *figure_text(qll_writer *writer, const qll_wording *wording, figure_form form,
                               double value)
{
    if (!isfinite(value)) {
        return NULL;
    }
    qll_writer text = qll_writer_new(writer->arena);
    switch (form) {
    case QLL_AS_NONE: return NULL;
    case QLL_AS_SHARE: qll_write_format(&text, "%.4g %%", 100.0 * value); break;
    case QLL_AS_ROUGH_SHARE: qll_write_format(&text, "%.2g %%", 100.0 * value); break;
    case QLL_AS_HOUR: qll_write_format(&text, "%02.0f:00", value / 3600.0); break;
    case QLL_AS_COUNT: qll_write_format(&text, "%.6g", value); break;
    case QLL_AS_PLAIN: qll_write_format(&text, "%.3g", value); break;
    case QLL_AS_ONE_PLACE: qll_write_format(&text, "%.1f", value); break;
    case QLL_AS_TWO_PLACES: qll_write_format(&text, "%.2f", value); break;
    case QLL_AS_FLOW: qll_units_write(&text, value, QLL_KIND_FLOW, wording->units); break;
    case QLL_AS_SMALL_FLOW: write_small_flow(&text, value, wording->units); break;
    case QLL_AS_TIME: qll_units_write(&text, value, QLL_KIND_TIME, wording->units); break;
    }
    return qll_writer_text(&text).bytes;
}

static const char *occupancy_text(const qll_wording *wording, bool is_private)
{
    return qll_say(wording->language, is_private ? QLL_SAYS_PRIVATE : QLL_SAYS_PUBLIC);
}

/* A remark on fixture units names the tables' column, NULL where both are read, others the use itself. */
static const char *use_text(const qll_wording *wording, const qll_remark *remark)
{
    if (remark->id == QLL_REMARK_UNITS_TANK || remark->id == QLL_REMARK_UNITS_FLUSH) {
        const bool is_private = remark->figures[1] > 0.0;
        const bool is_public = remark->figures[2] > 0.0;
        return is_private && is_public ? NULL : occupancy_text(wording, is_private);
    }
    if (remark->id == QLL_REMARK_UNITS_OTHER) {
        return occupancy_text(wording, remark->figures[0] > 0.0);
    }
    return qll_say(wording->language,
                   (qll_message)((size_t)QLL_SAYS_USE_APARTMENT + (size_t)remark->use));
}

/* What is named is a kind of fixture, which people read in their language, or what the survey calls something. */
static const char *name_text(qll_writer *writer, const qll_wording *wording,
                             const qll_remark *remark)
{
    static const bool is_fixture[QLL_REMARK_COUNT] = {
        [QLL_REMARK_UNITS_OTHER] = true, [QLL_REMARK_NO_PROBABILITY] = true,
        [QLL_REMARK_NO_FLOW] = true,     [QLL_REMARK_HOMES_ONLY] = true,
        [QLL_REMARK_DIN_NO_FLOW] = true, [QLL_REMARK_NO_LOADING] = true,
        [QLL_REMARK_NO_UNITS] = true,
    };
    if (remark->name == NULL || !is_fixture[remark->id]) {
        return remark->name;
    }
    qll_writer text = qll_writer_new(writer->arena);
    qll_wording_word(&text, wording->language, qll_text_of(remark->name));
    return qll_writer_text(&text).bytes;
}

static const char *because_text(qll_writer *writer, const qll_wording *wording,
                                const qll_remark *because)
{
    if (because == NULL) {
        return NULL;
    }
    qll_writer text = qll_writer_new(writer->arena);
    qll_wording_remark(&text, wording, because);
    return qll_writer_text(&text).bytes;
}

void qll_wording_remark(qll_writer *writer, const qll_wording *wording, const qll_remark *remark)
{
    const qll_language language = wording->language;
    const size_t use = (size_t)remark->use;
    qll_filling fillings[7 + QLL_REMARK_FIGURES] = {
        {"what", because_text(writer, wording, remark->because)},
        {"name", name_text(writer, wording, remark)},
        {"table", remark->table.id == QLL_TEXT_NONE
                      ? NULL
                      : qll_said_text(writer->arena, wording, &remark->table)},
        {"use", use_text(wording, remark)},
        {"people", qll_say(language, (qll_message)((size_t)QLL_SAYS_PEOPLE_APARTMENT + use))},
        {"day",
         qll_say(language, (qll_message)((size_t)QLL_SAYS_DAY_WEEKDAY + (size_t)remark->day))},
        {"method", qll_say_method(language, remark->method)},
    };
    for (size_t i = 0; i < QLL_REMARK_FIGURES; i++) {
        const figure *one = &figures[remark->id][i];
        fillings[7 + i] = (qll_filling){
            .token = one->token == NULL ? "" : one->token,
            .text = figure_text(writer, wording, one->form, remark->figures[i]),
        };
    }
    qll_say_with(writer, language,
                 (qll_message)((size_t)QLL_SAYS_REMARK_PULSE + (size_t)remark->id), fillings,
                 QLL_COUNT(fillings));
}

const char *qll_wording_notes(qll_arena *arena, const qll_wording *wording, const qll_remark *notes)
{
    qll_writer text = qll_writer_new(arena);
    for (const qll_remark *note = notes; note != NULL; note = note->next) {
        qll_write(&text, note == notes ? "" : " ");
        qll_wording_remark(&text, wording, note);
    }
    return qll_writer_text(&text).bytes;
}
