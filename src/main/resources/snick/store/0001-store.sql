-- Raw facts (rig, recording, cut, cut_trace) are written once, a cut's first result with it. Later
-- results (cut_result) and forces (cut_force) are added, never changed. The current result of a cut
-- is its row of cut_result with the largest id, else the one in cut; the current force is the row of
-- cut_force of that result with the largest id. A force without result is of the first.
-- Why a cut had no force when it was recorded is in force_missing.
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
CREATE INDEX recording_of_rig_by_start ON recording (rig, started_at_utc_ns);

CREATE TABLE cut (
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
  response INTEGER REFERENCES response,
  force_missing TEXT,
  UNIQUE (recording, number)
) STRICT;
CREATE INDEX cut_by_time ON cut (occurred_at_utc_ns);

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
  flags TEXT NOT NULL,
  response INTEGER REFERENCES response
) STRICT;
CREATE INDEX result_of_cut ON cut_result (cut);

-- How a rig answers a sudden fall, as learned from falls (response_cut): what a result was derived
-- with (response in cut and cut_result; NULL: nothing was known yet).
CREATE TABLE response (
  number INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  device_id TEXT NOT NULL,
  nominal_rate_hz REAL,
  made_utc_ns INTEGER NOT NULL,
  falls INTEGER NOT NULL,
  hertz REAL,
  u_hertz REAL,
  damping_ratio REAL,
  u_ln_damping_ratio REAL,
  cosine REAL,
  sine REAL,
  first_s REAL,
  step_s REAL
) STRICT;
CREATE INDEX response_of_device ON response (device_id);

-- Share of the step still to fall, first_s + position * step_s after the equal-area instant.
CREATE TABLE response_share (
  id INTEGER PRIMARY KEY,
  response INTEGER NOT NULL REFERENCES response,
  position INTEGER NOT NULL,
  share REAL NOT NULL,
  u REAL NOT NULL,
  UNIQUE (response, position)
) STRICT;

CREATE TABLE response_cut (
  id INTEGER PRIMARY KEY,
  response INTEGER NOT NULL REFERENCES response,
  cut INTEGER NOT NULL REFERENCES cut,
  UNIQUE (response, cut)
) STRICT;

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
  id INTEGER PRIMARY KEY,
  calibration INTEGER NOT NULL REFERENCES calibration,
  power INTEGER NOT NULL,
  value REAL NOT NULL,
  UNIQUE (calibration, power)
) STRICT;

CREATE TABLE calibration_covariance (
  id INTEGER PRIMARY KEY,
  calibration INTEGER NOT NULL REFERENCES calibration,
  power INTEGER NOT NULL,
  other_power INTEGER NOT NULL,
  value REAL NOT NULL,
  UNIQUE (calibration, power, other_power)
) STRICT;

CREATE TABLE calibration_term (
  id INTEGER PRIMARY KEY,
  calibration INTEGER NOT NULL REFERENCES calibration,
  position INTEGER NOT NULL,
  source TEXT NOT NULL,
  distribution TEXT NOT NULL,
  absolute_n REAL NOT NULL,
  relative REAL NOT NULL,
  degrees_of_freedom REAL NOT NULL,
  basis TEXT NOT NULL,
  UNIQUE (calibration, position)
) STRICT;

