/* What documents may hold, for people. */
#ifndef QUELL_REPORT_DESCRIBE_HELP_H
#define QUELL_REPORT_DESCRIBE_HELP_H

#include "documents/describe.h"

/** All keys of the documents shown, a line each; of one key its page; of words what they mean. */
void qll_describe_print(qll_writer *writer, const qll_description *of);

#endif
