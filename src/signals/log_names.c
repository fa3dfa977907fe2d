#include "base/units.h"
#include "base/units_table.h"
#include "signals/log_shape.h"

/* Names without capitals, blanks and marks. They were collected from files and manuals of loggers
 * (common practice, no source). */
static const struct {
    const char *name;
    qll_log_role role;
} names[] = {
    {"datetime", QLL_ROLE_TIME},
    {"dateandtime", QLL_ROLE_TIME},
    {"timestamp", QLL_ROLE_TIME},
    {"ts", QLL_ROLE_TIME},
    {"tsdt", QLL_ROLE_TIME},
    {"logdate", QLL_ROLE_TIME},
    {"readingtime", QLL_ROLE_TIME},
    {"readtime", QLL_ROLE_TIME},
    {"localtime", QLL_ROLE_TIME},
    {"utc", QLL_ROLE_TIME},
    {"unixtime", QLL_ROLE_TIME},
    {"epoch", QLL_ROLE_TIME},
    {"time", QLL_ROLE_CLOCK}, /* a stamp where there is no date beside it */
    {"clock", QLL_ROLE_CLOCK},
    {"timeofday", QLL_ROLE_CLOCK},
    {"date", QLL_ROLE_DATE},
    {"day", QLL_ROLE_DATE},
    {"start", QLL_ROLE_START},
    {"starttime", QLL_ROLE_START},
    {"begin", QLL_ROLE_START},
    {"from", QLL_ROLE_START},
    {"end", QLL_ROLE_END},
    {"endtime", QLL_ROLE_END},
    {"stop", QLL_ROLE_END},
    {"stoptime", QLL_ROLE_END},
    {"to", QLL_ROLE_END},
    {"duration", QLL_ROLE_DURATION},
    {"flow", QLL_ROLE_FLOW},
    {"flowrate", QLL_ROLE_FLOW},
    {"rate", QLL_ROLE_FLOW},
    {"waterflow", QLL_ROLE_FLOW},
    {"discharge", QLL_ROLE_FLOW},
    {"q", QLL_ROLE_FLOW},
    {"volume", QLL_ROLE_VOLUME},
    {"usage", QLL_ROLE_VOLUME},
    {"usagevalue", QLL_ROLE_VOLUME},
    {"consumption", QLL_ROLE_VOLUME},
    {"incrementalvolume", QLL_ROLE_VOLUME},
    {"increment", QLL_ROLE_VOLUME},
    {"diff", QLL_ROLE_VOLUME},
    {"delta", QLL_ROLE_VOLUME},
    {"register", QLL_ROLE_REGISTER},
    {"reading", QLL_ROLE_REGISTER},
    {"meterreading", QLL_ROLE_REGISTER},
    {"registerreading", QLL_ROLE_REGISTER},
    {"index", QLL_ROLE_REGISTER},
    {"counter", QLL_ROLE_REGISTER},
    {"total", QLL_ROLE_REGISTER},
    {"totalvolume", QLL_ROLE_REGISTER},
    {"totalizer", QLL_ROLE_REGISTER},
    {"totalizedvolume", QLL_ROLE_REGISTER},
    {"cumulative", QLL_ROLE_REGISTER},
    {"cumulativevolume", QLL_ROLE_REGISTER},
    {"pulses", QLL_ROLE_PULSES},
    {"pulse", QLL_ROLE_PULSES},
    {"pulsecount", QLL_ROLE_PULSES},
    {"count", QLL_ROLE_PULSES},
    {"counts", QLL_ROLE_PULSES},
    {"value", QLL_ROLE_VALUE},
    {"datavalue", QLL_ROLE_VALUE},
    {"unit", QLL_ROLE_UNIT},
    {"units", QLL_ROLE_UNIT},
    {"key", QLL_ROLE_KEY},
    {"parameter", QLL_ROLE_KEY},
    {"variable", QLL_ROLE_KEY},
    {"quantity", QLL_ROLE_KEY},
    {"entityid", QLL_ROLE_METER},
    {"userkey", QLL_ROLE_METER},
    {"servicepointid", QLL_ROLE_METER},
    {"meter", QLL_ROLE_METER},
    {"meterid", QLL_ROLE_METER},
    {"deviceid", QLL_ROLE_METER},
    {"serial", QLL_ROLE_METER},
    {"quality", QLL_ROLE_QUALITY},
    {"qualityflag", QLL_ROLE_QUALITY},
    {"signalquality", QLL_ROLE_QUALITY},
    {"signal", QLL_ROLE_QUALITY},
};

/* The next letter or digit of a name in small letters, or 0. */
static char next_letter(qll_text *name)
{
    while (name->size > 0) {
        char byte = *name->bytes;
        name->bytes += 1;
        name->size -= 1;
        if (byte >= 'A' && byte <= 'Z') {
            return (char)(byte | 0x20);
        }
        if ((byte >= 'a' && byte <= 'z') || (byte >= '0' && byte <= '9')
            || (unsigned char)byte >= 0x80) {
            return byte;
        }
    }
    return '\0';
}

bool qll_log_name_equal(qll_text a, qll_text b)
{
    char letter = '\0';
    do {
        letter = next_letter(&a);
        if (letter != next_letter(&b)) {
            return false;
        }
    } while (letter != '\0');
    return true;
}

static qll_log_role role_of(qll_text name)
{
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        if (qll_log_name_equal(name, qll_text_of(names[i].name))) {
            return names[i].role;
        }
    }
    return QLL_ROLE_NONE;
}

static bool is_unit(qll_text text)
{
    return text.size > 0
           && (qll_units_match(text, QLL_KIND_FLOW) != NULL
               || qll_units_match(text, QLL_KIND_VOLUME) != NULL);
}

/* "Flow (gpm)", "Volume [m3]", "flow_gpm", "Flow L/s". */
qll_log_column qll_log_column_read(qll_text name)
{
    qll_log_column column = {.name = qll_text_trimmed(name)};
    qll_text base = column.name;
    for (size_t i = 0; i < base.size; i++) {
        char open = base.bytes[i];
        char last = base.bytes[base.size - 1];
        if ((open == '(' && last == ')') || (open == '[' && last == ']')) {
            column.unit = qll_text_trimmed((qll_text){base.bytes + i + 1, base.size - i - 2});
            base.size = i;
            break;
        }
    }
    for (size_t i = base.size; column.unit.size == 0 && i > 1; i--) {
        char byte = base.bytes[i - 1];
        qll_text behind = qll_text_trimmed((qll_text){base.bytes + i, base.size - i});
        if ((byte == '_' || byte == ' ' || byte == ',' || byte == '.') && is_unit(behind)) {
            column.unit = behind;
            base.size = i - 1;
            break;
        }
    }
    column.role = role_of(base);
    return column;
}
