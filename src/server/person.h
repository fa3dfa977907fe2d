/* Who logs in: what a name and a password may be. */
#ifndef QUELL_SERVER_PERSON_H
#define QUELL_SERVER_PERSON_H

#include "base/text.h"

/* A password is no shorter, and neither it nor a name is longer (our assumption). */
#define QLL_PASSWORD_LEAST 8
#define QLL_PASSWORD_MOST  1024
#define QLL_NAME_MOST      80 /* characters */

/* A name with its zero byte is no longer. */
#define QLL_NAME_SIZE (QLL_NAME_MOST * 4 + 1)

/** Whether @p name can be a person's: some characters on one line, no blank at either end. */
bool qll_name_is_fit(qll_text name);

#endif
