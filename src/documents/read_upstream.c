#include "base/count.h"
#include "base/customary.h"
#include "base/quote.h"
#include "base/units_amount.h"
#include "base/words.h"
#include "documents/survey_parts.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

static const qll_field_group *const kinds[] = {
    &qll_group_pipe, &qll_group_meter, &qll_group_backflow, &qll_group_strainer, &qll_group_device};
static const char *const kind_words[] = {"pipe", "meter", "backflow", "strainer", "device"};
#define QLL_ENTRY_KINDS QLL_COUNT(kinds)

static const qll_points_rule device_rule = {
    .group = &qll_group_loss,
    .x_key = "flow",
    .y_key = "pressure",
    .run = QLL_RUN_NOT_FALLING,
    .because = QLL_TEXT_BECAUSE_DEVICE_TAKES,
};
/* The relief of a reduced-pressure assembly makes its loss dip before it rises. */
static const qll_points_rule backflow_rule = {
    .group = &qll_group_loss,
    .x_key = "flow",
    .y_key = "pressure",
    .run = QLL_RUN_ANY,
    .because = QLL_TEXT_NONE,
};

/* ---- which kind an entry is ---- */

static void refuse_no_kind(qll_survey_pass *pass, const qll_node *node)
{
    for (const qll_node *child = node->first_child; child != NULL; child = child->next) {
        const char *nearest = qll_words_nearest(child->key, kind_words, QLL_ENTRY_KINDS);
        if (nearest != NULL) {
            qll_arena *arena = pass->reader.arena;
            const qll_said says = {
                QLL_TEXT_ENTRY_UNKNOWN,
                {qll_as_quoted(child->key), qll_as_words(arena, kind_words, QLL_ENTRY_KINDS)}};
            (void)qll_reader_refuse_fixed(&pass->reader, qll_at_key(child), QLL_CODE_UNKNOWN_KEY,
                                          &says, qll_hint_word(nearest, arena),
                                          qll_fix_text(QLL_FIX_RENAME, nearest, arena));
            return;
        }
    }
    /* If one kind alone knows all the keys that are there, its key is the one that is missing. */
    size_t fitting = 0;
    size_t likely = 0;
    for (size_t k = 0; k < QLL_ENTRY_KINDS; k++) {
        size_t known = 0;
        for (size_t f = 0; f < kinds[k]->count; f++) {
            known += qll_node_find(node, kinds[k]->fields[f].key) != NULL ? 1 : 0;
        }
        fitting += known == node->child_count ? 1 : 0;
        likely = known == node->child_count ? k : likely;
    }
    const qll_said says = {QLL_TEXT_ENTRY_MISSING,
                           {qll_as_words(pass->reader.arena, kind_words, QLL_ENTRY_KINDS)}};
    qll_where where = fitting == 1 ? qll_at_missing(node, kind_words[likely]) : qll_at(node);
    (void)qll_reader_refuse(&pass->reader, where, QLL_CODE_MISSING_KEY, &says, NULL);
}

static void refuse_two_kinds(qll_survey_pass *pass, const qll_node *first, const qll_node *second)
{
    const qll_node *later = second->offset > first->offset ? second : first;
    const qll_node *earlier = later == second ? first : second;
    const qll_said says = {QLL_TEXT_ENTRY_TWICE,
                           {qll_as_is_text(earlier->key), qll_as_is_text(later->key)}};
    (void)qll_reader_refuse(&pass->reader, qll_at_key(later), QLL_CODE_CONTRADICTION, &says, NULL);
}

/* QLL_ENTRY_KINDS after a problem. */
static size_t kind_of(qll_survey_pass *pass, const qll_node *node)
{
    if (node->kind != QLL_NODE_OBJECT) {
        (void)qll_reader_wrong_kind(&pass->reader, node, QLL_SAYS(EXPECT_OBJECT));
        return QLL_ENTRY_KINDS;
    }
    size_t kind = QLL_ENTRY_KINDS;
    const qll_node *first = NULL;
    for (size_t k = 0; k < QLL_ENTRY_KINDS; k++) {
        const qll_node *child = qll_node_find(node, kind_words[k]);
        if (child != NULL && first != NULL) {
            refuse_two_kinds(pass, first, child);
            return QLL_ENTRY_KINDS;
        }
        if (child != NULL) {
            first = child;
            kind = k;
        }
    }
    if (first == NULL) {
        refuse_no_kind(pass, node);
    }
    return kind;
}

/* ---- the kinds ---- */

static void read_pipe(qll_survey_pass *pass, const qll_object *object, qll_element *element)
{
    qll_read_run read = qll_read_pipe(pass, object);
    read.run.rise_m = qll_object_quantity(object, "rise");
    element->kind = QLL_ELEMENT_PIPE;
    element->pipe = read.run;
    element->size = read.size;
    pass->survey->service_size = read.size;
}

