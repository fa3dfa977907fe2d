/* What was worked out of sites, and what happened there. */
#include "store/inside.h"

qll_status qll_store_keep(qll_store *store, const qll_kept_answer *answers, size_t count,
                          qll_said *why)
{
    long long receipt = 0;
    qll_status status = qll_store_begin(store, &receipt, why);
    if (status != QLL_OK) {
        return status;
    }
    for (size_t i = 0; status == QLL_OK && i < count; i++) {
        status = QLL_RUN(store, KEEP_ANSWER, NULL, NULL, why, qll_sql_text(answers[i].site),
                         qll_sql_text(answers[i].digest), qll_sql_text(answers[i].day),
                         qll_sql_text(answers[i].answer));
    }
    return qll_store_end(store, status, why);
}

static qll_status take_answer(void *context, const qll_value_of *row)
{
    qll_growing *list = context;
    qll_kept_answer *answer = qll_growing_add(list);
    if (answer == NULL) {
        return QLL_NO_MEMORY;
    }
    *answer = (qll_kept_answer){
        .site = qll_column_text(&row[0], list->arena),
        .digest = qll_column_text(&row[1], list->arena),
        .day = qll_column_text(&row[2], list->arena),
        .answer = qll_column_text(&row[3], list->arena),
    };
    return answer->answer == NULL ? QLL_NO_MEMORY : QLL_OK;
}

qll_status qll_store_kept(qll_store *store, qll_arena *arena, qll_kept_answers *answers,
                          qll_said *why)
{
    qll_growing list = {.arena = arena, .size = sizeof(qll_kept_answer)};
    const size_t refused = qll_arena_refused(arena);
    const qll_status status = QLL_RUN_BARE(store, KEPT_ANSWERS, take_answer, &list, why);
    *answers = (qll_kept_answers){list.items, list.count};
    return status == QLL_OK && qll_arena_refused(arena) != refused ? QLL_NO_MEMORY : status;
}

static qll_status take_callback(void *context, const qll_value_of *row)
{
    qll_growing *list = context;
    qll_store_callback *callback = qll_growing_add(list);
    if (callback == NULL) {
        return QLL_NO_MEMORY;
    }
    *callback = (qll_store_callback){.site = qll_column_text(&row[0], list->arena),
                                     .day = qll_column_text(&row[1], list->arena)};
    return QLL_OK;
}

qll_status qll_store_called_back(qll_store *store, qll_arena *arena, qll_store_callbacks *callbacks,
                                 qll_said *why)
{
    qll_growing list = {.arena = arena, .size = sizeof(qll_store_callback)};
    const size_t refused = qll_arena_refused(arena);
    const qll_status status = QLL_RUN_BARE(store, CALLBACKS, take_callback, &list, why);
    *callbacks = (qll_store_callbacks){list.items, list.count};
    return status == QLL_OK && qll_arena_refused(arena) != refused ? QLL_NO_MEMORY : status;
}
