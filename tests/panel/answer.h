/* Questions for a station, asked of the library as a program of somebody else's would, and what the
 * answers of design/1 say. Documents are trees of jansson. */
#ifndef QUELL_TESTS_PANEL_ANSWER_H
#define QUELL_TESTS_PANEL_ANSWER_H

#include "quell/quell.h"

#include <jansson.h>

typedef struct panel_question {
    const json_t *survey;
    const json_t *catalogue; /* NULL = the shipped one */
    const qll_attachment *attachments;
    size_t attachment_count;
} panel_question;

typedef struct panel_answer {
    qll_status status;
    json_t *root; /* NULL if there is no document; for panel_release() */
} panel_answer;

/** The document at @p path below the repository, for json_decref(). Stops the program without it. */
json_t *panel_read(const char *path);

panel_answer panel_ask(const panel_question *question);
void panel_release(panel_answer *answer);

/** Whether there is advice: quell did not refuse. */
bool panel_answered(const panel_answer *answer);

/** The first thing that quell complains of; "" if it does not. */
const char *panel_complaint(const panel_answer *answer);

/** The recommended station; NULL where none is: no valve is needed, or there is no answer. */
const json_t *panel_chosen(const panel_answer *answer);

/** How many valves stand side by side in each stage, "1" or "2+1"; "none" where no valve is needed,
 * "refused" without an answer. */
typedef struct panel_shape {
    char text[32];
} panel_shape;

panel_shape panel_shape_of(const panel_answer *answer);

/** The number at @p key of @p object; NaN without one. */
double panel_number(const json_t *object, const char *key);

/** The text at @p key of @p object; "" without one. */
const char *panel_text(const json_t *object, const char *key);

/** The first number in @p text, such as "12.5 psi"; NaN if it begins with none. */
double panel_amount(const char *text);

/** "12.5 psi" */
json_t *panel_quantity(double value, const char *unit);

/** The valves of @p catalogue whose ids stand in @p ids, with one space between them, as a catalogue of
 * their own, for json_decref(). Stops the program if one is not there. */
json_t *panel_catalogue_of(const json_t *catalogue, const char *ids);

#endif
