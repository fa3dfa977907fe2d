#include "engine/find_event.h"

#include "base/customary.h"

#include <math.h>

/* Newtons to a pound of force, exact. */
static const double pound_n = 4.4482216152605;
static const double cavity_rough = 0.1;
/* Water is not said to be kept any better. */
static const double rounding = 1e-9;

enum {
    QLL_NOTES_MOST = 6
};

typedef struct saying {
    qll_asked *asked;
    qll_simulated_findings *found;
    qll_arena *arena;
    const qll_site *site;
    qll_said *notes;
} saying;

/* ---- names ---- */

static qll_said place_name(const saying *s, size_t joint)
{
    size_t index = 0;
    switch (qll_run_place_of(&s->found->run->tree, joint, &index)) {
    case QLL_PLACE_MAIN: return (qll_said){.id = QLL_TEXT_SIM_AT_MAIN};
    case QLL_PLACE_INLET: return (qll_said){.id = QLL_TEXT_SIM_AT_INLET};
    case QLL_PLACE_BEHIND: return (qll_said){.id = QLL_TEXT_SIM_AT_BEHIND};
    case QLL_PLACE_BETWEEN: return (qll_said){.id = QLL_TEXT_SIM_AT_BETWEEN};
    case QLL_PLACE_OUTLET: return (qll_said){.id = QLL_TEXT_SIM_AT_OUTLET};
    case QLL_PLACE_DRAW:
        return (qll_said){QLL_TEXT_VALUE, {qll_as_is(s->site->outlets[index].name)}};
    case QLL_PLACE_SERVICE: return (qll_said){QLL_TEXT_SIM_AT_SERVICE, {qll_as_whole(index + 1)}};
    case QLL_PLACE_WAY:
    default: return (qll_said){QLL_TEXT_SIM_AT_WAY, {qll_as_is(s->site->outlets[index].name)}};
    }
}

static qll_said pipe_name(const saying *s, size_t line)
{
    const qll_tree_pipe *pipe = &s->found->run->tree.pipes[line];
    const qll_line *own = &s->found->run->tree.network.lines[line];
    const qll_argument size = qll_as_size(pipe->size == NULL ? own->bore_m : pipe->size->nominal_m);
    if (pipe->part == QLL_TREE_WAY) {
        return (qll_said){QLL_TEXT_SIM_PIPE_WAY,
                          {qll_as_is(s->site->outlets[pipe->outlet].name), size}};
    }
    return (qll_said){pipe->part == QLL_TREE_SERVICE ? QLL_TEXT_SIM_PIPE_SERVICE
                                                     : QLL_TEXT_SIM_PIPE_HEADER,
                      {size}};
}

static qll_status find_valve_names(saying *s)
{
    const qll_station *station = s->found->station;
    const char **names = qll_arena_take(s->arena, s->found->run->tree.valve_count, sizeof *names);
    if (names == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t valve = 0;
    for (size_t k = 0; k < station->stage_count; k++) {
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            qll_writer name = qll_writer_new(s->arena);
            qll_valve_name_write(&name, station, k, j);
            qll_write_format(&name, " (%s)", station->stages[k].branches[j].valve->id);
            names[valve++] = qll_writer_text(&name).bytes;
        }
    }
    s->found->valve_names = names;
    return QLL_OK;
}

/* ---- tables ---- */

static qll_status find_places(saying *s)
{
    const qll_tree *tree = &s->found->run->tree;
    qll_place_found *places = qll_arena_take(s->arena, tree->network.joint_count, sizeof *places);
    if (places == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t j = 0; j < tree->network.joint_count; j++) {
        places[j] = (qll_place_found){.name = place_name(s, j),
                                      .seen = &s->found->run->joints[j],
                                      .limit_pa_gauge = qll_hammer_limit_pa_gauge(tree, j)};
    }
    s->found->places = places;
    s->found->place_count = tree->network.joint_count;
    return QLL_OK;
}

