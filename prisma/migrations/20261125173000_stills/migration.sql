-- Stills: pictures of a variant's 3-D view that members show to each other, and places on them that comments point to.
CREATE TABLE "Still" (
  "id" UUID NOT NULL DEFAULT gen_random_uuid(),
  "buildId" UUID NOT NULL,
  "variantId" UUID NOT NULL,
  "variantVersion" INTEGER NOT NULL,
  "memberId" UUID NOT NULL,
  "slot" INTEGER NOT NULL,
  "caption" TEXT NOT NULL,
  "widthPx" INTEGER NOT NULL,
  "heightPx" INTEGER NOT NULL,
  "png" BYTEA,
  "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
  "deletedAt" TIMESTAMPTZ(3),
  CONSTRAINT "Still_pkey" PRIMARY KEY ("id"),
  CONSTRAINT still_slot_there CHECK ("slot" BETWEEN 1 AND 24),
  CONSTRAINT still_caption_said CHECK (btrim("caption") <> '' AND length("caption") <= 120),
  CONSTRAINT still_size CHECK ("widthPx" BETWEEN 1 AND 4096 AND "heightPx" BETWEEN 1 AND 4096),
  CONSTRAINT still_is_png CHECK (
    octet_length("png") <= 4194304 AND substring("png" FROM 1 FOR 8) = '\x89504e470d0a1a0a'::bytea),
  -- Taken back means gone: nothing of the picture is kept.
  CONSTRAINT still_gone_is_empty CHECK (("deletedAt" IS NULL) = ("png" IS NOT NULL))
);
CREATE UNIQUE INDEX "Still_id_variantId_key" ON "Still"("id", "variantId");
CREATE INDEX "Still_variantId_idx" ON "Still"("variantId");
-- So many a build and no more, however many are sent at once.
CREATE UNIQUE INDEX still_one_per_slot ON "Still" ("buildId", "slot") WHERE "deletedAt" IS NULL;
ALTER TABLE "Still"
  ADD CONSTRAINT "Still_variantId_buildId_fkey" FOREIGN KEY ("variantId", "buildId")
    REFERENCES "Variant"("id", "buildId") ON DELETE RESTRICT ON UPDATE RESTRICT,
  ADD CONSTRAINT "Still_memberId_fkey" FOREIGN KEY ("memberId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE "Comment" ADD COLUMN "stillId" UUID;
CREATE INDEX "Comment_stillId_idx" ON "Comment"("stillId");
ALTER TABLE "Comment"
  ADD CONSTRAINT "Comment_stillId_variantId_fkey" FOREIGN KEY ("stillId", "variantId")
    REFERENCES "Still"("id", "variantId") ON DELETE RESTRICT ON UPDATE RESTRICT,
  DROP CONSTRAINT comment_place_whole,
  ADD CONSTRAINT comment_place_whole CHECK (
    ("view" IS NULL AND "stillId" IS NULL AND "x" IS NULL AND "y" IS NULL)
    OR ("variantId" IS NOT NULL AND num_nonnulls("view", "stillId") = 1 AND coalesce(length("view"), 0) <= 60
      AND "x" IS NOT NULL AND "y" IS NOT NULL AND "x" BETWEEN 0 AND 1 AND "y" BETWEEN 0 AND 1));
