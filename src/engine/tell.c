#include "engine/tell.h"

#include "base/words.h"
#include "records/day.h"

#include <string.h>

/* The place of @p word among @p words; 0 where none is given. */
static bool choose(const char *word, const char *const *words, size_t count, size_t *found)
{
    *found = word == NULL ? 0 : qll_words_place(qll_text_of(word), words, count);
    return *found < count;
}

qll_status qll_tell_begin(const qll_telling *telling, qll_arena *arena, qll_tell *tell,
                          qll_answer *answer)
{
    static const char *const systems[] = {"us", "si"};
    size_t language = 0;
    size_t units = 0;
    *answer = (qll_answer){0};
    *tell = (qll_tell){
        .arena = arena,
        .refused_count = qll_arena_refused(arena),
        .writer = qll_writer_new(arena),
    };
    if (!choose(telling->language, qll_language_words, QLL_LANGUAGE_COUNT, &language)
        || !choose(telling->units, systems, 2, &units)
        || (telling->form != QLL_FORM_TEXT && telling->form != QLL_FORM_JSON)
        || telling->today == NULL || !qll_day_read(telling->today, &tell->today)) {
        return QLL_WRONG_USE;
    }
    tell->wording = (qll_wording){
        .units = units == 1 ? QLL_UNITS_SI : QLL_UNITS_US,
        .language = (qll_language)language,
    };
    answer->warning = qll_say(tell->wording.language, QLL_SAYS_WARNING);
    return QLL_OK;
}

qll_status qll_tell_end(qll_tell *tell, qll_answer *answer)
{
    const qll_text text = qll_writer_text(&tell->writer);
    if (qll_arena_refused(tell->arena) != tell->refused_count) {
        *answer = (qll_answer){0};
        return QLL_NO_MEMORY;
    }
    answer->bytes = text.bytes;
    answer->size = text.size;
    return QLL_OK;
}

qll_due_site qll_due_of(const qll_site_row *row, int today)
{
    qll_due_site site = {.row = row, .state = QLL_DUE_NO_PLAN};
    int last = 0;
    if (row->every_months <= 0) {
        return site;
    }
    if (row->service_day != NULL && qll_day_read(row->service_day, &last)) {
        site.due = qll_day_after_months(last, row->every_months);
    } else if (row->plan_day == NULL || !qll_day_read(row->plan_day, &site.due)) {
        return site;
    }
    site.state = site.due < today                    ? QLL_DUE_OVERDUE
                 : site.due - today <= QLL_SOON_DAYS ? QLL_DUE_SOON
                                                     : QLL_DUE_LATER;
    return site;
}
