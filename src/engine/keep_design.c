/* A station that was chosen, kept for the next questions that hang on the same: what is asked first without a run of the
 * water, then with one, is searched for once. As with scenarios, what it points at is read once more into an arena of its own. */
#include "engine/keep.h"

#include <string.h>

/* All that the choice hangs on: the survey but for whose it is, language and units by which its scenarios are named, the
 * files of its logs, the seed, and what of the choice is asked for. The catalogue is the one that is kept. */
static qll_text key_of(const qll_asked *asked, const qll_designed *designed)
{
    const qll_question *question = asked->question;
    const qll_node *root = designed->prepared.document.root;
    qll_writer key = qll_writer_new(asked->arena);
    qll_json json = qll_json_new(&key);
    for (const qll_node *node = root->first_child; node != NULL; node = node->next) {
        if (!qll_text_is(node->key, "project")) {
            qll_write_text(&key, node->key);
            qll_write(&key, " ");
            qll_json_node(&json, node);
            qll_write(&key, "\n");
        }
    }
    const unsigned of_choice =
        QLL_PART_BIT(QLL_PART_HANGS_ON) | QLL_PART_BIT(QLL_PART_ALTERNATIVES);
    qll_write_format(&key, "%d %d %zu %u\n", (int)asked->language, (int)asked->units,
                     (size_t)asked->seed, asked->skipped & of_choice);
    for (size_t i = 0; i < question->attachment_count; i++) {
        const char *path = question->attachments[i].path;
        qll_write_format(&key, "%s\n%s\n", question->attachments[i].name, path == NULL ? "" : path);
    }
    return qll_writer_text(&key);
}

static qll_status work_out(qll_asked *of, qll_kept *kept, const qll_document *document,
                           qll_designed *designed)
{
    qll_arena *arena = of->arena;
    const qll_text source = {qll_arena_copy(arena, document->source.bytes, document->source.size),
                             document->source.size};
    const char *name = qll_arena_copy(arena, document->name, strlen(document->name));
    if (source.bytes == NULL || name == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_question question = *of->question;
    question.document = (qll_input){name, source.bytes, source.size};
    of->question = &question;
    of->kept = kept; /* demands and catalogue are there */
    qll_status status = qll_design_prepare(of, designed);
    of->kept = NULL;
    return status == QLL_OK ? qll_design_choose(of, designed) : status;
}

/* Works it out in an arena of the keeper's; QLL_NO_MEMORY where there it has no room. */
static qll_status make(qll_asked *asked, const qll_document *document, qll_text key,
                       qll_kept_design *place)
{
    qll_arena *arena = qll_keep_open_within(asked->kept);
    if (arena == NULL) {
        return QLL_NO_MEMORY;
    }
    place->arena = arena;
    place->key = (qll_text){qll_arena_copy(arena, key.bytes, key.size), key.size};
    qll_asked of = *asked;
    of.arena = arena;
    of.problems = qll_problems_none(arena);
    of.assumed = qll_assumed_none(arena);
    const qll_status status = work_out(&of, asked->kept, document, &place->designed);
    asked->told = of.told;
    asked->is_stopped = of.is_stopped;
    asked->phase_from = of.phase_from;
    asked->phase_to = of.phase_to;
    return qll_arena_refused(arena) > 0 ? QLL_NO_MEMORY : status;
}

qll_status qll_keep_design(qll_asked *asked, const qll_designed *designed,
                           const qll_design **design)
{
    qll_kept *kept = asked->kept;
    *design = NULL;
    if (kept == NULL || asked->survey != NULL
        || !qll_keep_has_catalogue(kept, &designed->catalogue)) {
        return QLL_OK;
    }
    qll_kept_design *place = qll_keep_design_place(kept);
    const qll_text key = key_of(asked, designed);
    if (key.bytes == NULL || place->has_no_room) {
        return QLL_OK;
    }
    if (place->arena == NULL || !qll_text_equal(place->key, key)) {
        qll_drop_design(place);
        const qll_status status = make(asked, &designed->prepared.document, key, place);
        if (status != QLL_OK) {
            place->has_no_room = status == QLL_NO_MEMORY;
            qll_drop_design(place);
            return status == QLL_STOPPED ? status : QLL_OK;
        }
        if (place->designed.design.stopped) {
            place->key.size = 0; /* the best of what was tried by then is this question's alone */
        }
    }
    *design = &place->designed.design;
    return QLL_OK;
}
