/* quell page: the page for the browser, copied to where it is wanted. */
#include "base/document.h"
#include "cli/answer.h"
#include "cli/commands.h"
#include "cli/save.h"
#include "host/host.h"

#include <string.h>

/* Where it goes, and what has gone there. */
typedef struct copying {
    const qll_cli_line *line;
    qll_arena *arena;
    qll_json *json;
    const char *why;
} copying;

static qll_status complain(const copying *of, qll_text_id says, const char *path)
{
    qll_cli_complain(of->arena, of->line->language,
                     qll_cli_of_file(of->arena, says, path, of->why));
    return QLL_IO;
}

/* "folder/name". */
static const char *joined(const copying *of, const char *folder, const char *name)
{
    qll_writer path = qll_writer_new(of->arena);
    qll_write(&path, folder);
    qll_write(&path, "/");
    qll_write(&path, name);
    return path.no_memory ? NULL : qll_writer_text(&path).bytes;
}

static qll_status copy(copying *of, const char *from, const char *to)
{
    qll_text bytes = {0};
    if (from == NULL || to == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_status status = qll_host_read(from, of->arena, &bytes, &of->why);
    if (status != QLL_OK) {
        return status == QLL_IO ? complain(of, QLL_TEXT_CLI_CANNOT_READ, from) : status;
    }
    status = qll_host_write(to, bytes, of->arena, &of->why);
    if (status != QLL_OK) {
        return status == QLL_IO ? complain(of, QLL_TEXT_CLI_CANNOT_WRITE, to) : status;
    }
    qll_json_open_object(of->json);
    qll_json_put_text(of->json, "path", to);
    qll_json_put_number(of->json, "bytes", (double)bytes.size);
    qll_json_close_object(of->json);
    return QLL_OK;
}

/* A page that is being served stays whole: what fetches the rest comes last. */
static bool fetches(const char *name)
{
    return strcmp(name, "index.html") == 0 || strcmp(name, "service_worker.js") == 0;
}

static qll_status copy_folder(copying *of, const char *from, const char *to)
{
    const char *const *names = NULL;
    size_t count = 0;
    qll_status status = qll_host_make_folder(to, of->arena, &of->why);
    if (status == QLL_IO) {
        return complain(of, QLL_TEXT_CLI_CANNOT_WRITE, to);
    }
    status = status == QLL_OK ? qll_host_list(from, of->arena, &names, &count, &of->why) : status;
    if (status == QLL_IO) {
        return complain(of, QLL_TEXT_CLI_CANNOT_READ, from);
    }
    for (int last = 0; last < 2; last++) {
        for (size_t i = 0; i < count && status == QLL_OK; i++) {
            if (fetches(names[i]) == (last == 1)) {
                status = copy(of, joined(of, from, names[i]), joined(of, to, names[i]));
            }
        }
    }
    return status;
}

static qll_status put(copying *of, const char *to)
{
    const bool is_file = qll_cli_sheets_form(to) == QLL_SHEETS_HTML;
    const char *from = NULL;
    qll_status status = qll_host_shared(is_file ? "quell.html" : "page", of->arena, &from);
    if (status != QLL_OK) {
        return status;
    }
    if (from == NULL) {
        qll_cli_complain(of->arena, of->line->language, (qll_said){.id = QLL_TEXT_CLI_NO_PAGE});
        return QLL_IO;
    }
    return is_file ? copy(of, from, to) : copy_folder(of, from, to);
}

qll_status qll_cli_page(const qll_cli_command *command, const qll_cli_line *line, qll_arena *arena)
{
    (void)command;
    const char *to = line->values[QLL_CLI_OUTPUT];
    if (to == NULL) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_PAGE_WHERE});
        return QLL_WRONG_USE;
    }
    qll_writer writer = qll_writer_new(arena);
    qll_json json = qll_json_new(&writer);
    qll_json_open_object(&json);
    qll_json_put_text(&json, "quell", "page/1");
    qll_json_put_list(&json, "files");
    copying of = {.line = line, .arena = arena, .json = &json};
    const qll_status status = put(&of, to);
    qll_json_close_list(&json);
    qll_json_close_object(&json);
    qll_write(&writer, "\n");
    if (status != QLL_OK || line->values[QLL_CLI_JSON] == NULL) {
        return status;
    }
    return writer.no_memory ? QLL_NO_MEMORY
                            : qll_cli_print_text(qll_writer_text(&writer), line->language, arena);
}
