#include "base/character.h"

uint32_t qll_character_next(qll_text *rest)
{
    const char *at = rest->bytes;
    unsigned char first = (unsigned char)at[0];
    size_t size = first < 0x80 ? 1 : first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
    qll_text one = {at, size <= rest->size ? size : rest->size};
    if (qll_text_utf8_end(one) < size) {
        rest->bytes += 1;
        rest->size -= 1;
        return QLL_REPLACEMENT;
    }
    rest->bytes += size;
    rest->size -= size;
    uint32_t point = size == 1 ? first : first & (0x7FU >> size);
    for (size_t i = 1; i < size; i++) {
        point = point << 6 | ((unsigned char)at[i] & 0x3FU);
    }
    return point;
}

bool qll_character_is_unseen(uint32_t point)
{
    return point == 0xAD || point == 0x61C || (point >= 0x200B && point <= 0x200F)
           || (point >= 0x202A && point <= 0x202E) || (point >= 0x2060 && point <= 0x206F)
           || point == 0xFEFF || (point >= 0xFFF9 && point <= 0xFFFB)
           || (point >= 0xE0000 && point <= 0xE007F);
}

bool qll_character_is_control(uint32_t point)
{
    return point < 0x20 || (point >= 0x7F && point < 0xA0) || point == 0x2028 || point == 0x2029;
}
