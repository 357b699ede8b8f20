-- Raw facts (rig, recording, cut, cut_trace) are written once. Derived results (cut_result,
-- cut_force) are added, never changed: the current one of a cut is the one with the largest id.
-- Times are UTC in nanoseconds since 1970 where the name ends in _utc_ns, else device time in ns.

CREATE TABLE rig (
  id INTEGER PRIMARY KEY,
  device_id TEXT NOT NULL UNIQUE,
  first_seen_utc_ns INTEGER NOT NULL,
  last_seen_utc_ns INTEGER NOT NULL
) STRICT;

CREATE TABLE recording (
  id INTEGER PRIMARY KEY,
  rig INTEGER NOT NULL REFERENCES rig,
  firmware TEXT NOT NULL,
  source TEXT NOT NULL,
  form TEXT NOT NULL,
  started_at_utc_ns INTEGER NOT NULL,
  gain INTEGER,
  nominal_rate_hz REAL,
  decimals INTEGER NOT NULL,
  device_zero_utc_ns INTEGER,
  rate_error_ppm REAL,
  CHECK ((device_zero_utc_ns IS NULL) = (rate_error_ppm IS NULL))
) STRICT;
CREATE INDEX recording_of_rig ON recording (rig);

CREATE TABLE cut (
  id INTEGER PRIMARY KEY,
  recording INTEGER NOT NULL REFERENCES recording,
  number INTEGER NOT NULL CHECK (number >= 1),
  occurred_at_utc_ns INTEGER NOT NULL,
  samples INTEGER NOT NULL CHECK (samples >= 0),
  UNIQUE (recording, number)
) STRICT;
CREATE INDEX cut_by_time ON cut (occurred_at_utc_ns);
CREATE INDEX cut_of_recording_by_time ON cut (recording, occurred_at_utc_ns);

-- Apart from cut, so that lists do not read past the traces.
CREATE TABLE cut_trace (
  cut INTEGER PRIMARY KEY REFERENCES cut,
  crc32c INTEGER NOT NULL,
  samples BLOB NOT NULL
) STRICT;

CREATE TABLE cut_result (
  id INTEGER PRIMARY KEY,
  cut INTEGER NOT NULL REFERENCES cut,
  detector_version INTEGER NOT NULL,
  created_at_utc_ns INTEGER NOT NULL,
  outcome TEXT NOT NULL,
  polarity INTEGER NOT NULL CHECK (polarity IN (1, -1)),
  onset_ns INTEGER NOT NULL,
  break_ns INTEGER,
  observed_max_counts REAL,
  estimate_counts REAL,
  u_counts REAL,
  loading_rate_counts_per_s REAL,
  fall_ns INTEGER NOT NULL,
  dips INTEGER NOT NULL,
  ramp_samples INTEGER NOT NULL,
  zero_before_counts REAL,
  zero_after_counts REAL,
  noise_counts REAL,
  flags TEXT NOT NULL
) STRICT;
CREATE INDEX result_of_cut ON cut_result (cut);
