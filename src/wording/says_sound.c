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
