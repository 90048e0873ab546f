-- CreateEnum
CREATE TYPE "Role" AS ENUM ('admin', 'keeper', 'member');

-- CreateEnum
CREATE TYPE "UnitPreference" AS ENUM ('mm', 'in');

-- CreateEnum
CREATE TYPE "StationKind" AS ENUM ('planer', 'tableSaw', 'routerTable', 'drillPress', 'bandSaw', 'laserEngraver', 'assemblyBench');

-- CreateEnum
CREATE TYPE "BookingStatus" AS ENUM ('requested', 'approved', 'declined', 'cancelled');

-- CreateEnum
CREATE TYPE "SharingTerms" AS ENUM ('free', 'ask', 'mine');

-- CreateEnum
CREATE TYPE "BoardStatus" AS ENUM ('inPool', 'cut', 'removed');

-- CreateEnum
CREATE TYPE "Finish" AS ENUM ('bare', 'clear', 'paint', 'unknown');

-- CreateEnum
CREATE TYPE "MetalGate" AS ENUM ('unchecked', 'cleared', 'found');

-- CreateEnum
CREATE TYPE "LeadGate" AS ENUM ('notNeeded', 'untested', 'free', 'found');

-- CreateEnum
CREATE TYPE "DefectKind" AS ENUM ('hole', 'nailHole', 'knot', 'crack', 'rot', 'wane', 'stain', 'metal');

-- CreateEnum
CREATE TYPE "DefectFace" AS ENUM ('A', 'B', 'through');

-- CreateEnum
CREATE TYPE "HoldStatus" AS ENUM ('requested', 'live', 'declined', 'released', 'lapsed', 'used');

-- CreateEnum
CREATE TYPE "PlanStatus" AS ENUM ('queued', 'running', 'done', 'failed', 'cancelled', 'interrupted');

-- CreateEnum
CREATE TYPE "WaitKind" AS ENUM ('glue', 'filler', 'paint', 'clearCoat', 'oil', 'other');

