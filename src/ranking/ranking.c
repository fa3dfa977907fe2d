#include "ranking/ranking.h"

#include "base/digest.h"
#include "base/document.h"
#include "base/print.h"
#include "host/host.h"
#include "host/workers.h"
#include "ranking/stored_logs.h"

#include <stdatomic.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Of the records of a page, and of one check. */
#define QLL_PAGE       ((size_t)500)
#define QLL_CHECK_SIZE ((size_t)256 * 1024 * 1024)

/* Room for a kept answer: two numbers, a currency and a word. */
#define QLL_ANSWER_SIZE 120

/* A site's survey on its way to a chance. */
typedef struct job {
    const qll_site_row *row;
    qll_text survey;
    qll_stored_logs logs;
    char digest[2 * QLL_DIGEST_SIZE + 1];
    char answer[QLL_ANSWER_SIZE]; /* "0.34 9398 USD;chatter"; "" = none */
    bool is_kept;
    qll_status status;
    const char *problem; /* in the arena; NULL */
} job;

typedef struct ranking {
    const qll_ranking_plan *plan;
    qll_arena *arena;
    qll_said *why;
    qll_store_sites rows;
    qll_kept_answers kept;
    char catalogue[2 * QLL_DIGEST_SIZE + 1]; /* its digest */
    job *jobs;
    size_t count;
    size_t *todo; /* jobs that are not kept */
    size_t todo_count;
    pthread_mutex_t lock; /* of the arena and the store, while several check */
    atomic_size_t done_count;
    atomic_bool is_stopped;
} ranking;

/* ---- surveys ---- */

static int by_site(const void *one, const void *other)
{
    return strcmp(((const qll_site_row *)one)->site, ((const qll_site_row *)other)->site);
}

/* The place of the row of @p site among those in order of ids; the count where there is none. */
static size_t row_of(const qll_store_sites *rows, const char *site)
{
    const qll_site_row wanted = {.site = site};
    const qll_site_row *found =
        bsearch(&wanted, rows->list, rows->count, sizeof *rows->list, by_site);
    return found == NULL ? rows->count : (size_t)(found - rows->list);
}

/* The survey that was written last is the site's. */
static qll_status read_surveys(ranking *all, qll_record *latest)
{
    qll_records page = {0};
    long long after = 0;
    qll_status status = QLL_OK;
    do {
        status = qll_store_surveys(all->plan->store, after, QLL_PAGE, all->arena, &page, all->why);
        for (size_t i = 0; status == QLL_OK && i < page.count; i++) {
            const qll_record *record = &page.list[i];
            const size_t at =
                record->site == NULL ? all->rows.count : row_of(&all->rows, record->site);
            if (at < all->rows.count
                && (latest[at].id == NULL || qll_record_is_later(record, &latest[at]))) {
                latest[at] = *record;
            }
            after = record->receipt;
        }
    } while (status == QLL_OK && page.count == QLL_PAGE);
    return status;
}

/* ---- what is kept ---- */

static bool write_digest(qll_arena *arena, qll_text of, char digest[2 * QLL_DIGEST_SIZE + 1])
{
    qll_writer writer = qll_writer_new(arena);
    qll_digest_write(&writer, of, QLL_DIGEST_SIZE);
    (void)snprintf(digest, 2 * QLL_DIGEST_SIZE + 1, "%s", qll_writer_text(&writer).bytes);
    return !writer.no_memory;
}

/* All that the answer comes from: program, catalog, survey, its logs. */
static qll_status name_job(ranking *all, job *one)
{
    const qll_arena_mark mark = qll_arena_now(all->arena);
    qll_writer text = qll_writer_new(all->arena);
    qll_write_format(&text, "%s %s ", qll_version(), all->catalogue);
    qll_write_text(&text, one->survey);
    for (size_t i = 0; i < one->logs.count; i++) {
        qll_write_format(&text, " %s", one->logs.list[i].sha256);
    }
    const bool is_whole =
        write_digest(all->arena, qll_writer_text(&text), one->digest) && !text.no_memory;
    qll_arena_reset(all->arena, mark);
    return is_whole ? QLL_OK : QLL_NO_MEMORY;
}

