/* The door of the engine in a browser: documents in, a question as JSON in, an answer's bytes out.
 *
 * One engine holds one question at a time, and what it keeps between questions (quell/kept.h). A caller hands in the bytes
 * that a question needs, then asks, then reads the answer, which lives until the next quell_begin():
 *
 *     quell_begin(); at = quell_hand_in(size); ...; status = quell_ask(question_index); quell_answer(), quell_answer_size()
 *
 * The question is an object with the members of qll_question by their names; `verb`, `form` ("text", "json", "html", "svg",
 * "schema"), `date` and the like are words. Documents are {"name": "survey.json", "input": 0}, the number being the order in
 * which it was handed in. `attachments` is a list of the same; instead of "input" they may have "file", a number by which
 * quell_read_file() is asked for slices, and "size". docs/formats/engine.md has every member. */
#include "door.h"

#include "quell/kept.h"

#include "base/words.h"
#include "documents/read_question.h"

#include <stdint.h>
#include <string.h>

/* What the caller lends. */
QLL_IMPORT(progress) int quell_progress(double share); /* 0 = stop */
/* Up to @p size bytes of file number @p file from @p at on; how many, or -1 where it cannot be read. */
QLL_IMPORT(read_file) int quell_read_file(int file, double at, char *bytes, int size);

QLL_EXPORT(quell_open) int quell_open(size_t ceiling_size, size_t kept_size);
QLL_EXPORT(quell_begin) int quell_begin(void);
QLL_EXPORT(quell_hand_in) char *quell_hand_in(size_t size);
QLL_EXPORT(quell_ask) int quell_ask(size_t question);
QLL_EXPORT(quell_answer) const char *quell_answer(void);
QLL_EXPORT(quell_answer_size) size_t quell_answer_size(void);
QLL_EXPORT(quell_problems) const char *quell_problems(void);
QLL_EXPORT(quell_problems_size) size_t quell_problems_size(void);
QLL_EXPORT(quell_forget) void quell_forget(void);
QLL_EXPORT(quell_version) const char *quell_version(void);

static struct {
    size_t ceiling_size;
    qll_kept *kept; /* NULL where nothing is */
    qll_text problems;
} room;

qll_door door;

int quell_open(size_t ceiling_size, size_t kept_size)
{
    qll_kept_close(room.kept);
    qll_arena_close(door.arena);
    door.arena = NULL;
    room.ceiling_size = ceiling_size;
    room.kept = kept_size == 0 ? NULL : qll_kept_open(kept_size);
    return quell_begin();
}

/* Forgets the last question and its answer; 0 without memory. */
int quell_begin(void)
{
    qll_arena_close(door.arena);
    door.arena = qll_arena_open(room.ceiling_size);
    door.input_count = 0;
    door.answer = (qll_answer){0};
    room.problems = (qll_text){"", 0};
    return door.arena != NULL;
}

/* Room for the next document; NULL where there is none. */
char *quell_hand_in(size_t size)
{
    char *bytes = door.arena == NULL || size == SIZE_MAX || door.input_count == QLL_INPUTS_MOST
                      ? NULL
                      : qll_arena_take(door.arena, size + 1, 1);
    if (bytes != NULL) {
        door.inputs[door.input_count] = (qll_text){bytes, size};
        door.input_count += 1;
    }
    return bytes;
}

/* ---- the question ---- */

const char *qll_door_text(const qll_node *question, const char *key)
{
    const qll_node *node = qll_node_find(question, key);
    return node == NULL || node->kind != QLL_NODE_TEXT ? NULL
                                                       : qll_text_closed(node->text, door.arena);
}

/* A whole number from 0 to below @p most; @p most where there is none. */
static size_t number_of(const qll_node *object, const char *key, size_t most)
{
    const qll_node *node = qll_node_find(object, key);
    const bool is_whole = node != NULL && node->kind == QLL_NODE_NUMBER && node->number >= 0.0
                          && node->number < (double)most
                          && node->number == (double)(size_t)node->number;
    return is_whole ? (size_t)node->number : most;
}

