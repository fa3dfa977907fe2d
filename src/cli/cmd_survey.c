/* quell demand, design and check: the three questions about a survey. */
#include "cli/answer.h"
#include "cli/commands.h"
#include "host/stream.h"

#include <string.h>

/* A file named in the survey at @p survey_path: beside the survey, or by its whole path. Whoever may
 * run this program may read the file anyway, so no path is refused. */
static const char *beside(const char *survey_path, const char *name, qll_arena *arena)
{
    const char *slash = strrchr(survey_path, '/');
    if (slash == NULL || name[0] == '/') {
        return name;
    }
    qll_writer path = qll_writer_new(arena);
    qll_write_text(&path, (qll_text){survey_path, (size_t)(slash - survey_path) + 1});
    qll_write(&path, name);
    return qll_writer_text(&path).bytes;
}

static qll_status attach(qll_question *question, const char *survey_path, qll_arena *arena)
{
    const char *const *names = NULL;
    size_t count = 0;
    qll_status status = qll_attachments_of(&question->document, arena, &names, &count);
    if (status != QLL_OK) {
        return status;
    }
    qll_attachment *attachments = qll_arena_take(arena, count, sizeof *attachments);
    qll_host_file *files = qll_arena_take(arena, count, sizeof *files);
    if (attachments == NULL || files == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        const char *path = beside(survey_path, names[i], arena);
        files[i] = (qll_host_file){.path = path, .arena = arena};
        attachments[i] = (qll_attachment){.name = names[i],
                                          .path = path,
                                          .stream = qll_host_stream,
                                          .again = qll_host_again,
                                          .context = &files[i]};
    }
    question->attachments = attachments;
    question->attachment_count = count;
    return qll_arena_refused(arena) > 0 ? QLL_NO_MEMORY : QLL_OK;
}

qll_status qll_cli_open_survey(const qll_cli_line *line, const char *path, qll_arena *arena,
                               qll_question *question)
{
    const char *catalogue = line->values[QLL_CLI_CATALOGUE];
    if (catalogue != NULL && strcmp(catalogue, "-") == 0 && strcmp(path, "-") == 0) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_INPUT_TWICE});
        return QLL_WRONG_USE;
    }
    qll_status status = qll_cli_read(path, line->language, arena, &question->document);
    if (status == QLL_OK && catalogue != NULL) {
        status = qll_cli_read(catalogue, line->language, arena, &question->catalogue);
    }
    return status == QLL_OK ? attach(question, path, arena) : status;
}

qll_status qll_cli_survey(const qll_cli_command *command, const qll_cli_line *line,
                          qll_arena *arena)
{
    qll_question question = {
        .verb = command->verb,
        .flow = line->values[QLL_CLI_FLOW],
        .inlet = line->values[QLL_CLI_INLET],
        .seed = line->values[QLL_CLI_SEED],
        .parts = line->values[QLL_CLI_PARTS],
        .figures = line->values[QLL_CLI_FIGURES],
    };
    qll_status status = qll_cli_open_survey(line, line->words[0], arena, &question);
    return status == QLL_OK ? qll_cli_ask(&question, line, arena) : status;
}
