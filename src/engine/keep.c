/* What did not change between questions. A demand and what it hangs on live in an arena of their own, where the survey
 * is read once more: so nothing kept points into the memory of a question that has ended. */
#include "engine/keep.h"

#include <string.h>

/* Scenarios that are kept at once: more than a page has open at a time (our assumption). */
#define QLL_SCENARIOS_KEPT 24

struct qll_kept {
    qll_arena *arena; /* the keeper itself */
    size_t ceiling_size;
    qll_arena *tables_arena; /* NULL until they are read */
    qll_tables tables;
    qll_kept_catalogue catalogue;                    /* arena NULL: none */
    qll_kept_scenario scenarios[QLL_SCENARIOS_KEPT]; /* arena NULL: free */
    qll_kept_design design;                          /* points into the catalogue */
    size_t question;                                 /* counts the questions */
};

qll_kept *qll_kept_open(size_t ceiling_size)
{
    qll_arena *arena = qll_arena_open(sizeof(qll_kept) + (size_t)64 * 1024);
    qll_kept *kept = arena == NULL ? NULL : qll_arena_take(arena, 1, sizeof *kept);
    if (kept == NULL) {
        qll_arena_close(arena);
        return NULL;
    }
    kept->arena = arena;
    kept->ceiling_size = ceiling_size;
    return kept;
}

static void drop_scenario(qll_kept_scenario *scenario)
{
    qll_arena_close(scenario->arena);
    *scenario = (qll_kept_scenario){0};
}

void qll_drop_design(qll_kept_design *design)
{
    qll_arena_close(design->hangs_arena);
    qll_arena_close(design->arena);
    *design = (qll_kept_design){.has_no_room = design->has_no_room};
}

void qll_drop_catalogue(qll_kept *kept)
{
    qll_drop_design(&kept->design);
    kept->design.has_no_room = false;
    qll_arena_close(kept->catalogue.arena);
    kept->catalogue = (qll_kept_catalogue){0};
}

void qll_kept_forget(qll_kept *kept)
{
    for (size_t i = 0; i < QLL_SCENARIOS_KEPT; i++) {
        drop_scenario(&kept->scenarios[i]);
    }
    qll_drop_catalogue(kept);
}

void qll_kept_close(qll_kept *kept)
{
    if (kept == NULL) {
        return;
    }
    qll_kept_forget(kept);
    qll_arena_close(kept->tables_arena);
    qll_arena_close(kept->arena);
}

static size_t size_of(const qll_arena *arena)
{
    return arena == NULL ? 0 : qll_arena_size(arena);
}

size_t qll_kept_size(const qll_kept *kept)
{
    size_t size = size_of(kept->arena) + size_of(kept->tables_arena)
                  + size_of(kept->catalogue.arena) + size_of(kept->design.arena)
                  + size_of(kept->design.hangs_arena);
    for (size_t i = 0; i < QLL_SCENARIOS_KEPT; i++) {
        size += size_of(kept->scenarios[i].arena);
    }
    return size;
}

qll_arena *qll_keep_open_within(const qll_kept *kept)
{
    const size_t held = qll_kept_size(kept);
    return held < kept->ceiling_size ? qll_arena_open(kept->ceiling_size - held) : NULL;
}

const qll_tables *qll_keep_tables(qll_kept *kept)
{
    if (kept == NULL) {
        return NULL;
    }
    if (kept->tables_arena == NULL) {
        kept->tables_arena = qll_keep_open_within(kept);
        if (kept->tables_arena != NULL
            && qll_tables_read(kept->tables_arena, &kept->tables) != QLL_OK) {
            qll_arena_close(kept->tables_arena);
            kept->tables_arena = NULL;
        }
    }
    return kept->tables_arena == NULL ? NULL : &kept->tables;
}

/* ---- the catalogue ---- */

static qll_text copy(qll_arena *arena, const char *bytes, size_t size)
{
    const char *copied = qll_arena_copy(arena, bytes, size);
    return (qll_text){copied, copied == NULL ? 0 : size};
}

