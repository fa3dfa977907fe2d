/* What a fuzz target demands of the reader, in every kind of build. */
#ifndef QUELL_FUZZ_REQUIRE_H
#define QUELL_FUZZ_REQUIRE_H

#include "../tests/said.h"
#include "base/problems.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define QLL_REQUIRE(condition)                                              \
    do {                                                                    \
        if (!(condition)) {                                                 \
            fprintf(stderr, "%s:%d: %s\n", __FILE__, __LINE__, #condition); \
            abort();                                                        \
        }                                                                   \
    } while (0)

/** Every problem has a sentence, a sensible place, and no control character anywhere. */
static inline void require_clean_problems(const qll_problems *problems)
{
    qll_writer writer = qll_writer_new(problems->arena);
    for (size_t i = 0; i < problems->kept_count; i++) {
        const qll_problem said = said_problem(problems, i);
        const qll_problem *problem = &said;
        QLL_REQUIRE(problem->text[0] != '\0');
        QLL_REQUIRE(problem->place.line >= 0 && problem->place.column >= 0);
        qll_problem_write(&writer, problem, NULL);
    }
    qll_text lines = qll_writer_text(&writer);
    QLL_REQUIRE(lines.bytes != NULL && qll_text_utf8_end(lines) == lines.size);
    size_t line_count = 0;
    for (size_t i = 0; i < lines.size; i++) {
        unsigned char byte = (unsigned char)lines.bytes[i];
        QLL_REQUIRE(byte == '\n' || (byte >= 0x20 && byte != 0x7F));
        line_count += byte == '\n' ? 1 : 0;
    }
    QLL_REQUIRE(line_count == problems->kept_count);
}

/** What people read: UTF-8 without control characters but line breaks. */
static inline void require_clean_text(qll_text text)
{
    QLL_REQUIRE(qll_text_utf8_end(text) == text.size);
    for (size_t i = 0; i < text.size; i++) {
        unsigned char byte = (unsigned char)text.bytes[i];
        QLL_REQUIRE(byte == '\n' || (byte >= 0x20 && byte != 0x7F));
    }
}

#endif
