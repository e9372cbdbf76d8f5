-- Everything on file as one zip, made in the background and kept for a while.
CREATE TYPE "ArchiveStatus" AS ENUM ('queued', 'running', 'done', 'failed');

CREATE TABLE "ArchiveRun" (
    "id" UUID NOT NULL,
    "status" "ArchiveStatus" NOT NULL DEFAULT 'queued',
    "createdById" UUID NOT NULL,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "finishedAt" TIMESTAMPTZ,
    "rows" INTEGER NOT NULL DEFAULT 0,
    "doneRows" INTEGER NOT NULL DEFAULT 0,
    "bytes" BIGINT NOT NULL DEFAULT 0,
    "pieces" INTEGER NOT NULL DEFAULT 0,
    "error" TEXT NOT NULL DEFAULT '',
    "expiresAt" TIMESTAMPTZ,
    "claim" UUID,
    "beatAt" TIMESTAMPTZ,
    "tries" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "ArchiveRun_pkey" PRIMARY KEY ("id"),
    -- One that can be fetched says until when.
    CONSTRAINT "ArchiveRun_expires" CHECK ("status" <> 'done' OR "expiresAt" IS NOT NULL)
);
CREATE INDEX "ArchiveRun_createdAt_idx" ON "ArchiveRun"("createdAt");
-- One at a time: two would only slow each other down.
CREATE UNIQUE INDEX "ArchiveRun_one_at_a_time" ON "ArchiveRun"((true)) WHERE "status" IN ('queued', 'running');

-- Unlogged: what a crash takes is made again, and no backup carries it.
CREATE UNLOGGED TABLE "ArchivePiece" (
    "runId" UUID NOT NULL,
    "index" INTEGER NOT NULL,
    "bytes" BYTEA NOT NULL,
    CONSTRAINT "ArchivePiece_pkey" PRIMARY KEY ("runId", "index"),
    CONSTRAINT "ArchivePiece_runId_fkey" FOREIGN KEY ("runId") REFERENCES "ArchiveRun"("id") ON DELETE CASCADE ON UPDATE CASCADE
);
-- A zip is packed already.
ALTER TABLE "ArchivePiece" ALTER COLUMN "bytes" SET STORAGE EXTERNAL;
