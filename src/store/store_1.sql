-- The records. One text for SQLite and PostgreSQL: INTEGER, REAL, BLOB and STRICT are SQLite's words, for which
-- store/database_postgres.c puts PostgreSQL's.

-- The last receipt given. It is raised inside the transaction that writes the record, and the row is locked until that ends, so
-- that receipts become visible in their order and whoever asks for what came after one skips nothing.
CREATE TABLE counter (
    name TEXT PRIMARY KEY,
    value INTEGER NOT NULL
) STRICT;
INSERT INTO counter (name, value) VALUES ('receipt', 0);

-- Facts and versions of documents, whole. A row is never changed and never taken away.
CREATE TABLE records (
    id TEXT PRIMARY KEY,                        -- UUID, made where the record was made
    receipt INTEGER NOT NULL UNIQUE,
    kind TEXT NOT NULL,
    site TEXT,                                  -- no reference: records come in any order
    document TEXT,                              -- NULL of a fact
    corrects TEXT,                              -- of a fact; no reference, as above
    who TEXT NOT NULL,
    written_at TEXT NOT NULL,                   -- by the device's clock, as it wrote it
    written_ms INTEGER NOT NULL,                -- the same, since 1970
    body TEXT NOT NULL,                         -- JSON
    title TEXT,                                 -- of a site: its name; of a visit: its purpose
    words TEXT,                                 -- of a site: what a search looks through
    day TEXT,                                   -- of a visit: its day; of a plan: the first day
    every_months INTEGER,                       -- of a plan
    CHECK (document IS NULL OR corrects IS NULL)
) STRICT;
CREATE INDEX records_of_site ON records (site, written_ms, id);
CREATE INDEX records_of_document ON records (document, written_ms, id);
CREATE INDEX records_correcting ON records (corrects);

-- What each version came from.
CREATE TABLE parents (
    version TEXT NOT NULL REFERENCES records (id),
    parent TEXT NOT NULL,                       -- no reference, as above
    PRIMARY KEY (version, parent)
) STRICT;
CREATE INDEX parents_of ON parents (parent);

-- Facts and versions that nothing has taken the place of (docs/theory/records.md 2).
CREATE VIEW standing AS
SELECT r.* FROM records r
WHERE (r.document IS NULL
       AND NOT EXISTS (SELECT 1 FROM records c WHERE c.corrects = r.id)
       AND NOT EXISTS (SELECT 1 FROM records s
                       WHERE s.corrects = r.corrects AND (s.written_ms, s.id) > (r.written_ms, r.id)))
   OR (r.document IS NOT NULL
       AND NOT EXISTS (SELECT 1 FROM parents p JOIN records v ON v.id = p.version
                       WHERE p.parent = r.id AND v.document = r.document));

-- A site as its records tell it, worked out anew with each that comes: for lists, which go by (name_key, site).
CREATE TABLE sites (
    site TEXT PRIMARY KEY,
    number INTEGER NOT NULL UNIQUE,             -- receipt of the record that it came with
    name TEXT NOT NULL,
    name_key TEXT NOT NULL,
    plan_day TEXT,                              -- of the plan of service: its first day
    every_months INTEGER,                       -- of the plan of service
    service_day TEXT,                           -- of the last visit that counts
    conflicts INTEGER NOT NULL                  -- documents with more than one version that stands
) STRICT;
CREATE INDEX sites_by_name ON sites (name_key, site);

CREATE TABLE people (
    name TEXT PRIMARY KEY,
    password TEXT NOT NULL                      -- as the one who checks it made it
) STRICT;

-- Photos and sounds, by the SHA-256 of all of their bytes; they come in parts, one behind the other.
CREATE TABLE attachments (
    sha256 TEXT PRIMARY KEY,
    size INTEGER NOT NULL,
    held INTEGER NOT NULL,                      -- bytes that are there
    is_whole INTEGER NOT NULL,                  -- 1: all of them, and their hash is right
    CHECK (held <= size)
) STRICT;
CREATE TABLE attachment_parts (
    sha256 TEXT NOT NULL REFERENCES attachments (sha256),
    begins INTEGER NOT NULL,
    bytes BLOB NOT NULL,
    PRIMARY KEY (sha256, begins)
) STRICT;
