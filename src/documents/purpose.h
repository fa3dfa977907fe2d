/* Why somebody came to a site. */
#ifndef QUELL_DOCUMENTS_PURPOSE_H
#define QUELL_DOCUMENTS_PURPOSE_H

/** X(NAME, word). The first and the third move the next due date (store_statements.sql, last-service). */
#define QLL_PURPOSE_LIST(X)           \
    X(SERVICE, "service")             \
    X(CALLBACK, "callback")           \
    X(COMMISSIONING, "commissioning") \
    X(OTHER, "other")

typedef enum qll_purpose {
#define QLL_PURPOSE_NAME(name, word) QLL_PURPOSE_##name,
    QLL_PURPOSE_LIST(QLL_PURPOSE_NAME)
#undef QLL_PURPOSE_NAME
    QLL_PURPOSE_COUNT
} qll_purpose;

extern const char *const qll_purpose_words[QLL_PURPOSE_COUNT];

#endif
