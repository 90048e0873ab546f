-- Many variants a build, votes, comments about a variant, parts that are set aside, what new wood costs.
ALTER TABLE "Shop" ADD COLUMN "softwoodPerM3Minor" INTEGER, ADD COLUMN "hardwoodPerM3Minor" INTEGER;
ALTER TABLE "Shop" ADD CONSTRAINT shop_wood_prices CHECK (
  coalesce("softwoodPerM3Minor", 0) BETWEEN 0 AND 1000000000
  AND coalesce("hardwoodPerM3Minor", 0) BETWEEN 0 AND 1000000000);

ALTER TABLE "Variant" ADD COLUMN "deletedAt" TIMESTAMPTZ(3);
CREATE UNIQUE INDEX "Variant_id_buildId_key" ON "Variant"("id", "buildId");
-- Variants that earlier builds may hold under one name are told apart before the index is made.
UPDATE "Variant" v SET "name" = v."name" || ' ' || left(v."id"::text, 8) WHERE EXISTS (
  SELECT 1 FROM "Variant" o WHERE o."buildId" = v."buildId" AND lower(o."name") = lower(v."name") AND o."id" < v."id");
CREATE UNIQUE INDEX variant_one_name_per_build ON "Variant" ("buildId", lower("name")) WHERE "deletedAt" IS NULL;
ALTER TABLE "Variant"
  ADD CONSTRAINT variant_name_said CHECK (btrim("name") <> '' AND length("name") <= 80),
  ADD CONSTRAINT variant_chosen_is_kept CHECK (NOT "chosen" OR "deletedAt" IS NULL);

ALTER TABLE "Comment"
  ADD COLUMN "variantId" UUID, ADD COLUMN "variantVersion" INTEGER, ADD COLUMN "partId" TEXT,
  ADD COLUMN "view" TEXT, ADD COLUMN "x" DOUBLE PRECISION, ADD COLUMN "y" DOUBLE PRECISION;
CREATE INDEX "Comment_variantId_idx" ON "Comment"("variantId");
ALTER TABLE "Comment"
  ADD CONSTRAINT "Comment_variantId_buildId_fkey" FOREIGN KEY ("variantId", "buildId")
    REFERENCES "Variant"("id", "buildId") ON DELETE RESTRICT ON UPDATE RESTRICT,
  ADD CONSTRAINT comment_of_a_version CHECK (("variantId" IS NULL) = ("variantVersion" IS NULL)),
  ADD CONSTRAINT comment_part_of_a_variant CHECK ("partId" IS NULL OR ("variantId" IS NOT NULL AND length("partId") <= 100)),
  ADD CONSTRAINT comment_place_whole CHECK (
    ("view" IS NULL AND "x" IS NULL AND "y" IS NULL)
    OR ("variantId" IS NOT NULL AND length("view") <= 60
      AND "x" IS NOT NULL AND "y" IS NOT NULL AND "x" BETWEEN 0 AND 1 AND "y" BETWEEN 0 AND 1));

CREATE TABLE "Vote" (
  "id" UUID NOT NULL DEFAULT gen_random_uuid(),
  "buildId" UUID NOT NULL,
  "memberId" UUID NOT NULL,
  "variantId" UUID NOT NULL,
  "variantVersion" INTEGER NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
  CONSTRAINT "Vote_pkey" PRIMARY KEY ("id")
);
CREATE UNIQUE INDEX "Vote_buildId_memberId_key" ON "Vote"("buildId", "memberId");
CREATE INDEX "Vote_variantId_idx" ON "Vote"("variantId");
ALTER TABLE "Vote"
  ADD CONSTRAINT "Vote_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build"("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  ADD CONSTRAINT "Vote_memberId_fkey" FOREIGN KEY ("memberId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  ADD CONSTRAINT "Vote_variantId_buildId_fkey" FOREIGN KEY ("variantId", "buildId")
    REFERENCES "Variant"("id", "buildId") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "PartMade" ADD COLUMN "setAsideAt" TIMESTAMPTZ(3), ADD COLUMN "isWorked" BOOLEAN NOT NULL DEFAULT false;
DROP INDEX "PartMade_buildId_partId_key";
CREATE INDEX "PartMade_buildId_partId_idx" ON "PartMade"("buildId", "partId");
CREATE UNIQUE INDEX part_made_one_that_fits ON "PartMade" ("buildId", "partId") WHERE "setAsideAt" IS NULL;
