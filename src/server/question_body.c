#include "server/question_body.h"

#include "base/count.h"
#include "base/words.h"
#include "documents/field.h"
#include "host/host.h"
#include "host/unpack.h"
#include "server/secret.h"
#include "server/verbs.h"
#include "wording/says_reason.h"

#include <string.h>

/* As many as a survey may name logs, and some (our assumption). */
#define QLL_FILES_MOST 64

static const qll_field input_fields[] = {
    {.key = "name", .value = QLL_VALUE_TEXT, .means = QLL_TEXT_QUESTION_INPUT_NAME},
    {.key = "text", .value = QLL_VALUE_TEXT, .means = QLL_TEXT_QUESTION_INPUT_TEXT},
    {.key = "base64", .value = QLL_VALUE_TEXT, .means = QLL_TEXT_QUESTION_INPUT_BASE64},
};

static const qll_field_group input_group = {.name = QLL_TEXT_QUESTION_INPUT,
                                            .path = "",
                                            .fields = input_fields,
                                            .count = QLL_COUNT(input_fields)};

typedef struct pass {
    qll_reader reader;
    const qll_node *root;
    unsigned asked;
    qll_question_body *read;
} pass;

/* ---- bytes ---- */

/* A text member as it was sent, blanks and all; no bytes where it is not there or no text. */
static qll_text raw_text(pass *of, const qll_node *node, const char *key)
{
    const qll_node *found = qll_node_find(node, key);
    if (found == NULL) {
        return (qll_text){0};
    }
    if (found->kind != QLL_NODE_TEXT) {
        (void)qll_reader_wrong_kind(&of->reader, found, QLL_SAYS(EXPECT_TEXT));
        return (qll_text){0};
    }
    return (qll_text){found->text.bytes == NULL ? "" : found->text.bytes, found->text.size};
}

static bool refuse(pass *of, const qll_node *node, qll_code code, const qll_said *says)
{
    return qll_reader_refuse(&of->reader, qll_at(node), code, says, NULL);
}

/* A document at @p node; false after a problem. */
static bool read_input(pass *of, const qll_node *node, qll_question_document which,
                       qll_input *input)
{
    const qll_object object = qll_object_open(&of->reader, node, &input_group);
    if (object.broken) {
        return false;
    }
    const char *name = qll_object_text(&object, "name");
    const qll_text text = raw_text(of, node, "text");
    const qll_text packed = raw_text(of, node, "base64");
    qll_text bytes = text;
    if (of->reader.refusal_count > 0) {
        return false;
    }
    if (text.bytes == NULL && packed.bytes == NULL) {
        return refuse(of, node, QLL_CODE_MISSING_KEY, QLL_SAYS(QUESTION_NO_BYTES));
    }
    if (text.bytes != NULL && packed.bytes != NULL) {
        return refuse(of, node, QLL_CODE_CONTRADICTION, QLL_SAYS(QUESTION_BOTH));
    }
    if (packed.bytes != NULL && !qll_base64_undo(packed, of->reader.arena, &bytes)) {
        return refuse(of, qll_node_find(node, "base64"), QLL_CODE_ENCODING,
                      QLL_SAYS(QUESTION_BASE64));
    }
    *input = (qll_input){.name = name == NULL ? qll_verb_document_name(of->asked, which) : name,
                         .bytes = bytes.bytes,
                         .size = bytes.size};
    return true;
}

static void read_document(pass *of, qll_question_document which, qll_input *input)
{
    const qll_node *node = qll_node_find(of->root, qll_question_document_keys[which]);
    if (node != NULL) {
        (void)read_input(of, node, which, input);
    }
}

/* ---- files ---- */

static qll_status stream_bytes(void *context, qll_bytes_sink *sink, void *sink_context,
                               const char **why)
{
    const qll_text *bytes = context;
    *why = "";
    return sink(sink_context, bytes->bytes, bytes->size);
}

static qll_status read_at(void *context, uint64_t at, char *bytes, size_t *size, const char **why)
{
    const qll_text *from = context;
    const size_t left = at < from->size ? from->size - (size_t)at : 0;
    *why = "";
    *size = *size < left ? *size : left;
    memcpy(bytes, from->bytes + (at < from->size ? (size_t)at : from->size), *size);
    return QLL_OK;
}

