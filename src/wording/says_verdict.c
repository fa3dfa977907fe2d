/* One sentence per finding; findings.c of each language holds the templates:
 *
 *   {subject}  "The 2 in valve G-50", "The 2 in valve G-50 of stage 1", "The station"
 *   {value} {limit} {peak}   the verdict's figures in the reader's units
 *   {shortage}               limit less value
 *   {spare}                  what is over of the delivery, of which dirt may take a part
 *   {value%} {peak%}         the same as shares
 *   {past%}                  the share of running time past the limit, where that is too seldom to matter
 *   {precharge}              the second figure as a pressure
 *   {near}                   how far from the pipe levels are told
 *   {size} {pipe} {outlet} {scenario}
 *   {way}                    the outlet that a pipe behind the station leads to
 *   {lowest}                 the lowest outlet named, else the station's
 *   {at_flow} {at_inlet} {absolute} {xf} {onset} {split}   the corner of a cavitation verdict;
 *              {at_flow} that of a noise verdict too
 *   {tank} {room} {step1} {tank1} {step2} {tank2} {most} {tankr}   the size sold for an expansion
 *              verdict's tank, and what else would do
 *   {run}      what a run showed: the event, and what came of it
 *   [ ... ]    left out unless every figure inside is known
 */
#include "base/customary.h"
#include "station/fitness.h"
#include "station/strainer.h"
#include "station/tank_size.h"
#include "wording/template.h"
#include "wording/texts.h"
#include "wording/wording.h"

#include <float.h>
#include <math.h>

typedef struct sentence {
    const qll_wording *wording;
    const qll_station *station; /* NULL: a figure alone, in a cell of a table */
    const qll_verdict *verdict;
} sentence;

/* Below these a difference is told by itself, no finer than a gauge shows it; from there on beside what it is held
 * against. */
static bool is_small_difference(const sentence *s, double pa)
{
    return s->verdict->kind == QLL_KIND_PRESSURE_DIFFERENCE
           && fabs(pa) < (s->wording->units == QLL_UNITS_SI ? 0.1 * QLL_BAR_PA : QLL_PSI_PA);
}

static void write_difference_told(qll_writer *writer, const sentence *s, double pa)
{
    const qll_unit_system units = s->wording->units;
    qll_write(writer, s->station == NULL
                          ? qll_text_bare_difference(writer, pa, units)
                          : qll_text_difference(writer, s->wording->language, pa, units));
}

/* @p value as it stands beside @p other, its limit or what the limit is held against. */
static bool write_figure(qll_writer *writer, const sentence *s, double value, double other)
{
    if (!isfinite(value)) {
        return false;
    }
    if (s->verdict->rule == QLL_RULE_NOISE) {
        bool is_low = value < QLL_LEVEL_SHOWN_DBA;
        qll_write(writer, is_low ? "<" : "");
        qll_write(writer, is_low ? qll_text_whole(writer, QLL_LEVEL_SHOWN_DBA)
                                 : qll_text_decimals(writer, value, other, 0));
        qll_write(writer, " dB(A)");
    } else if (s->verdict->kind == QLL_KIND_NUMBER) {
        int decimals = s->verdict->rule == QLL_RULE_RATIO ? 1 : 2;
        qll_write(writer, qll_text_decimals(writer, value, other, decimals));
    } else if (is_small_difference(s, value)) {
        write_difference_told(writer, s, value);
    } else {
        qll_units_write_beside(writer, value, other, s->verdict->kind, s->wording->units);
    }
    return true;
}

/* How much is wanting of a pressure is no pressure. */
static bool write_shortage(qll_writer *writer, const sentence *s)
{
    double shortage = s->verdict->limit - s->verdict->value;
    if (s->verdict->kind != QLL_KIND_PRESSURE || !isfinite(shortage)) {
        return write_figure(writer, s, shortage, (double)NAN);
    }
    write_difference_told(writer, s, shortage);
    return true;
}

static bool write_pressure(qll_writer *writer, const sentence *s, double pa_gauge)
{
    if (!isfinite(pa_gauge)) {
        return false;
    }
    qll_units_write(writer, pa_gauge, QLL_KIND_PRESSURE, s->wording->units);
    return true;
}

static bool write_share(qll_writer *writer, const sentence *s, double share)
{
    if (!isfinite(share)) {
        return false;
    }
    qll_write(writer, qll_text_share(writer, s->wording->language, share));
    return true;
}

