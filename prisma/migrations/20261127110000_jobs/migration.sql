-- One thing for what was a follow-up, for a call and for a repair. What was open, done or dropped goes over as it stood.

-- CreateEnum
CREATE TYPE "JobState" AS ENUM ('asked', 'looked_at', 'quoted', 'agreed', 'part_ordered', 'booked', 'done', 'declined');

-- CreateEnum
CREATE TYPE "JobSource" AS ENUM ('finding', 'call', 'office', 'customer');

-- CreateEnum
CREATE TYPE "JobUrgency" AS ENUM ('now', 'today', 'week', 'next_visit');

-- CreateEnum
CREATE TYPE "JobEventKind" AS ENUM ('opened', 'moved', 'found_again', 'taken_back', 'changed');

-- CreateEnum
CREATE TYPE "QuoteAnswer" AS ENUM ('accepted', 'declined');

-- AlterTable
ALTER TABLE "PartUsed" ADD COLUMN     "partId" UUID;

-- CreateTable
CREATE TABLE "Job" (
    "id" UUID NOT NULL,
    "number" SERIAL NOT NULL,
    "kitchenId" UUID NOT NULL,
    "source" "JobSource" NOT NULL,
    "state" "JobState" NOT NULL DEFAULT 'asked',
    "urgency" "JobUrgency" NOT NULL DEFAULT 'next_visit',
    "what" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "cause" TEXT NOT NULL DEFAULT '',
    "callerName" TEXT NOT NULL DEFAULT '',
    "callerPhone" TEXT NOT NULL DEFAULT '',
    "needsQuote" BOOLEAN NOT NULL DEFAULT false,
    "partsWanted" BOOLEAN NOT NULL DEFAULT false,
    "dueOn" DATE,
    "foundVisitId" UUID,
    "visitId" UUID,
    "createdById" UUID,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "closedAt" TIMESTAMPTZ,
    "closedById" UUID,
    "closedByName" TEXT NOT NULL DEFAULT '',
    "closedNote" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,

CONSTRAINT "Job_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "JobUnit" (
    "jobId" UUID NOT NULL,
    "unitId" UUID NOT NULL,

CONSTRAINT "JobUnit_pkey" PRIMARY KEY ("jobId","unitId")
);

