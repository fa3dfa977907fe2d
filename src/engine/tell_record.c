/* One record, in and out. */
#include "documents/read_record.h"
#include "documents/write_records.h"
#include "engine/tell.h"

#include <string.h>

static qll_status hand_over(qll_problems *problems, qll_status status, const char *language,
                            qll_answer *answer)
{
    size_t place = 0;
    while (language != NULL && place < QLL_LANGUAGE_COUNT
           && strcmp(language, qll_language_words[place]) != 0) {
        place++;
    }
    const qll_wording wording = {
        .language = place < QLL_LANGUAGE_COUNT ? (qll_language)place : (qll_language)0};
    qll_problem *list = qll_arena_take(problems->arena, problems->kept_count, sizeof *list);
    if (list == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < problems->kept_count; i++) {
        list[i] = qll_wording_problem(problems->arena, &wording, &problems->kept[i]);
    }
    *answer = (qll_answer){
        .problems = list,
        .problem_count = problems->kept_count,
        .problem_total = problems->count,
        .warning = qll_say(wording.language, QLL_SAYS_WARNING),
    };
    return status;
}

qll_status qll_record_read(const qll_input *input, const char *language, qll_arena *arena,
                           qll_record *record, qll_answer *answer)
{
    const size_t refused = qll_arena_refused(arena);
    qll_problems problems = qll_problems_none(arena);
    qll_document document;
    qll_knowledge knowledge;
    *record = (qll_record){0};
    *answer = (qll_answer){0};
    qll_status status = qll_document_read((qll_text){input->bytes, input->size},
                                          input->name == NULL ? "" : input->name, arena, &document,
                                          &problems);
    status = status == QLL_OK ? qll_knowledge_read(arena, &knowledge) : status;
    if (status == QLL_OK) {
        status = qll_record_of(&document, &knowledge, arena, record, &problems);
    }
    if (status == QLL_OK || status == QLL_REFUSED) {
        status = hand_over(&problems, status, language, answer);
    }
    return qll_arena_refused(arena) != refused ? QLL_NO_MEMORY : status;
}

qll_status qll_record_write(const qll_record *record, qll_arena *arena, qll_text *json)
{
    const size_t refused = qll_arena_refused(arena);
    qll_writer writer = qll_writer_new(arena);
    qll_record_json(&writer, record, false);
    *json = qll_writer_text(&writer);
    return qll_arena_refused(arena) != refused ? QLL_NO_MEMORY : QLL_OK;
}
