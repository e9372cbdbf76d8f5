-- What the owner's pages ask of the whole shop, kept by the database as it is written: reading a million findings for a page takes
-- seconds. Each function works a row out anew from what is on file, so nothing can drift; a test compares them with the long way.

CREATE TYPE "MatterKind" AS ENUM ('past_saving', 'dead_fan', 'drain_again');

-- What waits for the owner's word: a row exists only where there is such a matter.
CREATE TABLE "UnitMatter" (
  "unitId" UUID NOT NULL,
  kind "MatterKind" NOT NULL,
  -- Since when: the last look, the first dead look, or the third last stop.
  at TIMESTAMPTZ NOT NULL,
  dates TIMESTAMPTZ[] NOT NULL,
  grade "Grade",
  CONSTRAINT "UnitMatter_pkey" PRIMARY KEY ("unitId", kind)
);
CREATE INDEX "UnitMatter_kind_at_idx" ON "UnitMatter"(kind, at);
ALTER TABLE "UnitMatter" ADD CONSTRAINT "UnitMatter_unitId_fkey" FOREIGN KEY ("unitId") REFERENCES "Unit"(id) ON DELETE CASCADE ON UPDATE CASCADE;

-- The same grades as `stoppedGrades` in lib/core/findings/grades.ts (a test compares them).
CREATE FUNCTION stops_work(aspect "Aspect", grade "Grade") RETURNS boolean LANGUAGE sql IMMUTABLE AS $$
  SELECT CASE aspect WHEN 'coil' THEN grade IN ('matted', 'packed') WHEN 'condenser_fan' THEN grade = 'failed'
    WHEN 'drain' THEN grade IN ('blocked', 'frozen', 'broken') ELSE false END
$$;

CREATE FUNCTION unit_matters(ids uuid[]) RETURNS TABLE ("unitId" uuid, kind "MatterKind", at timestamptz, dates timestamptz[], grade "Grade") LANGUAGE sql STABLE AS $$
  WITH f AS MATERIALIZED (
    SELECT f."unitId", f.aspect, f.phase, f.grade, f.at, f.id, f."visitId", stops_work(f.aspect, f.grade) AS stops FROM "Finding" f
    WHERE f."unitId" = ANY(ids) AND f.aspect IN ('coil', 'condenser_fan', 'drain') AND f.grade IS NOT NULL AND f."supersededAt" IS NULL
  )
  -- Coils left matted or packed after each of the last two cleanings: no cleaning brings them back.
  SELECT c."unitId", 'past_saving'::"MatterKind", max(c.at), array_agg(c.at ORDER BY c.at), (array_agg(c.grade ORDER BY c.at DESC))[1]
  FROM (SELECT *, row_number() OVER (PARTITION BY f."unitId" ORDER BY f.at DESC, f.id) AS n FROM f WHERE aspect = 'coil' AND phase = 'left') c
  WHERE c.n <= 2 GROUP BY 1 HAVING count(*) = 2 AND bool_and(c.stops)
  UNION ALL
  -- Condenser fans found dead at the last look, and not replaced then or since.
  SELECT l."unitId", 'dead_fan', l.since, ARRAY[]::timestamptz[], NULL
  FROM (
    SELECT DISTINCT ON (w."unitId") w.*, min(w.at) FILTER (WHERE w.stops AND w.at > coalesce(w."lastGood", '-infinity')) OVER (PARTITION BY w."unitId") AS since
    FROM (SELECT f.*, max(f.at) FILTER (WHERE NOT f.stops) OVER (PARTITION BY f."unitId") AS "lastGood" FROM f WHERE f.aspect = 'condenser_fan') w
    ORDER BY w."unitId", w.at DESC, w.id
  ) l
  WHERE l.stops AND l.since IS NOT NULL AND NOT EXISTS (
    SELECT 1 FROM "UnitEvent" e WHERE e."unitId" = l."unitId" AND e.kind = 'fan_replaced' AND (e.at >= l.at OR (e."visitId" = l."visitId" AND l.phase = 'found')))
  UNION ALL
  -- Drains found stopped three times or more.
  SELECT f."unitId", 'drain_again', (array_agg(f.at ORDER BY f.at DESC))[3], array_agg(f.at ORDER BY f.at), NULL
  FROM f WHERE f.aspect = 'drain' AND f.phase = 'found' AND f.stops GROUP BY 1 HAVING count(*) >= 3
$$;