-- CreateTable
CREATE TABLE "JobEvent" (
    "id" UUID NOT NULL,
    "jobId" UUID NOT NULL,
    "at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "kind" "JobEventKind" NOT NULL,
    "from" "JobState",
    "to" "JobState",
    "reason" TEXT NOT NULL DEFAULT '',
    "visitId" UUID,
    "aboutId" UUID,
    "byUserId" UUID,
    "byName" TEXT NOT NULL DEFAULT '',

CONSTRAINT "JobEvent_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Quote" (
    "id" UUID NOT NULL,
    "jobId" UUID NOT NULL,
    "version" INTEGER NOT NULL,
    "lines" JSONB NOT NULL,
    "taxPercent" DOUBLE PRECISION NOT NULL DEFAULT 0,
    "netCents" INTEGER NOT NULL,
    "taxCents" INTEGER NOT NULL,
    "totalCents" INTEGER NOT NULL,
    "currency" TEXT NOT NULL,
    "validUntil" DATE NOT NULL,
    "reason" TEXT NOT NULL,
    "photoIds" UUID[],
    "createdById" UUID,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "sentAt" TIMESTAMPTZ,
    "sentTo" TEXT NOT NULL DEFAULT '',
    "tokenHash" TEXT,
    "supersededAt" TIMESTAMPTZ,
    "answer" "QuoteAnswer",
    "answeredAt" TIMESTAMPTZ,
    "answeredBy" TEXT NOT NULL DEFAULT '',
    "answerNote" TEXT NOT NULL DEFAULT '',

CONSTRAINT "Quote_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Part" (
    "id" UUID NOT NULL,
    "number" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "priceCents" INTEGER NOT NULL,
    "inVan" INTEGER NOT NULL DEFAULT 0,
    "inShop" INTEGER NOT NULL DEFAULT 0,
    "warrantyMonths" INTEGER,
    "archivedAt" TIMESTAMPTZ,
    "version" INTEGER NOT NULL DEFAULT 1,
    "updatedAt" TIMESTAMPTZ NOT NULL,

CONSTRAINT "Part_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Warranty" (
    "id" UUID NOT NULL,
    "unitId" UUID NOT NULL,
    "what" TEXT NOT NULL,
    "until" DATE NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "createdById" UUID,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

CONSTRAINT "Warranty_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "Job_number_key" ON "Job"("number");

-- CreateIndex
CREATE INDEX "Job_state_dueOn_idx" ON "Job"("state", "dueOn");

-- CreateIndex
CREATE INDEX "Job_kitchenId_createdAt_idx" ON "Job"("kitchenId", "createdAt");

-- CreateIndex
CREATE INDEX "Job_visitId_idx" ON "Job"("visitId");

-- CreateIndex
CREATE INDEX "Job_foundVisitId_idx" ON "Job"("foundVisitId");

-- CreateIndex
CREATE INDEX "JobUnit_unitId_idx" ON "JobUnit"("unitId");

-- CreateIndex
CREATE INDEX "JobEvent_jobId_at_idx" ON "JobEvent"("jobId", "at");

-- CreateIndex
CREATE INDEX "JobEvent_visitId_idx" ON "JobEvent"("visitId");

-- CreateIndex
CREATE UNIQUE INDEX "Quote_tokenHash_key" ON "Quote"("tokenHash");

-- CreateIndex
CREATE UNIQUE INDEX "Quote_jobId_version_key" ON "Quote"("jobId", "version");

-- CreateIndex
CREATE UNIQUE INDEX "Part_number_key" ON "Part"("number");

-- CreateIndex
CREATE INDEX "Warranty_unitId_until_idx" ON "Warranty"("unitId", "until");

-- AddForeignKey
ALTER TABLE "PartUsed" ADD CONSTRAINT "PartUsed_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Job" ADD CONSTRAINT "Job_kitchenId_fkey" FOREIGN KEY ("kitchenId") REFERENCES "Kitchen"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Job" ADD CONSTRAINT "Job_foundVisitId_fkey" FOREIGN KEY ("foundVisitId") REFERENCES "Visit"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Job" ADD CONSTRAINT "Job_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "Visit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Job" ADD CONSTRAINT "Job_closedById_fkey" FOREIGN KEY ("closedById") REFERENCES "User"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "JobUnit" ADD CONSTRAINT "JobUnit_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "JobUnit" ADD CONSTRAINT "JobUnit_unitId_fkey" FOREIGN KEY ("unitId") REFERENCES "Unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "JobEvent" ADD CONSTRAINT "JobEvent_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Quote" ADD CONSTRAINT "Quote_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Warranty" ADD CONSTRAINT "Warranty_unitId_fkey" FOREIGN KEY ("unitId") REFERENCES "Unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- A closed job says when, and an open one says nothing of its end.
ALTER TABLE "Job" ADD CONSTRAINT job_closed_says_when CHECK ((state IN ('done', 'declined')) = ("closedAt" IS NOT NULL));
ALTER TABLE "Job" ADD CONSTRAINT job_open_says_no_end CHECK (
  "closedAt" IS NOT NULL OR ("closedById" IS NULL AND "closedByName" = '' AND "closedNote" = '')
);
-- Nothing is given up without a name and a reason.
ALTER TABLE "Job" ADD CONSTRAINT job_declined_says_why CHECK (
  state <> 'declined' OR ("closedNote" <> '' AND ("closedById" IS NOT NULL OR "closedByName" <> ''))
);
ALTER TABLE "Job" ADD CONSTRAINT job_booked_has_visit CHECK (state <> 'booked' OR "visitId" IS NOT NULL);
ALTER TABLE "Job" ADD CONSTRAINT job_says_what CHECK (what <> '');

-- What is done is done: whoever needs more opens a new job.
CREATE FUNCTION job_done_stays() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.state = 'done' AND NEW.state <> 'done' THEN
    RAISE EXCEPTION 'job_done_stays: a job that is done does not open again' USING ERRCODE = '23514';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER job_done_stays BEFORE UPDATE ON "Job" FOR EACH ROW EXECUTE FUNCTION job_done_stays();

-- A booked job stands on a visit that is still to come or under way: one that only closed would leave it on no list.
CREATE FUNCTION job_booked_on_open_visit() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (
    SELECT 1 FROM "Job" j JOIN "Visit" v ON v.id = j."visitId"
    WHERE j.state = 'booked' AND v.status NOT IN ('booked', 'started')
      AND CASE TG_TABLE_NAME WHEN 'Visit' THEN v.id = NEW.id ELSE j.id = NEW.id END
  ) THEN
    RAISE EXCEPTION 'job_booked_on_open_visit: a booked job stands on a visit that is not closed' USING ERRCODE = '23514';
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER job_booked_on_open_visit AFTER INSERT OR UPDATE OF state, "visitId" ON "Job"
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION job_booked_on_open_visit();
CREATE CONSTRAINT TRIGGER visit_leaves_no_booked_job AFTER UPDATE OF status ON "Visit"
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION job_booked_on_open_visit();

-- History is only ever added to. It goes only with a job that was a slip altogether.
CREATE FUNCTION job_event_append_only() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'DELETE' AND NOT EXISTS (SELECT 1 FROM "Job" WHERE id = OLD."jobId") THEN
    RETURN OLD;
  END IF;
  RAISE EXCEPTION 'job_event_append_only: a job''s history is only ever added to' USING ERRCODE = '23514';
END $$;
CREATE TRIGGER job_event_append_only BEFORE UPDATE OR DELETE ON "JobEvent" FOR EACH ROW EXECUTE FUNCTION job_event_append_only();

-- What a customer was sent does not change under them; what they answered does not change at all.
CREATE FUNCTION quote_stands() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'DELETE' THEN
    IF OLD."sentAt" IS NULL THEN RETURN OLD; END IF;
    RAISE EXCEPTION 'quote_sent_stands: a quote that was sent is kept' USING ERRCODE = '23514';
  END IF;
  IF OLD."answeredAt" IS NOT NULL THEN
    RAISE EXCEPTION 'quote_answered_stands: a quote that was answered does not change' USING ERRCODE = '23514';
  END IF;
  IF OLD."sentAt" IS NOT NULL AND (OLD.lines, OLD."taxPercent", OLD."netCents", OLD."taxCents", OLD."totalCents", OLD.currency, OLD."validUntil", OLD.reason, OLD."photoIds", OLD."sentAt")
    IS DISTINCT FROM (NEW.lines, NEW."taxPercent", NEW."netCents", NEW."taxCents", NEW."totalCents", NEW.currency, NEW."validUntil", NEW.reason, NEW."photoIds", NEW."sentAt") THEN
    RAISE EXCEPTION 'quote_sent_stands: a quote that was sent is not rewritten; make a new version' USING ERRCODE = '23514';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER quote_stands BEFORE UPDATE OR DELETE ON "Quote" FOR EACH ROW EXECUTE FUNCTION quote_stands();
ALTER TABLE "Quote" ADD CONSTRAINT quote_adds_up CHECK ("netCents" >= 0 AND "taxCents" >= 0 AND "totalCents" = "netCents" + "taxCents");
ALTER TABLE "Quote" ADD CONSTRAINT quote_answered_by_name CHECK (
  (answer IS NULL) = ("answeredAt" IS NULL) AND (answer IS NULL OR ("answeredBy" <> '' AND "sentAt" IS NOT NULL))
);

ALTER TABLE "Part" ADD CONSTRAINT part_counts CHECK ("priceCents" >= 0 AND "inVan" >= 0 AND "inShop" >= 0);

INSERT INTO "Job" (id, "kitchenId", source, state, urgency, what, note, cause, "needsQuote", "dueOn", "foundVisitId", "createdById", "createdAt", "closedAt", "closedById", "closedNote")
SELECT f.id, u."kitchenId",
  (CASE WHEN f."visitId" IS NULL THEN 'office' ELSE 'finding' END)::"JobSource",
  (CASE f.status WHEN 'open' THEN 'asked' WHEN 'done' THEN 'done' ELSE 'declined' END)::"JobState",
  (CASE f.urgency WHEN 'now' THEN 'now' WHEN 'soon' THEN 'week' ELSE 'next_visit' END)::"JobUrgency",
  CASE WHEN f.what = '' THEN 'Follow-up' ELSE f.what END, f.note,
  CASE WHEN f."dueOn" IS NULL OR v.id IS NULL THEN '' ELSE CASE f.what
    WHEN 'Go back: solid ice on the low side' THEN 'return:ice_block'
    WHEN 'Go back: drain did not run' THEN 'return:drain_blocked'
    WHEN 'Go back: coil was packed' THEN 'return:coil_packed'
    WHEN 'Go back: tripped on high pressure' THEN 'return:high_pressure_trip'
    ELSE '' END END,
  f.urgency = 'quote', f."dueOn", v.id, f."createdById", f."createdAt", f."resolvedAt", f."resolvedById", f."resolvedNote"
FROM "FollowUp" f JOIN "Unit" u ON u.id = f."unitId" LEFT JOIN "Visit" v ON v.id = f."visitId"
ORDER BY f."createdAt", f.id;
INSERT INTO "JobUnit" ("jobId", "unitId") SELECT f.id, f."unitId" FROM "FollowUp" f;
INSERT INTO "JobEvent" (id, "jobId", at, kind, "to", "visitId", "byUserId")
SELECT gen_random_uuid(), j.id, j."createdAt", 'opened', 'asked', j."foundVisitId", j."createdById" FROM "Job" j;
INSERT INTO "JobEvent" (id, "jobId", at, kind, "from", "to", reason, "byUserId")
SELECT gen_random_uuid(), j.id, j."closedAt", 'moved', 'asked', j.state, j."closedNote", j."closedById" FROM "Job" j WHERE j."closedAt" IS NOT NULL;
DROP TABLE "FollowUp";
