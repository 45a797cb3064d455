PRAGMA application_id = 1263423316;
PRAGMA user_version = 2;
BEGIN TRANSACTION;
CREATE TABLE card (
            id INTEGER PRIMARY KEY,
            name TEXT NOT NULL UNIQUE COLLATE NOCASE,
            diameter_mm REAL NOT NULL,
            layers INTEGER NOT NULL,
            material TEXT NOT NULL,
            worked_with TEXT NOT NULL,
            made_at TEXT NOT NULL
        );
INSERT INTO "card" VALUES(1,'skerry linen',0.6,1,'waxed linen','awl','2026-12-01T09:00:00+00:00');
CREATE TABLE card_test (
            card_id INTEGER NOT NULL REFERENCES card (id),
            seq INTEGER NOT NULL,
            at TEXT NOT NULL,
            kind TEXT NOT NULL,
            knots INTEGER NOT NULL,
            before_mm REAL,
            after_mm REAL,
            row_mm REAL,
            ruler_step_mm REAL NOT NULL,
            typed TEXT NOT NULL,
            PRIMARY KEY (card_id, seq)
        ) WITHOUT ROWID;
INSERT INTO "card_test" VALUES(1,1,'2026-12-01T09:00:00+00:00','single',2,200.0,182.0,NULL,1.0,'200 mm; 182 mm');
INSERT INTO "card_test" VALUES(1,2,'2026-12-01T09:00:40+00:00','single',5,NULL,NULL,9.0,1.0,'9 mm');
INSERT INTO "card_test" VALUES(1,3,'2026-12-01T09:00:40+00:00','double',1,203.2,190.5,4.0,1.5875,'8 in; 7 1/2 in; 4 mm');
CREATE TABLE event (
            piece_id INTEGER NOT NULL REFERENCES piece (id),
            seq INTEGER NOT NULL,
            at TEXT NOT NULL,
            kind TEXT NOT NULL,
            data TEXT NOT NULL,
            PRIMARY KEY (piece_id, seq)
        ) WITHOUT ROWID;
