/* What the files of the door share: who goes in and out by what name, and the question at hand. */
#ifndef QUELL_WEB_DOOR_H
#define QUELL_WEB_DOOR_H

#include "quell/quell.h"

#include "base/document.h"

#if defined(__wasm__)
#    define QLL_EXPORT(name) __attribute__((export_name(#    name)))
#    define QLL_IMPORT(name) __attribute__((import_module("quell"), import_name(#    name)))
#else
#    define QLL_EXPORT(name)
#    define QLL_IMPORT(name)
#endif

/* As many documents as a survey may name logs, and some (our assumption). */
#define QLL_INPUTS_MOST 64

typedef struct qll_door {
    qll_arena *arena;                 /* of the question at hand; NULL without memory */
    qll_text inputs[QLL_INPUTS_MOST]; /* as they were handed in */
    size_t input_count;
    qll_answer answer;
} qll_door;

extern qll_door door;

/** The text at @p key, closed by a zero byte; NULL where there is none. */
const char *qll_door_text(const qll_node *question, const char *key);

#endif
