/* The size of everything public that a caller lays out, a line each: what a program built yesterday counts on. */
#include "quell/report.h"

#include <stdio.h>

#define SIZE(type)          printf("%s %zu\n", #type, sizeof(type))
#define PLACE(type, member) printf("%s.%s %zu\n", #type, #member, offsetof(type, member))

int main(void)
{
    SIZE(qll_text);
    SIZE(qll_arena_mark);
    SIZE(qll_place);
    SIZE(qll_fix);
    SIZE(qll_problem);
    PLACE(qll_problem, fix);
    SIZE(qll_input);
    SIZE(qll_reread);
    SIZE(qll_attachment);
    SIZE(qll_question);
    PLACE(qll_question, document);
    PLACE(qll_question, arguments);
    PLACE(qll_question, progress_context);
    SIZE(qll_answer);
    PLACE(qll_answer, warning);
    SIZE(qll_made_report);
    SIZE(qll_canvas);
    SIZE(qll_item);
    PLACE(qll_item, mark);
    return 0;
}
