/* Which station to see to first, and how earlier chances did. */
#include "documents/write_records.h"
#include "engine/tell.h"
#include "report/records_sheet.h"

#include <stdlib.h>
#include <string.h>

static int by_expected(const void *one, const void *other)
{
    const qll_ranked_site *a = one;
    const qll_ranked_site *b = other;
    if (a->expected > b->expected || a->expected < b->expected) {
        return a->expected > b->expected ? -1 : 1;
    }
    const int names = strcmp(a->row->name_key, b->row->name_key);
    return names != 0 ? names : strcmp(a->row->site, b->row->site);
}

static qll_status find_ranking(const qll_ranking *ranking, qll_arena *arena,
                               qll_recorded_ranking *found)
{
    qll_ranked_site *sites = qll_arena_take(arena, ranking->site_count, sizeof *sites);
    qll_watched *watched = qll_arena_take(arena, ranking->promise_count, sizeof *watched);
    if (sites == NULL || watched == NULL) {
        return QLL_NO_MEMORY;
    }
    if (ranking->site_count > 0) {
        memcpy(sites, ranking->sites, ranking->site_count * sizeof *sites);
        qsort(sites, ranking->site_count, sizeof *sites, by_expected);
    }
    for (size_t i = 0; i < ranking->promise_count; i++) {
        watched[i] =
            (qll_watched){ranking->promises[i].callback_share, ranking->promises[i].called_back};
    }
    found->sites = sites;
    found->site_count = ranking->site_count;
    found->without_station = ranking->without_station;
    return qll_calibrate(watched, ranking->promise_count, arena, &found->calibration);
}

qll_status qll_tell_ranking(const qll_telling *telling, const qll_ranking *ranking,
                            qll_arena *arena, qll_answer *answer)
{
    qll_tell tell;
    qll_recorded_ranking found = {0};
    qll_status status = qll_tell_begin(telling, arena, &tell, answer);
    status = status == QLL_OK ? find_ranking(ranking, arena, &found) : status;
    if (status != QLL_OK) {
        return status;
    }
    found.wording = tell.wording;
    if (telling->form == QLL_FORM_JSON) {
        qll_json json = qll_json_new(&tell.writer);
        qll_ranking_write(&json, &found);
        qll_write(&tell.writer, "\n");
    } else {
        qll_ranking_print(&tell.writer, &found);
    }
    return qll_tell_end(&tell, answer);
}
