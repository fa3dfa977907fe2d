/* A station that was chosen, kept for the next questions that hang on the same: what is asked first without what the choice
 * hangs on or a run of the water, then with them, is searched for once. As with scenarios, what it points at is read once more into
 * an arena of its own. */
#include "engine/hangs_on.h"
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
    qll_write_format(&key, "%d %d %zu %d\n", (int)asked->language, (int)asked->units,
                     (size_t)asked->seed, (int)qll_has_part(asked->skipped, QLL_PART_ALTERNATIVES));
    for (size_t i = 0; i < question->attachment_count; i++) {
        const char *path = question->attachments[i].path;
        qll_write_format(&key, "%s\n%s\n", question->attachments[i].name, path == NULL ? "" : path);
    }
    return qll_writer_text(&key);
}

/* What a station is chosen for, read once more into the arena of @p of. */
static qll_status prepare(qll_asked *of, qll_kept *kept, const qll_document *document,
                          qll_designed *designed)
{
    qll_arena *arena = of->arena;
    const qll_text source = {qll_arena_copy(arena, document->source.bytes, document->source.size),
                             document->source.size};
    const char *name = qll_arena_copy(arena, document->name, strlen(document->name));
    if (source.bytes == NULL || name == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_question *question = qll_arena_take(arena, 1, sizeof *question);
    if (question == NULL) {
        return QLL_NO_MEMORY;
    }
    *question = *of->question;
    question->document = (qll_input){name, source.bytes, source.size};
    of->question = question;
    of->kept = kept; /* demands and catalogue are there */
    const qll_status status = qll_design_prepare(of, designed);
    of->kept = NULL;
    return status;
}

/* @p asked, in the keeper's arena. */
static qll_asked within(const qll_asked *asked, qll_arena *arena)
{
    qll_asked of = *asked;
    of.arena = arena;
    of.problems = qll_problems_none(arena);
    of.assumed = qll_assumed_none(arena);
    of.kept = NULL;
    return of;
}

static void hand_back(qll_asked *asked, const qll_asked *of)
{
    asked->told = of->told;
    asked->is_stopped = of->is_stopped;
    asked->phase_from = of->phase_from;
    asked->phase_to = of->phase_to;
    asked->left_out = of->left_out;
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
    qll_asked of = within(asked, arena);
    qll_status status = prepare(&of, asked->kept, document, &place->designed);
    if (status == QLL_OK) {
        status = qll_design_choose(&of, &place->designed);
    }
    hand_back(asked, &of);
    return qll_arena_refused(arena) > 0 ? QLL_NO_MEMORY : status;
}

/* What the station at @p place hangs on, found later: in an arena of its own, for others may have taken the room that was left
 * then; and prepared for anew, for the demands that it was chosen for may be kept no more. */
static qll_status add_hangs(qll_asked *asked, const qll_document *document, qll_kept_design *place)
{
    place->hangs_arena = qll_keep_open_within(asked->kept);
    if (place->hangs_arena == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_asked of = within(asked, place->hangs_arena);
    qll_designed designed = {0};
    qll_status status = prepare(&of, asked->kept, document, &designed);
    if (status == QLL_OK) {
        designed.design = place->designed.design;
        status = qll_find_hangs(&of, &designed);
        place->designed.design = designed.design;
    }
    hand_back(asked, &of);
    return qll_arena_refused(place->hangs_arena) > 0 ? QLL_NO_MEMORY : status;
}

/* Leaves at @p place all that is asked of the choice. */
static qll_status make_what_lacks(qll_asked *asked, const qll_document *document, qll_text key,
                                  qll_kept_design *place)
{
    const bool hangs = qll_has_part(asked->skipped, QLL_PART_HANGS_ON);
    const bool is_there = place->arena != NULL && qll_text_equal(place->key, key);
    qll_status status = QLL_OK;
    if (!is_there) {
        qll_drop_design(place);
        status = make(asked, document, key, place);
    } else if (hangs && !place->has_hangs) {
        status = add_hangs(asked, document, place);
    }
    place->has_hangs = hangs || (is_there && place->has_hangs);
    return status;
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
    const qll_status status = make_what_lacks(asked, &designed->prepared.document, key, place);
    if (status != QLL_OK) {
        place->has_no_room = status == QLL_NO_MEMORY;
        qll_drop_design(place);
        return status == QLL_STOPPED ? status : QLL_OK;
    }
    if (place->designed.design.stopped) {
        place->key.size = 0; /* the best of what was tried by then is this question's alone */
    }
    *design = &place->designed.design;
    return QLL_OK;
}
