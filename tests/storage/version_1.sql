PRAGMA application_id = 1263423316;
PRAGMA user_version = 1;
BEGIN TRANSACTION;
CREATE TABLE event (
            piece_id INTEGER NOT NULL REFERENCES piece (id),
            seq INTEGER NOT NULL,
            at TEXT NOT NULL,
            kind TEXT NOT NULL,
            data TEXT NOT NULL,
            PRIMARY KEY (piece_id, seq)
        ) WITHOUT ROWID;
INSERT INTO "event" VALUES(1,1,'2026-11-28T10:00:40+00:00','started','{"total_steps":7}');
INSERT INTO "event" VALUES(1,2,'2026-11-28T10:00:40+00:00','cut entered','{"cord":0,"length_mm":900.0,"typed":"90 cm"}');
INSERT INTO "event" VALUES(1,3,'2026-11-28T10:01:20+00:00','confirmed','{"step":1}');
INSERT INTO "event" VALUES(1,4,'2026-11-28T10:02:00+00:00','confirmed','{"step":2}');
INSERT INTO "event" VALUES(1,5,'2026-11-28T10:02:40+00:00','confirmed','{"step":3}');
INSERT INTO "event" VALUES(1,6,'2026-11-28T10:03:20+00:00','confirmed','{"step":4}');
INSERT INTO "event" VALUES(1,7,'2026-11-28T10:04:00+00:00','undone','{"back_to":3}');
INSERT INTO "event" VALUES(1,8,'2026-11-28T10:04:40+00:00','measured','{"kind":"strand","step":3,"length_mm":41.5,"typed":"41.5 mm","ruler_step_mm":1.0}');
INSERT INTO "event" VALUES(1,9,'2026-11-28T10:05:20+00:00','withdrawn','{}');
INSERT INTO "event" VALUES(1,10,'2026-11-28T10:06:00+00:00','confirmed','{"step":4}');
INSERT INTO "event" VALUES(1,11,'2026-11-28T10:06:40+00:00','jumped','{"to":2}');
INSERT INTO "event" VALUES(1,12,'2026-11-28T10:07:20+00:00','undone','{"back_to":4}');
INSERT INTO "event" VALUES(1,13,'2026-11-28T10:08:00+00:00','measured','{"kind":"free","step":4,"length_mm":310.0,"typed":"31 cm","ruler_step_mm":1.0}');
INSERT INTO "event" VALUES(1,14,'2026-11-28T10:08:40+00:00','noted','{"step":4,"text":"knots a little looser tonight"}');
INSERT INTO "event" VALUES(1,15,'2026-11-28T10:09:20+00:00','abandoned','{"reason":"the dog had the beads"}');
INSERT INTO "event" VALUES(1,16,'2026-11-28T10:10:00+00:00','undone','{"back_to":4}');
INSERT INTO "event" VALUES(1,17,'2026-11-28T10:10:40+00:00','jumped','{"to":7}');
INSERT INTO "event" VALUES(1,18,'2026-11-28T10:11:20+00:00','finished','{"length_mm":148.0}');
CREATE TABLE piece (
            id INTEGER PRIMARY KEY,
            uid TEXT NOT NULL UNIQUE,
            name TEXT NOT NULL UNIQUE COLLATE NOCASE,
            design_name TEXT NOT NULL,
            design_path TEXT NOT NULL,
            design_digest TEXT NOT NULL,
            design_text TEXT NOT NULL,
            plan TEXT NOT NULL,
            started_at TEXT NOT NULL,
            touched_at TEXT NOT NULL,
            steps_done INTEGER NOT NULL,
            steps_total INTEGER NOT NULL,
            state TEXT NOT NULL,
            trouble TEXT NOT NULL
        );
