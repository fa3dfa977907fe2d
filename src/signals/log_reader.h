/* The reader of one log, for the files that make it up: flow_log.c, log_trust.c, log_again.c. */
#ifndef QUELL_SIGNALS_LOG_READER_H
#define QUELL_SIGNALS_LOG_READER_H

#include "signals/log_encoding.h"
#include "signals/log_row.h"

/* Why a finished log should be read again. */
typedef enum qll_log_again {
    QLL_LOG_AGAIN_NOT,
    QLL_LOG_AGAIN_ORDER, /* rows too far from their place */
    QLL_LOG_AGAIN_ODD,   /* few rows far over all others */
} qll_log_again;

struct qll_flow_log {
    qll_flow_log_options options;
    qll_arena *arena;
    qll_problems problems;
    qll_status status;
    char *head, *carry;
    size_t head_size, carry_size;
    bool begun, ended_early, fast;
    long long line_count;
    qll_utf16 utf16;
    qll_log_look look;
    qll_log_shape *shape;
    qll_log_lane lanes[QLL_LOG_ORDER_COUNT];
    size_t lane_count;
    qll_log_again wants;
    double odd_m3s, next_m3s; /* flow of the odd rows, and the greatest of the others */
};

/**
 * Is a log that was read to its end to be believed? Fills in the notes of @p result, and says in
 * @p log whether it should be read again.
 *
 * @return false after a refusal
 */
bool qll_log_trust(qll_flow_log *log, qll_flow_log_result *result);

/** The part of it that counts rows, which holds for any log. */
bool qll_log_trust_rows(qll_flow_log *log, const qll_flow_log_result *result);

/** The meter's step and its damping, from a finished result (log_meter.c); false without memory. */
QLL_MUST_USE bool qll_log_meter_of(const qll_records *records, qll_arena *arena,
                                   qll_flow_log_result *result);

#endif
