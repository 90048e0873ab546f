-- How a variant is finished, region by region; one plan a variant.
CREATE TABLE "FinishPlan" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "variantId" UUID NOT NULL,
    "plan" JSONB NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updatedAt" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "FinishPlan_pkey" PRIMARY KEY ("id")
);

CREATE UNIQUE INDEX "FinishPlan_variantId_key" ON "FinishPlan"("variantId");

ALTER TABLE "FinishPlan" ADD CONSTRAINT "FinishPlan_variantId_fkey"
    FOREIGN KEY ("variantId") REFERENCES "Variant"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
