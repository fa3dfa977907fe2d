/* A body to a question of the engine: documents come inside it, as text or base64, and no file of this machine is ever opened for
 * one. */
#ifndef QUELL_SERVER_QUESTION_BODY_H
#define QUELL_SERVER_QUESTION_BODY_H

#include "quell/quell.h"

#include "base/problems.h"
#include "base/text.h"
#include "host/recording.h"

typedef struct qll_question_body {
    qll_question question;
    qll_host_recording *recording, *quiet; /* opened for it; NULL */
    bool on_paper; /* a PDF is asked for; the question's form is that of a refusal */
} qll_question_body;

/**
 * Reads @p body: an object with the members of a question and its documents (docs/guide/serve.md), or the document of what is @p asked
 * itself, a survey or a case, with nothing else.
 *
 * @param read to be closed by qll_question_body_close() whatever comes of it; in @p arena, and points into @p body
 * @return QLL_OK, QLL_REFUSED (problems say why) or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_question_body_read(qll_text body, unsigned asked, qll_arena *arena,
                                               qll_question_body *read, qll_problems *problems);

void qll_question_body_close(qll_question_body *read);

#endif
