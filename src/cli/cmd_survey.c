/* quell demand, design and check: the three questions about a survey. */
#include "cli/answer.h"
#include "cli/commands.h"
#include "host/host.h"
#include "host/stream.h"

#include <string.h>

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
        /* Whoever may run this program may read the file anyway, so no path is refused. */
        const char *path = qll_host_beside(survey_path, names[i], arena);
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
    if (status == QLL_OK) {
        status = qll_cli_read_option(line, QLL_CLI_CATALOGUE, arena, &question->catalogue);
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
