#include "report/markup.h"

#include <math.h>

void qll_markup_write_clean(qll_writer *writer, qll_text text)
{
    size_t start = 0;
    for (size_t i = 0; i < text.size; i++) {
        const char *entity = NULL;
        switch (text.bytes[i]) {
        case '&': entity = "&amp;"; break;
        case '<': entity = "&lt;"; break;
        case '>': entity = "&gt;"; break;
        case '"': entity = "&quot;"; break;
        case '\'': entity = "&#39;"; break;
        default: continue;
        }
        qll_write_text(writer, (qll_text){text.bytes + start, i - start});
        qll_write(writer, entity);
        start = i + 1;
    }
    qll_write_text(writer, (qll_text){text.bytes + start, text.size - start});
}

void qll_markup_write(qll_writer *writer, const char *closed)
{
    qll_markup_write_clean(writer, qll_text_clean(qll_text_of(closed), writer->arena));
}

static unsigned channel(double share)
{
    return share > 0 ? (unsigned)(fmin(share, 1) * 255 + 0.5) : 0;
}

void qll_markup_write_colour(qll_writer *writer, qll_colour colour)
{
    static const char digits[] = "0123456789abcdef";
    const unsigned parts[] = {channel(colour.red), channel(colour.green), channel(colour.blue)};
    qll_write(writer, "#");
    for (size_t i = 0; i < 3; i++) {
        qll_write_byte(writer, digits[parts[i] >> 4], 1);
        qll_write_byte(writer, digits[parts[i] & 15U], 1);
    }
}
