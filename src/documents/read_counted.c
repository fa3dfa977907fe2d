/* Who is there: people, homes, rooms, beds and the like, and the fixtures that are taken to go with them
 * where the survey lists none. */
#include "base/count.h"
#include "documents/survey_parts.h"

#include <math.h>

/* What a survey counts beside people, and in which uses. */
typedef struct counted_key {
    const char *key;
    qll_usual_count counts;
    qll_use use;
} counted_key;

static const counted_key keys[] = {
    {"rooms", QLL_USUAL_ROOMS, QLL_USE_HOTEL},
    {"beds", QLL_USUAL_BEDS, QLL_USE_HOSPITAL},
    {"pupils", QLL_USUAL_PUPILS, QLL_USE_SCHOOL},
    {"seats", QLL_USUAL_SEATS, QLL_USE_RESTAURANT},
    {"employees", QLL_USUAL_EMPLOYEES, QLL_USE_OFFICE},
};

/* The key of a use that is no dwelling. */
static const counted_key *key_of(qll_use use)
{
    for (size_t i = 0; i < QLL_COUNT(keys); i++) {
        if (keys[i].use == use) {
            return &keys[i];
        }
    }
    return NULL;
}

const char *qll_counted_key(qll_use use)
{
    const counted_key *key = key_of(use);
    const char *of_dwelling = use == QLL_USE_APARTMENT ? "homes" : "baths";
    return key != NULL ? key->key : use == QLL_USE_COUNT ? NULL : of_dwelling;
}

/* It belongs to that use; NULL = to dwellings. */
static void refuse_elsewhere(const qll_object *object, const char *key, const char *use)
{
    if (qll_object_find(object, key) == NULL) {
        return;
    }
    qll_said says = {QLL_TEXT_BELONGS_TO_DWELLINGS, {qll_as_is(key)}};
    if (use != NULL) {
        says = (qll_said){QLL_TEXT_BELONGS_TO, {qll_as_is(key), qll_as_is(use)}};
    }
    (void)qll_reader_refuse_fixed(object->reader, qll_object_where(object, key),
                                  QLL_CODE_CONTRADICTION, &says, NULL,
                                  (qll_fix){.op = QLL_FIX_REMOVE});
}

/* Keys of other uses, which would count for nothing. */
static void check_keys(const qll_object *object, qll_use use)
{
    for (size_t i = 0; i < QLL_COUNT(keys); i++) {
        if (keys[i].use != use) {
            refuse_elsewhere(object, keys[i].key, qll_use_words[keys[i].use]);
        }
    }
    if (!qll_use_is_dwelling(use)) {
        refuse_elsewhere(object, "baths", NULL);
    }
}

/* ---- what is counted ---- */

static void refuse_part_of_bath(const qll_object *object)
{
    (void)qll_reader_refuse(object->reader, qll_object_where(object, "baths"), QLL_CODE_WRONG_KIND,
                            QLL_SAYS(PART_OF_BATH), NULL);
}

/* Homes of a dwelling and the baths in all of them. */
static void count_dwelling(const qll_object *object, qll_use use, double homes,
                           qll_usual_counted *counted)
{
    const bool has_baths = qll_object_find(object, "baths") != NULL;
    double baths = qll_or_0(qll_object_quantity(object, "baths"));
    if (!has_baths) {
        baths = use == QLL_USE_HOUSE ? 2.0 : 1.0;
    } else if (2.0 * baths != floor(2.0 * baths)) {
        refuse_part_of_bath(object);
    }
    counted->of[QLL_USUAL_HOMES] = homes;
    counted->of[QLL_USUAL_BATHS] = homes * floor(baths);
    counted->of[QLL_USUAL_HALF_BATHS] = homes * ceil(baths - floor(baths));
}

/* What the survey counts, by its own keys or, where `people` is the same thing, by that; all 0 where it
 * counts nothing. */
static qll_usual_counted read_counted(const qll_object *object, const qll_scenario *scenario)
{
    qll_usual_counted counted = {{0.0}};
    if (qll_use_is_dwelling(scenario->use)) {
        const bool is_one_house = scenario->use == QLL_USE_HOUSE && isnan(scenario->homes)
                                  && qll_object_find(object, "baths") != NULL;
        const double homes = is_one_house ? 1.0 : qll_or_0(scenario->homes);
        if (homes > 0.0) {
            count_dwelling(object, scenario->use, homes, &counted);
        }
        return counted;
    }
    const counted_key *key = key_of(scenario->use);
    if (key == NULL) {
        return counted;
    }
    if (qll_object_find(object, key->key) != NULL) {
        counted.of[key->counts] = qll_or_0(qll_object_whole(object, key->key));
    } else if (scenario->use == QLL_USE_OFFICE || scenario->use == QLL_USE_SCHOOL
               || scenario->use == QLL_USE_HOSPITAL) {
        counted.of[key->counts] = qll_or_0(scenario->people); /* employees, pupils, beds */
    }
    return counted;
}

/* Is anything counted, rightly or not? Then a problem that stands there is enough. */
static bool counts_something(const qll_object *object, qll_use use)
{
    bool found = qll_object_find(object, "baths") != NULL
                 || (qll_use_is_dwelling(use) && qll_object_find(object, "homes") != NULL);
    for (size_t i = 0; i < QLL_COUNT(keys); i++) {
        found = found || qll_object_find(object, keys[i].key) != NULL;
    }
    return found;
}

