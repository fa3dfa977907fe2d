-- Every statement of the store, one text for SQLite and PostgreSQL; store_search.sql and store_search_postgres.sql have those of
-- the search. A line "--: name" begins one. Values are $1, $2 and on, first used in that order: SQLite counts them so.

--: lock
-- Raises nothing: the row is locked until the transaction ends, so that writers take turns.
UPDATE counter SET value = value WHERE name = 'receipt' RETURNING value

--: raise
UPDATE counter SET value = $1 WHERE name = 'receipt'

--: receipt
SELECT value FROM counter WHERE name = 'receipt'

--: record-count
SELECT count(*) FROM records

--: mark
SELECT mark FROM marks WHERE number = $1

--: mark-of-receipt
SELECT mark FROM marks WHERE receipt = $1

--: mark-of-attachment
SELECT mark FROM marks WHERE sha256 = $1

--: last-mark
SELECT mark FROM marks ORDER BY number DESC LIMIT 1

--: put-mark
INSERT INTO marks (number, mark, receipt, sha256) VALUES ($1, $2, $3, $4)

--: record-ids
SELECT id, receipt FROM records ORDER BY receipt

--: marked
-- In order, and what each is of.
SELECT m.mark, coalesce(r.id, a.sha256) FROM marks m LEFT JOIN records r ON r.receipt = m.receipt
LEFT JOIN attachments a ON a.sha256 = m.sha256 AND a.is_whole = 1 WHERE m.number > 0 ORDER BY m.number

--: unmarked
-- What has no mark, if there is anything.
SELECT r.id FROM records r LEFT JOIN marks m ON m.receipt = r.receipt WHERE m.number IS NULL
UNION ALL
SELECT a.sha256 FROM attachments a LEFT JOIN marks m ON m.sha256 = a.sha256 WHERE a.is_whole = 1 AND m.number IS NULL
LIMIT 1

--: insert-record
INSERT INTO records (id, receipt, kind, site, document, corrects, who, written_at, written_ms, body, title, words, day,
                     every_months)
VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14)

--: insert-parent
INSERT INTO parents (version, parent) VALUES ($1, $2)

--: record
SELECT id, receipt, kind, site, document, corrects, who, written_at, written_ms, body, title, words, day, every_months
FROM records WHERE id = $1

--: parents
SELECT parent FROM parents WHERE version = $1 ORDER BY parent

--: comes-from
-- Whether the version $2 is among what $1 came from, however far back.
WITH RECURSIVE earlier (id) AS (
    SELECT CAST($1 AS TEXT)
    UNION
    SELECT p.parent FROM earlier e JOIN parents p ON p.version = e.id
)
SELECT 1 FROM earlier WHERE id = $2

--: corrects
-- The same of a fact, and of what $1 corrects.
WITH RECURSIVE earlier (id) AS (
    SELECT CAST($1 AS TEXT)
    UNION
    SELECT r.corrects FROM earlier e JOIN records r ON r.id = e.id WHERE r.corrects IS NOT NULL
)
SELECT 1 FROM earlier WHERE id = $2

--: heads
SELECT id, receipt, kind, site, document, corrects, who, written_at, written_ms, body, title, words, day, every_months
FROM standing WHERE document = $1 ORDER BY written_ms DESC, id DESC

--: versions
SELECT id, receipt, kind, site, document, corrects, who, written_at, written_ms, body, title, words, day, every_months
FROM records WHERE document = $1 ORDER BY receipt

--: changes
SELECT id, receipt, kind, site, document, corrects, who, written_at, written_ms, body, title, words, day, every_months
FROM records WHERE receipt > $1 ORDER BY receipt LIMIT $2

--: of-site
SELECT id, receipt, kind, site, document, corrects, who, written_at, written_ms, body, title, words, day, every_months
FROM standing WHERE site = $1 AND (written_ms, id) > ($2, $3) ORDER BY written_ms, id LIMIT $4

--: fact-sites
-- Of the fact $1 and of all that correct it: where one more correction comes, any of them may stand no longer.
SELECT site FROM records WHERE id = $1 OR corrects = $1

