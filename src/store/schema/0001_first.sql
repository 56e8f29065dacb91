-- The first store. Times are milliseconds since 1970-01-01T00:00Z.

-- Recipes and kitchens as they were at one moment: JSON documents that never change,
-- named by the SHA-256 of their text.
CREATE TABLE document (
  number            INTEGER PRIMARY KEY,
  id                TEXT NOT NULL UNIQUE CHECK (length(id) = 64),
  kind              TEXT NOT NULL CHECK (kind IN ('recipe', 'kitchen')),
  title             TEXT NOT NULL,
  first_saved_at_ms INTEGER NOT NULL,
  body              TEXT NOT NULL
) STRICT;

-- What a document was made from. A parent is older than its child, so there is no ring.
CREATE TABLE descent (
  document INTEGER NOT NULL REFERENCES document (number),
  parent   INTEGER NOT NULL REFERENCES document (number),
  PRIMARY KEY (document, parent),
  CHECK (parent < document)
) STRICT, WITHOUT ROWID;

CREATE TABLE name (
  number INTEGER PRIMARY KEY,
  kind   TEXT NOT NULL CHECK (kind IN ('recipe', 'kitchen')),
  name   TEXT NOT NULL COLLATE NOCASE CHECK (length(name) > 0),
  UNIQUE (kind, name)
) STRICT;

-- Which document a name stood for, one after the other; the last holds now.
CREATE TABLE course (
  name     INTEGER NOT NULL REFERENCES name (number),
  place    INTEGER NOT NULL CHECK (place > 0),
  document INTEGER NOT NULL REFERENCES document (number),
  at_ms    INTEGER NOT NULL,
  why      TEXT NOT NULL,
  PRIMARY KEY (name, place)
) STRICT, WITHOUT ROWID;
CREATE INDEX course_by_document ON course (document);

CREATE TABLE tag (
  name INTEGER NOT NULL REFERENCES name (number),
  word TEXT NOT NULL COLLATE NOCASE CHECK (length(word) > 0),
  PRIMARY KEY (name, word)
) STRICT, WITHOUT ROWID;
CREATE INDEX tag_by_word ON tag (word);

CREATE TABLE trial (
  number        INTEGER PRIMARY KEY,
  recipe        INTEGER NOT NULL REFERENCES name (number),
  version       INTEGER NOT NULL REFERENCES document (number),
  kitchen       INTEGER REFERENCES name (number),
  kitchen_state INTEGER REFERENCES document (number),
  started_at_ms INTEGER NOT NULL,
  closed_at_ms  INTEGER
) STRICT;
CREATE INDEX trial_by_version ON trial (version);
CREATE INDEX trial_by_recipe ON trial (recipe);

-- The checklist: a step was begun, done, or taken back, in the order it was said.
CREATE TABLE step_mark (
  trial INTEGER NOT NULL REFERENCES trial (number),
  place INTEGER NOT NULL CHECK (place > 0),
  step  INTEGER NOT NULL CHECK (step > 0),
  mark  TEXT NOT NULL CHECK (mark IN ('begun', 'done', 'undone')),
  at_ms INTEGER NOT NULL,
  PRIMARY KEY (trial, place)
) STRICT, WITHOUT ROWID;

-- What was seen: the words as written, and the measurements read out of them.
CREATE TABLE note (
  number       INTEGER PRIMARY KEY,
  trial        INTEGER NOT NULL REFERENCES trial (number),
  at_ms        INTEGER NOT NULL,
  text         TEXT NOT NULL,
  observations TEXT NOT NULL,
  instead_of   INTEGER REFERENCES note (number) CHECK (instead_of < number)
) STRICT;
CREATE INDEX note_by_trial ON note (trial, number);

CREATE TABLE picture (
  number INTEGER PRIMARY KEY,
  id     TEXT NOT NULL UNIQUE CHECK (length(id) = 64),
  kind   TEXT NOT NULL CHECK (kind IN ('jpeg', 'png', 'webp')),
  bytes  BLOB NOT NULL
) STRICT;
CREATE TABLE note_picture (
  note    INTEGER NOT NULL REFERENCES note (number),
  place   INTEGER NOT NULL CHECK (place > 0),
  picture INTEGER NOT NULL REFERENCES picture (number),
  PRIMARY KEY (note, place)
) STRICT, WITHOUT ROWID;

-- What is kept stays as it was.
CREATE TRIGGER document_stays BEFORE UPDATE ON document
  BEGIN SELECT RAISE (ABORT, 'a kept document never changes'); END;
CREATE TRIGGER document_is_not_lost BEFORE DELETE ON document
  BEGIN SELECT RAISE (ABORT, 'a kept document is never thrown away'); END;
CREATE TRIGGER note_stays BEFORE UPDATE ON note
  BEGIN SELECT RAISE (ABORT, 'a note never changes'); END;
CREATE TRIGGER note_is_not_lost BEFORE DELETE ON note
  BEGIN SELECT RAISE (ABORT, 'a note is never thrown away'); END;
CREATE TRIGGER picture_stays BEFORE UPDATE ON picture
  BEGIN SELECT RAISE (ABORT, 'a picture never changes'); END;
CREATE TRIGGER picture_is_not_lost BEFORE DELETE ON picture
  BEGIN SELECT RAISE (ABORT, 'a picture is never thrown away'); END;

-- Words to search by; rows bear the numbers of name, document and note. A name is found by
-- what it stands for now, a document also when no name stands for it any more.
CREATE VIRTUAL TABLE name_words USING fts5 (
  name, tags, title, words, tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3');
CREATE VIRTUAL TABLE document_words USING fts5 (
  title, words, content = '', tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3');
CREATE VIRTUAL TABLE note_words USING fts5 (
  text, content = 'note', content_rowid = 'number',
  tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3');
