/* The rules of readers that JSON Schema has no words for: what hangs on two values at once, on a table, or on a
 * number inside a text. A test holds the list to the readers: it neither lacks a rule nor has one too many. */
#include "base/count.h"
#include "documents/describe.h"

#define QLL_AT(list) .keys = (list), .key_count = QLL_COUNT(list)

static const char *const needed_sometimes[] = {
    "static_high",     "use",     "people", "fixtures",  "nominal",   "loss", "falloff", "points",
    "outlet_pressure", "outcome", "pulse",  "time_zone", "log_format"};
static const char *const sizes[] = {"nominal", "strainer"};
static const char *const names[] = {"time_zone", "valve"};
static const char *const outcomes[] = {"outcome"};
static const char *const measured[] = {"measured"};
static const char *const logs[] = {"log"};
static const char *const days[] = {"at", "day", "first"};
static const char *const scenarios[] = {"scenarios"};

static const qll_unsayable rules[] = {
    {"range", QLL_CODE_OUT_OF_RANGE, .says = QLL_TEXT_RULE_RANGE},
    {"order", QLL_CODE_NOT_RISING, .says = QLL_TEXT_RULE_ORDER},
    {"agreement", QLL_CODE_CONTRADICTION, .says = QLL_TEXT_RULE_AGREEMENT},
    {"needed-sometimes", QLL_CODE_MISSING_KEY, QLL_AT(needed_sometimes),
     .says = QLL_TEXT_RULE_NEEDED},
    {"size", QLL_CODE_UNKNOWN_WORD, QLL_AT(sizes), .says = QLL_TEXT_RULE_SIZE},
    {"name", QLL_CODE_UNKNOWN_WORD, QLL_AT(names), .says = QLL_TEXT_RULE_NAME},
    {"answer", QLL_CODE_UNKNOWN_WORD, QLL_AT(outcomes), .says = QLL_TEXT_RULE_ANSWER},
    {"unit", QLL_CODE_UNKNOWN_UNIT, .says = QLL_TEXT_RULE_UNIT},
    {"unit-kind", QLL_CODE_WRONG_UNIT, .says = QLL_TEXT_RULE_UNIT},
    {"measured-unit", QLL_CODE_NO_UNIT, QLL_AT(measured), .says = QLL_TEXT_RULE_MEASURED},
    {"measured-kind", QLL_CODE_WRONG_KIND, QLL_AT(measured), .says = QLL_TEXT_RULE_MEASURED},
    {"one-number", QLL_CODE_NO_NUMBER, .says = QLL_TEXT_RULE_NUMBER},
    {"text-size", QLL_CODE_TOO_LARGE, .says = QLL_TEXT_RULE_TEXT},
    {"text-line", QLL_CODE_ENCODING, .says = QLL_TEXT_RULE_TEXT},
    {"file", QLL_CODE_NO_FILE, QLL_AT(logs), .says = QLL_TEXT_RULE_FILE},
    {"calendar", QLL_CODE_OUT_OF_RANGE, QLL_AT(days), .says = QLL_TEXT_RULE_CALENDAR},
    {"some-water", QLL_CODE_EMPTY_LIST, QLL_AT(scenarios), .says = QLL_TEXT_RULE_WATER},
};

const qll_unsayable *qll_unsayables(size_t *count)
{
    *count = QLL_COUNT(rules);
    return rules;
}
