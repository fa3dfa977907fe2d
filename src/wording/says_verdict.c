/* One sentence per finding: plainly, then the number, then the reason. A sentence is a template:
 *
 *   {subject}  "The 2 in valve G-50", "Stage 1: the 2 in valve G-50", "The station"
 *   {value} {limit} {peak}   the verdict's figures in the reader's units
 *   {shortage}               limit less value
 *   {value%} {peak%}         the same as shares
 *   {precharge}              the second figure as a pressure
 *   {size} {outlet} {scenario}
 *   [ ... ]    left out unless every figure inside is known
 */
#include "wording/wording.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

static const char *const templates[QLL_FINDING_COUNT] = {
    [QLL_FINDING_DELIVERY_MET] = "{outlet} has {value} in hand at the peak with the supply at its "
                                 "lowest[ ({scenario})].",
    [QLL_FINDING_DELIVERY_TIGHT] = "{outlet} only just gets what it needs at the peak with the "
                                   "supply at its lowest: {value} in hand[ ({scenario})].",
    [QLL_FINDING_DELIVERY_SHORT] = "{outlet} is short of what it needs by {shortage} at the "
                                   "peak with the supply at its lowest[ ({scenario})].",
    [QLL_FINDING_FALLOFF_MET] = "The outlet falls off by {value} at the peak with the supply at "
                                "its lowest; {limit} is permitted[ ({scenario})].",
    [QLL_FINDING_FALLOFF_TIGHT] = "The outlet falls off by {value} at the peak with the supply at "
                                  "its lowest, close to the permitted {limit}[ ({scenario})].",
    [QLL_FINDING_FALLOFF_ABOVE] = "The outlet falls off by {value} at the peak with the supply at "
                                  "its lowest; only {limit} is permitted[ ({scenario})].",
    [QLL_FINDING_STATIC_MET] = "With nothing running and the supply at its highest the outlet "
                               "stands at {value}; {limit} is permitted.",
    [QLL_FINDING_STATIC_NEAR] = "With nothing running and the supply at its highest the outlet "
                                "stands at {value}, close under the permitted {limit}.",
    [QLL_FINDING_STATIC_ABOVE] = "With nothing running and the supply at its highest the outlet "
                                 "stands at {value}, above the permitted {limit}.",
    [QLL_FINDING_RATIO_PREFERRED] = "{subject} takes {value}:1 at worst; up to {limit}:1 is quiet "
                                    "ground.",
    [QLL_FINDING_RATIO_HIGH] = "{subject} takes {value}:1 at worst; up to {limit}:1 is preferred, "
                               "towards 3:1 noise becomes likely.",
    [QLL_FINDING_RATIO_ABOVE_MAX] = "{subject} takes {value}:1 at worst; above {limit}:1 the drop "
                                    "should be shared by two stages.",
    [QLL_FINDING_VELOCITY_IN_BAND] = "{subject} does its work at {value} in its pipe, within the "
                                     "band; {peak} at the design peak.",
    [QLL_FINDING_VELOCITY_SLOW] = "{subject} does its work at {value} in its pipe, below the band "
                                  "that begins at {limit}; {peak} at the design peak.",
    [QLL_FINDING_VELOCITY_OVERSIZED] = "{subject} is oversized: its pipe reaches only {peak} even "
                                       "at the design peak, the band begins at {limit}[; {size} "
                                       "would not be].",
    [QLL_FINDING_VELOCITY_FAST] = "{subject} does its work at {value} in its pipe, above the band "
                                  "that ends at {limit}; {peak} at the design peak.",
    [QLL_FINDING_VELOCITY_PEAK_FAST] = "{subject} does its work at {value} in its pipe, but "
                                       "reaches {peak} at the design peak; the band ends at "
                                       "{limit}.",
    [QLL_FINDING_VELOCITY_ABOVE_MAX] = "{subject} is too small: {peak} in its pipe at the design "
                                       "peak, {limit} is the most[; {size} would do].",
    [QLL_FINDING_CAPACITY_IN_HAND] = "{subject} has travel in hand at the design peak: {value%} "
                                     "open.",
    [QLL_FINDING_CAPACITY_NEAR_FULL] = "{subject} is nearly wide open at the design peak: "
                                       "{value%}.",
    [QLL_FINDING_CAPACITY_FULL_TRAVEL] = "{subject} is wide open at the design peak with the "
                                         "supply at its lowest and no longer regulates.",
    [QLL_FINDING_CAPACITY_CANNOT_PASS] = "{subject} cannot pass the design peak with the supply at "
                                         "its lowest.",
    [QLL_FINDING_LOW_FLOW_STABLE] = "{subject} spends {value%} of the flowing time below its least "
                                    "stable flow, with {peak%} of the water.",
    [QLL_FINDING_LOW_FLOW_SOME] = "{subject} spends {value%} of the flowing time below its least "
                                  "stable flow, with {peak%} of the water: it may chatter then; an "
                                  "estimate.",
    [QLL_FINDING_LOW_FLOW_MUCH] = "{subject} spends {value%} of the flowing time below its least "
                                  "stable flow, with {peak%} of the water: it will chatter; an "
                                  "estimate.",
    [QLL_FINDING_CAVITATION_QUIET] = "{subject} reaches {value} of the cavitation onset at worst.",
    [QLL_FINDING_CAVITATION_SOMETIMES] = "{subject} reaches {value} times the cavitation onset at "
                                         "worst; it cavitates for {peak%} of the flowing time.",
    [QLL_FINDING_CAVITATION_OFTEN] = "{subject} reaches {value} times the cavitation onset at "
                                     "worst; it cavitates for {peak%} of the flowing time.",
    [QLL_FINDING_CAVITATION_DAMAGING] = "{subject} reaches {value} times the cavitation onset: "
                                        "loud, and it eats the seat; it cavitates for {peak%} of "
                                        "the flowing time.",
    [QLL_FINDING_RATING_WITHIN] = "{subject} sees {value} at its inlet at most and is rated for "
                                  "{limit}.",
    [QLL_FINDING_RATING_INLET] = "{subject} may see {value} at its inlet and is rated for {limit}.",
    [QLL_FINDING_RATING_SET_RANGE] = "{subject} would be set to {value}, outside its range that "
                                     "ends at {limit}.",
    [QLL_FINDING_RATING_TEMPERATURE] = "{subject} sees water of {value} and is rated for {limit}.",
    [QLL_FINDING_EXPANSION_NO_HEATER] =
        "No heater is named behind the station, so no growth of hot "
        "water was looked at.",
    [QLL_FINDING_EXPANSION_TANK_ENOUGH] = "The expansion tank of {limit} takes what the heater "
                                          "pushes out; {value} charged to {precharge} would do.",
    [QLL_FINDING_EXPANSION_TANK_MISSING] = "The valves let no water back, and no expansion tank is "
                                           "named: the heater needs one of {value}, charged to "
                                           "{precharge} before it is filled.",
    [QLL_FINDING_EXPANSION_TANK_SMALL] = "The expansion tank of {limit}, charged as it is, takes "
                                         "too little of what the heater pushes out; {value} "
                                         "charged to {precharge} would do.",
    [QLL_FINDING_EXPANSION_NO_ROOM] = "The outlet at no flow, {value}, leaves an expansion tank no "
                                      "room below the permitted {limit}.",
    [QLL_FINDING_EXPANSION_RELIEF_NEAR] = "The heater's relief valve, set to {value}, is close "
                                          "above the pressure at no flow[, {precharge}]: {limit} "
                                          "would be clear of it.",
    [QLL_FINDING_EXPANSION_RELIEF_LOW] =
        "The heater's relief valve, set to {value}, is too low for "
        "the pressure at no flow[, {precharge}]: it needs {limit} "
        "or more.",
    [QLL_FINDING_STRAINER_EASY] = "Half-blocked strainers take {value} off the outlet at the peak "
                                  "with the supply at its lowest[ ({scenario})].",
    [QLL_FINDING_STRAINER_EATS] = "Half-blocked strainers take {value} off the outlet at the peak "
                                  "with the supply at its lowest, and only {limit} can be spared[ "
                                  "({scenario})]: keep them clean, or fit larger ones.",
};

