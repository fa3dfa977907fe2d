#include "base/count.h"
#include "base/quote.h"
#include "base/words.h"
#include "demand/outlet.h"
#include "documents/survey_parts.h"

#include <math.h>
#include <stdint.h>

/* Keys that say something of a log. */
static const char *const log_keys[] = {"pulse", "time_zone", "log_format"};
#define QLL_LOG_KEYS QLL_COUNT(log_keys)

/* ---- fixtures ---- */

static const qll_fixture_kind *read_kind(qll_survey_pass *pass, const qll_object *object)
{
    const qll_node *node = qll_object_find(object, "fixture");
    if (node == NULL) {
        return NULL;
    }
    if (node->kind != QLL_NODE_TEXT) {
        (void)qll_reader_wrong_kind(&pass->reader, node, QLL_SAYS(EXPECT_FIXTURE));
        return NULL;
    }
    const qll_fixture_table *fixtures = &pass->tables->fixtures;
    const qll_fixture_kind *kind = qll_fixture_find(fixtures, qll_text_trimmed(node->text));
    if (kind == NULL && !qll_reader_drops(&pass->reader, qll_at(node))) {
        (void)qll_reader_unknown_word(&pass->reader, qll_at(node), QLL_SAYS(A_FIXTURE),
                                      fixtures->words, fixtures->word_count);
    }
    return kind;
}

/* Where guest or patient rooms are taken to be meant, that is an assumption to be seen. */
static qll_occupancy read_occupancy(const qll_object *object, const qll_scenario *scenario,
                                    const qll_fixture_load *load)
{
    const size_t word = qll_object_word(object, "occupancy");
    if (word != SIZE_MAX) {
        return (qll_occupancy)(word + 1);
    }
    const bool has_rooms = scenario->use == QLL_USE_HOTEL || scenario->use == QLL_USE_HOSPITAL;
    if (has_rooms && load->kind != NULL && qll_object_find(object, "occupancy") == NULL
        && qll_load_is_private(scenario, load)) {
        qll_object_assume(object, "occupancy", qll_as_word(qll_occupancy_words[0]),
                          (qll_said){.id = scenario->use == QLL_USE_HOTEL
                                               ? QLL_TEXT_WHY_GUEST_ROOMS
                                               : QLL_TEXT_WHY_PATIENT_ROOMS});
    }
    return QLL_OCCUPANCY_USUAL;
}

static void read_fixtures(qll_survey_pass *pass, const qll_object *object, qll_scenario *scenario)
{
    const qll_node *list = qll_object_list(object, "fixtures");
    if (list == NULL) {
        return;
    }
    qll_fixture_load *loads = qll_reader_take(&pass->reader, list->child_count, sizeof *loads);
    if (loads == NULL) {
        return;
    }
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        qll_object entry = qll_object_open(&pass->reader, node, &qll_group_fixture);
        if (entry.node != NULL) {
            double how_many = qll_object_whole(&entry, "count");
            loads[node->index] = (qll_fixture_load){
                .kind = read_kind(pass, &entry),
                .count = how_many >= 1.0 ? (size_t)how_many : 0,
                .flow_m3s = qll_object_quantity(&entry, "flow"),
                .use_probability = qll_object_quantity(&entry, "use_probability"),
            };
            loads[node->index].occupancy = read_occupancy(&entry, scenario, &loads[node->index]);
        }
    }
    scenario->loads = loads;
    scenario->load_count = list->child_count;
}

/* ---- continuous flows ---- */

/* "09:30" at the start of @p text as seconds of the day; NaN if it is none. */
static double clock_s(qll_text text)
{
    if (text.size < 5 || !qll_is_digit(text.bytes[0]) || !qll_is_digit(text.bytes[1])
        || text.bytes[2] != ':' || !qll_is_digit(text.bytes[3]) || !qll_is_digit(text.bytes[4])) {
        return NAN;
    }
    int hours = (text.bytes[0] - '0') * 10 + (text.bytes[1] - '0');
    int minutes = (text.bytes[3] - '0') * 10 + (text.bytes[4] - '0');
    bool is_time = hours < 24 ? minutes < 60 : hours == 24 && minutes == 0;
    return is_time ? hours * 3600.0 + minutes * 60.0 : (double)NAN;
}

