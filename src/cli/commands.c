#include "cli/commands.h"

#include "base/count.h"

#include <stdint.h>
#include <string.h>

#define QLL_CLI_COMMON \
    (QLL_CLI_BIT(JSON) | QLL_CLI_BIT(UNITS) | QLL_CLI_BIT(LANGUAGE) | QLL_CLI_BIT(HELP))

/* Of every command about records. */
#define QLL_CLI_STORED (QLL_CLI_BIT(STORE) | QLL_CLI_BIT(LANGUAGE) | QLL_CLI_BIT(HELP))

static const qll_cli_command commands[] = {
    {
        .name = "demand",
        .arguments = QLL_TEXT_CLI_TAKES_SURVEY,
        .summary = QLL_TEXT_CLI_ANSWERS_DEMAND,
        .detail = QLL_TEXT_CLI_DETAIL_DEMAND,
        .options = QLL_CLI_COMMON | QLL_CLI_BIT(PARTS) | QLL_CLI_BIT(FIGURES) | QLL_CLI_BIT(SEED),
        .words_least = 1,
        .words_most = 1,
        .verb = QLL_VERB_DEMAND,
        .run = qll_cli_survey,
    },
    {
        .name = "design",
        .arguments = QLL_TEXT_CLI_TAKES_SURVEY,
        .summary = QLL_TEXT_CLI_ANSWERS_DESIGN,
        .detail = QLL_TEXT_CLI_DETAIL_DESIGN,
        .options = QLL_CLI_COMMON | QLL_CLI_BIT(CATALOGUE) | QLL_CLI_BIT(PARTS)
                   | QLL_CLI_BIT(FIGURES) | QLL_CLI_BIT(SEED),
        .words_least = 1,
        .words_most = 1,
        .verb = QLL_VERB_DESIGN,
        .run = qll_cli_survey,
    },
    {
        .name = "check",
        .arguments = QLL_TEXT_CLI_TAKES_SURVEY,
        .summary = QLL_TEXT_CLI_ANSWERS_CHECK,
        .detail = QLL_TEXT_CLI_DETAIL_CHECK,
        .options = QLL_CLI_COMMON | QLL_CLI_BIT(CATALOGUE) | QLL_CLI_BIT(FLOW) | QLL_CLI_BIT(INLET)
                   | QLL_CLI_BIT(PARTS) | QLL_CLI_BIT(FIGURES) | QLL_CLI_BIT(SEED),
        .words_least = 1,
        .words_most = 1,
        .verb = QLL_VERB_CHECK,
        .run = qll_cli_survey,
    },
    {
        .name = "report",
        .arguments = QLL_TEXT_CLI_TAKES_SURVEY,
        .summary = QLL_TEXT_CLI_ANSWERS_REPORT,
        .detail = QLL_TEXT_CLI_DETAIL_REPORT,
        .options = QLL_CLI_COMMON | QLL_CLI_BIT(CATALOGUE) | QLL_CLI_BIT(OUTPUT) | QLL_CLI_BIT(OF)
                   | QLL_CLI_BIT(SECTIONS) | QLL_CLI_BIT(LENGTH) | QLL_CLI_BIT(DATE)
                   | QLL_CLI_BIT(PLOT) | QLL_CLI_BIT(PARTS) | QLL_CLI_BIT(SEED),
        .words_least = 1,
        .words_most = 1,
        .verb = QLL_VERB_REPORT,
        .run = qll_cli_report,
    },
    {
        .name = "calc",
        .arguments = QLL_TEXT_CLI_TAKES_CALC,
        .summary = QLL_TEXT_CLI_ANSWERS_CALC,
        .detail = QLL_TEXT_CLI_DETAIL_CALC,
        .options = QLL_CLI_COMMON,
        .words_least = 0,
        .words_most = SIZE_MAX,
        .verb = QLL_VERB_CALC,
        .run = qll_cli_calc,
    },
    {
        .name = "diagnose",
        .arguments = QLL_TEXT_CLI_TAKES_CASE,
        .summary = QLL_TEXT_CLI_ANSWERS_DIAGNOSE,
        .detail = QLL_TEXT_CLI_DETAIL_DIAGNOSE,
        .options =
            QLL_CLI_COMMON | QLL_CLI_BIT(CATALOGUE) | QLL_CLI_BIT(LIKELIHOOD) | QLL_CLI_BIT(LEARN),
        .words_least = 1,
        .words_most = SIZE_MAX,
        .verb = QLL_VERB_DIAGNOSE,
        .run = qll_cli_diagnose,
    },
    {
        .name = "log",
        .arguments = QLL_TEXT_CLI_TAKES_LOG,
        .summary = QLL_TEXT_CLI_ANSWERS_LOG,
        .detail = QLL_TEXT_CLI_DETAIL_LOG,
        .options = QLL_CLI_COMMON | QLL_CLI_BIT(SURVEY) | QLL_CLI_BIT(CATALOGUE)
                   | QLL_CLI_BIT(OUTPUT) | QLL_CLI_BIT(PARTS),
        .words_least = 1,
        .words_most = SIZE_MAX,
        .verb = QLL_VERB_LOG,
        .run = qll_cli_log,
    },
    {
        .name = "listen",
        .arguments = QLL_TEXT_CLI_TAKES_RECORDING,
        .summary = QLL_TEXT_CLI_ANSWERS_LISTEN,
        .detail = QLL_TEXT_CLI_DETAIL_LISTEN,
        .options = QLL_CLI_COMMON | QLL_CLI_BIT(SURVEY) | QLL_CLI_BIT(QUIET) | QLL_CLI_BIT(LOG)
                   | QLL_CLI_BIT(BEGINS) | QLL_CLI_BIT(CATALOGUE) | QLL_CLI_BIT(OUTPUT)
                   | QLL_CLI_BIT(PARTS),
        .words_least = 1,
        .words_most = SIZE_MAX,
        .verb = QLL_VERB_LISTEN,
        .run = qll_cli_listen,
    },
    {
        .name = "simulate",
        .arguments = QLL_TEXT_CLI_TAKES_SURVEY,
        .summary = QLL_TEXT_CLI_ANSWERS_SIMULATE,
        .detail = QLL_TEXT_CLI_DETAIL_SIMULATE,
        .options = QLL_CLI_COMMON | QLL_CLI_BIT(CATALOGUE) | QLL_CLI_BIT(OUTPUT)
                   | QLL_CLI_BIT(EVENT) | QLL_CLI_BIT(OUTLET) | QLL_CLI_BIT(FLOW)
                   | QLL_CLI_BIT(BEFORE) | QLL_CLI_BIT(WITHIN) | QLL_CLI_BIT(SEED),
        .words_least = 1,
        .words_most = 1,
        .verb = QLL_VERB_SIMULATE,
        .run = qll_cli_simulate,
    },
    {
        .name = "describe",
        .arguments = QLL_TEXT_CLI_TAKES_DESCRIBED,
        .summary = QLL_TEXT_CLI_ANSWERS_DESCRIBE,
        .detail = QLL_TEXT_CLI_DETAIL_DESCRIBE,
        .options = QLL_CLI_COMMON | QLL_CLI_BIT(SCHEMA) | QLL_CLI_BIT(CATALOGUE),
        .words_least = 0,
        .words_most = 2,
        .verb = QLL_VERB_DESCRIBE,
        .run = qll_cli_describe,
    },
    {
        .name = "catalogue import",
        .arguments = QLL_TEXT_CLI_TAKES_CSV,
        .summary = QLL_TEXT_CLI_ANSWERS_IMPORT,
        .detail = QLL_TEXT_CLI_DETAIL_IMPORT,
        .options = QLL_CLI_COMMON,
        .words_least = 1,
        .words_most = 1,
        .verb = QLL_VERB_IMPORT,
        .run = qll_cli_import,
    },
    {
        .name = "catalogue fit",
        .arguments = QLL_TEXT_CLI_TAKES_CSV,
        .summary = QLL_TEXT_CLI_ANSWERS_FIT,
        .detail = QLL_TEXT_CLI_DETAIL_FIT,
        .options = QLL_CLI_COMMON,
        .words_least = 1,
        .words_most = 1,
        .verb = QLL_VERB_FIT,
        .run = qll_cli_import,
    },
    {
        .name = "catalogue list",
        .arguments = QLL_TEXT_NONE,
        .summary = QLL_TEXT_CLI_ANSWERS_LIST,
        .detail = QLL_TEXT_CLI_DETAIL_LIST,
        .options = QLL_CLI_COMMON | QLL_CLI_BIT(CATALOGUE),
        .words_least = 0,
        .words_most = 0,
        .verb = QLL_VERB_LIST,
        .run = qll_cli_list,
    },
    {
        .name = "page",
        .arguments = QLL_TEXT_NONE,
        .summary = QLL_TEXT_CLI_ANSWERS_PAGE,
        .detail = QLL_TEXT_CLI_DETAIL_PAGE,
        .options =
            QLL_CLI_BIT(OUTPUT) | QLL_CLI_BIT(JSON) | QLL_CLI_BIT(LANGUAGE) | QLL_CLI_BIT(HELP),
        .words_least = 0,
        .words_most = 0,
        .verb = QLL_VERB_COUNT, /* nothing is asked of the engine */
        .run = qll_cli_page,
    },
    {
        .name = "site add",
        .arguments = QLL_TEXT_CLI_TAKES_SITE_ADD,
        .summary = QLL_TEXT_CLI_ANSWERS_SITE_ADD,
        .detail = QLL_TEXT_CLI_DETAIL_SITE_ADD,
        .options = QLL_CLI_STORED | QLL_CLI_BIT(WHO) | QLL_CLI_BIT(SURVEY),
        .words_least = 1,
        .words_most = SIZE_MAX,
        .verb = QLL_VERB_COUNT,
        .run = qll_cli_site_add,
    },
    {
        .name = "site list",
        .arguments = QLL_TEXT_CLI_TAKES_WORDS,
        .summary = QLL_TEXT_CLI_ANSWERS_SITE_LIST,
        .detail = QLL_TEXT_CLI_DETAIL_SITE_LIST,
        .options = QLL_CLI_STORED | QLL_CLI_BIT(JSON) | QLL_CLI_BIT(TODAY),
        .words_least = 0,
        .words_most = SIZE_MAX,
        .verb = QLL_VERB_COUNT,
        .run = qll_cli_site_list,
    },
    {
        .name = "site show",
        .arguments = QLL_TEXT_CLI_TAKES_SITE,
        .summary = QLL_TEXT_CLI_ANSWERS_SITE_SHOW,
        .detail = QLL_TEXT_CLI_DETAIL_SITE_SHOW,
        .options = QLL_CLI_STORED | QLL_CLI_BIT(JSON) | QLL_CLI_BIT(TODAY),
        .words_least = 1,
        .words_most = 1,
        .verb = QLL_VERB_COUNT,
        .run = qll_cli_site_show,
    },
    {
        .name = "site visit",
        .arguments = QLL_TEXT_CLI_TAKES_VISIT,
        .summary = QLL_TEXT_CLI_ANSWERS_SITE_VISIT,
        .detail = QLL_TEXT_CLI_DETAIL_SITE_VISIT,
        .options = QLL_CLI_STORED | QLL_CLI_BIT(WHO),
        .words_least = 1,
        .words_most = SIZE_MAX,
        .verb = QLL_VERB_COUNT,
        .run = qll_cli_site_visit,
    },
    {
        .name = "site set",
        .arguments = QLL_TEXT_CLI_TAKES_SITE_SET,
        .summary = QLL_TEXT_CLI_ANSWERS_SITE_SET,
        .detail = QLL_TEXT_CLI_DETAIL_SITE_SET,
        .options = QLL_CLI_STORED | QLL_CLI_BIT(WHO),
        .words_least = 3,
        .words_most = SIZE_MAX,
        .verb = QLL_VERB_COUNT,
        .run = qll_cli_site_set,
    },
    {
        .name = "site settle",
        .arguments = QLL_TEXT_CLI_TAKES_SITE_SETTLE,
        .summary = QLL_TEXT_CLI_ANSWERS_SITE_SETTLE,
        .detail = QLL_TEXT_CLI_DETAIL_SITE_SETTLE,
        .options = QLL_CLI_STORED | QLL_CLI_BIT(WHO),
        .words_least = 1,
        .words_most = SIZE_MAX,
        .verb = QLL_VERB_COUNT,
        .run = qll_cli_site_settle,
    },
    {
        .name = "site due",
        .arguments = QLL_TEXT_NONE,
        .summary = QLL_TEXT_CLI_ANSWERS_SITE_DUE,
        .detail = QLL_TEXT_CLI_DETAIL_SITE_DUE,
        .options = QLL_CLI_STORED | QLL_CLI_BIT(JSON) | QLL_CLI_BIT(TODAY),
        .words_least = 0,
        .words_most = 0,
        .verb = QLL_VERB_COUNT,
        .run = qll_cli_site_due,
    },
    {
        .name = "site trend",
        .arguments = QLL_TEXT_CLI_TAKES_SITE,
        .summary = QLL_TEXT_CLI_ANSWERS_SITE_TREND,
        .detail = QLL_TEXT_CLI_DETAIL_SITE_TREND,
        .options = QLL_CLI_STORED | QLL_CLI_BIT(JSON) | QLL_CLI_BIT(UNITS) | QLL_CLI_BIT(OUTPUT),
        .words_least = 1,
        .words_most = 1,
        .verb = QLL_VERB_COUNT,
        .run = qll_cli_site_trend,
    },
    {
        .name = "site rank",
        .arguments = QLL_TEXT_NONE,
        .summary = QLL_TEXT_CLI_ANSWERS_SITE_RANK,
        .detail = QLL_TEXT_CLI_DETAIL_SITE_RANK,
        .options = QLL_CLI_STORED | QLL_CLI_BIT(JSON) | QLL_CLI_BIT(TODAY) | QLL_CLI_BIT(CATALOGUE),
        .words_least = 0,
        .words_most = 0,
        .verb = QLL_VERB_COUNT,
        .run = qll_cli_site_rank,
    },
    {
        .name = "site learn",
        .arguments = QLL_TEXT_NONE,
        .summary = QLL_TEXT_CLI_ANSWERS_SITE_LEARN,
        .detail = QLL_TEXT_CLI_DETAIL_SITE_LEARN,
        .options = QLL_CLI_STORED | QLL_CLI_BIT(OUTPUT),
        .words_least = 0,
        .words_most = 0,
        .verb = QLL_VERB_COUNT,
        .run = qll_cli_site_learn,
    },
    {
        .name = "site import",
        .arguments = QLL_TEXT_CLI_TAKES_RECORDS,
        .summary = QLL_TEXT_CLI_ANSWERS_SITE_IMPORT,
        .detail = QLL_TEXT_CLI_DETAIL_SITE_IMPORT,
        .options = QLL_CLI_STORED,
        .words_least = 1,
        .words_most = 1,
        .verb = QLL_VERB_COUNT,
        .run = qll_cli_site_import,
    },
    {
        .name = "site export",
        .arguments = QLL_TEXT_NONE,
        .summary = QLL_TEXT_CLI_ANSWERS_SITE_EXPORT,
        .detail = QLL_TEXT_CLI_DETAIL_SITE_EXPORT,
        .options = QLL_CLI_STORED | QLL_CLI_BIT(OUTPUT) | QLL_CLI_BIT(TODAY),
        .words_least = 0,
        .words_most = 0,
        .verb = QLL_VERB_COUNT,
        .run = qll_cli_site_export,
    },
    {
        .name = "site backup",
        .arguments = QLL_TEXT_NONE,
        .summary = QLL_TEXT_CLI_ANSWERS_SITE_BACKUP,
        .detail = QLL_TEXT_CLI_DETAIL_SITE_BACKUP,
        .options = QLL_CLI_STORED | QLL_CLI_BIT(OUTPUT),
        .words_least = 0,
        .words_most = 0,
        .verb = QLL_VERB_COUNT,
        .run = qll_cli_site_backup,
    },
    {
        .name = "serve",
        .arguments = QLL_TEXT_NONE,
        .summary = QLL_TEXT_CLI_ANSWERS_SERVE,
        .detail = QLL_TEXT_CLI_DETAIL_SERVE,
        .options = QLL_CLI_BIT(ADDRESS) | QLL_CLI_BIT(PORT) | QLL_CLI_BIT(HOST) | QLL_CLI_BIT(STORE)
                   | QLL_CLI_BIT(ADD) | QLL_CLI_BIT(CERTIFICATE) | QLL_CLI_BIT(KEY)
                   | QLL_CLI_BIT(LANGUAGE) | QLL_CLI_BIT(HELP),
        .words_least = 0,
        .words_most = 0,
        .verb = QLL_VERB_COUNT,
        .run = qll_cli_serve,
    },
};

