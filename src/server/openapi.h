/* The description of the API (OpenAPI 3.1), out of the tables by which requests are read. */
#ifndef QUELL_SERVER_OPENAPI_H
#define QUELL_SERVER_OPENAPI_H

#include "quell/problems.h"

#include "base/text.h"

/** Makes it; in @p arena. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_openapi_make(qll_arena *arena, qll_text *description);

#endif
