#include "documents/read_catalogue.h"

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
    .because = "a valve opens further only as its outlet falls",
};

/* ---- what cannot both be true ---- */

static void check_sheet(const qll_object *object, const qll_object *falloff, const qll_valve *valve)
{
    if (valve->sheet_set_pa_gauge >= valve->sheet_inlet_pa_gauge) {
        (void)qll_object_contradicts(falloff, "set", " is not below ", falloff, "inlet",
                                     "the outlet of a reducing valve lies below its inlet");
    } else if (valve->sheet_inlet_pa_gauge > valve->inlet_max_pa_gauge) {
        (void)qll_object_contradicts(falloff, "inlet", " is above ", object, "inlet_max",
                                     "it cannot have been measured there");
    } else if (valve->sheet_set_pa_gauge < valve->set_min_pa_gauge
               || valve->sheet_set_pa_gauge > valve->set_max_pa_gauge) {
        qll_where where = qll_object_where(falloff, "set");
        qll_writer says = qll_reader_says(object->reader);
        qll_write_found(&says, where.node);
        qll_write(&says, " lies outside set_range; it cannot have been measured there");
        (void)qll_reader_refuse(object->reader, where, QLL_CODE_CONTRADICTION, &says, "");
    }
}

static void check_valve(const qll_object *object, const qll_valve *valve)
{
    if (valve->set_max_pa_gauge >= valve->inlet_max_pa_gauge) {
        const qll_node *high = qll_object_find(object, "set_range")->first_child->next;
        qll_writer says = qll_reader_says(object->reader);
        qll_write_found(&says, high);
        qll_write(&says, " is not below ");
        qll_write_limit(&says, object, "inlet_max");
        qll_write(&says, ": the outlet of a reducing valve lies below its inlet");
        (void)qll_reader_refuse(object->reader, qll_at(high), QLL_CODE_CONTRADICTION, &says, "");
    }
    if (valve->xfz > valve->fl * valve->fl) {
        (void)qll_object_contradicts(object, "xfz", " is above FL squared, from ", object, "fl",
                                     "cavitation is heard before the flow chokes, not after");
    }
    if (valve->seat_bore_m > valve->nominal_m) {
        (void)qll_object_contradicts(object, "seat_bore", " is above ", object, "nominal",
                                     "the seat lies inside the body");
    }
    if (valve->kv_m3h > QLL_KV_PER_BORE_M2 * valve->nominal_m * valve->nominal_m) {
        const qll_node *node = qll_object_find(object, "kv");
        qll_writer says = qll_reader_says(object->reader);
        qll_write_found(&says, node);
        qll_write(&says, " is more than an open pipe end passes in the size ");
        qll_write_found(&says, qll_object_find(object, "nominal"));
        qll_write(&says, "; check the number and its unit");
        (void)qll_reader_warn(object->reader, qll_at(node), QLL_CODE_OUT_OF_RANGE, &says);
    }
}

/* ---- fall-off ---- */

static void refuse_no_falloff(const qll_object *object, const char *key)
{
    qll_writer says = qll_reader_says(object->reader);
    qll_write(&says, "without fall-off nothing is known of how it opens; give \"falloff\" with "
                     "\"points\", or \"band\", the fall-off at full travel");
    (void)qll_reader_refuse(object->reader, qll_at_missing(object->node, key), QLL_CODE_MISSING_KEY,
                            &says, "");
}

static void refuse_two_falloffs(const qll_object *object, const qll_node *band)
{
    qll_writer says = qll_reader_says(object->reader);
    qll_write(&says, "the fall-off is given twice; keep the points or the band");
    (void)qll_reader_refuse(object->reader, qll_at(band), QLL_CODE_CONTRADICTION, &says, "");
}