qll_kept_catalogue *qll_keep_catalogue(qll_kept *kept, const qll_input *input, bool *found)
{
    *found = false;
    if (kept == NULL) {
        return NULL;
    }
    qll_kept_catalogue *catalogue = &kept->catalogue;
    const char *name = input->name == NULL ? "" : input->name;
    *found = catalogue->arena != NULL && qll_text_is(catalogue->name, name)
             && qll_text_equal(catalogue->bytes, (qll_text){input->bytes, input->size});
    if (*found) {
        return catalogue;
    }
    qll_drop_catalogue(kept);
    qll_arena *arena = qll_keep_open_within(kept);
    if (arena == NULL) {
        return NULL;
    }
    *catalogue = (qll_kept_catalogue){.arena = arena,
                                      .name = copy(arena, name, strlen(name)),
                                      .bytes = copy(arena, input->bytes, input->size),
                                      .assumed = qll_assumed_none(arena),
                                      .problems = qll_problems_none(arena)};
    if (catalogue->name.bytes == NULL || catalogue->bytes.bytes == NULL) {
        qll_drop_catalogue(kept);
        return NULL;
    }
    return catalogue;
}

bool qll_keep_has_catalogue(const qll_kept *kept, const qll_catalogue *catalogue)
{
    return kept->catalogue.arena != NULL && catalogue->valves == kept->catalogue.catalogue.valves;
}

qll_kept_design *qll_keep_design_place(qll_kept *kept)
{
    return &kept->design;
}

/* ---- scenarios ---- */

static const qll_node *node_of(const qll_prepared *prepared, size_t index)
{
    const qll_node *list = qll_node_find(prepared->document.root, "scenarios");
    const qll_node *node = list == NULL ? NULL : list->first_child;
    while (node != NULL && node->index < index) {
        node = node->next;
    }
    return node;
}

static const char *path_of(const qll_question *question, const char *name)
{
    for (size_t i = 0; name != NULL && i < question->attachment_count; i++) {
        if (strcmp(question->attachments[i].name, name) == 0) {
            return question->attachments[i].path;
        }
    }
    return NULL;
}

/* All that a scenario's demand hangs on: itself, its place (it is the default name), the survey's units and
 * atmosphere, by which it is read, its log's file, and the seed. */
static qll_text key_of(const qll_asked *asked, const qll_prepared *prepared, size_t index)
{
    qll_writer key = qll_writer_new(asked->arena);
    qll_json json = qll_json_new(&key);
    const qll_node *node = node_of(prepared, index);
    const qll_node *units = qll_node_find(prepared->document.root, "units");
    const char *path = path_of(asked->question, prepared->survey.logs[index].name);
    if (node == NULL) {
        return (qll_text){NULL, 0};
    }
    qll_json_node(&json, node);
    qll_write_format(&key, "\n%zu %zu ", index, (size_t)asked->seed);
    qll_write_number(&key, prepared->survey.site.barometric_pa);
    qll_write(&key, " ");
    qll_write_text(&key, units == NULL ? (qll_text){"", 0} : units->text);
    qll_write(&key, "\n");
    qll_write(&key, path == NULL ? "" : path);
    return qll_writer_text(&key);
}

static qll_kept_scenario *find(qll_kept *kept, qll_text key)
{
    for (size_t i = 0; i < QLL_SCENARIOS_KEPT; i++) {
        if (kept->scenarios[i].arena != NULL && qll_text_equal(kept->scenarios[i].key, key)) {
            return &kept->scenarios[i];
        }
    }
    return NULL;
}

/* A free place, else that of the one used longest ago, unless this question uses it. */
static qll_kept_scenario *free_place(qll_kept *kept)
{
    qll_kept_scenario *oldest = &kept->scenarios[0];
    for (size_t i = 0; i < QLL_SCENARIOS_KEPT; i++) {
        qll_kept_scenario *one = &kept->scenarios[i];
        if (one->arena == NULL) {
            return one;
        }
        oldest = one->last_used < oldest->last_used ? one : oldest;
    }
    if (oldest->last_used == kept->question) {
        return NULL;
    }
    drop_scenario(oldest);
    return oldest;
}

