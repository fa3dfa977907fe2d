/* Sites: lists, one with its records, how its figures move, what is due. */
#include "server/desk.h"
#include "server/handlers.h"
#include "server/reply.h"

#include <stdlib.h>
#include <string.h>

/* Sites on a page, and records of one site that are told. */
static const long long sites_most = 200;
static const size_t records_most = 10000;

/* The row of the site called @p id; false after a reply that says that there is none. */
static bool find_site(qll_exchange *exchange, const char *id, qll_site_row *row)
{
    qll_store_sites found = {0};
    qll_said why;
    const qll_status status =
        qll_store_called(exchange->server->at_desk, id, exchange->arena, &found, &why);
    if (!qll_desk_is_well(exchange, status, &why)) {
        return false;
    }
    for (size_t i = 0; i < found.count; i++) {
        if (strcmp(found.list[i].site, id) == 0) {
            *row = found.list[i];
            return true;
        }
    }
    return !qll_exchange_refuse(exchange, QLL_REFUSAL_NO_RECORD);
}

static void reply_sites(qll_exchange *exchange, const qll_store_sites *sites)
{
    const qll_telling telling = qll_desk_telling(exchange);
    qll_answer answer = {0};
    const qll_status status =
        qll_tell_sites(&telling, sites->list, sites->count, exchange->arena, &answer);
    qll_desk_reply(exchange, status, &answer);
}

void qll_desk_list_sites(qll_exchange *exchange)
{
    const char *after = qll_http_argument_of(&exchange->request, "after");
    const char *words = qll_http_argument_of(&exchange->request, "words");
    qll_store *store = exchange->server->at_desk;
    qll_store_sites found = {0};
    qll_site_row row = {0};
    qll_said why;
    long long most = 0;
    if (!qll_desk_number(exchange, "most", sites_most, &most)
        || (after != NULL && !find_site(exchange, after, &row))) {
        return;
    }
    most = most < 1 || most > sites_most ? sites_most : most;
    const qll_status status =
        words != NULL ? qll_store_search(store, words, (size_t)most, exchange->arena, &found, &why)
                      : qll_store_list(store, after == NULL ? NULL : &row, (size_t)most,
                                       exchange->arena, &found, &why);
    if (qll_desk_is_well(exchange, status, &why)) {
        reply_sites(exchange, &found);
    }
}

void qll_desk_list_conflicts(qll_exchange *exchange)
{
    qll_store_sites found = {0};
    qll_said why;
    const qll_status status =
        qll_store_conflicts(exchange->server->at_desk, exchange->arena, &found, &why);
    if (qll_desk_is_well(exchange, status, &why)) {
        reply_sites(exchange, &found);
    }
}

void qll_desk_list_due(qll_exchange *exchange)
{
    qll_store_sites found = {0};
    qll_said why;
    qll_answer answer = {0};
    long long most = 0;
    if (!qll_desk_number(exchange, "most", 0, &most)) {
        return;
    }
    qll_status status = qll_store_planned(exchange->server->at_desk, exchange->arena, &found, &why);
    if (!qll_desk_is_well(exchange, status, &why)) {
        return;
    }
    qll_telling telling = qll_desk_telling(exchange);
    telling.most = (size_t)most;
    status = qll_tell_due(&telling, found.list, found.count, exchange->arena, &answer);
    qll_desk_reply(exchange, status, &answer);
}

/* A site and what stands of it; false after a reply. */
static bool read_site(qll_exchange *exchange, qll_site_row *row, qll_records *records)
{
    qll_said why;
    *records = (qll_records){0};
    if (!find_site(exchange, exchange->rest, row)) {
        return false;
    }
    const qll_status status = qll_store_of_site(exchange->server->at_desk, row->site, NULL,
                                                records_most, exchange->arena, records, &why);
    return qll_desk_is_well(exchange, status, &why);
}

/* Tells of the records of one site. */
typedef qll_status telling_of_site(const qll_telling *telling, const qll_site_row *site,
                                   const qll_record *records, size_t count, qll_arena *arena,
                                   qll_answer *answer);

static void show(qll_exchange *exchange, telling_of_site *tell, qll_form form)
{
    qll_site_row row = {0};
    qll_records records = {0};
    qll_answer answer = {0};
    if (read_site(exchange, &row, &records)) {
        qll_telling telling = qll_desk_telling(exchange);
        telling.form = form;
        const qll_status status =
            tell(&telling, &row, records.list, records.count, exchange->arena, &answer);
        qll_desk_reply(exchange, status, &answer);
        if (exchange->reply.status == 200) {
            exchange->reply.type = qll_reply_type(form);
        }
    }
}

void qll_desk_show_site(qll_exchange *exchange)
{
    show(exchange, qll_tell_site, QLL_FORM_JSON);
}

/* As JSON, or as a page with its drawings. */
void qll_desk_show_trend(qll_exchange *exchange)
{
    const char *form = qll_http_argument_of(&exchange->request, "form");
    if (form == NULL || strcmp(form, "json") == 0) {
        show(exchange, qll_tell_trend, QLL_FORM_JSON);
    } else if (strcmp(form, "html") == 0) {
        show(exchange, qll_tell_trend, QLL_FORM_HTML);
    } else {
        (void)qll_exchange_refuse_with(exchange, &(qll_refusing){.refusal = QLL_REFUSAL_ARGUMENT,
                                                                 .arguments = {qll_as_is("form")}});
    }
}
