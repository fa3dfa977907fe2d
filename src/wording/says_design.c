/* What a station costs, how often it calls somebody back, and why it is the one. */
#include "wording/texts.h"
#include "wording/wording.h"

#include <math.h>

/* What stands behind the size of each valve. */
typedef enum naming {
    QLL_NAMING_NONE,   /* "3/4 in + 2 in" */
    QLL_NAMING_ID,     /* "3/4 in G-D20 + 2 in G-D50" */
    QLL_NAMING_ACTING, /* "3/4 in direct-acting + 2 in pilot-operated" */
} naming;

static void write_stage(qll_writer *writer, const qll_wording *wording, const qll_stage *stage,
                        naming shown)
{
    qll_writer sizes = qll_writer_new(writer->arena);
    for (size_t b = 0; b < stage->branch_count; b++) {
        const qll_valve *valve = stage->branches[b].valve;
        const qll_message acting =
            (qll_message)((size_t)QLL_SAYS_ACTING_DIRECT + (size_t)valve->acting);
        qll_write(&sizes, b == 0 ? "" : " + ");
        qll_units_write_pipe_size(&sizes, valve->nominal_m, wording->units);
        if (shown != QLL_NAMING_NONE) {
            qll_write(&sizes, " ");
            qll_write(&sizes,
                      shown == QLL_NAMING_ID ? valve->id : qll_say(wording->language, acting));
        }
    }
    const qll_filling filling = {"sizes", qll_writer_text(&sizes).bytes};
    if (stage->branch_count > 1) {
        qll_say_with(writer, wording->language, QLL_SAYS_IN_PARALLEL, &filling, 1);
    } else {
        qll_write(writer, filling.text);
    }
}

static void write_stages(qll_writer *writer, const qll_wording *wording, const qll_station *station,
                         naming shown)
{
    if (station->stage_count > 1) {
        const qll_filling filling = {"stages",
                                     qll_text_whole(writer, (double)station->stage_count)};
        qll_say_with(writer, wording->language, QLL_SAYS_IN_SERIES, &filling, 1);
    }
    for (size_t s = 0; s < station->stage_count; s++) {
        qll_write(writer, s == 0 ? "" : qll_say(wording->language, QLL_SAYS_THEN));
        write_stage(writer, wording, &station->stages[s], shown);
    }
}

static void write_kind(qll_writer *writer, const qll_wording *wording, const qll_station *station,
                       naming shown)
{
    bool is_one = qll_station_valve_count(station) == 1;
    qll_write(writer, is_one ? qll_say(wording->language, QLL_SAYS_ONE_VALVE) : "");
    write_stages(writer, wording, station, shown);
}

void qll_wording_station(qll_writer *writer, const qll_wording *wording, const qll_station *station)
{
    write_kind(writer, wording, station, QLL_NAMING_NONE);
}

void qll_wording_kind(qll_writer *writer, const qll_wording *wording, const qll_station *station)
{
    write_kind(writer, wording, station, QLL_NAMING_ACTING);
}

void qll_wording_purchase(qll_writer *writer, const qll_wording *wording,
                          const qll_station *station)
{
    if (qll_station_valve_count(station) != 1) {
        write_stages(writer, wording, station, QLL_NAMING_ID);
        return;
    }
    const qll_valve *valve = station->stages[0].branches[0].valve;
    const qll_filling fillings[] = {
        {"size", qll_text_size(writer, valve->nominal_m, wording->units)}, {"valve", valve->id}};
    qll_say_with(writer, wording->language, QLL_SAYS_PURCHASE_ONE, fillings, 2);
}

/* ---- in one line ---- */

/* "60 psi + 55 psi": set-points as the valves stand. */
static void write_points(qll_writer *writer, const qll_wording *wording, const qll_station *station)
{
    for (size_t s = 0; s < station->stage_count; s++) {
        const qll_stage *stage = &station->stages[s];
        qll_write(writer, s == 0 ? "" : qll_say(wording->language, QLL_SAYS_THEN));
        for (size_t b = 0; b < stage->branch_count; b++) {
            qll_write(writer, b == 0 ? "" : " + ");
            qll_write(writer, qll_text_quantity(writer, stage->branches[b].set_pa_gauge,
                                                QLL_KIND_PRESSURE, wording->units));
        }
    }
}

void qll_wording_glance(qll_writer *writer, const qll_wording *wording, const qll_design *design)
{
    if (!design->need.is_needed && design->count == 0) {
        qll_write(writer, qll_say(wording->language, QLL_SAYS_GLANCE_NO_VALVE));
        return;
    }
    qll_writer name = qll_writer_new(writer->arena);
    qll_writer points = qll_writer_new(writer->arena);
    qll_writer chance = qll_writer_new(writer->arena);
    const qll_shown *first = design->count > 0 ? &design->shown[0] : NULL;
    if (first != NULL) {
        qll_wording_station(&name, wording, &first->station);
        write_points(&points, wording, &first->station);
        qll_wording_chance(&chance, wording->language, first->cost.callback_share,
                           QLL_CHANCE_ABOUT);
    }
    const qll_filling fillings[] = {
        {"station", first == NULL ? NULL : qll_writer_text(&name).bytes},
        {"points", qll_writer_text(&points).bytes},
        {"chance", qll_writer_text(&chance).bytes},
    };
    qll_say_with(writer, wording->language,
                 design->is_fit ? QLL_SAYS_GLANCE : QLL_SAYS_GLANCE_NOT_FIT, fillings, 3);
}

