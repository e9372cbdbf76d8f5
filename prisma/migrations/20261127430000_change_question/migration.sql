-- A kitchen whose coils come out other than expected: the office is asked what changed, one question at a time.
CREATE TYPE "SaidChange" AS ENUM ('more', 'less');
CREATE TYPE "ChangeAnswer" AS ENUM ('equipment', 'menu', 'hours', 'other', 'nothing');

CREATE TABLE "ChangeQuestion" (
    "id" UUID NOT NULL,
    "kitchenId" UUID NOT NULL,
    "since" DATE NOT NULL,
    "breathes" "SaidChange" NOT NULL,
    "looks" INTEGER NOT NULL,
    "askedAt" TIMESTAMPTZ NOT NULL,
    "answer" "ChangeAnswer",
    "answeredAt" TIMESTAMPTZ,
    "answeredById" UUID,

    CONSTRAINT "ChangeQuestion_pkey" PRIMARY KEY ("id"),
    CONSTRAINT change_question_answered CHECK (("answer" IS NULL) = ("answeredAt" IS NULL))
);

ALTER TABLE "ChangeQuestion" ADD CONSTRAINT "ChangeQuestion_kitchenId_fkey" FOREIGN KEY ("kitchenId") REFERENCES "Kitchen"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "ChangeQuestion" ADD CONSTRAINT "ChangeQuestion_answeredById_fkey" FOREIGN KEY ("answeredById") REFERENCES "User"("id") ON DELETE SET NULL ON UPDATE CASCADE;

CREATE INDEX "ChangeQuestion_kitchenId_askedAt_idx" ON "ChangeQuestion"("kitchenId", "askedAt");
CREATE INDEX "ChangeQuestion_answeredAt_idx" ON "ChangeQuestion"("answeredAt");

-- A kitchen is asked once at a time.
CREATE UNIQUE INDEX change_question_open ON "ChangeQuestion" ("kitchenId") WHERE "answer" IS NULL;
