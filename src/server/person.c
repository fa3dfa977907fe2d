#include "server/person.h"

bool qll_name_is_fit(qll_text name)
{
    const qll_text trimmed = qll_text_trimmed(name);
    bool is_fit = name.size > 0 && trimmed.size == name.size && qll_text_utf8_end(name) == name.size
                  && qll_text_width(name) <= QLL_NAME_MOST;
    for (size_t i = 0; i < name.size && is_fit; i++) {
        is_fit = (unsigned char)name.bytes[i] >= ' ' && name.bytes[i] != 127;
    }
    return is_fit;
}
