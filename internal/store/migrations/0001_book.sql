-- SPDX-License-Identifier: MIT
-- The first schema of a gyle book. Times are Unix milliseconds, UTC.

CREATE TABLE setting (
	key   TEXT PRIMARY KEY,
	value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- One row for each program that has the book open. A row whose program no
-- longer runs tells that the book was not closed.
CREATE TABLE opener (
	token  TEXT PRIMARY KEY,
	host   TEXT NOT NULL,
	pid    INTEGER NOT NULL,
	opened INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE document (
	id       INTEGER PRIMARY KEY,
	kind     TEXT NOT NULL CHECK (kind IN ('style', 'recipe', 'brewhouse', 'stock', 'water', 'gyle', 'tasting')),
	slug     TEXT NOT NULL CHECK (length(slug) BETWEEN 1 AND 80),
	title    TEXT NOT NULL,
	revision INTEGER NOT NULL CHECK (revision > 0),
	touched  INTEGER NOT NULL,           -- latest revision or log entry
	deleted  INTEGER NOT NULL DEFAULT 0 CHECK (deleted IN (0, 1)),
	UNIQUE (kind, slug)
) STRICT;

CREATE INDEX document_by_title ON document (kind, title COLLATE NOCASE, slug) WHERE deleted = 0;
CREATE INDEX document_by_touch ON document (kind, touched, slug) WHERE deleted = 0;
CREATE INDEX document_deleted ON document (touched, id) WHERE deleted = 1;
CREATE INDEX document_recent ON document (touched, id);

-- The text stands last so that a list of revisions need not read it.
CREATE TABLE revision (
	id       INTEGER PRIMARY KEY,
	document INTEGER NOT NULL REFERENCES document (id),
	number   INTEGER NOT NULL CHECK (number > 0),
	at       INTEGER NOT NULL,
	act      TEXT NOT NULL CHECK (act IN ('put', 'delete', 'restore')),
	author   TEXT NOT NULL,
	why      TEXT NOT NULL,
	title    TEXT NOT NULL,
	text     TEXT NOT NULL,
	UNIQUE (document, number)
) STRICT;

CREATE TRIGGER revision_is_kept BEFORE DELETE ON revision
BEGIN SELECT raise(ABORT, 'a revision is never removed'); END;
CREATE TRIGGER revision_is_unchanged BEFORE UPDATE ON revision
BEGIN SELECT raise(ABORT, 'a revision is never changed'); END;

-- What the current revision of a document names. broken says that the named
-- document is missing or deleted.
CREATE TABLE reference (
	from_kind TEXT NOT NULL,
	from_slug TEXT NOT NULL,
	kind      TEXT NOT NULL,
	slug      TEXT NOT NULL,
	field     TEXT NOT NULL,
	broken    INTEGER NOT NULL CHECK (broken IN (0, 1)),
	PRIMARY KEY (from_kind, from_slug, kind, slug, field),
	FOREIGN KEY (from_kind, from_slug) REFERENCES document (kind, slug)
) STRICT, WITHOUT ROWID;

CREATE INDEX reference_back ON reference (kind, slug, from_kind, from_slug, field);
CREATE INDEX reference_broken ON reference (from_kind, from_slug, kind, slug, field) WHERE broken = 1;

CREATE TABLE event (
	gyle     INTEGER NOT NULL REFERENCES document (id),
	seq      INTEGER NOT NULL CHECK (seq > 0),
	at       INTEGER NOT NULL,           -- when it happened at the kettle
	recorded INTEGER NOT NULL,           -- when it was written down
	kind     TEXT NOT NULL CHECK (kind <> ''),
	author   TEXT NOT NULL,
	corrects INTEGER CHECK (corrects < seq),
	token    TEXT,
	body     TEXT NOT NULL CHECK (json_valid(body)),
	PRIMARY KEY (gyle, seq),
	FOREIGN KEY (gyle, corrects) REFERENCES event (gyle, seq)
) STRICT, WITHOUT ROWID;

CREATE INDEX event_by_kind ON event (gyle, kind, seq);
CREATE UNIQUE INDEX event_by_token ON event (gyle, token) WHERE token IS NOT NULL;

CREATE TRIGGER event_is_kept BEFORE DELETE ON event
BEGIN SELECT raise(ABORT, 'a log entry is never removed'); END;
CREATE TRIGGER event_is_unchanged BEFORE UPDATE ON event
BEGIN SELECT raise(ABORT, 'a log entry is never changed'); END;

-- The words of each living document, and once more those of its title, which are
-- looked for first. The row number is that of the current row in revision, so
-- that the latest change comes first.
CREATE VIRTUAL TABLE search_title USING fts5 (
	kind, title,
	content = '', contentless_delete = 1,
	tokenize = 'unicode61 remove_diacritics 2',
	prefix = '2 3'
);

CREATE VIRTUAL TABLE search USING fts5 (
	kind, title, text,
	content = '', contentless_delete = 1,
	tokenize = 'unicode61 remove_diacritics 2',
	prefix = '2 3'
);
