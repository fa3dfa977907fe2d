/* Sound files as phones and editors leave them, whole, odd and broken. */
#include "base/text.h"
#include "check.h"
#include "host/recording.h"
#include "sound/wav.h"

#include <stdlib.h>

/* Asks what the file at @p path holds; its answer is in @p answer. */
static qll_status listen_to(const char *path, qll_arena *arena, qll_answer *answer)
{
    qll_host_recording *opened = NULL;
    qll_recording recording;
    const char *why = "";
    *answer = (qll_answer){0};
    qll_status status = qll_host_recording_open(path, arena, &opened, &recording, &why);
    if (status == QLL_OK) {
        const qll_question question = {
            .verb = QLL_VERB_LISTEN, .form = QLL_FORM_JSON, .recording = &recording};
        status = qll_ask(&question, arena, answer);
    } else {
        CHECK(status == QLL_REFUSED || (status == QLL_IO && why[0] != '\0'));
    }
    qll_host_recording_close(opened);
    return status;
}

static void check_wav(wav of, qll_status want, const char *has)
{
    char path[32];
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    qll_answer answer;
    if (CHECK(wav_write(&of, path))) {
        CHECK(listen_to(path, arena, &answer) == want);
        if (has != NULL
            && (!CHECK(answer.bytes != NULL) || !CHECK(strstr(answer.bytes, has) != NULL))) {
            printf("    wanted %s in %.300s\n", has, answer.bytes == NULL ? "" : answer.bytes);
        }
        /* Few bits make tones of their own out of a pure one: it stays the one that is told. */
        static const char key[] = "\"tone_hz\": ";
        const char *tone = has == NULL || strstr(has, "squeal") == NULL || answer.bytes == NULL
                               ? NULL
                               : strstr(answer.bytes, key);
        if (tone != NULL && !CHECK_WITHIN(strtod(tone + sizeof key - 1, NULL), 3000.0, 2.0)) {
            printf("    %u Hz, %u bits, %u channels\n", (unsigned)of.rate_hz, (unsigned)of.bits,
                   (unsigned)of.channels);
        }
        remove(path);
    }
    qll_arena_close(arena);
}

static const char *const tone = "\"kind\": \"squeal\"";

TEST(every_depth_rate_and_number_of_channels_is_heard)
{
    check_wav((wav){.rate_hz = 44100, .channels = 1, .bits = 16, .seconds = 6}, QLL_OK, tone);
    check_wav((wav){.rate_hz = 44100, .channels = 1, .bits = 8, .seconds = 6}, QLL_OK, tone);
    check_wav((wav){.rate_hz = 48000, .channels = 1, .bits = 24, .seconds = 6}, QLL_OK, tone);
    check_wav((wav){.rate_hz = 48000, .channels = 2, .bits = 16, .seconds = 6}, QLL_OK, tone);
    check_wav((wav){.rate_hz = 192000, .channels = 1, .bits = 24, .seconds = 6}, QLL_OK, tone);
    check_wav((wav){.rate_hz = 16000, .channels = 1, .bits = 16, .seconds = 6}, QLL_OK, tone);
    check_wav((wav){.rate_hz = 8000, .channels = 1, .bits = 16, .seconds = 6}, QLL_OK, tone);
    check_wav((wav){.rate_hz = 11025, .channels = 6, .bits = 32, .seconds = 6}, QLL_OK, tone);
}

TEST(samples_that_are_no_numbers_are_said)
{
    const wav of = {.rate_hz = 44100, .channels = 1, .bits = 32, .seconds = 6, .has_nan = true};
    check_wav(of, QLL_OK, "\"limit\": \"broken\"");
    check_wav(of, QLL_OK, tone);
}

TEST(a_file_that_was_cut_short_gives_what_is_there)
{
    check_wav((wav){.rate_hz = 44100, .channels = 1, .bits = 16, .seconds = 20, .cut_to = 600001},
              QLL_OK, tone);
    check_wav((wav){.rate_hz = 44100, .channels = 1, .bits = 16, .seconds = 20, .cut_to = 60000},
              QLL_REFUSED, "5 s is the least");
}

TEST(a_header_that_lies_is_not_believed)
{
    check_wav((wav){.rate_hz = 44100,
                    .channels = 1,
                    .bits = 16,
                    .seconds = 0.01,
                    .claimed_size = 0x7FFFFFFF},
              QLL_REFUSED, "the recording is 0 s long");
    check_wav(
        (wav){
            .rate_hz = 44100, .channels = 1, .bits = 16, .seconds = 6, .claimed_size = 0x7FFFFFFF},
        QLL_OK, tone);
}

TEST(what_is_no_recording_is_refused)
{
    check_wav((wav){.rate_hz = 44100, .channels = 1, .bits = 16, .seconds = 0}, QLL_REFUSED,
              "the recording is 0 s long");
    check_wav((wav){.rate_hz = 4000, .channels = 1, .bits = 16, .seconds = 6}, QLL_REFUSED,
              "4000 samples a second");
    check_wav((wav){.rate_hz = 8000, .channels = 100, .bits = 16, .seconds = 6}, QLL_REFUSED,
              "100 channels");
    check_wav((wav){.rate_hz = 44100, .channels = 1, .bits = 16, .seconds = 6, .cut_to = 20},
              QLL_REFUSED, NULL);
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    qll_answer answer;
    CHECK(listen_to(QUELL_ROOT "/README.md", arena, &answer) == QLL_REFUSED);
    CHECK(listen_to(QUELL_ROOT "/no-such-file.wav", arena, &answer) == QLL_IO);
    CHECK(listen_to(QUELL_ROOT, arena, &answer) == QLL_IO);
    CHECK(listen_to(QUELL_ROOT "/examples/recordings/squeal.flac", arena, &answer) == QLL_OK);
    CHECK(answer.bytes != NULL && strstr(answer.bytes, tone) != NULL);
    qll_arena_close(arena);
}

