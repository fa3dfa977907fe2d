/* quell site add, list, show, visit, due, trend. */
#include "cli/answer.h"
#include "cli/commands.h"
#include "cli/save.h"
#include "cli/stored.h"

#include <string.h>

/* ---- writing ---- */

/* Makes @p record of @p draft and keeps it. */
static qll_status keep_as(qll_cli_site *site, const qll_record_draft *draft, qll_record *record)
{
    qll_answer answer = {0};
    const qll_status status =
        qll_record_make(draft, site->line->values[QLL_CLI_LANGUAGE], site->arena, record, &answer);
    if (status == QLL_REFUSED) {
        return qll_cli_site_answer(site, status, &answer);
    }
    return status == QLL_OK ? qll_cli_site_put(site, record) : status;
}

static qll_status keep(qll_cli_site *site, const qll_record_draft *draft)
{
    qll_record record;
    return keep_as(site, draft, &record);
}

static qll_record_draft draft_of(const qll_cli_site *site, qll_record_kind kind, const char *id)
{
    return (qll_record_draft){.kind = kind, .id = id, .who = site->who, .written_at = site->moment};
}

/* The arguments whose key is, or is not, one of the plan of service; the name of the site first among those of the site. */
static size_t sort_arguments(const qll_cli_line *line, bool of_plan, const char **sorted)
{
    static const char *const keys[] = {"every_months=", "first="};
    size_t count = 0;
    for (size_t i = 1; i < line->word_count; i++) {
        const bool is_plan = strncmp(line->words[i], keys[0], strlen(keys[0])) == 0
                             || strncmp(line->words[i], keys[1], strlen(keys[1])) == 0;
        if (is_plan == of_plan) {
            sorted[count] = line->words[i];
            count += 1;
        }
    }
    return count;
}

static qll_status keep_site(qll_cli_site *site, const char *id, const char **arguments)
{
    qll_writer name = qll_writer_new(site->arena);
    qll_write_format(&name, "name=%s", site->line->words[0]);
    arguments[0] = qll_writer_text(&name).bytes;
    qll_record_draft draft = draft_of(site, QLL_RECORD_SITE, NULL);
    draft.site = id;
    draft.document = id;
    draft.arguments = arguments;
    draft.argument_count = 1 + sort_arguments(site->line, false, arguments + 1);
    const qll_status status = qll_cli_site_id(site, &draft.id);
    return status == QLL_OK ? keep(site, &draft) : status;
}

static qll_status keep_plan(qll_cli_site *site, const char *id, const char **arguments)
{
    qll_record_draft draft = draft_of(site, QLL_RECORD_PLAN, NULL);
    draft.site = id;
    draft.arguments = arguments;
    draft.argument_count = sort_arguments(site->line, true, arguments);
    if (draft.argument_count == 0) {
        return QLL_OK;
    }
    qll_status status = qll_cli_site_id(site, &draft.id);
    status = status == QLL_OK ? qll_cli_site_id(site, &draft.document) : status;
    return status == QLL_OK ? keep(site, &draft) : status;
}

static qll_status keep_survey(qll_cli_site *site, const char *id, const qll_input *survey)
{
    qll_record record;
    qll_record_draft draft = draft_of(site, QLL_RECORD_SURVEY, NULL);
    draft.site = id;
    draft.whole = *survey;
    if (survey->bytes == NULL) {
        return QLL_OK;
    }
    qll_status status = qll_cli_site_id(site, &draft.id);
    status = status == QLL_OK ? qll_cli_site_id(site, &draft.document) : status;
    status = status == QLL_OK ? keep_as(site, &draft, &record) : status;
    return status == QLL_OK
               ? qll_cli_site_keep_logs(site, site->line->values[QLL_CLI_SURVEY], &record)
               : status;
}

static qll_status say_kept(const qll_cli_site *site, qll_said said)
{
    qll_writer text = qll_writer_new(site->arena);
    qll_cli_say(&text, site->line->language, said);
    qll_write(&text, "\n");
    return qll_cli_print(&text, site->line->language);
}

