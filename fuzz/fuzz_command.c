/* A command line, an argument a row: taken apart or refused with one clean line; what it asks of a survey, or of the handbook,
 * is answered or refused, and an answer holds. Files are neither read nor written: the survey is one of our own. */
#include "quell/quell.h"

#include "answer_holds.h"
#include "base/count.h"
#include "cli/options.h"

#include <stdint.h>

#define QLL_FUZZ_WORDS 64

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const char survey[] =
    "{\"survey\": 1, \"supply\": {\"static_high\": \"110 psi\", \"flow_test\": [{\"flow\": \"0 gpm\", \"pressure\": \"105 psi\"},"
    " {\"flow\": \"60 gpm\", \"pressure\": \"90 psi\"}]}, \"downstream\": {\"set_pressure\": \"55 psi\"},"
    " \"scenarios\": [{\"name\": \"house\", \"use\": \"house\", \"people\": 4, \"homes\": 1, \"fixtures\":"
    " [{\"fixture\": \"shower\", \"count\": 2}, {\"fixture\": \"kitchen faucet\", \"count\": 1}]}],"
    " \"existing\": {\"stages\": [{\"branches\": [{\"valve\": \"v\", \"set_pressure\": \"55 psi\"}]}]}}";

static const char valves[] =
    "{\"catalogue\": 1, \"valves\": [{\"id\": \"v\", \"nominal\": \"1 in\", \"acting\": \"direct\", \"kv\": \"6 m3/h\","
    " \"set_range\": [\"20 psi\", \"90 psi\"], \"inlet_max\": \"300 psi\", \"band\": \"12 psi\"}]}";

/* Says stop after so many times it was asked. */
static bool goes_on(double share, void *context)
{
    size_t *left = context;
    QLL_REQUIRE(share >= 0.0 && share <= 1.0);
    *left -= *left > 0 ? 1 : 0;
    return *left > 0;
}

static void ask_of_survey(qll_verb verb, const qll_cli_line *line, qll_arena *arena)
{
    const char *const *values = line->values;
    size_t left = 60;
    qll_question question = {
        .verb = verb,
        .form = values[QLL_CLI_JSON] != NULL ? QLL_FORM_JSON : QLL_FORM_TEXT,
        .units = values[QLL_CLI_UNITS],
        .language = values[QLL_CLI_LANGUAGE],
        .document = {.name = "survey.json", .bytes = survey, .size = sizeof survey - 1},
        .catalogue = {.name = "valves.json", .bytes = valves, .size = sizeof valves - 1},
        .flow = values[QLL_CLI_FLOW],
        .seed = values[QLL_CLI_SEED],
        .inlet = values[QLL_CLI_INLET],
        .of = values[QLL_CLI_OF],
        .parts = values[QLL_CLI_PARTS],
        .figures = values[QLL_CLI_FIGURES],
        .sections = values[QLL_CLI_SECTIONS],
        .length = values[QLL_CLI_LENGTH],
        .date = values[QLL_CLI_DATE],
        .plot = values[QLL_CLI_PLOT],
        .progress = goes_on,
        .progress_context = &left};
    if (verb == QLL_VERB_REPORT) {
        question.form = question.plot != NULL ? QLL_FORM_SVG : QLL_FORM_HTML;
    }
    qll_answer answer;
    qll_status status = qll_ask(&question, arena, &answer);
    require_answered(status, question.form, &answer, arena);
}

static void ask_describe(const qll_cli_line *line, qll_arena *arena)
{
    qll_question question = {
        .verb = QLL_VERB_DESCRIBE,
        .form = line->values[QLL_CLI_JSON] != NULL ? QLL_FORM_JSON : QLL_FORM_TEXT,
        .units = line->values[QLL_CLI_UNITS],
        .language = line->values[QLL_CLI_LANGUAGE],
        .about = line->word_count > 1 ? line->words[1] : NULL,
        .key = line->word_count > 2 ? line->words[2] : NULL,
    };
    qll_answer answer;
    const qll_status status = qll_ask(&question, arena, &answer);
    require_answered(status, question.form, &answer, arena);
}

static void ask_handbook(const qll_cli_line *line, qll_arena *arena)
{
    qll_question question = {.verb = QLL_VERB_CALC,
                             .form =
                                 line->values[QLL_CLI_JSON] != NULL ? QLL_FORM_JSON : QLL_FORM_TEXT,
                             .units = line->values[QLL_CLI_UNITS],
                             .language = line->values[QLL_CLI_LANGUAGE],
                             .calc = line->word_count > 1 ? line->words[1] : NULL,
                             .help = line->values[QLL_CLI_HELP] != NULL,
                             .arguments = line->word_count > 2 ? line->words + 2 : NULL,
                             .argument_count = line->word_count > 2 ? line->word_count - 2 : 0};
    qll_answer answer;
    qll_status status = qll_ask(&question, arena, &answer);
    require_answered(status, question.help ? QLL_FORM_TEXT : question.form, &answer, arena);
}

static void require_line(const qll_cli_line *line, int count)
{
    QLL_REQUIRE(line->word_count < (size_t)count);
    for (size_t i = 0; i < line->word_count; i++) {
        QLL_REQUIRE(line->words[i] != NULL);
    }
}

static void run(int count, char *const *arguments, qll_arena *arena)
{
    qll_cli_line line;
    qll_said complaint = {.id = QLL_TEXT_NONE};
    qll_status status = qll_cli_parse(count, arguments, arena, &line, &complaint);
    const qll_wording wording = {.language = line.language};
    const bool complains = complaint.id != QLL_TEXT_NONE;
    const qll_text said = qll_text_of(complains ? qll_said_text(arena, &wording, &complaint) : "");
    QLL_REQUIRE(status == QLL_OK || status == QLL_WRONG_USE);
    QLL_REQUIRE((status == QLL_WRONG_USE) == (said.size > 0));
    require_clean_text(said);
    QLL_REQUIRE(said.size == 0 || memchr(said.bytes, '\n', said.size) == NULL);
    if (status != QLL_OK) {
        return;
    }
    require_line(&line, count);
    if (line.word_count == 0) {
        return;
    }
    static const qll_verb of_survey[] = {QLL_VERB_DEMAND, QLL_VERB_DESIGN, QLL_VERB_CHECK,
                                         QLL_VERB_REPORT, QLL_VERB_LIST};
    for (size_t i = 0; i < QLL_COUNT(of_survey); i++) {
        if (strcmp(line.words[0], qll_verb_words[of_survey[i]]) == 0) {
            ask_of_survey(of_survey[i], &line, arena);
        }
    }
    if (strcmp(line.words[0], "describe") == 0) {
        ask_describe(&line, arena);
    }
    if (strcmp(line.words[0], "calc") == 0) {
        ask_handbook(&line, arena);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
    char *bytes = qll_arena_copy(arena, size == 0 ? "" : (const char *)data, size);
    char program[] = "quell";
    char *arguments[QLL_FUZZ_WORDS + 1] = {program};
    int count = 1;
    for (char *at = bytes; at < bytes + size && count < QLL_FUZZ_WORDS;) {
        char *end = memchr(at, '\n', (size_t)(bytes + size - at));
        end = end == NULL ? bytes + size : end;
        *end = '\0'; /* a copy is closed by a zero byte of its own */
        arguments[count++] = at;
        at = end + 1;
    }
    run(count, arguments, arena);
    qll_arena_close(arena);
    return 0;
}
