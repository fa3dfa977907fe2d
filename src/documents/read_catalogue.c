#include "documents/read_catalogue.h"

#include "base/count.h"
#include "base/quote.h"
#include "documents/catalogue_fields.h"
#include "documents/read_costs.h"

#include <math.h>
#include <stdint.h>

/* Full Kv of an open pipe end is 0.04 d^2 with d in mm (velocity head, no recovery); more than that
 * is a slip of the pen. docs/formats/catalogue.md. */
#define QLL_KV_PER_BORE_M2 40000.0
/* Ids named in the list of what was assumed, before "and N more". */
#define QLL_IDS_NAMED      4

static const qll_points_rule falloff_rule = {
    .group = &qll_group_falloff_point,
    .x_key = "flow",
    .y_key = "falloff",
    .run = QLL_RUN_RISING,
    .because = QLL_TEXT_BECAUSE_OPENS_AS_FALLS,
};

/* ---- what cannot both be true ---- */

static void check_sheet(const qll_object *object, const qll_object *falloff, const qll_valve *valve)
{
    if (valve->sheet_set_pa_gauge >= valve->sheet_inlet_pa_gauge) {
        (void)qll_object_contradicts(falloff, "set", falloff, "inlet", QLL_TEXT_SHEET_SET_INLET);
    } else if (valve->sheet_inlet_pa_gauge > valve->inlet_max_pa_gauge) {
        (void)qll_object_contradicts(falloff, "inlet", object, "inlet_max",
                                     QLL_TEXT_SHEET_INLET_MAX);
    } else if (valve->sheet_set_pa_gauge < valve->set_min_pa_gauge
               || valve->sheet_set_pa_gauge > valve->set_max_pa_gauge) {
        qll_where where = qll_object_where(falloff, "set");
        (void)qll_reader_refuse(object->reader, where, QLL_CODE_CONTRADICTION,
                                QLL_SAYS_WITH(SHEET_SET_RANGE, qll_as_found(where.node)), NULL);
    }
}

static void check_valve(const qll_object *object, const qll_valve *valve)
{
    if (valve->set_max_pa_gauge >= valve->inlet_max_pa_gauge) {
        const qll_node *high = qll_object_find(object, "set_range")->first_child->next;
        const qll_said says = {QLL_TEXT_SHEET_SET_INLET,
                               {qll_as_found(high), qll_as_limit(object, "inlet_max")}};
        (void)qll_reader_refuse(object->reader, qll_at(high), QLL_CODE_CONTRADICTION, &says, NULL);
    }
    if (valve->xfz > valve->fl * valve->fl) {
        (void)qll_object_contradicts(object, "xfz", object, "fl", QLL_TEXT_XFZ_ABOVE_FL);
    }
    if (valve->seat_bore_m > valve->nominal_m) {
        (void)qll_object_contradicts(object, "seat_bore", object, "nominal",
                                     QLL_TEXT_SEAT_ABOVE_BODY);
    }
    if (valve->kv_m3h > QLL_KV_PER_BORE_M2 * valve->nominal_m * valve->nominal_m) {
        const qll_node *node = qll_object_find(object, "kv");
        const qll_said says = {
            QLL_TEXT_WARN_KV_OPEN_PIPE,
            {qll_as_found(node), qll_as_found(qll_object_find(object, "nominal"))}};
        (void)qll_reader_warn(object->reader, qll_at(node), QLL_CODE_OUT_OF_RANGE, &says);
    }
}

/* ---- fall-off ---- */

static void refuse_no_falloff(const qll_object *object, const char *key)
{
    (void)qll_reader_refuse(object->reader, qll_at_missing(object->node, key), QLL_CODE_MISSING_KEY,
                            QLL_SAYS(FALLOFF_MISSING), NULL);
}

static void refuse_two_falloffs(const qll_object *object, const qll_node *band)
{
    (void)qll_reader_refuse_fixed(object->reader, qll_at(band), QLL_CODE_CONTRADICTION,
                                  QLL_SAYS(FALLOFF_TWICE), NULL, (qll_fix){.op = QLL_FIX_REMOVE});
}

