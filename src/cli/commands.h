/* The table of commands. */
#ifndef QUELL_CLI_COMMANDS_H
#define QUELL_CLI_COMMANDS_H

#include "quell/quell.h"

#include "cli/options.h"

typedef struct qll_cli_command qll_cli_command;

struct qll_cli_command {
    const char *name;      /* "design", "catalogue import" */
    qll_text_id arguments; /* "SURVEY"; NONE */
    qll_text_id summary;   /* what it answers, one line */
    qll_text_id detail;    /* further lines of help, each closed by a newline */
    qll_verb verb;
    uint64_t options;
    size_t words_least, words_most; /* after the name */
    qll_status (*run)(const qll_cli_command *command, const qll_cli_line *line, qll_arena *arena);
};

const qll_cli_command *qll_cli_commands(size_t *count);

/** The command that the first words of @p line name; @p taken gets how many they are. */
const qll_cli_command *qll_cli_command_find(const qll_cli_line *line, size_t *taken);

/** What `quell --help` prints. */
void qll_cli_help(qll_writer *writer, qll_language language);

/** "usage: quell design [OPTION ...] SURVEY". */
qll_said qll_cli_usage(const qll_cli_command *command, qll_language language);

/** What `quell COMMAND --help` prints. */
void qll_cli_command_help(qll_writer *writer, qll_language language,
                          const qll_cli_command *command);

/* The commands (cmd_*.c). The words of @p line are those after the name. */
QLL_MUST_USE qll_status qll_cli_survey(const qll_cli_command *command, const qll_cli_line *line,
                                       qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_report(const qll_cli_command *command, const qll_cli_line *line,
                                       qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_diagnose(const qll_cli_command *command, const qll_cli_line *line,
                                         qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_calc(const qll_cli_command *command, const qll_cli_line *line,
                                     qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_describe(const qll_cli_command *command, const qll_cli_line *line,
                                         qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_import(const qll_cli_command *command, const qll_cli_line *line,
                                       qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_log(const qll_cli_command *command, const qll_cli_line *line,
                                    qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_simulate(const qll_cli_command *command, const qll_cli_line *line,
                                         qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_listen(const qll_cli_command *command, const qll_cli_line *line,
                                       qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_list(const qll_cli_command *command, const qll_cli_line *line,
                                     qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_page(const qll_cli_command *command, const qll_cli_line *line,
                                     qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_site_add(const qll_cli_command *command, const qll_cli_line *line,
                                         qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_site_list(const qll_cli_command *command, const qll_cli_line *line,
                                          qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_site_show(const qll_cli_command *command, const qll_cli_line *line,
                                          qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_site_visit(const qll_cli_command *command, const qll_cli_line *line,
                                           qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_site_due(const qll_cli_command *command, const qll_cli_line *line,
                                         qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_site_trend(const qll_cli_command *command, const qll_cli_line *line,
                                           qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_site_import(const qll_cli_command *command,
                                            const qll_cli_line *line, qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_site_export(const qll_cli_command *command,
                                            const qll_cli_line *line, qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_site_backup(const qll_cli_command *command,
                                            const qll_cli_line *line, qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_site_set(const qll_cli_command *command, const qll_cli_line *line,
                                         qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_site_settle(const qll_cli_command *command,
                                            const qll_cli_line *line, qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_site_learn(const qll_cli_command *command, const qll_cli_line *line,
                                           qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_site_rank(const qll_cli_command *command, const qll_cli_line *line,
                                          qll_arena *arena);
QLL_MUST_USE qll_status qll_cli_serve(const qll_cli_command *command, const qll_cli_line *line,
                                      qll_arena *arena);

#endif