TEST(a_question_without_a_recording_makes_no_sense)
{
    const qll_question question = {.verb = QLL_VERB_LISTEN, .form = QLL_FORM_JSON};
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    qll_answer answer;
    CHECK(qll_ask(&question, arena, &answer) == QLL_WRONG_USE);
    qll_host_recording_close(NULL);
    qll_arena_close(arena);
}

/* Two of @p every samples are no numbers, the others a quiet buzz. */
static qll_status stream_broken(void *context, qll_samples_sink *sink, void *sink_context,
                                const char **why)
{
    (void)why;
    const int every = *(const int *)context;
    static float samples[8 * 8000];
    for (int i = 0; i < 8 * 8000; i++) {
        samples[i] = i % every < 2 ? NAN : (float)(i % 80) / 400.0F;
    }
    return sink(sink_context, samples, sizeof samples / sizeof samples[0]);
}

TEST(what_is_mostly_no_numbers_is_not_judged)
{
    for (int every = 2; every <= 5; every++) {
        const qll_recording recording = {.name = "broken",
                                         .rate_hz = 8000,
                                         .channels = 1,
                                         .stream = stream_broken,
                                         .context = &every};
        const qll_question question = {
            .verb = QLL_VERB_LISTEN, .form = QLL_FORM_JSON, .recording = &recording};
        qll_arena *arena = qll_arena_open((size_t)64 << 20);
        qll_answer answer;
        /* All, two thirds, half and two fifths of them. */
        CHECK(qll_ask(&question, arena, &answer) == (every < 4 ? QLL_REFUSED : QLL_OK));
        qll_arena_close(arena);
    }
}

static qll_status stream_text(void *context, qll_bytes_sink *sink, void *sink_context,
                              const char **why)
{
    (void)why;
    const qll_text *text = context;
    return sink(sink_context, text->bytes, text->size);
}

/* A reading a second from 14:04:30 on. */
static qll_text minutes_of_a_log(qll_arena *arena)
{
    qll_writer text = qll_writer_new(arena);
    qll_write(&text, "time,inlet (psi),outlet (psi)\n");
    for (int i = 0; i < 120; i++) {
        qll_write_format(&text, "2026-11-30 14:%02d:%02d,%d.%d,60.%d\n", 4 + (30 + i) / 60,
                         (30 + i) % 60, 118, i % 3, i % 2);
    }
    return qll_writer_text(&text);
}

static void check_beside(const char *name, const char *begins, qll_form form, qll_status want,
                         const char *has)
{
    char path[32];
    const wav of = {.rate_hz = 16000, .channels = 1, .bits = 16, .seconds = 40};
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    qll_host_recording *opened = NULL;
    qll_recording recording;
    qll_answer answer;
    const char *why = "";
    qll_text text = minutes_of_a_log(arena);
    const qll_attachment log = {.name = "station.csv", .stream = stream_text, .context = &text};
    if (CHECK(wav_write(&of, path))
        && CHECK(qll_host_recording_open(path, arena, &opened, &recording, &why) == QLL_OK)) {
        recording.name = name;
        const qll_question question = {.verb = QLL_VERB_LISTEN,
                                       .form = form,
                                       .recording = &recording,
                                       .log = &log,
                                       .begins = begins};
        CHECK(qll_ask(&question, arena, &answer) == want);
        if (!CHECK(answer.bytes != NULL && strstr(answer.bytes, has) != NULL)) {
            printf("    wanted %s in %.2000s\n", has, answer.bytes == NULL ? "" : answer.bytes);
        }
        remove(path);
    }
    qll_host_recording_close(opened);
    qll_arena_close(arena);
}

TEST(a_log_of_the_same_minutes_is_put_beside)
{
    const char *dated = "REC_20261130_140500.wav";
    check_beside(dated, NULL, QLL_FORM_JSON, QLL_OK, "\"begins_from\": \"name\"");
    check_beside(dated, NULL, QLL_FORM_JSON, QLL_OK, "\"log_from_s\": -30");
    check_beside(dated, NULL, QLL_FORM_TEXT, QLL_OK, "BESIDE THE LOG");
    check_beside(dated, NULL, QLL_FORM_HTML, QLL_OK, "recording-beside");
    check_beside("noise.wav", "2026-11-30 14:05:10", QLL_FORM_JSON, QLL_OK, "\"log_from_s\": -40");
    check_beside("noise.wav", "10 s", QLL_FORM_JSON, QLL_OK, "\"log_from_s\": -10");
    check_beside("noise.wav", NULL, QLL_FORM_JSON, QLL_REFUSED, "says when it began");
    check_beside("noise.wav", "noon", QLL_FORM_JSON, QLL_REFUSED, "noon");
    check_beside("noise.wav", "2026-11-30 15:00:00", QLL_FORM_JSON, QLL_REFUSED, "0 s in common");
}

int main(void)
{
    TEST_RUN(every_depth_rate_and_number_of_channels_is_heard);
    TEST_RUN(samples_that_are_no_numbers_are_said);
    TEST_RUN(a_file_that_was_cut_short_gives_what_is_there);
    TEST_RUN(a_header_that_lies_is_not_believed);
    TEST_RUN(what_is_no_recording_is_refused);
    TEST_RUN(a_question_without_a_recording_makes_no_sense);
    TEST_RUN(what_is_mostly_no_numbers_is_not_judged);
    TEST_RUN(a_log_of_the_same_minutes_is_put_beside);
    return TEST_END();
}