static qll_status find_pipes(saying *s)
{
    const qll_run_found *run = s->found->run;
    const size_t count = run->tree.network.line_count;
    qll_pipe_found *pipes = qll_arena_take(s->arena, count, sizeof *pipes);
    if (pipes == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        const qll_grid_pipe *cut = &run->grid.pipes[i];
        pipes[i] = (qll_pipe_found){
            .name = pipe_name(s, i),
            .wave_speed_m_s = run->tree.network.lines[i].wave_speed_m_s * (1 + cut->speed_off),
            .speed_off = cut->speed_off,
            .cells = cut->cells,
            .right_from_s = cut->lumped_5_percent_s,
            .high_pa_gauge = run->lines[i].high_pa_gauge,
            .rating_pa_gauge = qll_pipe_rating_pa_gauge(run->tree.pipes[i].size)};
    }
    s->found->pipes = pipes;
    return QLL_OK;
}

/* ---- verdicts ---- */

static qll_argument as_pressure(double pa_gauge)
{
    return qll_as_quantity(pa_gauge, QLL_KIND_PRESSURE);
}

static qll_argument as_change(double pa)
{
    return qll_as_quantity(pa, QLL_KIND_PRESSURE_DIFFERENCE);
}

static void judge_heater(saying *s, qll_event_verdict *verdict)
{
    const qll_run_found *run = s->found->run;
    const double relief_pa_gauge = s->site->heater.relief_pa_gauge;
    const double rest_pa_gauge = s->site->static_max_pa_gauge;
    const double high_pa_gauge = run->joints[run->tree.outlet_joint].high_pa_gauge;
    const bool opens = high_pa_gauge >= relief_pa_gauge;
    const bool is_over = high_pa_gauge > rest_pa_gauge;
    *verdict = (qll_event_verdict){.rule = "hammer",
                                   .grade = opens     ? QLL_GRADE_FAIL
                                            : is_over ? QLL_GRADE_CAUTION
                                                      : QLL_GRADE_GOOD,
                                   .value = high_pa_gauge,
                                   .limit = opens ? relief_pa_gauge : rest_pa_gauge,
                                   .kind = QLL_KIND_PRESSURE,
                                   .gravity = high_pa_gauge};
    verdict->says = opens ? (qll_said){QLL_TEXT_HAMMER_HEATER,
                                       {as_pressure(high_pa_gauge), as_pressure(relief_pa_gauge),
                                        qll_as_quantity(run->ended_s, QLL_KIND_TIME)}}
                          : (qll_said){QLL_TEXT_HAMMER_HEATER_GOOD,
                                       {as_pressure(high_pa_gauge), as_pressure(relief_pa_gauge),
                                        as_pressure(rest_pa_gauge)}};
}

/* When the station's outlet first stood over @p limit_pa_gauge; NaN if it never did. */
static double passed_s(const qll_run_found *run, double limit_pa_gauge)
{
    enum {
        QLL_TRACE_OUTLET = 1
    };

    const qll_run_traces *traces = &run->traces;
    for (size_t i = 0; i < traces->count; i++) {
        if (traces->pa_gauge[QLL_TRACE_OUTLET][i] > limit_pa_gauge) {
            return traces->time_s[i];
        }
    }
    return run->joints[run->tree.outlet_joint].high_pa_gauge > limit_pa_gauge ? run->ended_s
                                                                              : (double)NAN;
}