qll_status qll_cli_site_add(const qll_cli_command *command, const qll_cli_line *line,
                            qll_arena *arena)
{
    (void)command;
    qll_cli_site site;
    qll_input survey = {0};
    const char *id = NULL;
    const char **arguments = qll_arena_take(arena, line->word_count + 1, sizeof *arguments);
    if (arguments == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_status status = qll_cli_read_option(line, QLL_CLI_SURVEY, arena, &survey);
    if (status != QLL_OK) {
        return status;
    }
    status = qll_cli_site_open(line, QLL_STORE_MAKE, arena, &site);
    status = status == QLL_OK ? qll_cli_site_id(&site, &id) : status;
    /* A survey that cannot be read, or a plan that is none, is refused before there is a site. */
    status = status == QLL_OK ? keep_survey(&site, id, &survey) : status;
    status = status == QLL_OK ? keep_plan(&site, id, arguments) : status;
    status = status == QLL_OK ? keep_site(&site, id, arguments) : status;
    if (status == QLL_OK) {
        status = say_kept(&site,
                          (qll_said){QLL_TEXT_CLI_SITE_KEPT,
                                     {qll_as_quoted(qll_text_of(line->words[0])), qll_as_is(id)}});
    }
    qll_store_close(site.store);
    return status;
}

qll_status qll_cli_site_visit(const qll_cli_command *command, const qll_cli_line *line,
                              qll_arena *arena)
{
    (void)command;
    qll_cli_site site;
    qll_site_row row;
    qll_input of_case = {0};
    /* A case is a file; all that has an equals sign is a member. */
    const bool has_case = line->word_count > 1 && strchr(line->words[1], '=') == NULL;
    const size_t first = has_case ? 2 : 1;
    const char **arguments = qll_arena_take(arena, line->word_count + 1, sizeof *arguments);
    qll_status status = arguments == NULL ? QLL_NO_MEMORY : QLL_OK;
    if (status == QLL_OK && has_case) {
        status = qll_cli_read(line->words[1], line->language, arena, &of_case);
    }
    if (status != QLL_OK) {
        return status;
    }
    status = qll_cli_site_open(line, QLL_STORE_WRITE, arena, &site);
    status = status == QLL_OK ? qll_cli_site_find(&site, line->words[0], &row) : status;
    qll_record_draft draft = draft_of(&site, QLL_RECORD_VISIT, NULL);
    bool has_purpose = false;
    for (size_t i = first; i < line->word_count; i++) {
        if (strncmp(line->words[i], "corrects=", 9) == 0) {
            draft.corrects = line->words[i] + 9;
            continue;
        }
        has_purpose = has_purpose || strncmp(line->words[i], "purpose=", 8) == 0;
        arguments[draft.argument_count] = line->words[i];
        draft.argument_count += 1;
    }
    if (!has_purpose) {
        arguments[draft.argument_count] = "purpose=service";
        draft.argument_count += 1;
    }
    draft.arguments = arguments;
    draft.whole = of_case;
    status = status == QLL_OK ? qll_cli_site_id(&site, &draft.id) : status;
    if (status == QLL_OK) {
        draft.site = row.site;
        status = keep(&site, &draft);
    }
    if (status == QLL_OK) {
        status = say_kept(&site, (qll_said){QLL_TEXT_CLI_VISIT_KEPT, {qll_as_is(draft.id)}});
    }
    qll_store_close(site.store);
    return status;
}

/* ---- reading ---- */

qll_status qll_cli_site_list(const qll_cli_command *command, const qll_cli_line *line,
                             qll_arena *arena)
{
    (void)command;
    qll_cli_site site;
    qll_store_sites rows = {0};
    qll_answer answer = {0};
    qll_writer words = qll_writer_new(arena);
    for (size_t i = 0; i < line->word_count; i++) {
        qll_write_format(&words, "%s ", line->words[i]);
    }
    qll_status status = qll_cli_site_open(line, QLL_STORE_READ, arena, &site);
    if (status == QLL_OK) {
        status = qll_cli_site_rows(
            &site, line->word_count == 0 ? NULL : qll_writer_text(&words).bytes, &rows);
    }
    if (status == QLL_OK) {
        status = qll_tell_sites(&site.telling, rows.list, rows.count, arena, &answer);
        status = qll_cli_site_answer(&site, status, &answer);
    }
    qll_store_close(site.store);
    return status;
}

qll_status qll_cli_site_due(const qll_cli_command *command, const qll_cli_line *line,
                            qll_arena *arena)
{
    (void)command;
    qll_cli_site site;
    qll_store_sites rows = {0};
    qll_answer answer = {0};
    qll_said why = {.id = QLL_TEXT_NONE};
    qll_status status = qll_cli_site_open(line, QLL_STORE_READ, arena, &site);
    if (status == QLL_OK) {
        status = qll_store_planned(site.store, arena, &rows, &why);
        status = qll_cli_site_said(&site, status, &why);
    }
    if (status == QLL_OK) {
        status = qll_tell_due(&site.telling, rows.list, rows.count, arena, &answer);
        status = qll_cli_site_answer(&site, status, &answer);
    }
    qll_store_close(site.store);
    return status;
}

typedef qll_status tell_function(const qll_telling *telling, const qll_site_row *row,
                                 const qll_record *records, size_t count, qll_arena *arena,
                                 qll_answer *answer);

/* A site and what stands of its records. */
static qll_status open_one(const qll_cli_line *line, qll_arena *arena, qll_cli_site *site,
                           qll_site_row *row, qll_records *records)
{
    qll_status status = qll_cli_site_open(line, QLL_STORE_READ, arena, site);
    status = status == QLL_OK ? qll_cli_site_find(site, line->words[0], row) : status;
    return status == QLL_OK ? qll_cli_site_records(site, row->site, records) : status;
}

static qll_status tell_one(const qll_cli_line *line, qll_arena *arena, tell_function *tell)
{
    qll_cli_site site;
    qll_site_row row;
    qll_records records = {0};
    qll_answer answer = {0};
    qll_status status = open_one(line, arena, &site, &row, &records);
    if (status == QLL_OK) {
        status = tell(&site.telling, &row, records.list, records.count, arena, &answer);
        status = qll_cli_site_answer(&site, status, &answer);
    }
    qll_store_close(site.store);
    return status;
}

qll_status qll_cli_site_show(const qll_cli_command *command, const qll_cli_line *line,
                             qll_arena *arena)
{
    (void)command;
    return tell_one(line, arena, qll_tell_site);
}

static qll_status make_trend(const qll_cli_line *line, qll_arena *arena)
{
    qll_cli_site site;
    qll_site_row row;
    qll_records records = {0};
    qll_cli_errand run = {
        .path = line->values[QLL_CLI_OUTPUT], .language = line->language, .arena = arena};
    qll_status status = open_one(line, arena, &site, &row, &records);
    if (status == QLL_OK) {
        status = qll_make_trend(&site.telling, &row, records.list, records.count,
                                qll_cli_sheets_form(run.path), arena, &run.made);
    }
    if (status == QLL_WRONG_USE) {
        status = qll_cli_site_answer(&site, status, &(qll_answer){0});
    }
    qll_store_close(site.store);
    return status == QLL_OK ? qll_cli_save(&run) : status;
}

qll_status qll_cli_site_trend(const qll_cli_command *command, const qll_cli_line *line,
                              qll_arena *arena)
{
    (void)command;
    const char *const read[] = {qll_cli_store_place(line, arena)};
    if (!qll_cli_may_make_sheets(line, read, 1, arena)) {
        return QLL_WRONG_USE;
    }
    return line->values[QLL_CLI_OUTPUT] == NULL ? tell_one(line, arena, qll_tell_trend)
                                                : make_trend(line, arena);
}
