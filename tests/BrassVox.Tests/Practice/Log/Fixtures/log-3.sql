PRAGMA foreign_keys=OFF;
PRAGMA application_id=1112960888;
PRAGMA user_version=3;
BEGIN TRANSACTION;
CREATE TABLE body_notes(
          id INTEGER PRIMARY KEY,
          at TEXT NOT NULL,
          player TEXT NOT NULL,
          tag TEXT NOT NULL,
          take_id TEXT REFERENCES takes(id) ON DELETE SET NULL,
          is_simulated INTEGER NOT NULL) STRICT;
INSERT INTO "body_notes" VALUES(1,'2026-09-07T17:31:00.000Z','Euphonium-3','tongueRoot','20260907T173000Z-open-home-pair-1',1);
CREATE TABLE findings(
          take_id TEXT NOT NULL REFERENCES takes(id) ON DELETE CASCADE,
          place INTEGER NOT NULL,
          step_id TEXT NOT NULL,
          criterion TEXT NOT NULL,
          role TEXT,
          verdict TEXT NOT NULL,
          fault TEXT NOT NULL,
          value REAL,
          unit TEXT NOT NULL,
          PRIMARY KEY(take_id, place)) STRICT, WITHOUT ROWID;
INSERT INTO "findings" VALUES('20260907T173000Z-open-home-pair-1',0,'hold','heard','played','missed','noTone',0.45,'s');
INSERT INTO "findings" VALUES('20260907T173000Z-open-home-pair-1',1,'hold','heard','sung','missed','noTone',0.44,'s');
INSERT INTO "findings" VALUES('20260907T173000Z-open-home-pair-1',2,'hold','arrival','played','met','none',6.97604166666666719587e-02,'s');
INSERT INTO "findings" VALUES('20260907T173000Z-open-home-pair-1',3,'hold','arrival','sung','met','none',7.97604166666666669627e-02,'s');
INSERT INTO "findings" VALUES('20260907T173000Z-open-home-pair-1',4,'hold','offset','played','met','none',-9.05976364277659151902e-02,'c');
INSERT INTO "findings" VALUES('20260907T173000Z-open-home-pair-1',5,'hold','offset','sung','met','none',-9.8410754081827422901e-01,'c');
INSERT INTO "findings" VALUES('20260907T173000Z-open-home-pair-1',6,'hold','spread','played','met','none',5.74981134875027569131e-03,'c');
INSERT INTO "findings" VALUES('20260907T173000Z-open-home-pair-1',7,'hold','spread','sung','met','none',5.48481286655954566877e-02,'c');
INSERT INTO "findings" VALUES('20260907T173000Z-open-home-pair-1',8,'hold','drift','played','met','none',-1.39697302442321230619e-01,'c');
INSERT INTO "findings" VALUES('20260907T173000Z-open-home-pair-1',9,'hold','drift','sung','met','none',1.82257695900125471499e-01,'c');
CREATE TABLE spells(
          id INTEGER PRIMARY KEY,
          at TEXT NOT NULL,
          player TEXT NOT NULL,
          exercise_id TEXT NOT NULL,
          seconds REAL NOT NULL,
          sung_seconds REAL NOT NULL,
          is_simulated INTEGER NOT NULL) STRICT;
INSERT INTO "spells" VALUES(1,'2026-09-07T17:30:00.000Z','Euphonium-3','open-home-pair',8.0,7.5,1);
INSERT INTO "spells" VALUES(2,'2026-09-08T17:30:00.000Z','Tuba-1','own-passage',8.0,0.0,1);
CREATE TABLE takes(
          id TEXT NOT NULL PRIMARY KEY,
          made_at TEXT NOT NULL,
          player TEXT NOT NULL,
          is_simulated INTEGER NOT NULL,
          exercise_id TEXT NOT NULL,
          exercise_number INTEGER NOT NULL,
          instrument TEXT NOT NULL,
          voice TEXT NOT NULL,
          played_midi INTEGER NOT NULL,
          sung_midi INTEGER NOT NULL,
          tuning TEXT NOT NULL,
          a4_hz REAL NOT NULL,
          aim TEXT NOT NULL,
          as_asked INTEGER,
          reached TEXT,
          played_offset_cents REAL, played_spread_cents REAL, played_drift_cents REAL,
          sung_offset_cents REAL, sung_spread_cents REAL, sung_drift_cents REAL,
          beats_per_second REAL,
          fog_seconds REAL NOT NULL,
          sung_seconds REAL NOT NULL,
          is_scored INTEGER NOT NULL,
          sure TEXT,
          said_right INTEGER NOT NULL,
          said_told INTEGER NOT NULL,
          is_leaving INTEGER NOT NULL DEFAULT 0,
          record TEXT NOT NULL) STRICT;