/* A band without pressures to it: the middle of the range, at an inlet of twice that. */
static void assume_sheet(const qll_object *object, qll_valve *valve)
{
    valve->sheet_set_pa_gauge = 0.5 * (valve->set_min_pa_gauge + valve->set_max_pa_gauge);
    valve->sheet_inlet_pa_gauge = fmin(2.0 * valve->sheet_set_pa_gauge, valve->inlet_max_pa_gauge);
    const qll_said why = {.id = QLL_TEXT_WHY_BAND_ALONE};
    qll_object_assume_quantity(object, "falloff.set", valve->sheet_set_pa_gauge, QLL_KIND_PRESSURE,
                               why);
    qll_object_assume_quantity(object, "falloff.inlet", valve->sheet_inlet_pa_gauge,
                               QLL_KIND_PRESSURE, why);
}

static void read_falloff(const qll_object *object, qll_object *falloff, qll_valve *valve)
{
    const qll_node *outer_band = qll_object_find(object, "band");
    valve->band_pa = qll_object_quantity(object, "band");
    *falloff = qll_object_inner(object, "falloff", &qll_group_falloff);
    if (falloff->node == NULL) {
        if (outer_band == NULL && !falloff->broken) {
            refuse_no_falloff(object, "falloff");
        }
        assume_sheet(object, valve);
        return;
    }
    valve->sheet_inlet_pa_gauge = qll_object_quantity(falloff, "inlet");
    valve->sheet_set_pa_gauge = qll_object_quantity(falloff, "set");
    size_t count = 0;
    const qll_point *points = qll_object_points(falloff, "points", &falloff_rule, 0, &count);
    const qll_node *inner_band = qll_object_find(falloff, "band");
    bool has_points = qll_object_find(falloff, "points") != NULL;
    double inner_band_pa = qll_object_quantity(falloff, "band");
    valve->falloff_points = points;
    valve->falloff_count = count;
    if (inner_band != NULL && (has_points || outer_band != NULL)) {
        refuse_two_falloffs(object, inner_band);
    } else if (outer_band != NULL && has_points) {
        refuse_two_falloffs(object, outer_band);
    } else if (inner_band == NULL && outer_band == NULL && !has_points) {
        refuse_no_falloff(falloff, "points");
    }
    if (inner_band != NULL) {
        valve->band_pa = inner_band_pa;
    }
}

/* ---- the opening law ---- */

static qll_argument as_kv(qll_reader *reader, const qll_valve *valve, const qll_point *point)
{
    double atmosphere_pa = qll_barometric_pa(0.0);
    qll_water water = qll_water_at(15.0, atmosphere_pa);
    double inlet_pa = valve->sheet_inlet_pa_gauge + atmosphere_pa;
    double outlet_pa = valve->sheet_set_pa_gauge - point->y + atmosphere_pa;
    double kv_m3h = qll_valve_kv_m3h(point->x, inlet_pa, outlet_pa, valve->fl, &water);
    qll_writer kv = qll_writer_new(reader->arena);
    qll_write_format(&kv, "%.2f m3/h", kv_m3h);
    return qll_as_is_text(qll_writer_text(&kv));
}

/* The point whose Kv breaks the law: the first whose list cannot be made into one. */
static void refuse_law(const qll_object *object, const qll_object *falloff, const qll_valve *valve)
{
    qll_reader *reader = object->reader;
    const qll_node *list = qll_object_find(falloff, "points");
    if (list == NULL) {
        return; /* a band in range always makes one */
    }
    qll_valve shorter = *valve;
    const qll_node *node = list->first_child;
    for (shorter.falloff_count = 1; node->next != NULL; node = node->next) {
        qll_opening_law law;
        if (qll_opening_law_make(&shorter, reader->arena, &law) != QLL_OK) {
            break;
        }
        shorter.falloff_count += 1;
    }
    const qll_point *point = &valve->falloff_points[shorter.falloff_count - 1];
    const qll_node *flow = qll_node_find(node, "flow");
    const qll_argument kv = as_kv(reader, valve, point);
    qll_said says = {QLL_TEXT_LAW_KV, {qll_as_found(flow), kv, qll_as_limit(object, "kv")}};
    if (point->y >= valve->sheet_set_pa_gauge) {
        says = (qll_said){
            QLL_TEXT_LAW_NOTHING_LEFT,
            {qll_as_found(qll_node_find(node, "falloff")), qll_as_limit(falloff, "set")}};
    } else if (shorter.falloff_count > 1) {
        says = (qll_said){
            QLL_TEXT_LAW_KV_AFTER,
            {qll_as_found(flow), kv, as_kv(reader, valve, point - 1), qll_as_limit(object, "kv")}};
    }
    (void)qll_reader_refuse(reader, qll_at(flow), QLL_CODE_CONTRADICTION, &says, NULL);
}

