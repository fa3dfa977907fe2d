#include "cli/stored.h"

#include "base/quote.h"
#include "cli/answer.h"
#include "host/host.h"
#include "host/identity.h"

#include <string.h>

/* Of a site's records; a page of a store is as long. */
#define QLL_RECORDS_PAGE ((size_t)1000)

const char *qll_cli_store_place(const qll_cli_line *line, qll_arena *arena)
{
    const char *place = line->values[QLL_CLI_STORE];
    place = place == NULL ? qll_host_setting("QUELL_STORE") : place;
    return place == NULL ? qll_host_data_file("records.db", arena) : place;
}

qll_status qll_cli_site_said(const qll_cli_site *site, qll_status status, const qll_said *why)
{
    if (status != QLL_OK && why->id != QLL_TEXT_NONE) {
        qll_cli_complain(site->arena, site->line->language, *why);
    }
    return status;
}

qll_status qll_cli_site_open(const qll_cli_line *line, qll_store_use use, qll_arena *arena,
                             qll_cli_site *site)
{
    const char *place = qll_cli_store_place(line, arena);
    const char *who = line->values[QLL_CLI_WHO];
    *site = (qll_cli_site){
        .line = line,
        .arena = arena,
        .moment = qll_host_moment(arena),
        .who = who == NULL ? qll_host_user(arena) : who,
    };
    if (place == NULL) {
        qll_cli_complain(arena, line->language, (qll_said){.id = QLL_TEXT_CLI_STORE_NOWHERE});
        return QLL_WRONG_USE;
    }
    if (site->moment == NULL) {
        return QLL_NO_MEMORY;
    }
    site->who = site->who == NULL ? "-" : site->who;
    const char *today = line->values[QLL_CLI_TODAY];
    site->telling = (qll_telling){
        .form = line->values[QLL_CLI_JSON] != NULL ? QLL_FORM_JSON : QLL_FORM_TEXT,
        .units = line->values[QLL_CLI_UNITS],
        .language = line->values[QLL_CLI_LANGUAGE],
        .today = today == NULL ? qll_arena_copy(arena, site->moment, 10) : today,
    };
    qll_said why = {.id = QLL_TEXT_NONE};
    const qll_status status = qll_store_open(place, use, arena, &site->store, &why);
    return qll_cli_site_said(site, status, &why);
}

static qll_status complain_several(const qll_cli_site *site, const char *text,
                                   const qll_store_sites *sites)
{
    const char **names = qll_arena_take(site->arena, sites->count, sizeof *names);
    if (names == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < sites->count; i++) {
        qll_writer name = qll_writer_new(site->arena);
        qll_write_visible(&name, qll_text_of(sites->list[i].name));
        qll_write_format(&name, " %s", sites->list[i].site);
        names[i] = qll_writer_text(&name).bytes;
    }
    qll_cli_complain(site->arena, site->line->language,
                     (qll_said){QLL_TEXT_CLI_SITE_SEVERAL,
                                {qll_as_quoted(qll_text_of(text)), qll_as_whole(sites->count),
                                 qll_as_words(site->arena, names, sites->count)}});
    return QLL_REFUSED;
}

qll_status qll_cli_site_find(qll_cli_site *site, const char *text, qll_site_row *row)
{
    qll_store_sites sites = {0};
    qll_said why = {.id = QLL_TEXT_NONE};
    const qll_status status = qll_store_called(site->store, text, site->arena, &sites, &why);
    if (status != QLL_OK) {
        return qll_cli_site_said(site, status, &why);
    }
    if (sites.count == 0) {
        qll_cli_complain(site->arena, site->line->language,
                         (qll_said){QLL_TEXT_CLI_SITE_UNKNOWN, {qll_as_quoted(qll_text_of(text))}});
        return QLL_REFUSED;
    }
    if (sites.count > 1) {
        return complain_several(site, text, &sites);
    }
    *row = sites.list[0];
    return QLL_OK;
}

