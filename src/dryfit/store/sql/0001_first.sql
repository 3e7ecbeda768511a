-- One rebuild is a chain of texts; undo and redo move along it, nothing is ever taken out.
-- A seal is the hash of the rest of its row: SQLite sees damage to its pages, not to what they say.
CREATE TABLE rebuild (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    begun TEXT NOT NULL
);

CREATE TABLE revision (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    rebuild INTEGER NOT NULL REFERENCES rebuild (id),
    parent INTEGER,
    edit TEXT,
    text BLOB NOT NULL,
    sha256 TEXT NOT NULL,
    at TEXT NOT NULL,
    seal TEXT NOT NULL,
    UNIQUE (rebuild, id),
    FOREIGN KEY (rebuild, parent) REFERENCES revision (rebuild, id)
);
CREATE INDEX revision_by_parent ON revision (parent);

CREATE TABLE newest (
    rebuild INTEGER PRIMARY KEY,
    revision INTEGER NOT NULL,
    FOREIGN KEY (rebuild, revision) REFERENCES revision (rebuild, id)
);

CREATE TABLE journal (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    rebuild INTEGER NOT NULL,
    revision INTEGER NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('reading', 'step', 'struck out')),
    name TEXT NOT NULL,
    typed TEXT NOT NULL,
    instrument TEXT NOT NULL,
    state TEXT NOT NULL,
    how TEXT NOT NULL,
    strikes INTEGER UNIQUE,
    at TEXT NOT NULL,
    seal TEXT NOT NULL,
    UNIQUE (rebuild, id),
    CHECK ((strikes IS NOT NULL) = (kind = 'struck out')),
    FOREIGN KEY (rebuild, revision) REFERENCES revision (rebuild, id),
    FOREIGN KEY (rebuild, strikes) REFERENCES journal (rebuild, id)
);

-- The files lie in the folder of photographs, each under the hash of its bytes.
CREATE TABLE photograph (
    sha256 TEXT PRIMARY KEY,
    bytes INTEGER NOT NULL,
    width INTEGER NOT NULL,
    height INTEGER NOT NULL,
    at TEXT NOT NULL
);

CREATE TABLE picture (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    rebuild INTEGER NOT NULL REFERENCES rebuild (id),
    photograph TEXT NOT NULL REFERENCES photograph (sha256),
    shows TEXT NOT NULL,
    caption TEXT NOT NULL,
    at TEXT NOT NULL
);
CREATE INDEX picture_by_rebuild ON picture (rebuild);

CREATE TRIGGER revision_stays BEFORE UPDATE ON revision
BEGIN SELECT RAISE (ABORT, 'a revision is never changed'); END;
CREATE TRIGGER revision_is_kept BEFORE DELETE ON revision
BEGIN SELECT RAISE (ABORT, 'a revision is never taken out'); END;
CREATE TRIGGER journal_stays BEFORE UPDATE ON journal
BEGIN SELECT RAISE (ABORT, 'the journal is never changed'); END;
CREATE TRIGGER journal_is_kept BEFORE DELETE ON journal
BEGIN SELECT RAISE (ABORT, 'nothing is taken out of the journal'); END;