/* What is allowed at rest is held at the station's outlet: outlets below it stand higher, and are judged by check. */
static void judge_creep(saying *s, qll_event_verdict *verdict)
{
    const qll_run_found *run = s->found->run;
    const qll_joint_seen *outlet = &run->joints[run->tree.outlet_joint];
    const size_t before = run->tree.stage_joint[2 * (run->tree.stage_count - 1)];
    const double relief_pa_gauge = s->site->heater.relief_pa_gauge;
    const double rest_pa_gauge = s->site->static_max_pa_gauge;
    const double high_pa_gauge = outlet->high_pa_gauge;
    const double ends_pa_gauge = run->joints[before].before_pa_gauge;
    const double over_s = passed_s(run, rest_pa_gauge);
    const bool opens = high_pa_gauge >= relief_pa_gauge;
    *verdict = (qll_event_verdict){.rule = "static",
                                   .grade = opens || isfinite(over_s)       ? QLL_GRADE_FAIL
                                            : ends_pa_gauge > rest_pa_gauge ? QLL_GRADE_CAUTION
                                                                            : QLL_GRADE_GOOD,
                                   .value = high_pa_gauge,
                                   .limit = opens ? relief_pa_gauge : rest_pa_gauge,
                                   .kind = QLL_KIND_PRESSURE,
                                   .gravity = high_pa_gauge};
    static const qll_text_id says[QLL_GRADE_COUNT] = {
        [QLL_GRADE_FAIL] = QLL_TEXT_CREEP_OVER,
        [QLL_GRADE_CAUTION] = QLL_TEXT_CREEP_GOES_ON,
        [QLL_GRADE_GOOD] = QLL_TEXT_CREEP_GOOD,
    };
    verdict->says =
        (qll_said){opens ? QLL_TEXT_CREEP_RELIEF : says[verdict->grade],
                   {as_pressure(high_pa_gauge), as_pressure(verdict->limit),
                    qll_as_quantity(opens ? run->ended_s : over_s, QLL_KIND_TIME),
                    as_pressure(ends_pa_gauge), qll_as_quantity(run->ended_s, QLL_KIND_TIME)}};
}

/* First by what was found, then by how far it goes. */
static double gravity_of(const qll_hammer *hammer)
{
    const double far[] = {
        [QLL_HAMMER_PARTS] = hammer->cavity_share,
        [QLL_HAMMER_OVER] = hammer->high_pa_gauge / hammer->limit_pa_gauge,
        [QLL_HAMMER_RISE] = hammer->rise_pa / QLL_HAMMER_RISE_PA,
        [QLL_HAMMER_DIP] =
            fmax(hammer->stood_pa_gauge - hammer->low_pa_gauge, 0.0) / hammer->stood_pa_gauge,
        [QLL_HAMMER_NONE] = fmax(hammer->rise_pa, 0.0) / QLL_HAMMER_RISE_PA,
    };
    const double beyond = far[hammer->kind];
    return (double)(QLL_HAMMER_NONE - hammer->kind) + beyond / (1.0 + beyond);
}

static void judge_hammer(saying *s, qll_event_verdict *verdict)
{
    static const struct {
        qll_text_id says;
        qll_grade grade;
    } of[] = {
        [QLL_HAMMER_PARTS] = {QLL_TEXT_HAMMER_PARTS, QLL_GRADE_FAIL},
        [QLL_HAMMER_OVER] = {QLL_TEXT_HAMMER_OVER, QLL_GRADE_FAIL},
        [QLL_HAMMER_RISE] = {QLL_TEXT_HAMMER_RISE, QLL_GRADE_CAUTION},
        [QLL_HAMMER_DIP] = {QLL_TEXT_HAMMER_DIP, QLL_GRADE_CAUTION},
        [QLL_HAMMER_NONE] = {QLL_TEXT_HAMMER_GOOD, QLL_GRADE_GOOD},
    };

    const qll_hammer *hammer = &s->found->hammer;
    const bool is_dip = hammer->kind == QLL_HAMMER_DIP;
    const bool is_over = hammer->kind == QLL_HAMMER_OVER;
    *verdict = (qll_event_verdict){.rule = "hammer",
                                   .grade = of[hammer->kind].grade,
                                   .value = is_over  ? hammer->high_pa_gauge
                                            : is_dip ? hammer->low_pa_gauge
                                                     : hammer->rise_pa,
                                   .limit = is_over  ? hammer->limit_pa_gauge
                                            : is_dip ? hammer->stood_pa_gauge / 2
                                                     : QLL_HAMMER_RISE_PA,
                                   .kind = is_over || is_dip ? QLL_KIND_PRESSURE
                                                             : QLL_KIND_PRESSURE_DIFFERENCE,
                                   .gravity = gravity_of(hammer)};
    const qll_argument where = qll_as_said(s->arena, place_name(s, hammer->joint));
    verdict->says =
        (qll_said){of[hammer->kind].says,
                   {as_pressure(is_dip ? hammer->low_pa_gauge : hammer->high_pa_gauge), where,
                    is_dip ? as_pressure(hammer->stood_pa_gauge) : as_change(hammer->rise_pa),
                    is_over ? as_pressure(hammer->limit_pa_gauge) : as_change(QLL_HAMMER_RISE_PA)}};
}