/* Both are in the order of sites. */
static void take_kept(ranking *all)
{
    size_t at = 0;
    for (size_t i = 0; i < all->count; i++) {
        job *one = &all->jobs[i];
        while (at < all->kept.count && strcmp(all->kept.list[at].site, one->row->site) < 0) {
            at++;
        }
        for (size_t k = at; k < all->kept.count && !one->is_kept
                            && strcmp(all->kept.list[k].site, one->row->site) == 0;
             k++) {
            if (strcmp(all->kept.list[k].digest, one->digest) == 0) {
                (void)snprintf(one->answer, sizeof one->answer, "%s", all->kept.list[k].answer);
                one->is_kept = true;
            }
        }
        if (!one->is_kept) {
            all->todo[all->todo_count] = i;
            all->todo_count += 1;
        }
    }
}

/* ---- checking ---- */

static const qll_node *member(const qll_node *node, const char *key)
{
    return node == NULL || node->kind != QLL_NODE_OBJECT ? NULL : qll_node_find(node, key);
}

/* The word of what a callback would come from above all; nothing where check says of none. */
static qll_text greatest(const qll_node *mechanisms)
{
    qll_text word = {"", 0};
    double most = 0.0;
    const qll_node *first =
        mechanisms == NULL || mechanisms->kind != QLL_NODE_LIST ? NULL : mechanisms->first_child;
    for (const qll_node *one = first; one != NULL; one = one->next) {
        const qll_node *share = member(one, "share");
        const qll_node *named = member(one, "mechanism");
        if (share != NULL && named != NULL && share->number > most) {
            most = share->number;
            word = named->text;
        }
    }
    return word;
}

/* What check says of the cost, as it is kept. */
static void take_cost(const qll_answer *answer, qll_arena *arena, job *one)
{
    qll_problems problems = qll_problems_none(arena);
    qll_document document = {0};
    one->status =
        qll_document_read((qll_text){answer->bytes, answer->size}, "", arena, &document, &problems);
    const qll_node *cost = one->status == QLL_OK ? member(document.root, "cost") : NULL;
    const qll_node *share = member(cost, "callback_share");
    const qll_node *callback = member(cost, "callback");
    const qll_node *currency = member(cost, "currency");
    if (share != NULL && callback != NULL) {
        const bool has_currency = currency != NULL && currency->kind == QLL_NODE_TEXT;
        const qll_text because = greatest(member(cost, "mechanisms"));
        char of_share[32], of_callback[32];
        (void)qll_number_print(of_share, sizeof of_share, 'g', 17, share->number);
        (void)qll_number_print(of_callback, sizeof of_callback, 'g', 17, callback->number);
        (void)snprintf(one->answer, sizeof one->answer, "%s %s %.*s;%.*s", of_share, of_callback,
                       has_currency ? (int)currency->text.size : 0,
                       has_currency ? currency->text.bytes : "", (int)because.size, because.bytes);
    }
}

static void note_problem(ranking *all, const qll_answer *answer, job *one)
{
    const char *text = answer->problem_count > 0 ? answer->problems[0].text : "";
    (void)pthread_mutex_lock(&all->lock);
    one->problem = qll_arena_copy(all->arena, text, strlen(text));
    (void)pthread_mutex_unlock(&all->lock);
}

/* Tells whoever asked how far it is, and hears whether to go on. */
static void tell_progress(ranking *all)
{
    const qll_ranking_plan *plan = all->plan;
    const size_t done = atomic_fetch_add(&all->done_count, 1) + 1;
    if (plan->progress != NULL
        && !plan->progress((double)done / (double)all->todo_count, plan->progress_context)) {
        atomic_store(&all->is_stopped, true);
    }
}

/* One survey; memory of its own, as several run at once. */
static void check_one(void *context, size_t index)
{
    ranking *all = context;
    job *one = &all->jobs[all->todo[index]];
    if (atomic_load(&all->is_stopped)) {
        return;
    }
    qll_arena *arena = qll_arena_open(QLL_CHECK_SIZE);
    qll_answer answer = {0};
    const qll_attachment *files = arena == NULL ? NULL : qll_stored_logs_attach(&one->logs, arena);
    const qll_question question = {
        .verb = QLL_VERB_CHECK,
        .form = QLL_FORM_JSON,
        .language = all->plan->telling.language,
        .document = {one->row->name, one->survey.bytes, one->survey.size},
        .catalogue = all->plan->catalogue,
        .parts = qll_part_words[QLL_PART_CHANCE],
        .attachments = files,
        .attachment_count = one->logs.count,
    };
    one->status = files == NULL ? QLL_NO_MEMORY : qll_ask(&question, arena, &answer);
    if (one->status == QLL_OK) {
        take_cost(&answer, arena, one);
    } else {
        note_problem(all, &answer, one);
    }
    qll_arena_close(arena);
    tell_progress(all);
}

