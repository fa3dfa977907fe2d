/* What answers each route; false where the reply takes time. */
#ifndef QUELL_SERVER_HANDLERS_H
#define QUELL_SERVER_HANDLERS_H

#include "server/exchange.h"

bool qll_handle_question(qll_exchange *exchange);
bool qll_handle_rank(qll_exchange *exchange);
bool qll_handle_run(qll_exchange *exchange);
bool qll_handle_run_stop(qll_exchange *exchange);
bool qll_handle_session(qll_exchange *exchange);
bool qll_handle_login(qll_exchange *exchange);
bool qll_handle_logout(qll_exchange *exchange);
bool qll_handle_health(qll_exchange *exchange);
bool qll_handle_openapi(qll_exchange *exchange);
/* Has the route's at_desk() done by the thread that has the records; those that have one: */
bool qll_handle_records(qll_exchange *exchange);
void qll_desk_put_record(qll_exchange *exchange);
void qll_desk_get_record(qll_exchange *exchange);
void qll_desk_get_document(qll_exchange *exchange);
void qll_desk_list_changes(qll_exchange *exchange);
void qll_desk_list_sites(qll_exchange *exchange);
void qll_desk_show_site(qll_exchange *exchange);
void qll_desk_show_trend(qll_exchange *exchange);
void qll_desk_list_due(qll_exchange *exchange);
void qll_desk_list_conflicts(qll_exchange *exchange);
void qll_desk_put_part(qll_exchange *exchange);
void qll_desk_get_part(qll_exchange *exchange);
void qll_desk_get_held(qll_exchange *exchange);
bool qll_handle_page(qll_exchange *exchange);

#endif
