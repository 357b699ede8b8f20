-- Where things came from that this store did not record itself: packages of others, old logs. What
-- has an origin here never counts as one's own: a foreign calibration is not used live, a foreign
-- session takes in no live cut.

CREATE TABLE origin (
  id INTEGER PRIMARY KEY,
  kind TEXT NOT NULL,
  sha256 TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  document TEXT NOT NULL,
  taken_in_utc_ns INTEGER NOT NULL
) STRICT;

CREATE TABLE recording_origin (
  recording INTEGER PRIMARY KEY REFERENCES recording,
  origin INTEGER NOT NULL REFERENCES origin
) STRICT;
CREATE INDEX recording_by_origin ON recording_origin (origin);

CREATE TABLE cut_origin (
  cut INTEGER PRIMARY KEY REFERENCES cut,
  origin INTEGER NOT NULL REFERENCES origin
) STRICT;
CREATE INDEX cut_by_origin ON cut_origin (origin);

CREATE TABLE calibration_origin (
  calibration INTEGER PRIMARY KEY REFERENCES calibration,
  origin INTEGER NOT NULL REFERENCES origin
) STRICT;
CREATE INDEX calibration_by_origin ON calibration_origin (origin);

CREATE TABLE session_origin (
  session INTEGER PRIMARY KEY REFERENCES session,
  origin INTEGER NOT NULL REFERENCES origin
) STRICT;
CREATE INDEX session_by_origin ON session_origin (origin);
