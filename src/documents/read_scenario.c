#include "base/quote.h"
#include "base/words.h"
#include "documents/survey_parts.h"

#include <math.h>
#include <stdint.h>

#define QLL_SCENARIOS_MAX   50
#define QLL_FIXTURES_MAX    500
#define QLL_CONTINUOUS_MAX  100
/* People per dwelling where a survey only counts homes (our assumption). */
#define QLL_PEOPLE_PER_HOME 2.3

/* Keys of a metered scenario, which is told apart before anything else is said of it. */
static const char *const metered_keys[] = {"log", "pulse", "time_zone"};
#define QLL_METERED_COUNT (sizeof metered_keys / sizeof metered_keys[0])

/* True if the scenario brings a meter's log, which is one problem whatever else it lacks. */
static bool refuse_metered(qll_survey_pass *pass, const qll_node *node)
{
    for (size_t i = 0; node->kind == QLL_NODE_OBJECT && i < QLL_METERED_COUNT; i++) {
        const qll_node *key = qll_node_find(node, metered_keys[i]);
        if (key == NULL) {
            continue;
        }
        qll_writer says = qll_reader_says(&pass->reader);
        qll_write_quoted(&says, key->key);
        qll_write(&says, " belongs to a metered scenario; this version reads fixtures and people; "
                         "enter a metered peak as \"peak\": \"87 gpm\"");
        (void)qll_reader_refuse(&pass->reader, qll_at_key(key), QLL_CODE_UNKNOWN_KEY, &says, "");
        return true;
    }
    return false;
}

/* ---- fixtures ---- */

static const qll_fixture_kind *read_kind(qll_survey_pass *pass, const qll_object *object)
{
    const qll_node *node = qll_object_find(object, "fixture");
    if (node == NULL) {
        return NULL;
    }
    if (node->kind != QLL_NODE_TEXT) {
        (void)qll_reader_wrong_kind(&pass->reader, node, "a fixture in quotes, \"shower\"");
        return NULL;
    }
    const qll_fixture_table *fixtures = &pass->tables->fixtures;
    const qll_fixture_kind *kind = qll_fixture_find(fixtures, qll_text_trimmed(node->text));
    if (kind == NULL && !qll_reader_drops(&pass->reader, qll_at(node))) {
        (void)qll_reader_unknown_word(&pass->reader, qll_at(node), "a fixture", fixtures->words,
                                      fixtures->word_count);
    }
    return kind;
}

static void read_fixtures(qll_survey_pass *pass, const qll_object *object, qll_scenario *scenario)
{
    const qll_node *list = qll_object_list(object, "fixtures", QLL_FIXTURES_MAX);
    if (list == NULL) {
        return;
    }
    qll_fixture_load *loads = qll_reader_take(&pass->reader, list->child_count, sizeof *loads);
    if (loads == NULL) {
        return;
    }
    size_t count = 0;
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        qll_object entry = qll_object_open(&pass->reader, node, &qll_group_fixture);
        if (entry.node != NULL) {
            double how_many = qll_object_whole(&entry, "count");
            loads[count] = (qll_fixture_load){
                .kind = read_kind(pass, &entry),
                .count = how_many >= 1.0 ? (size_t)how_many : 0,
                .flow_m3s = qll_object_quantity(&entry, "flow"),
                .use_probability = qll_object_quantity(&entry, "use_probability"),
            };
        }
        count += 1;
    }
    scenario->loads = loads;
    scenario->load_count = count;
}

/* ---- continuous flows ---- */

static bool is_digit(char byte)
{
    return byte >= '0' && byte <= '9';
}

/* "09:30" at the start of @p text as seconds of the day; NaN if it is none. */
static double clock_s(qll_text text)
{
    if (text.size < 5 || !is_digit(text.bytes[0]) || !is_digit(text.bytes[1])
        || text.bytes[2] != ':' || !is_digit(text.bytes[3]) || !is_digit(text.bytes[4])) {
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
        qll_object_assume(object, "hours", field->fallback, field->why);
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
        (void)qll_reader_wrong_kind(&pass->reader, node,
                                    "hours from 00:00 to 24:00, for example \"09:00-17:00\"");
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
    const qll_node *list = qll_object_list(object, "continuous", QLL_CONTINUOUS_MAX);
    if (list == NULL) {
        return;
    }
    qll_continuous *flows = qll_reader_take(&pass->reader, list->child_count, sizeof *flows);
    if (flows == NULL) {
        return;
    }
    size_t count = 0;
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        qll_object entry = qll_object_open(&pass->reader, node, &qll_group_continuous);
        if (entry.node != NULL) {
            flows[count].name = qll_object_text(&entry, "name");
            flows[count].flow_m3s = qll_object_quantity(&entry, "flow");
            read_hours(pass, &entry, &flows[count]);
        }
        count += 1;
    }
    scenario->continuous = flows;
    scenario->continuous_count = count;
}

/* ---- people, peak, name ---- */