typedef struct sentence {
    qll_writer *writer;
    const qll_wording *wording;
    const qll_station *station;
    const qll_verdict *verdict;
} sentence;

static bool write_figure(const sentence *s, double value)
{
    if (!isfinite(value)) {
        return false;
    }
    if (s->verdict->kind == QLL_KIND_NUMBER) {
        qll_write_format(s->writer, s->verdict->rule == QLL_RULE_RATIO ? "%.1f" : "%.2f", value);
    } else {
        qll_units_write(s->writer, value, s->verdict->kind, s->wording->units);
    }
    return true;
}

static bool write_pressure(const sentence *s, double pa_gauge)
{
    if (!isfinite(pa_gauge)) {
        return false;
    }
    qll_units_write(s->writer, pa_gauge, QLL_KIND_PRESSURE, s->wording->units);
    return true;
}

static bool write_share(const sentence *s, double share)
{
    if (!isfinite(share)) {
        return false;
    }
    if (share > 0 && share < 0.005) {
        qll_write(s->writer, "under 1 %");
    } else {
        qll_write_format(s->writer, "%.0f %%", 100 * share);
    }
    return true;
}

static bool write_subject(const sentence *s)
{
    const qll_spot *spot = &s->verdict->spot;
    if (spot->stage >= s->station->stage_count) {
        qll_write(s->writer, "The station");
        return true;
    }
    const qll_stage *stage = &s->station->stages[spot->stage];
    bool staged = s->station->stage_count > 1;
    if (staged) {
        qll_write_format(s->writer, "Stage %zu", spot->stage + 1);
    }
    if (spot->branch >= stage->branch_count) {
        qll_write(s->writer, staged ? "" : "The station");
        return true;
    }
    const qll_valve *valve = stage->branches[spot->branch].valve;
    qll_write(s->writer, staged ? ": the " : "The ");
    qll_units_write_pipe_size(s->writer, valve->nominal_m, s->wording->units);
    qll_write(s->writer, " valve ");
    qll_write(s->writer, valve->id);
    return true;
}

