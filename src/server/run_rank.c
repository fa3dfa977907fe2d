#include "server/run_rank.h"

#include "base/said.h"
#include "host/identity.h"

qll_status qll_run_rank(const char *place, qll_ranking_plan plan, qll_arena *arena,
                        qll_answer *answer, qll_said *why)
{
    qll_ranking_answer made = {0};
    const char *moment = qll_host_moment(arena);
    *why = (qll_said){.id = QLL_TEXT_NONE};
    if (plan.telling.today == NULL && moment != NULL) {
        plan.telling.today = qll_arena_copy(arena, moment, 10);
    }
    if (plan.telling.today == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_status status = qll_store_open(place, QLL_STORE_WRITE, arena, &plan.store, why);
    if (status == QLL_OK) {
        status = qll_rank(&plan, arena, &made, why);
        *answer = made.answer;
    }
    qll_store_close(plan.store);
    return status;
}
