-- Full-text search over sites, PostgreSQL's.
CREATE TABLE site_words (
    site TEXT PRIMARY KEY,
    words TEXT NOT NULL
);
CREATE INDEX site_words_index ON site_words USING gin (to_tsvector('simple', words));
