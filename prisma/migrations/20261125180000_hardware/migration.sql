-- Hardware: lots of screws and other metal parts. A lot's count is what its events add up to: writing an event counts.
CREATE TYPE "HardwareKind" AS ENUM ('screw', 'bolt', 'hinge', 'handle', 'bracket', 'castor', 'other');
CREATE TYPE "HardwareEventKind" AS ENUM ('takenIn', 'taken', 'putBack', 'counted');

CREATE TABLE "HardwareLot" (
  "id" UUID NOT NULL DEFAULT gen_random_uuid(),
  "ownerId" UUID NOT NULL,
  "teardownId" UUID,
  "kind" "HardwareKind" NOT NULL,
  "size" TEXT NOT NULL,
  "count" INTEGER NOT NULL,
  "terms" "SharingTerms" NOT NULL DEFAULT 'free',
  "place" TEXT NOT NULL DEFAULT '',
  "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
  CONSTRAINT "HardwareLot_pkey" PRIMARY KEY ("id"),
  CONSTRAINT hardware_lot_count CHECK ("count" BETWEEN 0 AND 10000),
  CONSTRAINT hardware_lot_size CHECK (btrim("size") <> '' AND length("size") <= 60),
  CONSTRAINT hardware_lot_place CHECK (length("place") <= 80),
  CONSTRAINT hardware_lot_terms CHECK ("terms" <> 'ask')
);
CREATE INDEX "HardwareLot_kind_size_idx" ON "HardwareLot"("kind", "size");
CREATE INDEX "HardwareLot_teardownId_idx" ON "HardwareLot"("teardownId");

CREATE TABLE "HardwareEvent" (
  "id" BIGSERIAL NOT NULL,
  "lotId" UUID NOT NULL,
  "memberId" UUID NOT NULL,
  "buildId" UUID,
  "kind" "HardwareEventKind" NOT NULL,
  "change" INTEGER NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
  CONSTRAINT "HardwareEvent_pkey" PRIMARY KEY ("id"),
  CONSTRAINT hardware_event_change CHECK (CASE "kind"
    WHEN 'taken' THEN "change" < 0
    WHEN 'counted' THEN "change" <> 0
    ELSE "change" > 0 END)
);
CREATE INDEX "HardwareEvent_lotId_id_idx" ON "HardwareEvent"("lotId", "id");
CREATE INDEX "HardwareEvent_buildId_idx" ON "HardwareEvent"("buildId");

ALTER TABLE "HardwareLot" ADD CONSTRAINT "HardwareLot_ownerId_fkey"
  FOREIGN KEY ("ownerId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "HardwareLot" ADD CONSTRAINT "HardwareLot_teardownId_fkey"
  FOREIGN KEY ("teardownId") REFERENCES "Teardown"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE "HardwareEvent" ADD CONSTRAINT "HardwareEvent_lotId_fkey"
  FOREIGN KEY ("lotId") REFERENCES "HardwareLot"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "HardwareEvent" ADD CONSTRAINT "HardwareEvent_memberId_fkey"
  FOREIGN KEY ("memberId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "HardwareEvent" ADD CONSTRAINT "HardwareEvent_buildId_fkey"
  FOREIGN KEY ("buildId") REFERENCES "Build"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- A lot begins empty; each event counts, under the lock of its lot, so that nobody takes what another has taken.
CREATE FUNCTION hardware_event_counts() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  UPDATE "HardwareLot" SET "count" = "count" + NEW."change" WHERE "id" = NEW."lotId";
  RETURN NULL;
END $$;
CREATE TRIGGER hardware_event_counts AFTER INSERT ON "HardwareEvent"
  FOR EACH ROW EXECUTE FUNCTION hardware_event_counts();

-- What is put back for a build was taken for it.
CREATE FUNCTION hardware_put_back_was_taken() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW."kind" = 'putBack' AND (
    SELECT coalesce(sum("change"), 0) FROM "HardwareEvent"
    WHERE "lotId" = NEW."lotId" AND "buildId" IS NOT DISTINCT FROM NEW."buildId" AND "kind" IN ('taken', 'putBack')
  ) > 0 THEN
    RAISE EXCEPTION 'more is put back than was taken (constraint "hardware_put_back")'
      USING ERRCODE = 'check_violation', CONSTRAINT = 'hardware_put_back';
  END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER hardware_put_back_was_taken AFTER INSERT ON "HardwareEvent"
  FOR EACH ROW EXECUTE FUNCTION hardware_put_back_was_taken();

CREATE TRIGGER hardware_event_append_only BEFORE UPDATE OR DELETE ON "HardwareEvent"
  FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER hardware_event_no_truncate BEFORE TRUNCATE ON "HardwareEvent"
  FOR EACH STATEMENT EXECUTE FUNCTION ledger_is_append_only();
CREATE TRIGGER hardware_lot_never_deleted BEFORE DELETE ON "HardwareLot"
  FOR EACH ROW EXECUTE FUNCTION ledger_is_append_only();
