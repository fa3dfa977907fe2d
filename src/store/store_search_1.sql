-- Full-text search over sites, SQLite's; a row's number is that of the site.
CREATE VIRTUAL TABLE site_words USING fts5 (words, tokenize = 'unicode61 remove_diacritics 2');
