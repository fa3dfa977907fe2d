#include "base/units.h"
#include "base/units_table.h"
#include "signals/log_shape.h"

#include <math.h>

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
    /* of portals and building systems, and plain words in German, Spanish and French */
    {"datetimelocal", QLL_ROLE_TIME},
    {"datetimeutc", QLL_ROLE_TIME},
    {"localdatetime", QLL_ROLE_TIME},
    {"timelocal", QLL_ROLE_TIME},
    {"timeutc", QLL_ROLE_TIME},
    {"timestamplocal", QLL_ROLE_TIME},
    {"timestamputc", QLL_ROLE_TIME},
    {"readingdate", QLL_ROLE_TIME},
    {"readdate", QLL_ROLE_TIME},
    {"readdatetime", QLL_ROLE_TIME},
    {"readingdatetime", QLL_ROLE_TIME},
    {"recordedat", QLL_ROLE_TIME},
    {"sampletime", QLL_ROLE_TIME},
    {"intervaltime", QLL_ROLE_TIME},
    {"eventtime", QLL_ROLE_TIME},
    {"zeitstempel", QLL_ROLE_TIME},
    {"zeitpunkt", QLL_ROLE_TIME},
    {"datumuhrzeit", QLL_ROLE_TIME},
    {"datumzeit", QLL_ROLE_TIME},
    {"fechahora", QLL_ROLE_TIME},
    {"fechayhora", QLL_ROLE_TIME},
    {"horodatage", QLL_ROLE_TIME},
    {"dateheure", QLL_ROLE_TIME},
    {"dateetheure", QLL_ROLE_TIME},
    {"zeit", QLL_ROLE_CLOCK},
    {"uhrzeit", QLL_ROLE_CLOCK},
    {"hora", QLL_ROLE_CLOCK},
    {"heure", QLL_ROLE_CLOCK},
    {"hour", QLL_ROLE_CLOCK},
    {"datum", QLL_ROLE_DATE},
    {"fecha", QLL_ROLE_DATE},
    {"jour", QLL_ROLE_DATE},
    {"intervalstart", QLL_ROLE_START},
    {"periodstart", QLL_ROLE_START},
    {"startdate", QLL_ROLE_START},
    {"startdatetime", QLL_ROLE_START},
    {"startedat", QLL_ROLE_START},
    {"beginn", QLL_ROLE_START},
    {"inicio", QLL_ROLE_START},
    {"debut", QLL_ROLE_START},
    {"début", QLL_ROLE_START},
    {"intervalend", QLL_ROLE_END},
    {"periodend", QLL_ROLE_END},
    {"enddate", QLL_ROLE_END},
    {"enddatetime", QLL_ROLE_END},
    {"endedat", QLL_ROLE_END},
    {"ende", QLL_ROLE_END},
    {"fin", QLL_ROLE_END},
    {"dauer", QLL_ROLE_DURATION},
    {"duracion", QLL_ROLE_DURATION},
    {"duración", QLL_ROLE_DURATION},
    {"duree", QLL_ROLE_DURATION},
    {"durée", QLL_ROLE_DURATION},
    {"runtime", QLL_ROLE_DURATION},
    {"flowgpm", QLL_ROLE_FLOW},
    {"gpmflow", QLL_ROLE_FLOW},
    {"instantflow", QLL_ROLE_FLOW},
    {"instantaneousflow", QLL_ROLE_FLOW},
    {"avgflow", QLL_ROLE_FLOW},
    {"averageflow", QLL_ROLE_FLOW},
    {"meanflow", QLL_ROLE_FLOW},
    {"durchfluss", QLL_ROLE_FLOW},
    {"durchfluß", QLL_ROLE_FLOW},
    {"volumenstrom", QLL_ROLE_FLOW},
    {"caudal", QLL_ROLE_FLOW},
    {"gasto", QLL_ROLE_FLOW},
    {"debit", QLL_ROLE_FLOW},
    {"débit", QLL_ROLE_FLOW},
    {"waterusage", QLL_ROLE_VOLUME},
    {"wateruse", QLL_ROLE_VOLUME},
    {"intervalusage", QLL_ROLE_VOLUME},
    {"intervalconsumption", QLL_ROLE_VOLUME},
    {"amount", QLL_ROLE_VOLUME},
    {"verbrauch", QLL_ROLE_VOLUME},
    {"wassermenge", QLL_ROLE_VOLUME},
    {"menge", QLL_ROLE_VOLUME},
    {"consumo", QLL_ROLE_VOLUME},
    {"volumen", QLL_ROLE_VOLUME},
    {"consommation", QLL_ROLE_VOLUME},
    {"read", QLL_ROLE_REGISTER},
    {"meterread", QLL_ROLE_REGISTER},
    {"registerread", QLL_ROLE_REGISTER},
    {"readvalue", QLL_ROLE_REGISTER},
    {"totalflow", QLL_ROLE_REGISTER},
    {"runningtotal", QLL_ROLE_REGISTER},
    {"zaehlerstand", QLL_ROLE_REGISTER},
    {"zählerstand", QLL_ROLE_REGISTER},
    {"lectura", QLL_ROLE_REGISTER},
    {"releve", QLL_ROLE_REGISTER},
    {"relevé", QLL_ROLE_REGISTER},
    {"odometer", QLL_ROLE_REGISTER},
    {"impulse", QLL_ROLE_PULSES},
    {"impulses", QLL_ROLE_PULSES},
    {"impulsos", QLL_ROLE_PULSES},
    {"pulsos", QLL_ROLE_PULSES},
    {"impulsions", QLL_ROLE_PULSES},
    {"ticks", QLL_ROLE_PULSES},
    {"wert", QLL_ROLE_VALUE},
    {"valor", QLL_ROLE_VALUE},
    {"valeur", QLL_ROLE_VALUE},
    {"presentvalue", QLL_ROLE_VALUE},
    {"uom", QLL_ROLE_UNIT},
    {"einheit", QLL_ROLE_UNIT},
    {"unidad", QLL_ROLE_UNIT},
    {"unite", QLL_ROLE_UNIT},
    {"unité", QLL_ROLE_UNIT},
    {"site", QLL_ROLE_METER},
    {"sitename", QLL_ROLE_METER},
    {"building", QLL_ROLE_METER},
    {"location", QLL_ROLE_METER},
    {"riser", QLL_ROLE_METER},
    {"device", QLL_ROLE_METER},
    {"devicename", QLL_ROLE_METER},
    {"sensor", QLL_ROLE_METER},
    {"sensorid", QLL_ROLE_METER},
    {"channel", QLL_ROLE_METER},
    {"point", QLL_ROLE_METER},
    {"pointname", QLL_ROLE_METER},
    {"tag", QLL_ROLE_METER},
    {"tagname", QLL_ROLE_METER},
    {"meternumber", QLL_ROLE_METER},
    {"meterno", QLL_ROLE_METER},
    {"metername", QLL_ROLE_METER},
    {"serialnumber", QLL_ROLE_METER},
    {"account", QLL_ROLE_METER},
    {"accountnumber", QLL_ROLE_METER},
    {"zaehler", QLL_ROLE_METER},
    {"zähler", QLL_ROLE_METER},
    {"medidor", QLL_ROLE_METER},
    {"contador", QLL_ROLE_METER},
    {"compteur", QLL_ROLE_METER},
    /* of pressure logs */
    {"inlet", QLL_ROLE_INLET},
    {"inletpressure", QLL_ROLE_INLET},
    {"pinlet", QLL_ROLE_INLET},
    {"pin", QLL_ROLE_INLET},
    {"p1", QLL_ROLE_INLET},
    {"upstream", QLL_ROLE_INLET},
    {"upstreampressure", QLL_ROLE_INLET},
    {"supplypressure", QLL_ROLE_INLET},
    {"streetpressure", QLL_ROLE_INLET},
    {"primarypressure", QLL_ROLE_INLET},
    {"highpressure", QLL_ROLE_INLET},
    {"inletpsi", QLL_ROLE_INLET},
    {"supplypsi", QLL_ROLE_INLET},
    {"eingangsdruck", QLL_ROLE_INLET},
    {"vordruck", QLL_ROLE_INLET},
    {"entrada", QLL_ROLE_INLET},
    {"presionentrada", QLL_ROLE_INLET},
    {"presióndeentrada", QLL_ROLE_INLET},
    {"presionaguasarriba", QLL_ROLE_INLET},
    {"presiónaguasarriba", QLL_ROLE_INLET},
    {"aguasarriba", QLL_ROLE_INLET},
    {"amont", QLL_ROLE_INLET},
    {"pressionamont", QLL_ROLE_INLET},
    {"outlet", QLL_ROLE_OUTLET},
    {"outletpressure", QLL_ROLE_OUTLET},
    {"poutlet", QLL_ROLE_OUTLET},
    {"pout", QLL_ROLE_OUTLET},
    {"p2", QLL_ROLE_OUTLET},
    {"downstream", QLL_ROLE_OUTLET},
    {"downstreampressure", QLL_ROLE_OUTLET},
    {"reducedpressure", QLL_ROLE_OUTLET},
    {"secondarypressure", QLL_ROLE_OUTLET},
    {"buildingpressure", QLL_ROLE_OUTLET},
    {"housepressure", QLL_ROLE_OUTLET},
    {"lowpressure", QLL_ROLE_OUTLET},
    {"outletpsi", QLL_ROLE_OUTLET},
    {"ausgangsdruck", QLL_ROLE_OUTLET},
    {"hinterdruck", QLL_ROLE_OUTLET},
    {"salida", QLL_ROLE_OUTLET},
    {"presionsalida", QLL_ROLE_OUTLET},
    {"presióndesalida", QLL_ROLE_OUTLET},
    {"presionaguasabajo", QLL_ROLE_OUTLET},
    {"presiónaguasabajo", QLL_ROLE_OUTLET},
    {"aguasabajo", QLL_ROLE_OUTLET},
    {"aval", QLL_ROLE_OUTLET},
    {"pressionaval", QLL_ROLE_OUTLET},
    {"pressure", QLL_ROLE_PRESSURE},
    {"press", QLL_ROLE_PRESSURE},
    {"p", QLL_ROLE_PRESSURE},
    {"pressure1", QLL_ROLE_PRESSURE},
    {"pressure2", QLL_ROLE_PRESSURE},
    {"druck", QLL_ROLE_PRESSURE},
    {"presion", QLL_ROLE_PRESSURE},
    {"presión", QLL_ROLE_PRESSURE},
    {"pression", QLL_ROLE_PRESSURE},
    {"temperature", QLL_ROLE_TEMPERATURE},
    {"temp", QLL_ROLE_TEMPERATURE},
    {"watertemperature", QLL_ROLE_TEMPERATURE},
    {"watertemp", QLL_ROLE_TEMPERATURE},
    {"temperatur", QLL_ROLE_TEMPERATURE},
    {"temperatura", QLL_ROLE_TEMPERATURE},
    {"température", QLL_ROLE_TEMPERATURE},
    {"wassertemperatur", QLL_ROLE_TEMPERATURE},
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