static bool write_outlet(const sentence *s)
{
    size_t outlet = s->verdict->spot.outlet;
    qll_write(s->writer, outlet < s->wording->site->outlet_count
                             ? s->wording->site->outlets[outlet].name
                             : "The outlet");
    return true;
}

/* Only worth saying where there is more than one. */
static bool write_scenario(const sentence *s)
{
    size_t scenario = s->verdict->spot.scenario;
    const qll_duty *duty = s->wording->duty;
    if (duty == NULL || duty->scenario_count < 2 || scenario >= duty->scenario_count) {
        return false;
    }
    qll_write(s->writer, duty->scenarios[scenario].name);
    return true;
}

static bool write_size(const sentence *s)
{
    if (!isfinite(s->verdict->right_size_m)) {
        return false;
    }
    qll_units_write_pipe_size(s->writer, s->verdict->right_size_m, s->wording->units);
    return true;
}

static bool write_token(const sentence *s, qll_text name)
{
    const qll_verdict *v = s->verdict;
    if (qll_text_is(name, "subject")) {
        return write_subject(s);
    }
    if (qll_text_is(name, "value")) {
        return write_figure(s, v->value);
    }
    if (qll_text_is(name, "limit")) {
        return write_figure(s, v->limit);
    }
    if (qll_text_is(name, "peak")) {
        return write_figure(s, v->value_at_peak);
    }
    if (qll_text_is(name, "precharge")) {
        return write_pressure(s, v->value_at_peak);
    }
    if (qll_text_is(name, "shortage")) {
        return write_figure(s, v->limit - v->value);
    }
    if (qll_text_is(name, "value%")) {
        return write_share(s, v->value);
    }
    if (qll_text_is(name, "peak%")) {
        return write_share(s, v->value_at_peak);
    }
    if (qll_text_is(name, "size")) {
        return write_size(s);
    }
    if (qll_text_is(name, "outlet")) {
        return write_outlet(s);
    }
    return qll_text_is(name, "scenario") && write_scenario(s);
}

/* Writes @p text with its tokens filled in; false if one of them was not known. */
static bool write_filled(const sentence *s, qll_text text)
{
    bool known = true;
    size_t at = 0;
    while (at < text.size) {
        const char *open = memchr(text.bytes + at, '{', text.size - at);
        size_t plain = open == NULL ? text.size - at : (size_t)(open - text.bytes) - at;
        qll_write_text(s->writer, (qll_text){text.bytes + at, plain});
        at += plain;
        if (open == NULL) {
            break;
        }
        const char *close = memchr(open, '}', text.size - at);
        if (close == NULL) {
            return false;
        }
        known = write_token(s, (qll_text){open + 1, (size_t)(close - open) - 1}) && known;
        at = (size_t)(close - text.bytes) + 1;
    }
    return known;
}

/* Writes a [group] only if all its tokens are known. */
static void write_group(const sentence *s, qll_text group)
{
    qll_writer trial = qll_writer_new(s->writer->arena);
    sentence inside = *s;
    inside.writer = &trial;
    bool known = write_filled(&inside, group);
    s->writer->no_memory = s->writer->no_memory || trial.no_memory;
    if (known) {
        qll_write_text(s->writer, qll_writer_text(&trial));
    }
}

void qll_wording_verdict(qll_writer *writer, const qll_wording *wording, const qll_station *station,
                         const qll_verdict *verdict)
{
    const sentence s = {writer, wording, station, verdict};
    qll_text rest = qll_text_of(templates[verdict->finding]);
    while (rest.size > 0) {
        const char *open = memchr(rest.bytes, '[', rest.size);
        const char *close = open == NULL ? NULL : memchr(open, ']', rest.size);
        size_t plain = close == NULL ? rest.size : (size_t)(open - rest.bytes);
        if (!write_filled(&s, (qll_text){rest.bytes, plain})) {
            qll_write(writer, "(unknown)");
        }
        if (close == NULL) {
            break;
        }
        write_group(&s, (qll_text){open + 1, (size_t)(close - open) - 1});
        size_t used = (size_t)(close - rest.bytes) + 1;
        rest = (qll_text){rest.bytes + used, rest.size - used};
    }
}
