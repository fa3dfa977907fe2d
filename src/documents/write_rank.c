/* Which station to see to first, why, and how earlier chances did: in sentences, and as JSON. */
#include "base/words.h"
#include "documents/write_common.h"
#include "documents/write_records.h"
#include "wording/texts.h"

#include <math.h>

#define QLL_RANKED_SENTENCES 2

/* ---- in sentences ---- */

static qll_argument share(qll_arena *arena, double of)
{
    qll_writer text = qll_writer_new(arena);
    return qll_as_is(qll_text_bare_share(&text, of));
}

static qll_argument amount(const qll_wording *wording, qll_arena *arena,
                           const qll_ranked_site *site, double money)
{
    qll_wording own = *wording;
    own.currency = site->currency;
    qll_writer text = qll_writer_new(arena);
    qll_wording_amount(&text, &own, money);
    return qll_as_is(qll_writer_text(&text).bytes);
}

const char *qll_ranked_because(const qll_wording *wording, const qll_ranked_site *site)
{
    const size_t place = site->mechanism == NULL
                             ? QLL_MECHANISM_COUNT
                             : qll_words_place(qll_text_of(site->mechanism), qll_mechanism_words,
                                               QLL_MECHANISM_COUNT);
    if (place >= QLL_MECHANISM_COUNT) {
        return NULL;
    }
    return qll_say(wording->language, (qll_message)((size_t)QLL_SAYS_MECHANISM_CHATTER + place));
}

/* What is to be expected at @p site, and what it would come from; how many sentences. */
static size_t ranked_says(const qll_wording *wording, qll_arena *arena, const qll_ranked_site *site,
                          qll_said sentences[QLL_RANKED_SENTENCES])
{
    sentences[0] = (qll_said){QLL_TEXT_RECORD_RANKED_COSTS,
                              {share(arena, site->callback_share),
                               amount(wording, arena, site, site->callback),
                               amount(wording, arena, site, site->expected)}};
    const char *because = qll_ranked_because(wording, site);
    if (because == NULL) {
        return 1;
    }
    sentences[1] = (qll_said){QLL_TEXT_RECORD_RANKED_BECAUSE, {qll_as_is(because)}};
    return 2;
}

static qll_argument factor(qll_arena *arena, double value)
{
    qll_writer text = qll_writer_new(arena);
    qll_write_format(&text, isfinite(value) ? "%.2f" : "-", value);
    return qll_as_is(qll_writer_text(&text).bytes);
}

size_t qll_calibration_says(qll_arena *arena, const qll_calibration *calibration,
                            qll_said sentences[QLL_CALIBRATION_SENTENCES])
{
    if (calibration->count == 0) {
        return 0;
    }
    if (!qll_calibration_is_told(calibration)) {
        sentences[0] =
            (qll_said){QLL_TEXT_RECORD_CALLBACKS_FEW, {qll_as_whole(calibration->count)}};
        return 1;
    }
    sentences[0] =
        (qll_said){QLL_TEXT_RECORD_CALLBACKS,
                   {qll_as_whole(calibration->count), qll_as_whole(calibration->happened),
                    qll_as_whole((size_t)round(calibration->expected)),
                    qll_as_whole((size_t)floor(calibration->expected_low)),
                    qll_as_whole((size_t)ceil(calibration->expected_high))}};
    sentences[1] = qll_calibration_fits(calibration)
                       ? (qll_said){.id = QLL_TEXT_RECORD_CALLBACKS_FIT}
                       : (qll_said){QLL_TEXT_RECORD_CALLBACKS_OFF,
                                    {factor(arena, calibration->odds_factor),
                                     factor(arena, calibration->factor_low),
                                     factor(arena, calibration->factor_high)}};
    return 2;
}

static qll_said group_says(qll_arena *arena, const qll_calibration_group *group)
{
    const double happened = (double)group->happened / (double)group->count;
    return (qll_said){QLL_TEXT_RECORD_CALLBACKS_GROUP,
                      {qll_as_whole(group->count), share(arena, group->chance),
                       share(arena, happened), share(arena, group->low),
                       share(arena, group->high)}};
}

/* ---- as JSON ---- */

static void put_ranked(qll_json *json, const qll_wording *wording, const qll_ranked_site *site)
{
    qll_said sentences[QLL_RANKED_SENTENCES];
    const size_t count = ranked_says(wording, json->writer->arena, site, sentences);
    qll_json_open_object(json);
    qll_json_put_text(json, "site", site->row->site);
    qll_json_put_text(json, "name", site->row->name);
    qll_json_put_number(json, "callback_share", site->callback_share);
    qll_json_put_number(json, "callback", site->callback);
    qll_json_put_number(json, "expected", site->expected);
    qll_json_put_text_or_null(json, "currency", site->currency);
    qll_json_put_text_or_null(json, "mechanism", site->mechanism);
    qll_json_put_sentences(json, wording, sentences, count);
    qll_json_close_object(json);
}

static void put_groups(qll_json *json, const qll_wording *wording,
                       const qll_calibration *calibration)
{
    qll_json_put_list(json, "groups");
    for (size_t i = 0; i < calibration->group_count; i++) {
        const qll_calibration_group *group = &calibration->groups[i];
        qll_json_open_object(json);
        qll_json_put_whole(json, "sites", (long long)group->count);
        qll_json_put_number(json, "predicted_share", group->chance);
        qll_json_put_whole(json, "called_back", (long long)group->happened);
        qll_json_put_number(json, "share_low", group->low);
        qll_json_put_number(json, "share_high", group->high);
        const qll_said says = group_says(json->writer->arena, group);
        qll_json_put_sentences(json, wording, &says, 1);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

void qll_ranking_write(qll_json *json, const qll_recorded_ranking *found)
{
    const qll_problems none = {0};
    const qll_calibration *calibration = &found->calibration;
    qll_json_open_object(json);
    qll_json_put_head(json, "rank", &found->wording, &none);
    qll_json_put_list(json, "sites");
    for (size_t i = 0; i < found->site_count; i++) {
        put_ranked(json, &found->wording, &found->sites[i]);
    }
    qll_json_close_list(json);
    qll_json_put_whole(json, "without_station", (long long)found->without_station);
    qll_json_put_object(json, "calibration");
    qll_json_put_whole(json, "watched", (long long)calibration->count);
    qll_json_put_whole(json, "called_back", (long long)calibration->happened);
    qll_json_put_number(json, "expected", calibration->expected);
    qll_json_put_number(json, "expected_low", calibration->expected_low);
    qll_json_put_number(json, "expected_high", calibration->expected_high);
    const bool is_told = qll_calibration_is_told(calibration);
    qll_json_put_figure(json, "odds_factor", is_told ? calibration->odds_factor : (double)NAN);
    qll_json_put_figure(json, "odds_factor_low", is_told ? calibration->factor_low : (double)NAN);
    qll_json_put_figure(json, "odds_factor_high", is_told ? calibration->factor_high : (double)NAN);
    if (is_told) {
        qll_json_put_bool(json, "fits", qll_calibration_fits(calibration));
    } else {
        qll_json_put_null(json, "fits");
    }
    put_groups(json, &found->wording, calibration);
    qll_said sentences[QLL_CALIBRATION_SENTENCES];
    const size_t count = qll_calibration_says(json->writer->arena, calibration, sentences);
    qll_json_put_sentences(json, &found->wording, sentences, count);
    qll_json_close_object(json);
    qll_json_close_object(json);
}
