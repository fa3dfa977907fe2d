/* What every public header shares: what is handed to other programs, and what they must look at. */
#ifndef QUELL_API_H
#define QUELL_API_H

#if defined(__GNUC__)
/** Of everything that a program which uses the library may call; all else is hidden in it. */
#    define QLL_API      __attribute__((visibility("default")))
/** Of every function that can fail. */
#    define QLL_MUST_USE __attribute__((warn_unused_result))
#else
#    define QLL_API
#    define QLL_MUST_USE
#endif

#if defined(__clang__)
/** Of a type whose values must be looked at whichever function, a pointed-to one too, hands them out. */
#    define QLL_MUST_USE_TYPE __attribute__((warn_unused_result))
#else
#    define QLL_MUST_USE_TYPE /* gcc knows it of functions only */
#endif

/* For C++, around what a header declares. */
#if defined(__cplusplus)
#    define QLL_C_BEGIN extern "C" {
#    define QLL_C_END   }
#else
#    define QLL_C_BEGIN
#    define QLL_C_END
#endif

#endif
