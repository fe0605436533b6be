-- A book as the first schema had it; invented.
BEGIN TRANSACTION;
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0001');
CREATE TABLE revision (
	kind TEXT NOT NULL, 
	id TEXT NOT NULL, 
	n INTEGER NOT NULL, 
	token TEXT NOT NULL, 
	who TEXT NOT NULL, 
	at TEXT NOT NULL, 
	note TEXT NOT NULL, 
	title TEXT NOT NULL, 
	changed TEXT NOT NULL, 
	restores INTEGER, 
	document TEXT NOT NULL, 
	day TEXT NOT NULL, 
	sha256 TEXT NOT NULL, 
	PRIMARY KEY (kind, id, n)
);
INSERT INTO "revision" VALUES('job','hall-bath',1,'key-1','Setter','2026-03-05T08:01:00.000000+00:00','','Hall bath','["/document/name", "/document/reading"]',NULL,'{"name":"Hall bath","reading":1}','{}','e6fefa7676c0255a8c0568fc41941bd60434cfb3ffccd39a8aeb478801eb28b5');
INSERT INTO "revision" VALUES('job','hall-bath',2,'key-2','Setter','2026-03-05T08:02:00.000000+00:00','','Hall bath','["/day/set"]',NULL,'{"name":"Hall bath","reading":1}','{"set":["B1-1"]}','e1d481517ed6712aa18536ca742670e1a07823d5794d27ff2bce93efe16b52cd');
CREATE UNIQUE INDEX revision_token ON revision (kind, id, token);
CREATE TRIGGER revision_stays_UPDATE BEFORE UPDATE ON revision
BEGIN SELECT RAISE(ABORT, 'a revision is never changed'); END;
CREATE TRIGGER revision_stays_DELETE BEFORE DELETE ON revision
BEGIN SELECT RAISE(ABORT, 'a revision is never changed'); END;
COMMIT;
