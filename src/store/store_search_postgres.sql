-- The search over sites, PostgreSQL's. Statements as in store_statements.sql.

--: drop-words
DELETE FROM site_words WHERE site = $1

--: put-words
INSERT INTO site_words (words, site) VALUES ($1, $2)

--: search
SELECT s.site, s.name, s.plan_day, s.every_months, s.service_day, s.conflicts, s.name_key
FROM site_words w JOIN sites s ON s.site = w.site
WHERE to_tsvector('simple', w.words) @@ to_tsquery('simple', $1)
ORDER BY ts_rank(to_tsvector('simple', w.words), to_tsquery('simple', $1)) DESC, s.name_key, s.site LIMIT $2
