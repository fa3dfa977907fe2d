/* Sites: all of them, those that are due, and one. */
#include "documents/write_records.h"
#include "engine/tell.h"
#include "report/records_sheet.h"

#include <stdlib.h>
#include <string.h>

/* NULL without memory. */
static qll_due_site *find_sites(const qll_tell *tell, const char *today, const qll_site_row *rows,
                                size_t count, qll_recorded *found)
{
    qll_due_site *sites = qll_arena_take(tell->arena, count, sizeof *sites);
    if (sites == NULL) {
        return NULL;
    }
    *found = (qll_recorded){.wording = tell->wording, .today = today, .sites = sites};
    for (size_t i = 0; i < count; i++) {
        sites[i] = qll_due_of(&rows[i], tell->today);
        found->states[sites[i].state] += 1;
    }
    found->site_count = count;
    return sites;
}

static int by_due(const void *one, const void *other)
{
    const qll_due_site *a = one;
    const qll_due_site *b = other;
    if (a->due != b->due) {
        return a->due < b->due ? -1 : 1;
    }
    const int names = strcmp(a->row->name_key, b->row->name_key);
    return names != 0 ? names : strcmp(a->row->site, b->row->site);
}

/* Those with a plan, the first due first. */
static qll_status find_due(const qll_tell *tell, const char *today, const qll_site_row *rows,
                           size_t count, qll_recorded *found)
{
    qll_due_site *sites = find_sites(tell, today, rows, count, found);
    size_t planned = 0;
    for (size_t i = 0; sites != NULL && i < count; i++) {
        if (sites[i].state != QLL_DUE_NO_PLAN) {
            sites[planned] = sites[i];
            planned += 1;
        }
    }
    if (sites == NULL) {
        return QLL_NO_MEMORY;
    }
    qsort(sites, planned, sizeof *sites, by_due);
    found->site_count = planned;
    return QLL_OK;
}

static void write_sites(qll_tell *tell, const qll_telling *telling, qll_recorded *found,
                        const char *verb, bool is_due)
{
    if (telling->most > 0 && telling->most < found->site_count) {
        found->site_count = telling->most;
    }
    if (telling->form == QLL_FORM_JSON) {
        qll_json json = qll_json_new(&tell->writer);
        qll_sites_write(&json, verb, found);
        qll_write(&tell->writer, "\n");
    } else {
        qll_sites_print(&tell->writer, found, is_due);
    }
}

qll_status qll_tell_sites(const qll_telling *telling, const qll_site_row *rows, size_t count,
                          qll_arena *arena, qll_answer *answer)
{
    qll_tell tell;
    qll_recorded found;
    qll_status status = qll_tell_begin(telling, arena, &tell, answer);
    if (status == QLL_OK && find_sites(&tell, telling->today, rows, count, &found) == NULL) {
        status = QLL_NO_MEMORY;
    }
    if (status != QLL_OK) {
        return status;
    }
    write_sites(&tell, telling, &found, "sites", false);
    return qll_tell_end(&tell, answer);
}

qll_status qll_tell_due(const qll_telling *telling, const qll_site_row *rows, size_t count,
                        qll_arena *arena, qll_answer *answer)
{
    qll_tell tell;
    qll_recorded found;
    qll_status status = qll_tell_begin(telling, arena, &tell, answer);
    status = status == QLL_OK ? find_due(&tell, telling->today, rows, count, &found) : status;
    if (status != QLL_OK) {
        return status;
    }
    write_sites(&tell, telling, &found, "due", true);
    return qll_tell_end(&tell, answer);
}

qll_status qll_tell_calendar(const qll_telling *telling, const qll_site_row *rows, size_t count,
                             const char *created, qll_arena *arena, qll_answer *answer)
{
    qll_tell tell;
    qll_recorded found;
    qll_status status = qll_tell_begin(telling, arena, &tell, answer);
    status = status == QLL_OK ? find_due(&tell, telling->today, rows, count, &found) : status;
    if (status != QLL_OK) {
        return status;
    }
    qll_calendar_write(&tell.writer, &found, created);
    return qll_tell_end(&tell, answer);
}

qll_status qll_tell_site(const qll_telling *telling, const qll_site_row *row,
                         const qll_record *records, size_t count, qll_arena *arena,
                         qll_answer *answer)
{
    qll_tell tell;
    const qll_status status = qll_tell_begin(telling, arena, &tell, answer);
    if (status != QLL_OK) {
        return status;
    }
    const qll_recorded_site found = {tell.wording, qll_due_of(row, tell.today), records, count};
    if (telling->form == QLL_FORM_JSON) {
        qll_json json = qll_json_new(&tell.writer);
        qll_site_write(&json, &found);
        qll_write(&tell.writer, "\n");
    } else {
        qll_site_print(&tell.writer, &found);
    }
    return qll_tell_end(&tell, answer);
}
