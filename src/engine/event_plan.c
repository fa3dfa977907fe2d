#include "engine/event_plan.h"

#include "engine/choose.h"
#include "engine/planning.h"

#include <math.h>
#include <string.h>

static const double begins_s = 0.1;
static const double closing_usual_s = 0.03, change_usual_s = 0.5;
static const double closing_after_s = 2, change_after_s = 3;
static const double closing_watched_s = 1, change_watched_s = 1.5;
static const double within_most_s = 3600;
static const double fixture_usual_m3s = 2e-4; /* of a clothes washer, about (our assumption) */
static const double heating_s = 3600;
static const double night_usual_s = 8 * 3600.0, night_most_s = 86400;
static const double leak_usual_m3s = 5e-8; /* a drop a second: docs/theory/seat_leak.md */
static const double night_step_s = 5;

static const char *const event_words[QLL_EVENT_COUNT] = {
#define QLL_EVENT_WORD(name, word) word,
    QLL_EVENT_LIST(QLL_EVENT_WORD)
#undef QLL_EVENT_WORD
};

/* ---- what the question says ---- */

static const char *quantity_text(const qll_planning *p, double si, qll_kind kind)
{
    return qll_quantity_text(p->asked->arena, si, kind, p->of->prepared->survey.units);
}

/* The option's value, or @p usual; over 0 and at most @p most, else refused. */
static double read_option(qll_planning *p, const char *option, const char *text, qll_kind kind,
                          double usual, double most)
{
    if (text == NULL) {
        return usual;
    }
    qll_quantity quantity = {0};
    qll_units_refusal refusal = {0};
    if (!qll_units_read(qll_text_of(text), kind, p->asked->arena, &quantity, &refusal)) {
        qll_asked_refuse(p->asked, refusal.code, option, &refusal.says,
                         qll_hint_word(refusal.hint, p->asked->arena));
        return usual;
    }
    if (!(quantity.si > 0 && quantity.si <= most)) {
        const qll_said says = {kind == QLL_KIND_TIME ? QLL_TEXT_EVENT_TIME : QLL_TEXT_EVENT_FLOW,
                               {qll_as_quoted(qll_text_of(text)), qll_as_quantity(most, kind)}};
        qll_asked_refuse(p->asked, QLL_CODE_OUT_OF_RANGE, option, &says, NULL);
        return usual;
    }
    return quantity.si;
}

static void assume(const qll_planning *p, const char *what, const char *value, qll_text_id why)
{
    if (p->order->notes_usual) {
        qll_assumed_add(&p->asked->assumed, qll_as_is(what), qll_as_is(value),
                        (qll_said){.id = why});
    }
}

static size_t read_event(qll_planning *p)
{
    if (p->order->event == NULL) {
        return QLL_EVENT_CLOSURE;
    }
    const qll_choice choice = {"--event", event_words, QLL_EVENT_COUNT, QLL_TEXT_EVENT_UNKNOWN};
    return qll_choose(p->asked, &choice, p->order->event);
}

static double static_high(const qll_planning *p)
{
    return p->of->prepared->survey.site.supply.static_high_pa_gauge;
}

/* ---- a closing ---- */

/* The greatest flow of a single fixture of all scenarios; NaN without one. */
static double greatest_fixture_m3s(const qll_survey *survey)
{
    double most_m3s = NAN;
    for (size_t i = 0; i < survey->scenario_count; i++) {
        for (size_t k = 0; k < survey->scenarios[i].load_count; k++) {
            most_m3s = fmax(most_m3s, qll_load_flow_m3s(&survey->scenarios[i].loads[k]));
        }
    }
    return most_m3s;
}

/* What a closing outlet draws: no more than the last pipe to it carries. */
static double usual_draw_m3s(const qll_survey *survey, size_t outlet)
{
    const double fixture_m3s = greatest_fixture_m3s(survey);
    const double draw_m3s = fixture_m3s > 0 ? fixture_m3s : fixture_usual_m3s;
    if (outlet >= survey->site.outlet_count || survey->site.outlets[outlet].path_count == 0) {
        return draw_m3s;
    }
    const qll_outlet *own = &survey->site.outlets[outlet];
    return qll_path_carries_m3s(&own->path[own->path_count - 1], draw_m3s);
}

