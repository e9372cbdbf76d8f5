-- CreateSchema
CREATE SCHEMA IF NOT EXISTS "public";

-- CreateEnum
CREATE TYPE "Role" AS ENUM ('owner', 'dispatcher', 'technician');

-- CreateEnum
CREATE TYPE "VisitStatus" AS ENUM ('booked', 'started', 'done', 'cancelled');

-- CreateEnum
CREATE TYPE "TaskAnchor" AS ENUM ('calendar', 'last_completed');

-- CreateEnum
CREATE TYPE "TaskOutcome" AS ENUM ('planned', 'done', 'not_done');

-- CreateEnum
CREATE TYPE "ReadingPhase" AS ENUM ('before', 'after', 'log');

-- CreateEnum
CREATE TYPE "UnitOutcome" AS ENUM ('seen', 'could_not_reach', 'gone');

-- CreateEnum
CREATE TYPE "OperationOutcome" AS ENUM ('applied', 'conflict', 'rejected');

-- CreateEnum
CREATE TYPE "MessageStatus" AS ENUM ('queued', 'sent', 'failed', 'held');

-- CreateTable
CREATE TABLE "ShopSettings" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "name" TEXT NOT NULL,
    "timeZone" TEXT NOT NULL,
    "currency" TEXT NOT NULL DEFAULT 'USD',
    "lat" DOUBLE PRECISION,
    "lng" DOUBLE PRECISION,
    "phone" TEXT,
    "email" TEXT,
    "policy" JSONB NOT NULL DEFAULT '{}',
    "overdueLimitDays" INTEGER NOT NULL DEFAULT 14,
    "circuity" DOUBLE PRECISION NOT NULL DEFAULT 1.3,
    "speedKmh" DOUBLE PRECISION NOT NULL DEFAULT 35,
    "updatedAt" TIMESTAMPTZ NOT NULL,

    CONSTRAINT "ShopSettings_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "User" (
    "id" UUID NOT NULL,
    "email" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "role" "Role" NOT NULL,
    "passwordHash" TEXT NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "temperatureUnit" TEXT NOT NULL DEFAULT 'F',
    "pressureUnit" TEXT NOT NULL DEFAULT 'psig',
    "massUnit" TEXT NOT NULL DEFAULT 'oz',
    "skills" TEXT[] DEFAULT ARRAY[]::TEXT[],
    "gaugeGrade" TEXT NOT NULL DEFAULT '1A',
    "gaugeSpanPa" DOUBLE PRECISION NOT NULL DEFAULT 3447379,
    "homeLat" DOUBLE PRECISION,
    "homeLng" DOUBLE PRECISION,
    "shifts" JSONB NOT NULL DEFAULT '[]',
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "User_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "StaffSession" (
    "id" UUID NOT NULL,
    "userId" UUID NOT NULL,
    "userAgent" TEXT NOT NULL DEFAULT '',
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "lastSeenAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expiresAt" TIMESTAMPTZ NOT NULL,
    "revokedAt" TIMESTAMPTZ,

    CONSTRAINT "StaffSession_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "SignInAttempt" (
    "id" BIGSERIAL NOT NULL,
    "key" TEXT NOT NULL,
    "at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "succeeded" BOOLEAN NOT NULL,

    CONSTRAINT "SignInAttempt_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "TimeOff" (
    "id" UUID NOT NULL,
    "userId" UUID NOT NULL,
    "startsOn" DATE NOT NULL,
    "endsOn" DATE NOT NULL,
    "reason" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "TimeOff_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Customer" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "contactName" TEXT NOT NULL DEFAULT '',
    "email" TEXT NOT NULL DEFAULT '',
    "phone" TEXT NOT NULL DEFAULT '',
    "notes" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,
    "archivedAt" TIMESTAMPTZ,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Customer_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Kitchen" (
    "id" UUID NOT NULL,
    "customerId" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "address" TEXT NOT NULL DEFAULT '',
    "timeZone" TEXT NOT NULL,
    "altitudeM" DOUBLE PRECISION NOT NULL DEFAULT 0,
    "lat" DOUBLE PRECISION,
    "lng" DOUBLE PRECISION,
    "serviceHours" JSONB NOT NULL DEFAULT '[]',
    "accessNotes" TEXT NOT NULL DEFAULT '',
    "contactName" TEXT NOT NULL DEFAULT '',
    "contactPhone" TEXT NOT NULL DEFAULT '',
    "contactEmail" TEXT NOT NULL DEFAULT '',
    "energyPricePerKwh" DOUBLE PRECISION,
    "hotDayAirK" DOUBLE PRECISION NOT NULL DEFAULT 308.15,
    "preferredWeekday" INTEGER,
    "version" INTEGER NOT NULL DEFAULT 1,
    "archivedAt" TIMESTAMPTZ,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Kitchen_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "KitchenBlackout" (
    "id" UUID NOT NULL,
    "kitchenId" UUID NOT NULL,
    "startsOn" DATE NOT NULL,
    "endsOn" DATE NOT NULL,
    "reason" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "KitchenBlackout_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Unit" (
    "id" UUID NOT NULL,
    "kitchenId" UUID NOT NULL,
    "tag" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "make" TEXT NOT NULL DEFAULT '',
    "model" TEXT NOT NULL DEFAULT '',
    "serial" TEXT NOT NULL DEFAULT '',
    "refrigerant" TEXT NOT NULL,
    "chargeKg" DOUBLE PRECISION,
    "application" TEXT NOT NULL DEFAULT 'medium',
    "expansion" TEXT NOT NULL DEFAULT 'capillary',
    "circuitAccess" TEXT NOT NULL DEFAULT 'sealed',
    "condenserKind" TEXT NOT NULL DEFAULT 'fin_and_tube',
    "placement" TEXT NOT NULL,
    "cutoutPaGauge" DOUBLE PRECISION,
    "boxSetK" DOUBLE PRECISION,
    "headControl" BOOLEAN NOT NULL DEFAULT false,
    "roofWork" BOOLEAN NOT NULL DEFAULT false,
    "compressorMap" JSONB,
    "notes" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,
    "archivedAt" TIMESTAMPTZ,
    "archivedWhy" TEXT NOT NULL DEFAULT '',
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Unit_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "TaskKind" (
    "key" TEXT NOT NULL,
    "label" TEXT NOT NULL,
    "minutes" INTEGER NOT NULL,
    "lowSide" BOOLEAN NOT NULL DEFAULT false,
    "defaultWeeks" INTEGER NOT NULL,
    "minWeeks" INTEGER NOT NULL DEFAULT 1,
    "maxWeeks" INTEGER NOT NULL DEFAULT 52,
    "sort" INTEGER NOT NULL DEFAULT 0,
    "active" BOOLEAN NOT NULL DEFAULT true,

    CONSTRAINT "TaskKind_pkey" PRIMARY KEY ("key")
);

-- CreateTable
CREATE TABLE "Task" (
    "id" UUID NOT NULL,
    "unitId" UUID NOT NULL,
    "kitchenId" UUID NOT NULL,
    "kindKey" TEXT NOT NULL,
    "rule" TEXT NOT NULL,
    "anchor" "TaskAnchor" NOT NULL DEFAULT 'last_completed',
    "anchorDate" DATE NOT NULL,
    "lastDoneOn" DATE,
    "dueOn" DATE NOT NULL,
    "locked" BOOLEAN NOT NULL DEFAULT false,
    "minWeeks" INTEGER NOT NULL DEFAULT 1,
    "maxWeeks" INTEGER NOT NULL DEFAULT 52,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Task_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "RuleChange" (
    "id" UUID NOT NULL,
    "taskId" UUID NOT NULL,
    "at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "kind" TEXT NOT NULL,
    "fromRule" TEXT NOT NULL,
    "toRule" TEXT NOT NULL,
    "fromDueOn" DATE,
    "toDueOn" DATE,
    "reason" TEXT NOT NULL,
    "evidence" JSONB NOT NULL DEFAULT '{}',
    "modelVersion" TEXT NOT NULL DEFAULT '',
    "byUserId" UUID,
    "visitId" UUID,
    "review" TEXT,
    "reviewedById" UUID,
    "reviewedAt" TIMESTAMPTZ,

    CONSTRAINT "RuleChange_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Visit" (
    "id" UUID NOT NULL,
    "kitchenId" UUID NOT NULL,
    "technicianId" UUID NOT NULL,
    "status" "VisitStatus" NOT NULL DEFAULT 'booked',
    "startsAt" TIMESTAMPTZ NOT NULL,
    "endsAt" TIMESTAMPTZ NOT NULL,
    "fixed" BOOLEAN NOT NULL DEFAULT false,
    "emergency" BOOLEAN NOT NULL DEFAULT false,
    "note" TEXT NOT NULL DEFAULT '',
    "arrivedAt" TIMESTAMPTZ,
    "leftAt" TIMESTAMPTZ,
    "closedAt" TIMESTAMPTZ,
    "cancelReason" TEXT NOT NULL DEFAULT '',
    "signedBy" TEXT NOT NULL DEFAULT '',
    "signaturePng" BYTEA,
    "nobodyThere" BOOLEAN NOT NULL DEFAULT false,
    "customerReply" TEXT NOT NULL DEFAULT '',
    "replyNote" TEXT NOT NULL DEFAULT '',
    "replyStartsAt" TIMESTAMPTZ,
    "sequence" INTEGER NOT NULL DEFAULT 0,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdById" UUID,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updatedAt" TIMESTAMPTZ NOT NULL,

    CONSTRAINT "Visit_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "VisitTask" (
    "id" UUID NOT NULL,
    "visitId" UUID NOT NULL,
    "taskId" UUID NOT NULL,
    "unitId" UUID NOT NULL,
    "outcome" "TaskOutcome" NOT NULL DEFAULT 'planned',
    "reason" TEXT NOT NULL DEFAULT '',
    "open" BOOLEAN NOT NULL DEFAULT true,

    CONSTRAINT "VisitTask_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "VisitEvent" (
    "id" UUID NOT NULL,
    "visitId" UUID NOT NULL,
    "at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "kind" TEXT NOT NULL,
    "reason" TEXT NOT NULL DEFAULT '',
    "detail" JSONB NOT NULL DEFAULT '{}',
    "byUserId" UUID,

    CONSTRAINT "VisitEvent_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "UnitVisit" (
    "id" UUID NOT NULL,
    "visitId" UUID NOT NULL,
    "unitId" UUID NOT NULL,
    "outcome" "UnitOutcome" NOT NULL,
    "reason" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "UnitVisit_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Finding" (
    "id" UUID NOT NULL,
    "visitId" UUID NOT NULL,
    "unitId" UUID NOT NULL,
    "aspect" TEXT NOT NULL,
    "grade" TEXT,
    "notLookedWhy" TEXT NOT NULL DEFAULT '',
    "phase" TEXT NOT NULL DEFAULT 'found',
    "note" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ NOT NULL,
    "byUserId" UUID,
    "deviceId" UUID,
    "supersededAt" TIMESTAMPTZ,

    CONSTRAINT "Finding_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Reading" (
    "id" UUID NOT NULL,
    "visitId" UUID,
    "unitId" UUID NOT NULL,
    "phase" "ReadingPhase" NOT NULL,
    "at" TIMESTAMPTZ NOT NULL,
    "headPaGauge" DOUBLE PRECISION,
    "condensingClampK" DOUBLE PRECISION,
    "airInK" DOUBLE PRECISION,
    "roomAirK" DOUBLE PRECISION,
    "suctionPaGauge" DOUBLE PRECISION,
    "liquidLineK" DOUBLE PRECISION,
    "suctionLineK" DOUBLE PRECISION,
    "dischargeLineK" DOUBLE PRECISION,
    "offCyclePaGauge" DOUBLE PRECISION,
    "offCycleAirK" DOUBLE PRECISION,
    "ampsA" DOUBLE PRECISION,
    "boxK" DOUBLE PRECISION,
    "steadyMinutes" DOUBLE PRECISION,
    "gaugeGrade" TEXT,
    "gaugeSpanPa" DOUBLE PRECISION,
    "entered" JSONB NOT NULL DEFAULT '{}',
    "questioned" JSONB NOT NULL DEFAULT '[]',
    "byUserId" UUID,
    "deviceId" UUID,
    "supersededAt" TIMESTAMPTZ,

    CONSTRAINT "Reading_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Estimate" (
    "id" UUID NOT NULL,
    "readingId" UUID NOT NULL,
    "unitId" UUID NOT NULL,
    "at" TIMESTAMPTZ NOT NULL,
    "modelVersion" TEXT NOT NULL,
    "status" TEXT NOT NULL,
    "verdict" TEXT NOT NULL,
    "lnK" DOUBLE PRECISION,
    "lnKSd" DOUBLE PRECISION,
    "result" JSONB NOT NULL,

    CONSTRAINT "Estimate_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "UnitFouling" (
    "unitId" UUID NOT NULL,
    "posterior" JSONB NOT NULL,
    "ratePerDay" DOUBLE PRECISION NOT NULL,
    "rateSdPerDay" DOUBLE PRECISION NOT NULL,
    "evidenceCount" INTEGER NOT NULL,
    "modelVersion" TEXT NOT NULL,
    "updatedAt" TIMESTAMPTZ NOT NULL,
    "baseline" JSONB,

    CONSTRAINT "UnitFouling_pkey" PRIMARY KEY ("unitId")
);

-- CreateTable
CREATE TABLE "FleetPrior" (
    "id" UUID NOT NULL,
    "hyper" JSONB NOT NULL,
    "modelVersion" TEXT NOT NULL,
    "fittedAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "FleetPrior_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "UnitEvent" (
    "id" UUID NOT NULL,
    "unitId" UUID NOT NULL,
    "visitId" UUID,
    "kind" TEXT NOT NULL,
    "at" TIMESTAMPTZ NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "byUserId" UUID,

    CONSTRAINT "UnitEvent_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "FollowUp" (
    "id" UUID NOT NULL,
    "unitId" UUID NOT NULL,
    "visitId" UUID,
    "what" TEXT NOT NULL,
    "urgency" TEXT NOT NULL DEFAULT 'next',
    "dueOn" DATE,
    "status" TEXT NOT NULL DEFAULT 'open',
    "note" TEXT NOT NULL DEFAULT '',
    "createdById" UUID,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "resolvedAt" TIMESTAMPTZ,

    CONSTRAINT "FollowUp_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "PartUsed" (
    "id" UUID NOT NULL,
    "visitId" UUID NOT NULL,
    "unitId" UUID,
    "what" TEXT NOT NULL,
    "quantity" DOUBLE PRECISION NOT NULL DEFAULT 1,
    "at" TIMESTAMPTZ NOT NULL,

    CONSTRAINT "PartUsed_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "FoodWarning" (
    "id" UUID NOT NULL,
    "visitId" UUID NOT NULL,
    "unitId" UUID NOT NULL,
    "boxK" DOUBLE PRECISION NOT NULL,
    "toldTo" TEXT NOT NULL,
    "toldAt" TIMESTAMPTZ NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "FoodWarning_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Photo" (
    "id" UUID NOT NULL,
    "visitId" UUID NOT NULL,
    "unitId" UUID,
    "aspect" TEXT,
    "phase" TEXT NOT NULL DEFAULT 'before',
    "takenAt" TIMESTAMPTZ NOT NULL,
    "byUserId" UUID,
    "sha256" TEXT NOT NULL,
    "fileId" UUID,

    CONSTRAINT "Photo_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "StoredFile" (
    "id" UUID NOT NULL,
    "sha256" TEXT NOT NULL,
    "mime" TEXT NOT NULL,
    "width" INTEGER NOT NULL,
    "height" INTEGER NOT NULL,
    "bytes" BYTEA NOT NULL,
    "thumbnail" BYTEA NOT NULL,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "StoredFile_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "UploadChunk" (
    "sha256" TEXT NOT NULL,
    "index" INTEGER NOT NULL,
    "bytes" BYTEA NOT NULL,
    "total" INTEGER NOT NULL,
    "userId" UUID NOT NULL,
    "at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "UploadChunk_pkey" PRIMARY KEY ("sha256","userId","index")
);

-- CreateTable
CREATE TABLE "Device" (
    "id" UUID NOT NULL,
    "userId" UUID NOT NULL,
    "name" TEXT NOT NULL DEFAULT '',
    "appVersion" TEXT NOT NULL DEFAULT '',
    "lastSeenAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Device_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Operation" (
    "id" UUID NOT NULL,
    "deviceId" UUID NOT NULL,
    "userId" UUID NOT NULL,
    "deviceSeq" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "visitId" UUID,
    "payload" JSONB NOT NULL,
    "madeAt" TIMESTAMPTZ NOT NULL,
    "receivedAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "outcome" "OperationOutcome" NOT NULL,
    "detail" JSONB NOT NULL DEFAULT '{}',

    CONSTRAINT "Operation_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "OutboxMessage" (
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "toEmail" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "html" TEXT NOT NULL DEFAULT '',
    "ics" TEXT NOT NULL DEFAULT '',
    "icsMethod" TEXT NOT NULL DEFAULT '',
    "status" "MessageStatus" NOT NULL DEFAULT 'queued',
    "attempts" INTEGER NOT NULL DEFAULT 0,
    "error" TEXT NOT NULL DEFAULT '',
    "visitId" UUID,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "sentAt" TIMESTAMPTZ,

    CONSTRAINT "OutboxMessage_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "CustomerLink" (
    "id" UUID NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "visitId" UUID NOT NULL,
    "expiresAt" TIMESTAMPTZ NOT NULL,
    "revokedAt" TIMESTAMPTZ,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "CustomerLink_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "CalendarFeed" (
    "id" UUID NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "userId" UUID,
    "kitchenId" UUID,
    "revokedAt" TIMESTAMPTZ,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "CalendarFeed_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "PlanRun" (
    "id" UUID NOT NULL,
    "createdById" UUID NOT NULL,
    "weekStart" DATE NOT NULL,
    "status" TEXT NOT NULL DEFAULT 'queued',
    "params" JSONB NOT NULL DEFAULT '{}',
    "result" JSONB,
    "error" TEXT NOT NULL DEFAULT '',
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "finishedAt" TIMESTAMPTZ,

    CONSTRAINT "PlanRun_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "TravelTime" (
    "fromKitchenId" UUID NOT NULL,
    "toKitchenId" UUID NOT NULL,
    "minutes" DOUBLE PRECISION NOT NULL,

    CONSTRAINT "TravelTime_pkey" PRIMARY KEY ("fromKitchenId","toKitchenId")
);

-- CreateTable
CREATE TABLE "ImportRun" (
    "id" UUID NOT NULL,
    "createdById" UUID NOT NULL,
    "fileName" TEXT NOT NULL,
    "status" TEXT NOT NULL DEFAULT 'checked',
    "rows" INTEGER NOT NULL DEFAULT 0,
    "doneRows" INTEGER NOT NULL DEFAULT 0,
    "problems" JSONB NOT NULL DEFAULT '[]',
    "csv" TEXT NOT NULL DEFAULT '',
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "finishedAt" TIMESTAMPTZ,

    CONSTRAINT "ImportRun_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "AuditEntry" (
    "id" BIGSERIAL NOT NULL,
    "at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "userId" UUID,
    "action" TEXT NOT NULL,
    "entity" TEXT NOT NULL DEFAULT '',
    "entityId" TEXT NOT NULL DEFAULT '',
    "detail" JSONB NOT NULL DEFAULT '{}',

    CONSTRAINT "AuditEntry_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "User_email_key" ON "User"("email");

-- CreateIndex
CREATE INDEX "StaffSession_userId_idx" ON "StaffSession"("userId");

-- CreateIndex
CREATE INDEX "SignInAttempt_key_at_idx" ON "SignInAttempt"("key", "at");

-- CreateIndex
CREATE INDEX "TimeOff_userId_startsOn_idx" ON "TimeOff"("userId", "startsOn");

-- CreateIndex
CREATE UNIQUE INDEX "Customer_name_key" ON "Customer"("name");

-- CreateIndex
CREATE UNIQUE INDEX "Kitchen_customerId_name_key" ON "Kitchen"("customerId", "name");

-- CreateIndex
CREATE INDEX "KitchenBlackout_kitchenId_startsOn_idx" ON "KitchenBlackout"("kitchenId", "startsOn");

-- CreateIndex
CREATE UNIQUE INDEX "Unit_tag_key" ON "Unit"("tag");

-- CreateIndex
CREATE INDEX "Unit_kitchenId_idx" ON "Unit"("kitchenId");

-- CreateIndex
CREATE INDEX "Task_kitchenId_dueOn_idx" ON "Task"("kitchenId", "dueOn");

-- CreateIndex
CREATE UNIQUE INDEX "Task_unitId_kindKey_key" ON "Task"("unitId", "kindKey");

-- CreateIndex
CREATE INDEX "RuleChange_taskId_at_idx" ON "RuleChange"("taskId", "at");

-- CreateIndex
CREATE INDEX "RuleChange_at_idx" ON "RuleChange"("at");

-- CreateIndex
CREATE INDEX "Visit_technicianId_startsAt_idx" ON "Visit"("technicianId", "startsAt");

-- CreateIndex
CREATE INDEX "Visit_kitchenId_startsAt_idx" ON "Visit"("kitchenId", "startsAt");

-- CreateIndex
CREATE INDEX "Visit_startsAt_idx" ON "Visit"("startsAt");

-- CreateIndex
CREATE INDEX "VisitTask_taskId_idx" ON "VisitTask"("taskId");

-- CreateIndex
CREATE UNIQUE INDEX "VisitTask_visitId_taskId_key" ON "VisitTask"("visitId", "taskId");

-- CreateIndex
CREATE INDEX "VisitEvent_visitId_at_idx" ON "VisitEvent"("visitId", "at");

-- CreateIndex
CREATE UNIQUE INDEX "UnitVisit_visitId_unitId_key" ON "UnitVisit"("visitId", "unitId");

-- CreateIndex
CREATE INDEX "Finding_unitId_at_idx" ON "Finding"("unitId", "at");

-- CreateIndex
CREATE INDEX "Finding_visitId_unitId_idx" ON "Finding"("visitId", "unitId");

-- CreateIndex
CREATE INDEX "Reading_unitId_at_idx" ON "Reading"("unitId", "at");

-- CreateIndex
CREATE INDEX "Reading_visitId_unitId_idx" ON "Reading"("visitId", "unitId");

-- CreateIndex
CREATE UNIQUE INDEX "Estimate_readingId_key" ON "Estimate"("readingId");

-- CreateIndex
CREATE INDEX "Estimate_unitId_at_idx" ON "Estimate"("unitId", "at");

-- CreateIndex
CREATE INDEX "UnitFouling_ratePerDay_idx" ON "UnitFouling"("ratePerDay");

-- CreateIndex
CREATE INDEX "UnitEvent_unitId_at_idx" ON "UnitEvent"("unitId", "at");

-- CreateIndex
CREATE INDEX "FollowUp_status_dueOn_idx" ON "FollowUp"("status", "dueOn");

-- CreateIndex
CREATE INDEX "FollowUp_unitId_idx" ON "FollowUp"("unitId");

-- CreateIndex
CREATE INDEX "Photo_visitId_idx" ON "Photo"("visitId");

-- CreateIndex
CREATE INDEX "Photo_sha256_idx" ON "Photo"("sha256");

-- CreateIndex
CREATE UNIQUE INDEX "StoredFile_sha256_key" ON "StoredFile"("sha256");

-- CreateIndex
CREATE INDEX "Operation_visitId_idx" ON "Operation"("visitId");

-- CreateIndex
CREATE UNIQUE INDEX "Operation_deviceId_deviceSeq_key" ON "Operation"("deviceId", "deviceSeq");

-- CreateIndex
CREATE INDEX "OutboxMessage_status_createdAt_idx" ON "OutboxMessage"("status", "createdAt");

-- CreateIndex
CREATE UNIQUE INDEX "CustomerLink_tokenHash_key" ON "CustomerLink"("tokenHash");

-- CreateIndex
CREATE UNIQUE INDEX "CalendarFeed_tokenHash_key" ON "CalendarFeed"("tokenHash");

-- CreateIndex
CREATE INDEX "PlanRun_createdAt_idx" ON "PlanRun"("createdAt");

-- CreateIndex
CREATE INDEX "AuditEntry_at_idx" ON "AuditEntry"("at");

-- AddForeignKey
ALTER TABLE "StaffSession" ADD CONSTRAINT "StaffSession_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "TimeOff" ADD CONSTRAINT "TimeOff_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Kitchen" ADD CONSTRAINT "Kitchen_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "KitchenBlackout" ADD CONSTRAINT "KitchenBlackout_kitchenId_fkey" FOREIGN KEY ("kitchenId") REFERENCES "Kitchen"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Unit" ADD CONSTRAINT "Unit_kitchenId_fkey" FOREIGN KEY ("kitchenId") REFERENCES "Kitchen"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Task" ADD CONSTRAINT "Task_unitId_fkey" FOREIGN KEY ("unitId") REFERENCES "Unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Task" ADD CONSTRAINT "Task_kitchenId_fkey" FOREIGN KEY ("kitchenId") REFERENCES "Kitchen"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Task" ADD CONSTRAINT "Task_kindKey_fkey" FOREIGN KEY ("kindKey") REFERENCES "TaskKind"("key") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RuleChange" ADD CONSTRAINT "RuleChange_taskId_fkey" FOREIGN KEY ("taskId") REFERENCES "Task"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Visit" ADD CONSTRAINT "Visit_kitchenId_fkey" FOREIGN KEY ("kitchenId") REFERENCES "Kitchen"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Visit" ADD CONSTRAINT "Visit_technicianId_fkey" FOREIGN KEY ("technicianId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "VisitTask" ADD CONSTRAINT "VisitTask_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "Visit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "VisitTask" ADD CONSTRAINT "VisitTask_taskId_fkey" FOREIGN KEY ("taskId") REFERENCES "Task"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "VisitEvent" ADD CONSTRAINT "VisitEvent_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "Visit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "UnitVisit" ADD CONSTRAINT "UnitVisit_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "Visit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Finding" ADD CONSTRAINT "Finding_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "Visit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Finding" ADD CONSTRAINT "Finding_unitId_fkey" FOREIGN KEY ("unitId") REFERENCES "Unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Reading" ADD CONSTRAINT "Reading_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "Visit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Reading" ADD CONSTRAINT "Reading_unitId_fkey" FOREIGN KEY ("unitId") REFERENCES "Unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Estimate" ADD CONSTRAINT "Estimate_readingId_fkey" FOREIGN KEY ("readingId") REFERENCES "Reading"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Estimate" ADD CONSTRAINT "Estimate_unitId_fkey" FOREIGN KEY ("unitId") REFERENCES "Unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "UnitFouling" ADD CONSTRAINT "UnitFouling_unitId_fkey" FOREIGN KEY ("unitId") REFERENCES "Unit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "UnitEvent" ADD CONSTRAINT "UnitEvent_unitId_fkey" FOREIGN KEY ("unitId") REFERENCES "Unit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "FollowUp" ADD CONSTRAINT "FollowUp_unitId_fkey" FOREIGN KEY ("unitId") REFERENCES "Unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "PartUsed" ADD CONSTRAINT "PartUsed_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "Visit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "FoodWarning" ADD CONSTRAINT "FoodWarning_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "Visit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Photo" ADD CONSTRAINT "Photo_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "Visit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Photo" ADD CONSTRAINT "Photo_fileId_fkey" FOREIGN KEY ("fileId") REFERENCES "StoredFile"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Device" ADD CONSTRAINT "Device_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Operation" ADD CONSTRAINT "Operation_deviceId_fkey" FOREIGN KEY ("deviceId") REFERENCES "Device"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CustomerLink" ADD CONSTRAINT "CustomerLink_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "Visit"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CalendarFeed" ADD CONSTRAINT "CalendarFeed_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CalendarFeed" ADD CONSTRAINT "CalendarFeed_kitchenId_fkey" FOREIGN KEY ("kitchenId") REFERENCES "Kitchen"("id") ON DELETE CASCADE ON UPDATE CASCADE;


