/* A whole day of a building of 48 homes, second by second, with its sharpest changes wave by wave: processor time of the
 * whole answer, survey to JSON. */
#include "quell/quell.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

static const char survey[] =
    "{\"survey\": 1, \"units\": \"us\", \"supply\": {\"static_high\": \"132 psi\", \"flow_test\": ["
    "{\"flow\": \"0 gpm\", \"pressure\": \"118 psi\"}, {\"flow\": \"150 gpm\", \"pressure\": \"96 psi\"}]},"
    "\"upstream\": [{\"pipe\": \"copper L\", \"nominal\": \"2 in\", \"length\": \"60 ft\"},"
    "{\"meter\": \"displacement\", \"nominal\": \"2 in\"},"
    "{\"backflow\": \"reduced pressure\", \"nominal\": \"2 in\"}],"
    "\"downstream\": {\"outlets\": ["
    "{\"name\": \"top-floor shower\", \"elevation\": \"52 ft\", \"needs\": \"20 psi\", \"path\": ["
    "{\"pipe\": \"copper L\", \"nominal\": \"2 in\", \"length\": \"90 ft\"},"
    "{\"pipe\": \"copper L\", \"nominal\": \"3/4 in\", \"length\": \"25 ft\", \"carries\": \"5 gpm\"}]},"
    "{\"name\": \"laundry\", \"elevation\": \"0 ft\", \"needs\": \"20 psi\", \"path\": ["
    "{\"pipe\": \"copper L\", \"nominal\": \"1 in\", \"length\": \"40 ft\", \"carries\": \"15 gpm\"}]}]},"
    "\"scenarios\": [{\"name\": \"flats\", \"use\": \"apartment\", \"people\": 110, \"homes\": 48, \"fixtures\": ["
    "{\"fixture\": \"shower\", \"count\": 48}, {\"fixture\": \"lavatory faucet\", \"count\": 60},"
    "{\"fixture\": \"water closet, tank\", \"count\": 60}, {\"fixture\": \"kitchen faucet\", \"count\": 48},"
    "{\"fixture\": \"clothes washer\", \"count\": 48}]}],"
    "\"existing\": {\"stages\": [{\"branches\": ["
    "{\"valve\": \"3/4 in direct\", \"set_pressure\": \"64 psi\"},"
    "{\"valve\": \"2 in direct\", \"set_pressure\": \"60 psi\"}]}]}}";

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 30);
    const qll_question question = {.verb = QLL_VERB_SIMULATE,
                                   .form = QLL_FORM_JSON,
                                   .event = "day",
                                   .document = {"flats.json", survey, strlen(survey)}};
    qll_answer answer;
    const clock_t from = clock();
    const qll_status status = qll_ask(&question, arena, &answer);
    const double took_s = (double)(clock() - from) / CLOCKS_PER_SEC;
    printf("a day of 48 homes: %.2f s of processor time, %zu bytes, status %d\n", took_s,
           answer.size, (int)status);
    for (size_t i = 0; i < answer.problem_count; i++) {
        printf("%s: %s\n", answer.problems[i].place.path, answer.problems[i].text);
    }
    const char *steps = status == QLL_OK ? strstr(answer.bytes, "\"steps\"") : NULL;
    if (steps != NULL) {
        printf("%.*s\n", 220, steps);
    }
    qll_arena_close(arena);
    return status == QLL_OK && took_s < 10 ? 0 : 1;
}
