-- What must hold whoever writes at the same time: constraints here, not checks in code.
CREATE EXTENSION IF NOT EXISTS btree_gist;

ALTER TABLE "Shop"
  ADD CONSTRAINT shop_one_row CHECK ("id" = 1),
  ADD CONSTRAINT shop_name_said CHECK (btrim("name") <> ''),
  ADD CONSTRAINT shop_hold_hours CHECK ("holdHours" BETWEEN 1 AND 2160),
  ADD CONSTRAINT shop_allowances CHECK (
    "lengthAllowanceUm" BETWEEN 0 AND 100000 AND "widthAllowanceUm" BETWEEN 0 AND 100000
    AND "skimUm" BETWEEN 0 AND 10000 AND "endTrimUm" BETWEEN 0 AND 200000);

ALTER TABLE "Member"
  ADD CONSTRAINT member_email_lower CHECK ("email" = lower(btrim("email")) AND "email" LIKE '%_@_%'),
  ADD CONSTRAINT member_name_said CHECK (btrim("name") <> '');

ALTER TABLE "Invite"
  ADD CONSTRAINT invite_email_lower CHECK ("email" = lower(btrim("email")));
CREATE UNIQUE INDEX invite_one_open_per_email ON "Invite" ("email") WHERE "usedAt" IS NULL AND "revokedAt" IS NULL;

ALTER TABLE "Station"
  ADD CONSTRAINT station_name_said CHECK (btrim("name") <> ''),
  ADD CONSTRAINT station_hours CHECK ("opensMinute" >= 0 AND "closesMinute" <= 1440 AND "opensMinute" < "closesMinute"),
  ADD CONSTRAINT station_sizes CHECK (
    coalesce("kerfUm", 0) BETWEEN 0 AND 30000 AND coalesce("maxRipWidthUm", 1) > 0
    AND coalesce("maxCrosscutWidthUm", 1) > 0 AND coalesce("minPieceLengthUm", 0) >= 0
    AND coalesce("minPieceWidthUm", 0) >= 0 AND coalesce("maxPassUm", 1) > 0);

CREATE UNIQUE INDEX induction_one_live ON "Induction" ("stationId", "memberId") WHERE "revokedAt" IS NULL;

-- Touching is not overlapping: [startAt, endAt).
ALTER TABLE "Booking"
  ADD CONSTRAINT booking_has_length CHECK ("startAt" < "endAt"),
  ADD CONSTRAINT booking_at_most_a_day CHECK ("endAt" - "startAt" <= interval '24 hours'),
  ADD CONSTRAINT booking_decided CHECK (("status" = 'declined') <= ("decidedById" IS NOT NULL)),
  ADD CONSTRAINT booking_no_overlap EXCLUDE USING gist (
    "stationId" WITH =, tstzrange("startAt", "endAt", '[)') WITH &&
  ) WHERE ("status" IN ('requested', 'approved'));

ALTER TABLE "Teardown" ADD CONSTRAINT teardown_name_said CHECK (btrim("name") <> '');

-- A board: 20 mm to 12 m long, 5 mm to 1.5 m wide, 2 mm to 300 mm thick.
ALTER TABLE "Board"
  ADD CONSTRAINT board_size CHECK (
    "lengthUm" BETWEEN 20000 AND 12000000 AND "widthUm" BETWEEN 5000 AND 1500000
    AND "thicknessUm" BETWEEN 2000 AND 300000),
  ADD CONSTRAINT board_warp CHECK ("cupUm" >= 0 AND "bowUm" >= 0 AND "crookUm" >= 0 AND "twistUm" >= 0),
  ADD CONSTRAINT board_version CHECK ("version" >= 1),
  ADD CONSTRAINT board_not_own_parent CHECK ("parentId" IS NULL OR "parentId" <> "id"),
  ADD CONSTRAINT board_cut_only_cleared CHECK ("status" <> 'cut' OR "metal" = 'cleared');

ALTER TABLE "Defect"
  ADD CONSTRAINT defect_size CHECK ("xUm" >= 0 AND "yUm" >= 0 AND "widthUm" > 0 AND "heightUm" > 0);

-- A defect lies on its board, however the two are changed; checked when the transaction commits.
CREATE FUNCTION defect_lies_on_board() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  row_now jsonb := to_jsonb(NEW);
  board_id uuid := coalesce(row_now ->> 'boardId', row_now ->> 'id');
