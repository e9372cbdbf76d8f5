-- Head and coil air once more, each with another instrument.
ALTER TABLE "Reading" ADD COLUMN "headAgainPaGauge" DOUBLE PRECISION, ADD COLUMN "airAgainK" DOUBLE PRECISION;
ALTER TABLE "Reading" ADD CONSTRAINT reading_again_within CHECK (
  coalesce("airAgainK", 300) BETWEEN 200 AND 400 AND coalesce("headAgainPaGauge", 0) BETWEEN -110000 AND 20000000);