static void make_law(const qll_object *object, const qll_object *falloff, const qll_valve *valve,
                     qll_opening_law *law)
{
    switch (qll_opening_law_make(valve, object->reader->arena, law)) {
    case QLL_OK: break;
    case QLL_REFUSED: refuse_law(object, falloff, valve); break;
    case QLL_NO_MEMORY:
    case QLL_STOPPED:
    case QLL_BUSY:
    case QLL_IO:
    case QLL_WRONG_USE: break;
    }
}

static void check_flow_min(const qll_object *object, const qll_valve *valve)
{
    if (valve->falloff_count == 0) {
        return;
    }
    const qll_point *last = &valve->falloff_points[valve->falloff_count - 1];
    const qll_node *node = qll_object_find(object, "flow_min");
    if (node != NULL && valve->flow_min_m3s >= last->x) {
        (void)qll_reader_refuse(object->reader, qll_at(node), QLL_CODE_CONTRADICTION,
                                QLL_SAYS_WITH(FLOW_MIN_ABOVE, qll_as_found(node)), NULL);
    }
}

/* ---- how it moves ---- */

static double area_m2(double diameter_m)
{
    return 3.14159265358979323846 / 4.0 * diameter_m * diameter_m;
}

/* A member that says nothing of a valve that acts otherwise is a slip, not a remark. */
static void refuse_of_other_kind(const qll_object *object, qll_acting acting)
{
    static const char *const of_direct[] = {"moving_mass", "spring_rate", "damping", "diaphragm"};
    const qll_node *stroke = qll_object_find(object, "stroke_time");
    if (acting == QLL_ACTING_DIRECT && stroke != NULL) {
        (void)qll_reader_refuse_fixed(object->reader, qll_at_key(stroke), QLL_CODE_CONTRADICTION,
                                      QLL_SAYS(MOTION_OF_DIRECT), NULL,
                                      (qll_fix){.op = QLL_FIX_REMOVE});
    }
    for (size_t i = 0; acting == QLL_ACTING_PILOT && i < QLL_COUNT(of_direct); i++) {
        const qll_node *node = qll_object_find(object, of_direct[i]);
        if (node != NULL) {
            (void)qll_reader_refuse_fixed(object->reader, qll_at_key(node), QLL_CODE_CONTRADICTION,
                                          QLL_SAYS_WITH(MOTION_OF_PILOT, qll_as_is(of_direct[i])),
                                          NULL, (qll_fix){.op = QLL_FIX_REMOVE});
        }
    }
}

static void read_motion(const qll_object *object, qll_valve *valve)
{
    valve->moving_mass_kg = qll_object_quantity(object, "moving_mass");
    valve->spring_n_m = qll_object_quantity(object, "spring_rate");
    valve->damping_n_s_m = qll_object_quantity(object, "damping");
    valve->diaphragm_m = qll_object_quantity(object, "diaphragm");
    valve->stroke_s = qll_object_quantity(object, "stroke_time");
}

/* A flat disk is open at a quarter of the seat's bore; beyond these shares of it one of the figures is of
 * another valve, or in another unit (our assumption). */
#define QLL_TRAVEL_LEAST    0.02
#define QLL_TRAVEL_MOST     2.0
/* The middle of docs/theory/valve_motion.md. */
#define QLL_DIAPHRAGM_USUAL 12.0

