/* What a recording says. */
#include "wording/texts.h"
#include "wording/wording.h"

#include <math.h>

/* "2410 Hz": the ear tells no more apart. */
static const char *hertz(qll_writer *writer, double hz)
{
    qll_writer text = qll_writer_new(writer->arena);
    const double step = hz >= 1000.0 ? 10.0 : 1.0;
    qll_write_format(&text, "%.0f Hz", step * floor(hz / step + 0.5));
    return qll_writer_text(&text).bytes;
}

static const char *decibels(qll_writer *writer, double db)
{
    qll_writer text = qll_writer_new(writer->arena);
    qll_write_format(&text, "%.0f dB", db);
    return qll_writer_text(&text).bytes;
}

/* The sentence of a kind: that of none is another where everything shut was heard too. */
static qll_message sentence_of(const qll_sound_result *result, qll_sound_kind kind)
{
    const bool has_quiet = (result->limits & (1U << QLL_SOUND_LIMIT_NO_QUIET)) == 0;
    return kind == QLL_SOUND_NONE && has_quiet
               ? QLL_SAYS_HEARD_NO_LOUDER
               : (qll_message)((size_t)QLL_SAYS_HEARD_SQUEAL + (size_t)kind);
}

void qll_wording_heard(qll_writer *writer, const qll_wording *wording,
                       const qll_sound_result *result, const qll_sound_share *share)
{
    const qll_sound_features *features = &result->stretches[share->stretch].features;
    const bool is_likely = share->confidence >= QLL_SOUND_LIKELY;
    const qll_filling fillings[] = {
        {"perhaps", is_likely ? NULL : qll_say(wording->language, QLL_SAYS_HEARD_PERHAPS)},
        {"share", qll_text_share(writer, wording->language, share->share)},
        {"sure", qll_text_whole(writer, fmin(9.0, fmax(1.0, floor(10.0 * share->confidence))))},
        {"tone", hertz(writer, features->tone_hz)},
        {"rate", qll_text_whole(writer, floor(features->repeat_hz + 0.5))},
        {"height", decibels(writer, features->thump_db)},
    };
    qll_say_with(writer, wording->language, sentence_of(result, share->kind), fillings, 6);
}

const char *qll_say_untold(qll_language language, qll_sound_limit limit)
{
    return qll_say(language, (qll_message)((size_t)QLL_SAYS_UNTOLD_LEVEL + (size_t)limit));
}

void qll_wording_seat_tone(qll_writer *writer, const qll_wording *wording,
                           const qll_seat_tone *tone, double tone_hz)
{
    const qll_filling fillings[] = {
        {"low", hertz(writer, tone->low_hz)},
        {"high", hertz(writer, tone->high_hz)},
        {"slow", qll_text_quantity(writer, tone->slow_m_s, QLL_KIND_VELOCITY, wording->units)},
        {"fast", qll_text_quantity(writer, tone->fast_m_s, QLL_KIND_VELOCITY, wording->units)},
    };
    qll_message says = QLL_SAYS_SEAT_TONE_ALONE;
    if (!isnan(tone_hz)) {
        const bool is_within = tone_hz >= tone->low_hz && tone_hz <= tone->high_hz;
        says = is_within ? QLL_SAYS_SEAT_TONE_WITHIN : QLL_SAYS_SEAT_TONE_OUTSIDE;
    }
    qll_say_with(writer, wording->language, says, fillings, 4);
}

/* "1 time in 40"; what was tried too seldom to say more, "less than 1 time in 1000". */
static const char *chance_text(qll_writer *writer, qll_language language, double chance)
{
    const bool is_less = chance < 0.001;
    if (!(chance <= 0.5)) {
        return qll_say(language, QLL_SAYS_ONE_IN_MOST);
    }
    const qll_filling filling = {"count",
                                 qll_text_whole(writer, is_less ? 1000.0 : floor(1.0 / chance))};
    qll_writer text = qll_writer_new(writer->arena);
    qll_say_with(&text, language, is_less ? QLL_SAYS_ONE_IN_MORE : QLL_SAYS_ONE_IN, &filling, 1);
    return qll_writer_text(&text).bytes;
}

/* "2.4 s" of a swing. */
static const char *period_text(qll_writer *writer, double hz)
{
    qll_writer text = qll_writer_new(writer->arena);
    qll_write_format(&text, "%.*f s", hz > 1.0 ? 2 : 1, 1.0 / hz);
    return qll_writer_text(&text).bytes;
}

static qll_message sentence_of_together(qll_beside_kind kind, const qll_together *together)
{
    static const qll_message firsts[QLL_BESIDE_COUNT] = {
        [QLL_BESIDE_BANGS] = QLL_SAYS_BANGS_TOGETHER,
        [QLL_BESIDE_RATIO] = QLL_SAYS_RATIO_TOGETHER,
        [QLL_BESIDE_SWING] = QLL_SAYS_SWING_TOGETHER};
    if (!together->is_judged) {
        return (qll_message)(firsts[kind] + 2);
    }
    return together->coincides ? firsts[kind] : (qll_message)(firsts[kind] + 1);
}

void qll_wording_together(qll_writer *writer, const qll_wording *wording, qll_beside_kind kind,
                          const qll_together *together)
{
    qll_writer correlation = qll_writer_new(writer->arena);
    qll_write_format(&correlation, "%.2f", together->correlation);
    const qll_filling fillings[] = {
        {"heard", qll_text_whole(writer, (double)together->heard)},
        {"logged", qll_text_whole(writer, (double)together->logged)},
        {"paired", qll_text_whole(writer, (double)together->paired)},
        {"chance", chance_text(writer, wording->language, together->chance)},
        {"correlation", qll_writer_text(&correlation).bytes},
        {"heard_period", period_text(writer, together->heard_hz)},
        {"logged_period", period_text(writer, together->logged_hz)},
    };
    qll_say_with(writer, wording->language, sentence_of_together(kind, together), fillings, 7);
}