/* ---- the answer ---- */

static bool read_answer(const char *answer, qll_arena *arena, qll_ranked_site *site)
{
    qll_text rest = qll_text_of(answer);
    const size_t share = qll_text_number(rest, &site->callback_share);
    rest = (qll_text){rest.bytes + share, rest.size - share};
    rest = qll_text_trimmed(rest);
    const size_t callback = qll_text_number(rest, &site->callback);
    rest = qll_text_trimmed((qll_text){rest.bytes + callback, rest.size - callback});
    const char *end = memchr(rest.bytes, ';', rest.size);
    const size_t size = end == NULL ? rest.size : (size_t)(end - rest.bytes);
    site->currency = size == 0 ? NULL : qll_text_closed((qll_text){rest.bytes, size}, arena);
    site->mechanism = end == NULL || end[1] == '\0' ? NULL : end + 1; /* kept answers are closed */
    site->expected = site->callback_share * site->callback;
    return share > 0 && callback > 0;
}

/* "2025-11-30" of "2026-11-30": days and moments of ISO 8601 stand in order as texts. */
static const char *year_before(const char *day, qll_arena *arena)
{
    char *before = qll_arena_copy(arena, day, strlen(day));
    for (size_t i = 4; before != NULL && i > 0; i--) {
        const bool borrows = before[i - 1] == '0';
        before[i - 1] = borrows ? '9' : (char)(before[i - 1] - 1);
        if (!borrows) {
            break;
        }
    }
    return before;
}

static const char *year_after(const char *day, qll_arena *arena)
{
    char *after = qll_arena_copy(arena, day, strlen(day));
    for (size_t i = 4; after != NULL && i > 0; i--) {
        const bool carries = after[i - 1] == '9';
        after[i - 1] = carries ? '0' : (char)(after[i - 1] + 1);
        if (!carries) {
            break;
        }
    }
    return after;
}

/* The last chance of each site that is a year old, and whether a callback came within that year. */
static qll_status find_promises(ranking *all, qll_ranking *told)
{
    qll_arena *arena = all->arena;
    qll_store_callbacks callbacks = {0};
    const qll_status status = qll_store_called_back(all->plan->store, arena, &callbacks, all->why);
    if (status != QLL_OK) {
        return status;
    }
    qll_kept_promise *promises = qll_arena_take(arena, all->kept.count, sizeof *promises);
    const char *year_ago = year_before(all->plan->telling.today, arena);
    size_t at = 0;
    for (size_t i = 0; promises != NULL && year_ago != NULL && i < all->kept.count; i++) {
        const qll_kept_answer *answer = &all->kept.list[i];
        const bool is_last = i + 1 == all->kept.count
                             || strcmp(all->kept.list[i + 1].site, answer->site) != 0
                             || strcmp(all->kept.list[i + 1].day, year_ago) > 0;
        qll_ranked_site read = {0};
        if (!is_last || strcmp(answer->day, year_ago) > 0
            || !read_answer(answer->answer, arena, &read)) {
            continue;
        }
        while (at < callbacks.count && strcmp(callbacks.list[at].site, answer->site) < 0) {
            at++;
        }
        const char *until = year_after(answer->day, arena);
        bool called_back = false;
        for (size_t k = at; until != NULL && k < callbacks.count
                            && strcmp(callbacks.list[k].site, answer->site) == 0;
             k++) {
            called_back = called_back
                          || (strcmp(callbacks.list[k].day, answer->day) > 0
                              && strcmp(callbacks.list[k].day, until) <= 0);
        }
        promises[told->promise_count] = (qll_kept_promise){read.callback_share, called_back};
        told->promise_count += 1;
    }
    told->promises = promises;
    return promises == NULL || year_ago == NULL ? QLL_NO_MEMORY : QLL_OK;
}

static qll_status keep_new(ranking *all)
{
    qll_kept_answer *answers = qll_arena_take(all->arena, all->todo_count, sizeof *answers);
    size_t count = 0;
    if (answers == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < all->todo_count; i++) {
        const job *one = &all->jobs[all->todo[i]];
        if (one->status == QLL_OK && one->answer[0] != '\0') {
            answers[count] = (qll_kept_answer){one->row->site, one->digest,
                                               all->plan->telling.today, one->answer};
            count += 1;
        }
    }
    return count == 0 ? QLL_OK : qll_store_keep(all->plan->store, answers, count, all->why);
}

