/* Any bytes as a sound file: an answer that reads back as JSON, or a refusal with a reason. */
#include "base/document.h"
#include "host/recording.h"
#include "require.h"

#include <stdint.h>
#include <unistd.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void require_document(const qll_answer *answer, qll_arena *arena)
{
    qll_problems problems = qll_problems_none(arena);
    qll_document document;
    QLL_REQUIRE(answer->bytes != NULL);
    QLL_REQUIRE(qll_document_read((qll_text){answer->bytes, answer->size}, "answer", arena,
                                  &document, &problems)
                == QLL_OK);
}

static void ask(const char *path)
{
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    qll_host_recording *opened = NULL;
    qll_recording recording;
    const char *why = NULL;
    const qll_status status = qll_host_recording_open(path, arena, &opened, &recording, &why);
    QLL_REQUIRE(status == QLL_OK || (status == QLL_IO && why != NULL && why[0] != '\0')
                || (status == QLL_REFUSED && why != NULL)); /* empty: neither WAV nor FLAC */
    if (status == QLL_OK) {
        const qll_question question = {
            .verb = QLL_VERB_LISTEN, .form = QLL_FORM_JSON, .recording = &recording};
        qll_answer answer;
        const qll_status asked = qll_ask(&question, arena, &answer);
        QLL_REQUIRE(asked == QLL_OK || asked == QLL_REFUSED || asked == QLL_IO);
        require_document(&answer, arena);
    }
    qll_host_recording_close(opened);
    qll_arena_close(arena);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char path[64];
    snprintf(path, sizeof path, "/tmp/quell_fuzz_recording_%c%c%c%c%c%c", 'X', 'X', 'X', 'X', 'X',
             'X');
    const int file = mkstemp(path);
    QLL_REQUIRE(file >= 0);
    const bool is_written = size == 0 || write(file, data, size) == (ssize_t)size;
    QLL_REQUIRE(close(file) == 0 && is_written);
    ask(path);
    QLL_REQUIRE(unlink(path) == 0);
    return 0;
}
