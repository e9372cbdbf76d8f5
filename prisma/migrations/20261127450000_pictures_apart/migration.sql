-- Pictures stand apart from what is known of them, each under the hash of its bytes, so that they may lie elsewhere.
CREATE TABLE "KeptPicture" (
    "hash" TEXT NOT NULL,
    "bytes" BYTEA NOT NULL,

    CONSTRAINT "KeptPicture_pkey" PRIMARY KEY ("hash"),
    CONSTRAINT "KeptPicture_is_what_it_says" CHECK ("hash" = encode(sha256("bytes"), 'hex'))
);
-- A picture is packed already.
ALTER TABLE "KeptPicture" ALTER COLUMN "bytes" SET STORAGE EXTERNAL;

ALTER TABLE "StoredFile" ADD COLUMN "content" TEXT;
UPDATE "StoredFile" SET "content" = encode(sha256("bytes"), 'hex');
INSERT INTO "KeptPicture" ("hash", "bytes") SELECT DISTINCT ON ("content") "content", "bytes" FROM "StoredFile" ORDER BY "content";
ALTER TABLE "StoredFile" ALTER COLUMN "content" SET NOT NULL;
ALTER TABLE "StoredFile" ADD CONSTRAINT "StoredFile_content_is_a_hash" CHECK ("content" ~ '^[0-9a-f]{64}$');
ALTER TABLE "StoredFile" DROP COLUMN "bytes";
CREATE INDEX "StoredFile_content_idx" ON "StoredFile"("content");
-- Writes the table anew: only then is the room of the bytes given back.
ALTER TABLE "StoredFile" ALTER COLUMN "width" TYPE INTEGER USING ("width"::bigint)::integer;
