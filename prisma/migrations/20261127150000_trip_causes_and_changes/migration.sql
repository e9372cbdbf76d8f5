-- What was behind a trip on high pressure; that a coil was washed right through; that it breathes more or less than before.
CREATE TYPE "TripCause" AS ENUM ('coil', 'fan', 'air', 'charge', 'cutout');
ALTER TYPE "UnitEventKind" ADD VALUE 'washed_through';
ALTER TYPE "UnitEventKind" ADD VALUE 'fouls_more';
ALTER TYPE "UnitEventKind" ADD VALUE 'fouls_less';
ALTER TABLE "UnitEvent" ADD COLUMN cause "TripCause";
ALTER TABLE "UnitEvent" ADD CONSTRAINT unit_event_cause_of_trip CHECK (cause IS NULL OR kind = 'high_pressure_trip');