--: version-sites
-- Of the document $1: where one more version comes, any other may stand no longer, or stand in conflict with it.
SELECT DISTINCT site FROM records WHERE document = $1

--: site-shown
SELECT title, words FROM standing WHERE document = $1 AND kind = 'site' ORDER BY written_ms DESC, id DESC LIMIT 1

--: plan-shown
SELECT day, every_months FROM standing WHERE site = $1 AND kind = 'plan' ORDER BY written_ms DESC, id DESC LIMIT 1

--: last-service
-- Of the visits that move the next due date.
SELECT max(day) FROM standing WHERE site = $1 AND kind = 'visit' AND title IN ('service', 'commissioning')

--: conflict-count
-- Also where the versions of a document that stand are of several sites.
SELECT count(*) FROM (
    SELECT DISTINCT s.document FROM standing s JOIN standing o ON o.document = s.document AND o.id <> s.id
    WHERE s.site = $1 AND s.document IS NOT NULL
) AS several

--: put-site
INSERT INTO sites (site, number, name, name_key, plan_day, every_months, service_day, conflicts)
VALUES ($1, $2, $3, $4, $5, $6, $7, $8)
ON CONFLICT (site) DO UPDATE SET name = excluded.name, name_key = excluded.name_key, plan_day = excluded.plan_day,
    every_months = excluded.every_months, service_day = excluded.service_day, conflicts = excluded.conflicts

--: sites
SELECT site, name, plan_day, every_months, service_day, conflicts, name_key
FROM sites WHERE (name_key, site) > ($1, $2) ORDER BY name_key, site LIMIT $3

--: sites-called
-- Those with the name $1, and those whose id begins with $2, which $3 ends.
SELECT site, name, plan_day, every_months, service_day, conflicts, name_key FROM sites
WHERE name_key = $1 OR (site >= $2 AND site < $3) ORDER BY name_key, site LIMIT 20

--: planned
SELECT site, name, plan_day, every_months, service_day, conflicts, name_key FROM sites WHERE every_months IS NOT NULL

--: in-conflict
SELECT site, name, plan_day, every_months, service_day, conflicts, name_key FROM sites WHERE conflicts > 0
ORDER BY name_key, site

--: put-person
INSERT INTO people (name, password) VALUES ($1, $2) ON CONFLICT (name) DO UPDATE SET password = excluded.password

--: person
SELECT password FROM people WHERE name = $1

--: people
SELECT name FROM people ORDER BY name

--: attachment
SELECT size, held, is_whole FROM attachments WHERE sha256 = $1

--: attachments
SELECT sha256, size FROM attachments WHERE is_whole = 1 ORDER BY sha256

--: put-attachment
INSERT INTO attachments (sha256, size, held, is_whole) VALUES ($1, $2, $3, $4)
ON CONFLICT (sha256) DO UPDATE SET size = excluded.size, held = excluded.held, is_whole = excluded.is_whole

--: drop-parts
DELETE FROM attachment_parts WHERE sha256 = $1

--: put-part
INSERT INTO attachment_parts (sha256, begins, bytes) VALUES ($1, $2, $3)

--: part
-- The part with byte $2 in it.
SELECT begins, bytes FROM attachment_parts WHERE sha256 = $1 AND begins <= $2 ORDER BY begins DESC LIMIT 1

--: surveys
SELECT id, receipt, kind, site, document, corrects, who, written_at, written_ms, body, title, words, day, every_months
FROM standing WHERE kind = 'survey' AND receipt > $1 ORDER BY receipt LIMIT $2

--: keep-answer
INSERT INTO kept_answers (site, digest, day, answer) VALUES ($1, $2, $3, $4) ON CONFLICT (site, digest) DO NOTHING

--: kept-answers
SELECT site, digest, day, answer FROM kept_answers ORDER BY site, day, digest

--: callbacks
SELECT site, day FROM standing WHERE kind = 'visit' AND title = 'callback' ORDER BY site, day

--: loose-parents
SELECT p.version FROM parents p LEFT JOIN records r ON r.id = p.version WHERE r.document IS NULL LIMIT 1