static qll_status read_again(void *context, qll_reread *reread, const char **why)
{
    const qll_text *from = context;
    *why = "";
    *reread = (qll_reread){.context = context, .size = from->size, .read_at = read_at};
    return QLL_OK;
}

static qll_status keep(void *context, const char *bytes, size_t size)
{
    qll_writer *writer = context;
    qll_write_text(writer, (qll_text){bytes, size});
    return writer->no_memory ? QLL_NO_MEMORY : QLL_OK;
}

/* Undoes gzip where there is some; false after a problem. */
static bool unpack(pass *of, const qll_node *node, qll_text *bytes)
{
    if (!qll_unpack_is_packed(bytes->bytes, bytes->size)) {
        return true;
    }
    qll_writer plain = qll_writer_new(of->reader.arena);
    qll_unpack *undoing = qll_unpack_open(keep, &plain);
    qll_status status =
        undoing == NULL ? QLL_NO_MEMORY : qll_unpack_feed(undoing, bytes->bytes, bytes->size);
    status = status == QLL_OK ? qll_unpack_finish(undoing) : status;
    qll_unpack_close(undoing);
    *bytes = qll_writer_text(&plain);
    return status == QLL_OK
           || (status == QLL_IO && refuse(of, node, QLL_CODE_ENCODING, QLL_SAYS(QUESTION_PACKED)));
}

static bool attach(pass *of, const qll_node *node, qll_question_document which,
                   qll_attachment *attachment)
{
    qll_input input = {0};
    qll_text *bytes = qll_reader_take(&of->reader, 1, sizeof *bytes);
    if (bytes == NULL || !read_input(of, node, which, &input)) {
        return false;
    }
    *bytes = (qll_text){input.bytes, input.size};
    const char *survey = of->read->question.document.name;
    *attachment =
        (qll_attachment){.name = input.name,
                         .path = which == QLL_QUESTION_LOG || survey == NULL
                                     ? input.name
                                     : qll_host_beside(survey, input.name, of->reader.arena),
                         .stream = stream_bytes,
                         .again = read_again,
                         .context = bytes};
    return unpack(of, node, bytes);
}

static void attach_all(pass *of)
{
    const qll_node *list = qll_node_find(of->root, "attachments");
    if (list == NULL) {
        return;
    }
    if (list->kind != QLL_NODE_LIST) {
        (void)qll_reader_wrong_kind(&of->reader, list, QLL_SAYS(EXPECT_LIST));
        return;
    }
    if (list->child_count > QLL_FILES_MOST) {
        (void)refuse(of, list, QLL_CODE_TOO_LARGE,
                     QLL_SAYS_WITH(QUESTION_MANY, qll_as_whole(list->child_count),
                                   qll_as_whole(QLL_FILES_MOST)));
        return;
    }
    qll_attachment *all = qll_reader_take(&of->reader, list->child_count, sizeof *all);
    size_t count = 0;
    for (const qll_node *one = all == NULL ? NULL : list->first_child; one != NULL;
         one = one->next) {
        count += attach(of, one, QLL_QUESTION_ATTACHMENTS, &all[count]);
    }
    of->read->question.attachments = all;
    of->read->question.attachment_count = count;
}

static void attach_log(pass *of)
{
    const qll_node *node = qll_node_find(of->root, "log");
    qll_attachment *log = node == NULL ? NULL : qll_reader_take(&of->reader, 1, sizeof *log);
    if (log != NULL && attach(of, node, QLL_QUESTION_LOG, log)) {
        of->read->question.log = log;
    }
}

static void record(pass *of, qll_question_document which, qll_host_recording **opened,
                   const qll_recording **made)
{
    const qll_node *node = qll_node_find(of->root, qll_question_document_keys[which]);
    qll_input input = {0};
    qll_recording *recording =
        node == NULL ? NULL : qll_reader_take(&of->reader, 1, sizeof *recording);
    if (recording == NULL || !read_input(of, node, which, &input)) {
        return;
    }
    const char *why = "";
    const qll_status status = qll_host_recording_of((qll_text){input.bytes, input.size}, input.name,
                                                    of->reader.arena, opened, recording, &why);
    if (status == QLL_IO || status == QLL_REFUSED) {
        (void)refuse(of, node, QLL_CODE_NO_FILE,
                     why[0] == '\0' ? QLL_SAYS(QUESTION_NO_RECORDING)
                                    : QLL_SAYS_WITH(QUESTION_RECORDING, qll_as_reason(why)));
    }
    *made = recording;
}

