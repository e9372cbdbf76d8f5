-- A sheet of any form: what was handed in, what was decided about it, and what it made, so that it can be taken back.
ALTER TABLE "ImportRun"
  ADD COLUMN "source" JSONB,
  ADD COLUMN "choices" JSONB NOT NULL DEFAULT '{}',
  ADD COLUMN "made" JSONB,
  ADD COLUMN "undoneAt" TIMESTAMPTZ;

-- What was decided about sheets of one form, for the next of that form.
CREATE TABLE "SheetMemory" (
  "form" TEXT NOT NULL,
  "choices" JSONB NOT NULL,
  "usedAt" TIMESTAMPTZ NOT NULL,
  CONSTRAINT "SheetMemory_pkey" PRIMARY KEY ("form")
);
