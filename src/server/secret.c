#include "server/secret.h"

#include <assert.h>
#include <sodium.h>
#include <string.h>

static_assert(QLL_PASSWORD_SIZE >= crypto_pwhash_STRBYTES, "a keyed password fits");
static_assert(QLL_SECRET_DIGEST_SIZE >= crypto_generichash_BYTES_MIN, "a digest is long enough");

bool qll_secret_begin(void)
{
    return sodium_init() >= 0;
}

void qll_secret_token(char *token, size_t size)
{
    unsigned char bytes[(QLL_TOKEN_SIZE - 1) / 2];
    assert(size == QLL_TOKEN_SIZE || size == QLL_SHORT_TOKEN_SIZE);
    randombytes_buf(bytes, (size - 1) / 2);
    (void)sodium_bin2hex(token, size, bytes, (size - 1) / 2);
}

void qll_secret_digest(qll_text text, unsigned char digest[QLL_SECRET_DIGEST_SIZE])
{
    const unsigned char *bytes = (const unsigned char *)text.bytes;
    (void)crypto_generichash(digest, QLL_SECRET_DIGEST_SIZE, bytes, text.size, NULL, 0);
}

bool qll_secret_same(const unsigned char *a, const unsigned char *b)
{
    return sodium_memcmp(a, b, QLL_SECRET_DIGEST_SIZE) == 0;
}

bool qll_password_key(qll_text password, char keyed[QLL_PASSWORD_SIZE])
{
    return crypto_pwhash_str_alg(keyed, password.bytes, password.size,
                                 crypto_pwhash_OPSLIMIT_INTERACTIVE,
                                 crypto_pwhash_MEMLIMIT_INTERACTIVE, crypto_pwhash_ALG_ARGON2ID13)
           == 0;
}

bool qll_password_is(const char *keyed, qll_text password)
{
    return crypto_pwhash_str_verify(keyed, password.bytes, password.size) == 0;
}

void qll_secret_wipe(char *bytes, size_t size)
{
    sodium_memzero(bytes, size);
}

bool qll_base64_undo(qll_text text, qll_arena *arena, qll_text *bytes)
{
    const size_t most = text.size / 4 * 3 + 3;
    char *room = qll_arena_take(arena, most + 1, 1);
    if (room == NULL) {
        return false;
    }
    size_t size = 0;
    const char *end = NULL;
    if (sodium_base642bin((unsigned char *)room, most, text.bytes, text.size, "\r\n\t ", &size,
                          &end, sodium_base64_VARIANT_ORIGINAL)
            != 0
        || end != text.bytes + text.size) {
        return false;
    }
    *bytes = (qll_text){room, size};
    return true;
}
