-- Two trees less to write to for each cut. A trace lies at the place that its recording and number
-- make, recording * 2^32 + number: so there can be only one of a number, without an index for that.
-- cut_time is the order by time of all cuts but the newest: a block of 64 ids comes in with its
-- last cut; those of the block not yet full are few, and are found in cut.

CREATE TABLE cut_without_index (
  id INTEGER PRIMARY KEY,
  recording INTEGER NOT NULL REFERENCES recording,
  number INTEGER NOT NULL CHECK (number BETWEEN 1 AND 2147483647),
  occurred_at_utc_ns INTEGER NOT NULL,
  samples INTEGER NOT NULL CHECK (samples >= 0),
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
INSERT INTO cut_without_index SELECT * FROM cut ORDER BY id;

CREATE TABLE trace_at_its_place (
  place INTEGER PRIMARY KEY,
  cut INTEGER NOT NULL REFERENCES cut,
  crc32c INTEGER NOT NULL,
  samples BLOB NOT NULL
) STRICT;
INSERT INTO trace_at_its_place
  SELECT (c.recording << 32) + c.number, t.cut, t.crc32c, t.samples
    FROM cut_trace t LEFT JOIN cut c ON c.id = t.cut ORDER BY t.cut;

DROP TABLE cut_trace;
DROP TABLE cut;
ALTER TABLE cut_without_index RENAME TO cut;
ALTER TABLE trace_at_its_place RENAME TO cut_trace;

CREATE TABLE cut_time (
  occurred_at_utc_ns INTEGER NOT NULL,
  id INTEGER NOT NULL REFERENCES cut,
  PRIMARY KEY (occurred_at_utc_ns, id)
) STRICT, WITHOUT ROWID;
INSERT INTO cut_time
  SELECT occurred_at_utc_ns, id FROM cut WHERE id <= (SELECT max(id) FROM cut) / 64 * 64
    ORDER BY occurred_at_utc_ns, id;
