/* quell site set, settle: new versions of what is kept of a site. */
#include "base/count.h"
#include "base/document.h"
#include "base/quote.h"
#include "base/words.h"
#include "cli/answer.h"
#include "cli/commands.h"
#include "cli/say.h"
#include "cli/stored.h"

#include <string.h>

/* What can be set of a site, and whether it is changed member by member. */
static const char *const kind_words[] = {"site", "plan", "survey", "station"};
static const qll_record_kind kinds[] = {QLL_RECORD_SITE, QLL_RECORD_PLAN, QLL_RECORD_SURVEY,
                                        QLL_RECORD_STATION};

static bool has_members(qll_record_kind kind)
{
    return kind == QLL_RECORD_SITE || kind == QLL_RECORD_PLAN;
}

/* A site, and the versions of its documents that stand. */
typedef struct setting {
    qll_cli_site site;
    qll_site_row row;
    qll_records standing;
    const char *path; /* of the file that the new version comes from; NULL = of none */
} setting;

static bool is_beside(const qll_record *one, const qll_record *other)
{
    return one != other && one->document != NULL && other->document != NULL
           && strcmp(one->document, other->document) == 0;
}

static bool is_in_conflict(const setting *of, const qll_record *version)
{
    for (size_t i = 0; i < of->standing.count; i++) {
        if (is_beside(&of->standing.list[i], version)) {
            return true;
        }
    }
    return false;
}

static qll_status complain(const setting *of, qll_said said)
{
    qll_cli_complain(of->site.arena, of->site.line->language, said);
    return QLL_REFUSED;
}

static bool has_record(const qll_records *records, const char *id)
{
    for (size_t i = 0; i < records->count; i++) {
        if (strcmp(records->list[i].id, id) == 0) {
            return true;
        }
    }
    return false;
}

/* Adds what stands at other sites beside a version of this one: a plan may have been moved by one of two. */
static qll_status add_others(setting *of)
{
    const size_t here = of->standing.count;
    qll_status status = QLL_OK;
    for (size_t i = 0; status == QLL_OK && i < here; i++) {
        qll_records heads = {0};
        qll_said why = {.id = QLL_TEXT_NONE};
        const char *document = of->standing.list[i].document;
        if (document != NULL) {
            status = qll_store_heads(of->site.store, document, of->site.arena, &heads, &why);
            status = qll_cli_site_said(&of->site, status, &why);
        }
        for (size_t h = 0; status == QLL_OK && h < heads.count; h++) {
            if (has_record(&of->standing, heads.list[h].id)) {
                continue;
            }
            const size_t count = of->standing.count;
            qll_record *list = qll_arena_take(of->site.arena, count + 1, sizeof *list);
            if (list == NULL) {
                return QLL_NO_MEMORY;
            }
            memcpy(list, of->standing.list, count * sizeof *list);
            list[count] = heads.list[h];
            of->standing = (qll_records){list, count + 1};
        }
    }
    return status;
}

static qll_status open_setting(const qll_cli_line *line, qll_arena *arena, setting *of)
{
    qll_status status = qll_cli_site_open(line, QLL_STORE_WRITE, arena, &of->site);
    status = status == QLL_OK ? qll_cli_site_find(&of->site, line->words[0], &of->row) : status;
    status =
        status == QLL_OK ? qll_cli_site_records(&of->site, of->row.site, &of->standing) : status;
    return status == QLL_OK ? add_others(of) : status;
}

/* ---- a new version ---- */

/* Keeps a version of @p draft, which comes from @p onto and all that stand beside it; NULL: the first of its document. */
static qll_status keep_version(setting *of, qll_record_draft draft, const qll_record *onto)
{
    const char *parents[QLL_RECORD_PARENTS];
    qll_record record;
    qll_answer answer = {0};
    qll_cli_site *site = &of->site;
    qll_status status = qll_cli_site_id(site, &draft.id);
    draft.site = of->row.site;
    draft.who = site->who;
    draft.written_at = site->moment;
    draft.parents = parents;
    if (onto != NULL) {
        draft.document = onto->document;
        parents[0] = onto->id;
        draft.parent_count = 1;
    } else if (draft.kind == QLL_RECORD_SITE) {
        draft.document = of->row.site;
    } else if (status == QLL_OK) {
        status = qll_cli_site_id(site, &draft.document);
    }
    for (size_t i = 0; onto != NULL && i < of->standing.count; i++) {
        if (is_beside(&of->standing.list[i], onto) && draft.parent_count < QLL_RECORD_PARENTS) {
            parents[draft.parent_count] = of->standing.list[i].id;
            draft.parent_count += 1;
        }
    }
    if (status == QLL_OK) {
        status = qll_record_make(&draft, site->line->values[QLL_CLI_LANGUAGE], site->arena, &record,
                                 &answer);
    }
    if (status == QLL_REFUSED) {
        return qll_cli_site_answer(site, status, &answer);
    }
    status = status == QLL_OK ? qll_cli_site_put(site, &record) : status;
    if (status == QLL_OK && record.kind == QLL_RECORD_SURVEY && of->path != NULL) {
        status = qll_cli_site_keep_logs(site, of->path, &record);
    }
    if (status != QLL_OK) {
        return status;
    }
    qll_writer text = qll_writer_new(site->arena);
    qll_cli_say(&text, site->line->language,
                (qll_said){QLL_TEXT_CLI_VERSION_KEPT,
                           {qll_as_word(qll_record_kind_words[draft.kind]),
                            qll_as_quoted(qll_text_of(of->row.name)), qll_as_is(draft.id)}});
    qll_write(&text, "\n");
    return qll_cli_print(&text, site->line->language);
}