/* The outlet that the question names, or the first. */
static size_t read_outlet(qll_planning *p)
{
    const qll_site *site = &p->of->prepared->survey.site;
    const char *named = p->order->outlet;
    if (site->outlet_count == 0) {
        qll_asked_refuse(p->asked, QLL_CODE_MISSING_KEY, "--event", QLL_SAYS(OUTLET_NONE),
                         QLL_SAYS(HINT_OUTLET_NONE));
        return 0;
    }
    if (named == NULL) {
        assume(p, "--outlet", site->outlets[0].name, QLL_TEXT_WHY_CLOSURE_OUTLET);
        return 0;
    }
    size_t found = 0;
    while (found < site->outlet_count && strcmp(site->outlets[found].name, named) != 0) {
        found += 1;
    }
    if (found < site->outlet_count) {
        return found;
    }
    const char **names = qll_arena_take(p->asked->arena, site->outlet_count, sizeof *names);
    for (size_t i = 0; names != NULL && i < site->outlet_count; i++) {
        names[i] = site->outlets[i].name;
    }
    if (names != NULL) {
        const qll_said says = {QLL_TEXT_OUTLET_UNKNOWN,
                               {qll_as_quoted(qll_text_of(named)),
                                qll_as_words(p->asked->arena, names, site->outlet_count)}};
        qll_asked_refuse(p->asked, QLL_CODE_UNKNOWN_WORD, "--outlet", &says, NULL);
    }
    return 0;
}

static bool add_move(qll_planning *p, size_t draw, double flow_m3s, qll_opening_move move)
{
    qll_opening_move *own = qll_arena_take(p->asked->arena, 1, sizeof *own);
    if (own == NULL) {
        return false;
    }
    *own = move;
    p->made->draws[draw] = (qll_draw_plan){flow_m3s, move.from, own, 1};
    return true;
}

static qll_status plan_closure(qll_planning *p)
{
    const qll_event_order *order = p->order;
    const qll_survey *survey = &p->of->prepared->survey;
    qll_simulated_findings *found = p->findings;
    const size_t outlet = read_outlet(p);
    const double usual_m3s = usual_draw_m3s(survey, outlet);
    found->within_s =
        read_option(p, "--within", order->within, QLL_KIND_TIME, closing_usual_s, within_most_s);
    found->before_m3s = read_option(p, "--flow", order->flow, QLL_KIND_FLOW, usual_m3s, 1);
    found->after_m3s = 0;
    if (p->asked->problems.refusal_count > 0) {
        return qll_problems_status(&p->asked->problems);
    }
    if (order->within == NULL) {
        assume(p, "--within", quantity_text(p, found->within_s, QLL_KIND_TIME),
               QLL_TEXT_WHY_CLOSING);
    }
    if (order->flow == NULL) {
        assume(p, "--flow", quantity_text(p, found->before_m3s, QLL_KIND_FLOW),
               QLL_TEXT_WHY_CLOSURE_FLOW);
    }
    found->static_pa_gauge = static_high(p);
    p->made->plan.followed = outlet;
    p->made->plan.until_s = begins_s + found->within_s + closing_after_s;
    p->made->plan.watched_s = closing_watched_s;
    found->says = (qll_said){QLL_TEXT_SIM_CLOSURE,
                             {qll_as_is(survey->site.outlets[outlet].name),
                              qll_as_quantity(found->within_s, QLL_KIND_TIME),
                              qll_as_quantity(found->before_m3s, QLL_KIND_FLOW),
                              qll_as_quantity(found->static_pa_gauge, QLL_KIND_PRESSURE)}};
    const qll_opening_move shuts = {begins_s, found->within_s, 1, 0, 1};
    return add_move(p, outlet, found->before_m3s, shuts) ? QLL_OK : QLL_NO_MEMORY;
}

/* ---- a change of what the building draws ---- */

/* What each named outlet draws of @p flow_m3s; the rest leaves at the station's outlet. */
static bool spread(qll_planning *p, double flow_m3s, double from, double to)
{
    const qll_site *site = &p->of->prepared->survey.site;
    const qll_opening_move move = {begins_s, p->findings->within_s, from, to, 1};
    double left_m3s = flow_m3s;
    for (size_t i = 0; i < site->outlet_count; i++) {
        const qll_outlet *outlet = &site->outlets[i];
        double own_m3s = flow_m3s / (double)site->outlet_count;
        if (outlet->path_count > 0) {
            own_m3s = qll_path_carries_m3s(&outlet->path[outlet->path_count - 1], own_m3s);
        }
        left_m3s -= own_m3s;
        if (own_m3s > 0 && !add_move(p, i, own_m3s, move)) {
            return false;
        }
    }
    return !(left_m3s > 1e-9 * flow_m3s) || add_move(p, site->outlet_count, left_m3s, move);
}

