-- A plan of several builds together: kept with the build that asked, and never taken for that build's own plan.
ALTER TABLE "CutPlan" ADD COLUMN "isTogether" BOOLEAN NOT NULL DEFAULT false;
