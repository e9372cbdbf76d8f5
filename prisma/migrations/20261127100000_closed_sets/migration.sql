-- Columns that hold one of a closed set say so. The words for each member stand in lib/core, as exhaustive records.
CREATE TYPE "UnitEventKind" AS ENUM ('high_pressure_trip', 'coil_cleaned_before', 'compressor_replaced', 'fan_replaced', 'refrigerant_added', 'note');
CREATE TYPE "RuleChangeKind" AS ENUM ('evidence', 'held', 'overruled', 'locked', 'unlocked', 'edited', 'ended');
CREATE TYPE "RuleReview" AS ENUM ('accepted', 'overruled');
CREATE TYPE "CustomerReply" AS ENUM ('confirmed', 'other_time');
CREATE TYPE "PlanStatus" AS ENUM ('queued', 'running', 'done', 'cancelled', 'failed', 'accepted', 'undone');
CREATE TYPE "ImportStatus" AS ENUM ('checked', 'running', 'done', 'failed', 'undone');
CREATE TYPE "PhotoPhase" AS ENUM ('before', 'after');
CREATE TYPE "MessageKind" AS ENUM ('visit_booked', 'visit_moved', 'visit_cancelled');
CREATE TYPE "CalendarMethod" AS ENUM ('REQUEST', 'CANCEL');
CREATE TYPE "EstimateStatus" AS ENUM ('ok', 'cannot_say');
CREATE TYPE "Verdict" AS ENUM ('clean_it', 'look_first', 'look_elsewhere', 'watch', 'fine', 'cannot_say');
CREATE TYPE "Skill" AS ENUM ('flammable', 'roof');
CREATE TYPE "TemperatureUnit" AS ENUM ('F', 'C');
CREATE TYPE "PressureUnit" AS ENUM ('psig', 'bar');
CREATE TYPE "MassUnit" AS ENUM ('oz', 'g');

ALTER TABLE "UnitEvent" ALTER COLUMN kind TYPE "UnitEventKind" USING kind::"UnitEventKind";

ALTER TABLE "RuleChange"
  ALTER COLUMN kind TYPE "RuleChangeKind" USING kind::"RuleChangeKind",
  ALTER COLUMN review TYPE "RuleReview" USING review::"RuleReview";

-- No answer yet is NULL, as anywhere else.
ALTER TABLE "Visit"
  ALTER COLUMN "customerReply" DROP DEFAULT,
  ALTER COLUMN "customerReply" DROP NOT NULL,
  ALTER COLUMN "customerReply" TYPE "CustomerReply" USING nullif("customerReply", '')::"CustomerReply";

ALTER TABLE "PlanRun"
  ALTER COLUMN status DROP DEFAULT,
  ALTER COLUMN status TYPE "PlanStatus" USING status::"PlanStatus",
  ALTER COLUMN status SET DEFAULT 'queued';

ALTER TABLE "ImportRun"
  ALTER COLUMN status DROP DEFAULT,
  ALTER COLUMN status TYPE "ImportStatus" USING status::"ImportStatus",
  ALTER COLUMN status SET DEFAULT 'checked';

ALTER TABLE "Photo"
  ALTER COLUMN phase DROP DEFAULT,
  ALTER COLUMN phase TYPE "PhotoPhase" USING phase::"PhotoPhase",
  ALTER COLUMN phase SET DEFAULT 'before';

ALTER TABLE "OutboxMessage"
  ALTER COLUMN kind TYPE "MessageKind" USING kind::"MessageKind",
  ALTER COLUMN "icsMethod" DROP DEFAULT,
  ALTER COLUMN "icsMethod" DROP NOT NULL,
  ALTER COLUMN "icsMethod" TYPE "CalendarMethod" USING nullif("icsMethod", '')::"CalendarMethod";

ALTER TABLE "Estimate"
  ALTER COLUMN status TYPE "EstimateStatus" USING status::"EstimateStatus",
  ALTER COLUMN verdict TYPE "Verdict" USING verdict::"Verdict";

ALTER TABLE "User"
  ALTER COLUMN skills DROP DEFAULT,
  ALTER COLUMN skills TYPE "Skill"[] USING skills::"Skill"[],
  ALTER COLUMN skills SET DEFAULT '{}',
  ALTER COLUMN "temperatureUnit" DROP DEFAULT,
  ALTER COLUMN "temperatureUnit" TYPE "TemperatureUnit" USING "temperatureUnit"::"TemperatureUnit",
  ALTER COLUMN "temperatureUnit" SET DEFAULT 'F',
  ALTER COLUMN "pressureUnit" DROP DEFAULT,
  ALTER COLUMN "pressureUnit" TYPE "PressureUnit" USING "pressureUnit"::"PressureUnit",
  ALTER COLUMN "pressureUnit" SET DEFAULT 'psig',
  ALTER COLUMN "massUnit" DROP DEFAULT,
  ALTER COLUMN "massUnit" TYPE "MassUnit" USING "massUnit"::"MassUnit",
  ALTER COLUMN "massUnit" SET DEFAULT 'oz';

-- Grades of ASME B40.100 begin with a digit, which no member of an enum can in the program.
ALTER TABLE "User" ADD CONSTRAINT user_gauge_grade CHECK ("gaugeGrade" IN ('4A', '3A', '2A', '1A', 'A', 'B', 'C', 'D'));
ALTER TABLE "Reading" ADD CONSTRAINT reading_gauge_grade CHECK ("gaugeGrade" IN ('4A', '3A', '2A', '1A', 'A', 'B', 'C', 'D'));
