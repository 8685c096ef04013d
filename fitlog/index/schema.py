"""The tables of the index; another version or a damaged file is built anew."""

import re
from zlib import crc32

from fitlog.records.models.session import MEASURES

MEANING = 2  # goes up when the same tables come to say something else

TEST, CLUB, CHANGE, SESSION, PLAYER, PART = "test", "club", "change", "session", "player", "part"
VENUE = "venue"
WHATS = (TEST, CLUB, CHANGE, SESSION, PLAYER, PART, VENUE)

_MEANS = "".join(f",\n    mean_{key} REAL" for key in MEASURES)
_TABLES = f"""
CREATE TABLE state (commit_id TEXT NOT NULL);
CREATE TABLE file (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE,
    blob TEXT NOT NULL,
    stamp TEXT NOT NULL,
    broken INTEGER NOT NULL
);
CREATE INDEX file_loose ON file (stamp) WHERE stamp != '';
CREATE TABLE player (file INTEGER NOT NULL, player TEXT NOT NULL, name TEXT NOT NULL, left_out INTEGER NOT NULL);
CREATE INDEX player_file ON player (file);
CREATE INDEX player_id ON player (player);
CREATE TABLE ball (
    file INTEGER NOT NULL,
    player TEXT NOT NULL,
    session TEXT NOT NULL,
    part TEXT,
    model TEXT,
    year INTEGER
);
CREATE INDEX ball_file ON ball (file);
CREATE INDEX ball_session ON ball (player, session);
CREATE TABLE evidence (file INTEGER NOT NULL, player TEXT NOT NULL, club TEXT NOT NULL, ref TEXT NOT NULL);
CREATE INDEX evidence_file ON evidence (file);
CREATE TABLE outcome (
    file INTEGER NOT NULL,
    player TEXT NOT NULL,
    ref TEXT NOT NULL,
    who TEXT NOT NULL,
    kinds TEXT NOT NULL,
    metric TEXT NOT NULL,
    seen REAL NOT NULL,
    low REAL NOT NULL,
    high REAL NOT NULL,
    z REAL NOT NULL
);
CREATE INDEX outcome_file ON outcome (file);
CREATE INDEX outcome_metric ON outcome (who, metric);
CREATE TABLE setup (
    id INTEGER PRIMARY KEY,
    text TEXT NOT NULL,
    models TEXT NOT NULL,
    head TEXT NOT NULL,
    shaft TEXT NOT NULL,
    grip TEXT NOT NULL
);
CREATE TABLE value (key TEXT NOT NULL, value, setup INTEGER NOT NULL, PRIMARY KEY (key, value, setup)) WITHOUT ROWID;
CREATE TABLE entry (
    id INTEGER PRIMARY KEY,
    file INTEGER NOT NULL,
    what TEXT NOT NULL,
    player TEXT NOT NULL,
    slot TEXT NOT NULL,
    kind TEXT NOT NULL,
    ref TEXT NOT NULL,
    day TEXT NOT NULL,
    clock TEXT NOT NULL,
    role TEXT NOT NULL,
    ball TEXT NOT NULL,
    decision TEXT NOT NULL,
    reason TEXT NOT NULL,
    notes TEXT NOT NULL,
    setup INTEGER,
    shots INTEGER,
    left_out INTEGER,
    swing TEXT NOT NULL{_MEANS}
);
CREATE INDEX entry_file ON entry (file);
CREATE INDEX entry_day ON entry (day, clock);
CREATE INDEX entry_setup ON entry (setup) WHERE setup IS NOT NULL;
CREATE INDEX entry_player ON entry (player, day);
CREATE INDEX entry_tried ON entry (setup, decision, reason, player, kind) WHERE what = 'test' AND role = 'candidate';
CREATE INDEX entry_ref ON entry (ref);
CREATE VIRTUAL TABLE words USING fts5 (models, text, tokenize = "unicode61 remove_diacritics 2");
"""


VERSION = crc32(f"{MEANING} {_TABLES}".encode()) >> 1


_SEARCH_TREE = re.compile(r"CREATE INDEX (\w+)")


def statements() -> list[str]:
    """What makes the tables."""
    return [each for each in _TABLES.split(";\n") if each.strip()]


def search_trees() -> dict[str, str]:
    """The tables' search trees by name, each with what makes it."""
    return {found[1]: each for each in statements() if (found := _SEARCH_TREE.search(each))}