CREATE FUNCTION keep_unit_matters(ids uuid[]) RETURNS void LANGUAGE plpgsql AS $$
BEGIN
  IF ids IS NULL THEN RETURN; END IF;
  -- Two visits at one unit take turns; the second sees what the first has written.
  PERFORM pg_advisory_xact_lock(hashtextextended('unit matters ' || i, 0)) FROM (SELECT DISTINCT i FROM unnest(ids) AS i ORDER BY i) s;
  DELETE FROM "UnitMatter" m WHERE m."unitId" = ANY(ids) AND NOT EXISTS (SELECT 1 FROM unit_matters(ids) n WHERE n."unitId" = m."unitId" AND n.kind = m.kind);
  INSERT INTO "UnitMatter" AS m SELECT n.* FROM unit_matters(ids) n JOIN "Unit" u ON u.id = n."unitId"
  ON CONFLICT ("unitId", kind) DO UPDATE SET at = excluded.at, dates = excluded.dates, grade = excluded.grade
  WHERE (m.at, m.dates, m.grade) IS DISTINCT FROM (excluded.at, excluded.dates, excluded.grade);
END $$;

CREATE FUNCTION unit_matters_of_findings() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM keep_unit_matters((SELECT array_agg(DISTINCT c."unitId") FROM changed c WHERE c.aspect IN ('coil', 'condenser_fan', 'drain')));
  RETURN NULL;
END $$;
CREATE FUNCTION unit_matters_of_events() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM keep_unit_matters((SELECT array_agg(DISTINCT c."unitId") FROM changed c WHERE c.kind = 'fan_replaced'));
  RETURN NULL;
END $$;
CREATE TRIGGER unit_matters_made AFTER INSERT ON "Finding" REFERENCING NEW TABLE AS changed FOR EACH STATEMENT EXECUTE FUNCTION unit_matters_of_findings();
CREATE TRIGGER unit_matters_changed AFTER UPDATE ON "Finding" REFERENCING NEW TABLE AS changed FOR EACH STATEMENT EXECUTE FUNCTION unit_matters_of_findings();
CREATE TRIGGER unit_matters_gone AFTER DELETE ON "Finding" REFERENCING OLD TABLE AS changed FOR EACH STATEMENT EXECUTE FUNCTION unit_matters_of_findings();
CREATE TRIGGER unit_matters_made AFTER INSERT ON "UnitEvent" REFERENCING NEW TABLE AS changed FOR EACH STATEMENT EXECUTE FUNCTION unit_matters_of_events();
CREATE TRIGGER unit_matters_changed AFTER UPDATE ON "UnitEvent" REFERENCING NEW TABLE AS changed FOR EACH STATEMENT EXECUTE FUNCTION unit_matters_of_events();
CREATE TRIGGER unit_matters_gone AFTER DELETE ON "UnitEvent" REFERENCING OLD TABLE AS changed FOR EACH STATEMENT EXECUTE FUNCTION unit_matters_of_events();

-- How fast a kitchen's coils foul: of those that somebody looked at and that air cools.
CREATE TABLE "KitchenFouling" (
  "kitchenId" UUID NOT NULL,
  -- Loss of ln K per day: mean of its coils, and the standard deviation of that mean.
  rate DOUBLE PRECISION,
  sd DOUBLE PRECISION,
  units INTEGER NOT NULL,
  evidence INTEGER NOT NULL,
  unseen INTEGER NOT NULL,
  water INTEGER NOT NULL,
  CONSTRAINT "KitchenFouling_pkey" PRIMARY KEY ("kitchenId")
);
CREATE INDEX "KitchenFouling_rate_idx" ON "KitchenFouling"(rate);
ALTER TABLE "KitchenFouling" ADD CONSTRAINT "KitchenFouling_kitchenId_fkey" FOREIGN KEY ("kitchenId") REFERENCES "Kitchen"(id) ON DELETE CASCADE ON UPDATE CASCADE;

