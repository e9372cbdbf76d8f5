import 'server-only';
import type { LocalDate } from '../../../core/calendar';
import type { CauseId, Figure, Verdict } from '../../../core/condenser';
import type { UnitEventKind } from '../../../core/entries/entries';
import type { FindingFact, ReadingFact } from '../../../core/evidence';
import type { Aspect } from '../../../core/findings/grades';
import { FAILURE_ASPECTS } from '../../../core/findings/grades';
import { fanDead, seenAt } from '../../../core/findings/seen';
import type { TripCause } from '../../../core/findings/trip-causes';
import { COIL_CLEANING } from '../../../core/tasks';
import { Prisma, type Tx } from '../../../database/client';

/** A cleaning before our first visit, known from when the unit was put on file. */
export const CLEANED_BEFORE = 'coil_cleaned_before';

/** Parts of one statement about the units `asked`: a row each, put together by the database, for a fleet has millions of findings. */

export const asked = (unitIds: readonly string[]) => Prisma.sql`
  asked AS MATERIALIZED (
    SELECT u.id, u."kitchenId", k."timeZone" AS zone FROM "Unit" u JOIN "Kitchen" k ON k.id = u."kitchenId" WHERE u.id = ANY(${[...unitIds]}::uuid[]))`;

/** What counts of a unit's findings, as the index `finding_looks` holds them. */
const ITS_LOOKS = Prisma.sql`f."unitId" = a.id AND f."supersededAt" IS NULL AND f.grade IS NOT NULL`;

/** Unit by unit (that is what OFFSET 0 is for): left to itself the database goes through every finding of the shop for a few hundred units. */
const found = (aspects?: readonly Aspect[]) => Prisma.sql`
  found AS MATERIALIZED (
    SELECT f.*, a.zone FROM asked a CROSS JOIN LATERAL (
      SELECT f."unitId", f."visitId", f.at, f.id, f.aspect, f.grade, f.phase, f."byUserId" FROM "Finding" f
      WHERE ${ITS_LOOKS}
        ${aspects ? Prisma.sql`AND f.aspect = ANY(${[...aspects]}::"Aspect"[])` : Prisma.empty} OFFSET 0) f)`;

/** Visits at which anything was looked at that may fail. */
const LOOKED = Prisma.sql`
  looked AS MATERIALIZED (
    SELECT a.id AS "unitId", a.zone, f."visitId" FROM asked a CROSS JOIN LATERAL (
      SELECT DISTINCT f."visitId" FROM "Finding" f
      WHERE ${ITS_LOOKS} AND f.phase = 'found' AND f.aspect = ANY(${[...FAILURE_ASPECTS]}::"Aspect"[]) OFFSET 0) f)`;

/** A circuit that was opened and charged is another machine: what was read before says nothing of it. */
const read = (withoutReadings?: string) => Prisma.sql`
  charged AS (
    SELECT s."unitId", max(s.at) AS at FROM asked a JOIN "SealedStep" s ON s."unitId" = a.id
    WHERE s.step = 'charge' AND s."skippedWhy" = '' AND s."supersededAt" IS NULL GROUP BY s."unitId"),
  current AS MATERIALIZED (
    SELECT r.* FROM asked a CROSS JOIN LATERAL (
      SELECT r.id, r."visitId", r.phase FROM "Reading" r
      WHERE r."unitId" = a.id AND r."supersededAt" IS NULL ${withoutReadings ? Prisma.sql`AND r."visitId" IS DISTINCT FROM ${withoutReadings}::uuid` : Prisma.empty} OFFSET 0) r),
  read AS MATERIALIZED (
    SELECT e."unitId", a.zone, r."visitId", e.at, e.id, r.phase, e.verdict, e.rise, e.leading
    FROM asked a LEFT JOIN charged c ON c."unitId" = a.id CROSS JOIN LATERAL (
      SELECT e."unitId", e."readingId", e.at, e.id, e.verdict, e.rise, e.leading FROM "Estimate" e
      WHERE e."unitId" = a.id AND e.at >= coalesce(c.at, '-infinity') OFFSET 0) e JOIN current r ON r.id = e."readingId")`;