/* ---- people ---- */

static void assume_people(const qll_object *object, double people, qll_text_id why)
{
    qll_writer value = qll_writer_new(object->reader->arena);
    qll_write_format(&value, "%.6g", people);
    qll_object_assume(object, "people", qll_as_is_text(qll_writer_text(&value)),
                      (qll_said){.id = why});
}

static void ask_for_people(const qll_object *object, qll_use use)
{
    const counted_key *key = key_of(use);
    qll_said says = {.id = use == QLL_USE_HOUSE ? QLL_TEXT_PEOPLE_MISSING_BATHS
                                                : QLL_TEXT_PEOPLE_MISSING_HOMES};
    if (key != NULL) {
        says = (qll_said){QLL_TEXT_PEOPLE_MISSING_KEY, {qll_as_is(key->key)}};
    }
    (void)qll_reader_refuse(object->reader, qll_at_missing(object->node, "people"),
                            QLL_CODE_MISSING_KEY, &says, NULL);
}

/* The baths of an apartment house say nothing without its homes. */
static bool needs_homes(const qll_object *object)
{
    return qll_object_find(object, "baths") != NULL && qll_object_find(object, "homes") == NULL;
}

/* Where nobody counts people: by what is counted, or as the log knows it. */
static void take_people(const qll_object *object, double usual, qll_scenario *scenario)
{
    const bool is_dwelling = qll_use_is_dwelling(scenario->use);
    const bool has_baths = qll_object_find(object, "baths") != NULL;
    if (usual > 0.0 && is_dwelling && !(scenario->use == QLL_USE_HOUSE && has_baths)) {
        scenario->people = QLL_PEOPLE_PER_HOME * scenario->homes;
        assume_people(object, scenario->people, QLL_TEXT_WHY_PEOPLE_PER_HOME);
    } else if (usual > 0.0) {
        scenario->people = usual;
        assume_people(object, usual, QLL_TEXT_WHY_USUAL_COUNTED);
    } else if (qll_object_find(object, "log") != NULL) {
        scenario->people = 0.0; /* the log knows how much they draw */
    } else if (!counts_something(object, scenario->use) || (is_dwelling && needs_homes(object))) {
        ask_for_people(object, scenario->use);
    }
}

qll_usual_counted qll_read_people(qll_survey_pass *pass, const qll_object *object,
                                  qll_scenario *scenario)
{
    const bool has_people = qll_object_find(object, "people") != NULL;
    scenario->people = qll_object_quantity(object, "people");
    scenario->homes = qll_object_whole(object, "homes");
    if ((size_t)scenario->use == QLL_USE_COUNT) {
        return (qll_usual_counted){{0.0}};
    }
    check_keys(object, scenario->use);
    const qll_usual_counted counted = read_counted(object, scenario);
    const double usual = qll_usual_people(&pass->tables->usual, scenario->use, &counted);
    const counted_key *key = key_of(scenario->use);
    if (!has_people) {
        take_people(object, usual, scenario);
    } else if (key != NULL && qll_object_find(object, key->key) != NULL && usual > 0.0) {
        scenario->counted = (qll_counted){key->key, counted.of[key->counts], usual};
    }
    return counted;
}

/* ---- fixtures ---- */

static void assume_load(const qll_object *object, const qll_fixture_load *load)
{
    const bool is_usual = load->occupancy == QLL_OCCUPANCY_USUAL;
    qll_said value = {is_usual ? QLL_TEXT_VALUE_FIXTURES : QLL_TEXT_VALUE_FIXTURES_AS,
                      {qll_as_whole(load->count), qll_as_word(load->kind->word)}};
    if (!is_usual) {
        value.arguments[2] = qll_as_word(qll_occupancy_words[load->occupancy - 1]);
    }
    qll_object_assume(object, "fixtures", qll_as_said(object->reader->arena, value),
                      (qll_said){.id = QLL_TEXT_WHY_USUAL_COUNTED});
}

bool qll_read_usual_fixtures(qll_survey_pass *pass, const qll_object *object,
                             const qll_usual_counted *counted, qll_scenario *scenario)
{
    if ((size_t)scenario->use == QLL_USE_COUNT) {
        return true; /* what is wrong with the use is said already */
    }
    const qll_usual_table *usual = &pass->tables->usual;
    qll_fixture_load *loads = qll_reader_take(&pass->reader, usual->count, sizeof *loads);
    if (loads == NULL) {
        return false;
    }
    scenario->load_count = qll_usual_loads(usual, scenario->use, counted, loads);
    scenario->loads = loads;
    if (scenario->load_count > 0 && qll_use_is_dwelling(scenario->use)) {
        const bool is_house = scenario->use == QLL_USE_HOUSE;
        scenario->homes = counted->of[QLL_USUAL_HOMES];
        if (qll_object_find(object, "baths") == NULL) {
            qll_object_assume(object, "baths", qll_as_whole(is_house ? 2 : 1),
                              (qll_said){.id = QLL_TEXT_WHY_USUAL_HOME});
        }
    }
    for (size_t i = 0; i < scenario->load_count; i++) {
        assume_load(object, &loads[i]);
    }
    return scenario->load_count > 0 || counts_something(object, scenario->use);
}