/* Pages into one list. */
static qll_status append(qll_arena *arena, qll_records *all, const qll_records *page)
{
    qll_record *list = qll_arena_take(arena, all->count + page->count, sizeof *list);
    if (list == NULL) {
        return QLL_NO_MEMORY;
    }
    if (all->count > 0) {
        memcpy(list, all->list, all->count * sizeof *list);
    }
    if (page->count > 0) {
        memcpy(list + all->count, page->list, page->count * sizeof *list);
    }
    *all = (qll_records){list, all->count + page->count};
    return QLL_OK;
}

qll_status qll_cli_site_records(qll_cli_site *site, const char *id, qll_records *records)
{
    qll_said why = {.id = QLL_TEXT_NONE};
    qll_records page = {0};
    qll_status status = QLL_OK;
    *records = (qll_records){0};
    do {
        const qll_record *after = records->count == 0 ? NULL : &records->list[records->count - 1];
        status =
            qll_store_of_site(site->store, id, after, QLL_RECORDS_PAGE, site->arena, &page, &why);
        status = status == QLL_OK ? append(site->arena, records, &page) : status;
    } while (status == QLL_OK && page.count == QLL_RECORDS_PAGE);
    return qll_cli_site_said(site, status, &why);
}

qll_status qll_cli_site_rows(qll_cli_site *site, const char *words, qll_store_sites *rows)
{
    qll_said why = {.id = QLL_TEXT_NONE};
    const qll_status status =
        words == NULL ? qll_store_list(site->store, NULL, SIZE_MAX, site->arena, rows, &why)
                      : qll_store_search(site->store, words, SIZE_MAX, site->arena, rows, &why);
    return qll_cli_site_said(site, status, &why);
}

qll_status qll_cli_site_put(qll_cli_site *site, const qll_record *record)
{
    qll_said why = {.id = QLL_TEXT_NONE};
    qll_put put = {0};
    const qll_status status =
        qll_store_put(site->store, record, 1, QLL_PUT_BESIDE, site->arena, &put, &why);
    if (status == QLL_OK && put.outcome == QLL_PUT_REFUSED) {
        qll_cli_complain(
            site->arena, site->line->language,
            (qll_said){QLL_TEXT_CLI_RECORD_REFUSED, {qll_as_said(site->arena, put.why)}});
        return QLL_REFUSED;
    }
    return qll_cli_site_said(site, status, &why);
}

static qll_status print_problems(const qll_cli_site *site, const qll_answer *answer)
{
    qll_writer writer = qll_writer_new(site->arena);
    for (size_t i = 0; i < answer->problem_count; i++) {
        qll_problem_write(&writer, &answer->problems[i], answer->warning);
    }
    if (writer.size > 0) {
        qll_cli_complain_written(&writer, site->line->language);
    }
    return writer.no_memory ? QLL_NO_MEMORY : QLL_OK;
}

qll_status qll_cli_site_answer(const qll_cli_site *site, qll_status status,
                               const qll_answer *answer)
{
    if (status == QLL_WRONG_USE) {
        const char *today = site->telling.today;
        qll_cli_complain(site->arena, site->line->language,
                         (qll_said){QLL_TEXT_CLI_NO_DAY, {qll_as_quoted(qll_text_of(today))}});
    }
    if (status == QLL_OK && answer->bytes != NULL) {
        status = qll_cli_print_text((qll_text){answer->bytes, answer->size}, site->line->language,
                                    site->arena);
    }
    const qll_status printed = print_problems(site, answer);
    return status == QLL_OK ? printed : status;
}

qll_status qll_cli_site_hand_out(const qll_cli_site *site, const qll_answer *answer)
{
    const char *path = site->line->values[QLL_CLI_OUTPUT];
    const qll_text text = {answer->bytes, answer->size};
    const char *why = "";
    if (path == NULL) {
        return qll_cli_print_text(text, site->line->language, site->arena);
    }
    const qll_status status = qll_host_write(path, text, site->arena, &why);
    if (status == QLL_IO) {
        qll_cli_complain(site->arena, site->line->language,
                         qll_cli_of_file(site->arena, QLL_TEXT_CLI_CANNOT_WRITE, path, why));
    }
    return status;
}

qll_status qll_cli_site_id(const qll_cli_site *site, const char **id)
{
    *id = qll_host_uuid(site->arena);
    return *id == NULL ? QLL_NO_MEMORY : QLL_OK;
}