static qll_input body_of(const qll_record *version)
{
    return (qll_input){"", version->body.bytes, version->body.size};
}

/* The words of the line from @p first on: a file, and members. */
static qll_status read_words(setting *of, size_t first, qll_record_draft *draft)
{
    const qll_cli_line *line = of->site.line;
    const char **arguments = qll_arena_take(of->site.arena, line->word_count, sizeof *arguments);
    qll_status status = arguments == NULL ? QLL_NO_MEMORY : QLL_OK;
    for (size_t i = first; status == QLL_OK && i < line->word_count; i++) {
        /* All that has an equals sign is a member. */
        if (strchr(line->words[i], '=') == NULL) {
            of->path = line->words[i];
            status = qll_cli_read(of->path, line->language, of->site.arena, &draft->whole);
        } else {
            arguments[draft->argument_count] = line->words[i];
            draft->argument_count += 1;
        }
    }
    draft->arguments = arguments;
    if (status == QLL_OK && !has_members(draft->kind) && draft->argument_count > 0) {
        return complain(of, (qll_said){QLL_TEXT_CLI_SET_WHOLE,
                                       {qll_as_word(qll_record_kind_words[draft->kind])}});
    }
    return status;
}

/* ---- set ---- */

/* The version of @p kind that lists show; NULL where there is none. */
static const qll_record *shown(const setting *of, qll_record_kind kind)
{
    const qll_record *found = NULL;
    for (size_t i = 0; i < of->standing.count; i++) {
        const qll_record *one = &of->standing.list[i];
        if (one->kind == kind && (found == NULL || qll_record_is_later(one, found))) {
            found = one;
        }
    }
    return found;
}

static qll_status set(setting *of)
{
    const qll_cli_line *line = of->site.line;
    const size_t which =
        qll_words_place(qll_text_of(line->words[1]), kind_words, QLL_COUNT(kind_words));
    if (which == QLL_COUNT(kind_words)) {
        return complain(
            of, (qll_said){QLL_TEXT_CLI_KIND_UNKNOWN,
                           {qll_as_quoted(qll_text_of(line->words[1])),
                            qll_as_words(of->site.arena, kind_words, QLL_COUNT(kind_words))}});
    }
    qll_record_draft draft = {.kind = kinds[which]};
    const qll_record *onto = shown(of, draft.kind);
    if (onto != NULL && is_in_conflict(of, onto)) {
        return complain(of, (qll_said){QLL_TEXT_CLI_IN_CONFLICT,
                                       {qll_as_word(kind_words[which]),
                                        qll_as_quoted(qll_text_of(of->row.name))}});
    }
    if (onto != NULL && has_members(draft.kind)) {
        draft.whole = body_of(onto);
    }
    const qll_status status = read_words(of, 2, &draft);
    return status == QLL_OK ? keep_version(of, draft, onto) : status;
}

static qll_status change(const qll_cli_line *line, qll_arena *arena, qll_status make(setting *of))
{
    setting of = {0};
    qll_status status = open_setting(line, arena, &of);
    status = status == QLL_OK ? make(&of) : status;
    qll_store_close(of.site.store);
    return status;
}

qll_status qll_cli_site_set(const qll_cli_command *command, const qll_cli_line *line,
                            qll_arena *arena)
{
    (void)command;
    return change(line, arena, set);
}

/* ---- settle ---- */

static const qll_node *read_body(const qll_record *version, qll_arena *arena)
{
    qll_document *document = qll_arena_take(arena, 1, sizeof *document);
    qll_problems problems = qll_problems_none(arena);
    const bool is_read =
        document != NULL
        && qll_document_read(version->body, "", arena, document, &problems) == QLL_OK;
    return is_read ? document->root : NULL;
}