/* A loss of the user's own; from nothing at no flow if @p from_zero and the list begins later. */
static bool read_loss(const qll_object *object, const qll_points_rule *rule, bool from_zero,
                      qll_element *element)
{
    size_t count = 0;
    const qll_point *points = qll_object_points(object, "loss", rule, 1, &count);
    if (points == NULL) {
        return false;
    }
    bool is_extended = from_zero && points[1].x > 0.0;
    element->loss = (qll_curve){is_extended ? points : points + 1, count + (is_extended ? 1 : 0)};
    return true;
}

static void refuse_no_nominal(const qll_object *object, const qll_said *says)
{
    (void)qll_reader_refuse(object->reader, qll_at_missing(object->node, "nominal"),
                            QLL_CODE_MISSING_KEY, says, NULL);
}

/* "5/8 in", "1-1/2 in": the trade's sizes are whole eighths of an inch. */
static void write_inches(qll_writer *writer, double nominal_m)
{
    size_t eighths = (size_t)lround(nominal_m / QLL_INCH_M * 8.0);
    size_t share = eighths % 8;
    size_t of = 8;
    while (share > 0 && share % 2 == 0) {
        share /= 2;
        of /= 2;
    }
    if (eighths >= 8) {
        qll_write_format(writer, "%zu%s", eighths / 8, share > 0 ? "-" : "");
    }
    if (share > 0) {
        qll_write_format(writer, "%zu/%zu", share, of);
    }
    qll_write(writer, " in");
}

static void refuse_meter_size(qll_survey_pass *pass, const qll_object *object)
{
    const qll_node *node = qll_object_find(object, "nominal");
    qll_writer sizes = qll_writer_new(pass->reader.arena);
    for (size_t i = 0; i < pass->tables->meters.count; i++) {
        qll_write(&sizes, i == 0 ? "" : ", ");
        write_inches(&sizes, pass->tables->meters.meters[i].nominal_m);
    }
    const qll_said says = {QLL_TEXT_METER_SIZE_UNKNOWN,
                           {qll_as_found(node), qll_as_is_text(qll_writer_text(&sizes))}};
    (void)qll_reader_refuse(&pass->reader, qll_at(node), QLL_CODE_UNKNOWN_WORD, &says, NULL);
}

/* The body of "5/8 x 3/4 in" with its unit, "5/8 in"; NULL if @p text is not of that form. */
static const char *meter_body(qll_text text, qll_arena *arena)
{
    const char *cross = text.size > 0 ? memchr(text.bytes, 'x', text.size) : NULL;
    if (cross == NULL) {
        return NULL;
    }
    size_t size = (size_t)(cross - text.bytes);
    qll_text body = qll_text_trimmed((qll_text){text.bytes, size});
    qll_text ends = {cross + 1, text.size - size - 1};
    double amount = 0.0;
    qll_text body_unit = {"", 0};
    qll_text ends_unit = {"", 0};
    if (qll_amount_read(body, &amount, &body_unit) != QLL_AMOUNT_READ
        || qll_amount_read(ends, &amount, &ends_unit) != QLL_AMOUNT_READ) {
        return NULL;
    }
    qll_writer with_unit = qll_writer_new(arena);
    qll_write_text(&with_unit, body);
    if (body_unit.size == 0) {
        qll_write(&with_unit, " ");
        qll_write_text(&with_unit, ends_unit);
    }
    return qll_writer_text(&with_unit).bytes;
}

/* "5/8 x 3/4 in" is the commonest meter of houses: its body is 5/8 in, its ends 3/4 in, and the body
 * makes the loss. Anything else is read as any length. */
static double read_meter_size(const qll_object *object)
{
    const qll_node *node = qll_object_find(object, "nominal");
    qll_reader *reader = object->reader;
    const char *body =
        node != NULL && node->kind == QLL_NODE_TEXT ? meter_body(node->text, reader->arena) : NULL;
    if (body == NULL) {
        return qll_object_quantity(object, "nominal");
    }
    /* A problem may point at it as long as the reader lives. */
    qll_node *of_body = qll_reader_take(reader, 1, sizeof *of_body);
    if (of_body == NULL) {
        return NAN;
    }
    *of_body = *node;
    of_body->text = qll_text_of(body);
    return qll_reader_quantity(reader, of_body, qll_group_field(object->group, "nominal"));
}

static void read_meter(qll_survey_pass *pass, const qll_object *object, qll_element *element)
{
    bool has_loss = qll_object_find(object, "loss") != NULL;
    size_t word = qll_object_word(object, "meter");
    double nominal_m = read_meter_size(object);
    element->kind = QLL_ELEMENT_METER;
    if (has_loss) {
        (void)read_loss(object, &device_rule, true, element);
        return;
    }
    if (word != 0) {
        if (word != SIZE_MAX) {
            (void)qll_reader_refuse(&pass->reader, qll_at_missing(object->node, "loss"),
                                    QLL_CODE_MISSING_KEY, QLL_SAYS(METER_NEEDS_LOSS), NULL);
        }
        return;
    }
    if (qll_object_find(object, "nominal") == NULL) {
        refuse_no_nominal(object, QLL_SAYS(METER_NO_SIZE));
        return;
    }
    element->meter = qll_meter_find(&pass->tables->meters, nominal_m);
    if (element->meter == NULL && isfinite(nominal_m)) {
        refuse_meter_size(pass, object);
    }
}

