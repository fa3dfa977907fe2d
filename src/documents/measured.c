#include "documents/measured.h"

/* "20 %" of what may be said so. */
static bool read_percent(qll_text text, double *share)
{
    const qll_text trimmed = qll_text_trimmed(text);
    if (trimmed.size < 2 || trimmed.bytes[trimmed.size - 1] != '%') {
        return false;
    }
    const qll_text number = qll_text_trimmed((qll_text){trimmed.bytes, trimmed.size - 1});
    double percent = 0.0;
    if (qll_text_number(number, &percent) != number.size) {
        return false;
    }
    *share = percent / 100.0;
    return true;
}

bool qll_measured_read(qll_text text, const qll_evidence *evidence, qll_arena *arena, double *si,
                       qll_units_refusal *refusal)
{
    if (evidence->is_share && read_percent(text, si)) {
        return true;
    }
    qll_quantity quantity = {0};
    if (!qll_units_read(text, evidence->measure, arena, &quantity, refusal)) {
        return false;
    }
    *si = quantity.si;
    return true;
}