-- CreateTable
CREATE TABLE "Shop" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "name" TEXT NOT NULL,
    "timeZone" TEXT NOT NULL,
    "currency" TEXT NOT NULL DEFAULT 'EUR',
    "units" "UnitPreference" NOT NULL DEFAULT 'mm',
    "holdHours" INTEGER NOT NULL DEFAULT 72,
    "lengthAllowanceUm" INTEGER NOT NULL DEFAULT 2000,
    "widthAllowanceUm" INTEGER NOT NULL DEFAULT 3000,
    "skimUm" INTEGER NOT NULL DEFAULT 500,
    "endTrimUm" INTEGER NOT NULL DEFAULT 10000,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Shop_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Member" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "email" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "passwordHash" TEXT NOT NULL,
    "role" "Role" NOT NULL DEFAULT 'member',
    "units" "UnitPreference",
    "sessionVersion" INTEGER NOT NULL DEFAULT 1,
    "calendarToken" TEXT NOT NULL,
    "removedAt" TIMESTAMPTZ(3),
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Member_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Invite" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "tokenHash" TEXT NOT NULL,
    "email" TEXT NOT NULL,
    "role" "Role" NOT NULL DEFAULT 'member',
    "invitedById" UUID NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expiresAt" TIMESTAMPTZ(3) NOT NULL,
    "usedAt" TIMESTAMPTZ(3),
    "revokedAt" TIMESTAMPTZ(3),

    CONSTRAINT "Invite_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "SignInAttempt" (
    "id" BIGSERIAL NOT NULL,
    "key" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "SignInAttempt_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Station" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "name" TEXT NOT NULL,
    "kind" "StationKind" NOT NULL,
    "keeperId" UUID NOT NULL,
    "place" TEXT NOT NULL DEFAULT '',
    "needsInduction" BOOLEAN NOT NULL DEFAULT true,
    "needsApproval" BOOLEAN NOT NULL DEFAULT true,
    "opensMinute" INTEGER NOT NULL DEFAULT 480,
    "closesMinute" INTEGER NOT NULL DEFAULT 1320,
    "kerfUm" INTEGER,
    "maxRipWidthUm" INTEGER,
    "maxCrosscutWidthUm" INTEGER,
    "minPieceLengthUm" INTEGER,
    "minPieceWidthUm" INTEGER,
    "maxPassUm" INTEGER,
    "notes" TEXT NOT NULL DEFAULT '',
    "retiredAt" TIMESTAMPTZ(3),
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Station_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Induction" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "stationId" UUID NOT NULL,
    "memberId" UUID NOT NULL,
    "givenById" UUID NOT NULL,
    "givenAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "revokedAt" TIMESTAMPTZ(3),

    CONSTRAINT "Induction_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Booking" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "stationId" UUID NOT NULL,
    "memberId" UUID NOT NULL,
    "buildId" UUID,
    "startAt" TIMESTAMPTZ(3) NOT NULL,
    "endAt" TIMESTAMPTZ(3) NOT NULL,
    "status" "BookingStatus" NOT NULL DEFAULT 'requested',
    "note" TEXT NOT NULL DEFAULT '',
    "decidedById" UUID,
    "decidedAt" TIMESTAMPTZ(3),
    "decisionNote" TEXT NOT NULL DEFAULT '',
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updatedAt" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "Booking_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Teardown" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "memberId" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "foundAt" TEXT NOT NULL DEFAULT '',
    "notes" TEXT NOT NULL DEFAULT '',
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Teardown_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Board" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "number" SERIAL NOT NULL,
    "ownerId" UUID NOT NULL,
    "teardownId" UUID,
    "parentId" UUID,
    "lengthUm" INTEGER NOT NULL,
    "widthUm" INTEGER NOT NULL,
    "thicknessUm" INTEGER NOT NULL,
    "species" TEXT NOT NULL,
    "terms" "SharingTerms" NOT NULL DEFAULT 'free',
    "status" "BoardStatus" NOT NULL DEFAULT 'inPool',
    "finish" "Finish" NOT NULL DEFAULT 'bare',
    "metal" "MetalGate" NOT NULL DEFAULT 'unchecked',
    "lead" "LeadGate" NOT NULL DEFAULT 'notNeeded',
    "treated" BOOLEAN NOT NULL DEFAULT false,
    "cupUm" INTEGER NOT NULL DEFAULT 0,
    "bowUm" INTEGER NOT NULL DEFAULT 0,
    "crookUm" INTEGER NOT NULL DEFAULT 0,
    "twistUm" INTEGER NOT NULL DEFAULT 0,
    "place" TEXT NOT NULL DEFAULT '',
    "notes" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updatedAt" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "Board_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Defect" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "boardId" UUID NOT NULL,
    "kind" "DefectKind" NOT NULL,
    "face" "DefectFace" NOT NULL,
    "xUm" INTEGER NOT NULL,
    "yUm" INTEGER NOT NULL,
    "widthUm" INTEGER NOT NULL,
    "heightUm" INTEGER NOT NULL,

    CONSTRAINT "Defect_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Hold" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "boardId" UUID NOT NULL,
    "buildId" UUID NOT NULL,
    "memberId" UUID NOT NULL,
    "status" "HoldStatus" NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expiresAt" TIMESTAMPTZ(3) NOT NULL,
    "decidedById" UUID,
    "decidedAt" TIMESTAMPTZ(3),
    "endedAt" TIMESTAMPTZ(3),

    CONSTRAINT "Hold_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "StockEvent" (
    "id" BIGSERIAL NOT NULL,
    "boardId" UUID NOT NULL,
    "memberId" UUID,
    "buildId" UUID,
    "kind" TEXT NOT NULL,
    "detail" JSONB NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "StockEvent_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Build" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "name" TEXT NOT NULL,
    "memberId" UUID NOT NULL,
    "notes" TEXT NOT NULL DEFAULT '',
    "finishedAt" TIMESTAMPTZ(3),
    "abandonedAt" TIMESTAMPTZ(3),
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updatedAt" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "Build_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Variant" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "buildId" UUID NOT NULL,
    "name" TEXT NOT NULL DEFAULT 'First',
    "designId" TEXT NOT NULL,
    "parameters" JSONB NOT NULL,
    "chosen" BOOLEAN NOT NULL DEFAULT true,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updatedAt" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "Variant_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Comment" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "buildId" UUID NOT NULL,
    "memberId" UUID NOT NULL,
    "body" TEXT NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "deletedAt" TIMESTAMPTZ(3),

    CONSTRAINT "Comment_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "CutPlan" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "buildId" UUID NOT NULL,
    "variantId" UUID NOT NULL,
    "memberId" UUID NOT NULL,
    "status" "PlanStatus" NOT NULL DEFAULT 'queued',
    "inputHash" TEXT NOT NULL,
    "input" JSONB NOT NULL,
    "seed" INTEGER NOT NULL,
    "seconds" INTEGER NOT NULL,
    "progress" JSONB,
    "result" JSONB,
    "attempt" INTEGER NOT NULL DEFAULT 0,
    "runToken" UUID,
    "heartbeatAt" TIMESTAMPTZ(3),
    "cancelAskedAt" TIMESTAMPTZ(3),
    "failure" TEXT,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "startedAt" TIMESTAMPTZ(3),
    "finishedAt" TIMESTAMPTZ(3),

    CONSTRAINT "CutPlan_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "BoardCut" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "boardId" UUID NOT NULL,
    "buildId" UUID NOT NULL,
    "planId" UUID NOT NULL,
    "memberId" UUID NOT NULL,
    "layout" JSONB NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "cutAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "BoardCut_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "PartMade" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "buildId" UUID NOT NULL,
    "boardCutId" UUID NOT NULL,
    "partId" TEXT NOT NULL,
    "lengthUm" INTEGER NOT NULL,
    "widthUm" INTEGER NOT NULL,
    "thicknessUm" INTEGER NOT NULL,

    CONSTRAINT "PartMade_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "SetupTick" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "planId" UUID NOT NULL,
    "key" TEXT NOT NULL,
    "memberId" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "SetupTick_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Wait" (
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "buildId" UUID NOT NULL,
    "memberId" UUID NOT NULL,
    "kind" "WaitKind" NOT NULL,
    "label" TEXT NOT NULL,
    "startedAt" TIMESTAMPTZ(3) NOT NULL,
    "readyAt" TIMESTAMPTZ(3) NOT NULL,
    "clearedAt" TIMESTAMPTZ(3),

    CONSTRAINT "Wait_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "Member_email_key" ON "Member"("email");

-- CreateIndex
CREATE UNIQUE INDEX "Member_calendarToken_key" ON "Member"("calendarToken");

-- CreateIndex
CREATE UNIQUE INDEX "Invite_tokenHash_key" ON "Invite"("tokenHash");

-- CreateIndex
CREATE INDEX "SignInAttempt_key_at_idx" ON "SignInAttempt"("key", "at");

-- CreateIndex
CREATE UNIQUE INDEX "Station_name_key" ON "Station"("name");

-- CreateIndex
CREATE INDEX "Booking_stationId_startAt_idx" ON "Booking"("stationId", "startAt");

-- CreateIndex
CREATE INDEX "Booking_memberId_startAt_idx" ON "Booking"("memberId", "startAt");

-- CreateIndex
CREATE UNIQUE INDEX "Board_number_key" ON "Board"("number");

-- CreateIndex
CREATE INDEX "Board_status_ownerId_idx" ON "Board"("status", "ownerId");

-- CreateIndex
CREATE INDEX "Board_teardownId_idx" ON "Board"("teardownId");

-- CreateIndex
CREATE INDEX "Defect_boardId_idx" ON "Defect"("boardId");

-- CreateIndex
CREATE INDEX "Hold_buildId_status_idx" ON "Hold"("buildId", "status");

-- CreateIndex
CREATE INDEX "Hold_boardId_status_idx" ON "Hold"("boardId", "status");

-- CreateIndex
CREATE INDEX "StockEvent_boardId_id_idx" ON "StockEvent"("boardId", "id");

-- CreateIndex
CREATE INDEX "Variant_buildId_idx" ON "Variant"("buildId");

-- CreateIndex
CREATE INDEX "Comment_buildId_createdAt_idx" ON "Comment"("buildId", "createdAt");

-- CreateIndex
CREATE INDEX "CutPlan_buildId_createdAt_idx" ON "CutPlan"("buildId", "createdAt");

-- CreateIndex
CREATE INDEX "CutPlan_status_idx" ON "CutPlan"("status");

-- CreateIndex
CREATE UNIQUE INDEX "BoardCut_boardId_key" ON "BoardCut"("boardId");

-- CreateIndex
CREATE UNIQUE INDEX "PartMade_buildId_partId_key" ON "PartMade"("buildId", "partId");

-- CreateIndex
CREATE UNIQUE INDEX "SetupTick_planId_key_key" ON "SetupTick"("planId", "key");

-- CreateIndex
CREATE INDEX "Wait_buildId_idx" ON "Wait"("buildId");

-- AddForeignKey
ALTER TABLE "Invite" ADD CONSTRAINT "Invite_invitedById_fkey" FOREIGN KEY ("invitedById") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Station" ADD CONSTRAINT "Station_keeperId_fkey" FOREIGN KEY ("keeperId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Induction" ADD CONSTRAINT "Induction_stationId_fkey" FOREIGN KEY ("stationId") REFERENCES "Station"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Induction" ADD CONSTRAINT "Induction_memberId_fkey" FOREIGN KEY ("memberId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Induction" ADD CONSTRAINT "Induction_givenById_fkey" FOREIGN KEY ("givenById") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Booking" ADD CONSTRAINT "Booking_stationId_fkey" FOREIGN KEY ("stationId") REFERENCES "Station"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Booking" ADD CONSTRAINT "Booking_memberId_fkey" FOREIGN KEY ("memberId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Booking" ADD CONSTRAINT "Booking_decidedById_fkey" FOREIGN KEY ("decidedById") REFERENCES "Member"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Booking" ADD CONSTRAINT "Booking_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Teardown" ADD CONSTRAINT "Teardown_memberId_fkey" FOREIGN KEY ("memberId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Board" ADD CONSTRAINT "Board_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Board" ADD CONSTRAINT "Board_teardownId_fkey" FOREIGN KEY ("teardownId") REFERENCES "Teardown"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Board" ADD CONSTRAINT "Board_parentId_fkey" FOREIGN KEY ("parentId") REFERENCES "Board"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Defect" ADD CONSTRAINT "Defect_boardId_fkey" FOREIGN KEY ("boardId") REFERENCES "Board"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Hold" ADD CONSTRAINT "Hold_boardId_fkey" FOREIGN KEY ("boardId") REFERENCES "Board"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Hold" ADD CONSTRAINT "Hold_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Hold" ADD CONSTRAINT "Hold_memberId_fkey" FOREIGN KEY ("memberId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Hold" ADD CONSTRAINT "Hold_decidedById_fkey" FOREIGN KEY ("decidedById") REFERENCES "Member"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "StockEvent" ADD CONSTRAINT "StockEvent_boardId_fkey" FOREIGN KEY ("boardId") REFERENCES "Board"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "StockEvent" ADD CONSTRAINT "StockEvent_memberId_fkey" FOREIGN KEY ("memberId") REFERENCES "Member"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "StockEvent" ADD CONSTRAINT "StockEvent_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Build" ADD CONSTRAINT "Build_memberId_fkey" FOREIGN KEY ("memberId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Variant" ADD CONSTRAINT "Variant_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Comment" ADD CONSTRAINT "Comment_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Comment" ADD CONSTRAINT "Comment_memberId_fkey" FOREIGN KEY ("memberId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CutPlan" ADD CONSTRAINT "CutPlan_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CutPlan" ADD CONSTRAINT "CutPlan_variantId_fkey" FOREIGN KEY ("variantId") REFERENCES "Variant"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CutPlan" ADD CONSTRAINT "CutPlan_memberId_fkey" FOREIGN KEY ("memberId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "BoardCut" ADD CONSTRAINT "BoardCut_boardId_fkey" FOREIGN KEY ("boardId") REFERENCES "Board"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "BoardCut" ADD CONSTRAINT "BoardCut_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "BoardCut" ADD CONSTRAINT "BoardCut_planId_fkey" FOREIGN KEY ("planId") REFERENCES "CutPlan"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "BoardCut" ADD CONSTRAINT "BoardCut_memberId_fkey" FOREIGN KEY ("memberId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "PartMade" ADD CONSTRAINT "PartMade_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "PartMade" ADD CONSTRAINT "PartMade_boardCutId_fkey" FOREIGN KEY ("boardCutId") REFERENCES "BoardCut"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "SetupTick" ADD CONSTRAINT "SetupTick_planId_fkey" FOREIGN KEY ("planId") REFERENCES "CutPlan"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "SetupTick" ADD CONSTRAINT "SetupTick_memberId_fkey" FOREIGN KEY ("memberId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Wait" ADD CONSTRAINT "Wait_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Wait" ADD CONSTRAINT "Wait_memberId_fkey" FOREIGN KEY ("memberId") REFERENCES "Member"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