static void check_travel(const qll_object *object, const qll_valve *valve,
                         const qll_opening_law *law)
{
    const double seat_m = qll_valve_seat_m(valve);
    const bool has_area = valve->diaphragm_m > 0.0;
    if (has_area && valve->diaphragm_m <= seat_m) {
        const qll_node *node = qll_object_find(object, "diaphragm");
        const qll_said says = {QLL_TEXT_DIAPHRAGM_BELOW_SEAT,
                               {qll_as_found(node), qll_as_quantity(seat_m, QLL_KIND_LENGTH)}};
        (void)qll_reader_refuse(object->reader, qll_at(node), QLL_CODE_CONTRADICTION, &says, NULL);
        return;
    }
    const double area =
        (has_area ? 1.0 : QLL_DIAPHRAGM_USUAL) * area_m2(has_area ? valve->diaphragm_m : seat_m);
    const double travel_m = area * law->full_falloff_pa / valve->spring_n_m;
    const double least_m = QLL_TRAVEL_LEAST * seat_m, most_m = QLL_TRAVEL_MOST * seat_m;
    if (!(valve->spring_n_m > 0.0) || !(law->full_falloff_pa > 0.0)
        || (travel_m >= least_m && travel_m <= most_m)) {
        return;
    }
    const qll_node *node = qll_object_find(object, "spring_rate");
    const qll_said says = {QLL_TEXT_TRAVEL_OF_SPRING,
                           {qll_as_found(node), qll_as_quantity(travel_m, QLL_KIND_LENGTH),
                            qll_as_quantity(seat_m, QLL_KIND_LENGTH),
                            qll_as_quantity(least_m, QLL_KIND_LENGTH),
                            qll_as_quantity(most_m, QLL_KIND_LENGTH)}};
    (void)qll_reader_refuse(object->reader, qll_at(node), QLL_CODE_CONTRADICTION, &says, NULL);
}

/* ---- one valve ---- */

static void read_valve(qll_reader *reader, const qll_node *node, qll_valve *valve,
                       qll_opening_law *law)
{
    size_t refusals_before = reader->refusal_count;
    qll_object object = qll_object_open(reader, node, &qll_group_valve);
    if (object.node == NULL) {
        return;
    }
    valve->id = qll_object_text(&object, "id");
    valve->nominal_m = qll_object_quantity(&object, "nominal");
    size_t acting = qll_object_word(&object, "acting");
    valve->acting = acting == SIZE_MAX ? QLL_ACTING_DIRECT : (qll_acting)acting;
    valve->kv_m3h = qll_object_quantity(&object, "kv");
    qll_pair set = qll_object_pair(&object, "set_range");
    valve->set_min_pa_gauge = set.low;
    valve->set_max_pa_gauge = set.high;
    valve->inlet_max_pa_gauge = qll_object_quantity(&object, "inlet_max");
    valve->temperature_max_degc = qll_object_quantity(&object, "temperature_max");
    qll_object falloff;
    read_falloff(&object, &falloff, valve);
    valve->lockup_rise_pa = qll_object_quantity(&object, "lockup_rise");
    valve->inlet_effect = qll_object_quantity(&object, "inlet_effect");
    valve->flow_min_m3s = qll_object_quantity(&object, "flow_min");
    valve->hysteresis_pa = qll_object_quantity(&object, "hysteresis");
    valve->fl = qll_object_quantity(&object, "fl");
    valve->fd = qll_object_quantity(&object, "fd");
    valve->xfz = qll_object_quantity(&object, "xfz");
    valve->seat_bore_m = qll_object_quantity(&object, "seat_bore");
    valve->bypass = qll_object_flag(&object, "bypass", false);
    valve->strainer_kv_m3h = qll_object_quantity(&object, "strainer_kv");
    valve->price = qll_object_quantity(&object, "price");
    valve->lead_days = qll_object_quantity(&object, "lead_days");
    read_motion(&object, valve);
    if (acting != SIZE_MAX) {
        refuse_of_other_kind(&object, valve->acting);
    }
    qll_valve_fill_defaults(valve);
    check_valve(&object, valve);
    if (falloff.node != NULL) {
        check_sheet(&object, &falloff, valve);
    }
    check_flow_min(&object, valve);
    if (reader->refusal_count == refusals_before && !qll_reader_starves(reader)
        && qll_object_find(&object, "id") != NULL) {
        make_law(&object, &falloff, valve, law);
        check_travel(&object, valve, law);
    }
}

static void check_id(qll_reader *reader, const qll_node *node, const qll_valve *valves, size_t here)
{
    const char *id = valves[here].id;
    for (size_t i = 0; id != NULL && i < here; i++) {
        if (valves[i].id == NULL || !qll_text_is(qll_text_of(id), valves[i].id)) {
            continue;
        }
        const qll_said says = {QLL_TEXT_ID_TWICE,
                               {qll_as_quoted(qll_text_of(id)), qll_as_whole(i + 1)}};
        (void)qll_reader_refuse(reader, qll_at(qll_node_find(node, "id")), QLL_CODE_CONTRADICTION,
                                &says, NULL);
        return;
    }
}

