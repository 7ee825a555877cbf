#include "data/store/schema.h"

namespace foreday::store {

SchemaHistory schema_history()
{
    return {1, {}};
}

// Of a REPLACE the delete triggers learn nothing, so the insert triggers refuse a number that is there.
const char* schema_sql()
{
    return R"sql(
BEGIN EXCLUSIVE;

CREATE TABLE journal(
    number INTEGER PRIMARY KEY,
    subject TEXT NOT NULL,
    at INTEGER NOT NULL,
    who TEXT NOT NULL,
    desk TEXT NOT NULL,
    kind TEXT NOT NULL,
    kind_version INTEGER NOT NULL CHECK (kind_version >= 1),
    payload TEXT NOT NULL,
    hash TEXT NOT NULL CHECK (length(hash) = 64)
) STRICT;
CREATE INDEX journal_by_subject ON journal(subject, number);

CREATE TABLE looks(
    number INTEGER PRIMARY KEY,
    subject TEXT NOT NULL,
    at INTEGER NOT NULL,
    who TEXT NOT NULL,
    desk TEXT NOT NULL,
    kind TEXT NOT NULL,
    kind_version INTEGER NOT NULL CHECK (kind_version >= 1),
    payload TEXT NOT NULL,
    hash TEXT NOT NULL CHECK (length(hash) = 64)
) STRICT;

CREATE TABLE heads(
    chain TEXT PRIMARY KEY CHECK (chain IN ('journal', 'looks')),
    number INTEGER NOT NULL,
    hash TEXT NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO heads VALUES
    ('journal', 0, '0000000000000000000000000000000000000000000000000000000000000000'),
    ('looks', 0, '0000000000000000000000000000000000000000000000000000000000000000');

CREATE TABLE documents(
    hash TEXT PRIMARY KEY CHECK (length(hash) = 64),
    length INTEGER NOT NULL CHECK (length >= 0),
    compressed BLOB NOT NULL
) STRICT;

CREATE TRIGGER journal_in_order BEFORE INSERT ON journal
WHEN NEW.number IS NOT (SELECT number + 1 FROM heads WHERE chain = 'journal')
BEGIN SELECT RAISE(ABORT, 'an entry has the next number'); END;
CREATE TRIGGER journal_head AFTER INSERT ON journal
BEGIN UPDATE heads SET number = NEW.number, hash = NEW.hash WHERE chain = 'journal'; END;
CREATE TRIGGER journal_not_changed BEFORE UPDATE ON journal
BEGIN SELECT RAISE(ABORT, 'an entry is never changed'); END;
CREATE TRIGGER journal_not_removed BEFORE DELETE ON journal
BEGIN SELECT RAISE(ABORT, 'an entry is never removed'); END;

CREATE TRIGGER looks_in_order BEFORE INSERT ON looks
WHEN NEW.number IS NOT (SELECT number + 1 FROM heads WHERE chain = 'looks')
BEGIN SELECT RAISE(ABORT, 'an entry has the next number'); END;
CREATE TRIGGER looks_head AFTER INSERT ON looks
BEGIN UPDATE heads SET number = NEW.number, hash = NEW.hash WHERE chain = 'looks'; END;
CREATE TRIGGER looks_not_changed BEFORE UPDATE ON looks
BEGIN SELECT RAISE(ABORT, 'an entry is never changed'); END;
CREATE TRIGGER looks_not_removed BEFORE DELETE ON looks
BEGIN SELECT RAISE(ABORT, 'an entry is never removed'); END;

CREATE TRIGGER heads_go_up BEFORE UPDATE ON heads
WHEN NEW.number IS NOT OLD.number + 1 OR NEW.chain IS NOT OLD.chain
BEGIN SELECT RAISE(ABORT, 'a head goes up one by one'); END;
CREATE TRIGGER heads_not_removed BEFORE DELETE ON heads
BEGIN SELECT RAISE(ABORT, 'a head is never removed'); END;
CREATE TRIGGER heads_not_added BEFORE INSERT ON heads
BEGIN SELECT RAISE(ABORT, 'there are two chains'); END;

CREATE TRIGGER documents_not_changed BEFORE UPDATE ON documents
BEGIN SELECT RAISE(ABORT, 'a document is never changed'); END;
CREATE TRIGGER documents_not_removed BEFORE DELETE ON documents
BEGIN SELECT RAISE(ABORT, 'a document is never removed'); END;
CREATE TRIGGER documents_not_replaced BEFORE INSERT ON documents
WHEN EXISTS (SELECT 1 FROM documents WHERE hash = NEW.hash)
BEGIN SELECT RAISE(ABORT, 'a document is never changed'); END;

CREATE TABLE cases(
    case_row INTEGER PRIMARY KEY,
    case_id TEXT NOT NULL UNIQUE,
    patient_id TEXT NOT NULL,
    rules_hash TEXT NOT NULL,
    up_to INTEGER NOT NULL,
    look_again INTEGER NOT NULL,
    finished INTEGER NOT NULL CHECK (finished IN (0, 1)),
    name TEXT NOT NULL,
    number TEXT NOT NULL,
    born INTEGER NOT NULL,
    day INTEGER NOT NULL,
    start INTEGER NOT NULL,
    procedures TEXT NOT NULL,
    here_since INTEGER,
    gone_in INTEGER,
    ended INTEGER
) STRICT;
CREATE INDEX cases_by_day ON cases(day);
CREATE INDEX cases_by_birth ON cases(born, day);
CREATE INDEX cases_to_look_at ON cases(rules_hash, look_again, case_id) WHERE finished = 0;

CREATE TABLE search_words(
    case_row INTEGER NOT NULL REFERENCES cases(case_row) ON DELETE CASCADE,
    position INTEGER NOT NULL,
    word TEXT NOT NULL,
    day INTEGER NOT NULL,
    PRIMARY KEY (case_row, position)
) STRICT, WITHOUT ROWID;
CREATE INDEX search_words_by_word ON search_words(word, day, case_row);

CREATE TABLE calls(
    case_row INTEGER NOT NULL REFERENCES cases(case_row) ON DELETE CASCADE,
    position INTEGER NOT NULL,
    id TEXT NOT NULL,
    due_from INTEGER NOT NULL,
    useful_until INTEGER NOT NULL,
    tries INTEGER NOT NULL,
    why TEXT NOT NULL,
    finished INTEGER NOT NULL,
    PRIMARY KEY (case_row, position)
) STRICT, WITHOUT ROWID;
CREATE INDEX calls_by_due ON calls(due_from, case_row) WHERE finished = 0;

CREATE TABLE undecided(
    case_row INTEGER NOT NULL REFERENCES cases(case_row) ON DELETE CASCADE,
    position INTEGER NOT NULL,
    id TEXT NOT NULL,
    level TEXT NOT NULL CHECK (level IN ('note', 'act', 'ask', 'stop')),
    decide_by INTEGER NOT NULL,
    title TEXT NOT NULL,
    PRIMARY KEY (case_row, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE upkeep(
    only_row INTEGER PRIMARY KEY CHECK (only_row = 1),
    elected TEXT NOT NULL,
    elected_until INTEGER NOT NULL,
    commits_mended INTEGER NOT NULL
) STRICT;
INSERT INTO upkeep VALUES (1, '', 0, 0);

PRAGMA application_id = 1180983673;
PRAGMA user_version = 1;
COMMIT;
)sql";
}

}  // namespace foreday::store
