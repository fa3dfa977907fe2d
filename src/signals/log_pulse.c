/* The weight of a pulse, where a line above the rows tells it. */
#include "base/quote.h"
#include "signals/log_shape.h"

#include <math.h>
#include <string.h>

/* Weights that differ by less are one, written twice. */
#define QLL_WEIGHTS_APART 0.01

/* The one number over 0 of a text; NaN if there are none or several. */
static double only_number(qll_text text)
{
    double found = (double)NAN;
    size_t at = 0;
    while (at < text.size) {
        double value = 0.0;
        size_t size = qll_text_number((qll_text){text.bytes + at, text.size - at}, &value);
        if (size > 0 && value > 0.0) {
            if (!isnan(found)) {
                return (double)NAN;
            }
            found = value;
        }
        at += size > 0 ? size : 1;
    }
    return found;
}

/* The word that ends in front of byte @p end. */
static qll_text word_before(qll_text line, size_t end)
{
    size_t start = end;
    while (start > 0 && line.bytes[start - 1] != ' ' && line.bytes[start - 1] != '('
           && line.bytes[start - 1] != ',') {
        start -= 1;
    }
    return (qll_text){line.bytes + start, end - start};
}

/* The number right in front of byte @p end; NaN if another word stands there. */
static double number_before(qll_text line, size_t end)
{
    while (end > 0 && line.bytes[end - 1] == ' ') {
        end -= 1;
    }
    qll_text word = word_before(line, end);
    double value = 0.0;
    size_t size = qll_text_number(word, &value);
    return size > 0 && size == word.size && value > 0.0 ? value : (double)NAN;
}

/* "Logger 7, 0.0087 gal/pulse", "Resolution (L/pulse): 10": a volume's unit in front of the stroke at
 * @p at, and the number before it, else the only one behind, else the only one of the line. NaN if none
 * of them tells: a serial number is no pulse. */
static double weight_at(const qll_log_look *look, qll_text line, size_t at, size_t size)
{
    qll_text unit = word_before(line, at);
    qll_text behind = {line.bytes + at + size, line.size - at - size};
    double weight = number_before(line, at - unit.size);
    weight = isnan(weight) ? only_number(behind) : weight;
    weight = isnan(weight) ? only_number(line) : weight;
    return weight * qll_log_unit_factor(look, unit, QLL_KIND_VOLUME);
}

static bool refuse_two(const qll_log_look *look, long long line)
{
    return qll_log_refuse(look, QLL_CODE_CONTRADICTION, line, QLL_SAYS(LOG_TWO_PULSES),
                          QLL_SAYS(ASK_PULSE));
}

bool qll_log_pulse_find(const qll_log_look *look, double *pulse_m3)
{
    static const char mark[] = "/pulse";
    const size_t size = sizeof mark - 1;
    *pulse_m3 = (double)NAN;
    for (size_t i = 0; i < look->title_count; i++) {
        const qll_text line = look->lines[i];
        for (size_t at = 1; at + size <= line.size; at++) {
            if (memcmp(line.bytes + at, mark, size) != 0) {
                continue;
            }
            const double weight_m3 = weight_at(look, line, at, size);
            if (!isnan(weight_m3) && !isnan(*pulse_m3)
                && fabs(weight_m3 - *pulse_m3) > QLL_WEIGHTS_APART * *pulse_m3) {
                return refuse_two(look, (long long)i + 1);
            }
            *pulse_m3 = isnan(weight_m3) ? *pulse_m3 : weight_m3;
        }
    }
    return true;
}
