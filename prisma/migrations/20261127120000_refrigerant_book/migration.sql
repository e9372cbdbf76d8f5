-- CreateEnum
CREATE TYPE "LeakRuleSet" AS ENUM ('us', 'eu');

-- CreateEnum
CREATE TYPE "LeakMethod" AS ENUM ('annualizing', 'rolling');

-- CreateEnum
CREATE TYPE "CylinderContents" AS ENUM ('new', 'recovered');

-- CreateEnum
CREATE TYPE "CylinderWay" AS ENUM ('charged', 'recovered', 'bought', 'to_reclaim', 'to_destruction', 'moved', 'scale_check');

-- CreateEnum
CREATE TYPE "RecoveredFor" AS ENUM ('reuse', 'reclaim', 'destruction');

-- CreateEnum
CREATE TYPE "CertificateKind" AS ENUM ('us_608_type_1', 'us_608_type_2', 'us_608_type_3', 'us_608_universal', 'eu_category_1', 'eu_category_2', 'other');

-- CreateEnum
CREATE TYPE "LeakTestKind" AS ENUM ('initial', 'follow_up');

-- CreateEnum
CREATE TYPE "SealedStepName" AS ENUM ('isolate', 'recover', 'open', 'braze', 'drier', 'pressure_test', 'evacuate', 'charge', 'running_check');

-- CreateEnum
CREATE TYPE "ChoiceWay" AS ENUM ('go_on', 'repair', 'replace');

-- AlterTable
ALTER TABLE "ShopSettings" ADD COLUMN     "leakMethod" "LeakMethod" NOT NULL DEFAULT 'annualizing',
ADD COLUMN     "leakRuleSet" "LeakRuleSet" NOT NULL DEFAULT 'us';