INSERT INTO "piece" VALUES(1,'5eab1e0f5c0a57a11197ba5eab1e0f5c','portland-bill-key-cord','Portland Bill key cord','/bench/portland-bill-key-cord.yaml','3859222b448bb80e1fbaed4427ba23e3684a79979e4df58f9497d9a6f348c41a','format: 1
name: Portland Bill key cord
note: A short cord for a boat key, tails left plain to tie on.
size: {length: 4 1/2 in, tolerance: 1/4 in}
unit: in
cord:
  name: cotton, braided
  material: cotton
  diameter: 1.5 mm
  knots:
    single: {take_up: 15 mm, length: 4.4 mm}
beads:
  float: {name: Painted float, length: 15 mm, diameter: 14 mm, hole: 3 mm, colour: orange, shape: barrel}
  ring:  {name: Brass ring bead, length: 4 mm, diameter: 8 mm, hole: 2.5 mm, colour: brass, shape: disc}
strand:
  start: {closure: plain tail, tail: 4}
  layout:
    - knot
    - repeat: fit
      of: [ring, float, ring, knot]
  end: {closure: plain tail, tail: 4}
','{"version":1,"design":"Portland Bill key cord","note":"A short cord for a boat key, tails left plain to tie on.","unit":"in","size":{"kind":"length","body_mm":114.3,"ease_mm":0.0,"tolerance_mm":6.35,"typed":"length 4 1/2 in"},"target_mm":114.3,"tolerance_mm":6.35,"finished_length_mm":114.0,"finished_low95_mm":108.6103784337132,"finished_high95_mm":119.3896215662868,"fit":4,"fit_others":[{"count":3,"finished_mm":86.6},{"count":5,"finished_mm":141.4}],"cord":{"name":"cotton, braided","diameter_mm":1.5,"layers":1,"material":"cotton","needle":false,"single":{"take_up_mm":15.0,"length_mm":4.4,"take_up_sd_mm":1.0392304845413263,"length_sd_mm":0.3048409421321224,"take_up_scatter_mm":1.7999999999999998,"length_scatter_mm":0.528,"degrees":14.0,"source":"design"},"double":{"take_up_mm":25.950000000000003,"length_mm":7.3500000000000005,"take_up_sd_mm":6.487500000000001,"length_sd_mm":1.4700000000000002,"take_up_scatter_mm":3.1140000000000003,"length_scatter_mm":0.882,"degrees":1000000000.0,"source":"estimate"},"triple":{"take_up_mm":36.75,"length_mm":10.5,"take_up_sd_mm":9.1875,"length_sd_mm":2.1,"take_up_scatter_mm":4.41,"length_scatter_mm":1.26,"degrees":1000000000.0,"source":"estimate"},"card":null},"beads":[{"key":"float","name":"Painted float","length_mm":15.0,"diameter_mm":14.0,"hole_mm":3.0,"colour":"orange","shape":"barrel"},{"key":"ring","name":"Brass ring bead","length_mm":4.0,"diameter_mm":8.0,"hole_mm":2.5,"colour":"brass","shape":"disc"}],"strands":[{"name":"strand","label":"strand","side":null,"layers":1,"start_closure":"plain tail","end_closure":"plain tail","elements":["single","=ring","=float","=ring","single","=ring","=float","=ring","single","=ring","=float","=ring","single","=ring","=float","=ring","single"],"steps":[[1,"start","Leave a tail of 4 in before the first knot or bead.",[],null,0.0,101.6,373.11251503191636,0],[2,"string","A single knot",[],"single",4.4,121.0,353.7125150319163,1],[3,"string","Brass ring bead, Painted float, Brass ring bead, then a single knot",["ring","float","ring"],"single",31.799999999999997,163.39999999999998,311.31251503191635,5],[4,"string","Brass ring bead, Painted float, Brass ring bead, then a single knot",["ring","float","ring"],"single",59.199999999999996,205.79999999999998,268.9125150319163,9],[5,"string","Brass ring bead, Painted float, Brass ring bead, then a single knot",["ring","float","ring"],"single",86.6,248.2,226.51251503191634,13],[6,"string","Brass ring bead, Painted float, Brass ring bead, then a single knot",["ring","float","ring"],"single",114.0,290.6,184.1125150319163,17],[7,"end","Leave a tail of 4 in, and trim the rest.",[],null,114.0,290.6,184.1125150319163,17]],"beads":[["ring",8],["float",4]],"knots":[["single",5],["double",0],["triple",0]],"strand_length_mm":114.0,"closure_length_mm":0,"take_up_mm":75.0,"start_tail_mm":101.6,"start_closure_cord_mm":0,"end_closure_cord_mm":0,"end_tail_mm":101.6,"working_allowance_mm":60.0,"margin_mm":22.512515031916294,"cut_mm":474.7125150319163,"run_out_risk":0.010000000000000047,"need_sd_mm":9.487698140223475,"need_degrees":81.78572205418614}],"longest":[0],"cuts":[{"name":"strand","entries":[0],"cut_mm":474.7125150319163,"layers":1}],"extra_cords":[],"warnings":[],"risk":0.01}','2026-11-28T10:00:40+00:00','2026-11-28T10:11:20+00:00',7,7,'finished','off, cord runs out');
CREATE TRIGGER event_never_updated BEFORE UPDATE ON event BEGIN SELECT RAISE(ABORT, 'the journal is only ever added to'); END;
CREATE TRIGGER event_never_deleted BEFORE DELETE ON event BEGIN SELECT RAISE(ABORT, 'the journal is only ever added to'); END;
CREATE INDEX piece_by_touch ON piece (touched_at);
COMMIT;
