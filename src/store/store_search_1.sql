-- Full-text search over sites, SQLite's.
CREATE VIRTUAL TABLE site_words USING fts5 (site UNINDEXED, words, tokenize = 'unicode61 remove_diacritics 2');
