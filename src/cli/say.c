#include "cli/say.h"

#include "base/quote.h"
#include "host/host.h"
#include "wording/language.h"
#include "wording/says_reason.h"
#include "wording/wording.h"

#include <string.h>

#define QLL_CLI_LANGUAGE_OPTION "--language"

static qll_language language_called(const char *code)
{
    int language = 0;
    while (language < QLL_LANGUAGE_COUNT && strcmp(code, qll_language_words[language]) != 0) {
        language += 1;
    }
    return language < QLL_LANGUAGE_COUNT ? (qll_language)language : QLL_LANGUAGE_EN;
}

/* Read before the line is taken apart, as that may already be refused. */
qll_language qll_cli_language(int count, char *const *arguments)
{
    const size_t size = strlen(QLL_CLI_LANGUAGE_OPTION);
    qll_language language = QLL_LANGUAGE_EN;
    for (int i = 1; i < count && strcmp(arguments[i], "--") != 0; i++) {
        if (strncmp(arguments[i], QLL_CLI_LANGUAGE_OPTION, size) != 0) {
            continue;
        }
        if (arguments[i][size] == '=') {
            language = language_called(arguments[i] + size + 1);
        } else if (arguments[i][size] == '\0' && i + 1 < count) {
            language = language_called(arguments[i + 1]);
        }
    }
    return language;
}

const char *qll_cli_text(qll_language language, qll_text_id id)
{
    const char *says = qll_said_entry(language, id);
    return says == NULL ? qll_said_entry(QLL_LANGUAGE_EN, id) : says;
}

qll_argument qll_cli_visible(qll_arena *arena, const char *given)
{
    qll_writer shown = qll_writer_new(arena);
    qll_write_visible(&shown, qll_text_of(given));
    return qll_as_is_text(qll_writer_text(&shown));
}

qll_said qll_cli_of_file(qll_arena *arena, qll_text_id id, const char *path, const char *why)
{
    return (qll_said){id, {qll_cli_visible(arena, path), qll_as_reason(why)}};
}

void qll_cli_say(qll_writer *writer, qll_language language, qll_said said)
{
    const qll_wording wording = {.language = language};
    qll_wording_said(writer, &wording, &said);
}

void qll_cli_complain_bare(qll_language language, qll_text_id id)
{
    qll_host_complain("quell: ");
    qll_host_complain(qll_cli_text(language, id));
    qll_host_complain("\n");
}

void qll_cli_complain_written(qll_writer *writer, qll_language language)
{
    const char *text = qll_writer_text(writer).bytes;
    if (qll_arena_refused(writer->arena) > 0) {
        qll_cli_complain_bare(language, QLL_TEXT_CLI_NO_MEMORY);
    } else {
        qll_host_complain(text);
    }
}

void qll_cli_complain(qll_arena *arena, qll_language language, qll_said said)
{
    qll_writer writer = qll_writer_new(arena);
    qll_write(&writer, "quell: ");
    qll_cli_say(&writer, language, said);
    qll_write(&writer, "\n");
    qll_cli_complain_written(&writer, language);
}