static void read_hours(qll_survey_pass *pass, const qll_object *object, qll_continuous *continuous)
{
    const qll_node *node = qll_object_find(object, "hours");
    if (node == NULL) {
        const qll_field *field = qll_group_field(object->group, "hours");
        qll_object_assume_word(object, field);
        return;
    }
    qll_text text = qll_text_trimmed(node->text);
    bool is_text = node->kind == QLL_NODE_TEXT;
    continuous->from_s = is_text ? clock_s(text) : (double)NAN;
    continuous->to_s = NAN;
    if (is_text && text.size == 11 && text.bytes[5] == '-') {
        continuous->to_s = clock_s((qll_text){text.bytes + 6, 5});
    }
    if (isnan(continuous->from_s) || isnan(continuous->to_s)) {
        (void)qll_reader_wrong_kind(&pass->reader, node, QLL_SAYS(EXPECT_HOURS));
    }
    if (continuous->from_s == 86400.0) { /* midnight begins a day as well as it ends one */
        continuous->from_s = 0.0;
    }
    if (continuous->from_s == 0.0 && continuous->to_s == 86400.0) {
        continuous->to_s = 0.0; /* all day: from == to */
    }
}

static void read_continuous(qll_survey_pass *pass, const qll_object *object, qll_scenario *scenario)
{
    const qll_node *list = qll_object_list(object, "continuous");
    if (list == NULL) {
        return;
    }
    qll_continuous *flows = qll_reader_take(&pass->reader, list->child_count, sizeof *flows);
    if (flows == NULL) {
        return;
    }
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        qll_object entry = qll_object_open(&pass->reader, node, &qll_group_continuous);
        if (entry.node != NULL) {
            flows[node->index].name = qll_object_text(&entry, "name");
            flows[node->index].flow_m3s = qll_object_quantity(&entry, "flow");
            read_hours(pass, &entry, &flows[node->index]);
        }
    }
    scenario->continuous = flows;
    scenario->continuous_count = list->child_count;
}

/* ---- peak, name ---- */

static bool starts_a_number(qll_text text)
{
    return text.size > 0
           && (qll_is_digit(text.bytes[0]) || text.bytes[0] == '-' || text.bytes[0] == '+'
               || text.bytes[0] == '.');
}

static void read_peak(qll_survey_pass *pass, const qll_object *object, qll_scenario *scenario)
{
    scenario->peak_method = QLL_PEAK_METHOD_COUNT;
    scenario->peak_given_m3s = NAN;
    const qll_node *node = qll_object_find(object, "peak");
    if (node == NULL) {
        return;
    }
    qll_text text = qll_text_trimmed(node->text);
    if (node->kind != QLL_NODE_TEXT || starts_a_number(text)) {
        scenario->peak_method = QLL_PEAK_GIVEN;
        scenario->peak_given_m3s =
            qll_reader_quantity(&pass->reader, node, qll_group_field(object->group, "peak"));
        return;
    }
    for (size_t i = 0; i < QLL_PEAK_GIVEN; i++) { /* the last word is for answers */
        if (qll_text_is(text, qll_peak_method_words[i])) {
            scenario->peak_method = (qll_peak_method)i;
            return;
        }
    }
    (void)qll_reader_unknown_word(&pass->reader, qll_at(node), QLL_SAYS(A_PEAK),
                                  qll_peak_method_words, QLL_PEAK_GIVEN);
}

