/* What a question asks for by a list of words: parts, figures, sections. */
#ifndef QUELL_ENGINE_CHOOSE_H
#define QUELL_ENGINE_CHOOSE_H

#include "engine/engine.h"

/** Words to choose from, and how one that is none of them is refused. */
typedef struct qll_choice {
    const char *option;       /* "--sections" */
    const char *const *words; /* [count] */
    size_t count;
    qll_text_id says; /* of the quoted word, the words, and the verb */
} qll_choice;

/** The place of @p word among the words; their count, and a refusal with the nearest one, if it is none. */
size_t qll_choose(qll_asked *asked, const qll_choice *choice, const char *word);

/** "cover,station" to bits; blanks around a word do not matter. At most 32 words. */
unsigned qll_choose_set(qll_asked *asked, const qll_choice *choice, const char *list);

/** Reads the question's parts into what is left out of the answer and what need not be worked out. */
void qll_choose_parts(qll_asked *asked);

/** A kind of figure, "day-2": its word, and the scenario or valve that it is of, from 0. SIZE_MAX: all where
 * no number is given and @p all_of_kind, else the first. */
void qll_choose_figure(qll_asked *asked, const char *option, const char *plot, bool all_of_kind,
                       qll_asked_figure *figure);

/** Reads the question's figures; refuses those of an answer that has none. */
void qll_choose_figures(qll_asked *asked);

#endif
