/* Words for machines that people read in their own language. */
#include "base/count.h"
#include "base/words.h"
#include "wording/language.h"
#include "wording/wording.h"

typedef struct word_name {
    const char *word;
    qll_text_id id;
} word_name;

/* clang-format off */
static const word_name words[] = {
    {"survey", QLL_TEXT_WORD_SURVEY},
    {"peak", QLL_TEXT_WORD_PEAK},
    {"direct", QLL_TEXT_WORD_DIRECT},
    {"pilot", QLL_TEXT_WORD_PILOT},
    {"copper L", QLL_TEXT_WORD_COPPER_L},
    {"next room", QLL_TEXT_WORD_NEXT_ROOM},
    {"us", QLL_TEXT_WORD_US},
    {"metric", QLL_TEXT_WORD_METRIC},
    {"hose", QLL_TEXT_WORD_HOSE},
    {"irrigation", QLL_TEXT_WORD_IRRIGATION},
    {"summer", QLL_TEXT_WORD_SUMMER},
    {"spring", QLL_TEXT_WORD_SPRING},
    {"autumn", QLL_TEXT_WORD_AUTUMN},
    {"winter", QLL_TEXT_WORD_WINTER},
    {"weekday", QLL_TEXT_WORD_WEEKDAY},
    {"saturday", QLL_TEXT_WORD_SATURDAY},
    {"sunday", QLL_TEXT_WORD_SUNDAY},
    {"none", QLL_TEXT_WORD_NONE},
    {"private", QLL_TEXT_WORD_PRIVATE},
    {"public", QLL_TEXT_WORD_PUBLIC},
    {"apartment", QLL_TEXT_WORD_APARTMENT},
    {"copper", QLL_TEXT_WORD_COPPER},
    {"catalogue", QLL_TEXT_WORD_CATALOGUE},
    {"si", QLL_TEXT_WORD_SI},
    {"same room", QLL_TEXT_WORD_SAME_ROOM},
    {"plant room", QLL_TEXT_WORD_PLANT_ROOM},
    {"where needed", QLL_TEXT_WORD_WHERE_NEEDED},
    {"always", QLL_TEXT_WORD_ALWAYS},
    {"displacement", QLL_TEXT_WORD_DISPLACEMENT},
    {"turbine", QLL_TEXT_WORD_TURBINE},
    {"compound", QLL_TEXT_WORD_COMPOUND},
    {"multi-jet", QLL_TEXT_WORD_MULTI_JET},
    {"ultrasonic", QLL_TEXT_WORD_ULTRASONIC},
    {"electromagnetic", QLL_TEXT_WORD_ELECTROMAGNETIC},
    {"reduced pressure", QLL_TEXT_WORD_REDUCED_PRESSURE},
    {"double check", QLL_TEXT_WORD_DOUBLE_CHECK},
    {"RPZ", QLL_TEXT_WORD_RPZ},
    {"RP", QLL_TEXT_WORD_RP},
    {"flow", QLL_TEXT_WORD_LOG_FLOW},
    {"volume", QLL_TEXT_WORD_LOG_VOLUME},
    {"pulses", QLL_TEXT_WORD_LOG_PULSES},
    {"register", QLL_TEXT_WORD_LOG_REGISTER},
    {"events", QLL_TEXT_WORD_LOG_EVENTS},
    {"year first", QLL_TEXT_WORD_YEAR_FIRST},
    {"day first", QLL_TEXT_WORD_DAY_FIRST},
    {"month first", QLL_TEXT_WORD_MONTH_FIRST},
    {"start", QLL_TEXT_WORD_START},
    {"end", QLL_TEXT_WORD_END},
    {"last", QLL_TEXT_WORD_LAST},
    {"sum", QLL_TEXT_WORD_SUM},
    {"point", QLL_TEXT_WORD_POINT},
    {"comma", QLL_TEXT_WORD_COMMA},
    {"inlet", QLL_TEXT_WORD_INLET},
    {"outlet", QLL_TEXT_WORD_OUTLET},
    {"found", QLL_TEXT_WORD_FOUND},
    {"left", QLL_TEXT_WORD_LEFT},
    {"shower", QLL_TEXT_WORD_SHOWER},
    {"lavatory faucet", QLL_TEXT_WORD_LAVATORY},
    {"kitchen faucet", QLL_TEXT_WORD_KITCHEN},
    {"water closet, tank", QLL_TEXT_WORD_TOILET_TANK},
    {"water closet, flushometer", QLL_TEXT_WORD_TOILET_FLUSHOMETER},
    {"water closet, flushometer tank", QLL_TEXT_WORD_TOILET_FLUSHOMETER_TANK},
    {"bathtub", QLL_TEXT_WORD_TUB},
    {"combination bath/shower", QLL_TEXT_WORD_BATH_SHOWER},
    {"combination fixture", QLL_TEXT_WORD_COMBINATION},
    {"clothes washer", QLL_TEXT_WORD_WASHER},
    {"clothes washer, 15 lb", QLL_TEXT_WORD_WASHER_15},
    {"dishwasher", QLL_TEXT_WORD_DISHWASHER},
    {"bar sink", QLL_TEXT_WORD_BAR_SINK},
    {"laundry faucet", QLL_TEXT_WORD_LAUNDRY},
    {"bidet", QLL_TEXT_WORD_BIDET},
    {"urinal, flushometer 3/4 in", QLL_TEXT_WORD_URINAL_34},
    {"urinal, flushometer 1 in", QLL_TEXT_WORD_URINAL_1},
    {"urinal, tank", QLL_TEXT_WORD_URINAL_TANK},
    {"drinking fountain", QLL_TEXT_WORD_FOUNTAIN},
    {"service sink", QLL_TEXT_WORD_SERVICE_SINK},
    {"hose bibb", QLL_TEXT_WORD_HOSE_BIBB},
    {"bathroom group, tank", QLL_TEXT_WORD_BATHROOM_TANK},
    {"half bath, tank", QLL_TEXT_WORD_HALF_BATH},
    {"bathroom group, flushometer", QLL_TEXT_WORD_BATHROOM_FLUSHOMETER},
    {"kitchen sink, restaurant", QLL_TEXT_WORD_KITCHEN_RESTAURANT},
    {"elbow 90", QLL_TEXT_WORD_ELBOW_90},
    {"elbow 45", QLL_TEXT_WORD_ELBOW_45},
    {"long elbow 90", QLL_TEXT_WORD_LONG_ELBOW_90},
    {"return bend", QLL_TEXT_WORD_RETURN_BEND},
    {"tee run", QLL_TEXT_WORD_TEE_RUN},
    {"tee branch", QLL_TEXT_WORD_TEE_BRANCH},
    {"gate valve", QLL_TEXT_WORD_GATE_VALVE},
    {"globe valve", QLL_TEXT_WORD_GLOBE_VALVE},
    {"angle valve", QLL_TEXT_WORD_ANGLE_VALVE},
    {"ball valve", QLL_TEXT_WORD_BALL_VALVE},
    {"butterfly valve", QLL_TEXT_WORD_BUTTERFLY_VALVE},
    {"swing check", QLL_TEXT_WORD_SWING_CHECK},
    {"straight swing check", QLL_TEXT_WORD_STRAIGHT_SWING_CHECK},
    {"lift check", QLL_TEXT_WORD_LIFT_CHECK},
    {"coupling", QLL_TEXT_WORD_COUPLING},
    {"union", QLL_TEXT_WORD_UNION},
    {"pipe entrance", QLL_TEXT_WORD_PIPE_ENTRANCE},
    {"pipe exit", QLL_TEXT_WORD_PIPE_EXIT},
    {"copper K", QLL_TEXT_WORD_COPPER_K},
    {"copper M", QLL_TEXT_WORD_COPPER_M},
    {"steel 40", QLL_TEXT_WORD_STEEL_40},
    {"steel 80", QLL_TEXT_WORD_STEEL_80},
    {"stainless 10S", QLL_TEXT_WORD_STAINLESS_10S},
    {"PEX", QLL_TEXT_WORD_PEX},
    {"CPVC", QLL_TEXT_WORD_CPVC},
    {"EN 1057", QLL_TEXT_WORD_EN_1057},
    {"EN 1057 X", QLL_TEXT_WORD_EN_1057_X},
    {"EN 10255", QLL_TEXT_WORD_EN_10255},
    {"EN 10312", QLL_TEXT_WORD_EN_10312},
    {"PP", QLL_TEXT_WORD_PP},
    {"PVC-C", QLL_TEXT_WORD_PVC_C},
    {"PB", QLL_TEXT_WORD_PB},
    {"multilayer", QLL_TEXT_WORD_MULTILAYER},
    {"PE-X", QLL_TEXT_WORD_PE_X},
    {"AS 1432", QLL_TEXT_WORD_AS_1432},
    {"squeal", QLL_TEXT_WORD_SQUEAL},
    {"hiss", QLL_TEXT_WORD_HISS},
    {"rush", QLL_TEXT_WORD_RUSH},
    {"other", QLL_TEXT_WORD_OTHER},
    {"bangs-surges", QLL_TEXT_WORD_BANGS_SURGES},
    {"hiss-ratio", QLL_TEXT_WORD_HISS_RATIO},
    {"swing-hunting", QLL_TEXT_WORD_SWING_HUNTING},
    {"visit", QLL_TEXT_RECORD_IS_VISIT},
    {"reading", QLL_TEXT_RECORD_IS_READING},
    {"test", QLL_TEXT_RECORD_IS_TEST},
    {"photo", QLL_TEXT_RECORD_IS_PHOTO},
    {"sound", QLL_TEXT_RECORD_IS_SOUND},
    {"log", QLL_TEXT_RECORD_IS_LOG},
    {"site", QLL_TEXT_RECORD_IS_SITE},
    {"station", QLL_TEXT_RECORD_IS_STATION},
    {"plan", QLL_TEXT_RECORD_IS_PLAN},
    {"likelihood", QLL_TEXT_RECORD_IS_LIKELIHOOD},
    {"service", QLL_TEXT_WORD_SERVICE},
    {"callback", QLL_TEXT_WORD_CALLBACK},
    {"commissioning", QLL_TEXT_WORD_COMMISSIONING},
};

