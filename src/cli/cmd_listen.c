/* quell listen: what kind of noise a recording holds. */
#include "base/count.h"
#include "cli/answer.h"
#include "cli/commands.h"
#include "cli/save.h"
#include "host/host.h"
#include "host/recording.h"
#include "host/stream.h"

#include <string.h>

/* The recording at @p path; complains if it cannot be read. */
static qll_status open_recording(const char *path, qll_language language, qll_arena *arena,
                                 qll_host_recording **opened, qll_recording *recording)
{
    const char *why = "";
    const qll_status status = qll_host_recording_open(path, arena, opened, recording, &why);
    if (status == QLL_IO || status == QLL_REFUSED) {
        qll_cli_complain(arena, language,
                         why[0] == '\0'
                             ? (qll_said){QLL_TEXT_CLI_NO_RECORDING, {qll_cli_visible(arena, path)}}
                             : qll_cli_of_file(arena, QLL_TEXT_CLI_CANNOT_READ, path, why));
    }
    return status;
}

/* Standard input is one file; what is read must not be what is written. */
static bool makes_sense(const qll_cli_line *line, qll_arena *arena)
{
    const char *const read[] = {line->words[0], line->values[QLL_CLI_QUIET],
                                line->values[QLL_CLI_SURVEY], line->values[QLL_CLI_CATALOGUE],
                                line->values[QLL_CLI_LOG]};
    size_t from_input = 0;
    for (size_t i = 0; i < QLL_COUNT(read); i++) {
        from_input += read[i] != NULL && strcmp(read[i], "-") == 0;
    }
    if (from_input > 1) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_ONE_INPUT});
        return false;
    }
    const bool needs_log = line->word_count > 1 || line->values[QLL_CLI_BEGINS] != NULL;
    if (needs_log && line->values[QLL_CLI_LOG] == NULL) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_LISTEN_LOG_MISSING});
        return false;
    }
    return qll_cli_may_make_sheets(line, read, QLL_COUNT(read), arena);
}

qll_status qll_cli_listen(const qll_cli_command *command, const qll_cli_line *line,
                          qll_arena *arena)
{
    if (!makes_sense(line, arena)) {
        return QLL_WRONG_USE;
    }
    const char *survey = line->values[QLL_CLI_SURVEY], *quiet_path = line->values[QLL_CLI_QUIET];
    const char *log_path = line->values[QLL_CLI_LOG];
    const bool is_standard = log_path != NULL && strcmp(log_path, "-") == 0;
    qll_host_file file = {.path = is_standard ? "/dev/stdin" : log_path, .arena = arena};
    const qll_attachment log = {
        .name = is_standard ? qll_cli_text(line->language, QLL_TEXT_CLI_STANDARD_INPUT) : log_path,
        .stream = qll_host_stream,
        .again = qll_host_again,
        .context = &file};
    qll_question question = {.verb = command->verb,
                             .parts = line->values[QLL_CLI_PARTS],
                             .log = log_path == NULL ? NULL : &log,
                             .begins = line->values[QLL_CLI_BEGINS],
                             .arguments = line->words + 1,
                             .argument_count = line->word_count - 1};
    qll_host_recording *opened = NULL, *opened_quiet = NULL;
    qll_recording recording, quiet;
    qll_status status = open_recording(line->words[0], line->language, arena, &opened, &recording);
    question.recording = &recording;
    if (status == QLL_OK && quiet_path != NULL) {
        status = open_recording(quiet_path, line->language, arena, &opened_quiet, &quiet);
        question.quiet = &quiet;
    }
    if (status == QLL_OK && survey != NULL) {
        status = qll_cli_open_survey(line, survey, arena, &question);
    }
    if (status == QLL_OK) {
        status = qll_cli_ask_or_make(&question, line, arena);
    }
    qll_host_recording_close(opened);
    qll_host_recording_close(opened_quiet);
    return status;
}
