/* A record in: read or refused with a clean sentence; what is read is written and read back as the same, and can be told of. And an export, cut into records in
 * crumbs of any size as in one block. */
#include "quell/records.h"

#include "base/text.h"
#include "require.h"

#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const char *const today = "2026-11-30";

static void tell(const qll_record *record, qll_arena *arena)
{
    const qll_telling telling = {.form = QLL_FORM_TEXT, .today = today};
    const qll_site_row row = {
        .site = record->site == NULL ? record->id : record->site,
        .name = record->title == NULL ? "" : record->title,
        .name_key = "",
        .plan_day = record->day,
        .every_months = record->every_months,
        .conflicts = 1,
    };
    qll_answer answer;
    qll_status status = qll_tell_site(&telling, &row, record, 1, arena, &answer);
    QLL_REQUIRE(status == QLL_OK || status == QLL_NO_MEMORY);
    if (status == QLL_OK) {
        require_clean_text((qll_text){answer.bytes, answer.size});
    }
    status = qll_tell_trend(&telling, &row, record, 1, arena, &answer);
    QLL_REQUIRE(status == QLL_OK || status == QLL_NO_MEMORY);
    status = qll_tell_readings(&row, record, 1, true, arena, &answer);
    QLL_REQUIRE(status == QLL_OK || status == QLL_NO_MEMORY);
    status = qll_tell_calendar(&telling, &row, 1, "20261130T120000Z", arena, &answer);
    QLL_REQUIRE(status == QLL_OK || status == QLL_NO_MEMORY);
}

static void read_one(qll_text text)
{
    qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
    const qll_input input = {"record.json", text.bytes, text.size};
    qll_record record;
    qll_answer answer;
    const qll_status status = qll_record_read(NULL, &input, "en", arena, &record, &answer);
    QLL_REQUIRE(status == QLL_OK || status == QLL_REFUSED || status == QLL_NO_MEMORY);
    QLL_REQUIRE(status != QLL_REFUSED || answer.problem_count > 0);
    if (status == QLL_OK) {
        qll_text json = {0};
        qll_text twice = {0};
        qll_record again;
        QLL_REQUIRE(qll_record_write(&record, arena, &json) == QLL_OK);
        const qll_input written = {"again.json", json.bytes, json.size};
        QLL_REQUIRE(qll_record_read(NULL, &written, "en", arena, &again, &answer) == QLL_OK);
        QLL_REQUIRE(qll_record_write(&again, arena, &twice) == QLL_OK);
        QLL_REQUIRE(qll_text_equal(json, twice));
        QLL_REQUIRE(record.written_ms == again.written_ms);
        tell(&record, arena);
    }
    qll_arena_close(arena);
}

typedef struct split_sum {
    size_t count, size;
    unsigned sum;
} split_sum;

static qll_status take(void *context, qll_text json, qll_split_of of)
{
    split_sum *found = context;
    found->count += 1;
    found->size += json.size;
    for (size_t i = 0; i < json.size; i++) {
        found->sum = found->sum * 31 + (unsigned char)json.bytes[i] + (unsigned)of;
    }
    return QLL_OK;
}

static split_sum split_in(qll_text text, size_t crumb, qll_status *status)
{
    qll_arena *arena = qll_arena_open((size_t)64 * 1024 * 1024);
    split_sum found = {0};
    qll_record_split *split = qll_record_split_begin(take, &found, arena);
    QLL_REQUIRE(split != NULL);
    *status = QLL_OK;
    for (size_t at = 0; at < text.size && *status == QLL_OK; at += crumb) {
        const size_t left = text.size - at;
        *status = qll_record_split_take(split, text.bytes + at, left < crumb ? left : crumb);
    }
    qll_arena_close(arena);
    return found;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    const qll_text text = {(const char *)data, size};
    qll_status whole = QLL_OK;
    qll_status crumbs = QLL_OK;
    read_one(text);
    const split_sum one = split_in(text, size + 1, &whole);
    const split_sum many = split_in(text, 7, &crumbs);
    QLL_REQUIRE(whole == crumbs && one.count == many.count && one.size == many.size
                && one.sum == many.sum);
    return 0;
}
