-- Of a version that does not exist: a further column, and every trace is written anew.
ALTER TABLE cut ADD COLUMN invented TEXT NOT NULL DEFAULT 'none';
CREATE TABLE invented_trace (cut INTEGER PRIMARY KEY REFERENCES cut, crc32c INTEGER NOT NULL, samples BLOB NOT NULL) STRICT;
INSERT INTO invented_trace SELECT * FROM cut_trace;
DROP TABLE cut_trace;
ALTER TABLE invented_trace RENAME TO cut_trace;
