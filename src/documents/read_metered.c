/* A scenario's log: which file, and what the file does not say itself. */
#include "base/count.h"
#include "base/quote.h"
#include "documents/survey_parts.h"
#include "signals/log_zone.h"

#include <math.h>
#include <stdint.h>

/* Words stand in the order of their enumeration, whose first member means that nothing is said. */
static int word_of(const qll_object *object, const char *key)
{
    size_t word = qll_object_word(object, key);
    return word == SIZE_MAX ? 0 : (int)word + 1;
}

static bool is_unit(qll_text unit, qll_arena *arena, const char **nearest)
{
    static const qll_kind kinds[] = {QLL_KIND_FLOW, QLL_KIND_VOLUME};
    qll_writer one = qll_writer_new(arena);
    qll_write(&one, "1 ");
    qll_write_text(&one, unit);
    qll_text text = qll_writer_text(&one);
    for (size_t i = 0; i < QLL_COUNT(kinds); i++) {
        qll_quantity quantity;
        qll_units_refusal refusal = {.hint = ""};
        if (qll_units_read(text, kinds[i], arena, &quantity, &refusal)) {
            return true;
        }
        if (refusal.code == QLL_CODE_UNKNOWN_UNIT && refusal.hint[0] != '\0') {
            *nearest = refusal.hint;
        }
    }
    return false;
}

static const char *read_unit(const qll_object *object)
{
    qll_reader *reader = object->reader;
    const char *unit = qll_object_text(object, "unit");
    const char *nearest = NULL;
    if (unit == NULL || qll_text_is(qll_text_of(unit), "pulses")
        || is_unit(qll_text_of(unit), reader->arena, &nearest)) {
        return unit;
    }
    (void)qll_reader_refuse_fixed(reader, qll_object_where(object, "unit"), QLL_CODE_UNKNOWN_UNIT,
                                  QLL_SAYS_WITH(LOG_UNIT_UNKNOWN, qll_as_quoted(qll_text_of(unit))),
                                  qll_hint_word(nearest, reader->arena),
                                  qll_fix_text(QLL_FIX_REPLACE, nearest, reader->arena));
    return NULL;
}

static const char *read_zone(const qll_object *object)
{
    qll_reader *reader = object->reader;
    const char *zone = qll_object_text(object, "time_zone");
    qll_zone read;
    if (zone == NULL || qll_zone_read(qll_text_of(zone), &read)) {
        return zone;
    }
    const char *nearest = qll_zone_nearest(qll_text_of(zone));
    (void)qll_reader_refuse_fixed(reader, qll_object_where(object, "time_zone"),
                                  QLL_CODE_UNKNOWN_WORD,
                                  QLL_SAYS_WITH(ZONE_UNKNOWN, qll_as_quoted(qll_text_of(zone))),
                                  qll_hint_word(nearest, reader->arena),
                                  qll_fix_text(QLL_FIX_REPLACE, nearest, reader->arena));
    return NULL;
}

static void read_format(const qll_object *scenario, qll_flow_log_options *options)
{
    qll_object object = qll_object_inner(scenario, "log_format", &qll_group_log);
    options->kind = (qll_log_kind)word_of(&object, "kind");
    options->order = (qll_log_order)word_of(&object, "order");
    options->stamp = (qll_log_stamp)word_of(&object, "stamp");
    static const char marks[] = {'\0', '.', ','};
    options->decimal = marks[word_of(&object, "decimal")];
    options->unit = read_unit(&object);
    options->value_column = qll_object_text(&object, "value_column");
    options->time_column = qll_object_text(&object, "time_column");
    options->meter = qll_object_text(&object, "meter");
    options->meter_column = qll_object_text(&object, "meter_column");
    options->repeated = (qll_log_repeated)word_of(&object, "repeated");
    options->key = qll_object_text(&object, "key");
    options->most_flow_m3s = qll_object_quantity(&object, "most_flow");
    options->dead_band_m3s = qll_object_quantity(&object, "dead_band");
    options->least_quality = qll_object_quantity(&object, "least_quality");
    options->heartbeat_s = qll_object_quantity(&object, "heartbeat");
}

qll_survey_log qll_read_log(qll_survey_pass *pass, const qll_object *scenario)
{
    qll_survey_log log = {.options = qll_flow_log_options_default()};
    const qll_node *node = qll_object_find(scenario, "log");
    if (node == NULL) {
        return log;
    }
    log.name = qll_object_text(scenario, "log");
    log.place = qll_node_place(pass->reader.document, node, false, pass->reader.arena);
    log.options.pulse_m3 = qll_object_quantity(scenario, "pulse");
    log.options.zone = read_zone(scenario);
    read_format(scenario, &log.options);
    return log;
}
