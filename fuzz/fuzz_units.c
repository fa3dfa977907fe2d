/* Any bytes as a quantity of every kind: read or refused with a clean sentence; what is read can be
 * written. */
#include "base/units.h"
#include "require.h"

#include <math.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void require_clean(const char *closed)
{
    qll_text text = qll_text_of(closed);
    QLL_REQUIRE(qll_text_utf8_end(text) == text.size);
    for (size_t i = 0; i < text.size; i++) {
        QLL_REQUIRE((unsigned char)text.bytes[i] >= 0x20 && text.bytes[i] != 0x7F);
    }
}

static void require_refusal(const qll_units_refusal *refusal, qll_arena *arena)
{
    QLL_REQUIRE(refusal->code == QLL_CODE_NO_NUMBER || refusal->code == QLL_CODE_NO_UNIT
                || refusal->code == QLL_CODE_UNKNOWN_UNIT || refusal->code == QLL_CODE_WRONG_UNIT
                || refusal->code == QLL_CODE_OUT_OF_RANGE);
    const char *says = said_text(arena, &refusal->says);
    QLL_REQUIRE(says != NULL && says[0] == '"');
    require_clean(says);
    require_clean(refusal->hint);
    QLL_REQUIRE(strlen(says) < 1000);
}

static void require_writable(double si, qll_kind kind, qll_arena *arena)
{
    QLL_REQUIRE(isfinite(si));
    for (int system = QLL_UNITS_US; system <= QLL_UNITS_SI; system++) {
        qll_writer writer = qll_writer_new(arena);
        qll_units_write(&writer, si, kind, (qll_unit_system)system);
        qll_units_write_bare(&writer, si, kind, (qll_unit_system)system);
        qll_text written = qll_writer_text(&writer);
        QLL_REQUIRE(written.bytes != NULL && strstr(written.bytes, "nan") == NULL);
        QLL_REQUIRE(written.size > 0 && strstr(written.bytes, "inf") == NULL);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    qll_arena *arena = qll_arena_open((size_t)64 * 1024 * 1024);
    qll_text text = {.bytes = (const char *)data, .size = size};
    for (int kind = 0; kind < QLL_KIND_COUNT; kind++) {
        qll_quantity quantity;
        qll_units_refusal refusal;
        if (qll_units_read(text, (qll_kind)kind, arena, &quantity, &refusal)) {
            require_writable(quantity.si, (qll_kind)kind, arena);
        } else {
            require_refusal(&refusal, arena);
        }
    }
    qll_arena_close(arena);
    return 0;
}