INSERT INTO "takes" VALUES('20260907T173000Z-open-home-pair-1','2026-09-07T17:30:00.000Z','Euphonium-3',1,'open-home-pair',14,'tuba','low',46,53,'just',440.0,'II',0,NULL,-9.05976364277659151902e-02,5.74981134875027569131e-03,-1.39697302442321230619e-01,-9.8410754081827422901e-01,5.48481286655954566877e-02,1.82257695900125471499e-01,NULL,0.0,0.44,1,NULL,0,0,0,'{"formatVersion":2,"id":"20260907T173000Z-open-home-pair-1","madeAt":"2026-09-07T17:30:00+00:00","soundFile":"20260907T173000Z-open-home-pair-1.wav","sampleRateHz":48000,"startSeconds":0.01,"exerciseId":"open-home-pair","exerciseNumber":14,"exerciseName":"Open home pair","player":{"instrument":"tuba","voice":"low","lowestSung":"F2","highestSung":"D4","a4Hz":440,"tuningName":"just","tuningRoot":null,"aim":"II"},"played":"Bb2","playedHz":116.54094,"sung":"F3","sungHz":174.811411,"tuning":"just","notes":[],"result":{"exerciseId":"open-home-pair","aim":"II","asAsked":false,"reached":null,"findings":[{"stepId":"hold","criterion":"heard","role":"played","verdict":"missed","fault":"noTone","value":0.45,"limit":8,"unit":"s","reached":null,"text":"The played tone was not found."},{"stepId":"hold","criterion":"heard","role":"sung","verdict":"missed","fault":"noTone","value":0.44,"limit":8,"unit":"s","reached":null,"text":"The sung tone was not found."},{"stepId":"hold","criterion":"arrival","role":"played","verdict":"met","fault":"none","value":0.06976,"limit":1,"unit":"s","reached":"III","text":"The played tone was there 0.1 s after it was asked for, at the latest; asked within 1.0 s."},{"stepId":"hold","criterion":"arrival","role":"sung","verdict":"met","fault":"none","value":0.07976,"limit":1,"unit":"s","reached":"III","text":"The sung tone was there 0.1 s after it was asked for, at the latest; asked within 1.0 s."},{"stepId":"hold","criterion":"offset","role":"played","verdict":"met","fault":"none","value":-0.090598,"limit":15,"unit":"c","reached":"III","text":"The played tone was true; asked within 15 c."},{"stepId":"hold","criterion":"offset","role":"sung","verdict":"met","fault":"none","value":-0.984108,"limit":15,"unit":"c","reached":"III","text":"The sung tone was 1 c low; asked within 15 c."},{"stepId":"hold","criterion":"spread","role":"played","verdict":"met","fault":"none","value":0.00575,"limit":15,"unit":"c","reached":"III","text":"The played tone wandered 0 c; asked within 15 c."},{"stepId":"hold","criterion":"spread","role":"sung","verdict":"met","fault":"none","value":0.054848,"limit":15,"unit":"c","reached":"III","text":"The sung tone wandered 0 c; asked within 15 c."},{"stepId":"hold","criterion":"drift","role":"played","verdict":"met","fault":"none","value":-0.139697,"limit":15,"unit":"c","reached":"III","text":"The played tone sank 0 c from beginning to end; asked within 15 c."},{"stepId":"hold","criterion":"drift","role":"sung","verdict":"met","fault":"none","value":0.182258,"limit":15,"unit":"c","reached":"III","text":"The sung tone rose 0 c from beginning to end; asked within 15 c."}],"played":{"role":"played","offsetCents":-0.090598,"spreadCents":0.00575,"driftCents":-0.139697,"vibratoPerSecond":null,"vibratoCents":null,"onsetSeconds":0.06976,"heardSeconds":0.45,"askedSeconds":8},"sung":{"role":"sung","offsetCents":-0.984108,"spreadCents":0.054848,"driftCents":0.182258,"vibratoPerSecond":null,"vibratoCents":null,"onsetSeconds":0.07976,"heardSeconds":0.44,"askedSeconds":8},"pair":{"medianBeatsPerSecond":null,"stillSeconds":0.44,"beatingSeconds":0,"intervalErrorCents":-0.874794,"separableSeconds":0.44,"fogSeconds":0},"bestSecond":{"fromSeconds":0.3,"toSeconds":1.3},"next":"Play alone until the note speaks at once, then let the voice join."},"said":null,"frames":[],"playerName":"Euphonium-3","isSimulated":true,"drone":null}');
INSERT INTO "takes" VALUES('20260908T173000Z-own-passage-1','2026-09-08T17:30:00.000Z','Tuba-1',1,'own-passage',33,'tuba','low',46,53,'just',440.0,'II',0,NULL,-9.05976364277659151902e-02,5.74981134875027569131e-03,-1.39697302442321230619e-01,-9.8410754081827422901e-01,5.48481286655954566877e-02,1.82257695900125471499e-01,NULL,0.0,0.44,1,NULL,0,0,0,'{"formatVersion":2,"id":"20260908T173000Z-own-passage-1","madeAt":"2026-09-08T17:30:00+00:00","soundFile":"20260908T173000Z-own-passage-1.wav","sampleRateHz":48000,"startSeconds":0.01,"exerciseId":"own-passage","exerciseNumber":33,"exerciseName":"Two Breaths, One Pipe","player":{"instrument":"tuba","voice":"low","lowestSung":"F2","highestSung":"D4","a4Hz":440,"tuningName":"just","tuningRoot":null,"aim":"II"},"played":"Bb2","playedHz":116.54094,"sung":"F3","sungHz":174.811411,"tuning":"just","notes":[],"result":{"exerciseId":"own-passage","aim":"II","asAsked":false,"reached":null,"findings":[{"stepId":"hold","criterion":"heard","role":"played","verdict":"missed","fault":"noTone","value":0.45,"limit":8,"unit":"s","reached":null,"text":"The played tone was not found."},{"stepId":"hold","criterion":"heard","role":"sung","verdict":"missed","fault":"noTone","value":0.44,"limit":8,"unit":"s","reached":null,"text":"The sung tone was not found."},{"stepId":"hold","criterion":"arrival","role":"played","verdict":"met","fault":"none","value":0.06976,"limit":1,"unit":"s","reached":"III","text":"The played tone was there 0.1 s after it was asked for, at the latest; asked within 1.0 s."},{"stepId":"hold","criterion":"arrival","role":"sung","verdict":"met","fault":"none","value":0.07976,"limit":1,"unit":"s","reached":"III","text":"The sung tone was there 0.1 s after it was asked for, at the latest; asked within 1.0 s."},{"stepId":"hold","criterion":"offset","role":"played","verdict":"met","fault":"none","value":-0.090598,"limit":15,"unit":"c","reached":"III","text":"The played tone was true; asked within 15 c."},{"stepId":"hold","criterion":"offset","role":"sung","verdict":"met","fault":"none","value":-0.984108,"limit":15,"unit":"c","reached":"III","text":"The sung tone was 1 c low; asked within 15 c."},{"stepId":"hold","criterion":"spread","role":"played","verdict":"met","fault":"none","value":0.00575,"limit":15,"unit":"c","reached":"III","text":"The played tone wandered 0 c; asked within 15 c."},{"stepId":"hold","criterion":"spread","role":"sung","verdict":"met","fault":"none","value":0.054848,"limit":15,"unit":"c","reached":"III","text":"The sung tone wandered 0 c; asked within 15 c."},{"stepId":"hold","criterion":"drift","role":"played","verdict":"met","fault":"none","value":-0.139697,"limit":15,"unit":"c","reached":"III","text":"The played tone sank 0 c from beginning to end; asked within 15 c."},{"stepId":"hold","criterion":"drift","role":"sung","verdict":"met","fault":"none","value":0.182258,"limit":15,"unit":"c","reached":"III","text":"The sung tone rose 0 c from beginning to end; asked within 15 c."}],"played":{"role":"played","offsetCents":-0.090598,"spreadCents":0.00575,"driftCents":-0.139697,"vibratoPerSecond":null,"vibratoCents":null,"onsetSeconds":0.06976,"heardSeconds":0.45,"askedSeconds":8},"sung":{"role":"sung","offsetCents":-0.984108,"spreadCents":0.054848,"driftCents":0.182258,"vibratoPerSecond":null,"vibratoCents":null,"onsetSeconds":0.07976,"heardSeconds":0.44,"askedSeconds":8},"pair":{"medianBeatsPerSecond":null,"stillSeconds":0.44,"beatingSeconds":0,"intervalErrorCents":-0.874794,"separableSeconds":0.44,"fogSeconds":0},"bestSecond":{"fromSeconds":0.3,"toSeconds":1.3},"next":"Play alone until the note speaks at once, then let the voice join."},"said":null,"frames":[],"playerName":"Tuba-1","isSimulated":true,"drone":null}');
CREATE INDEX takes_by_player ON takes(player, made_at);
CREATE INDEX body_notes_by_take ON body_notes(take_id);
CREATE INDEX spells_by_player ON spells(player, at);
CREATE TABLE listening(
          id INTEGER PRIMARY KEY,
          at TEXT NOT NULL,
          player TEXT NOT NULL,
          exercise_id TEXT NOT NULL,
          trials INTEGER NOT NULL,
          right INTEGER NOT NULL,
          chance_share REAL NOT NULL,
          error_percent REAL,
          is_simulated INTEGER NOT NULL) STRICT;
        CREATE TABLE plan_minutes(
          player TEXT NOT NULL PRIMARY KEY,
          minutes INTEGER NOT NULL) STRICT;
        CREATE TABLE plan_wishes(
          player TEXT NOT NULL,
          exercise_id TEXT NOT NULL,
          at TEXT NOT NULL,
          PRIMARY KEY(player, exercise_id)) STRICT;
COMMIT;
