/* Why a file cannot be read or written: what the system says, in the language of the answer. */
#ifndef QUELL_WORDING_SAYS_REASON_H
#define QUELL_WORDING_SAYS_REASON_H

#include "base/said.h"

/** What @p why says in English, as the host says it; as it is where there is no other word for it. */
qll_argument qll_as_reason(const char *why);

#endif