static double seldom_more_m3s(const qll_prepared *prepared)
{
    double most_m3s = 0;
    for (size_t i = 0; i < prepared->survey.scenario_count; i++) {
        most_m3s = fmax(most_m3s, prepared->figures[i].seldom_more_m3s);
    }
    return most_m3s;
}

static qll_status plan_demand(qll_planning *p)
{
    const qll_event_order *order = p->order;
    qll_simulated_findings *found = p->findings;
    const double peak_m3s = p->of->duty->peak_m3s;
    double before_m3s = seldom_more_m3s(p->of->prepared);
    before_m3s = before_m3s > 0 ? before_m3s : peak_m3s;
    found->within_s =
        read_option(p, "--within", order->within, QLL_KIND_TIME, change_usual_s, within_most_s);
    found->before_m3s = read_option(p, "--before", order->before, QLL_KIND_FLOW, before_m3s, 1);
    found->after_m3s = read_option(p, "--flow", order->flow, QLL_KIND_FLOW, peak_m3s / 10, 1);
    if (p->asked->problems.refusal_count > 0) {
        return qll_problems_status(&p->asked->problems);
    }
    if (order->within == NULL) {
        assume(p, "--within", quantity_text(p, found->within_s, QLL_KIND_TIME), QLL_TEXT_WHY_OURS);
    }
    if (order->before == NULL) {
        assume(p, "--before", quantity_text(p, found->before_m3s, QLL_KIND_FLOW),
               QLL_TEXT_WHY_DEMAND_BEFORE);
    }
    if (order->flow == NULL) {
        assume(p, "--flow", quantity_text(p, found->after_m3s, QLL_KIND_FLOW),
               QLL_TEXT_WHY_DEMAND_AFTER);
    }
    found->static_pa_gauge = qll_planning_static_middle(p);
    p->made->plan.until_s = begins_s + found->within_s + change_after_s;
    p->made->plan.watched_s = change_watched_s;
    found->says = (qll_said){QLL_TEXT_SIM_DEMAND,
                             {qll_as_quantity(found->before_m3s, QLL_KIND_FLOW),
                              qll_as_quantity(found->after_m3s, QLL_KIND_FLOW),
                              qll_as_quantity(found->within_s, QLL_KIND_TIME),
                              qll_as_quantity(found->static_pa_gauge, QLL_KIND_PRESSURE)}};
    const double most_m3s = fmax(found->before_m3s, found->after_m3s);
    return spread(p, most_m3s, found->before_m3s / most_m3s, found->after_m3s / most_m3s)
               ? QLL_OK
               : QLL_NO_MEMORY;
}

/* ---- a heater ---- */

static qll_status plan_heater(qll_planning *p)
{
    const qll_heater *heater = &p->of->prepared->survey.site.heater;
    if (!(heater->volume_m3 > 0)) {
        qll_asked_refuse(p->asked, QLL_CODE_MISSING_KEY, "--event", QLL_SAYS(HEATER_NONE),
                         QLL_SAYS(HINT_HEATER_NONE));
        return qll_problems_status(&p->asked->problems);
    }
    qll_simulated_findings *found = p->findings;
    found->static_pa_gauge = static_high(p);
    assume(p, "downstream.heater", quantity_text(p, heating_s, QLL_KIND_TIME),
           QLL_TEXT_WHY_HEATER_POWER);
    qll_run_plan *plan = &p->made->plan;
    plan->heats_from_s = begins_s;
    plan->quiet_step_s = 1;
    plan->wakes_pa = INFINITY;
    plan->until_s = begins_s + heating_s + 10;
    plan->stops_pa_gauge = heater->relief_pa_gauge;
    found->says = (qll_said){QLL_TEXT_SIM_HEATER,
                             {qll_as_quantity(heater->volume_m3, QLL_KIND_VOLUME),
                              qll_as_quantity(heater->cold_degc, QLL_KIND_TEMPERATURE),
                              qll_as_quantity(heater->hot_degc, QLL_KIND_TEMPERATURE),
                              qll_as_quantity(found->static_pa_gauge, QLL_KIND_PRESSURE)}};
    return QLL_OK;
}

