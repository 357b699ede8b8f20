-- A cut and its first result are one row, so that storing a cut writes fewer pages. As before, both
-- are written once: later results (cut_result) and forces (cut_force) are added. The current result
-- of a cut is its row of cut_result with the largest id, else the one in cut; the current force is
-- the row of cut_force of that result with the largest id. A force without result is of the first.

CREATE TABLE cut_and_result (
  id INTEGER PRIMARY KEY,
  recording INTEGER NOT NULL REFERENCES recording,
  number INTEGER NOT NULL CHECK (number >= 1),
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
  flags TEXT NOT NULL,
  UNIQUE (recording, number)
) STRICT;
INSERT INTO cut_and_result
  SELECT c.id, c.recording, c.number, c.occurred_at_utc_ns, c.samples, q.detector_version,
      q.created_at_utc_ns, q.outcome, q.polarity, q.onset_ns, q.break_ns, q.observed_max_counts,
      q.estimate_counts, q.u_counts, q.loading_rate_counts_per_s, q.fall_ns, q.dips, q.ramp_samples,
      q.zero_before_counts, q.zero_after_counts, q.noise_counts, q.flags
    FROM cut c
      LEFT JOIN cut_result q ON q.id = (SELECT min(f.id) FROM cut_result f WHERE f.cut = c.id)
    ORDER BY c.id;

CREATE TABLE later_result (
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
INSERT INTO later_result
  SELECT * FROM cut_result q
    WHERE q.id <> (SELECT min(f.id) FROM cut_result f WHERE f.cut = q.cut) ORDER BY q.id;

CREATE TABLE force_of_any_result (
  id INTEGER PRIMARY KEY,
  cut INTEGER NOT NULL REFERENCES cut,
  result INTEGER REFERENCES cut_result,
  calibration INTEGER NOT NULL REFERENCES calibration,
  created_at_utc_ns INTEGER NOT NULL,
  in_range INTEGER NOT NULL CHECK (in_range IN (0, 1)),
  force_n REAL NOT NULL,
  u_n REAL NOT NULL,
  degrees_of_freedom REAL,
  observed_max_n REAL NOT NULL
) STRICT;
INSERT INTO force_of_any_result
  SELECT f.id, q.cut, l.id, f.calibration, f.created_at_utc_ns, f.in_range, f.force_n, f.u_n,
      f.degrees_of_freedom, f.observed_max_n
    FROM cut_force f LEFT JOIN cut_result q ON q.id = f.result
      LEFT JOIN later_result l ON l.id = f.result
    ORDER BY f.id;

DROP TABLE cut_force;
DROP TABLE cut_result;
DROP TABLE cut;
ALTER TABLE cut_and_result RENAME TO cut;
ALTER TABLE later_result RENAME TO cut_result;
ALTER TABLE force_of_any_result RENAME TO cut_force;
CREATE INDEX cut_by_time ON cut (occurred_at_utc_ns);
CREATE INDEX result_of_cut ON cut_result (cut);
CREATE INDEX force_of_cut ON cut_force (cut);
