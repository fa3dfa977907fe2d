/* What a store of records refuses, in English. */
#include "wording/language.h"

#define QLL_PUT(name) [QLL_TEXT_##name - QLL_TEXT_FIRST_STORE]

const char *const qll_store_en[QLL_TEXT_SIZE(STORE)] = {
    QLL_PUT(STORE_NOT_THERE) = "there are no records at {1}",
    QLL_PUT(STORE_FOREIGN) = "{1} is no store of records of quell; it was not touched",
    QLL_PUT(STORE_NEWER) = "{1} was made by a newer quell: its version is {2}, this one reads versions up to {3}; it was not touched",
    QLL_PUT(STORE_OLDER) = "{1} is of version {2} and may only be read here: open it once where it may be written, and it is brought up to version {3}",
    QLL_PUT(STORE_DAMAGED) = "{1} is damaged ({2}); it was not touched: go back to a backup",
    QLL_PUT(STORE_FULL) = "the disk is full; nothing was changed",
    QLL_PUT(STORE_READ_ONLY) = "{1} may not be written to; nothing was changed",
    QLL_PUT(STORE_BUSY) = "another program writes to {1}; try again",
    QLL_PUT(STORE_FAILED) = "{1}: {2}; nothing was changed",
    QLL_PUT(STORE_NO_FILE) = "cannot open {1}: {2}",
    QLL_PUT(STORE_SAME_ID) = "another record has the id {1}",
    QLL_PUT(STORE_OWN_PARENT) = "the record {1} would come from itself",
    QLL_PUT(STORE_NOT_ONTO) = "somebody has changed it meanwhile: version {1} stands, and this one does not come from it",
    QLL_PUT(STORE_NO_POSTGRES) = "PostgreSQL needs libpq, which is not on this machine: {1}",
    QLL_PUT(STORE_NO_CONNECTION) = "the database does not answer: {1}",
    QLL_PUT(STORE_PART_GAP) = "a part begins at byte {1}, but only {2} bytes are there",
    QLL_PUT(STORE_PART_SIZE) = "a part goes beyond the {1} bytes that were said",
    QLL_PUT(STORE_PART_HASH) = "the bytes are not those of {1}: all parts were thrown away; send them again",
    QLL_PUT(STORE_PART_NAME) = "{1} is no SHA-256: 64 hexadecimal digits in small letters",
    QLL_PUT(STORE_BACKUP_THERE) = "{1} is there already; a backup takes the place of nothing",
    QLL_PUT(STORE_BACKUP_POSTGRES) = "PostgreSQL is backed up by its own tools",
    QLL_PUT(STORE_LIST_WRONG) = "the list of sites does not agree with the records of {1}",
    QLL_PUT(STORE_MARK_WRONG) = "the marks are not those of the records",
    QLL_PUT(STORE_RECEIPT_WRONG) = "the last receipt is {1}, but {2} records are there",
    QLL_PUT(STORE_HASH_WRONG) = "the bytes of the attachment {1} have changed",
    QLL_PUT(STORE_LOOSE_END) = "a row of {1} points at nothing",
};