static void find_fixtures(qll_survey_pass *pass, const qll_object *object,
                          const qll_usual_counted *counted, qll_scenario *scenario)
{
    bool needs_none =
        scenario->peak_method == QLL_PEAK_GIVEN || scenario->peak_method == QLL_PEAK_PULSE_MODEL;
    if (needs_none || qll_object_find(object, "fixtures") != NULL
        || qll_object_find(object, "log") != NULL
        || qll_read_usual_fixtures(pass, object, counted, scenario)) {
        return;
    }
    const char *counted_key = qll_counted_key(scenario->use);
    const qll_said says = {counted_key == NULL ? QLL_TEXT_FIXTURES_MISSING
                                               : QLL_TEXT_FIXTURES_MISSING_OR,
                           {qll_as_is(counted_key)}};
    (void)qll_reader_refuse(object->reader, qll_at_missing(object->node, "fixtures"),
                            QLL_CODE_MISSING_KEY, &says, NULL);
}

static void read_name(const qll_object *object, qll_scenario *scenario)
{
    scenario->name = qll_object_text(object, "name");
    if (qll_object_find(object, "name") != NULL) {
        return;
    }
    qll_arena *arena = object->reader->arena;
    qll_writer name = qll_writer_new(arena);
    scenario->number = object->node->index + 1;
    qll_write_format(&name, "scenario %zu", scenario->number); /* in every language */
    scenario->name = qll_writer_text(&name).bytes;
    const qll_said called = {QLL_TEXT_SCENARIO_NUMBER, {qll_as_whole(scenario->number)}};
    qll_object_assume(object, "name", qll_as_said(arena, called),
                      (qll_said){.id = QLL_TEXT_WHY_NO_NAME});
}

/* Answers tell scenarios apart by their names. */
static void check_name(const qll_object *object, const qll_scenario *scenarios, size_t here)
{
    const char *name = scenarios[here].name;
    for (size_t i = 0; name != NULL && i < here; i++) {
        if (scenarios[i].name != NULL && qll_text_is(qll_text_of(name), scenarios[i].name)) {
            const qll_said says = {QLL_TEXT_NAME_TWICE,
                                   {qll_as_quoted(qll_text_of(name)), qll_as_whole(i)}};
            (void)qll_reader_refuse(object->reader, qll_object_where(object, "name"),
                                    QLL_CODE_CONTRADICTION, &says, NULL);
            return;
        }
    }
}

/* ---- the use, and whether there is enough to tell the flow ---- */

static const qll_node *find_any(const qll_object *object, const char *const *keys, size_t count)
{
    const qll_node *found = NULL;
    for (size_t i = 0; i < count && found == NULL; i++) {
        found = qll_object_find(object, keys[i]);
    }
    return found;
}

/* Whose presence says who draws water. */
static const char *const drawn_by[] = {"people", "homes",  "fixtures", "baths",    "rooms",
                                       "beds",   "pupils", "seats",    "employees"};

/* One problem for a scenario that says neither who draws water nor what a meter says of it. */
static bool says_enough(const qll_object *object)
{
    const qll_node *of_log = find_any(object, log_keys, QLL_LOG_KEYS);
    const bool has_log = qll_object_find(object, "log") != NULL;
    if (!has_log && of_log != NULL) {
        return qll_reader_refuse(object->reader, qll_at_key(of_log), QLL_CODE_MISSING_KEY,
                                 QLL_SAYS_WITH(LOG_KEYS_ALONE, qll_as_quoted(of_log->key)), NULL);
    }
    return has_log || qll_object_find(object, "use") != NULL
           || find_any(object, drawn_by, QLL_COUNT(drawn_by)) != NULL
           || qll_object_needs(object, "use");
}

static qll_use read_use(const qll_object *object)
{
    if (qll_object_find(object, "use") != NULL) {
        size_t use = qll_object_word(object, "use");
        return use == SIZE_MAX ? QLL_USE_COUNT : (qll_use)use;
    }
    if (qll_object_find(object, "log") == NULL
        || find_any(object, drawn_by, QLL_COUNT(drawn_by)) != NULL) {
        (void)qll_object_needs(object, "use");
        return QLL_USE_COUNT;
    }
    qll_object_assume(object, "use", qll_as_word(qll_use_words[QLL_USE_APARTMENT]),
                      (qll_said){.id = QLL_TEXT_WHY_COARSE_PEAK});
    return QLL_USE_APARTMENT;
}