static qll_status list_unchecked(ranking *all, qll_ranking_answer *made)
{
    made->unchecked = qll_arena_take(all->arena, all->todo_count, sizeof *made->unchecked);
    for (size_t i = 0; made->unchecked != NULL && i < all->todo_count; i++) {
        const job *one = &all->jobs[all->todo[i]];
        if (one->status == QLL_NO_MEMORY) {
            return QLL_NO_MEMORY;
        }
        if (one->problem != NULL) {
            made->unchecked[made->unchecked_count] = (qll_unchecked){one->row->name, one->problem};
            made->unchecked_count += 1;
        }
    }
    return made->unchecked == NULL ? QLL_NO_MEMORY : QLL_OK;
}

static qll_status tell(ranking *all, qll_answer *answer)
{
    qll_arena *arena = all->arena;
    qll_ranking told = {.without_station = all->rows.count - all->count};
    qll_ranked_site *sites = qll_arena_take(arena, all->count, sizeof *sites);
    if (sites == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < all->count; i++) {
        qll_ranked_site *one = &sites[told.site_count];
        one->row = all->jobs[i].row;
        told.site_count += read_answer(all->jobs[i].answer, arena, one) ? 1 : 0;
    }
    told.sites = sites;
    qll_status status = find_promises(all, &told);
    if (status == QLL_OK) {
        status = qll_tell_ranking(&all->plan->telling, &told, arena, answer);
    }
    return status;
}

/* A survey without a station has nothing to check. */
static bool has_station(qll_text survey, qll_arena *arena)
{
    const qll_arena_mark mark = qll_arena_now(arena);
    qll_problems problems = qll_problems_none(arena);
    qll_document document = {0};
    const bool has = qll_document_read(survey, "", arena, &document, &problems) == QLL_OK
                     && member(document.root, "existing") != NULL;
    qll_arena_reset(arena, mark);
    return has;
}

static qll_status find_jobs(ranking *all)
{
    qll_arena *arena = all->arena;
    if (all->rows.count > 1) {
        qsort(all->rows.list, all->rows.count, sizeof *all->rows.list, by_site);
    }
    qll_record *latest = qll_arena_take(arena, all->rows.count, sizeof *latest);
    all->jobs = qll_arena_take(arena, all->rows.count, sizeof *all->jobs);
    all->todo = qll_arena_take(arena, all->rows.count, sizeof *all->todo);
    const qll_text catalogue = {all->plan->catalogue.bytes, all->plan->catalogue.size};
    if (latest == NULL || all->jobs == NULL || all->todo == NULL
        || !write_digest(arena, catalogue, all->catalogue)) {
        return QLL_NO_MEMORY;
    }
    qll_status status = read_surveys(all, latest);
    for (size_t i = 0; status == QLL_OK && i < all->rows.count; i++) {
        if (latest[i].id != NULL && has_station(latest[i].body, arena)) {
            job *one = &all->jobs[all->count];
            one->row = &all->rows.list[i];
            one->survey = latest[i].body;
            all->count += 1;
            status = qll_stored_logs_find(all->plan->store, &all->lock, &latest[i], arena,
                                          &one->logs, all->why);
            status = status == QLL_OK ? name_job(all, one) : status;
        }
    }
    return status;
}

static qll_status rank(ranking *all, qll_ranking_answer *made)
{
    qll_status status =
        qll_store_list(all->plan->store, NULL, SIZE_MAX, all->arena, &all->rows, all->why);
    status = status == QLL_OK ? find_jobs(all) : status;
    status = status == QLL_OK ? qll_store_kept(all->plan->store, all->arena, &all->kept, all->why)
                              : status;
    if (status != QLL_OK) {
        return status;
    }
    take_kept(all);
    qll_host_share_out(all->todo_count, check_one, all);
    if (atomic_load(&all->is_stopped) || qll_host_is_stopped()) {
        return QLL_STOPPED;
    }
    status = list_unchecked(all, made);
    status = status == QLL_OK ? keep_new(all) : status;
    return status == QLL_OK ? tell(all, &made->answer) : status;
}

qll_status qll_rank(const qll_ranking_plan *plan, qll_arena *arena, qll_ranking_answer *made,
                    qll_said *why)
{
    ranking all = {.plan = plan, .arena = arena, .why = why};
    *made = (qll_ranking_answer){0};
    *why = (qll_said){.id = QLL_TEXT_NONE};
    (void)pthread_mutex_init(&all.lock, NULL);
    const qll_status status = rank(&all, made);
    (void)pthread_mutex_destroy(&all.lock);
    return status;
}
