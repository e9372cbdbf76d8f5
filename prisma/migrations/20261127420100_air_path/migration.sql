-- A grade is one of its aspect's.
ALTER TABLE "Finding" DROP CONSTRAINT finding_grade_of_aspect;
ALTER TABLE "Finding" ADD CONSTRAINT finding_grade_of_aspect CHECK (grade IS NULL OR CASE aspect
  WHEN 'coil' THEN grade IN ('bare', 'filmed', 'furred', 'matted', 'packed')
  WHEN 'condenser_fan' THEN grade IN ('sound', 'worn', 'failed')
  WHEN 'air_path' THEN grade IN ('open', 'narrowed', 'blocked')
  WHEN 'ice' THEN grade IN ('dry', 'even_frost', 'part_iced', 'bridged', 'block')
  WHEN 'evaporator_coil' THEN grade IN ('clean', 'dusty', 'clogged', 'choked')
  WHEN 'evaporator_fan' THEN grade IN ('sound', 'worn', 'failed')
  WHEN 'drain' THEN grade IN ('runs', 'slow', 'blocked', 'frozen', 'broken')
  WHEN 'gasket' THEN grade IN ('sound', 'worn', 'failed')
  WHEN 'scale' THEN grade IN ('clean', 'filmed', 'crusted', 'caked')
  WHEN 'float' THEN grade IN ('sound', 'worn', 'failed')
  ELSE false END);

-- The same as `has` in lib/core/findings/for-unit.ts: only what air cools has an air path.
CREATE OR REPLACE FUNCTION unit_has(kind "UnitKind", condenser "CondenserKind", aspect "Aspect") RETURNS boolean LANGUAGE sql IMMUTABLE AS $$
  SELECT CASE
    WHEN aspect IN ('coil', 'condenser_fan', 'air_path') THEN condenser <> 'water_cooled'
    WHEN kind = 'remote_condensing_unit' THEN false
    WHEN kind = 'ice_machine' THEN aspect IN ('drain', 'scale', 'float')
    ELSE aspect NOT IN ('scale', 'float') END
$$;