/* ---- what the pulse model takes ---- */

static void read_day(const qll_survey_pass *pass, const qll_object *object, qll_scenario *scenario)
{
    size_t day = qll_object_word(object, "day");
    scenario->day = day == SIZE_MAX ? QLL_DAY_WEEKDAY : (qll_day_kind)day;
    qll_read_habits(pass, object, scenario);
    scenario->outlet_pa_gauge = qll_or_0(qll_object_quantity(object, "outlet_pressure"));
    if (qll_object_find(object, "outlet_pressure") == NULL && scenario->people > 0.0) {
        qll_object_assume_quantity(object, "outlet_pressure", QLL_OUTLET_REFERENCE_PA_GAUGE,
                                   QLL_KIND_PRESSURE, (qll_said){.id = QLL_TEXT_WHY_TABLE_FLOWS});
    }
    scenario->reference_pa_gauge = qll_or_0(qll_object_quantity(object, "reference_pressure"));
    if (qll_object_find(object, "reference_pressure") != NULL
        && qll_object_find(object, "outlet_pressure") == NULL) {
        (void)qll_object_needs(object, "outlet_pressure");
    }
}

static void read_graphs(const qll_object *object, qll_scenario *scenario)
{
    static const struct {
        const char *key;
        const qll_field_group *group;
    } graphs[QLL_LOADING_TABLE_COUNT] = {
        [QLL_LOADING_EN] = {"en_806_3", &qll_group_graph_en},
        [QLL_LOADING_BS] = {"bs_6700", &qll_group_graph_bs},
    };

    qll_object loading = qll_object_inner(object, "loading_units", &qll_group_loading);
    for (size_t i = 0; i < QLL_LOADING_TABLE_COUNT; i++) {
        const qll_points_rule rule = {.group = graphs[i].group,
                                      .x_key = "units",
                                      .y_key = "flow",
                                      .run = QLL_RUN_RISING,
                                      .because = QLL_TEXT_BECAUSE_UNITS_DRAW_MORE};
        scenario->graphs[i].points =
            qll_object_points(&loading, graphs[i].key, &rule, 0, &scenario->graphs[i].count);
    }
}

static void read_scenario(qll_survey_pass *pass, const qll_object *object, qll_scenario *scenario)
{
    read_name(object, scenario);
    scenario->use = read_use(object);
    const qll_usual_counted counted = qll_read_people(pass, object, scenario);
    read_fixtures(pass, object, scenario);
    read_continuous(pass, object, scenario);
    scenario->weight = qll_object_quantity(object, "weight");
    read_peak(pass, object, scenario);
    scenario->quantile = qll_object_quantity(object, "quantile");
    read_day(pass, object, scenario);
    read_graphs(object, scenario);
    if (qll_object_find(object, "peak") == NULL || scenario->peak_method != QLL_PEAK_METHOD_COUNT) {
        find_fixtures(pass, object, &counted, scenario);
    }
}

void qll_read_scenarios(qll_survey_pass *pass)
{
    const qll_node *list = qll_object_list(&pass->root, "scenarios");
    if (list == NULL) {
        return;
    }
    qll_scenario *scenarios = qll_reader_take(&pass->reader, list->child_count, sizeof *scenarios);
    qll_survey_log *logs = qll_reader_take(&pass->reader, list->child_count, sizeof *logs);
    if (scenarios == NULL || logs == NULL) {
        return;
    }
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        qll_object entry = qll_object_open(&pass->reader, node, &qll_group_scenario);
        if (entry.node != NULL && says_enough(&entry)) {
            read_scenario(pass, &entry, &scenarios[node->index]);
            logs[node->index] = qll_read_log(pass, &entry);
            check_name(&entry, scenarios, node->index);
        }
    }
    pass->survey->scenarios = scenarios;
    pass->survey->logs = logs;
    pass->survey->scenario_count = list->child_count;
}
