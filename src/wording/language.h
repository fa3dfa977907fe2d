/* One language: its texts by parts. Each language is a folder of src/wording with one file for each. */
#ifndef QUELL_WORDING_LANGUAGE_H
#define QUELL_WORDING_LANGUAGE_H

#include "base/said.h"
#include "wording/messages.h"

typedef enum qll_text_part {
#define QLL_TEXT_PART_NAME(part, table, list) QLL_TEXT_PART_##part,
    QLL_TEXT_PART_LIST(QLL_TEXT_PART_NAME)
#undef QLL_TEXT_PART_NAME
    QLL_TEXT_PART_COUNT
} qll_text_part;

/** The texts of one language, each table by its own names. An entry nobody wrote is NULL, and a test
 * finds it. */
typedef struct qll_language_texts {
    const char *const *findings;
    const char *const *messages;
    const char *const *remarks;
    const char *const *report;
    const char *const *forms;
    const char *const *design;
    const char *const *calc;
    const char *const *pressure;
    const char *const *sound;
    const char *const *said[QLL_TEXT_PART_COUNT];
} qll_language_texts;

/** Declares the tables of the language with that code, which its folder defines. */
#define QLL_LANGUAGE_TABLES(name, code)                                              \
    extern const char *const qll_findings_##code[QLL_FINDING_COUNT];                 \
    extern const char *const qll_messages_##code[QLL_PEAKS_FIRST];                   \
    extern const char *const qll_remarks_##code[QLL_REPORT_FIRST - QLL_PEAKS_FIRST]; \
    extern const char *const qll_report_##code[QLL_FORMS_FIRST - QLL_REPORT_FIRST];  \
    extern const char *const qll_forms_##code[QLL_DESIGN_FIRST - QLL_FORMS_FIRST];   \
    extern const char *const qll_design_##code[QLL_CALC_FIRST - QLL_DESIGN_FIRST];   \
    extern const char *const qll_sound_##code[QLL_MESSAGE_COUNT - QLL_LISTEN_FIRST]; \
    extern const char *const qll_reason_##code[QLL_TEXT_SIZE(REASON)];               \
    extern const char *const qll_document_##code[QLL_TEXT_SIZE(DOCUMENT)];           \
    extern const char *const qll_field_##code[QLL_TEXT_SIZE(FIELD)];                 \
    extern const char *const qll_describe_##code[QLL_TEXT_SIZE(DESCRIBE)];           \
    extern const char *const qll_label_##code[QLL_TEXT_SIZE(LABEL)];                 \
    extern const char *const qll_word_##code[QLL_TEXT_SIZE(WORD)];                   \
    extern const char *const qll_reader_##code[QLL_TEXT_SIZE(READER)];               \
    extern const char *const qll_ask_##code[QLL_TEXT_SIZE(ASK)];                     \
    extern const char *const qll_handbook_##code[QLL_TEXT_SIZE(HANDBOOK)];           \
    extern const char *const qll_log_##code[QLL_TEXT_SIZE(LOG)];                     \
    extern const char *const qll_trouble_##code[QLL_TEXT_SIZE(TROUBLE)];             \
    extern const char *const qll_motion_##code[QLL_TEXT_SIZE(MOTION)];               \
    extern const char *const qll_store_##code[QLL_TEXT_SIZE(STORE)];                 \
    extern const char *const qll_record_##code[QLL_TEXT_SIZE(RECORD)];               \
    extern const char *const qll_cli_##code[QLL_TEXT_SIZE(CLI)];                     \
    extern const char *const qll_serve_##code[QLL_TEXT_SIZE(SERVE)];                 \
    extern const char *const qll_calc_##code[QLL_PRESSURE_FIRST - QLL_CALC_FIRST];   \
    extern const char *const qll_pressure_##code[QLL_LISTEN_FIRST - QLL_PRESSURE_FIRST];

QLL_LANGUAGE_LIST(QLL_LANGUAGE_TABLES)

/* What only programs say has no table where there is but the door for browsers. */
#ifdef QUELL_DOOR_ONLY
#    define QLL_OF_PROGRAMS(table) NULL
#else
#    define QLL_OF_PROGRAMS(table) table
#endif

/** Defines them as one; wording/messages.c does so for each language of the list. */
#define QLL_LANGUAGE_TEXTS(name, code)                                     \
    static const qll_language_texts qll_texts_##code = {                   \
        .findings = qll_findings_##code,                                   \
        .messages = qll_messages_##code,                                   \
        .remarks = qll_remarks_##code,                                     \
        .report = qll_report_##code,                                       \
        .forms = qll_forms_##code,                                         \
        .design = qll_design_##code,                                       \
        .calc = qll_calc_##code,                                           \
        .pressure = qll_pressure_##code,                                   \
        .sound = qll_sound_##code,                                         \
        .said =                                                            \
            {                                                              \
                [QLL_TEXT_PART_REASON] = qll_reason_##code,                \
                [QLL_TEXT_PART_DOCUMENT] = qll_document_##code,            \
                [QLL_TEXT_PART_FIELD] = qll_field_##code,                  \
                [QLL_TEXT_PART_DESCRIBE] = qll_describe_##code,            \
                [QLL_TEXT_PART_LABEL] = qll_label_##code,                  \
                [QLL_TEXT_PART_WORD] = qll_word_##code,                    \
                [QLL_TEXT_PART_READER] = qll_reader_##code,                \
                [QLL_TEXT_PART_ASK] = qll_ask_##code,                      \
                [QLL_TEXT_PART_HANDBOOK] = qll_handbook_##code,            \
                [QLL_TEXT_PART_LOG] = qll_log_##code,                      \
                [QLL_TEXT_PART_TROUBLE] = qll_trouble_##code,              \
                [QLL_TEXT_PART_MOTION] = qll_motion_##code,                \
                [QLL_TEXT_PART_STORE] = QLL_OF_PROGRAMS(qll_store_##code), \
                [QLL_TEXT_PART_RECORD] = qll_record_##code,                \
                [QLL_TEXT_PART_CLI] = QLL_OF_PROGRAMS(qll_cli_##code),     \
                [QLL_TEXT_PART_SERVE] = qll_serve_##code,                  \
            },                                                             \
    };

/** What the text @p id says in @p language, with {1}, {2} for its figures; NULL if nobody wrote it. */
const char *qll_said_entry(qll_language language, qll_text_id id);

#endif