static bool input_of(const qll_node *question, const char *key, qll_input *input)
{
    const qll_node *node = qll_node_find(question, key);
    if (node == NULL) {
        return true;
    }
    const size_t at = node->kind == QLL_NODE_OBJECT ? number_of(node, "input", door.input_count)
                                                    : door.input_count;
    if (at == door.input_count) {
        return false;
    }
    const char *name = qll_door_text(node, "name");
    *input = (qll_input){name == NULL ? "" : name, door.inputs[at].bytes, door.inputs[at].size};
    return true;
}

/* ---- files ---- */

/* A file behind an attachment: bytes that were handed in, or a number to ask the caller by. */
typedef struct door_file {
    qll_text bytes; /* bytes NULL: by its number */
    int number;
    double size;
} door_file;

static qll_status stream_file(void *context, qll_bytes_sink *sink, void *sink_context,
                              const char **why)
{
    const door_file *file = context;
    *why = "";
    if (file->bytes.bytes != NULL) {
        return sink(sink_context, file->bytes.bytes, file->bytes.size);
    }
    static char block[64 * 1024];
    qll_status status = QLL_OK;
    for (double at = 0.0; status == QLL_OK && at < file->size;) {
        const int size = quell_read_file(file->number, at, block, (int)sizeof block);
        if (size <= 0 || size > (int)sizeof block) {
            return QLL_IO;
        }
        status = sink(sink_context, block, (size_t)size);
        at += size;
    }
    return status;
}

static qll_status read_at(void *context, uint64_t at, char *bytes, size_t *size, const char **why)
{
    const door_file *file = context;
    const double left = file->size - (double)at;
    *why = "";
    if ((double)*size > left) {
        *size = left > 0.0 ? (size_t)left : 0;
    }
    if (file->bytes.bytes != NULL) {
        memcpy(bytes, file->bytes.bytes + at, *size);
        return QLL_OK;
    }
    for (size_t done = 0; done < *size;) {
        const size_t wanted = *size - done < 1U << 20 ? *size - done : 1U << 20;
        const int got =
            quell_read_file(file->number, (double)at + (double)done, bytes + done, (int)wanted);
        if (got <= 0 || (size_t)got > wanted) {
            return QLL_IO;
        }
        done += (size_t)got;
    }
    return QLL_OK;
}

static qll_status read_again(void *context, qll_reread *reread, const char **why)
{
    const door_file *file = context;
    *why = "";
    *reread = (qll_reread){.context = context, .size = (uint64_t)file->size, .read_at = read_at};
    return QLL_OK;
}

static bool attach(const qll_node *node, qll_attachment *attachment)
{
    door_file *file = qll_arena_take(door.arena, 1, sizeof *file);
    const char *name = node->kind == QLL_NODE_OBJECT ? qll_door_text(node, "name") : NULL;
    if (file == NULL || name == NULL) {
        return false;
    }
    const size_t input = number_of(node, "input", door.input_count);
    const qll_node *size = qll_node_find(node, "size");
    if (input < door.input_count) {
        *file = (door_file){.bytes = door.inputs[input], .size = (double)door.inputs[input].size};
    } else if (size != NULL && size->kind == QLL_NODE_NUMBER && size->number >= 0.0) {
        file->number = (int)number_of(node, "file", INT32_MAX);
        file->size = size->number;
    } else {
        return false;
    }
    *attachment =
        (qll_attachment){.name = name, .stream = stream_file, .again = read_again, .context = file};
    return true;
}

static bool attach_all(const qll_node *root, qll_question *question)
{
    const qll_node *list = qll_node_find(root, "attachments");
    if (list == NULL) {
        return true;
    }
    qll_attachment *all = qll_arena_take(door.arena, list->child_count, sizeof *all);
    size_t count = 0;
    for (const qll_node *one = list->first_child; all != NULL && one != NULL; one = one->next) {
        if (!attach(one, &all[count])) {
            return false;
        }
        count += 1;
    }
    question->attachments = all;
    question->attachment_count = count;
    return all != NULL;
}

static bool attach_log(const qll_node *root, qll_question *question)
{
    const qll_node *node = qll_node_find(root, "log");
    qll_attachment *log = node == NULL ? NULL : qll_arena_take(door.arena, 1, sizeof *log);
    question->log = log;
    return node == NULL || (log != NULL && attach(node, log));
}

/* ---- recordings ---- */

typedef struct door_samples {
    const float *samples;
    size_t count; /* of each channel */
} door_samples;

