-- What a closed trial taught its kitchen: all that the kitchen knew after it, as a JSON
-- document. The last lesson that was not taken back holds now.
CREATE TABLE lesson (
  trial          INTEGER PRIMARY KEY REFERENCES trial (number),
  kitchen        INTEGER NOT NULL REFERENCES name (number),
  taught_at_ms   INTEGER NOT NULL,
  unlearnt_at_ms INTEGER,
  body           TEXT NOT NULL
) STRICT;
CREATE INDEX lesson_by_kitchen ON lesson (kitchen, taught_at_ms, trial);

-- A name that whoever sends a note gives it, so that a note sent twice is kept once.
ALTER TABLE note ADD COLUMN sender_key TEXT;
CREATE UNIQUE INDEX note_by_sender_key ON note (trial, sender_key) WHERE sender_key IS NOT NULL;