const qll_cli_command *qll_cli_commands(size_t *count)
{
    *count = QLL_COUNT(commands);
    return commands;
}

/* How many words of @p line spell the name @p name; 0 if they do not. */
static size_t spells(const qll_cli_line *line, const char *name)
{
    size_t taken = 0;
    const char *rest = name;
    while (taken < line->word_count) {
        size_t size = strlen(line->words[taken]);
        if (strncmp(rest, line->words[taken], size) != 0) {
            return 0;
        }
        taken += 1;
        if (rest[size] == '\0') {
            return taken;
        }
        if (rest[size] != ' ') {
            return 0;
        }
        rest += size + 1;
    }
    return 0;
}

const qll_cli_command *qll_cli_command_find(const qll_cli_line *line, size_t *taken)
{
    for (size_t i = 0; i < QLL_COUNT(commands); i++) {
        *taken = spells(line, commands[i].name);
        if (*taken > 0) {
            return &commands[i];
        }
    }
    return NULL;
}

static const char *takes(const qll_cli_command *command, qll_language language)
{
    return command->arguments == QLL_TEXT_NONE ? "" : qll_cli_text(language, command->arguments);
}

void qll_cli_help(qll_writer *writer, qll_language language)
{
    qll_write(writer, qll_cli_text(language, QLL_TEXT_CLI_HELP_START));
    for (size_t i = 0; i < QLL_COUNT(commands); i++) {
        qll_writer typed = qll_writer_new(writer->arena);
        qll_write_format(&typed, "%s %s", commands[i].name, takes(&commands[i], language));
        qll_cli_help_row(writer, qll_writer_text(&typed), 30,
                         qll_cli_text(language, commands[i].summary));
    }
    qll_write_format(writer, "\n%s\n", qll_cli_text(language, QLL_TEXT_CLI_HELP_OPTIONS));
    qll_cli_options_help(writer, language, QLL_CLI_COMMON | QLL_CLI_BIT(VERSION));
    qll_write(writer, qll_cli_text(language, QLL_TEXT_CLI_HELP_END));
}

qll_said qll_cli_usage(const qll_cli_command *command, qll_language language)
{
    return command->arguments == QLL_TEXT_NONE
               ? (qll_said){QLL_TEXT_CLI_HELP_USAGE, {qll_as_is(command->name)}}
               : (qll_said){QLL_TEXT_CLI_COMMAND_WORDS,
                            {qll_as_is(command->name), qll_as_is(takes(command, language))}};
}

void qll_cli_command_help(qll_writer *writer, qll_language language, const qll_cli_command *command)
{
    qll_cli_say(writer, language, qll_cli_usage(command, language));
    qll_write_format(writer, "\n\n%s\n\n", qll_cli_text(language, command->summary));
    qll_write_format(writer, "%s\n%s\n", qll_cli_text(language, command->detail),
                     qll_cli_text(language, QLL_TEXT_CLI_HELP_OPTIONS));
    qll_cli_options_help(writer, language, command->options);
}
