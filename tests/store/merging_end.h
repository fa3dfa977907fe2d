/* The end of a run, when everybody was connected: what is in the store, and on each phone, against what was made. */
#ifndef QUELL_TESTS_MERGING_END_H
#define QUELL_TESTS_MERGING_END_H

#include "merging_world.h"

static inline void check_heads(world *w, const bool *all, const char *document, const char *site,
                               size_t *conflicts)
{
    size_t wanted = 0;
    size_t wanted_here = 0;
    qll_records heads = {0};
    if (qll_store_heads(w->scene.store, document, w->scene.arena, &heads, &w->scene.why)
        != QLL_OK) {
        fail(w, "heads could not be read");
        return;
    }
    for (unsigned i = 0; i < w->count; i++) {
        if (same_id(w->made[i].document, document) && stands(w, all, i)) {
            wanted += 1;
            wanted_here += same_id(w->made[i].site, site) ? 1 : 0;
        }
    }
    for (size_t i = 0; i < heads.count; i++) {
        if (!stands(w, all, number_of(&heads.list[i]))) {
            fail(w, "a version is shown that does not stand");
        }
        if (i > 0 && !is_later(&heads.list[i - 1], &heads.list[i])) {
            fail(w, "versions are shown in another order");
        }
    }
    if (heads.count != wanted) {
        fail(w, "not every version that stands is shown");
    }
    *conflicts += wanted > 1 && wanted_here > 0 ? 1 : 0;
}

static inline void check_site(world *w, const bool *all, unsigned site)
{
    const char *id = scene_id(w->scene.arena, FIRST_SITE + site);
    size_t conflicts = 0;
    size_t told = 0;
    qll_records shown = {0};
    qll_store_sites rows = {0};
    check_heads(w, all, id, id, &conflicts);
    check_heads(w, all, scene_id(w->scene.arena, FIRST_SITE + 50), id, &conflicts);
    check_heads(w, all, scene_id(w->scene.arena, FIRST_SITE + 51), id, &conflicts);
    if (qll_store_conflicts(w->scene.store, w->scene.arena, &rows, &w->scene.why) != QLL_OK
        || qll_store_of_site(w->scene.store, id, NULL, RECORDS, w->scene.arena, &shown,
                             &w->scene.why)
               != QLL_OK) {
        fail(w, "a site could not be read");
        return;
    }
    for (size_t i = 0; i < rows.count; i++) {
        told += same_id(rows.list[i].site, id) ? rows.list[i].conflicts : 0;
    }
    if (told != conflicts) {
        fail(w, "a conflict is not shown");
    }
    size_t wanted = 0;
    for (unsigned i = 0; i < w->count; i++) {
        wanted += same_id(w->made[i].site, id) && stands(w, all, i) ? 1 : 0;
    }
    if (shown.count != wanted) {
        fail(w, "a site shows other records than stand");
    }
}

static inline void check_end(world *w)
{
    bool all[RECORDS];
    for (unsigned i = 0; i < RECORDS; i++) {
        all[i] = i < w->count;
    }
    long long receipt = 0;
    if (qll_store_receipt(w->scene.store, &receipt, &w->scene.why) != QLL_OK
        || receipt != (long long)w->count) {
        fail(w, "the store has another number of records than were made");
    }
    for (unsigned p = 0; p < PHONES; p++) {
        if (memcmp(w->phones[p].has, all, sizeof all) != 0) {
            fail(w, "a phone ends with another set");
        }
    }
    check_site(w, all, 0);
    check_site(w, all, 1);
    if (qll_store_check(w->scene.store, w->scene.arena, &w->scene.why) != QLL_OK) {
        fail(w, "the store does not hold together");
    }
}

#endif
