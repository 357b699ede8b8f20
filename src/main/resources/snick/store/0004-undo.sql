-- What was noted by mistake can be taken back: a withdrawal is a correction of an entry, and a cut
-- that was set aside can count again. Nothing is removed.

CREATE TABLE withdrawal (
  entry INTEGER PRIMARY KEY REFERENCES entry,
  stage INTEGER NOT NULL REFERENCES stage,
  at_utc_ns INTEGER NOT NULL
) STRICT;
CREATE INDEX withdrawal_of_stage ON withdrawal (stage);

ALTER TABLE set_aside ADD COLUMN counts_again INTEGER NOT NULL DEFAULT 0
  CHECK (counts_again IN (0, 1));