/* ---- a seat that leaks ---- */

/* No meter shows it: milliliters, whatever the rest is in. */
static const char *leak_text(const qll_planning *p, double leak_m3s)
{
    qll_writer text = qll_writer_new(p->asked->arena);
    qll_write_format(&text, "%.3g mL/min", leak_m3s * 6e7);
    return qll_writer_text(&text).bytes;
}

static qll_status plan_creep(qll_planning *p)
{
    const qll_event_order *order = p->order;
    qll_simulated_findings *found = p->findings;
    found->within_s =
        read_option(p, "--within", order->within, QLL_KIND_TIME, night_usual_s, night_most_s);
    found->leak_m3s = read_option(p, "--flow", order->flow, QLL_KIND_FLOW, leak_usual_m3s, 1);
    if (p->asked->problems.refusal_count > 0) {
        return qll_problems_status(&p->asked->problems);
    }
    if (order->within == NULL) {
        assume(p, "--within", quantity_text(p, found->within_s, QLL_KIND_TIME), QLL_TEXT_WHY_NIGHT);
    }
    if (order->flow == NULL) {
        assume(p, "--flow", leak_text(p, found->leak_m3s), QLL_TEXT_WHY_LEAK);
    }
    found->static_pa_gauge = static_high(p);
    qll_run_plan *plan = &p->made->plan;
    plan->tree.leak_m3s = found->leak_m3s;
    plan->leaks_from_s = begins_s;
    plan->quiet_step_s = night_step_s;
    plan->wakes_pa = INFINITY;
    plan->until_s = begins_s + found->within_s;
    const double relief_pa_gauge = p->of->prepared->survey.site.heater.relief_pa_gauge;
    plan->stops_pa_gauge = relief_pa_gauge > 0 ? relief_pa_gauge : (double)INFINITY;
    found->says = (qll_said){QLL_TEXT_SIM_CREEP,
                             {qll_as_is(leak_text(p, found->leak_m3s)),
                              qll_as_quantity(found->within_s, QLL_KIND_TIME),
                              qll_as_quantity(found->static_pa_gauge, QLL_KIND_PRESSURE)}};
    return QLL_OK;
}

/* ---- the whole ---- */

qll_event_order qll_event_order_of(const qll_question *question)
{
    return (qll_event_order){.event = question->event,
                             .outlet = question->outlet,
                             .flow = question->flow,
                             .before = question->before,
                             .within = question->within,
                             .notes_usual = true};
}

qll_status qll_event_plan_make(qll_asked *asked, const qll_event_case *of,
                               const qll_event_order *order, qll_event_plan *made,
                               qll_simulated_findings *findings)
{
    const qll_site *site = &of->prepared->survey.site;
    qll_planning p = {asked, of, order, made, findings};
    *made = (qll_event_plan){.motion = qll_motion_usual()};
    made->draws = qll_arena_take(asked->arena, site->outlet_count + 1, sizeof *made->draws);
    const size_t event = read_event(&p);
    if (made->draws == NULL || event >= QLL_EVENT_COUNT) {
        return made->draws == NULL ? QLL_NO_MEMORY : qll_problems_status(&asked->problems);
    }
    findings->event = (qll_event_kind)event;
    findings->event_word = event_words[event];
    findings->within_s = findings->before_m3s = findings->after_m3s = (double)NAN;
    findings->leak_m3s = (double)NAN;
    made->plan = (qll_run_plan){.tree = {.site = site,
                                         .station = of->station,
                                         .motion = &made->motion,
                                         .peak_m3s = of->duty->peak_m3s},
                                .draws = made->draws,
                                .followed = site->outlet_count,
                                .heats_from_s = INFINITY,
                                .leaks_from_s = INFINITY,
                                .stops_pa_gauge = INFINITY};
    static qll_status (*const plans[QLL_EVENT_COUNT])(qll_planning *) = {
        [QLL_EVENT_CLOSURE] = plan_closure, [QLL_EVENT_DEMAND] = plan_demand,
        [QLL_EVENT_HEATER] = plan_heater,   [QLL_EVENT_CREEP] = plan_creep,
        [QLL_EVENT_DAY] = qll_plan_day,
    };
    const qll_status status = plans[event](&p);
    made->plan.tree.static_pa_gauge = findings->static_pa_gauge;
    findings->followed = made->plan.followed;
    return status;
}