/* What is worked out of scenario @p index once more, in the arena of @p scenario. */
static qll_status work_out(qll_asked *of, const qll_prepared *prepared, size_t index,
                           qll_kept_scenario *scenario)
{
    qll_arena *arena = scenario->arena;
    const qll_document *document = &prepared->document;
    const qll_text source = copy(arena, document->source.bytes, document->source.size);
    const qll_text name = copy(arena, document->name, strlen(document->name));
    qll_scenario *own = qll_arena_take(arena, 1, sizeof *own);
    qll_problems *log_problems = qll_arena_take(arena, 1, sizeof *log_problems);
    qll_document read;
    qll_survey survey;
    if (source.bytes == NULL || name.bytes == NULL || own == NULL || log_problems == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_status status = qll_document_read(source, name.bytes, arena, &read, &of->problems);
    if (status == QLL_OK) {
        status =
            qll_survey_read(&read, &prepared->tables, arena, &survey, &of->assumed, &of->problems);
    }
    if (status != QLL_OK) {
        return status;
    }
    *own = survey.scenarios[index];
    *log_problems = qll_problems_none(arena);
    if (survey.logs[index].name != NULL) {
        status = qll_read_scenario_log(of, &survey.logs[index], log_problems, &scenario->result);
        scenario->metered =
            status != QLL_OK ? NULL : qll_metered_of(of, survey.logs[index].name, scenario->result);
        own->metered = scenario->metered;
        if (status == QLL_OK && own->metered == NULL) {
            status = QLL_NO_MEMORY;
        }
    }
    scenario->log_problems = log_problems;
    return status == QLL_OK ? qll_demand_of(own, arena, &scenario->demand) : status;
}

/* The new scenario, or NULL and in @p status QLL_STOPPED, or QLL_OK where it cannot be kept: it is worked out in the
 * question's own memory then, which says why. */
static qll_kept_scenario *make(qll_asked *asked, const qll_prepared *prepared, size_t index,
                               qll_text key, qll_status *status)
{
    qll_kept *kept = asked->kept;
    qll_kept_scenario *scenario = free_place(kept);
    qll_arena *arena = scenario == NULL ? NULL : qll_keep_open_within(kept);
    if (arena == NULL) {
        return NULL;
    }
    *scenario = (qll_kept_scenario){.arena = arena, .key = copy(arena, key.bytes, key.size)};
    qll_asked of = *asked;
    of.arena = arena;
    of.problems = qll_problems_none(arena);
    of.assumed = qll_assumed_none(arena);
    of.kept = NULL;
    const qll_status made = work_out(&of, prepared, index, scenario);
    asked->told = of.told;
    asked->is_stopped = of.is_stopped;
    if (made == QLL_OK && qll_arena_refused(arena) == 0) {
        return scenario;
    }
    drop_scenario(scenario);
    *status = made == QLL_STOPPED ? made : QLL_OK;
    return NULL;
}

qll_status qll_keep_scenarios(qll_asked *asked, qll_prepared *prepared)
{
    const size_t count = prepared->survey.scenario_count;
    /* NOLINTNEXTLINE(bugprone-sizeof-expression): pointers are meant */
    prepared->kept = qll_arena_take(asked->arena, count, sizeof *prepared->kept);
    if (prepared->kept == NULL) {
        return QLL_NO_MEMORY;
    }
    /* A survey within a case is a part of another text; what is read of it is not its own. */
    const bool may_keep =
        asked->kept != NULL && asked->survey == NULL && qll_keep_tables(asked->kept) != NULL;
    qll_status status = QLL_OK;
    for (size_t i = 0; i < count && may_keep && status == QLL_OK; i++) {
        const qll_text key = key_of(asked, prepared, i);
        qll_kept_scenario *scenario = key.bytes == NULL ? NULL : find(asked->kept, key);
        if (scenario == NULL && key.bytes != NULL) {
            scenario = make(asked, prepared, i, key, &status);
        }
        if (scenario != NULL) {
            scenario->last_used = asked->kept->question;
        }
        prepared->kept[i] = scenario;
    }
    return status;
}

void qll_keep_begin(qll_kept *kept)
{
    kept->question += 1;
}