INSERT INTO "event" VALUES(1,1,'2026-12-01T09:01:20+00:00','started','{"total_steps":15}');
INSERT INTO "event" VALUES(1,2,'2026-12-01T09:01:20+00:00','cut entered','{"cord":0,"length_mm":900.0,"typed":"90 cm"}');
INSERT INTO "event" VALUES(1,3,'2026-12-01T09:02:00+00:00','confirmed','{"step":1}');
INSERT INTO "event" VALUES(1,4,'2026-12-01T09:02:40+00:00','confirmed','{"step":2}');
INSERT INTO "event" VALUES(1,5,'2026-12-01T09:03:20+00:00','confirmed','{"step":3}');
INSERT INTO "event" VALUES(1,6,'2026-12-01T09:04:00+00:00','confirmed','{"step":4}');
INSERT INTO "event" VALUES(1,7,'2026-12-01T09:04:40+00:00','confirmed','{"step":5}');
INSERT INTO "event" VALUES(1,8,'2026-12-01T09:05:20+00:00','undone','{"back_to":4}');
INSERT INTO "event" VALUES(1,9,'2026-12-01T09:06:00+00:00','measured','{"kind":"strand","step":4,"length_mm":34.0,"typed":"34 mm","ruler_step_mm":1.0}');
INSERT INTO "event" VALUES(1,10,'2026-12-01T09:06:40+00:00','withdrawn','{}');
INSERT INTO "event" VALUES(1,11,'2026-12-01T09:07:20+00:00','confirmed','{"step":5}');
INSERT INTO "event" VALUES(1,12,'2026-12-01T09:08:00+00:00','jumped','{"to":3}');
INSERT INTO "event" VALUES(1,13,'2026-12-01T09:08:40+00:00','undone','{"back_to":5}');
INSERT INTO "event" VALUES(1,14,'2026-12-01T09:09:20+00:00','measured','{"kind":"strand","step":5,"length_mm":42.0,"typed":"42 mm","ruler_step_mm":0.5}');
INSERT INTO "event" VALUES(1,15,'2026-12-01T09:10:00+00:00','measured','{"kind":"free","step":5,"length_mm":700.0,"typed":"70 cm","ruler_step_mm":1.0}');
INSERT INTO "event" VALUES(1,16,'2026-12-01T09:10:40+00:00','recounted','{"step":5}');
INSERT INTO "event" VALUES(1,17,'2026-12-01T09:11:20+00:00','noted','{"step":5,"text":"knots a little looser tonight"}');
INSERT INTO "event" VALUES(1,18,'2026-12-01T09:12:00+00:00','joined','{"step":5,"added_mm":250.0,"typed":"25 cm"}');
INSERT INTO "event" VALUES(1,19,'2026-12-01T09:12:40+00:00','changed','{"entry":0,"made":7,"rest":["=red","single","=white","single","=red","single","=white","single","=red","single","=white","single","=red","single","=white","single","=red","single"],"closure_mm":37.11211825870137,"total_steps":15,"words":"A closure 37 mm longer: it would finish at 170 \u00b1 6 mm.","more":[],"end_closure":""}');
INSERT INTO "event" VALUES(1,20,'2026-12-01T09:13:20+00:00','confirmed','{"step":6}');
INSERT INTO "event" VALUES(2,1,'2026-12-01T09:14:00+00:00','started','{"total_steps":15}');
INSERT INTO "event" VALUES(2,2,'2026-12-01T09:14:40+00:00','confirmed','{"step":1}');
INSERT INTO "event" VALUES(2,3,'2026-12-01T09:15:20+00:00','abandoned','{"reason":"the cord is wanted elsewhere"}');
INSERT INTO "event" VALUES(2,4,'2026-12-01T09:16:00+00:00','undone','{"back_to":1}');
INSERT INTO "event" VALUES(2,5,'2026-12-01T09:16:40+00:00','jumped','{"to":15}');
INSERT INTO "event" VALUES(2,6,'2026-12-01T09:17:20+00:00','finished','{"length_mm":149.0}');
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
INSERT INTO "piece" VALUES(1,'5eaf00d5eaf00d5eaf00d5eaf00d0001','godrevy-key-cord','Godrevy key cord','/home/maker/designs/godrevy-key-cord.yaml','475946bcbeb873c71580d1646747bfe2f66a1b494d37d46216ce315e32b2fd89','format: 1
name: Godrevy key cord
size: {length: 170 mm, tolerance: 3 mm}
cord: {card: skerry linen, name: linen, diameter: 0.6 mm, material: waxed linen}
beads: {white: {length: 8 mm, colour: white}, red: {length: 8 mm, colour: red}}
strand: {layout: [knot, {repeat: 6, of: [white, knot, red, knot]}]}
','{"version":1,"design":"Godrevy key cord","note":"","unit":"mm","size":{"kind":"length","body_mm":170.0,"ease_mm":0.0,"tolerance_mm":3.0,"typed":"length 170 mm"},"target_mm":170.0,"tolerance_mm":3.0,"finished_length_mm":119.2359093912354,"finished_low95_mm":113.39142693676824,"finished_high95_mm":125.08039184570255,"fit":null,"fit_others":[],"cord":{"name":"linen","diameter_mm":0.6,"layers":1,"material":"waxed linen","needle":false,"single":{"take_up_mm":8.325411532274655,"length_mm":1.7873776454796464,"take_up_sd_mm":0.8045746097755508,"length_sd_mm":0.1596150380254996,"take_up_scatter_mm":1.08,"length_scatter_mm":0.216,"degrees":12.0,"source":"card"},"double":{"take_up_mm":12.09853882547962,"length_mm":3.227181462795763,"take_up_sd_mm":1.574612170469199,"length_sd_mm":0.5020687131872035,"take_up_scatter_mm":1.5239999999999987,"length_scatter_mm":0.48000000000000004,"degrees":12.0,"source":"card"},"triple":{"take_up_mm":15.435,"length_mm":4.2,"take_up_sd_mm":3.85875,"length_sd_mm":0.8400000000000001,"take_up_scatter_mm":1.8522,"length_scatter_mm":0.504,"degrees":1000000000.0,"source":"estimate"},"card":"skerry linen"},"beads":[{"key":"white","name":"white","length_mm":8.0,"diameter_mm":8.0,"hole_mm":null,"colour":"white","shape":""},{"key":"red","name":"red","length_mm":8.0,"diameter_mm":8.0,"hole_mm":null,"colour":"red","shape":""}],"strands":[{"name":"strand","label":"strand","side":null,"layers":1,"start_closure":"plain tail","end_closure":"plain tail","elements":["single","=white","single","=red","single","=white","single","=red","single","=white","single","=red","single","=white","single","=red","single","=white","single","=red","single","=white","single","=red","single"],"steps":[[1,"start","Leave a tail of 80 mm before the first knot or bead.",[],null,0.0,80,403.15680829393665,0],[2,"string","A single knot",[],"single",1.7873776454796464,90.11278917775431,393.0440191161823,1],[3,"string","White, then a single knot",["white"],"single",11.574755290959292,108.2255783555086,374.93122993842803,3],[4,"string","Red, then a single knot",["red"],"single",21.36213293643894,126.3383675332629,356.81844076067375,5],[5,"string","White, then a single knot",["white"],"single",31.149510581918587,144.4511567110172,338.7056515829195,7],[6,"string","Red, then a single knot",["red"],"single",40.936888227398235,162.5639458887715,320.59286240516514,9],[7,"string","White, then a single knot",["white"],"single",50.72426587287788,180.67673506652582,302.4800732274108,11],[8,"string","Red, then a single knot",["red"],"single",60.51164351835752,198.7895242442801,284.3672840496565,13],[9,"string","White, then a single knot",["white"],"single",70.29902116383717,216.9023134220344,266.25449487190224,15],[10,"string","Red, then a single knot",["red"],"single",80.08639880931682,235.01510259978872,248.14170569414793,17],[11,"string","White, then a single knot",["white"],"single",89.87377645479647,253.12789177754303,230.02891651639362,19],[12,"string","Red, then a single knot",["red"],"single",99.66115410027612,271.2406809552973,211.91612733863934,21],[13,"string","White, then a single knot",["white"],"single",109.44853174575577,289.35347013305164,193.803338160885,23],[14,"string","Red, then a single knot",["red"],"single",119.23590939123542,307.466259310806,175.69054898313067,25],[15,"end","Leave a tail of 80 mm, and trim the rest.",[],null,119.23590939123542,307.466259310806,175.69054898313067,25]],"beads":[["white",6],["red",6]],"knots":[["single",13],["double",0],["triple",0]],"strand_length_mm":119.2359093912354,"closure_length_mm":0,"take_up_mm":108.23034991957051,"start_tail_mm":80,"start_closure_cord_mm":0,"end_closure_cord_mm":0,"end_tail_mm":80,"working_allowance_mm":60.0,"margin_mm":35.690548983130725,"cut_mm":483.15680829393665,"run_out_risk":0.010000000000000024,"need_sd_mm":14.492718801144916,"need_degrees":28.872382985615292}],"longest":[0],"cuts":[{"name":"strand","entries":[0],"cut_mm":483.15680829393665,"layers":1}],"extra_cords":[],"warnings":[{"code":"length outside tolerance","text":"Planned 119 mm finished, 51 mm shorter than the target of 170 mm: outside the tolerance of 3 mm. Change a count, a bead or the closure.","where":"size"},{"code":"hole not given","text":"No hole is given for white and red: holes are not checked there.","where":"beads"}],"risk":0.01}','2026-12-01T09:01:20+00:00','2026-12-01T09:13:20+00:00',6,15,'under way','');
INSERT INTO "piece" VALUES(2,'5eaf00d5eaf00d5eaf00d5eaf00d0002','godrevy-key-cord-2','Godrevy key cord','/home/maker/designs/godrevy-key-cord.yaml','475946bcbeb873c71580d1646747bfe2f66a1b494d37d46216ce315e32b2fd89','format: 1
name: Godrevy key cord
size: {length: 170 mm, tolerance: 3 mm}
cord: {card: skerry linen, name: linen, diameter: 0.6 mm, material: waxed linen}
beads: {white: {length: 8 mm, colour: white}, red: {length: 8 mm, colour: red}}
strand: {layout: [knot, {repeat: 6, of: [white, knot, red, knot]}]}
','{"version":1,"design":"Godrevy key cord","note":"","unit":"mm","size":{"kind":"length","body_mm":170.0,"ease_mm":0.0,"tolerance_mm":3.0,"typed":"length 170 mm"},"target_mm":170.0,"tolerance_mm":3.0,"finished_length_mm":119.2359093912354,"finished_low95_mm":113.39142693676824,"finished_high95_mm":125.08039184570255,"fit":null,"fit_others":[],"cord":{"name":"linen","diameter_mm":0.6,"layers":1,"material":"waxed linen","needle":false,"single":{"take_up_mm":8.325411532274655,"length_mm":1.7873776454796464,"take_up_sd_mm":0.8045746097755508,"length_sd_mm":0.1596150380254996,"take_up_scatter_mm":1.08,"length_scatter_mm":0.216,"degrees":12.0,"source":"card"},"double":{"take_up_mm":12.09853882547962,"length_mm":3.227181462795763,"take_up_sd_mm":1.574612170469199,"length_sd_mm":0.5020687131872035,"take_up_scatter_mm":1.5239999999999987,"length_scatter_mm":0.48000000000000004,"degrees":12.0,"source":"card"},"triple":{"take_up_mm":15.435,"length_mm":4.2,"take_up_sd_mm":3.85875,"length_sd_mm":0.8400000000000001,"take_up_scatter_mm":1.8522,"length_scatter_mm":0.504,"degrees":1000000000.0,"source":"estimate"},"card":"skerry linen"},"beads":[{"key":"white","name":"white","length_mm":8.0,"diameter_mm":8.0,"hole_mm":null,"colour":"white","shape":""},{"key":"red","name":"red","length_mm":8.0,"diameter_mm":8.0,"hole_mm":null,"colour":"red","shape":""}],"strands":[{"name":"strand","label":"strand","side":null,"layers":1,"start_closure":"plain tail","end_closure":"plain tail","elements":["single","=white","single","=red","single","=white","single","=red","single","=white","single","=red","single","=white","single","=red","single","=white","single","=red","single","=white","single","=red","single"],"steps":[[1,"start","Leave a tail of 80 mm before the first knot or bead.",[],null,0.0,80,403.15680829393665,0],[2,"string","A single knot",[],"single",1.7873776454796464,90.11278917775431,393.0440191161823,1],[3,"string","White, then a single knot",["white"],"single",11.574755290959292,108.2255783555086,374.93122993842803,3],[4,"string","Red, then a single knot",["red"],"single",21.36213293643894,126.3383675332629,356.81844076067375,5],[5,"string","White, then a single knot",["white"],"single",31.149510581918587,144.4511567110172,338.7056515829195,7],[6,"string","Red, then a single knot",["red"],"single",40.936888227398235,162.5639458887715,320.59286240516514,9],[7,"string","White, then a single knot",["white"],"single",50.72426587287788,180.67673506652582,302.4800732274108,11],[8,"string","Red, then a single knot",["red"],"single",60.51164351835752,198.7895242442801,284.3672840496565,13],[9,"string","White, then a single knot",["white"],"single",70.29902116383717,216.9023134220344,266.25449487190224,15],[10,"string","Red, then a single knot",["red"],"single",80.08639880931682,235.01510259978872,248.14170569414793,17],[11,"string","White, then a single knot",["white"],"single",89.87377645479647,253.12789177754303,230.02891651639362,19],[12,"string","Red, then a single knot",["red"],"single",99.66115410027612,271.2406809552973,211.91612733863934,21],[13,"string","White, then a single knot",["white"],"single",109.44853174575577,289.35347013305164,193.803338160885,23],[14,"string","Red, then a single knot",["red"],"single",119.23590939123542,307.466259310806,175.69054898313067,25],[15,"end","Leave a tail of 80 mm, and trim the rest.",[],null,119.23590939123542,307.466259310806,175.69054898313067,25]],"beads":[["white",6],["red",6]],"knots":[["single",13],["double",0],["triple",0]],"strand_length_mm":119.2359093912354,"closure_length_mm":0,"take_up_mm":108.23034991957051,"start_tail_mm":80,"start_closure_cord_mm":0,"end_closure_cord_mm":0,"end_tail_mm":80,"working_allowance_mm":60.0,"margin_mm":35.690548983130725,"cut_mm":483.15680829393665,"run_out_risk":0.010000000000000024,"need_sd_mm":14.492718801144916,"need_degrees":28.872382985615292}],"longest":[0],"cuts":[{"name":"strand","entries":[0],"cut_mm":483.15680829393665,"layers":1}],"extra_cords":[],"warnings":[{"code":"length outside tolerance","text":"Planned 119 mm finished, 51 mm shorter than the target of 170 mm: outside the tolerance of 3 mm. Change a count, a bead or the closure.","where":"size"},{"code":"hole not given","text":"No hole is given for white and red: holes are not checked there.","where":"beads"}],"risk":0.01}','2026-12-01T09:14:00+00:00','2026-12-01T09:17:20+00:00',15,15,'finished','off');
CREATE TRIGGER event_never_updated BEFORE UPDATE ON event BEGIN SELECT RAISE(ABORT, 'the journal is only ever added to'); END;
CREATE TRIGGER event_never_deleted BEFORE DELETE ON event BEGIN SELECT RAISE(ABORT, 'the journal is only ever added to'); END;
CREATE INDEX piece_by_touch ON piece (touched_at);
CREATE TRIGGER card_never_updated BEFORE UPDATE ON card BEGIN SELECT RAISE(ABORT, 'cord cards are only ever added to'); END;
CREATE TRIGGER card_never_deleted BEFORE DELETE ON card BEGIN SELECT RAISE(ABORT, 'cord cards are only ever added to'); END;
CREATE TRIGGER card_test_never_updated BEFORE UPDATE ON card_test BEGIN SELECT RAISE(ABORT, 'cord cards are only ever added to'); END;
CREATE TRIGGER card_test_never_deleted BEFORE DELETE ON card_test BEGIN SELECT RAISE(ABORT, 'cord cards are only ever added to'); END;
COMMIT;