CREATE TABLE cut_force (
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
CREATE INDEX force_of_cut ON cut_force (cut);

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

-- The person's side. An entry is never changed: a correction is a further entry that names the one
-- it replaces. Standing entries are those that none corrects.

CREATE TABLE entry (
  id INTEGER PRIMARY KEY,
  recorded_utc_ns INTEGER NOT NULL,
  corrects INTEGER UNIQUE REFERENCES entry CHECK (corrects < id),
  why TEXT NOT NULL
) STRICT;

-- What is of a blade that was merged into another is read as of that one.
CREATE TABLE blade (
  id INTEGER PRIMARY KEY,
  label TEXT NOT NULL UNIQUE,
  merged_into INTEGER REFERENCES blade
) STRICT;

CREATE TABLE blade_entry (
  entry INTEGER PRIMARY KEY REFERENCES entry,
  blade INTEGER NOT NULL REFERENCES blade,
  steel TEXT NOT NULL,
  hardness_hrc REAL,
  edge_angle_degrees REAL,
  thickness_behind_edge_mm REAL,
  edge_length_mm REAL,
  margin_gf REAL,
  notes TEXT NOT NULL
) STRICT;
CREATE INDEX entry_of_blade ON blade_entry (blade);

CREATE TABLE filament_lot (
  id INTEGER PRIMARY KEY,
  lot TEXT NOT NULL UNIQUE
) STRICT;

CREATE TABLE filament_lot_entry (
  entry INTEGER PRIMARY KEY REFERENCES entry,
  filament_lot INTEGER NOT NULL REFERENCES filament_lot,
  material TEXT NOT NULL,
  diameter_mm REAL NOT NULL,
  tension_n REAL
) STRICT;
CREATE INDEX entry_of_filament_lot ON filament_lot_entry (filament_lot);

CREATE TABLE session (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL UNIQUE,
  closed_utc_ns INTEGER
) STRICT;
CREATE INDEX session_running ON session (id) WHERE closed_utc_ns IS NULL;

CREATE TABLE session_entry (
  entry INTEGER PRIMARY KEY REFERENCES entry,
  session INTEGER NOT NULL REFERENCES session,
  blade INTEGER NOT NULL REFERENCES blade,
  filament_lot INTEGER REFERENCES filament_lot,
  rig TEXT,
  calibration TEXT,
  room_celsius REAL,
  operator TEXT,
  opened_utc_ns INTEGER NOT NULL
) STRICT;
CREATE INDEX entry_of_session ON session_entry (session);
CREATE INDEX session_of_blade ON session_entry (blade);
CREATE INDEX session_of_filament_lot ON session_entry (filament_lot);

-- What is in a stage that was merged into another is read as in that one; its own position is below 0.
CREATE TABLE stage (
  id INTEGER PRIMARY KEY,
  session INTEGER NOT NULL REFERENCES session,
  position INTEGER NOT NULL,
  name TEXT NOT NULL,
  merged_into INTEGER REFERENCES stage,
  UNIQUE (session, position)
) STRICT;

CREATE TABLE sharpening_step (
  entry INTEGER PRIMARY KEY REFERENCES entry,
  stage INTEGER NOT NULL REFERENCES stage,
  at_utc_ns INTEGER NOT NULL,
  abrasive TEXT NOT NULL,
  grit INTEGER,
  micron REAL,
  direction TEXT,
  strokes_per_side INTEGER,
  pressure TEXT,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX step_of_stage ON sharpening_step (stage);

CREATE TABLE inspection (
  entry INTEGER PRIMARY KEY REFERENCES entry,
  stage INTEGER NOT NULL REFERENCES stage,
  at_utc_ns INTEGER NOT NULL,
  method TEXT NOT NULL,
  magnification REAL,
  side TEXT NOT NULL,
  place TEXT,
  finding TEXT NOT NULL,
  note TEXT NOT NULL,
  -- Name of a file in the folder photos beside this one: its SHA-256 and ending.
  photo TEXT
) STRICT;
CREATE INDEX inspection_of_stage ON inspection (stage);

CREATE TABLE cut_placement (
  entry INTEGER PRIMARY KEY REFERENCES entry,
  stage INTEGER NOT NULL REFERENCES stage,
  at_utc_ns INTEGER NOT NULL,
  cut INTEGER NOT NULL REFERENCES cut,
  place_mm REAL
) STRICT;
CREATE INDEX placement_of_stage ON cut_placement (stage, cut);
CREATE INDEX placement_of_cut ON cut_placement (cut);

CREATE TABLE set_aside (
  id INTEGER PRIMARY KEY,
  cut INTEGER NOT NULL REFERENCES cut,
  at_utc_ns INTEGER NOT NULL,
  reason TEXT NOT NULL,
  counts_again INTEGER NOT NULL DEFAULT 0 CHECK (counts_again IN (0, 1))
) STRICT;
CREATE INDEX set_aside_of_cut ON set_aside (cut);

-- What was noted by mistake can be taken back: a withdrawal is a correction of an entry, and a cut
-- that was set aside can count again. Nothing is removed.

CREATE TABLE withdrawal (
  entry INTEGER PRIMARY KEY REFERENCES entry,
  stage INTEGER NOT NULL REFERENCES stage,
  at_utc_ns INTEGER NOT NULL
) STRICT;
CREATE INDEX withdrawal_of_stage ON withdrawal (stage);

-- What name or end a blade, session or stage had before it was mended.
CREATE TABLE amendment (
  entry INTEGER PRIMARY KEY REFERENCES entry,
  blade INTEGER REFERENCES blade,
  session INTEGER REFERENCES session,
  kind TEXT NOT NULL,
  before TEXT NOT NULL,
  after TEXT NOT NULL,
  CHECK ((blade IS NULL) <> (session IS NULL))
) STRICT;
CREATE INDEX amendment_of_blade ON amendment (blade);
CREATE INDEX amendment_of_session ON amendment (session);

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

-- Whose work a package holds and on what terms, as it states: itself at position 0, then each source
-- that it names. Contributors one a line; licence NULL: none was stated.
CREATE TABLE credit (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES origin,
  position INTEGER NOT NULL,
  sha256 TEXT NOT NULL,
  title TEXT NOT NULL,
  licence TEXT,
  contributors TEXT NOT NULL,
  UNIQUE (origin, position)
) STRICT;

CREATE TABLE recording_origin (
  recording INTEGER PRIMARY KEY REFERENCES recording,
  origin INTEGER NOT NULL REFERENCES origin
) STRICT;
CREATE INDEX recording_by_origin ON recording_origin (origin);

CREATE TABLE cut_origin (
  cut INTEGER PRIMARY KEY REFERENCES cut,
  origin INTEGER NOT NULL REFERENCES origin,
  credit INTEGER REFERENCES credit
) STRICT;
CREATE INDEX cut_by_origin ON cut_origin (origin);
CREATE INDEX cut_by_credit ON cut_origin (credit);

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

-- A CRC-32C of every row of every other table but cut_trace, which has its own. Whoever writes to
-- the store with another program is found by it. Every other table has an INTEGER PRIMARY KEY: other
-- row ids are not kept by a copy.
CREATE TABLE row_sum (
  of_table TEXT NOT NULL,
  of_row INTEGER NOT NULL,
  crc32c INTEGER NOT NULL,
  PRIMARY KEY (of_table, of_row)
) STRICT, WITHOUT ROWID;
