/* What is said of causes, questions and answers (data/causes.csv, evidence.csv). */
#ifndef QUELL_WORDING_SAYS_TROUBLE_H
#define QUELL_WORDING_SAYS_TROUBLE_H

#include "diagnosis/case.h"
#include "wording/wording.h"

/** What a cause is called, and what cures it. */
qll_said qll_cause_said(const qll_knowledge *knowledge, size_t cause);
qll_said qll_cause_cure_said(const qll_knowledge *knowledge, size_t cause);

/** A question, how it is answered (of id QLL_TEXT_NONE where the question says it), and an answer. */
qll_said qll_question_said(const qll_evidence *evidence);
qll_said qll_question_how_said(const qll_evidence *evidence);
qll_said qll_answer_said(const qll_evidence *evidence, size_t outcome);

/** What hurts who makes the test; NULL = nothing. */
const char *qll_question_caution(qll_language language, const qll_evidence *evidence);

/** What a terminal asks for the answer with: a number of the list, or what was read. */
qll_said qll_question_prompt_said(const qll_evidence *evidence);

/** How long a test takes, "30 s" or "15 min"; in @p arena. */
qll_argument qll_question_takes(qll_arena *arena, const qll_evidence *evidence);

/** How likely something is, as people say it: "about 7 in 10", "about 1 in 20". Judgement knows no better. */
qll_said qll_odds_said(double probability);

/** Where an answer comes from. */
qll_text_id qll_answer_from_text(qll_answer_from from);

/** A finding that was not used as evidence, and why. */
qll_said qll_unused_said(qll_language language, const qll_knowledge *knowledge,
                         const qll_gathered *gathered, const qll_unused *unused, qll_arena *arena);

/** What must be seen to first. */
qll_said qll_danger_said(const qll_gathered *gathered, qll_danger danger);

#endif