/* The valve that swings most. */
static size_t worst_valve(const qll_run_found *run)
{
    size_t worst = 0;
    for (size_t i = 1; i < run->tree.valve_count; i++) {
        const qll_motion_found *a = &run->valves[i].motion, *b = &run->valves[worst].motion;
        const bool a_moves = a->state != QLL_MOTION_STATE_STABLE;
        const bool b_moves = b->state != QLL_MOTION_STATE_STABLE;
        worst = a_moves && (!b_moves || a->swing > b->swing) ? i : worst;
    }
    return worst;
}

static void judge_hunting(saying *s, qll_event_verdict *verdict)
{
    static const qll_text_id felt[QLL_MOTION_STATE_COUNT] = {
        [QLL_MOTION_STATE_STABLE] = QLL_TEXT_HUNTING_GOOD,
        [QLL_MOTION_STATE_HUNTING] = QLL_TEXT_HUNTING_HUNTS,
        [QLL_MOTION_STATE_CHATTERING] = QLL_TEXT_HUNTING_CHATTERS,
        [QLL_MOTION_STATE_SLAMMING] = QLL_TEXT_HUNTING_SLAMS,
    };
    const qll_run_found *run = s->found->run;
    *verdict = (qll_event_verdict){.rule = "hunting",
                                   .grade = QLL_GRADE_GOOD,
                                   .value = qll_run_swing_pa(run),
                                   .limit = (double)NAN,
                                   .kind = QLL_KIND_PRESSURE_DIFFERENCE,
                                   .gravity = qll_run_swing_pa(run)};
    if (s->found->event != QLL_EVENT_CLOSURE && s->found->event != QLL_EVENT_DEMAND) {
        verdict->grade = QLL_GRADE_UNKNOWN;
        verdict->value = (double)NAN;
        verdict->says = (qll_said){.id = QLL_TEXT_HUNTING_UNSEEN};
        return;
    }
    const size_t worst = worst_valve(run);
    const qll_motion_found *motion = &run->valves[worst].motion;
    qll_text_id says = QLL_TEXT_HUNTING_GOOD;
    if (!qll_run_is_still(run)) {
        verdict->grade = motion->is_felt ? QLL_GRADE_FAIL : QLL_GRADE_CAUTION;
        says = motion->is_felt ? felt[motion->state] : QLL_TEXT_HUNTING_CAUTION;
    }
    qll_writer frequency = qll_writer_new(s->arena);
    qll_write_format(&frequency, motion->frequency_hz < 10 ? "%.1f" : "%.0f", motion->frequency_hz);
    verdict->says = (qll_said){says,
                               {qll_as_is(s->found->valve_names[worst]), as_change(verdict->value),
                                qll_as_is(qll_writer_text(&frequency).bytes)}};
}

/* ---- notes ---- */

static void note(saying *s, qll_said says)
{
    s->notes[s->found->note_count++] = says;
}

