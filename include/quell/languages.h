/* The languages that answers are written in. */
#ifndef QUELL_LANGUAGES_H
#define QUELL_LANGUAGES_H

/** More languages than the program has, for a test: X(NAME, code). */
#ifndef QLL_LANGUAGES_ADDED
#    define QLL_LANGUAGES_ADDED(X)
#endif

/** X(NAME, code of ISO 639-1). The first is the one that stands in where another lacks an entry. */
#define QLL_LANGUAGE_LIST(X) \
    X(EN, en)                \
    X(ES, es)                \
    QLL_LANGUAGES_ADDED(X)

#endif