static void read_people(const qll_object *object, qll_scenario *scenario)
{
    scenario->people = qll_object_quantity(object, "people");
    scenario->homes = qll_object_whole(object, "homes");
    if (qll_object_find(object, "people") != NULL || (size_t)scenario->use == QLL_USE_COUNT) {
        return;
    }
    bool is_dwelling = scenario->use == QLL_USE_APARTMENT || scenario->use == QLL_USE_HOUSE;
    if (is_dwelling && qll_object_find(object, "homes") != NULL) {
        scenario->people = QLL_PEOPLE_PER_HOME * scenario->homes;
        if (isfinite(scenario->people)) {
            qll_writer value = qll_writer_new(object->reader->arena);
            qll_write_number(&value, scenario->people);
            const char *text = qll_writer_text(&value).bytes;
            qll_object_assume(object, "people", text == NULL ? "" : text,
                              "2.3 for each home, our assumption");
        }
        return;
    }
    qll_writer says = qll_reader_says(object->reader);
    qll_write(&says, "the scenario needs \"people\", how many there are");
    qll_write(&says, is_dwelling ? ", or \"homes\", how many dwellings" : "");
    (void)qll_reader_refuse(object->reader, qll_at_missing(object->node, "people"),
                            QLL_CODE_MISSING_KEY, &says, "");
}

static bool starts_a_number(qll_text text)
{
    return text.size > 0
           && (is_digit(text.bytes[0]) || text.bytes[0] == '-' || text.bytes[0] == '+'
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
    (void)qll_reader_unknown_word(&pass->reader, qll_at(node),
                                  "a way to find the peak, nor a flow like \"87 gpm\"",
                                  qll_peak_method_words, QLL_PEAK_GIVEN);
}

static void check_fixtures(const qll_object *object, const qll_scenario *scenario)
{
    bool needs_none =
        scenario->peak_method == QLL_PEAK_GIVEN || scenario->peak_method == QLL_PEAK_PULSE_MODEL;
    if (needs_none || qll_object_find(object, "fixtures") != NULL) {
        return;
    }
    qll_writer says = qll_reader_says(object->reader);
    qll_write(&says, "the scenario needs \"fixtures\", for example "
                     "[{\"fixture\": \"shower\", \"count\": 48}], or its \"peak\" as a flow");
    (void)qll_reader_refuse(object->reader, qll_at_missing(object->node, "fixtures"),
                            QLL_CODE_MISSING_KEY, &says, "");
}

static void read_name(const qll_object *object, qll_scenario *scenario)
{
    scenario->name = qll_object_text(object, "name");
    if (qll_object_find(object, "name") != NULL) {
        return;
    }
    qll_writer name = qll_writer_new(object->reader->arena);
    qll_write_format(&name, "scenario %zu", object->node->index + 1);
    scenario->name = qll_writer_text(&name).bytes;
    if (scenario->name == NULL) {
        object->reader->no_memory = true;
        return;
    }
    qll_object_assume(object, "name", scenario->name, "no name was given");
}

/* Answers tell scenarios apart by their names. */
static void check_name(const qll_object *object, const qll_scenario *scenarios, size_t here)
{
    const char *name = scenarios[here].name;
    for (size_t i = 0; name != NULL && i < here; i++) {
        if (scenarios[i].name != NULL && qll_text_is(qll_text_of(name), scenarios[i].name)) {
            qll_writer says = qll_reader_says(object->reader);
            qll_write_quoted(&says, qll_text_of(name));
            qll_write_format(&says, " is already the name of scenarios[%zu]; no two may be alike",
                             i);
            (void)qll_reader_refuse(object->reader, qll_object_where(object, "name"),
                                    QLL_CODE_CONTRADICTION, &says, "");
            return;
        }
    }
}

static void read_scenario(qll_survey_pass *pass, const qll_object *object, qll_scenario *scenario)
{
    read_name(object, scenario);
    size_t use = qll_object_word(object, "use");
    scenario->use = use == SIZE_MAX ? QLL_USE_COUNT : (qll_use)use;
    read_people(object, scenario);
    read_fixtures(pass, object, scenario);
    read_continuous(pass, object, scenario);
    scenario->weight = qll_object_quantity(object, "weight");
    read_peak(pass, object, scenario);
    scenario->quantile = qll_object_quantity(object, "quantile");
    if (qll_object_find(object, "peak") == NULL || scenario->peak_method != QLL_PEAK_METHOD_COUNT) {
        check_fixtures(object, scenario);
    }
}

void qll_read_scenarios(qll_survey_pass *pass)
{
    const qll_node *list = qll_object_list(&pass->root, "scenarios", QLL_SCENARIOS_MAX);
    if (list == NULL) {
        return;
    }
    qll_scenario *scenarios = qll_reader_take(&pass->reader, list->child_count, sizeof *scenarios);
    if (scenarios == NULL) {
        return;
    }
    size_t count = 0;
    for (const qll_node *node = list->first_child; node != NULL; node = node->next) {
        if (!refuse_metered(pass, node)) {
            qll_object entry = qll_object_open(&pass->reader, node, &qll_group_scenario);
            if (entry.node != NULL) {
                read_scenario(pass, &entry, &scenarios[count]);
                check_name(&entry, scenarios, count);
            }
        }
        count += 1;
    }
    pass->survey->scenarios = scenarios;
    pass->survey->scenario_count = count;
}
