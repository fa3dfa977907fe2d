/* Drawings inside an answer, with the frame of each plot. */
#include "documents/write_common.h"

static void put_axis(qll_json *json, const char *key, const qll_drawn_axis *axis)
{
    qll_json_key(json, key);
    qll_json_open_object(json);
    qll_json_put_text(json, "title", axis->title);
    qll_json_put_text(json, "unit", axis->unit);
    qll_json_put_figure(json, "per_si", axis->per_si);
    qll_json_put_figure(json, "from", axis->from);
    qll_json_put_figure(json, "to", axis->to);
    qll_json_put_figure(json, "from_px", axis->from_px);
    qll_json_put_figure(json, "to_px", axis->to_px);
    qll_json_put_bool(json, "log", axis->is_log);
    if (axis->is_day) {
        qll_json_put_bool(json, "day", true);
    }
    qll_json_key(json, "names");
    qll_json_open_list(json);
    for (size_t i = 0; i < axis->name_count; i++) {
        qll_json_text(json, axis->names[i]);
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}

static void put_series(qll_json *json, const qll_drawn_series *series)
{
    static const char *const words[QLL_SERIES_COUNT] = {
#define QLL_SERIES_WORD(name, word) [QLL_SERIES_##name] = (word),
        QLL_SERIES_LIST(QLL_SERIES_WORD)
#undef QLL_SERIES_WORD
    };
    qll_json_open_object(json);
    qll_json_put_text(json, "name", series->name);
    qll_json_put_text(json, "kind", words[series->kind]);
    qll_json_key(json, "points");
    qll_json_open_list(json);
    for (size_t i = 0; i < series->count; i++) {
        qll_json_open_list(json);
        qll_json_figure(json, series->x[i]);
        qll_json_figure(json, series->y[i]);
        qll_json_close_list(json);
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}

static void put_frame(qll_json *json, const qll_drawn_frame *frame)
{
    qll_json_key(json, "frame");
    if (frame == NULL) {
        qll_json_null(json);
        return;
    }
    qll_json_open_object(json);
    put_axis(json, "x", &frame->x);
    put_axis(json, "y", &frame->y);
    qll_json_key(json, "series");
    qll_json_open_list(json);
    for (size_t i = 0; i < frame->series_count; i++) {
        put_series(json, &frame->series[i]);
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}

void qll_json_put_figures(qll_json *json, const qll_drawn_figure *drawn, size_t count)
{
    if (drawn == NULL) {
        return;
    }
    qll_json_key(json, "figures");
    qll_json_open_list(json);
    for (size_t i = 0; i < count; i++) {
        const qll_drawn_figure *figure = &drawn[i];
        qll_json_open_object(json);
        qll_json_put_text(json, "name", figure->name);
        qll_json_put_text(json, "title", figure->title);
        qll_json_put_text(json, "description", figure->description);
        if (figure->svg.bytes != NULL) {
            qll_json_put_text(json, "svg", figure->svg.bytes);
        }
        put_frame(json, figure->frame);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

void qll_json_put_sheets(qll_json *json, const qll_sheets_told *page)
{
    if (page->html != NULL) {
        qll_json_put_text(json, "html", page->html);
        qll_json_put_figures(json, page->drawn, page->drawn_count);
    }
}
