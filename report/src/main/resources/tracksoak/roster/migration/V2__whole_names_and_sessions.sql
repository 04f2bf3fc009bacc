-- Names of events hold 32 digits of their SHA-256 instead of 12; the program writes them anew when it opens the roster.
${longer_names};

-- The drive that a record would be without the tag it was entered with, and the session it was made for.
ALTER TABLE event ADD COLUMN loose VARCHAR(22);
ALTER TABLE event ADD COLUMN session VARCHAR(22);
-- 1 for a row that is not what was signed: it counts for nothing, until a whole one comes in.
ALTER TABLE event ADD COLUMN aside INTEGER NOT NULL DEFAULT 0;
CREATE INDEX event_aside ON event (aside) WHERE aside <> 0;
CREATE INDEX event_loose ON event (loose);
CREATE INDEX event_session ON event (session, signer, record_holds, aside);

-- Sessions as records hold them, each named by its own content.
DROP TABLE session_terms;
CREATE TABLE recorded_session (
    id VARCHAR(22) PRIMARY KEY,
    session TEXT NOT NULL
);

-- Sum over the rows of drive, by which a change from outside shows.
ALTER TABLE roster_state ADD COLUMN drives_sum BIGINT NOT NULL DEFAULT 0;
UPDATE roster_state SET derived = 0;
