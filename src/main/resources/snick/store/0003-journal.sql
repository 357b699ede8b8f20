-- The person's side. An entry is never changed: a correction is a further entry that names the one
-- it replaces. Standing entries are those that none corrects.

CREATE TABLE entry (
  id INTEGER PRIMARY KEY,
  recorded_utc_ns INTEGER NOT NULL,
  corrects INTEGER UNIQUE REFERENCES entry CHECK (corrects < id),
  why TEXT NOT NULL
) STRICT;

CREATE TABLE blade (
  id INTEGER PRIMARY KEY,
  label TEXT NOT NULL UNIQUE
) STRICT;

CREATE TABLE blade_entry (
  entry INTEGER PRIMARY KEY REFERENCES entry,
  blade INTEGER NOT NULL REFERENCES blade,
  steel TEXT NOT NULL,
  hardness_hrc REAL,
  edge_angle_degrees REAL,
  thickness_behind_edge_mm REAL,
  edge_length_mm REAL,
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
  diameter_mm REAL NOT NULL
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

CREATE TABLE stage (
  id INTEGER PRIMARY KEY,
  session INTEGER NOT NULL REFERENCES session,
  position INTEGER NOT NULL,
  name TEXT NOT NULL,
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
  note TEXT NOT NULL
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
  reason TEXT NOT NULL
) STRICT;
CREATE INDEX set_aside_of_cut ON set_aside (cut);