/* A push as a weight: pounds, or kilograms of weight. */
static qll_argument as_weight(const saying *s, double force_n)
{
    const bool is_si = s->found->demand.survey->units == QLL_UNITS_SI;
    qll_writer text = qll_writer_new(s->arena);
    if (is_si) {
        qll_write_format(&text, "%.0f N", force_n);
    } else {
        qll_write_format(&text, "%.0f lb", force_n / pound_n);
    }
    return qll_as_is(qll_writer_text(&text).bytes);
}

static void find_notes(saying *s)
{
    const qll_run_found *run = s->found->run;
    const qll_hammer *hammer = &s->found->hammer;
    const bool has_waves =
        s->found->event != QLL_EVENT_HEATER && s->found->event != QLL_EVENT_CREEP;
    if (s->found->event == QLL_EVENT_CREEP) {
        note(s, (qll_said){.id = QLL_TEXT_SIM_SEAT});
    }
    if (has_waves && hammer->kind < QLL_HAMMER_DIP) {
        const qll_tree_pipe *pipe = &run->tree.pipes[hammer->force_line];
        const double size_m = pipe->size == NULL
                                  ? run->tree.network.lines[hammer->force_line].bore_m
                                  : pipe->size->nominal_m;
        note(s,
             (qll_said){QLL_TEXT_SIM_FORCE, {qll_as_size(size_m), as_weight(s, hammer->force_n)}});
    }
    if (hammer->cavity_share > cavity_rough) {
        qll_writer share = qll_writer_new(s->arena);
        qll_write_format(&share, "%.0f %%", 100 * hammer->cavity_share);
        note(s, (qll_said){QLL_TEXT_SIM_CAVITY, {qll_as_is(qll_writer_text(&share).bytes)}});
    }
    if (isfinite(run->water_off_m3) && run->drawn_m3 > 0) {
        const double off = fmax(fabs(run->water_off_m3) / run->drawn_m3, rounding);
        note(s, (qll_said){QLL_TEXT_SIM_WATER, {qll_as_number(pow(10, floor(-log10(off))))}});
    }
    note(s, (qll_said){.id = QLL_TEXT_SIM_ESTIMATE});
    if (has_waves) {
        note(s, (qll_said){.id = QLL_TEXT_SIM_STEADY_FRICTION});
    }
}

/* ---- cures ---- */

/* Whether the last stage's first valve has a needle. */
static bool is_piloted(const qll_station *station)
{
    return station->stages[station->stage_count - 1].branches[0].valve->acting == QLL_ACTING_PILOT;
}

static qll_said needle_says(const saying *s, const qll_event_cure *cure, qll_argument figure)
{
    const qll_station *station = s->found->station;
    const qll_valve *valve = station->stages[station->stage_count - 1].branches[0].valve;
    const double own_s =
        valve->stroke_s > 0 ? valve->stroke_s : qll_motion_ranges[QLL_MOTION_STROKE_S].usual;
    const qll_argument takes = qll_as_quantity(own_s * cure->size, QLL_KIND_TIME);
    const size_t first =
        s->found->run->tree.valve_count - station->stages[station->stage_count - 1].branch_count;
    return cure->works ? (qll_said){QLL_TEXT_CURE_NEEDLE,
                                    {qll_as_is(s->found->valve_names[first]), takes, figure}}
                       : (qll_said){QLL_TEXT_CURE_NEEDLE_NONE, {takes, figure}};
}

/* The US trade tells the air of an arrester in cubic inches, that of a tank in gallons (common practice, no source). */
static qll_argument as_air(const saying *s, double air_m3)
{
    static const double half_gallon = 115.5;
    const double cubic_inches = floor(air_m3 / (QLL_INCH_M * QLL_INCH_M * QLL_INCH_M) + 0.5);
    if (s->found->demand.survey->units == QLL_UNITS_SI || cubic_inches >= half_gallon) {
        return qll_as_quantity(air_m3, QLL_KIND_VOLUME);
    }
    return qll_as_said(s->arena, (qll_said){QLL_TEXT_CUBIC_INCHES, {qll_as_number(cubic_inches)}});
}

