"""Cuts in SQLite: one transaction a cut, on disk when it returns."""

import sqlite3

SCHEMA = """
CREATE TABLE IF NOT EXISTS cut (
  id INTEGER PRIMARY KEY, found_at REAL NOT NULL, outcome TEXT NOT NULL, break_s REAL,
  observed_max_gf REAL NOT NULL, force_gf REAL, loading_rate_gf_s REAL, samples INTEGER NOT NULL,
  seconds BLOB NOT NULL, counts BLOB NOT NULL);
"""


def open_store(path):
    store = sqlite3.connect(path, isolation_level=None)
    store.execute("PRAGMA journal_mode = WAL")
    store.execute("PRAGMA synchronous = FULL")
    store.executescript(SCHEMA)
    return store


def add(store, found_at, told, seconds, counts):
    store.execute(
        "INSERT INTO cut (found_at, outcome, break_s, observed_max_gf, force_gf,"
        " loading_rate_gf_s, samples, seconds, counts) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (
            found_at,
            told["outcome"],
            told["break_s"],
            told["observed_max_gf"],
            told["force_gf"],
            told["loading_rate_gf_s"],
            len(counts),
            seconds.tobytes(),
            counts.tobytes(),
        ),
    )