/* ---- what was assumed, one line per key ---- */

static const char *const default_keys[QLL_VALVE_DEFAULT_COUNT] = {
#define QLL_VALVE_DEFAULT_KEY(name, key) key,
    QLL_VALVE_DEFAULT_LIST(QLL_VALVE_DEFAULT_KEY)
#undef QLL_VALVE_DEFAULT_KEY
};

/* What each stands at; tests hold it to the table's own words for the manual. */
static qll_said default_of(size_t which)
{
    const qll_kind pressure = QLL_KIND_PRESSURE_DIFFERENCE;
    switch ((qll_valve_default)which) {
    case QLL_VALVE_TEMPERATURE_MAX:
        return (qll_said){QLL_TEXT_VALUE_OURS,
                          {qll_as_written(qll_text_of("180 degF"), QLL_KIND_TEMPERATURE)}};
    case QLL_VALVE_LOCKUP_RISE:
        return (qll_said){QLL_TEXT_VALUE_LOCKUP_RISE,
                          {qll_as_written(qll_text_of("3 psi"), pressure),
                           qll_as_written(qll_text_of("1 psi"), pressure)}};
    case QLL_VALVE_INLET_EFFECT: return (qll_said){.id = QLL_TEXT_VALUE_INLET_EFFECT};
    case QLL_VALVE_FLOW_MIN:
        return (qll_said){QLL_TEXT_VALUE_FLOW_MIN,
                          {qll_as_written(qll_text_of("60 psi"), pressure)}};
    case QLL_VALVE_HYSTERESIS:
        return (qll_said){QLL_TEXT_VALUE_OURS, {qll_as_written(qll_text_of("1 psi"), pressure)}};
    case QLL_VALVE_FL: return (qll_said){QLL_TEXT_VALUE_OURS, {qll_as_is("0.90")}};
    case QLL_VALVE_FD: return (qll_said){QLL_TEXT_VALUE_OURS, {qll_as_is("0.46")}};
    case QLL_VALVE_XFZ: return (qll_said){.id = QLL_TEXT_VALUE_XFZ};
    case QLL_VALVE_SEAT_BORE: return (qll_said){.id = QLL_TEXT_VALUE_SEAT_BORE};
    case QLL_VALVE_MOVING_MASS: return (qll_said){.id = QLL_TEXT_VALUE_MOVING_MASS};
    case QLL_VALVE_SPRING_RATE: return (qll_said){.id = QLL_TEXT_VALUE_SPRING_RATE};
    case QLL_VALVE_DAMPING: return (qll_said){.id = QLL_TEXT_VALUE_DAMPING};
    case QLL_VALVE_DIAPHRAGM: return (qll_said){.id = QLL_TEXT_VALUE_DIAPHRAGM};
    case QLL_VALVE_STROKE_TIME:
        return (qll_said){QLL_TEXT_VALUE_STROKE_TIME,
                          {qll_as_written(qll_text_of("10 s"), QLL_KIND_TIME)}};
    case QLL_VALVE_DEFAULT_COUNT: break;
    }
    return (qll_said){.id = QLL_TEXT_NONE};
}

#define QLL_DEFAULT_BIT(name) (1U << QLL_VALVE_##name)
/* What a sheet tells in one breath or not at all. */
static const unsigned motion_parts =
    QLL_DEFAULT_BIT(SPRING_RATE) | QLL_DEFAULT_BIT(DAMPING) | QLL_DEFAULT_BIT(DIAPHRAGM);

static bool says_no_motion(const qll_valve *valve)
{
    const unsigned all = motion_parts | QLL_DEFAULT_BIT(MOVING_MASS);
    return (valve->defaulted & all) == all;
}

/* Whether @p which is told in other words of this valve: a least stable flow that nobody stated is that of its build where the
 * sheet says how it moves; where it says nothing of that, the mass stands for all. */
static bool is_told_otherwise(const qll_valve *valve, size_t which)
{
    return (which == QLL_VALVE_FLOW_MIN && qll_valve_says_motion(valve))
           || (which == QLL_VALVE_MOVING_MASS && says_no_motion(valve));
}