static qll_said cure_says(const saying *s, const qll_event_cure *cure)
{
    const qll_argument figure = cure->kind <= QLL_EVENT_CURE_SLOWER ? as_pressure(cure->figure_pa)
                                                                    : as_change(cure->figure_pa);
    const qll_argument air = as_air(s, cure->size);
    const qll_argument charge = as_pressure(cure->precharge_pa_gauge);
    const qll_argument time = qll_as_quantity(cure->size, QLL_KIND_TIME);
    switch (cure->kind) {
    case QLL_EVENT_CURE_ARRESTER: {
        const qll_argument where = qll_as_said(
            s->arena, place_name(s, s->found->run->tree.draws[s->found->followed].joint));
        return cure->works ? (qll_said){QLL_TEXT_CURE_ARRESTER, {air, where, charge, figure}}
                           : (qll_said){QLL_TEXT_CURE_ARRESTER_NONE, {air, where, figure}};
    }
    case QLL_EVENT_CURE_SLOWER:
        return (qll_said){cure->works ? QLL_TEXT_CURE_SLOWER : QLL_TEXT_CURE_SLOWER_NONE,
                          {time, figure}};
    case QLL_EVENT_CURE_OFFSET:
        return cure->works
                   ? (qll_said){QLL_TEXT_CURE_OFFSET,
                                {qll_as_is(s->found->valve_names[cure->valve]),
                                 as_pressure(cure->set_pa_gauge), as_change(cure->size), figure}}
                   : (qll_said){
                       QLL_TEXT_CURE_OFFSET_NONE,
                       {as_change(QLL_EVENT_CURE_OFFSET_MOST_PA), figure, as_change(cure->size)}};
    case QLL_EVENT_CURE_DAMPING:
        if (is_piloted(s->found->station)) {
            return needle_says(s, cure, figure);
        }
        return (qll_said){cure->works ? QLL_TEXT_CURE_DAMPING : QLL_TEXT_CURE_DAMPING_NONE,
                          {qll_as_number(cure->size), figure}};
    case QLL_EVENT_CURE_AIR:
    case QLL_EVENT_CURE_COUNT:
    default:
        return cure->works ? (qll_said){QLL_TEXT_CURE_AIR, {air, charge, figure}}
                           : (qll_said){QLL_TEXT_CURE_AIR_NONE, {air, figure}};
    }
}

static qll_status find_cure_says(saying *s)
{
    qll_said *says = qll_arena_take(s->arena, s->found->cure_count + 1, sizeof *says);
    if (says == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < s->found->cure_count; i++) {
        says[i] = cure_says(s, &s->found->cures[i]);
    }
    s->found->cure_says = says;
    return QLL_OK;
}

qll_status qll_find_event(qll_asked *asked, qll_simulated_findings *findings)
{
    saying s = {.asked = asked,
                .found = findings,
                .arena = asked->arena,
                .site = &findings->demand.survey->site};
    s.notes = qll_arena_take(asked->arena, QLL_NOTES_MOST, sizeof *s.notes);
    if (s.notes == NULL || find_valve_names(&s) != QLL_OK || find_places(&s) != QLL_OK
        || find_pipes(&s) != QLL_OK || find_cure_says(&s) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    findings->hammer = qll_hammer_of(findings->run);
    if (findings->event == QLL_EVENT_HEATER) {
        judge_heater(&s, &findings->verdicts[0]);
    } else if (findings->event == QLL_EVENT_CREEP) {
        judge_creep(&s, &findings->verdicts[0]);
    } else {
        judge_hammer(&s, &findings->verdicts[0]);
    }
    judge_hunting(&s, &findings->verdicts[1]);
    findings->note_count = 0;
    findings->notes = s.notes;
    find_notes(&s);
    return QLL_OK;
}
