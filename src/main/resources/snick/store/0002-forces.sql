-- What counts are worth (calibration and its parts), what was derived with it (cut_force), and the
-- evidence that a rig can be believed (verification, evidence). Forces in N.

CREATE TABLE calibration (
  number INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  device_id TEXT,
  gain INTEGER,
  nominal_rate_hz REAL,
  polarity INTEGER,
  made_utc_ns INTEGER NOT NULL,
  valid_for_ns INTEGER,
  degrees_of_freedom REAL NOT NULL,
  from_n REAL NOT NULL,
  to_n REAL NOT NULL,
  basis TEXT NOT NULL,
  document TEXT,
  created_at_utc_ns INTEGER NOT NULL,
  CHECK ((device_id IS NULL) = (gain IS NULL)
    AND (device_id IS NULL) = (nominal_rate_hz IS NULL)
    AND (device_id IS NULL) = (polarity IS NULL))
) STRICT;
CREATE INDEX calibration_of_device ON calibration (device_id);

-- Polynomial of force, counts/N^power.
CREATE TABLE calibration_coefficient (
  calibration INTEGER NOT NULL REFERENCES calibration,
  power INTEGER NOT NULL,
  value REAL NOT NULL,
  PRIMARY KEY (calibration, power)
) STRICT, WITHOUT ROWID;

CREATE TABLE calibration_covariance (
  calibration INTEGER NOT NULL REFERENCES calibration,
  power INTEGER NOT NULL,
  other_power INTEGER NOT NULL,
  value REAL NOT NULL,
  PRIMARY KEY (calibration, power, other_power)
) STRICT, WITHOUT ROWID;

CREATE TABLE calibration_term (
  calibration INTEGER NOT NULL REFERENCES calibration,
  position INTEGER NOT NULL,
  source TEXT NOT NULL,
  distribution TEXT NOT NULL,
  absolute_n REAL NOT NULL,
  relative REAL NOT NULL,
  degrees_of_freedom REAL NOT NULL,
  basis TEXT NOT NULL,
  PRIMARY KEY (calibration, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE cut_force (
  id INTEGER PRIMARY KEY,
  result INTEGER NOT NULL REFERENCES cut_result,
  calibration INTEGER NOT NULL REFERENCES calibration,
  created_at_utc_ns INTEGER NOT NULL,
  in_range INTEGER NOT NULL CHECK (in_range IN (0, 1)),
  force_n REAL NOT NULL,
  u_n REAL NOT NULL,
  degrees_of_freedom REAL,
  observed_max_n REAL NOT NULL
) STRICT;
CREATE INDEX force_of_result ON cut_force (result);
CREATE INDEX force_of_calibration ON cut_force (calibration);

-- A check mass read before a session.
CREATE TABLE verification (
  id INTEGER PRIMARY KEY,
  device_id TEXT NOT NULL,
  calibration INTEGER NOT NULL REFERENCES calibration,
  at_utc_ns INTEGER NOT NULL,
  known_n REAL NOT NULL,
  known_u_n REAL NOT NULL,
  shown_n REAL NOT NULL,
  shown_u_n REAL NOT NULL,
  limit_n REAL NOT NULL,
  document TEXT NOT NULL
) STRICT;
CREATE INDEX verification_of_device ON verification (device_id, at_utc_ns);
CREATE INDEX verification_by_calibration ON verification (calibration);

-- Other evidence about a rig, as a document: the dynamic check, a rig check.
CREATE TABLE evidence (
  id INTEGER PRIMARY KEY,
  device_id TEXT NOT NULL,
  kind TEXT NOT NULL,
  at_utc_ns INTEGER NOT NULL,
  document TEXT NOT NULL
) STRICT;
CREATE INDEX evidence_of_device ON evidence (device_id, kind, at_utc_ns);

CREATE TABLE fault (
  subject TEXT NOT NULL,
  kind TEXT NOT NULL,
  detail TEXT NOT NULL,
  count INTEGER NOT NULL,
  first_utc_ns INTEGER NOT NULL,
  last_utc_ns INTEGER NOT NULL,
  PRIMARY KEY (subject, kind)
) STRICT, WITHOUT ROWID;
