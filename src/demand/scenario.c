#include "demand/scenario.h"

#include <math.h>

const char *const qll_use_words[QLL_USE_COUNT] = {
#define QLL_USE_WORD(name, word, set, profile, din, building) [QLL_USE_##name] = (word),
    QLL_USE_LIST(QLL_USE_WORD)
#undef QLL_USE_WORD
};

const char *const qll_peak_method_words[QLL_PEAK_METHOD_COUNT] = {
#define QLL_PEAK_METHOD_WORD(name, word) [QLL_PEAK_##name] = (word),
    QLL_PEAK_METHOD_LIST(QLL_PEAK_METHOD_WORD)
#undef QLL_PEAK_METHOD_WORD
};

const char *const qll_day_kind_words[QLL_DAY_KIND_COUNT] = {
    [QLL_DAY_WEEKDAY] = "weekday",
    [QLL_DAY_SATURDAY] = "saturday",
    [QLL_DAY_SUNDAY] = "sunday",
};

const char *const qll_occupancy_words[QLL_OCCUPANCY_COUNT - 1] = {"private", "public"};

const char *const qll_habits_words[QLL_HABITS_COUNT] = {
    [QLL_HABITS_METRIC] = "metric",
    [QLL_HABITS_US] = "us",
};

const char *const qll_outdoor_words[QLL_OUTDOOR_COUNT] = {
    [QLL_OUTDOOR_NONE] = "none",
    [QLL_OUTDOOR_HOSE] = "hose",
    [QLL_OUTDOOR_IRRIGATION] = "irrigation",
};

const char *const qll_season_words[QLL_SEASON_COUNT] = {
    [QLL_SEASON_SUMMER] = "summer",
    [QLL_SEASON_SPRING] = "spring",
    [QLL_SEASON_AUTUMN] = "autumn",
    [QLL_SEASON_WINTER] = "winter",
};

bool qll_use_is_dwelling(qll_use use)
{
    return use == QLL_USE_APARTMENT || use == QLL_USE_HOUSE;
}

double qll_scenario_homes(const qll_scenario *scenario)
{
    if (!isnan(scenario->homes)) {
        return scenario->homes;
    }
    if (scenario->use == QLL_USE_HOUSE && scenario->people > 0.0) {
        return 1.0;
    }
    return qll_use_is_dwelling(scenario->use) ? scenario->people / QLL_PEOPLE_PER_HOME : 0.0;
}

bool qll_scenario_has_fixtures(const qll_scenario *scenario)
{
    for (size_t i = 0; i < scenario->load_count; i++) {
        if (scenario->loads[i].count > 0) {
            return true;
        }
    }
    return false;
}

double qll_load_flow_m3s(const qll_fixture_load *load)
{
    return isnan(load->flow_m3s) ? load->kind->flow_m3s : load->flow_m3s;
}

double qll_load_probability(const qll_fixture_load *load)
{
    return isnan(load->use_probability) ? load->kind->use_probability : load->use_probability;
}

bool qll_load_is_private(const qll_scenario *scenario, const qll_fixture_load *load)
{
    if (load->occupancy != QLL_OCCUPANCY_USUAL) {
        return load->occupancy == QLL_OCCUPANCY_PRIVATE;
    }
    if (scenario->use == QLL_USE_HOTEL) {
        return load->kind->private_in_hotel;
    }
    if (scenario->use == QLL_USE_HOSPITAL) {
        return load->kind->private_in_hospital;
    }
    return qll_use_is_dwelling(scenario->use);
}

static bool comes_apart(const qll_fixture_load *load)
{
    return load->count > 0 && load->kind->part_count > 0 && isnan(load->flow_m3s)
           && isnan(load->use_probability);
}

qll_status qll_scenario_apart(const qll_scenario *scenario, qll_arena *arena, qll_scenario *apart,
                              double *groups)
{
    *apart = *scenario;
    *groups = 0.0;
    for (size_t i = 0; i < scenario->load_count; i++) {
        *groups += comes_apart(&scenario->loads[i]) ? (double)scenario->loads[i].count : 0.0;
    }
    if (*groups == 0.0) {
        return QLL_OK;
    }
    qll_fixture_load *loads =
        qll_arena_take(arena, scenario->load_count * QLL_PARTS_MAX, sizeof *loads);
    if (loads == NULL) {
        return QLL_NO_MEMORY;
    }
    apart->loads = loads;
    apart->load_count = 0;
    for (size_t i = 0; i < scenario->load_count; i++) {
        const qll_fixture_load *load = &scenario->loads[i];
        const bool is_group = comes_apart(load);
        const size_t parts = is_group ? load->kind->part_count : 1;
        for (size_t p = 0; p < parts; p++) {
            loads[apart->load_count] = *load;
            loads[apart->load_count].kind = is_group ? load->kind->parts[p] : load->kind;
            apart->load_count += 1;
        }
    }
    return QLL_OK;
}
