#include "documents/record_fields.h"

#include "quell/records.h"

#include "documents/case_fields.h"
#include "documents/field_rows.h"
#include "documents/purpose.h"

/* A field is a row; see documents/field_rows.h. */
/* clang-format off */
static const qll_field record_fields[] = {
    {"record", QLL_VALUE_VERSION, QLL_NEEDED(VERSION)},
    {"id", QLL_VALUE_ID, QLL_NEEDED(RECORD_ID), QLL_FORM(RECORD_ID)},
    {"kind", QLL_VALUE_WORD, .words = qll_record_kind_words, .word_count = QLL_RECORD_KIND_COUNT,
        QLL_NEEDED(RECORD_KIND)},
    {"site", QLL_VALUE_ID, QLL_MEANS(RECORD_SITE), QLL_FORM(RECORD_ID)},
    {"document", QLL_VALUE_ID, QLL_MEANS(RECORD_DOCUMENT), QLL_FORM(RECORD_ID)},
    {"parents", QLL_VALUE_IDS, QLL_ENTRIES(QLL_RECORD_PARENTS), QLL_FORM(RECORD_IDS), QLL_MEANS(RECORD_PARENTS)},
    {"corrects", QLL_VALUE_ID, QLL_MEANS(RECORD_CORRECTS), QLL_FORM(RECORD_ID)},
    {"who", QLL_VALUE_TEXT, QLL_NEEDED(RECORD_WHO)},
    {"at", QLL_VALUE_MOMENT, QLL_NEEDED(RECORD_AT), QLL_FORM(RECORD_AT)},
    {"body", QLL_VALUE_BODY, QLL_NEEDED(RECORD_BODY), QLL_FORM(RECORD_BODY)},
};
QLL_GROUP(record, RECORD, "", record_fields);

static const qll_field site_fields[] = {
    {"name", QLL_VALUE_TEXT, QLL_NEEDED(RECORD_SITE_NAME)},
    {"address", QLL_VALUE_TEXT, QLL_MEANS(RECORD_SITE_ADDRESS)},
    {"contact", QLL_VALUE_TEXT, QLL_MEANS(RECORD_SITE_CONTACT)},
    {"phone", QLL_VALUE_TEXT, QLL_MEANS(RECORD_SITE_PHONE)},
    {"note", QLL_VALUE_TEXT, QLL_MEANS(RECORD_NOTE)},
};
QLL_GROUP(record_site, RECORD_SITE, "body", site_fields);

static const qll_field visit_fields[] = {
    {"purpose", QLL_VALUE_WORD, .words = qll_purpose_words, .word_count = QLL_PURPOSE_COUNT,
        QLL_NEEDED(RECORD_PURPOSE)},
    {"day", QLL_VALUE_DAY, QLL_FORM(RECORD_DAY), QLL_ELSE(RECORD_VISIT_DAY), QLL_MEANS(RECORD_VISIT_DAY)},
    {"case", QLL_VALUE_CASE, QLL_FORM(RECORD_CASE), QLL_MEANS(RECORD_CASE)},
    {"strainer", QLL_VALUE_OBJECT, QLL_MEANS(RECORD_STRAINER)},
    {"note", QLL_VALUE_TEXT, QLL_MEANS(RECORD_NOTE)},
};
QLL_GROUP(record_visit, RECORD_VISIT, "body", visit_fields);

static const qll_field strainer_fields[] = {
    {"loss", QLL_VALUE_QUANTITY, QLL_WITHIN(PRESSURE_DIFFERENCE, "0 psi", "400 psi", STRAINER_LOSS),
        QLL_MEANS(RECORD_STRAINER_LOSS)},
    {"flow", QLL_VALUE_QUANTITY, QLL_WITHIN(FLOW, "0 gpm", "20000 gpm", ONE_BUILDING),
        QLL_MEANS(RECORD_STRAINER_FLOW)},
    {"cleaned", QLL_VALUE_FLAG, QLL_MEANS(RECORD_STRAINER_CLEANED)},
};
QLL_GROUP(record_strainer, RECORD_STRAINER, "body.strainer", strainer_fields);

static const qll_field plan_fields[] = {
    {"every_months", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "120", SERVICE_MONTHS), QLL_NEEDED(RECORD_EVERY)},
    {"first", QLL_VALUE_DAY, QLL_FORM(RECORD_DAY), QLL_ELSE(RECORD_FIRST), QLL_MEANS(RECORD_FIRST)},
    {"note", QLL_VALUE_TEXT, QLL_MEANS(RECORD_NOTE)},
};
QLL_GROUP(record_plan, RECORD_PLAN, "body", plan_fields);

static const qll_field attachment_fields[] = {
    {"sha256", QLL_VALUE_HASH, QLL_NEEDED(RECORD_SHA256), QLL_FORM(RECORD_SHA256)},
    {"size", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "67108864", ATTACHMENT), QLL_NEEDED(RECORD_SIZE)},
    {"type", QLL_VALUE_TEXT, QLL_NEEDED(RECORD_TYPE)},
    {"caption", QLL_VALUE_TEXT, QLL_MEANS(RECORD_CAPTION)},
};
QLL_GROUP(record_attachment, RECORD_ATTACHMENT, "body", attachment_fields);

static const qll_field log_fields[] = {
    {"survey", QLL_VALUE_ID, QLL_NEEDED(RECORD_LOG_SURVEY), QLL_FORM(RECORD_ID)},
    {"name", QLL_VALUE_TEXT, QLL_NEEDED(RECORD_LOG_NAME)},
    {"sha256", QLL_VALUE_HASH, QLL_NEEDED(RECORD_SHA256), QLL_FORM(RECORD_SHA256)},
    {"size", QLL_VALUE_WHOLE, QLL_WITHIN(NUMBER, "1", "67108864", ATTACHMENT), QLL_NEEDED(RECORD_SIZE)},
    {"type", QLL_VALUE_TEXT, QLL_NEEDED(RECORD_TYPE)},
};
QLL_GROUP(record_log, RECORD_LOG, "body", log_fields);

/* clang-format on */

const qll_field_group *const *qll_record_groups(size_t *count)
{
    static const qll_field_group *const groups[] = {
        &qll_group_record,          &qll_group_record_site, &qll_group_record_visit,
        &qll_group_record_strainer, &qll_group_record_plan, &qll_group_record_attachment,
        &qll_group_record_log};
    *count = QLL_COUNT(groups);
    return groups;
}

const qll_field_group *qll_record_body_group(qll_record_kind kind)
{
    static const qll_field_group *const groups[QLL_RECORD_KIND_COUNT] = {
        [QLL_RECORD_VISIT] = &qll_group_record_visit,
        [QLL_RECORD_READING] = &qll_group_reading,
        [QLL_RECORD_TEST] = &qll_group_test,
        [QLL_RECORD_PHOTO] = &qll_group_record_attachment,
        [QLL_RECORD_SOUND] = &qll_group_record_attachment,
        [QLL_RECORD_LOG] = &qll_group_record_log,
        [QLL_RECORD_SITE] = &qll_group_record_site,
        [QLL_RECORD_PLAN] = &qll_group_record_plan,
    };
    return groups[kind];
}