/* A single letter may be a unit of temperature or the end of a name. */
static bool is_other_unit(qll_text text)
{
    return text.size > 1
           && (qll_units_match(text, QLL_KIND_PRESSURE) != NULL
               || qll_units_match(text, QLL_KIND_TEMPERATURE) != NULL);
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
        if ((byte == '_' || byte == ' ' || byte == ',' || byte == '.')
            && (is_unit(behind) || is_other_unit(behind))) {
            column.unit = behind;
            base.size = i - 1;
            break;
        }
    }
    column.role = role_of(base);
    if (column.role == QLL_ROLE_NONE && column.unit.size == 0 && is_unit(base)) {
        const bool is_flow = qll_units_match(base, QLL_KIND_FLOW) != NULL;
        column.role = is_flow ? QLL_ROLE_FLOW : QLL_ROLE_VALUE;
        column.unit = base;
    }
    return column;
}

qll_text qll_log_unit_alone(qll_text cell)
{
    cell = qll_text_trimmed(cell);
    if (cell.size > 2 && (cell.bytes[0] == '(' || cell.bytes[0] == '[')) {
        cell = qll_text_trimmed((qll_text){cell.bytes + 1, cell.size - 2});
    }
    return is_unit(cell) || is_other_unit(cell) ? cell : (qll_text){"", 0};
}

/* Factor to SI of "gpm" as @p kind; NaN if it is no such unit. */
double qll_log_unit_factor(const qll_log_look *look, qll_text unit, qll_kind kind)
{
    qll_writer writer = qll_writer_new(look->arena);
    qll_write(&writer, "1 ");
    qll_write_text(&writer, unit);
    qll_text text = qll_writer_text(&writer);
    qll_quantity quantity = {0};
    qll_units_refusal refusal;
    if (text.bytes == NULL || !qll_units_read(text, kind, look->arena, &quantity, &refusal)) {
        return (double)NAN;
    }
    return quantity.si;
}
