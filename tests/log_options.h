/* Options of a log as the tables of tests/data/logs write them: "unit=gpm;zone=UTC". */
#ifndef QUELL_TESTS_LOG_OPTIONS_H
#define QUELL_TESTS_LOG_OPTIONS_H

#include "check.h"
#include "signals/flow_log.h"

#include <stdio.h>
#include <string.h>

typedef struct option_text {
    char text[200];
} option_text;

/* Options that are texts; false if the key is none of them. */
static inline bool set_text_option(qll_flow_log_options *options, const char *key,
                                   const char *value)
{
    const struct {
        const char *key;
        const char **to;
    } texts[] = {{"unit", &options->unit},
                 {"zone", &options->zone},
                 {"meter", &options->meter},
                 {"meter_column", &options->meter_column},
                 {"value_column", &options->value_column}};

    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        if (strcmp(key, texts[i].key) == 0) {
            *texts[i].to = value;
            return true;
        }
    }
    return false;
}

static inline void set_option(qll_flow_log_options *options, const char *key, const char *value)
{
    static const char *const kinds[] = {"", "flow", "volume", "pulses", "register", "events"};
    double number = 0.0;
    (void)qll_text_number(qll_text_of(value), &number);
    if (set_text_option(options, key, value)) {
        return;
    }
    if (strcmp(key, "repeated") == 0) {
        options->repeated =
            strcmp(value, "sum") == 0 ? QLL_LOG_REPEATED_SUM : QLL_LOG_REPEATED_LAST;
    } else if (strcmp(key, "pulse_m3") == 0) {
        options->pulse_m3 = number;
    } else if (strcmp(key, "most_flow_m3s") == 0) {
        options->most_flow_m3s = number;
    } else if (strcmp(key, "dead_band_m3s") == 0) {
        options->dead_band_m3s = number;
    } else if (strcmp(key, "least_quality") == 0) {
        options->least_quality = number;
    } else if (strcmp(key, "stamp") == 0) {
        options->stamp = strcmp(value, "end") == 0 ? QLL_LOG_STAMP_END : QLL_LOG_STAMP_START;
    } else if (strcmp(key, "order") == 0) {
        options->order =
            strcmp(value, "month") == 0 ? QLL_LOG_ORDER_MONTH_FIRST : QLL_LOG_ORDER_DAY_FIRST;
    } else if (strcmp(key, "decimal") == 0) {
        options->decimal = ',';
    } else if (strcmp(key, "kind") == 0) {
        for (int kind = 1; kind < QLL_LOG_KIND_COUNT; kind++) {
            options->kind = strcmp(value, kinds[kind]) == 0 ? (qll_log_kind)kind : options->kind;
        }
    } else {
        CHECK(false);
        printf("    no option is called %s\n", key);
    }
}

/* "unit=gpm;zone=UTC" */
static inline qll_flow_log_options read_options(qll_text cell, option_text *room)
{
    qll_flow_log_options options = qll_flow_log_options_default();
    CHECK(cell.size < sizeof room->text);
    memcpy(room->text, cell.bytes, cell.size);
    room->text[cell.size] = '\0';
    for (char *at = room->text; *at != '\0';) {
        char *end = strchr(at, ';');
        char *equals = strchr(at, '=');
        if (!CHECK(equals != NULL)) {
            break;
        }
        if (end != NULL) {
            *end = '\0';
        }
        *equals = '\0';
        set_option(&options, at, equals + 1);
        at = end == NULL ? equals + 1 + strlen(equals + 1) : end + 1;
    }
    return options;
}

#endif
