/* The size of everything public that a caller lays out, a line each: what a program built yesterday counts on. */
#include "quell/report.h"

#include <stdio.h>

#define TEST_SIZE(type)          printf("%s %zu\n", #type, sizeof(type))
#define TEST_PLACE(type, member) printf("%s.%s %zu\n", #type, #member, offsetof(type, member))

int main(void)
{
    TEST_SIZE(qll_text);
    TEST_SIZE(qll_arena_mark);
    TEST_SIZE(qll_place);
    TEST_SIZE(qll_fix);
    TEST_SIZE(qll_problem);
    TEST_PLACE(qll_problem, fix);
    TEST_SIZE(qll_input);
    TEST_SIZE(qll_reread);
    TEST_SIZE(qll_attachment);
    TEST_SIZE(qll_question);
    TEST_PLACE(qll_question, document);
    TEST_PLACE(qll_question, arguments);
    TEST_PLACE(qll_question, progress_context);
    TEST_SIZE(qll_answer);
    TEST_PLACE(qll_answer, warning);
    TEST_SIZE(qll_made_report);
    TEST_SIZE(qll_canvas);
    TEST_SIZE(qll_item);
    TEST_PLACE(qll_item, mark);
    return 0;
}
