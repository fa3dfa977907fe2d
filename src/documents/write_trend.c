/* How what is followed of a site moves: in sentences, and as JSON. */
#include "documents/write_common.h"
#include "documents/write_records.h"
#include "records/day.h"
#include "wording/texts.h"

#include <math.h>
#include <string.h>

const char *const qll_followed_words[QLL_FOLLOWED_COUNT] = {
#define QLL_FOLLOWED_WORD(name, word) [QLL_FOLLOWED_##name] = (word),
    QLL_FOLLOWED_LIST(QLL_FOLLOWED_WORD)
#undef QLL_FOLLOWED_WORD
};

void qll_json_put_day(qll_json *json, const char *key, double day)
{
    char text[QLL_DAY_SIZE];
    if (isnan(day)) {
        qll_json_put_null(json, key);
        return;
    }
    qll_day_write((int)floor(day), text);
    qll_json_put_text(json, key, text);
}

/* ---- in sentences ---- */

static const char *day_text(double day, qll_arena *arena)
{
    char text[QLL_DAY_SIZE];
    qll_day_write((int)floor(day), text);
    const char *kept = qll_arena_copy(arena, text, strlen(text));
    return kept == NULL ? "" : kept;
}

static qll_argument change(double pa)
{
    return qll_as_quantity(pa, QLL_KIND_PRESSURE_DIFFERENCE);
}

static qll_argument level(qll_followed followed, double pa)
{
    return qll_as_quantity(pa, followed == QLL_FOLLOWED_STRAINER ? QLL_KIND_PRESSURE_DIFFERENCE
                                                                 : QLL_KIND_PRESSURE);
}

static qll_said slope_says(const qll_drift *drift)
{
    const bool is_sure = qll_drift_is_sure(drift);
    const bool falls = is_sure && !(drift->slope_per_year > 0.0);
    const qll_text_id id = falls     ? QLL_TEXT_RECORD_TREND_FALLS
                           : is_sure ? QLL_TEXT_RECORD_TREND_RISES
                                     : QLL_TEXT_RECORD_TREND_UNSURE;
    return falls ? (qll_said){id,
                              {change(-drift->slope_per_year), change(-drift->high_per_year),
                               change(-drift->low_per_year)}}
                 : (qll_said){id,
                              {change(drift->slope_per_year), change(drift->low_per_year),
                               change(drift->high_per_year)}};
}

static qll_said wanted_says(qll_followed followed, const qll_course *course, qll_arena *arena)
{
    const qll_reached *reached = &course->reached;
    const qll_argument limit = level(followed, course->limit);
    if (reached->day <= course->drift.last_day) {
        return (qll_said){QLL_TEXT_RECORD_TREND_NOW, {limit}};
    }
    qll_said says = {QLL_TEXT_RECORD_TREND_WANTS_OPEN,
                     {limit, qll_as_is(day_text(reached->day, arena)),
                      qll_as_is(day_text(reached->earliest, arena))}};
    if (!isnan(reached->latest)) {
        says.id = QLL_TEXT_RECORD_TREND_WANTS;
        says.arguments[3] = qll_as_is(day_text(reached->latest, arena));
    }
    return says;
}

size_t qll_course_says(const qll_wording *wording, qll_arena *arena, qll_followed followed,
                       const qll_course *course, qll_said sentences[QLL_COURSE_SENTENCES])
{
    const qll_drift *drift = &course->drift;
    const qll_said name = {.id = (qll_text_id)((int)QLL_TEXT_RECORD_OF_SET + (int)followed)};
    const qll_argument what =
        qll_as_is(qll_text_capital(arena, qll_said_text(arena, wording, &name)));
    if (drift->count == 0) {
        return 0;
    }
    if (isnan(drift->low_per_year)) {
        sentences[0] = (qll_said){QLL_TEXT_RECORD_TREND_FEW, {what, qll_as_whole(drift->count)}};
        return 1;
    }
    sentences[0] =
        (qll_said){QLL_TEXT_RECORD_TREND_LEVEL,
                   {what, level(followed, drift->level),
                    qll_as_is(day_text(drift->last_day, arena)), qll_as_whole(drift->count)}};
    sentences[1] = slope_says(drift);
    if (isnan(course->reached.day)) {
        return 2;
    }
    sentences[2] = wanted_says(followed, course, arena);
    return 3;
}

/* ---- as JSON ---- */

/* What there is to say of it, for people. */
static void put_sentences(qll_json *json, const qll_wording *wording, qll_followed followed,
                          const qll_course *course)
{
    qll_said sentences[QLL_COURSE_SENTENCES];
    const size_t count = qll_course_says(wording, json->writer->arena, followed, course, sentences);
    qll_json_put_sentences(json, wording, sentences, count);
}

static void put_points(qll_json *json, const qll_wording *wording, qll_followed followed,
                       const qll_course *course)
{
    qll_json_put_list(json, "points");
    for (size_t i = 0; i < course->count; i++) {
        const qll_argument value = level(followed, course->points[i].value);
        qll_json_open_object(json);
        qll_json_put_day(json, "day", course->points[i].day);
        qll_json_put_number(json, "value_pa", course->points[i].value);
        qll_json_put_text(json, "shown", qll_argument_text(json->writer->arena, wording, &value));
        qll_json_put_bool(json, "begins", course->points[i].begins);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_course(qll_json *json, const qll_wording *wording, qll_followed followed,
                       const qll_course *course)
{
    const qll_drift *drift = &course->drift;
    qll_json_open_object(json);
    qll_json_put_text(json, "what", qll_followed_words[followed]);
    qll_json_put_whole(json, "readings", (long long)drift->count);
    qll_json_put_day(json, "first_day", drift->first_day);
    qll_json_put_day(json, "last_day", drift->last_day);
    qll_json_put_figure(json, "level_pa", drift->level);
    qll_json_put_figure(json, "slope_pa_year", drift->slope_per_year);
    qll_json_put_figure(json, "slope_low_pa_year", drift->low_per_year);
    qll_json_put_figure(json, "slope_high_pa_year", drift->high_per_year);
    qll_json_put_bool(json, "sure", qll_drift_is_sure(drift));
    qll_json_put_figure(json, "limit_pa", course->limit);
    qll_json_put_day(json, "service_day", course->reached.day);
    qll_json_put_day(json, "service_earliest", course->reached.earliest);
    qll_json_put_day(json, "service_latest", course->reached.latest);
    put_points(json, wording, followed, course);
    put_sentences(json, wording, followed, course);
    qll_json_close_object(json);
}

void qll_trend_write(qll_json *json, const qll_recorded_trend *found)
{
    const qll_problems none = {0};
    qll_json_open_object(json);
    qll_json_put_head(json, "trend", &found->wording, &none);
    qll_json_put_text(json, "site", found->row->site);
    qll_json_put_text(json, "name", found->row->name);
    qll_json_put_list(json, "trends");
    for (size_t i = 0; i < QLL_FOLLOWED_COUNT; i++) {
        put_course(json, &found->wording, (qll_followed)i, &found->courses[i]);
    }
    qll_json_close_list(json);
    qll_json_put_sheets(json, &found->page);
    qll_json_close_object(json);
}