/* One line for the valves whose @p which was filled, told in its own words or otherwise. */
static void assume_key(qll_reader *reader, const qll_catalogue *catalogue, size_t which,
                       bool otherwise)
{
    const qll_said in_other_words = {.id = which == QLL_VALVE_FLOW_MIN
                                               ? QLL_TEXT_VALUE_FLOW_MIN_BUILD
                                               : QLL_TEXT_VALUE_MOTION_USUAL};
    qll_writer ids = qll_writer_new(reader->arena);
    size_t count = 0;
    for (size_t i = 0; i < catalogue->count; i++) {
        if ((catalogue->valves[i].defaulted >> which & 1U) == 0
            || is_told_otherwise(&catalogue->valves[i], which) != otherwise
            || ((motion_parts >> which & 1U) != 0 && says_no_motion(&catalogue->valves[i]))) {
            continue;
        }
        if (count < QLL_IDS_NAMED) {
            qll_write(&ids, count == 0 ? "" : ", ");
            qll_write(&ids, catalogue->valves[i].id);
        }
        count += 1;
    }
    if (count == 0) {
        return;
    }
    qll_assumed_add(reader->assumed,
                    qll_of_valves(reader->arena, &ids,
                                  count > QLL_IDS_NAMED ? count - QLL_IDS_NAMED : 0,
                                  default_keys[which]),
                    qll_as_said(reader->arena, otherwise ? in_other_words : default_of(which)),
                    (qll_said){.id = QLL_TEXT_WHY_NOT_IN_CATALOGUE});
}

/* ---- the whole ---- */

/* Letters that may be a currency's in ISO 4217. Which of them are one is not asked: the list changes. */
static const char *read_currency(const qll_object *object)
{
    const char *text = qll_object_text(object, "currency");
    if (text == NULL) {
        return NULL;
    }
    size_t size = 0;
    while (text[size] >= 'A' && text[size] <= 'Z') {
        size += 1;
    }
    if (size == 3 && text[size] == '\0') {
        return text;
    }
    const qll_node *node = qll_object_find(object, "currency");
    (void)qll_reader_refuse(object->reader, qll_at(node), QLL_CODE_UNKNOWN_WORD,
                            QLL_SAYS_WITH(CURRENCY_UNKNOWN, qll_as_found(node)), NULL);
    return NULL;
}

void qll_catalogue_read_root(qll_reader *reader, const qll_node *root, qll_catalogue *catalogue)
{
    qll_object object = qll_object_open(reader, root, &qll_group_catalogue);
    (void)qll_object_whole(&object, "catalogue");
    const char *own = qll_object_text(&object, "name");
    catalogue->name = own != NULL ? own : qll_text_file_name(catalogue->name);
    catalogue->currency = read_currency(&object);
    catalogue->invented = qll_object_flag(&object, "invented", false);
    catalogue->costs = qll_read_costs(&object);
    const qll_node *list = qll_object_list(&object, "valves");
    if (list == NULL) {
        return;
    }
    qll_valve *valves = qll_reader_take(reader, list->child_count, sizeof *valves);
    qll_opening_law *laws = qll_reader_take(reader, list->child_count, sizeof *laws);
    if (valves == NULL || laws == NULL) {
        return;
    }
    size_t count = 0;
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        read_valve(reader, node, &valves[count], &laws[count]);
        check_id(reader, node, valves, count);
        count += 1;
    }
    catalogue->valves = valves;
    catalogue->laws = laws;
    catalogue->count = count;
    /* Without memory an id may be missing. */
    bool is_well = reader->refusal_count == 0 && !qll_reader_starves(reader);
    for (size_t which = 0; is_well && which < QLL_VALVE_DEFAULT_COUNT; which++) {
        assume_key(reader, catalogue, which, false);
        assume_key(reader, catalogue, which, true);
    }
}

qll_status qll_catalogue_read(const qll_document *document, qll_arena *arena,
                              qll_catalogue *catalogue, qll_assumed *assumed,
                              qll_problems *problems)
{
    *catalogue = (qll_catalogue){.name = document->name};
    qll_reader reader = qll_reader_new(document, arena, assumed);
    reader.barometric_pa = qll_barometric_pa(0.0); /* data sheets are not of one place */
    if (qll_reader_begins(&reader, document->root, &qll_group_catalogue)) {
        qll_catalogue_read_root(&reader, document->root, catalogue);
    }
    return qll_reader_end(&reader, problems);
}