static qll_text json_of(const qll_node *node, qll_arena *arena)
{
    qll_writer text = qll_writer_new(arena);
    qll_json json = qll_json_new(&text);
    if (node != NULL) {
        qll_json_node(&json, node);
    }
    return qll_writer_text(&text);
}

/* Whether @p member is the same in all versions that stand beside @p version. */
static bool is_shared(const setting *of, const qll_record *version, const char *member,
                      qll_text value)
{
    for (size_t i = 0; i < of->standing.count; i++) {
        const qll_record *other = &of->standing.list[i];
        const qll_node *body = is_beside(other, version) ? read_body(other, of->site.arena) : NULL;
        if (body != NULL
            && !qll_text_equal(json_of(qll_node_find(body, member), of->site.arena), value)) {
            return false;
        }
    }
    return true;
}

static void show_version(const setting *of, const qll_record *version, qll_writer *text)
{
    qll_arena *arena = of->site.arena;
    const qll_node *body = read_body(version, arena);
    qll_write(text, "  ");
    qll_cli_say(text, of->site.line->language,
                (qll_said){QLL_TEXT_CLI_SETTLE_VERSION,
                           {qll_as_is(version->id), qll_as_quoted(qll_text_of(version->who)),
                            qll_as_is(version->written_at)}});
    qll_write(text, "\n");
    for (const qll_node *child = body == NULL ? NULL : body->first_child; child != NULL;
         child = child->next) {
        const char *key = qll_text_closed(child->key, arena);
        const qll_text value = json_of(child, arena);
        if (key != NULL && !is_shared(of, version, key, value)) {
            qll_write_format(text, "    %s: ", key);
            qll_write_visible(text, value);
            qll_write(text, "\n");
        }
    }
}

/* Each document in conflict: its versions, and in what they differ. */
static qll_status show_all(const setting *of)
{
    qll_writer text = qll_writer_new(of->site.arena);
    for (size_t i = 0; i < of->standing.count; i++) {
        const qll_record *first = &of->standing.list[i];
        bool is_first = is_in_conflict(of, first);
        for (size_t k = 0; k < i; k++) {
            is_first = is_first && !is_beside(&of->standing.list[k], first);
        }
        if (!is_first) {
            continue;
        }
        qll_cli_say(&text, of->site.line->language,
                    (qll_said){QLL_TEXT_CLI_SETTLE_HEAD,
                               {qll_as_word(qll_record_kind_words[first->kind])}});
        qll_write(&text, "\n");
        show_version(of, first, &text);
        for (size_t k = i + 1; k < of->standing.count; k++) {
            if (is_beside(&of->standing.list[k], first)) {
                show_version(of, &of->standing.list[k], &text);
            }
        }
    }
    if (text.size == 0) {
        return complain(
            of, (qll_said){QLL_TEXT_CLI_NO_CONFLICT, {qll_as_quoted(qll_text_of(of->row.name))}});
    }
    return qll_cli_print(&text, of->site.line->language);
}

/* The version in conflict whose id begins so; NULL where it is none, or several. */
static const qll_record *find_version(const setting *of, const char *begins)
{
    const qll_record *found = NULL;
    for (size_t i = 0; i < of->standing.count; i++) {
        const qll_record *one = &of->standing.list[i];
        if (strncmp(one->id, begins, strlen(begins)) == 0 && is_in_conflict(of, one)) {
            if (found != NULL) {
                return NULL;
            }
            found = one;
        }
    }
    return found;
}

static qll_status settle(setting *of)
{
    static const char take[] = "take=";
    const qll_cli_line *line = of->site.line;
    if (line->word_count == 1) {
        return show_all(of);
    }
    const bool takes = strncmp(line->words[1], take, strlen(take)) == 0;
    const char *begins = takes ? line->words[1] + strlen(take) : line->words[1];
    const qll_record *version = takes ? find_version(of, begins) : NULL;
    if (version == NULL) {
        return complain(of,
                        (qll_said){QLL_TEXT_CLI_SETTLE_NONE, {qll_as_quoted(qll_text_of(begins))}});
    }
    qll_record_draft draft = {.kind = version->kind, .whole = body_of(version)};
    const qll_status status = read_words(of, 2, &draft);
    return status == QLL_OK ? keep_version(of, draft, version) : status;
}

qll_status qll_cli_site_settle(const qll_cli_command *command, const qll_cli_line *line,
                               qll_arena *arena)
{
    (void)command;
    return change(line, arena, settle);
}
