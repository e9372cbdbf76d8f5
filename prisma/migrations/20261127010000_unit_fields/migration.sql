-- A unit's closed sets become types of their own; what nobody knows stays unknown.
CREATE TYPE "UnitKind" AS ENUM ('reach_in', 'undercounter', 'drawer_base', 'prep_table', 'walk_in_cooler', 'walk_in_freezer', 'ice_machine', 'display', 'remote_condensing_unit');
CREATE TYPE "Placement" AS ENUM ('fryer', 'charbroiler', 'wok', 'griddle', 'bakery', 'line', 'back_of_house', 'bar', 'outdoors');
CREATE TYPE "Application" AS ENUM ('medium', 'low');
CREATE TYPE "Expansion" AS ENUM ('capillary', 'valve');
CREATE TYPE "CircuitAccess" AS ENUM ('sealed', 'ports');
CREATE TYPE "CondenserKind" AS ENUM ('fin_and_tube', 'microchannel', 'wire_and_tube', 'water_cooled');
CREATE TYPE "AirProfile" AS ENUM ('steady', 'cooking', 'season');
CREATE TYPE "ThermometerClass" AS ENUM ('pt_a', 'pt_b', 'tc_1', 'tc_2');

ALTER TABLE "Unit"
  ALTER COLUMN "kind" TYPE "UnitKind" USING "kind"::"UnitKind",
  ALTER COLUMN "placement" TYPE "Placement" USING "placement"::"Placement",
  ALTER COLUMN "application" DROP DEFAULT,
  ALTER COLUMN "application" TYPE "Application" USING "application"::"Application",
  ALTER COLUMN "expansion" DROP DEFAULT,
  ALTER COLUMN "expansion" TYPE "Expansion" USING "expansion"::"Expansion",
  ALTER COLUMN "circuitAccess" DROP DEFAULT,
  ALTER COLUMN "circuitAccess" TYPE "CircuitAccess" USING "circuitAccess"::"CircuitAccess",
  ALTER COLUMN "condenserKind" DROP DEFAULT,
  ALTER COLUMN "condenserKind" TYPE "CondenserKind" USING "condenserKind"::"CondenserKind";
ALTER TABLE "Unit"
  ALTER COLUMN "application" SET DEFAULT 'medium',
  ALTER COLUMN "expansion" SET DEFAULT 'capillary',
  ALTER COLUMN "circuitAccess" SET DEFAULT 'sealed',
  ALTER COLUMN "condenserKind" SET DEFAULT 'fin_and_tube',
  ALTER COLUMN "headControl" DROP NOT NULL,
  ALTER COLUMN "headControl" DROP DEFAULT,
  ADD COLUMN "nominalCoolingW" DOUBLE PRECISION,
  ADD COLUMN "runHoursPerDay" DOUBLE PRECISION,
  ADD COLUMN "airOverRoomK" DOUBLE PRECISION,
  ADD COLUMN "airProfile" "AirProfile",
  ADD COLUMN "thermometerClass" "ThermometerClass";

-- Until now a form left empty was stored as no: nobody had said so.
UPDATE "Unit" SET "headControl" = NULL WHERE NOT "headControl";

ALTER TABLE "Unit" ADD CONSTRAINT unit_nominal_cooling CHECK ("nominalCoolingW" > 0);
ALTER TABLE "Unit" ADD CONSTRAINT unit_run_hours CHECK ("runHoursPerDay" > 0 AND "runHoursPerDay" <= 24);
ALTER TABLE "Unit" ADD CONSTRAINT unit_air_over_room CHECK ("airOverRoomK" BETWEEN -50 AND 100);
