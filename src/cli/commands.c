#include "cli/commands.h"

#include "base/count.h"

#include <stdint.h>
#include <string.h>

#define QLL_CLI_COMMON (QLL_CLI_BIT(JSON) | QLL_CLI_BIT(UNITS) | QLL_CLI_BIT(HELP))
#define QLL_CLI_SPOKEN (QLL_CLI_COMMON | QLL_CLI_BIT(LANGUAGE))

static const qll_cli_command commands[] = {
    {
        .name = "demand",
        .arguments = "SURVEY",
        .summary = "How much water, and when?",
        .detail = "SURVEY is a JSON file (docs/formats/survey.md), or - for standard input.\n"
                  "Parts: estimates, duration, hours, log, comparison. Figures: day, duration.\n",
        .options = QLL_CLI_SPOKEN | QLL_CLI_BIT(PARTS) | QLL_CLI_BIT(FIGURES) | QLL_CLI_BIT(SEED),
        .words_least = 1,
        .words_most = 1,
        .verb = QLL_VERB_DEMAND,
        .run = qll_cli_survey,
    },
    {
        .name = "design",
        .arguments = "SURVEY",
        .summary = "Which station, and set to what?",
        .detail =
            "SURVEY is a JSON file (docs/formats/survey.md), or - for standard input.\n"
            "Parts: hangs_on, alternatives, verdicts, points, ladder, maps. Figures: those of\n"
            "quell report.\n",
        .options = QLL_CLI_SPOKEN | QLL_CLI_BIT(CATALOGUE) | QLL_CLI_BIT(PARTS)
                   | QLL_CLI_BIT(FIGURES) | QLL_CLI_BIT(SEED),
        .words_least = 1,
        .words_most = 1,
        .verb = QLL_VERB_DESIGN,
        .run = qll_cli_survey,
    },
    {
        .name = "check",
        .arguments = "SURVEY",
        .summary = "What does the existing station do, and why is it noisy?",
        .detail = "SURVEY is a JSON file (docs/formats/survey.md) with \"existing\", or - for\n"
                  "standard input.\n"
                  "Parts: verdicts, points, ladder, maps, noise, causes, cures. Figures: those of\n"
                  "quell report except candidates.\n",
        .options = QLL_CLI_SPOKEN | QLL_CLI_BIT(CATALOGUE) | QLL_CLI_BIT(FLOW) | QLL_CLI_BIT(INLET)
                   | QLL_CLI_BIT(PARTS) | QLL_CLI_BIT(FIGURES) | QLL_CLI_BIT(SEED),
        .words_least = 1,
        .words_most = 1,
        .verb = QLL_VERB_CHECK,
        .run = qll_cli_survey,
    },
    {
        .name = "report",
        .arguments = "SURVEY",
        .summary = "The sheets to hand over, with settings and forms.",
        .detail =
            "SURVEY is a JSON file (docs/formats/survey.md), or - for standard input. The\n"
            "file named by -o is PDF, HTML or SVG by its ending; it is replaced whole or not\n"
            "at all. With --json the numbers on the sheets are printed too, and what was\n"
            "written. The sheets are those of a design; --of check makes those of the\n"
            "existing station, --of demand those of the water alone.\n"
            "Sections: cover, cautions, station, commissioning, service, verdicts,\n"
            "alternatives, expect, demand, survey, figures, sources. The cautions are in every\n"
            "report.\n"
            "Figures, one to an SVG: schematic, day, duration, falloff, ladder, map, noise,\n"
            "spectrum, candidates. Those of a scenario or a valve take its number: day-2,\n"
            "map-2.\n"
            "Parts: those of demand but comparison, and of design.\n",
        .options = QLL_CLI_SPOKEN | QLL_CLI_BIT(CATALOGUE) | QLL_CLI_BIT(OUTPUT) | QLL_CLI_BIT(OF)
                   | QLL_CLI_BIT(SECTIONS) | QLL_CLI_BIT(LENGTH) | QLL_CLI_BIT(DATE)
                   | QLL_CLI_BIT(PLOT) | QLL_CLI_BIT(PARTS) | QLL_CLI_BIT(SEED),
        .words_least = 1,
        .words_most = 1,
        .verb = QLL_VERB_REPORT,
        .run = qll_cli_report,
    },
    {
        .name = "listen",
        .arguments = "FILE.wav",
        .summary = "What kind of noise is this?",
        .detail =
            "FILE.wav is a recording of 5 s or more, WAV or FLAC, or - for standard input. With -o\n"
            "FILE.pdf or FILE.html its sheets are made, with drawings, in place of the answer.\n"
            "Parts: stretches, events, spectrum, spectrogram.\n",
        .options = QLL_CLI_SPOKEN | QLL_CLI_BIT(SURVEY) | QLL_CLI_BIT(QUIET)
                   | QLL_CLI_BIT(CATALOGUE) | QLL_CLI_BIT(OUTPUT) | QLL_CLI_BIT(PARTS),
        .words_least = 1,
        .words_most = 1,
        .verb = QLL_VERB_LISTEN,
        .run = qll_cli_listen,
    },
    {
        .name = "calc",
        .arguments = "[NAME [KEY=VALUE ...]]",
        .summary = "One handbook calculation, steps and source.",
        .detail =
            "Without NAME it lists the calculations; with NAME and --help it shows what that\n"
            "one takes. A value has its unit: flow=\"12 gpm\".\n",
        .options = QLL_CLI_COMMON | QLL_CLI_BIT(LANGUAGE),
        .words_least = 0,
        .words_most = SIZE_MAX,
        .verb = QLL_VERB_CALC,
        .run = qll_cli_calc,
    },
    {
        .name = "catalogue import",
        .arguments = "FILE.csv",
        .summary = "A catalog of valves from CSV to JSON.",
        .detail = "FILE.csv has one valve a row (docs/formats/catalogue.md), or is - for standard\n"
                  "input.\n",
        .options = QLL_CLI_COMMON,
        .words_least = 1,
        .words_most = 1,
        .verb = QLL_VERB_IMPORT,
        .run = qll_cli_import,
    },
    {
        .name = "catalogue fit",
        .arguments = "FILE.csv",
        .summary = "A valve from published capacity points.",
        .detail = "FILE.csv has one point a row: inlet, set, flow, falloff\n"
                  "(docs/formats/catalogue.md), or is - for standard input.\n",
        .options = QLL_CLI_COMMON | QLL_CLI_BIT(LANGUAGE),
        .words_least = 1,
        .words_most = 1,
        .verb = QLL_VERB_FIT,
        .run = qll_cli_import,
    },
    {
        .name = "catalogue list",
        .arguments = "",
        .summary = "The valves of a catalog, a row each.",
        .detail =
            "Ids, sizes and what each can be set to: what \"existing\" in a survey may name.\n",
        .options = QLL_CLI_COMMON | QLL_CLI_BIT(LANGUAGE) | QLL_CLI_BIT(CATALOGUE),
        .words_least = 0,
        .words_most = 0,
        .verb = QLL_VERB_LIST,
        .run = qll_cli_list,
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

void qll_cli_help(qll_writer *writer)
{
    qll_write(writer, "quell chooses, sets and keeps quiet a building's water-pressure-reducing\n"
                      "station.\n\nusage: quell COMMAND [OPTION ...] [ARGUMENT ...]\n\n");
    for (size_t i = 0; i < QLL_COUNT(commands); i++) {
        size_t width = strlen(commands[i].name) + 1 + strlen(commands[i].arguments);
        qll_write_format(writer, "  %s %s", commands[i].name, commands[i].arguments);
        qll_write_byte(writer, ' ', width < 30 ? 30 - width : 2);
        qll_write(writer, commands[i].summary);
        qll_write(writer, "\n");
    }
    qll_write(writer, "\noptions:\n");
    qll_cli_options_help(writer, QLL_CLI_COMMON | QLL_CLI_BIT(VERSION));
    qll_write(writer, "\n`quell COMMAND --help` shows the options of a command.\n"
                      "Exit status: 0 done, 1 the input was refused, 2 wrong usage, 3 a file or\n"
                      "device failed.\n");
}

void qll_cli_command_help(qll_writer *writer, const qll_cli_command *command)
{
    qll_write_format(writer, "usage: quell %s [OPTION ...]", command->name);
    qll_write_format(writer, "%s%s\n\n", command->arguments[0] == '\0' ? "" : " ",
                     command->arguments);
    qll_write(writer, command->summary);
    qll_write(writer, "\n\n");
    qll_write(writer, command->detail);
    qll_write(writer, "\noptions:\n");
    qll_cli_options_help(writer, command->options);
}
