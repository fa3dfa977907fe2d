/* What another program would be: a question through the installed headers, in C and, compiled as such, in C++. */
#include <quell/quell.h>
#include <quell/report.h>
#include <stdio.h>
#include <string.h>

int main(void)
{
    static const char *const arguments[] = {"flow=20 gpm", "bore=1 in"};
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    qll_question question;
    qll_answer answer;
    memset(&question, 0, sizeof question);
    question.verb = QLL_VERB_CALC;
    question.calc = "velocity";
    question.arguments = arguments;
    question.argument_count = 2;
    if (arena == NULL || qll_ask(&question, arena, &answer) != QLL_OK) {
        fprintf(stderr, "%s\n", arena == NULL ? "no memory" : answer.problems[0].text);
        return 1;
    }
    printf("%s %s\n%.*s", qll_version(), qll_verb_words[question.verb], (int)answer.size,
           answer.bytes);
    qll_arena_close(arena);
    return 0;
}