/* ---- the reason ---- */

/* Part of why one valve costs more or less may be that it works another way than those recommended. */
static qll_message alone_says(const qll_station *best, qll_acting acting)
{
    for (size_t k = 0; k < best->stage_count; k++) {
        for (size_t j = 0; j < best->stages[k].branch_count; j++) {
            if (best->stages[k].branches[j].valve->acting != acting) {
                return acting == QLL_ACTING_PILOT ? QLL_SAYS_ALONE_PILOT : QLL_SAYS_ALONE_DIRECT;
            }
        }
    }
    return QLL_SAYS_ALONE;
}

/* "One 2 in valve alone", "Parallel valves 3/4 in + 2 in". */
static const char *simpler_text(qll_writer *writer, const qll_wording *wording,
                                const qll_station *best, const qll_station *station)
{
    qll_writer name = qll_writer_new(writer->arena);
    if (qll_station_valve_count(station) == 1) {
        const qll_valve *valve = station->stages[0].branches[0].valve;
        const qll_filling size = {"size", qll_text_size(writer, valve->nominal_m, wording->units)};
        qll_say_with(&name, wording->language, alone_says(best, valve->acting), &size, 1);
        return qll_writer_text(&name).bytes;
    }
    qll_wording_station(&name, wording, station);
    return qll_text_capital(writer->arena, qll_writer_text(&name).bytes);
}

static void write_simpler(qll_writer *writer, const qll_wording *wording, const qll_shown *best,
                          const qll_shown *simpler)
{
    double saved = best->cost.installed - simpler->cost.installed;
    qll_writer amount = qll_writer_new(writer->arena);
    qll_writer chance = qll_writer_new(writer->arena);
    qll_wording_amount(&amount, wording, fabs(saved));
    double share = simpler->cost.callback_share;
    qll_wording_chance(&chance, wording->language, share, QLL_CHANCE_TIMES);
    const qll_filling fillings[] = {
        {"station", simpler_text(writer, wording, &best->station, &simpler->station)},
        {"value", qll_writer_text(&amount).bytes},
        {"chance", qll_writer_text(&chance).bytes},
        {"why",
         share >= QLL_CHANCE_LEAST ? qll_say_mechanism(wording->language, &simpler->cost) : NULL},
    };
    qll_say_with(writer, wording->language,
                 saved >= 0.0 ? QLL_SAYS_SIMPLER_CHEAPER : QLL_SAYS_SIMPLER_DEARER, fillings, 4);
}

/* What the one valve was weighed against: the first fit station of more valves, if one is shown. */
static bool write_one_valve(qll_writer *writer, const qll_wording *wording,
                            const qll_design *design)
{
    const double installed = design->shown[0].cost.installed;
    size_t other = 1;
    while (other < design->count
           && (!design->shown[other].fitness.is_fit
               || qll_station_valve_count(&design->shown[other].station) < 2
               || !(design->shown[other].cost.installed > installed))) {
        other += 1;
    }
    if (other >= design->count) {
        return false;
    }
    const qll_shown *more = &design->shown[other];
    qll_writer name = qll_writer_new(writer->arena);
    qll_writer amount = qll_writer_new(writer->arena);
    qll_writer chance = qll_writer_new(writer->arena);
    qll_wording_station(&name, wording, &more->station);
    qll_wording_amount(&amount, wording, more->cost.installed - installed);
    qll_wording_chance(&chance, wording->language, more->cost.callback_share, QLL_CHANCE_TIMES);
    const qll_filling fillings[] = {{"station", qll_writer_text(&name).bytes},
                                    {"value", qll_writer_text(&amount).bytes},
                                    {"chance", qll_writer_text(&chance).bytes}};
    qll_say_with(writer, wording->language, QLL_SAYS_ONE_VALVE_DOES, fillings, 3);
    return true;
}

static void write_ratio(qll_writer *writer, const qll_wording *wording, const qll_design *design)
{
    const double ratio_max = wording->site->limits.ratio_max;
    const qll_filling fillings[] = {
        {"value", qll_text_decimals(writer, design->one_stage_ratio, ratio_max, 1)},
        {"limit", qll_text_decimals(writer, ratio_max, design->one_stage_ratio, 1)},
    };
    qll_say_with(writer, wording->language, QLL_SAYS_REASON_STAGES_BY_RATIO, fillings, 2);
}

void qll_wording_reason(qll_writer *writer, const qll_wording *wording, const qll_design *design)
{
    if (design->count == 0) {
        return;
    }
    bool pays = design->reason == QLL_REASON_PAIR_PAYS || design->reason == QLL_REASON_STAGES_PAY;
    if (pays && design->simpler < design->count) {
        write_simpler(writer, wording, &design->shown[0], &design->shown[design->simpler]);
    } else if (design->reason == QLL_REASON_STAGES_BY_RATIO) {
        write_ratio(writer, wording, design);
    } else if (design->reason != QLL_REASON_ONE_VALVE
               || !write_one_valve(writer, wording, design)) {
        qll_write(writer, qll_say(wording->language, (qll_message)((size_t)QLL_SAYS_REASON_ONE_VALVE
                                                                   + design->reason)));
    }
}
