-- Names and ends that were mended. What is in a stage or of a blade that was merged into another is
-- read as of that one; such a stage has a position below 0.

ALTER TABLE stage ADD COLUMN merged_into INTEGER REFERENCES stage;
ALTER TABLE blade ADD COLUMN merged_into INTEGER REFERENCES blade;
ALTER TABLE blade_entry ADD COLUMN margin_gf REAL;

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
