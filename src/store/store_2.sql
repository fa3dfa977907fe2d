-- What was worked out of a site's survey, so that it is not worked out again while nothing of it has changed, and can be held
-- against what happened later. It belongs to this store and goes into no export.
CREATE TABLE kept_answers (
    site TEXT NOT NULL,
    digest TEXT NOT NULL,                       -- of all that the answer comes from
    day TEXT NOT NULL,                          -- when it was worked out first
    answer TEXT NOT NULL,                       -- as the one who asked wrote it
    PRIMARY KEY (site, digest)
) STRICT;
CREATE INDEX kept_answers_by_day ON kept_answers (site, day);

-- All surveys and all callbacks: few among many, so that no index of all kinds leads a query about one site astray.
CREATE INDEX records_surveys ON records (receipt) WHERE kind = 'survey';
CREATE INDEX records_callbacks ON records (site, day) WHERE kind = 'visit' AND title = 'callback';
