/* Passwords, tokens and base64: the one room of libsodium. */
#ifndef QUELL_SERVER_SECRET_H
#define QUELL_SERVER_SECRET_H

#include "base/text.h"

/** Makes the library ready; false where the system has no random numbers. More than once is harmless. */
bool qll_secret_begin(void);

/* A token as text, closed by a zero byte: 256 bits in hexadecimal, and 128 of a shorter one. */
#define QLL_TOKEN_SIZE       65
#define QLL_SHORT_TOKEN_SIZE 33

/** A token that nobody can guess; @p size one of the two above. */
void qll_secret_token(char *token, size_t size);

/* A digest of a token, which is kept in its place. */
#define QLL_SECRET_DIGEST_SIZE 32

void qll_secret_digest(qll_text text, unsigned char digest[QLL_SECRET_DIGEST_SIZE]);

/** Whether two digests are the same, in a time that does not tell where they differ. */
bool qll_secret_same(const unsigned char *a, const unsigned char *b);

/** A keyed password is this long with its zero byte, at most. */
#define QLL_PASSWORD_SIZE 128

/**
 * Works a password over by Argon2id (RFC 9106), 64 MiB and 2 passes, with a salt of its own.
 *
 * @return false without memory
 */
bool qll_password_key(qll_text password, char keyed[QLL_PASSWORD_SIZE]);

/** Whether @p password is the one that @p keyed was made of; takes 64 MiB and some 70 ms. */
bool qll_password_is(const char *keyed, qll_text password);

/** Overwrites a password that is needed no more. */
void qll_secret_wipe(char *bytes, size_t size);

/**
 * Undoes base64 (RFC 4648, section 4), padded, line breaks and blanks forgiven.
 *
 * @param bytes in @p arena
 * @return false where it is none, or without memory, which the arena counts
 */
bool qll_base64_undo(qll_text text, qll_arena *arena, qll_text *bytes);

#endif
