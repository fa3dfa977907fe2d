/* What stands in the way of a station, why another is not the one, and what the choice hangs on. */
#include "wording/texts.h"
#include "wording/wording.h"

#include <math.h>
#include <string.h>

/* A factor to two digits: "0.6", "1.5", "12". */
static const char *times_text(qll_writer *writer, double times)
{
    qll_writer made = qll_writer_new(writer->arena);
    qll_write_format(&made, "%.2g", times);
    return qll_writer_text(&made).bytes;
}

/* ---- what stands in the way ---- */

/* A rating is broken by the inlet, a set-point or the temperature: which one the figures tell. */
static qll_message rating_message(const qll_wording *wording, const qll_station *station,
                                  const qll_fitness *fitness)
{
    const double value = fitness->value[QLL_PRACTICE_RATING];
    if (value == wording->site->water.temperature_degc) {
        return QLL_SAYS_BREAKS_TEMPERATURE;
    }
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            if (value == station->stages[s].branches[b].set_pa_gauge) {
                return QLL_SAYS_BREAKS_SET_RANGE;
            }
        }
    }
    return QLL_SAYS_BREAKS_RATING;
}

static const char *rule_figure(qll_writer *writer, const qll_wording *wording, qll_message says,
                               double figure, double other)
{
    if (!isfinite(figure)) {
        return "-"; /* the hand-over has no one figure */
    }
    if (says == QLL_SAYS_BREAKS_SIZE || says == QLL_SAYS_BREAKS_PILOT) {
        return qll_text_size(writer, figure, wording->units);
    }
    if (says == QLL_SAYS_BREAKS_RATIO) {
        return qll_text_decimals(writer, figure, other, 1);
    }
    qll_kind kind = says == QLL_SAYS_BREAKS_SPEED         ? QLL_KIND_VELOCITY
                    : says == QLL_SAYS_BREAKS_TEMPERATURE ? QLL_KIND_TEMPERATURE
                                                          : QLL_KIND_PRESSURE;
    return qll_text_beside(writer, figure, other, kind, wording->units);
}

void qll_wording_breach(qll_writer *writer, const qll_wording *wording, const qll_station *station,
                        const qll_fitness *fitness, qll_practice rule)
{
    qll_message says = (qll_message)((size_t)QLL_SAYS_BREAKS_RATING + (size_t)rule);
    if (rule == QLL_PRACTICE_RATING) {
        says = rating_message(wording, station, fitness);
    }
    const qll_filling fillings[] = {
        {"value", rule_figure(writer, wording, says, fitness->value[rule], fitness->limit[rule])},
        {"limit", rule_figure(writer, wording, says, fitness->limit[rule], fitness->value[rule])},
    };
    qll_say_with(writer, wording->language, says, fillings, 2);
}

/* ---- why not ---- */

static qll_practice worst_breach(const qll_fitness *fitness)
{
    size_t worst = 0;
    for (size_t r = 1; r < QLL_PRACTICE_COUNT; r++) {
        worst = fitness->breach[r] > fitness->breach[worst] ? r : worst;
    }
    return (qll_practice)worst;
}

/* A chance so much greater is what a reader asks about first (our assumption). */
#define QLL_MORE_OFTEN 1.2

void qll_wording_why_not(qll_writer *writer, const qll_wording *wording, const qll_design *design,
                         size_t index)
{
    const qll_shown *best = &design->shown[0];
    const qll_shown *other = &design->shown[index];
    if (index == 0) {
        return;
    }
    qll_writer amount = qll_writer_new(writer->arena);
    qll_writer breach = qll_writer_new(writer->arena);
    double dearer = other->cost.installed - best->cost.installed;
    qll_wording_amount(&amount, wording, dearer);
    qll_message says = QLL_SAYS_WHY_NOT_ALIKE;
    if (!other->fitness.is_fit) {
        says = QLL_SAYS_WHY_NOT_FIT;
        qll_wording_breach(&breach, wording, &other->station, &other->fitness,
                           worst_breach(&other->fitness));
    } else if (other->cost.callback_share > QLL_MORE_OFTEN * best->cost.callback_share) {
        says = QLL_SAYS_WHY_NOT_CALLBACK;
    } else if (dearer >= 0.5) {
        says = QLL_SAYS_WHY_NOT_DEARER;
    }
    const qll_filling fillings[] = {
        {"what", qll_writer_text(&breach).bytes},
        {"why", qll_say_mechanism(wording->language, &other->cost)},
        {"value", qll_writer_text(&amount).bytes},
    };
    qll_say_with(writer, wording->language, says, fillings, 3);
}

