-- A book of schema 2, as Python's sqlite3 dumps it; everybody in it is invented.
PRAGMA application_id = 1400324715;
PRAGMA user_version = 2;
BEGIN TRANSACTION;
CREATE TABLE chore (what TEXT PRIMARY KEY) STRICT;
CREATE TABLE device (
  id         TEXT PRIMARY KEY,
  name       TEXT NOT NULL,
  token_hash TEXT NOT NULL,
  paired_at  TEXT NOT NULL,
  seen_at    TEXT NOT NULL
) STRICT;
INSERT INTO "device" VALUES('d-1','the phone','abc','2026-05-03T09:00:00.000Z','2026-05-09T09:00:00.000Z');
CREATE TABLE given (
  key      INTEGER PRIMARY KEY,
  id       TEXT NOT NULL UNIQUE,
  pupil    INTEGER NOT NULL REFERENCES pupil(key) ON DELETE CASCADE,
  lesson   INTEGER REFERENCES lesson(key) ON DELETE CASCADE,
  exercise TEXT NOT NULL,
  at       TEXT NOT NULL,
  at_s     REAL NOT NULL,
  notes    TEXT NOT NULL
) STRICT;
INSERT INTO "given" VALUES(1,'g-1',1,1,'step','2026-05-03T11:00:00.000Z',1777806000.0,'twice a day');
INSERT INTO "given" VALUES(2,'note-1',1,NULL,'','2026-05-06T11:00:00.000Z',1778065200.0,'knee is better');
CREATE TABLE lesson (
  key        INTEGER PRIMARY KEY,
  id         TEXT NOT NULL UNIQUE,
  pupil      INTEGER NOT NULL REFERENCES pupil(key) ON DELETE CASCADE,
  begun_at   TEXT NOT NULL,
  begun_s    REAL NOT NULL,
  place      TEXT NOT NULL,
  notes      TEXT NOT NULL,
  club       TEXT NOT NULL,
  condition  TEXT NOT NULL,
  surface    TEXT NOT NULL,
  ball       INTEGER NOT NULL CHECK (ball IN (0, 1)),
  revision   INTEGER NOT NULL,
  changed_at TEXT NOT NULL,
  changed_by TEXT NOT NULL
) STRICT;
INSERT INTO "lesson" VALUES(1,'may-3',1,'2026-05-03T10:00:00.000Z',1777802400.0,'the far end','','7i','normal','mat',1,4,'2026-05-03T10:00:00.000Z','coach');
INSERT INTO "lesson" VALUES(2,'may-9',1,'2026-05-09T10:00:00.000Z',1778320800.0,'the far end','','7i','normal','mat',1,4,'2026-05-09T10:00:00.000Z','coach');
INSERT INTO "lesson" VALUES(3,'kim-1',2,'2026-05-04T10:00:00.000Z',1777888800.0,'the far end','','7i','normal','mat',1,4,'2026-05-04T10:00:00.000Z','coach');
CREATE TABLE own_eye (name TEXT PRIMARY KEY, sd TEXT NOT NULL) STRICT;
INSERT INTO "own_eye" VALUES('carry_yd','6');
CREATE TABLE pupil (
  key        INTEGER PRIMARY KEY,
  id         TEXT NOT NULL UNIQUE,
  name       TEXT NOT NULL,
  plain      TEXT NOT NULL,
  hand       TEXT NOT NULL,
  skill      TEXT NOT NULL,
  height_m   REAL,
  birth_year INTEGER,
  notes      TEXT NOT NULL,
  cautions   TEXT NOT NULL,
  bag        TEXT NOT NULL,
  made_at    TEXT NOT NULL,
  made_s     REAL NOT NULL,
  changed_at TEXT NOT NULL,
  changed_by TEXT NOT NULL
) STRICT;
INSERT INTO "pupil" VALUES(1,'robin','Robin Furrow','robin furrow','right','18',1.78,1971,'slices
when tired','left knee','','2026-05-01T09:00:00.000Z',1777626000.0,'2026-05-01T09:00:00.000Z','coach');
INSERT INTO "pupil" VALUES(2,'kim','Kim Södling','kim sodling','left','club',NULL,NULL,'','','','2026-05-02T09:00:00.000Z',1777712400.0,'2026-05-02T09:00:00.000Z','coach');
CREATE TABLE "reading" (
  lesson    INTEGER PRIMARY KEY REFERENCES lesson(key) ON DELETE CASCADE,
  revision  INTEGER NOT NULL,
  reference TEXT NOT NULL,
  version   TEXT NOT NULL,
  made_at   TEXT NOT NULL,
  summary   TEXT NOT NULL,
  document  TEXT NOT NULL
) STRICT;
INSERT INTO "reading" VALUES(1,4,'usual','0.1.0','2026-05-03T11:00:00.000Z','{"short":2}','{"n":2}');
CREATE TABLE settings (
  one       INTEGER PRIMARY KEY CHECK (one = 1),
  units     TEXT NOT NULL,
  reference TEXT NOT NULL,
  place     TEXT NOT NULL,
  surface   TEXT NOT NULL
) STRICT;
INSERT INTO "settings" VALUES(1,'yards','best','the far end','mat');
CREATE TABLE sighting (
  swing   INTEGER NOT NULL,
  change  INTEGER NOT NULL,
  place   INTEGER NOT NULL,
  name    TEXT NOT NULL,
  entered TEXT NOT NULL,
  PRIMARY KEY (swing, change, place),
  FOREIGN KEY (swing, change) REFERENCES swing_change(swing, number) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;
INSERT INTO "sighting" VALUES(1,1,1,'divot_start_mm','-10');
INSERT INTO "sighting" VALUES(1,1,2,'contact','fat');
INSERT INTO "sighting" VALUES(2,1,1,'divot_start_mm','-20');
INSERT INTO "sighting" VALUES(2,1,2,'contact','clean');
INSERT INTO "sighting" VALUES(3,1,1,'divot_start_mm','-30');
INSERT INTO "sighting" VALUES(3,1,2,'contact','clean');
INSERT INTO "sighting" VALUES(3,2,1,'divot_start_mm','-30');
INSERT INTO "sighting" VALUES(3,2,2,'contact','clean');
INSERT INTO "sighting" VALUES(4,1,1,'divot_start_mm','-10');
INSERT INTO "sighting" VALUES(4,1,2,'contact','fat');
INSERT INTO "sighting" VALUES(5,1,1,'divot_start_mm','-20');
INSERT INTO "sighting" VALUES(5,1,2,'contact','clean');
INSERT INTO "sighting" VALUES(6,1,1,'divot_start_mm','-30');
INSERT INTO "sighting" VALUES(6,1,2,'contact','clean');
INSERT INTO "sighting" VALUES(7,1,1,'divot_start_mm','-10');
INSERT INTO "sighting" VALUES(7,1,2,'contact','fat');
INSERT INTO "sighting" VALUES(8,1,1,'divot_start_mm','-20');
INSERT INTO "sighting" VALUES(8,1,2,'contact','clean');
INSERT INTO "sighting" VALUES(9,1,1,'divot_start_mm','-30');
INSERT INTO "sighting" VALUES(9,1,2,'contact','clean');
CREATE TABLE swing (
  key     INTEGER PRIMARY KEY,
  id      TEXT NOT NULL UNIQUE,
  lesson  INTEGER NOT NULL REFERENCES lesson(key) ON DELETE CASCADE,
  number  INTEGER NOT NULL CHECK (number > 0),
  removed INTEGER NOT NULL CHECK (removed IN (0, 1)),
  changes INTEGER NOT NULL CHECK (changes > 0),
  UNIQUE (lesson, number)
) STRICT;
INSERT INTO "swing" VALUES(1,'s-1-1',1,1,0,1);
INSERT INTO "swing" VALUES(2,'s-1-2',1,2,0,1);
INSERT INTO "swing" VALUES(3,'s-1-3',1,3,1,2);
INSERT INTO "swing" VALUES(4,'s-2-1',2,1,0,1);
INSERT INTO "swing" VALUES(5,'s-2-2',2,2,0,1);
INSERT INTO "swing" VALUES(6,'s-2-3',2,3,0,1);
INSERT INTO "swing" VALUES(7,'s-3-1',3,1,0,1);
INSERT INTO "swing" VALUES(8,'s-3-2',3,2,0,1);
INSERT INTO "swing" VALUES(9,'s-3-3',3,3,0,1);
CREATE TABLE swing_change (
  swing     INTEGER NOT NULL REFERENCES swing(key) ON DELETE CASCADE,
  number    INTEGER NOT NULL CHECK (number > 0),
  at        TEXT NOT NULL,
  who       TEXT NOT NULL,
  what      TEXT NOT NULL CHECK (what IN ('added', 'changed', 'removed', 'put back')),
  club      TEXT NOT NULL,
  condition TEXT NOT NULL,
  surface   TEXT NOT NULL,
  ball      INTEGER NOT NULL CHECK (ball IN (0, 1)),
  hit_at    TEXT NOT NULL,
  PRIMARY KEY (swing, number)
) STRICT, WITHOUT ROWID;
INSERT INTO "swing_change" VALUES(1,1,'2026-05-03T10:01:01.000Z','phone','added','7i','normal','mat',1,'2026-05-03T10:01:01.000Z');
INSERT INTO "swing_change" VALUES(2,1,'2026-05-03T10:02:01.000Z','phone','added','7i','normal','mat',1,'2026-05-03T10:02:01.000Z');
INSERT INTO "swing_change" VALUES(3,1,'2026-05-03T10:03:01.000Z','phone','added','7i','normal','mat',1,'2026-05-03T10:03:01.000Z');
INSERT INTO "swing_change" VALUES(3,2,'2026-05-03T10:03:02.000Z','phone','removed','7i','normal','mat',1,'2026-05-03T10:03:02.000Z');
INSERT INTO "swing_change" VALUES(4,1,'2026-05-04T10:01:01.000Z','phone','added','7i','normal','mat',1,'2026-05-04T10:01:01.000Z');
INSERT INTO "swing_change" VALUES(5,1,'2026-05-04T10:02:01.000Z','phone','added','7i','normal','mat',1,'2026-05-04T10:02:01.000Z');
INSERT INTO "swing_change" VALUES(6,1,'2026-05-04T10:03:01.000Z','phone','added','7i','normal','mat',1,'2026-05-04T10:03:01.000Z');
INSERT INTO "swing_change" VALUES(7,1,'2026-05-05T10:01:01.000Z','phone','added','7i','normal','mat',1,'2026-05-05T10:01:01.000Z');
INSERT INTO "swing_change" VALUES(8,1,'2026-05-05T10:02:01.000Z','phone','added','7i','normal','mat',1,'2026-05-05T10:02:01.000Z');
INSERT INTO "swing_change" VALUES(9,1,'2026-05-05T10:03:01.000Z','phone','added','7i','normal','mat',1,'2026-05-05T10:03:01.000Z');
CREATE INDEX lesson_of_pupil ON lesson(pupil, begun_s);
CREATE INDEX swing_there ON swing(lesson, removed);
CREATE INDEX given_to_pupil ON given(pupil, at_s);
CREATE INDEX given_in_lesson ON given(lesson);
COMMIT;
