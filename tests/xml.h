/* A small reader of XML that only says whether a text is well-formed: for tests of what we draw. */
#ifndef QUELL_TESTS_XML_H
#define QUELL_TESTS_XML_H

#include "base/text.h"

#include <stdbool.h>
#include <string.h>

#define QLL_XML_DEEPEST 64

typedef struct xml_reader {
    const char *at, *end;

    struct {
        const char *name;
        size_t size;
    } open[QLL_XML_DEEPEST];

    size_t depth;
    size_t elements;
} xml_reader;

static inline bool xml_is_name(char byte)
{
    return (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z')
           || (byte >= '0' && byte <= '9') || byte == '-' || byte == ':' || byte == '_';
}

/* "&amp;" and the like; stands on the ampersand. */
static inline bool xml_entity(xml_reader *reader)
{
    static const char *const known[] = {"&amp;", "&lt;", "&gt;", "&quot;", "&#39;"};
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        size_t size = strlen(known[i]);
        if ((size_t)(reader->end - reader->at) >= size && memcmp(reader->at, known[i], size) == 0) {
            reader->at += size;
            return true;
        }
    }
    return false;
}

static inline size_t xml_name(xml_reader *reader)
{
    const char *start = reader->at;
    while (reader->at < reader->end && xml_is_name(*reader->at)) {
        reader->at += 1;
    }
    return (size_t)(reader->at - start);
}

static inline bool xml_value(xml_reader *reader)
{
    if (reader->end - reader->at < 2 || reader->at[0] != '=' || reader->at[1] != '"') {
        return false;
    }
    reader->at += 2;
    while (reader->at < reader->end && *reader->at != '"') {
        if (*reader->at == '<' || *reader->at == '>') {
            return false;
        }
        if (*reader->at != '&') {
            reader->at += 1;
        } else if (!xml_entity(reader)) {
            return false;
        }
    }
    reader->at += 1;
    return reader->at <= reader->end;
}

/* Stands on "<" of a tag. */
static inline bool xml_tag(xml_reader *reader)
{
    reader->at += 1;
    bool closes = reader->at < reader->end && *reader->at == '/';
    reader->at += closes ? 1 : 0;
    const char *name = reader->at;
    size_t size = xml_name(reader);
    if (size == 0) {
        return false;
    }
    while (!closes && reader->at < reader->end && *reader->at == ' ') {
        reader->at += 1;
        if (xml_name(reader) == 0 || !xml_value(reader)) {
            return false;
        }
    }
    bool empty = reader->at < reader->end && *reader->at == '/';
    reader->at += empty ? 1 : 0;
    if (reader->at >= reader->end || *reader->at != '>' || (closes && empty)) {
        return false;
    }
    reader->at += 1;
    if (closes) {
        reader->depth -= reader->depth > 0 ? 1 : 0;
        return reader->open[reader->depth].size == size
               && memcmp(reader->open[reader->depth].name, name, size) == 0;
    }
    reader->elements += 1;
    if (!empty) {
        if (reader->depth == QLL_XML_DEEPEST) {
            return false;
        }
        reader->open[reader->depth].name = name;
        reader->open[reader->depth].size = size;
        reader->depth += 1;
    }
    return true;
}

/* NULL if @p text is a well-formed document without control bytes, else where it goes wrong. */
static inline const char *xml_fault(qll_text text, size_t *elements)
{
    xml_reader reader = {.at = text.bytes, .end = text.bytes + text.size};
    size_t good = qll_text_utf8_end(text);
    if (good < text.size) {
        return text.bytes + good;
    }
    for (size_t i = 0; i < text.size; i++) {
        if ((unsigned char)text.bytes[i] < 0x20 && text.bytes[i] != '\n') {
            return text.bytes + i;
        }
    }
    if (text.size > 5 && memcmp(text.bytes, "<?xml", 5) == 0) {
        const char *closes = strstr(text.bytes, "?>");
        if (closes == NULL) {
            return text.bytes;
        }
        reader.at = closes + 2;
    }
    while (reader.at < reader.end) {
        const char *from = reader.at;
        bool outside = reader.depth == 0;
        bool holds = true;
        if (*from == '<') {
            holds = !(outside && reader.elements > 0) && xml_tag(&reader);
        } else if (*from == '&') {
            holds = !outside && xml_entity(&reader);
        } else {
            holds = *from != '>' && (!outside || *from == '\n');
            reader.at += 1;
        }
        if (!holds) {
            return from;
        }
    }
    *elements = reader.elements;
    return reader.depth == 0 && reader.elements > 0 ? NULL : reader.end;
}

#endif