/** From its one task of that kind: a fifth of all that was ever done to it. */
const DONE = Prisma.sql`
  done AS MATERIALIZED (
    SELECT t."unitId", a.zone, vt."visitId" FROM asked a JOIN "Task" t ON t."unitId" = a.id AND t."kindKey" = ${COIL_CLEANING}
    JOIN "VisitTask" vt ON vt."taskId" = t.id AND vt.outcome = 'done')`;

/**
 * The visits of all that, each looked up once: whether it counts (one that is not closed yet does where it is the one asked about), and
 * the day the technician came, in the kitchen's own zone.
 */
const came = (withVisit?: string, coilOnly?: boolean) => Prisma.sql`
  came AS MATERIALIZED (
    SELECT v.id, p.zone, (coalesce(v."arrivedAt", v."startsAt") AT TIME ZONE p.zone)::date AS day,
      ${withVisit ? Prisma.sql`(v.status = 'done' OR v.id = ${withVisit}::uuid)` : Prisma.sql`v.status = 'done'`} AS counts
    FROM (SELECT "visitId", zone FROM found ${coilOnly ? Prisma.sql`UNION SELECT "visitId", zone FROM looked` : Prisma.empty} UNION SELECT "visitId", zone FROM read UNION SELECT "visitId", zone FROM done) p
    CROSS JOIN LATERAL (SELECT v.id, v.status, v."arrivedAt", v."startsAt" FROM "Visit" v WHERE v.id = p."visitId" OFFSET 0) v)`;

export type EstimateFact = Pick<ReadingFact, 'at' | 'on' | 'phase'> & {
  verdict: Verdict;
  rise: Figure | null;
  leading: CauseId | null;
  fan: Pick<FindingFact, 'aspect' | 'grade' | 'phase'>[] | null;
};

/** Of each estimate what learning needs. */
const FACTS = Prisma.sql`
  fans AS (
    SELECT f."unitId", f."visitId", json_agg(json_build_object('aspect', f.aspect, 'grade', f.grade, 'phase', f.phase) ORDER BY f.at, f.id) AS fan
    FROM found f JOIN came c ON c.id = f."visitId" AND c.zone = f.zone WHERE c.counts AND f.aspect = 'condenser_fan' GROUP BY f."unitId", f."visitId"),
  facts AS (
    SELECT r."unitId", json_agg(json_build_object('at', (extract(epoch FROM r.at) * 1000)::float8, 'on', coalesce(c.day, (r.at AT TIME ZONE r.zone)::date),
      'phase', r.phase, 'verdict', r.verdict, 'rise', r.rise, 'leading', r.leading, 'fan', x.fan) ORDER BY r.at, r.id) AS facts
    FROM read r LEFT JOIN came c ON c.id = r."visitId" AND c.zone = r.zone LEFT JOIN fans x ON x."unitId" = r."unitId" AND x."visitId" = r."visitId"
    GROUP BY r."unitId")`;

export const readingFactOf = ({ rise, fan, ...f }: EstimateFact): ReadingFact => ({
  ...f,
  designRiseK: rise,
  fanFailed: fanDead(seenAt(fan ?? [], f.phase)),
});

/** Days on which its coil was cleaned, each once. */
const CLEANINGS = Prisma.sql`
  cleaned AS (
    SELECT d."unitId", c.day FROM done d JOIN came c ON c.id = d."visitId" AND c.zone = d.zone WHERE c.counts
    UNION SELECT a.id, (e.at AT TIME ZONE a.zone)::date FROM asked a JOIN "UnitEvent" e ON e."unitId" = a.id AND e.kind = ${CLEANED_BEFORE}::"UnitEventKind"
    UNION SELECT a.id, t."lastDoneOn" FROM asked a JOIN "Task" t ON t."unitId" = a.id AND t."kindKey" = ${COIL_CLEANING} WHERE t."lastDoneOn" IS NOT NULL),
  cleanings AS (SELECT "unitId", json_agg(day ORDER BY day) AS days FROM cleaned GROUP BY "unitId")`;

