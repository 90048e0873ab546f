-- The pool by species and size, the offcuts of a board, teardowns by day.
CREATE INDEX "Board_status_species_thicknessUm_idx" ON "Board" ("status", "species", "thicknessUm");
CREATE INDEX "Board_parentId_idx" ON "Board" ("parentId");
CREATE INDEX "Teardown_createdAt_idx" ON "Teardown" ("createdAt");