BEGIN
  IF EXISTS (
    SELECT 1 FROM "Defect" d JOIN "Board" b ON b."id" = d."boardId"
    WHERE b."id" = board_id AND (d."xUm" + d."widthUm" > b."lengthUm" OR d."yUm" + d."heightUm" > b."widthUm")
  ) THEN
    RAISE EXCEPTION 'defect off its board' USING ERRCODE = 'check_violation', CONSTRAINT = 'defect_on_board';
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER defect_on_board AFTER INSERT OR UPDATE ON "Defect"
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION defect_lies_on_board();
CREATE CONSTRAINT TRIGGER board_holds_defects AFTER UPDATE OF "lengthUm", "widthUm" ON "Board"
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION defect_lies_on_board();

CREATE UNIQUE INDEX hold_one_live_per_board ON "Hold" ("boardId") WHERE "status" = 'live';
CREATE UNIQUE INDEX hold_one_open_per_build ON "Hold" ("boardId", "buildId") WHERE "status" IN ('live', 'requested');
ALTER TABLE "Hold"
  ADD CONSTRAINT hold_lapses_later CHECK ("expiresAt" > "createdAt"),
  ADD CONSTRAINT hold_ended CHECK (("status" IN ('requested', 'live')) = ("endedAt" IS NULL));

-- A live hold stands on a board of the pool only, and a board leaves the pool without a live hold on it.
CREATE FUNCTION live_hold_stands_in_pool() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  row_now jsonb := to_jsonb(NEW);
  board_id uuid := coalesce(row_now ->> 'boardId', row_now ->> 'id');
BEGIN
  IF EXISTS (
    SELECT 1 FROM "Hold" h JOIN "Board" b ON b."id" = h."boardId"
    WHERE b."id" = board_id AND h."status" = 'live' AND b."status" <> 'inPool'
  ) THEN
    RAISE EXCEPTION 'a live hold on a board that is not in the pool'
      USING ERRCODE = 'check_violation', CONSTRAINT = 'live_hold_in_pool';
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER hold_stands_in_pool AFTER INSERT OR UPDATE ON "Hold"
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION live_hold_stands_in_pool();
CREATE CONSTRAINT TRIGGER board_leaves_unheld AFTER UPDATE OF "status" ON "Board"
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION live_hold_stands_in_pool();

-- The ledger is append-only.
CREATE FUNCTION ledger_is_append_only() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'the stock ledger is append-only' USING ERRCODE = 'restrict_violation';
END $$;
CREATE TRIGGER stock_event_append_only BEFORE UPDATE OR DELETE ON "StockEvent"
  FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER stock_event_no_truncate BEFORE TRUNCATE ON "StockEvent"
  FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();

-- Boards are never deleted: their history is the ledger's.
CREATE TRIGGER board_never_deleted BEFORE DELETE ON "Board"
  FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();

ALTER TABLE "Build" ADD CONSTRAINT build_name_said CHECK (btrim("name") <> '');
CREATE UNIQUE INDEX variant_one_chosen ON "Variant" ("buildId") WHERE "chosen";
ALTER TABLE "Comment" ADD CONSTRAINT comment_said CHECK (btrim("body") <> '' AND length("body") <= 4000);

CREATE UNIQUE INDEX cut_plan_one_unfinished ON "CutPlan" ("buildId") WHERE "status" IN ('queued', 'running');
ALTER TABLE "CutPlan"
  ADD CONSTRAINT cut_plan_running CHECK ("status" <> 'running' OR ("runToken" IS NOT NULL AND "heartbeatAt" IS NOT NULL)),
  ADD CONSTRAINT cut_plan_done CHECK ("status" <> 'done' OR "result" IS NOT NULL),
  ADD CONSTRAINT cut_plan_seconds CHECK ("seconds" BETWEEN 1 AND 3600);

ALTER TABLE "PartMade"
  ADD CONSTRAINT part_made_size CHECK ("lengthUm" > 0 AND "widthUm" > 0 AND "thicknessUm" > 0);
ALTER TABLE "Wait"
  ADD CONSTRAINT wait_has_length CHECK ("readyAt" > "startedAt"),
  ADD CONSTRAINT wait_label_said CHECK (btrim("label") <> '');
