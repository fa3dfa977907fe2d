/* How loops over independent elements are made fast: only what no compiler sees by itself is said here. */
#ifndef QUELL_BASE_WIDE_H
#define QUELL_BASE_WIDE_H

#include <stdint.h> /* says whether the C library is GNU's: another one cannot choose between clones when a program starts */

/* Before a function: where the machine has wider vectors they are taken. The bits are the same, as nothing is fused or reordered. */
#if defined(__x86_64__) && defined(__GLIBC__) && defined(__GNUC__) && !defined(__clang__) \
    && defined(__OPTIMIZE__) && !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#    define QLL_WIDE __attribute__((target_clones("avx2", "default")))
#else
#    define QLL_WIDE
#endif

/* Before a loop: nothing that it writes is read by another round of it. */
#if defined(__GNUC__) && !defined(__clang__)
#    define QLL_APART _Pragma("GCC ivdep")
#else
#    define QLL_APART
#endif

#endif