static qll_status stream_samples(void *context, qll_samples_sink *sink, void *sink_context,
                                 const char **why)
{
    const door_samples *of = context;
    *why = "";
    return sink(sink_context, of->samples, of->count);
}

/* Samples are 32-bit floats, interleaved. */
static bool record(const qll_node *root, const char *key, const qll_recording **made)
{
    const qll_node *node = qll_node_find(root, key);
    if (node == NULL) {
        return true;
    }
    qll_input input = {0};
    qll_recording *recording = qll_arena_take(door.arena, 1, sizeof *recording);
    door_samples *samples = qll_arena_take(door.arena, 1, sizeof *samples);
    const qll_node *rate = node->kind == QLL_NODE_OBJECT ? qll_node_find(node, "rate_hz") : NULL;
    if (recording == NULL || samples == NULL || rate == NULL || rate->kind != QLL_NODE_NUMBER
        || !input_of(root, key, &input)) {
        return false;
    }
    const size_t channels = number_of(node, "channels", 33);
    if (channels < 1 || channels > 32) {
        return false;
    }
    *samples = (door_samples){(const float *)(const void *)input.bytes,
                              input.size / sizeof(float) / channels};
    *recording = (qll_recording){.name = input.name,
                                 .rate_hz = rate->number,
                                 .channels = (unsigned)channels,
                                 .stream = stream_samples,
                                 .context = samples};
    *made = recording;
    return true;
}

/* ---- words ---- */

static bool read_question(qll_reader *reader, const qll_node *root, qll_question *question)
{
    qll_question_read(reader, root, question, NULL);
    if (reader->refusal_count > 0) {
        return false;
    }
    const qll_node *verb = qll_node_find(root, "verb");
    const size_t place = verb == NULL || verb->kind != QLL_NODE_TEXT
                             ? QLL_VERB_COUNT
                             : qll_words_place(verb->text, qll_verb_words, QLL_VERB_COUNT);
    question->verb = (qll_verb)place;
    return place < QLL_VERB_COUNT && input_of(root, "document", &question->document)
           && input_of(root, "catalogue", &question->catalogue)
           && input_of(root, "likelihood", &question->likelihood) && attach_all(root, question)
           && attach_log(root, question) && record(root, "recording", &question->recording)
           && record(root, "quiet", &question->quiet);
}

/* ---- asking ---- */

static bool go_on(double share, void *context)
{
    (void)context;
    return quell_progress(share) != 0;
}

/* The problems as the command line prints them, a line each. */
static void write_problems(void)
{
    qll_writer writer = qll_writer_new(door.arena);
    for (size_t i = 0; i < door.answer.problem_count; i++) {
        qll_problem_write(&writer, &door.answer.problems[i], door.answer.warning);
    }
    room.problems = qll_writer_text(&writer);
}

/* Asks the question that was handed in as number @p question; a qll_status. */
int quell_ask(size_t question)
{
    qll_document document;
    qll_question asked = {.progress = go_on};
    if (door.arena == NULL || question >= door.input_count) {
        return QLL_WRONG_USE;
    }
    qll_problems problems = qll_problems_none(door.arena);
    qll_status status =
        qll_document_read(door.inputs[question], "question", door.arena, &document, &problems);
    if (status != QLL_OK) {
        return status == QLL_NO_MEMORY ? QLL_NO_MEMORY : QLL_WRONG_USE;
    }
    qll_assumed assumed = qll_assumed_none(door.arena);
    qll_reader reader = qll_reader_new(&document, door.arena, &assumed);
    if (!read_question(&reader, document.root, &asked)) {
        return qll_arena_refused(door.arena) > 0 ? QLL_NO_MEMORY : QLL_WRONG_USE;
    }
    status = room.kept == NULL ? qll_ask(&asked, door.arena, &door.answer)
                               : qll_ask_kept(room.kept, &asked, door.arena, &door.answer);
    write_problems();
    return (int)status;
}

const char *quell_answer(void)
{
    return door.answer.bytes;
}

size_t quell_answer_size(void)
{
    return door.answer.bytes == NULL ? 0 : door.answer.size;
}

const char *quell_problems(void)
{
    return room.problems.bytes;
}

size_t quell_problems_size(void)
{
    return room.problems.size;
}

void quell_forget(void)
{
    if (room.kept != NULL) {
        qll_kept_forget(room.kept);
    }
}

const char *quell_version(void)
{
    return qll_version();
}
