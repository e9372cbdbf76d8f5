-- Who can be called out when, and by which number.
ALTER TABLE "User" ADD COLUMN "onCall" JSONB NOT NULL DEFAULT '[]', ADD COLUMN phone TEXT NOT NULL DEFAULT '';

-- Somebody is away at short notice: the days off, and where each visit that was handed round stood before.
CREATE TABLE "Absence" (
  id UUID NOT NULL,
  "userId" UUID NOT NULL,
  "timeOffId" UUID,
  "startsOn" DATE NOT NULL,
  "endsOn" DATE NOT NULL,
  "createdById" UUID NOT NULL,
  "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
  "undoneAt" TIMESTAMPTZ,
  CONSTRAINT "Absence_pkey" PRIMARY KEY (id),
  CONSTRAINT "Absence_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"(id) ON DELETE CASCADE ON UPDATE CASCADE,
  CONSTRAINT "Absence_timeOffId_fkey" FOREIGN KEY ("timeOffId") REFERENCES "TimeOff"(id) ON DELETE SET NULL ON UPDATE CASCADE,
  CONSTRAINT absence_range CHECK ("endsOn" > "startsOn")
);
CREATE INDEX "Absence_endsOn_idx" ON "Absence"("endsOn");
CREATE UNIQUE INDEX "Absence_timeOffId_key" ON "Absence"("timeOffId");

CREATE TABLE "AbsenceMove" (
  "absenceId" UUID NOT NULL,
  "visitId" UUID NOT NULL,
  "fromTechnicianId" UUID NOT NULL,
  "fromStartsAt" TIMESTAMPTZ NOT NULL,
  "fromEndsAt" TIMESTAMPTZ NOT NULL,
  "versionAfter" INTEGER NOT NULL,
  CONSTRAINT "AbsenceMove_pkey" PRIMARY KEY ("absenceId", "visitId"),
  CONSTRAINT "AbsenceMove_absenceId_fkey" FOREIGN KEY ("absenceId") REFERENCES "Absence"(id) ON DELETE CASCADE ON UPDATE CASCADE,
  CONSTRAINT "AbsenceMove_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "Visit"(id) ON DELETE CASCADE ON UPDATE CASCADE
);
