/* Sentences with holes: {token} is filled in, [a part] is left out unless every token in it is
 * known. */
#ifndef QUELL_WORDING_TEMPLATE_H
#define QUELL_WORDING_TEMPLATE_H

#include "base/text.h"

/** Writes what stands for @p token; false, and nothing, if that is not known. */
typedef bool qll_token_function(qll_writer *writer, qll_text token, const void *context);

/** Writes @p closed; a token that is not known outside a part is written as @p unknown. */
void qll_template_write(qll_writer *writer, const char *closed, qll_token_function *token,
                        const void *context, const char *unknown);

#endif