/* A band without pressures to it: the middle of the range, at an inlet of twice that. */
static void assume_sheet(const qll_object *object, qll_valve *valve)
{
    valve->sheet_set_pa_gauge = 0.5 * (valve->set_min_pa_gauge + valve->set_max_pa_gauge);
    valve->sheet_inlet_pa_gauge = fmin(2.0 * valve->sheet_set_pa_gauge, valve->inlet_max_pa_gauge);
    static const char why[] = "`band` came without pressures; our assumption";
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

static void write_kv(qll_writer *writer, const qll_valve *valve, const qll_point *point)
{
    double atmosphere_pa = qll_barometric_pa(0.0);
    qll_water water = qll_water_at(15.0, atmosphere_pa);
    double inlet_pa = valve->sheet_inlet_pa_gauge + atmosphere_pa;
    double outlet_pa = valve->sheet_set_pa_gauge - point->y + atmosphere_pa;
    double kv_m3h = qll_valve_kv_m3h(point->x, inlet_pa, outlet_pa, valve->fl, &water);
    qll_write_format(writer, "%.2f m3/h", kv_m3h);
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
    qll_writer says = qll_reader_says(reader);
    if (point->y >= valve->sheet_set_pa_gauge) {
        qll_write_found(&says, qll_node_find(node, "falloff"));
        qll_write(&says, " of fall-off leaves nothing of ");
        qll_write_limit(&says, falloff, "set");
    } else {
        qll_write_found(&says, flow);
        qll_write(&says, " at this fall-off takes a Kv of ");
        write_kv(&says, valve, point);
        if (shorter.falloff_count > 1) {
            qll_write(&says, " after ");
            write_kv(&says, valve, point - 1);
            qll_write(&says, " at the point before");
        }
        qll_write(&says, "; Kv must rise from point to point and end at or below ");
        qll_write_limit(&says, object, "kv");
    }
    (void)qll_reader_refuse(reader, qll_at(flow), QLL_CODE_CONTRADICTION, &says, "");
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
    case QLL_WRONG_USE: object->reader->no_memory = true; break;
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
        qll_writer says = qll_reader_says(object->reader);
        qll_write_found(&says, node);
        qll_write(&says, " is not below the greatest flow of falloff; a valve is stable over most "
                         "of its flows");
        (void)qll_reader_refuse(object->reader, qll_at(node), QLL_CODE_CONTRADICTION, &says, "");
    }
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
    qll_valve_fill_defaults(valve);
    check_valve(&object, valve);
    if (falloff.node != NULL) {
        check_sheet(&object, &falloff, valve);
    }
    check_flow_min(&object, valve);
    if (reader->refusal_count == refusals_before && !reader->no_memory
        && qll_object_find(&object, "id") != NULL) {
        make_law(&object, &falloff, valve, law);
    }
}

static void check_id(qll_reader *reader, const qll_node *node, const qll_valve *valves, size_t here)
{
    const char *id = valves[here].id;
    for (size_t i = 0; id != NULL && i < here; i++) {
        if (valves[i].id == NULL || !qll_text_is(qll_text_of(id), valves[i].id)) {
            continue;
        }
        qll_writer says = qll_reader_says(reader);
        qll_write_quoted(&says, qll_text_of(id));
        qll_write_format(&says, " is already the id of valve %zu; every valve has its own", i + 1);
        (void)qll_reader_refuse(reader, qll_at(qll_node_find(node, "id")), QLL_CODE_CONTRADICTION,
                                &says, "");
        return;
    }
}

/* ---- what was assumed, one line per key ---- */

static const char *const default_keys[QLL_VALVE_DEFAULT_COUNT] = {
#define QLL_VALVE_DEFAULT_KEY(name, key) key,
    QLL_VALVE_DEFAULT_LIST(QLL_VALVE_DEFAULT_KEY)
#undef QLL_VALVE_DEFAULT_KEY
};

static void assume_key(qll_reader *reader, const qll_catalogue *catalogue, size_t which)
{
    qll_writer what = qll_writer_new(reader->arena);
    size_t count = 0;
    for (size_t i = 0; i < catalogue->count; i++) {
        if ((catalogue->valves[i].defaulted >> which & 1U) == 0) {
            continue;
        }
        if (count < QLL_IDS_NAMED) {
            qll_write(&what, count == 0 ? "" : ", ");
            qll_write(&what, catalogue->valves[i].id);
        }
        count += 1;
    }
    if (count == 0) {
        return;
    }
    if (count > QLL_IDS_NAMED) {
        qll_write_format(&what, " and %zu more", count - QLL_IDS_NAMED);
    }
    qll_write(&what, ": ");
    qll_write(&what, default_keys[which]);
    const char *text = qll_writer_text(&what).bytes;
    reader->no_memory = reader->no_memory || text == NULL;
    qll_assumed_add(reader->assumed, text == NULL ? "" : text,
                    qll_group_field(&qll_group_valve, default_keys[which])->computed,
                    "not in the catalogue");
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
    qll_writer says = qll_reader_says(object->reader);
    qll_write_found(&says, node);
    qll_write(&says, " is no currency; write its three capital letters of ISO 4217, for example "
                     "\"EUR\"");
    (void)qll_reader_refuse(object->reader, qll_at(node), QLL_CODE_UNKNOWN_WORD, &says, "");
    return NULL;
}

void qll_catalogue_read_root(qll_reader *reader, const qll_node *root, qll_catalogue *catalogue)
{
    qll_object object = qll_object_open(reader, root, &qll_group_catalogue);
    (void)qll_object_whole(&object, "catalogue");
    catalogue->name = qll_object_text(&object, "name");
    catalogue->currency = read_currency(&object);
    catalogue->invented = qll_object_flag(&object, "invented", false);
    catalogue->costs = qll_read_costs(&object);
    const qll_node *list = qll_object_list(&object, "valves", QLL_VALVES_MAX);
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
    bool is_well = reader->refusal_count == 0 && !reader->no_memory;
    for (size_t which = 0; is_well && which < QLL_VALVE_DEFAULT_COUNT; which++) {
        assume_key(reader, catalogue, which);
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
