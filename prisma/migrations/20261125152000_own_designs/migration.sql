-- Members' own designs: versions that are only ever added to, and variants that pin one of them.
CREATE TYPE "DesignSharing" AS ENUM ('mine', 'shop');

CREATE TABLE "OwnDesign" (
  "id" UUID NOT NULL DEFAULT gen_random_uuid(),
  "ownerId" UUID NOT NULL,
  "name" TEXT NOT NULL,
  "sharing" "DesignSharing" NOT NULL DEFAULT 'mine',
  "copiedFrom" TEXT NOT NULL DEFAULT '',
  "removedAt" TIMESTAMPTZ(3),
  "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
  "updatedAt" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "OwnDesign_pkey" PRIMARY KEY ("id"),
  CONSTRAINT own_design_name_said CHECK (btrim("name") <> '' AND length("name") <= 120),
  CONSTRAINT own_design_copied_from CHECK (length("copiedFrom") <= 80)
);
CREATE INDEX "OwnDesign_ownerId_idx" ON "OwnDesign"("ownerId");

CREATE TABLE "OwnDesignVersion" (
  "designId" UUID NOT NULL,
  "number" INTEGER NOT NULL,
  "recipe" JSONB NOT NULL,
  "note" TEXT NOT NULL DEFAULT '',
  "memberId" UUID NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
  CONSTRAINT "OwnDesignVersion_pkey" PRIMARY KEY ("designId", "number"),
  CONSTRAINT own_design_version_number CHECK ("number" >= 1),
  CONSTRAINT own_design_version_size CHECK (
    jsonb_typeof("recipe") = 'object' AND length("recipe"::text) <= 600000 AND length("note") <= 1000)
);

ALTER TABLE "OwnDesign" ADD CONSTRAINT "OwnDesign_ownerId_fkey"
  FOREIGN KEY ("ownerId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "OwnDesignVersion" ADD CONSTRAINT "OwnDesignVersion_designId_fkey"
  FOREIGN KEY ("designId") REFERENCES "OwnDesign"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "OwnDesignVersion" ADD CONSTRAINT "OwnDesignVersion_memberId_fkey"
  FOREIGN KEY ("memberId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

CREATE FUNCTION own_design_versions_only_grow() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'versions of a design are only added to' USING ERRCODE = 'restrict_violation';
END $$;
CREATE TRIGGER own_design_version_append_only BEFORE UPDATE OR DELETE ON "OwnDesignVersion"
  FOR EACH ROW EXECUTE FUNCTION own_design_versions_only_grow();
CREATE TRIGGER own_design_version_no_truncate BEFORE TRUNCATE ON "OwnDesignVersion"
  FOR EACH STATEMENT EXECUTE FUNCTION own_design_versions_only_grow();

-- Numbered without gaps: a number that skips one is refused, one that is taken clashes with the key.
CREATE FUNCTION own_design_version_is_next() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW."number" > 1 + coalesce(
    (SELECT max("number") FROM "OwnDesignVersion" WHERE "designId" = NEW."designId"), 0)
  THEN
    RAISE EXCEPTION 'a version is missing before this one'
      USING ERRCODE = 'check_violation', CONSTRAINT = 'own_design_version_next';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER own_design_version_next BEFORE INSERT ON "OwnDesignVersion"
  FOR EACH ROW EXECUTE FUNCTION own_design_version_is_next();

-- `own:<id>@<version>`: what a variant names must be there.
ALTER TABLE "Variant"
  ADD COLUMN "ownDesignId" UUID,
  ADD COLUMN "ownDesignVersion" INTEGER,
  ADD CONSTRAINT variant_design_named CHECK (
    "designId" NOT LIKE 'own:%' OR "designId" ~ '^own:[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}@[1-9][0-9]{0,8}$');
CREATE FUNCTION variant_pins_version() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  NEW."ownDesignId" := NULL;
  NEW."ownDesignVersion" := NULL;
  IF NEW."designId" ~ '^own:[0-9a-f-]{36}@[1-9][0-9]{0,8}$' THEN
    NEW."ownDesignId" := substr(NEW."designId", 5, 36)::uuid;
    NEW."ownDesignVersion" := substr(NEW."designId", 42)::integer;
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER variant_pins_version BEFORE INSERT OR UPDATE ON "Variant"
  FOR EACH ROW EXECUTE FUNCTION variant_pins_version();
CREATE INDEX "Variant_ownDesignId_ownDesignVersion_idx" ON "Variant"("ownDesignId", "ownDesignVersion");
ALTER TABLE "Variant" ADD CONSTRAINT "Variant_ownDesignId_ownDesignVersion_fkey"
  FOREIGN KEY ("ownDesignId", "ownDesignVersion") REFERENCES "OwnDesignVersion"("designId", "number")
  ON DELETE RESTRICT ON UPDATE NO ACTION;
