/* What a default was taken for: keys are for whoever writes the survey, words for whoever reads the sheet. */
#include "base/count.h"
#include "wording/language.h"
#include "wording/wording.h"

#include <string.h>

typedef struct key_name {
    const char *key;
    qll_text_id id;
} key_name;

/* A key, or as much of its path as tells it from others. */
/* clang-format off */
static const key_name keys[] = {
    {"name", QLL_TEXT_LABEL_NAME},
    {"units", QLL_TEXT_LABEL_UNITS},
    {"elevation", QLL_TEXT_LABEL_ELEVATION},
    {"temperature", QLL_TEXT_LABEL_TEMPERATURE},
    {"rise", QLL_TEXT_LABEL_RISE},
    {"fittings", QLL_TEXT_LABEL_FITTINGS},
    {"upstream", QLL_TEXT_LABEL_UPSTREAM},
    {"flow_test", QLL_TEXT_LABEL_FLOW_TEST},
    {"flow_test at no flow", QLL_TEXT_LABEL_FLOW_TEST_STANDING},
    {"static_high", QLL_TEXT_LABEL_STATIC_HIGH},
    {"static_low", QLL_TEXT_LABEL_STATIC_LOW},
    {"pipe", QLL_TEXT_LABEL_PIPE},
    {"area_ratio", QLL_TEXT_LABEL_AREA_RATIO},
    {"blocked", QLL_TEXT_LABEL_BLOCKED},
    {"set_pressure", QLL_TEXT_LABEL_SET_PRESSURE},
    {"static_max", QLL_TEXT_LABEL_STATIC_MAX},
    {"outlets", QLL_TEXT_LABEL_OUTLETS},
    {"path", QLL_TEXT_LABEL_PATH},
    {"carries", QLL_TEXT_LABEL_CARRIES},
    {"cold", QLL_TEXT_LABEL_COLD},
    {"hot", QLL_TEXT_LABEL_HOT},
    {"relief", QLL_TEXT_LABEL_RELIEF},
    {"precharge", QLL_TEXT_LABEL_PRECHARGE},
    {"weight", QLL_TEXT_LABEL_WEIGHT},
    {"quantile", QLL_TEXT_LABEL_QUANTILE},
    {"day", QLL_TEXT_LABEL_DAY},
    {"people", QLL_TEXT_LABEL_PEOPLE},
    {"use", QLL_TEXT_LABEL_USE},
    {"hours", QLL_TEXT_LABEL_HOURS},
    {"velocity_band", QLL_TEXT_LABEL_VELOCITY_BAND},
    {"velocity_max", QLL_TEXT_LABEL_VELOCITY_MAX},
    {"ratio_preferred", QLL_TEXT_LABEL_RATIO_PREFERRED},
    {"ratio_max", QLL_TEXT_LABEL_RATIO_MAX},
    {"falloff", QLL_TEXT_LABEL_FALLOFF},
    {"falloff.set", QLL_TEXT_LABEL_FALLOFF_SET},
    {"falloff.inlet", QLL_TEXT_LABEL_FALLOFF_INLET},
    {"temperature_max", QLL_TEXT_LABEL_TEMPERATURE_MAX},
    {"lockup_rise", QLL_TEXT_LABEL_LOCKUP_RISE},
    {"inlet_effect", QLL_TEXT_LABEL_INLET_EFFECT},
    {"flow_min", QLL_TEXT_LABEL_FLOW_MIN},
    {"hysteresis", QLL_TEXT_LABEL_HYSTERESIS},
    {"fl", QLL_TEXT_LABEL_FL},
    {"fd", QLL_TEXT_LABEL_FD},
    {"xfz", QLL_TEXT_LABEL_XFZ},
    {"seat_bore", QLL_TEXT_LABEL_SEAT_BORE},
    {"moving_mass", QLL_TEXT_LABEL_MOVING_MASS},
    {"spring_rate", QLL_TEXT_LABEL_SPRING_RATE},
    {"damping", QLL_TEXT_LABEL_DAMPING},
    {"diaphragm", QLL_TEXT_LABEL_DIAPHRAGM},
    {"stroke_time", QLL_TEXT_LABEL_STROKE_TIME},
    {"site.people", QLL_TEXT_LABEL_WHERE_PEOPLE_ARE},
    {"costs.visit", QLL_TEXT_LABEL_COST_VISIT},
    {"costs.stage", QLL_TEXT_LABEL_COST_STAGE},
    {"costs.sizes[].branch", QLL_TEXT_LABEL_COST_BRANCH},
    {"price", QLL_TEXT_LABEL_PRICE},
    {"valve", QLL_TEXT_LABEL_EXISTING_VALVE},
    {"occupancy", QLL_TEXT_LABEL_OCCUPANCY},
    {"fixtures", QLL_TEXT_LABEL_FIXTURES},
    {"baths", QLL_TEXT_LABEL_BATHS},
    {"homes", QLL_TEXT_LABEL_HOMES},
    {"habits", QLL_TEXT_LABEL_HABITS},
    {"volume_per_person", QLL_TEXT_LABEL_VOLUME},
    {"variation", QLL_TEXT_LABEL_VARIATION},
    {"variation_hour", QLL_TEXT_LABEL_VARIATION_HOUR},
    {"breaks", QLL_TEXT_LABEL_BREAKS_OF_HOURS},
    {"outlet_pressure", QLL_TEXT_LABEL_OUTLET_PRESSURE},
    {"outdoor", QLL_TEXT_LABEL_OUTDOOR},
    {"season", QLL_TEXT_LABEL_SEASON},
    {"site.water_heater", QLL_TEXT_LABEL_SITE_HEATER},
    {"site.backflow_preventer", QLL_TEXT_LABEL_SITE_BACKFLOW},
    {"site.pilot_operated", QLL_TEXT_LABEL_SITE_PILOT},
    {"site.branches", QLL_TEXT_LABEL_SITE_BRANCHES},
    {"site.stages", QLL_TEXT_LABEL_SITE_STAGES},
    {"survey", QLL_TEXT_LABEL_SURVEY},
    {"catalogue", QLL_TEXT_LABEL_CATALOGUE},
    {"case", QLL_TEXT_LABEL_CASE},
    {"project", QLL_TEXT_LABEL_PROJECT},
    {"project.name", QLL_TEXT_LABEL_PROJECT_NAME},
    {"customer", QLL_TEXT_LABEL_CUSTOMER},
    {"address", QLL_TEXT_LABEL_ADDRESS},
    {"prepared_by", QLL_TEXT_LABEL_PREPARED_BY},
    {"license", QLL_TEXT_LABEL_LICENSE},
    {"revision", QLL_TEXT_LABEL_REVISION},
    {"site", QLL_TEXT_LABEL_SITE},
    {"barometric", QLL_TEXT_LABEL_BAROMETRIC},
    {"water", QLL_TEXT_LABEL_WATER},
    {"supply", QLL_TEXT_LABEL_SUPPLY},
    {"flow", QLL_TEXT_LABEL_FLOW},
    {"pressure", QLL_TEXT_LABEL_PRESSURE},
    {"station_pipe", QLL_TEXT_LABEL_STATION_PIPE},
    {"downstream", QLL_TEXT_LABEL_DOWNSTREAM},
    {"scenarios", QLL_TEXT_LABEL_SCENARIOS},
    {"limits", QLL_TEXT_LABEL_LIMITS},
    {"costs", QLL_TEXT_LABEL_COSTS},
    {"existing", QLL_TEXT_LABEL_EXISTING},
    {"nominal", QLL_TEXT_LABEL_NOMINAL},
    {"length", QLL_TEXT_LABEL_LENGTH},
    {"meter", QLL_TEXT_LABEL_METER},
    {"loss", QLL_TEXT_LABEL_LOSS},
    {"loss[].pressure", QLL_TEXT_LABEL_LOSS_PRESSURE},
    {"backflow", QLL_TEXT_LABEL_BACKFLOW},
    {"strainer", QLL_TEXT_LABEL_STRAINER},
    {"device", QLL_TEXT_LABEL_DEVICE},
    {"station", QLL_TEXT_LABEL_STATION},
    {"outlets[].elevation", QLL_TEXT_LABEL_OUTLET_ELEVATION},
    {"needs", QLL_TEXT_LABEL_NEEDS},
    {"heater", QLL_TEXT_LABEL_HEATER},
    {"heater.volume", QLL_TEXT_LABEL_HEATER_VOLUME},
    {"expansion_tank", QLL_TEXT_LABEL_TANK},
    {"expansion_tank.volume", QLL_TEXT_LABEL_TANK_VOLUME},
    {"rooms", QLL_TEXT_LABEL_ROOMS},
    {"beds", QLL_TEXT_LABEL_BEDS},
    {"pupils", QLL_TEXT_LABEL_PUPILS},
    {"seats", QLL_TEXT_LABEL_SEATS},
    {"employees", QLL_TEXT_LABEL_EMPLOYEES},
    {"continuous", QLL_TEXT_LABEL_CONTINUOUS},
    {"peak", QLL_TEXT_LABEL_PEAK},
    {"log", QLL_TEXT_LABEL_LOG},
    {"pulse", QLL_TEXT_LABEL_PULSE},
    {"time_zone", QLL_TEXT_LABEL_TIME_ZONE},
    {"log_format", QLL_TEXT_LABEL_LOG_FORMAT},
    {"hourly", QLL_TEXT_LABEL_HOURLY},
    {"reference_pressure", QLL_TEXT_LABEL_REFERENCE_PRESSURE},
    {"loading_units", QLL_TEXT_LABEL_LOADING_UNITS},
    {"log_format.kind", QLL_TEXT_LABEL_LOG_KIND},
    {"unit", QLL_TEXT_LABEL_LOG_UNIT},
    {"value_column", QLL_TEXT_LABEL_VALUE_COLUMN},
    {"time_column", QLL_TEXT_LABEL_TIME_COLUMN},
    {"log_format.meter", QLL_TEXT_LABEL_LOG_METER},
    {"meter_column", QLL_TEXT_LABEL_METER_COLUMN},
    {"repeated", QLL_TEXT_LABEL_REPEATED},
    {"log_format.key", QLL_TEXT_LABEL_LOG_KEY},
    {"order", QLL_TEXT_LABEL_ORDER},
    {"decimal", QLL_TEXT_LABEL_DECIMAL},
    {"stamp", QLL_TEXT_LABEL_STAMP},
    {"most_flow", QLL_TEXT_LABEL_MOST_FLOW},
    {"dead_band", QLL_TEXT_LABEL_DEAD_BAND},
    {"least_quality", QLL_TEXT_LABEL_LEAST_QUALITY},
    {"heartbeat", QLL_TEXT_LABEL_HEARTBEAT},
    {"breaks.share", QLL_TEXT_LABEL_BREAK_SHARE},
    {"breaks.length", QLL_TEXT_LABEL_BREAK_LENGTH},
    {"en_806_3", QLL_TEXT_LABEL_EN_806_3},
    {"bs_6700", QLL_TEXT_LABEL_BS_6700},
    {"en_806_3[].units", QLL_TEXT_LABEL_EN_UNITS},
    {"bs_6700[].units", QLL_TEXT_LABEL_BS_UNITS},
    {"fixture", QLL_TEXT_LABEL_FIXTURE},
    {"count", QLL_TEXT_LABEL_COUNT},
    {"use_probability", QLL_TEXT_LABEL_USE_PROBABILITY},
    {"stages", QLL_TEXT_LABEL_STAGES},
    {"branches", QLL_TEXT_LABEL_BRANCHES},
    {"branches[].set_pressure", QLL_TEXT_LABEL_BRANCH_SET},
    {"site.set_pressure", QLL_TEXT_LABEL_SITE_SET},
    {"invented", QLL_TEXT_LABEL_INVENTED},
    {"currency", QLL_TEXT_LABEL_CURRENCY},
    {"valves", QLL_TEXT_LABEL_VALVES},
    {"valves[].id", QLL_TEXT_LABEL_ID},
    {"acting", QLL_TEXT_LABEL_ACTING},
    {"kv", QLL_TEXT_LABEL_KV},
    {"set_range", QLL_TEXT_LABEL_SET_RANGE},
    {"inlet_max", QLL_TEXT_LABEL_INLET_MAX},
    {"valves[].falloff", QLL_TEXT_LABEL_VALVE_FALLOFF},
    {"band", QLL_TEXT_LABEL_BAND},
    {"points", QLL_TEXT_LABEL_POINTS},
    {"points[].falloff", QLL_TEXT_LABEL_POINT_FALLOFF},
    {"bypass", QLL_TEXT_LABEL_BYPASS},
    {"strainer_kv", QLL_TEXT_LABEL_STRAINER_KV},
    {"lead_days", QLL_TEXT_LABEL_LEAD_DAYS},
    {"sizes", QLL_TEXT_LABEL_SIZES},
    {"beside", QLL_TEXT_LABEL_COST_BESIDE},
    {"sizes[].direct", QLL_TEXT_LABEL_COST_DIRECT},
    {"sizes[].pilot", QLL_TEXT_LABEL_COST_PILOT},
    {"symptoms", QLL_TEXT_LABEL_SYMPTOMS},
    {"readings", QLL_TEXT_LABEL_READINGS},
    {"tests", QLL_TEXT_LABEL_TESTS},
    {"findings", QLL_TEXT_LABEL_FINDINGS},
    {"done", QLL_TEXT_LABEL_DONE},
    {"cause", QLL_TEXT_LABEL_CAUSE},
    {"gauge", QLL_TEXT_LABEL_GAUGE},
    {"at", QLL_TEXT_LABEL_AT},
    {"as", QLL_TEXT_LABEL_AS},
    {"test", QLL_TEXT_LABEL_TEST},
    {"outcome", QLL_TEXT_LABEL_OUTCOME},
    {"measured", QLL_TEXT_LABEL_MEASURED},
    {"finding", QLL_TEXT_LABEL_FINDING},
    {"strength", QLL_TEXT_LABEL_STRENGTH},
    {"value", QLL_TEXT_LABEL_VALUE},
    {"frequency_hz", QLL_TEXT_LABEL_FREQUENCY_HZ},
    {"per_hour", QLL_TEXT_LABEL_PER_HOUR},
    {"what", QLL_TEXT_LABEL_WHAT},
    {"coincides", QLL_TEXT_LABEL_COINCIDES},
    {"logged_hz", QLL_TEXT_LABEL_LOGGED_HZ},
    {"ratio", QLL_TEXT_LABEL_RATIO},
    {"findings[].kind", QLL_TEXT_LABEL_SOUND_KIND},
    {"confidence", QLL_TEXT_LABEL_CONFIDENCE},
    {"record", QLL_TEXT_LABEL_RECORD},
    {"id", QLL_TEXT_LABEL_RECORD_ID},
    {"kind", QLL_TEXT_LABEL_RECORD_KIND},
    {"document", QLL_TEXT_LABEL_DOCUMENT},
    {"parents", QLL_TEXT_LABEL_PARENTS},
    {"corrects", QLL_TEXT_LABEL_CORRECTS},
    {"who", QLL_TEXT_LABEL_WHO},
    {"body", QLL_TEXT_LABEL_BODY},
    {"contact", QLL_TEXT_LABEL_CONTACT},
    {"phone", QLL_TEXT_LABEL_PHONE},
    {"note", QLL_TEXT_LABEL_NOTE},
    {"purpose", QLL_TEXT_LABEL_PURPOSE},
    {"body.day", QLL_TEXT_LABEL_VISIT_DAY},
    {"body.case", QLL_TEXT_LABEL_VISIT_CASE},
    {"body.strainer", QLL_TEXT_LABEL_VISIT_STRAINER},
    {"strainer.loss", QLL_TEXT_LABEL_STRAINER_LOSS},
    {"strainer.flow", QLL_TEXT_LABEL_STRAINER_FLOW},
    {"cleaned", QLL_TEXT_LABEL_CLEANED},
    {"every_months", QLL_TEXT_LABEL_EVERY_MONTHS},
    {"first", QLL_TEXT_LABEL_FIRST},
    {"sha256", QLL_TEXT_LABEL_SHA256},
    {"size", QLL_TEXT_LABEL_SIZE},
    {"type", QLL_TEXT_LABEL_TYPE},
    {"caption", QLL_TEXT_LABEL_CAPTION},
};
/* clang-format on */
_Static_assert(QLL_COUNT(keys) == QLL_TEXT_SIZE(LABEL), "every label has a key");

