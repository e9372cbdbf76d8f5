-- Whether a unit of this build has the part at all; the same as `has` in lib/core/findings/for-unit.ts (a test compares them).
CREATE FUNCTION unit_has(kind "UnitKind", condenser "CondenserKind", aspect "Aspect") RETURNS boolean LANGUAGE sql IMMUTABLE AS $$
  SELECT CASE
    WHEN aspect IN ('coil', 'condenser_fan') THEN condenser <> 'water_cooled'
    WHEN kind = 'remote_condensing_unit' THEN false
    WHEN kind = 'ice_machine' THEN aspect = 'drain'
    ELSE true END
$$;

-- What a unit does not have is not asked for before its coil cleaning counts.
CREATE OR REPLACE FUNCTION task_unlooked(visit uuid, unit uuid, kind text) RETURNS "Aspect"[] LANGUAGE sql STABLE AS $$
  SELECT array_agg(a) FROM "TaskKind" k, unnest(k."neededBeforeClosing") a
  WHERE k.key = kind
    AND EXISTS (SELECT 1 FROM "Unit" u WHERE u.id = unit AND unit_has(u.kind, u."condenserKind", a))
    AND NOT EXISTS (SELECT 1 FROM "Finding" f WHERE f."visitId" = visit AND f."unitId" = unit AND f.aspect = a AND f."supersededAt" IS NULL)
$$;
