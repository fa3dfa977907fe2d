-- What a store has taken, one by one: records, and photos and sounds that have become whole. Each mark is a digest of all that came up to
-- it and of the store itself, whose own name is number 0. Whoever was given one is told whether this is still the store, and the course of
-- it, that gave it (docs/theory/records.md 3). They are worked out by store/store_mark.c.
CREATE TABLE marks (
    number INTEGER PRIMARY KEY,
    mark TEXT NOT NULL,                         -- the number, a dot and the digest, as it is handed out
    receipt INTEGER UNIQUE,                     -- of a record; 0 of the store itself
    sha256 TEXT UNIQUE                          -- of a photo or sound
) STRICT;