#define QLL_KEY_COUNT QLL_COUNT(keys)

/* Does @p what end in @p key, as "limits.falloff" or the key alone? */
static bool ends_in_key(qll_text what, const char *key)
{
    const size_t least = strlen(key);
    if (what.size < least || memcmp(what.bytes + what.size - least, key, least) != 0) {
        return false;
    }
    const size_t before = what.size - least;
    return before == 0 || what.bytes[before - 1] == '.';
}

/* The key that @p what ends in; the longest, so that "falloff.set" is not taken for another. */
static size_t key_of(qll_text what)
{
    size_t found = QLL_KEY_COUNT;
    for (size_t i = 0; i < QLL_KEY_COUNT; i++) {
        if (ends_in_key(what, keys[i].key)
            && (found == QLL_KEY_COUNT || strlen(keys[i].key) > strlen(keys[found].key))) {
            found = i;
        }
    }
    return found;
}

qll_text qll_wording_key_of_valves(const qll_argument *what)
{
    const bool is_of_valves = what->said != NULL && what->said->id == QLL_TEXT_WHAT_OF_VALVES;
    return is_of_valves ? what->said->arguments[1].text : (qll_text){0};
}

/* NULL for a key that has none. */
static const char *name_of(const qll_wording *wording, const qll_argument *what)
{
    const qll_text of_valves = qll_wording_key_of_valves(what);
    const size_t key = key_of(of_valves.size > 0 ? of_valves : what->text);
    return key == QLL_KEY_COUNT ? NULL : qll_said_entry(wording->language, keys[key].id);
}

const char *qll_wording_key_name(qll_arena *arena, const qll_wording *wording,
                                 const qll_argument *what)
{
    const char *name = name_of(wording, what);
    return name == NULL ? qll_argument_text(arena, wording, what) : name;
}

const char *qll_wording_key(qll_arena *arena, const qll_wording *wording, const qll_argument *what)
{
    const qll_filling fillings[] = {{"what", name_of(wording, what)},
                                    {"name", qll_argument_text(arena, wording, what)}};
    if (fillings[0].text == NULL || fillings[1].text == NULL) {
        return fillings[1].text;
    }
    qll_writer writer = qll_writer_new(arena);
    qll_say_with(&writer, wording->language, QLL_SAYS_WHAT_AND_KEY, fillings, 2);
    return qll_writer_text(&writer).bytes;
}