/* What a verdict speaks of: "The 2 in valve G-50", "Stage 1". */
static void write_subject(qll_writer *writer, const qll_wording *wording,
                          const qll_station *station, const qll_spot *spot)
{
    bool staged = station->stage_count > 1 && spot->stage < station->stage_count;
    bool is_valve = spot->stage < station->stage_count
                    && spot->branch < station->stages[spot->stage].branch_count;
    qll_filling fillings[3] = {{"stage", NULL}, {"size", NULL}, {"valve", NULL}};
    if (staged) {
        fillings[0].text = qll_text_whole(writer, (double)(spot->stage + 1));
    }
    if (is_valve) {
        const qll_valve *valve = station->stages[spot->stage].branches[spot->branch].valve;
        fillings[1].text = qll_text_size(writer, valve->nominal_m, wording->units);
        fillings[2].text = valve->id;
    }
    qll_message plain = staged ? QLL_SAYS_STAGE : QLL_SAYS_THE_STATION;
    qll_message named = staged ? QLL_SAYS_STAGE_THE_VALVE : QLL_SAYS_THE_VALVE;
    qll_say_with(writer, wording->language, is_valve ? named : plain, fillings, 3);
}

static bool write_outlet(qll_writer *writer, const sentence *s)
{
    size_t outlet = s->verdict->spot.outlet;
    qll_write(writer, outlet < s->wording->site->outlet_count
                          ? s->wording->site->outlets[outlet].name
                          : qll_say(s->wording->language, QLL_SAYS_THE_OUTLET));
    return true;
}

/* Only of a pipe behind the station. */
static bool write_way(qll_writer *writer, const sentence *s)
{
    return s->verdict->spot.outlet < s->wording->site->outlet_count && write_outlet(writer, s);
}

static bool write_lowest(qll_writer *writer, const sentence *s)
{
    size_t outlet = s->verdict->spot.outlet;
    bool is_named = outlet < s->wording->site->outlet_count;
    const qll_filling name = {"outlet", is_named ? s->wording->site->outlets[outlet].name : NULL};
    qll_say_with(writer, s->wording->language,
                 is_named ? QLL_SAYS_LOWEST_OUTLET : QLL_SAYS_STATION_OUTLET, &name, 1);
    return true;
}

/* Only worth saying where there is more than one. */
static bool write_scenario(qll_writer *writer, const sentence *s)
{
    size_t scenario = s->verdict->spot.scenario;
    const qll_duty *duty = s->wording->duty;
    if (duty == NULL || duty->scenario_count < 2 || scenario >= duty->scenario_count) {
        return false;
    }
    qll_write(writer, duty->scenarios[scenario].name);
    return true;
}

static bool write_pipe(qll_writer *writer, const sentence *s)
{
    if (s->verdict->pipe == NULL) {
        return false;
    }
    qll_units_write_pipe_size(writer, s->verdict->pipe->nominal_m, s->wording->units);
    return true;
}

static bool write_size(qll_writer *writer, const sentence *s)
{
    if (!isfinite(s->verdict->right_size_m)) {
        return false;
    }
    qll_units_write_pipe_size(writer, s->verdict->right_size_m, s->wording->units);
    return true;
}

/* A share of the time of what a design peak brings, be it outside all that is usual: never none at all. */
static double seen(double share)
{
    return share > 0.0 ? share : DBL_MIN;
}

/* The corner of a cavitation verdict; nothing of it is known for other rules. */
static bool write_corner(qll_writer *writer, const sentence *s, qll_text name)
{
    const qll_cavitation_corner *corner = &s->verdict->corner;
    qll_unit_system units = s->wording->units;
    if (!(corner->flow_m3s > 0)) {
        return false;
    }
    if (qll_text_is(name, "at_flow")) {
        qll_units_write(writer, corner->flow_m3s, QLL_KIND_FLOW, units);
    } else if (qll_text_is(name, "at_inlet")) {
        double gauge_pa = corner->inlet_pa - s->wording->site->barometric_pa;
        qll_units_write(writer, gauge_pa, QLL_KIND_PRESSURE, units);
    } else if (qll_text_is(name, "absolute")) {
        qll_write_format(writer, "%.2f", corner->indices.ratio_absolute);
    } else if (qll_text_is(name, "xf")) {
        qll_write_format(writer, "%.2f", corner->indices.xf);
    } else if (qll_text_is(name, "onset")) {
        qll_write_format(writer, "%.2f", corner->indices.xfzp1);
    } else if (qll_text_is(name, "split") && isfinite(corner->split_pa_gauge)) {
        qll_units_write(writer, corner->split_pa_gauge, QLL_KIND_PRESSURE, units);
    } else {
        return false;
    }
    return true;
}