CREATE FUNCTION kitchen_fouling(ids uuid[]) RETURNS SETOF "KitchenFouling" LANGUAGE sql STABLE AS $$
  SELECT t."kitchenId", avg(t."ratePerDay") FILTER (WHERE t.tells), sqrt(sum(t."rateSdPerDay" ^ 2) FILTER (WHERE t.tells)) / nullif(count(*) FILTER (WHERE t.tells), 0),
    count(*) FILTER (WHERE t.tells)::int, coalesce(sum(t."evidenceCount") FILTER (WHERE t.tells), 0)::int, count(*) FILTER (WHERE NOT t.tells AND NOT t.water)::int, count(*) FILTER (WHERE t.water)::int
  FROM (
    SELECT u."kitchenId", f."ratePerDay", f."rateSdPerDay", f."evidenceCount", u."condenserKind" = 'water_cooled' AS water,
      u."condenserKind" <> 'water_cooled' AND coalesce(f."evidenceCount", 0) > 0 AS tells
    FROM "Unit" u LEFT JOIN "UnitFouling" f ON f."unitId" = u.id WHERE u."kitchenId" = ANY(ids) AND u."archivedAt" IS NULL
  ) t GROUP BY 1
$$;

CREATE FUNCTION keep_kitchen_fouling(ids uuid[]) RETURNS void LANGUAGE plpgsql AS $$
BEGIN
  IF ids IS NULL THEN RETURN; END IF;
  PERFORM pg_advisory_xact_lock(hashtextextended('kitchen fouling ' || i, 0)) FROM (SELECT DISTINCT i FROM unnest(ids) AS i ORDER BY i) s;
  DELETE FROM "KitchenFouling" k WHERE k."kitchenId" = ANY(ids) AND NOT EXISTS (SELECT 1 FROM "Unit" u WHERE u."kitchenId" = k."kitchenId" AND u."archivedAt" IS NULL);
  INSERT INTO "KitchenFouling" SELECT * FROM kitchen_fouling(ids)
  ON CONFLICT ("kitchenId") DO UPDATE SET rate = excluded.rate, sd = excluded.sd, units = excluded.units, evidence = excluded.evidence, unseen = excluded.unseen, water = excluded.water;
END $$;

CREATE FUNCTION kitchen_fouling_of_beliefs() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM keep_kitchen_fouling((SELECT array_agg(DISTINCT u."kitchenId") FROM changed c JOIN "Unit" u ON u.id = c."unitId"));
  RETURN NULL;
END $$;
CREATE FUNCTION kitchen_fouling_of_units() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM keep_kitchen_fouling((SELECT array_agg(DISTINCT c."kitchenId") FROM changed c));
  RETURN NULL;
END $$;
CREATE FUNCTION kitchen_fouling_of_changed_units() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM keep_kitchen_fouling((
    SELECT array_agg(DISTINCT k) FROM former o JOIN changed c ON c.id = o.id CROSS JOIN LATERAL unnest(ARRAY[o."kitchenId", c."kitchenId"]) AS k
    WHERE (o."kitchenId", o."archivedAt", o."condenserKind") IS DISTINCT FROM (c."kitchenId", c."archivedAt", c."condenserKind")));
  RETURN NULL;
END $$;
CREATE TRIGGER kitchen_fouling_made AFTER INSERT ON "UnitFouling" REFERENCING NEW TABLE AS changed FOR EACH STATEMENT EXECUTE FUNCTION kitchen_fouling_of_beliefs();
CREATE TRIGGER kitchen_fouling_changed AFTER UPDATE ON "UnitFouling" REFERENCING NEW TABLE AS changed FOR EACH STATEMENT EXECUTE FUNCTION kitchen_fouling_of_beliefs();
CREATE TRIGGER kitchen_fouling_gone AFTER DELETE ON "UnitFouling" REFERENCING OLD TABLE AS changed FOR EACH STATEMENT EXECUTE FUNCTION kitchen_fouling_of_beliefs();
CREATE TRIGGER kitchen_fouling_made AFTER INSERT ON "Unit" REFERENCING NEW TABLE AS changed FOR EACH STATEMENT EXECUTE FUNCTION kitchen_fouling_of_units();
CREATE TRIGGER kitchen_fouling_changed AFTER UPDATE ON "Unit" REFERENCING OLD TABLE AS former NEW TABLE AS changed FOR EACH STATEMENT EXECUTE FUNCTION kitchen_fouling_of_changed_units();
CREATE TRIGGER kitchen_fouling_gone AFTER DELETE ON "Unit" REFERENCING OLD TABLE AS changed FOR EACH STATEMENT EXECUTE FUNCTION kitchen_fouling_of_units();

INSERT INTO "UnitMatter" SELECT m.* FROM unit_matters((SELECT array_agg(id) FROM "Unit")) m;
INSERT INTO "KitchenFouling" SELECT * FROM kitchen_fouling((SELECT array_agg(id) FROM "Kitchen"));