/* ---- what goes with the verb ---- */

static bool is_taken(const pass *of, const qll_node *child)
{
    const size_t which =
        qll_words_place(child->key, qll_question_document_keys, QLL_QUESTION_DOCUMENT_COUNT);
    if (which < QLL_QUESTION_DOCUMENT_COUNT) {
        return (qll_verb_takes_of(of->asked)->documents & (1U << which)) != 0;
    }
    const char *key = qll_text_closed(child->key, of->reader.arena);
    return key == NULL || qll_verb_takes_member(of->asked, key);
}

static void check_verb(pass *of)
{
    const qll_verb_takes *takes = qll_verb_takes_of(of->asked);
    const qll_argument verb = qll_as_is(qll_asked_word(of->asked));
    for (const qll_node *child = of->root->first_child; child != NULL; child = child->next) {
        if (!is_taken(of, child) && !qll_reader_drops(&of->reader, qll_at_key(child))) {
            (void)qll_reader_refuse_fixed(
                &of->reader, qll_at_key(child), QLL_CODE_UNKNOWN_KEY,
                QLL_SAYS_WITH(QUESTION_NOT_TAKEN, verb, qll_as_is_text(child->key)), NULL,
                (qll_fix){.op = QLL_FIX_REMOVE});
        }
    }
    for (size_t i = 0; i < QLL_QUESTION_DOCUMENT_COUNT; i++) {
        const char *key = qll_question_document_keys[i];
        if ((takes->needs & (1U << i)) != 0 && qll_node_find(of->root, key) == NULL) {
            (void)qll_reader_refuse(&of->reader, qll_at_missing(of->root, key),
                                    QLL_CODE_MISSING_KEY,
                                    QLL_SAYS_WITH(QUESTION_NEEDS, verb, qll_as_is(key)), NULL);
        }
    }
}

/* A survey or a case itself: it says so by its first key, which holds its version. */
static bool is_document(const pass *of)
{
    const char *document = qll_verb_takes_of(of->asked)->document;
    const qll_node *version = document == NULL || of->root->kind != QLL_NODE_OBJECT
                                  ? NULL
                                  : qll_node_find(of->root, document);
    return version != NULL && version->kind == QLL_NODE_NUMBER;
}

static void read_all(pass *of)
{
    qll_question *question = &of->read->question;
    qll_question_read(&of->reader, of->root, question,
                      qll_verb_goes_on_paper(of->asked) ? &of->read->on_paper : NULL);
    if (of->reader.refusal_count > 0) {
        return;
    }
    check_verb(of);
    read_document(of, QLL_QUESTION_DOCUMENT, &question->document);
    read_document(of, QLL_QUESTION_CATALOGUE, &question->catalogue);
    read_document(of, QLL_QUESTION_LIKELIHOOD, &question->likelihood);
    attach_all(of);
    attach_log(of);
    record(of, QLL_QUESTION_RECORDING, &of->read->recording, &question->recording);
    record(of, QLL_QUESTION_QUIET, &of->read->quiet, &question->quiet);
}

qll_status qll_question_body_read(qll_text body, unsigned asked, qll_arena *arena,
                                  qll_question_body *read, qll_problems *problems)
{
    *read = (qll_question_body){.question = {.form = QLL_FORM_JSON}};
    if (asked < QLL_VERB_COUNT) {
        read->question.verb = (qll_verb)asked;
    }
    qll_document *document = qll_arena_take(arena, 1, sizeof *document);
    if (document == NULL) {
        return QLL_NO_MEMORY;
    }
    const qll_status status = qll_document_read(body, "question", arena, document, problems);
    if (status != QLL_OK) {
        return status;
    }
    qll_assumed assumed = qll_assumed_none(arena);
    pass of = {.reader = qll_reader_new(document, arena, &assumed),
               .root = document->root,
               .asked = asked,
               .read = read};
    if (is_document(&of)) {
        read->question.document = (qll_input){qll_verb_document_name(asked, QLL_QUESTION_DOCUMENT),
                                              body.bytes, body.size};
        return QLL_OK;
    }
    read_all(&of);
    return qll_reader_end(&of.reader, problems);
}

void qll_question_body_close(qll_question_body *read)
{
    qll_host_recording_close(read->recording);
    qll_host_recording_close(read->quiet);
}