static bool write_tank(qll_writer *writer, const sentence *s, double needed_m3)
{
    if (!isfinite(needed_m3)) {
        return false;
    }
    double sold_m3 = qll_tank_sold_m3(needed_m3, s->wording->units);
    qll_units_write(writer, isnan(sold_m3) ? needed_m3 : sold_m3, QLL_KIND_VOLUME,
                    s->wording->units);
    return true;
}

/* What is needed, where the size sold is larger and reads so: a tank a little smaller is enough. */
static bool write_needed(qll_writer *writer, const sentence *s, double needed_m3)
{
    qll_writer sold = qll_writer_new(writer->arena);
    qll_writer needed = qll_writer_new(writer->arena);
    if (!write_tank(&sold, s, needed_m3)) {
        return false;
    }
    qll_units_write(&needed, needed_m3, QLL_KIND_VOLUME, s->wording->units);
    const qll_text text = qll_writer_text(&needed);
    const bool is_larger = !qll_text_is(text, qll_writer_text(&sold).bytes);
    qll_write_text(writer, is_larger ? text : (qll_text){text.bytes, 0});
    return is_larger;
}

static bool write_difference(qll_writer *writer, const sentence *s, double difference_pa)
{
    if (!isfinite(difference_pa)) {
        return false;
    }
    qll_units_write(writer, difference_pa, QLL_KIND_PRESSURE_DIFFERENCE, s->wording->units);
    return true;
}

/* The tank of an expansion verdict, and what else would do. */
static bool write_room(qll_writer *writer, const sentence *s, qll_text name)
{
    const qll_verdict *v = s->verdict;
    if (qll_text_is(name, "tank")) {
        return write_tank(writer, s, v->value);
    }
    if (qll_text_is(name, "least")) {
        return write_needed(writer, s, v->value);
    }
    if (qll_text_is(name, "room")) {
        return write_difference(writer, s, v->room_pa);
    }
    if (qll_text_is(name, "step1") || qll_text_is(name, "step2")) {
        return write_difference(writer, s, v->tank.lower_by_pa[name.bytes[4] - '1']);
    }
    if (qll_text_is(name, "tank1") || qll_text_is(name, "tank2")) {
        return write_tank(writer, s, v->tank.lower_m3[name.bytes[4] - '1']);
    }
    if (qll_text_is(name, "most")) {
        return write_pressure(writer, s, v->tank.relief_limit_pa_gauge);
    }
    if (qll_text_is(name, "tankr")) {
        return write_tank(writer, s, v->tank.by_relief_m3);
    }
    return false;
}

/* Two digits: an estimate of a swing is no better. */
static bool write_often(qll_writer *writer, double hz)
{
    if (!(hz > 0.0) || !isfinite(hz)) {
        return false;
    }
    const double digit = pow(10.0, floor(log10(hz)) - 1.0);
    const double rounded = floor(hz / digit + 0.5) * digit;
    qll_write_format(writer, rounded < 9.95 ? "%.1f" : "%.0f", rounded);
    return true;
}

static bool write_run(qll_writer *writer, const sentence *s)
{
    if (s->verdict->run_says == NULL) {
        return false;
    }
    qll_wording_said(writer, s->wording, &s->verdict->run_says[0]);
    qll_write(writer, " ");
    qll_wording_said(writer, s->wording, &s->verdict->run_says[1]);
    if (s->verdict->finding == QLL_FINDING_HAMMER_QUICK && s->verdict->grade != QLL_GRADE_GOOD) {
        qll_write(writer, " ");
        qll_write(writer, qll_say(s->wording->language, QLL_SAYS_HAMMER_QUICK_CURE));
    }
    return true;
}

/* A valve's row shows what its limit is held against: the velocity at the design peak. The band is no limit. */
static bool is_velocity_of_valve(const qll_verdict *verdict)
{
    return verdict->rule == QLL_RULE_VELOCITY && isfinite(verdict->value_at_peak);
}

/* A valve that is never in charge has no average; the rule judges it by the design peak. */
static bool is_peak_alone(const qll_verdict *verdict)
{
    return is_velocity_of_valve(verdict) && !(verdict->value < verdict->value_at_peak)
           && !(verdict->value > verdict->value_at_peak);
}

