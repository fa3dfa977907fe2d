/* One language more than the program has, for what is compiled with this header in front. */
#ifndef QUELL_TESTS_PSEUDO_LANGUAGE_H
#define QUELL_TESTS_PSEUDO_LANGUAGE_H

#define QLL_LANGUAGES_ADDED(X) X(PSEUDO, pseudo)

#endif