/* ---- close calls ---- */

bool qll_wording_close(qll_writer *writer, const qll_wording *wording, const qll_design *design)
{
    const qll_close_call *close = &design->close;
    if (close->why == QLL_CLOSE_NOT || close->other >= design->count) {
        return false;
    }
    qll_writer name = qll_writer_new(writer->arena);
    qll_wording_station(&name, wording, &design->shown[close->other].station);
    const qll_filling fillings[] = {
        {"station", qll_writer_text(&name).bytes},
        {"share", qll_text_share(writer, wording->language, close->dearer_share)}};
    qll_say_with(writer, wording->language,
                 (qll_message)((size_t)QLL_SAYS_CLOSE_NOT + (size_t)close->why), fillings, 2);
    return true;
}

/* ---- what the choice hangs on ---- */

static const char *datum_text(qll_writer *writer, const qll_wording *wording, qll_datum datum,
                              double value)
{
    switch (datum) {
    case QLL_DATUM_STREET:
    case QLL_DATUM_WANTED:
        return qll_text_quantity(writer, value, QLL_KIND_PRESSURE, wording->units);
    case QLL_DATUM_PEAK: return qll_text_quantity(writer, value, QLL_KIND_FLOW, wording->units);
    case QLL_DATUM_PEOPLE: {
        size_t where = value > 0.0 ? (size_t)value : 0;
        where = where < QLL_PEOPLE_COUNT ? where : QLL_PEOPLE_COUNT - 1;
        return qll_say(wording->language, (qll_message)((size_t)QLL_SAYS_HEARD_SAME_ROOM + where));
    }
    case QLL_DATUM_VISIT: {
        qll_writer amount = qll_writer_new(writer->arena);
        qll_wording_amount(&amount, wording, value);
        return qll_writer_text(&amount).bytes;
    }
    case QLL_DATUM_DEMAND:
    case QLL_DATUM_LEAST_FLOW:
    case QLL_DATUM_COUNT: break;
    }
    return times_text(writer, value);
}

static const char *then_text(qll_writer *writer, const qll_wording *wording, const qll_hang *hang)
{
    qll_message says = QLL_SAYS_HANG_INSTEAD;
    if (!hang->is_needed) {
        says = QLL_SAYS_HANG_NO_NEED;
    } else if (!hang->is_fit || hang->instead.stage_count == 0) {
        says = QLL_SAYS_HANG_NOT_FIT;
    }
    qll_writer name = qll_writer_new(writer->arena);
    if (says == QLL_SAYS_HANG_INSTEAD) {
        qll_wording_station(&name, wording, &hang->instead);
    }
    const qll_filling station = {"station", qll_writer_text(&name).bytes};
    return qll_text_said(writer, wording->language, says, &station, 1);
}

/* "150 psi or more"; "just over 150 psi" where it is so little more that a gauge does not show it. */
static const char *beyond_text(qll_writer *writer, const qll_wording *wording, bool is_more,
                               const char *at, const char *now)
{
    const qll_filling value = {"value", at};
    const bool is_just = strcmp(at, now) == 0;
    const qll_message more = is_just ? QLL_SAYS_JUST_OVER : QLL_SAYS_OR_MORE;
    const qll_message less = is_just ? QLL_SAYS_JUST_UNDER : QLL_SAYS_OR_LESS;
    return qll_text_said(writer, wording->language, is_more ? more : less, &value, 1);
}

void qll_wording_hang(qll_writer *writer, const qll_wording *wording, const qll_hang *hang)
{
    const bool is_more = hang->at >= hang->now;
    const char *now = datum_text(writer, wording, hang->datum, hang->now);
    const char *at = datum_text(writer, wording, hang->datum, hang->at);
    const bool is_word = hang->datum == QLL_DATUM_PEOPLE;
    const qll_filling figures[] = {
        {"value", is_word ? at : beyond_text(writer, wording, is_more, at, now)},
        {"times", at},
        {"now", now}};
    qll_message first = is_more ? QLL_SAYS_MORE_STREET : QLL_SAYS_LESS_STREET;
    qll_message says = (qll_message)((size_t)first + (size_t)hang->datum);
    const qll_filling parts[] = {
        {"what", qll_text_said(writer, wording->language, says, figures, 3)},
        {"then", then_text(writer, wording, hang)}};
    qll_say_with(writer, wording->language, QLL_SAYS_HANG, parts, 2);
}