static bool write_token(qll_writer *writer, qll_text name, const void *context)
{
    const sentence *s = context;
    const qll_verdict *v = s->verdict;
    if (qll_text_is(name, "subject")) {
        write_subject(writer, s->wording, s->station, &v->spot);
        return true;
    }
    if (qll_text_is(name, "value")) {
        return !is_peak_alone(v) && write_figure(writer, s, v->value, v->limit);
    }
    if (qll_text_is(name, "limit")) {
        return write_figure(writer, s, v->limit, v->value);
    }
    if (qll_text_is(name, "run")) {
        return write_run(writer, s);
    }
    if (qll_text_is(name, "often")) {
        return write_often(writer, v->value_at_peak);
    }
    if (qll_text_is(name, "peak")) {
        return write_figure(writer, s, v->value_at_peak, v->limit);
    }
    if (qll_text_is(name, "near")) {
        qll_write(writer, qll_text_near(s->wording->units));
        return true;
    }
    if (qll_text_is(name, "precharge")) {
        return write_pressure(writer, s, v->value_at_peak);
    }
    if (qll_text_is(name, "shortage")) {
        return write_shortage(writer, s);
    }
    if (qll_text_is(name, "spare")) {
        return v->limit > 0.0 && write_figure(writer, s, v->limit / QLL_STRAINER_SHARE, v->value);
    }
    if (qll_text_is(name, "value%")) {
        return write_share(writer, s, v->value);
    }
    if (qll_text_is(name, "peak%")) {
        return write_share(writer, s, v->value_at_peak);
    }
    if (qll_text_is(name, "past%")) {
        return write_share(writer, s, seen(v->past_share));
    }
    if (qll_text_is(name, "size")) {
        return write_size(writer, s);
    }
    if (qll_text_is(name, "pipe")) {
        return write_pipe(writer, s);
    }
    if (qll_text_is(name, "outlet")) {
        return write_outlet(writer, s);
    }
    if (qll_text_is(name, "way")) {
        return write_way(writer, s);
    }
    if (qll_text_is(name, "lowest")) {
        return write_lowest(writer, s);
    }
    if (qll_text_is(name, "scenario")) {
        return write_scenario(writer, s);
    }
    if (v->rule == QLL_RULE_EXPANSION) {
        return write_room(writer, s, name);
    }
    return write_corner(writer, s, name);
}

void qll_wording_verdict(qll_writer *writer, const qll_wording *wording, const qll_station *station,
                         const qll_verdict *verdict)
{
    const sentence s = {wording, station, verdict};
    qll_template_write(writer, qll_say(wording->language, (qll_message)verdict->finding),
                       write_token, &s, qll_say(wording->language, QLL_SAYS_UNKNOWN));
}

/* What friction holds has no limit to show: the figure is of the swing without it. */
static bool is_held(const qll_verdict *verdict)
{
    return verdict->finding == QLL_FINDING_HUNTING_HELD;
}

/* Rules whose figures are shares. */
static bool is_share(qll_rule rule)
{
    return rule == QLL_RULE_CAPACITY || rule == QLL_RULE_LOW_FLOW;
}

static double figure_of(const qll_verdict *verdict)
{
    return is_velocity_of_valve(verdict) ? verdict->value_at_peak : verdict->value;
}

static double limit_of(const qll_verdict *verdict)
{
    return is_velocity_of_valve(verdict) && verdict->grade == QLL_GRADE_GOOD ? QLL_SPEED_MOST_M_S
                                                                             : verdict->limit;
}

static void write_known_figure(qll_writer *writer, const sentence *s, double figure, double other)
{
    if (is_share(s->verdict->rule)) {
        qll_write(writer, qll_text_bare_share(writer, figure));
    } else if (!write_figure(writer, s, figure, other)) {
        qll_write(writer, "-");
    }
}

void qll_wording_value(qll_writer *writer, const qll_wording *wording, const qll_verdict *verdict)
{
    const sentence s = {wording, NULL, verdict};
    if (isfinite(verdict->past_share)) {
        qll_write(writer, qll_text_bare_share(writer, seen(verdict->past_share)));
    } else {
        const double figure = is_held(verdict) ? (double)NAN : figure_of(verdict);
        write_known_figure(writer, &s, figure, limit_of(verdict));
    }
}

void qll_wording_limit(qll_writer *writer, const qll_wording *wording, const qll_verdict *verdict)
{
    const sentence s = {wording, NULL, verdict};
    const bool has_limit = !isfinite(verdict->past_share) && !is_held(verdict);
    write_known_figure(writer, &s, has_limit ? limit_of(verdict) : (double)NAN, figure_of(verdict));
}