/** Facts and cleanings alone, as `facts` and `cleanings`, of the units `asked`. */
export const FACTS_AND_CLEANINGS = Prisma.join([found(['condenser_fan']), read(), DONE, came(), FACTS, CLEANINGS]);

/** As a list: the names of a finding's parts would be most of what is sent. */
const FINDING = Prisma.sql`json_build_array(c.day, f.aspect, f.grade, f.phase, f."byUserId")`;
type FindingRow = [FindingFact['on'], FindingFact['aspect'], grade: string, FindingFact['phase'], by: string | null];
const findingOf = ([on, aspect, grade, phase, by]: FindingRow): FindingFact => ({
  on,
  aspect,
  grade,
  phase,
  ...(by === null ? {} : { by }),
});

const FINDINGS = Prisma.sql`
  findings AS (
    SELECT f."unitId", json_agg(${FINDING} ORDER BY f.at, f.id) AS list
    FROM found f JOIN came c ON c.id = f."visitId" AND c.zone = f.zone WHERE c.counts GROUP BY f."unitId")`;

/** What is told of a coil, and the oldest look at anything: with that a record begins, also where it was not at the coil. */
const COIL_ASPECTS = ['coil', 'condenser_fan'] as const;
const STARTS = Prisma.sql`
  starts AS (
    SELECT l."unitId", min(c.day) AS "from" FROM looked l JOIN came c ON c.id = l."visitId" AND c.zone = l.zone WHERE c.counts GROUP BY l."unitId")`;

const EVENTS = Prisma.sql`
  SELECT json_agg(json_build_object('on', (e.at AT TIME ZONE a.zone)::date, 'kind', e.kind, 'cause', e.cause) ORDER BY e.at, e.id)
  FROM "UnitEvent" e WHERE e."unitId" = a.id AND e.kind IN ('high_pressure_trip', 'washed_through', 'fouls_more', 'fouls_less')`;

type UnitRecords = {
  cleanings: LocalDate[];
  findings: FindingFact[];
  /** Where only the coil is asked for: the oldest look at what else may fail. */ lookedFrom: LocalDate | null;
  facts: EstimateFact[];
  events: { on: LocalDate; kind: UnitEventKind; cause: TripCause | null }[];
};

type Row = { [K in 'cleanings' | 'facts' | 'events']: UnitRecords[K] | null } & {
  id: string;
  list: FindingRow[] | null;
  from: LocalDate | null;
};

export type RecordsAsked = { withVisit?: string; withoutReadings?: string; coilOnly?: boolean };

/** What lies on file about each unit, in one statement: of closed visits, without superseded entries. */
export async function recordsOf(
  db: Tx,
  unitIds: readonly string[],
  { withVisit, withoutReadings, coilOnly }: RecordsAsked,
): Promise<Map<string, UnitRecords>> {
  const looks = coilOnly ? [found(COIL_ASPECTS), LOOKED] : [found()];
  const parts = [asked(unitIds), ...looks, read(withoutReadings), DONE, came(withVisit, coilOnly), FACTS, CLEANINGS, FINDINGS];
  const rows = await db.$queryRaw<Row[]>(Prisma.sql`
    WITH ${Prisma.join(coilOnly ? [...parts, STARTS] : parts)}
    SELECT a.id, cleanings.days AS cleanings, findings.list, ${coilOnly ? Prisma.sql`starts."from"::text` : Prisma.sql`NULL`} AS "from", facts.facts, (${EVENTS}) AS events
    FROM asked a LEFT JOIN cleanings ON cleanings."unitId" = a.id LEFT JOIN findings ON findings."unitId" = a.id LEFT JOIN facts ON facts."unitId" = a.id
      ${coilOnly ? Prisma.sql`LEFT JOIN starts ON starts."unitId" = a.id` : Prisma.empty}`);
  return new Map(
    rows.map(({ id, cleanings, list, from, facts, events }) => [
      id,
      {
        cleanings: cleanings ?? [],
        findings: list?.map(findingOf) ?? [],
        lookedFrom: coilOnly ? from : null,
        facts: facts ?? [],
        events: events ?? [],
      },
    ]),
  );
}
