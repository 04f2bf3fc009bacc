-- One row: the number of the last change, and which version of the program worked out what follows from the events.
CREATE TABLE roster_state (
    id INTEGER PRIMARY KEY CHECK (id = 1),
    version BIGINT NOT NULL,
    derived INTEGER NOT NULL
);
INSERT INTO roster_state (id, version, derived) VALUES (1, 0, 0);

-- What happened. Rows are only ever added.
CREATE TABLE event (
    ref VARCHAR(49) PRIMARY KEY,
    version BIGINT NOT NULL,
    kind VARCHAR(24) NOT NULL,
    drive VARCHAR(22),
    author VARCHAR(32) NOT NULL,
    signer VARCHAR(32),
    record_sha VARCHAR(64),
    record_holds INTEGER NOT NULL,
    body TEXT NOT NULL,
    digest TEXT
);
CREATE INDEX event_drive ON event (drive);
CREATE INDEX event_author ON event (author);
CREATE INDEX event_signer ON event (signer);
CREATE INDEX event_record ON event (record_sha);

-- Records as they were signed, compressed; apart, so that listing never touches them.
CREATE TABLE record_body (
    sha256 VARCHAR(64) PRIMARY KEY,
    gzip ${blob} NOT NULL
);

-- What follows from the events; can be made again from them at any time.
CREATE TABLE drive (
    id VARCHAR(22) PRIMARY KEY,
    version BIGINT NOT NULL,
    state TEXT NOT NULL
);
CREATE INDEX drive_version ON drive (version);
CREATE TABLE session_terms (
    id VARCHAR(16) PRIMARY KEY,
    session TEXT NOT NULL
);