-- CreateTable
CREATE TABLE "Certificate" (
    "id" UUID NOT NULL,
    "userId" UUID NOT NULL,
    "kind" "CertificateKind" NOT NULL,
    "number" TEXT NOT NULL,
    "expiresOn" DATE,
    "withdrawnAt" TIMESTAMPTZ,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Certificate_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Cylinder" (
    "id" UUID NOT NULL,
    "label" TEXT NOT NULL,
    "refrigerant" TEXT NOT NULL,
    "contents" "CylinderContents" NOT NULL,
    "tareKg" DOUBLE PRECISION NOT NULL,
    "firstKg" DOUBLE PRECISION NOT NULL,
    "mostKg" DOUBLE PRECISION NOT NULL,
    "withUserId" UUID,
    "note" TEXT NOT NULL DEFAULT '',
    "goneAt" TIMESTAMPTZ,
    "goneWhy" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Cylinder_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "CylinderEntry" (
    "id" UUID NOT NULL,
    "cylinderId" UUID NOT NULL,
    "way" "CylinderWay" NOT NULL,
    "kg" DOUBLE PRECISION NOT NULL,
    "grossBeforeKg" DOUBLE PRECISION,
    "grossAfterKg" DOUBLE PRECISION,
    "recoveredFor" "RecoveredFor",
    "unitId" UUID,
    "visitId" UUID,
    "stepId" UUID,
    "byUserId" UUID NOT NULL,
    "certificateId" UUID,
    "overruledBy" TEXT NOT NULL DEFAULT '',
    "overruledWhy" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "correctsId" UUID,

    CONSTRAINT "CylinderEntry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "SealedRecord" (
    "id" UUID NOT NULL,
    "unitId" UUID NOT NULL,
    "begunAt" TIMESTAMPTZ NOT NULL,

    CONSTRAINT "SealedRecord_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "SealedStep" (
    "id" UUID NOT NULL,
    "recordId" UUID NOT NULL,
    "visitId" UUID NOT NULL,
    "unitId" UUID NOT NULL,
    "step" "SealedStepName" NOT NULL,
    "work" JSONB,
    "workVersion" INTEGER NOT NULL DEFAULT 1,
    "skippedWhy" TEXT NOT NULL DEFAULT '',
    "certificateId" UUID,
    "overruledBy" TEXT NOT NULL DEFAULT '',
    "overruledWhy" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ NOT NULL,
    "byUserId" UUID NOT NULL,
    "deviceId" UUID,
    "supersededAt" TIMESTAMPTZ,

    CONSTRAINT "SealedStep_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "LeakTest" (
    "id" UUID NOT NULL,
    "unitId" UUID NOT NULL,
    "on" DATE NOT NULL,
    "kind" "LeakTestKind" NOT NULL,
    "passed" BOOLEAN NOT NULL,
    "how" TEXT NOT NULL DEFAULT '',
    "byUserId" UUID NOT NULL,
    "at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "LeakTest_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "UnitChoice" (
    "id" UUID NOT NULL,
    "unitId" UUID NOT NULL,
    "at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "byUserId" UUID NOT NULL,
    "way" "ChoiceWay" NOT NULL,
    "reason" TEXT NOT NULL,
    "figures" JSONB NOT NULL,
    "lookAgainOn" DATE NOT NULL,
    "lookedAt" TIMESTAMPTZ,
    "lookedById" UUID,
    "lookedNote" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "UnitChoice_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "Certificate_userId_idx" ON "Certificate"("userId");

-- CreateIndex
CREATE UNIQUE INDEX "Cylinder_label_key" ON "Cylinder"("label");

-- CreateIndex
CREATE INDEX "Cylinder_withUserId_idx" ON "Cylinder"("withUserId");

-- CreateIndex
CREATE UNIQUE INDEX "CylinderEntry_correctsId_key" ON "CylinderEntry"("correctsId");

-- CreateIndex
CREATE INDEX "CylinderEntry_cylinderId_at_idx" ON "CylinderEntry"("cylinderId", "at");

-- CreateIndex
CREATE INDEX "CylinderEntry_unitId_at_idx" ON "CylinderEntry"("unitId", "at");

-- CreateIndex
CREATE INDEX "CylinderEntry_at_idx" ON "CylinderEntry"("at");

-- CreateIndex
CREATE INDEX "SealedRecord_unitId_begunAt_idx" ON "SealedRecord"("unitId", "begunAt");

-- CreateIndex
CREATE INDEX "SealedStep_recordId_idx" ON "SealedStep"("recordId");

-- CreateIndex
CREATE INDEX "SealedStep_visitId_unitId_idx" ON "SealedStep"("visitId", "unitId");

-- CreateIndex
CREATE INDEX "LeakTest_unitId_on_idx" ON "LeakTest"("unitId", "on");

-- CreateIndex
CREATE INDEX "UnitChoice_unitId_at_idx" ON "UnitChoice"("unitId", "at");

-- CreateIndex
CREATE INDEX "UnitChoice_lookAgainOn_idx" ON "UnitChoice"("lookAgainOn");

-- AddForeignKey
ALTER TABLE "Certificate" ADD CONSTRAINT "Certificate_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Cylinder" ADD CONSTRAINT "Cylinder_withUserId_fkey" FOREIGN KEY ("withUserId") REFERENCES "User"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CylinderEntry" ADD CONSTRAINT "CylinderEntry_cylinderId_fkey" FOREIGN KEY ("cylinderId") REFERENCES "Cylinder"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CylinderEntry" ADD CONSTRAINT "CylinderEntry_unitId_fkey" FOREIGN KEY ("unitId") REFERENCES "Unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CylinderEntry" ADD CONSTRAINT "CylinderEntry_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "SealedStep"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CylinderEntry" ADD CONSTRAINT "CylinderEntry_byUserId_fkey" FOREIGN KEY ("byUserId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CylinderEntry" ADD CONSTRAINT "CylinderEntry_certificateId_fkey" FOREIGN KEY ("certificateId") REFERENCES "Certificate"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "CylinderEntry" ADD CONSTRAINT "CylinderEntry_correctsId_fkey" FOREIGN KEY ("correctsId") REFERENCES "CylinderEntry"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "SealedRecord" ADD CONSTRAINT "SealedRecord_unitId_fkey" FOREIGN KEY ("unitId") REFERENCES "Unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "SealedStep" ADD CONSTRAINT "SealedStep_recordId_fkey" FOREIGN KEY ("recordId") REFERENCES "SealedRecord"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "SealedStep" ADD CONSTRAINT "SealedStep_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "Visit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "SealedStep" ADD CONSTRAINT "SealedStep_certificateId_fkey" FOREIGN KEY ("certificateId") REFERENCES "Certificate"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "SealedStep" ADD CONSTRAINT "SealedStep_byUserId_fkey" FOREIGN KEY ("byUserId") REFERENCES "User"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "LeakTest" ADD CONSTRAINT "LeakTest_unitId_fkey" FOREIGN KEY ("unitId") REFERENCES "Unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "UnitChoice" ADD CONSTRAINT "UnitChoice_unitId_fkey" FOREIGN KEY ("unitId") REFERENCES "Unit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- Rules that must hold whatever the application does.
ALTER TABLE "Certificate" ADD CONSTRAINT certificate_number CHECK (number <> '');
ALTER TABLE "Cylinder" ADD CONSTRAINT cylinder_weights CHECK (label <> '' AND "tareKg" > 0 AND "firstKg" >= 0 AND "mostKg" > 0 AND "firstKg" <= "mostKg" * 1.02);
ALTER TABLE "Cylinder" ADD CONSTRAINT cylinder_gone_has_reason CHECK ("goneAt" IS NULL OR "goneWhy" <> '');

-- Which way gas goes is the sign; what takes an entry back has the other one.
ALTER TABLE "CylinderEntry" ADD CONSTRAINT cylinder_entry_sign CHECK (
  CASE WHEN "correctsId" IS NULL THEN kg ELSE -kg END * CASE way
    WHEN 'charged' THEN -1 WHEN 'to_reclaim' THEN -1 WHEN 'to_destruction' THEN -1 WHEN 'recovered' THEN 1 WHEN 'bought' THEN 1 ELSE 0 END > 0
  OR (way = 'moved' AND kg <> 0) OR (way = 'scale_check' AND kg = 0 AND "grossAfterKg" IS NOT NULL));
ALTER TABLE "CylinderEntry" ADD CONSTRAINT cylinder_entry_unit CHECK (("unitId" IS NOT NULL) = (way IN ('charged', 'recovered')));
ALTER TABLE "CylinderEntry" ADD CONSTRAINT cylinder_entry_corrected_has_reason CHECK ("correctsId" IS NULL OR note <> '');
ALTER TABLE "CylinderEntry" ADD CONSTRAINT cylinder_entry_certified CHECK (
  way NOT IN ('charged', 'recovered') OR "correctsId" IS NOT NULL OR "certificateId" IS NOT NULL OR ("overruledBy" <> '' AND "overruledWhy" <> ''));
-- One step of a record is in the book once.
CREATE UNIQUE INDEX cylinder_entry_one_a_step ON "CylinderEntry" ("stepId") WHERE "correctsId" IS NULL;

CREATE FUNCTION cylinder_entry_append_only() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'the refrigerant book is only ever added to' USING ERRCODE = 'check_violation', CONSTRAINT = 'cylinder_entry_append_only';
END $$;
CREATE TRIGGER cylinder_entry_append_only BEFORE UPDATE OR DELETE ON "CylinderEntry" FOR EACH ROW EXECUTE FUNCTION cylinder_entry_append_only();
CREATE TRIGGER cylinder_entry_not_emptied BEFORE TRUNCATE ON "CylinderEntry" FOR EACH STATEMENT EXECUTE FUNCTION cylinder_entry_append_only();

-- An entry is taken back whole, on its own cylinder, and a cylinder that is gone takes no new ones.
CREATE FUNCTION cylinder_entry_fits() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE was "CylinderEntry"%ROWTYPE;
BEGIN
  IF NEW."correctsId" IS NULL THEN
    IF EXISTS (SELECT 1 FROM "Cylinder" c WHERE c.id = NEW."cylinderId" AND c."goneAt" < NEW.at) THEN
      RAISE EXCEPTION 'that cylinder is gone' USING ERRCODE = 'check_violation', CONSTRAINT = 'cylinder_entry_gone';
    END IF;
    RETURN NEW;
  END IF;
  SELECT * INTO was FROM "CylinderEntry" e WHERE e.id = NEW."correctsId";
  IF was."correctsId" IS NOT NULL OR was."cylinderId" <> NEW."cylinderId" OR was.way <> NEW.way OR was.kg <> -NEW.kg OR was."unitId" IS DISTINCT FROM NEW."unitId" THEN
    RAISE EXCEPTION 'an entry is taken back whole' USING ERRCODE = 'check_violation', CONSTRAINT = 'cylinder_entry_taken_back_whole';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER cylinder_entry_fits BEFORE INSERT ON "CylinderEntry" FOR EACH ROW EXECUTE FUNCTION cylinder_entry_fits();

-- A step was done, or says why not; one that touches refrigerant by somebody certified, or somebody answers for it.
ALTER TABLE "SealedStep" ADD CONSTRAINT sealed_step_done_or_reason CHECK ((work IS NOT NULL) <> ("skippedWhy" <> ''));
ALTER TABLE "SealedStep" ADD CONSTRAINT sealed_step_certified CHECK (
  work IS NULL OR step IN ('isolate', 'braze', 'running_check') OR "certificateId" IS NOT NULL OR ("overruledBy" <> '' AND "overruledWhy" <> ''));
CREATE UNIQUE INDEX sealed_step_one_current ON "SealedStep" ("recordId", step) WHERE "supersededAt" IS NULL;

-- The certificate is the person's own and held on that day, unless somebody answers for it.
CREATE FUNCTION sealed_step_certificate_holds() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.work IS NULL OR NEW.step IN ('isolate', 'braze', 'running_check') OR NEW."certificateId" IS NULL OR NEW."overruledBy" <> '' THEN RETURN NEW; END IF;
  IF NOT EXISTS (SELECT 1 FROM "Certificate" c WHERE c.id = NEW."certificateId" AND c."userId" = NEW."byUserId"
    AND (c."expiresOn" IS NULL OR c."expiresOn" >= (NEW.at AT TIME ZONE 'UTC')::date - 1) AND (c."withdrawnAt" IS NULL OR c."withdrawnAt" > NEW.at)) THEN
    RAISE EXCEPTION 'the certificate does not hold' USING ERRCODE = 'check_violation', CONSTRAINT = 'sealed_step_certificate_holds';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER sealed_step_certificate_holds BEFORE INSERT ON "SealedStep" FOR EACH ROW EXECUTE FUNCTION sealed_step_certificate_holds();

-- What a step says is never changed; only that a later one stands in its place.
CREATE FUNCTION sealed_step_only_superseded() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'DELETE' OR to_jsonb(NEW) - 'supersededAt' IS DISTINCT FROM to_jsonb(OLD) - 'supersededAt' THEN
    RAISE EXCEPTION 'a step of a repair record is never changed' USING ERRCODE = 'check_violation', CONSTRAINT = 'sealed_step_only_superseded';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER sealed_step_only_superseded BEFORE UPDATE OR DELETE ON "SealedStep" FOR EACH ROW EXECUTE FUNCTION sealed_step_only_superseded();

ALTER TABLE "UnitChoice" ADD CONSTRAINT unit_choice_has_reason CHECK (reason <> '');
ALTER TABLE "UnitChoice" ADD CONSTRAINT unit_choice_looked_at CHECK (("lookedAt" IS NULL) = ("lookedNote" = ''));
