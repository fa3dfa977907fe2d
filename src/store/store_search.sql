-- The search over sites, SQLite's (FTS5). Statements as in store_statements.sql.

--: drop-words
DELETE FROM site_words WHERE rowid = (SELECT number FROM sites WHERE site = $1)

--: put-words
INSERT INTO site_words (rowid, words) SELECT number, $1 FROM sites WHERE site = $2

--: search
SELECT s.site, s.name, s.plan_day, s.every_months, s.service_day, s.conflicts, s.name_key
FROM site_words JOIN sites s ON s.number = site_words.rowid
WHERE site_words MATCH $1 ORDER BY site_words.rank, s.name_key, s.site LIMIT $2