/* clang-format on */

/* Lists whose words have messages in the same order. */
static const struct {
    const char *const *words;
    size_t count;
    qll_message first;
} lists[] = {
    {qll_use_words, QLL_USE_COUNT, QLL_SAYS_USE_APARTMENT},
    {qll_peak_method_words, QLL_PEAK_METHOD_COUNT, QLL_SAYS_METHOD_FIXTURE_UNITS_IPC},
    {qll_pressure_words, QLL_PRESSURE_WORD_COUNT, QLL_SAYS_PRESSURE_CREEP},
};

void qll_wording_word(qll_writer *writer, qll_language language, qll_text word)
{
    for (size_t i = 0; i < QLL_COUNT(words); i++) {
        if (qll_text_is(word, words[i].word)) {
            const char *says = qll_said_entry(language, words[i].id);
            qll_write(writer, says == NULL ? qll_said_entry(QLL_LANGUAGE_EN, words[i].id) : says);
            return;
        }
    }
    for (size_t i = 0; i < QLL_COUNT(lists); i++) {
        const size_t found = qll_words_place(word, lists[i].words, lists[i].count);
        if (found < lists[i].count) {
            qll_write(writer, qll_say(language, (qll_message)((size_t)lists[i].first + found)));
            return;
        }
    }
    qll_write_text(writer, word);
}