static void read_backflow(qll_survey_pass *pass, const qll_object *object, qll_element *element)
{
    size_t word = qll_object_word(object, "backflow");
    double nominal_m = qll_object_quantity(object, "nominal");
    element->kind = QLL_ELEMENT_BACKFLOW;
    if (qll_object_find(object, "loss") != NULL) {
        (void)read_loss(object, &backflow_rule, false, element);
        return;
    }
    if (qll_object_find(object, "nominal") == NULL) {
        refuse_no_nominal(object, QLL_SAYS(BACKFLOW_NO_SIZE));
        return;
    }
    if (word == SIZE_MAX || isnan(nominal_m)) {
        return;
    }
    /* "RPZ" and "RP" are the trade's words for a reduced-pressure assembly. */
    qll_backflow_kind kind = word == 1 ? QLL_BACKFLOW_DOUBLE_CHECK : QLL_BACKFLOW_REDUCED_PRESSURE;
    element->backflow = qll_backflow_default(kind, nominal_m);
    if (isnan(element->backflow.rated_flow_m3s)) {
        const qll_node *node = qll_object_find(object, "nominal");
        (void)qll_reader_refuse(&pass->reader, qll_at(node), QLL_CODE_UNKNOWN_WORD,
                                QLL_SAYS_WITH(BACKFLOW_SIZE_UNKNOWN, qll_as_found(node)), NULL);
    }
}

/* "40 mesh" or 40; NaN after a problem. */
static double read_mesh(qll_survey_pass *pass, const qll_node *node)
{
    double mesh = node->number;
    qll_text text = qll_text_trimmed(node->text);
    size_t digits = node->kind == QLL_NODE_TEXT ? qll_text_number(text, &mesh) : 0;
    bool is_mesh = node->kind == QLL_NODE_NUMBER;
    if (digits > 0) {
        qll_text rest = qll_text_trimmed((qll_text){text.bytes + digits, text.size - digits});
        is_mesh = rest.size == 0 || qll_text_is(rest, "mesh");
    }
    if (!is_mesh) {
        (void)qll_reader_wrong_kind(&pass->reader, node, QLL_SAYS(EXPECT_MESH));
        return NAN;
    }
    return mesh;
}

static void read_strainer(qll_survey_pass *pass, const qll_object *object, qll_element *element)
{
    const qll_node *node = qll_object_find(object, "strainer");
    double mesh = read_mesh(pass, node);
    element->kind = QLL_ELEMENT_STRAINER;
    element->bore_m = qll_object_quantity(object, "nominal");
    element->blocked = qll_object_quantity(object, "blocked");
    double area_ratio = qll_object_quantity(object, "area_ratio");
    if (isnan(mesh)) {
        return;
    }
    bool is_whole = mesh >= 1.0 && mesh <= 1000.0 && mesh == floor(mesh);
    element->screen = qll_screen_mesh(is_whole ? (int)mesh : 0);
    element->screen.area_ratio = area_ratio;
    if (!(element->screen.opening_m > 0.0)) {
        (void)qll_reader_refuse(&pass->reader, qll_at(node), QLL_CODE_UNKNOWN_WORD,
                                QLL_SAYS_WITH(MESH_UNKNOWN, qll_as_found(node)), NULL);
    }
}

static void read_element(qll_survey_pass *pass, const qll_node *node, qll_element *element)
{
    size_t kind = kind_of(pass, node);
    if (kind == QLL_ENTRY_KINDS) {
        return;
    }
    qll_object object = qll_object_open(&pass->reader, node, kinds[kind]);
    switch (kind) {
    case 0: read_pipe(pass, &object, element); break;
    case 1: read_meter(pass, &object, element); break;
    case 2: read_backflow(pass, &object, element); break;
    case 3: read_strainer(pass, &object, element); break;
    default:
        (void)qll_object_text(&object, "device");
        element->kind = QLL_ELEMENT_LOSS;
        (void)read_loss(&object, &device_rule, true, element);
        break;
    }
}

void qll_read_upstream(qll_survey_pass *pass)
{
    const qll_node *list = qll_object_list(&pass->root, "upstream");
    if (list == NULL) {
        if (qll_object_find(&pass->root, "upstream") == NULL) {
            qll_object_assume_text(&pass->root, "upstream", QLL_TEXT_VALUE_NOTHING,
                                   QLL_TEXT_WHY_NO_UPSTREAM);
        }
        return;
    }
    qll_element *elements = qll_reader_take(&pass->reader, list->child_count, sizeof *elements);
    if (elements == NULL) {
        return;
    }
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        read_element(pass, node, &elements[node->index]);
    }
    pass->survey->site.upstream = elements;
    pass->survey->site.upstream_count = list->child_count;
}
