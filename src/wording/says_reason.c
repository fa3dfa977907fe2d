#include "wording/says_reason.h"

#include "base/count.h"
#include "wording/language.h"

#include <string.h>

/* The English words are those of the host and of the C library in the C locale. */
qll_argument qll_as_reason(const char *why)
{
    static const qll_text_id reasons[] = {
        QLL_TEXT_WHY_FILE_MISSING,   QLL_TEXT_WHY_FILE_DENIED,  QLL_TEXT_WHY_FILE_FOLDER,
        QLL_TEXT_WHY_FILE_NO_FOLDER, QLL_TEXT_WHY_FILE_FULL,    QLL_TEXT_WHY_FILE_READ_ONLY,
        QLL_TEXT_WHY_FILE_LONG_NAME, QLL_TEXT_WHY_FILE_DEVICE,  QLL_TEXT_WHY_FILE_LARGE,
        QLL_TEXT_WHY_FILE_NO_MORE,   QLL_TEXT_WHY_FILE_ONCE,    QLL_TEXT_WHY_FILE_REFUSES,
        QLL_TEXT_WHY_FILE_LINK,      QLL_TEXT_WHY_GZIP_DAMAGED, QLL_TEXT_WHY_SOUND_DAMAGED};

    for (size_t i = 0; why != NULL && i < QLL_COUNT(reasons); i++) {
        if (strcmp(qll_said_entry(QLL_LANGUAGE_EN, reasons[i]), why) == 0) {
            return qll_as_text(reasons[i]);
        }
    }
    return qll_as_is(why);
}
