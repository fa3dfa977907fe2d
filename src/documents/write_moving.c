/* The events that a station was run through, in an answer that is not about an event. */
#include "documents/write_common.h"

void qll_json_put_event_verdict(qll_json *json, const qll_wording *wording,
                                const qll_event_verdict *verdict)
{
    qll_json_open_object(json);
    qll_json_put_text(json, "rule", verdict->rule);
    qll_json_put_text(json, "verdict", qll_grade_words[verdict->grade]);
    qll_json_put_figure(json, "value", verdict->value);
    qll_json_put_figure(json, "limit", verdict->limit);
    if (verdict->says.id != QLL_TEXT_NONE) {
        qll_json_put_said(json, "says", wording, &verdict->says);
    }
    qll_json_close_object(json);
}

static void put_event(qll_json *json, const qll_wording *wording, const qll_moving_event *event)
{
    qll_json_open_object(json);
    qll_json_put_text(json, "event", event->event_word);
    qll_json_put_text_or_null(json, "outlet", event->outlet);
    qll_json_put_said(json, "says", wording, &event->says);
    qll_json_put_list(json, "verdicts");
    for (size_t i = 0; i < 2; i++) {
        qll_json_put_event_verdict(json, wording, &event->verdicts[i]);
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}

void qll_json_put_moving(qll_json *json, const qll_wording *wording, const qll_moving *moving)
{
    if (moving == NULL) {
        return;
    }
    qll_json_put_object(json, "motion");
    qll_json_put_list(json, "events");
    for (size_t i = 0; i < moving->count; i++) {
        put_event(json, wording, &moving->events[i]);
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}
