import 'server-only';
import type { LocalDate } from '../../../core/calendar';
import type { CauseId, Figure, Verdict } from '../../../core/condenser';
import type { UnitEventKind } from '../../../core/entries/entries';
import type { FindingFact, ReadingFact } from '../../../core/evidence';
import { FAILURE_ASPECTS } from '../../../core/findings/grades';
import { fanDead, seenAt } from '../../../core/findings/seen';
import type { TripCause } from '../../../core/findings/trip-causes';
import { COIL_CLEANING } from '../../../core/tasks';
import { Prisma, type Tx } from '../../../database/client';

/** A cleaning before our first visit, known from when the unit was put on file. */
export const CLEANED_BEFORE = 'coil_cleaned_before';

/** Parts of a statement about a unit `u` in its kitchen `k`; a row each, put together by the database: a fleet has millions of findings. */

/** Of a visit `v`: the day the technician came, in the kitchen's own zone. */
const DAY = Prisma.sql`(coalesce(v."arrivedAt", v."startsAt") AT TIME ZONE k."timeZone")::date`;

/** Of a visit `v`: it counts. One that is not closed yet does where it is the one asked about. */
const counted = (withVisit?: string) =>
  withVisit ? Prisma.sql`(v.status = 'done' OR v.id = ${withVisit}::uuid)` : Prisma.sql`v.status = 'done'`;

export type EstimateFact = Pick<ReadingFact, 'at' | 'on' | 'phase'> & {
  verdict: Verdict;
  rise: Figure | null;
  leading: CauseId | null;
  fan: Pick<FindingFact, 'aspect' | 'grade' | 'phase'>[] | null;
};

/** Of each estimate what learning needs. A circuit that was opened and charged is another machine: what was read before says nothing of it. */
export const estimateFacts = (which: { withVisit?: string; withoutReadings?: string } = {}) => Prisma.sql`
  SELECT json_agg(json_build_object('at', (extract(epoch FROM e.at) * 1000)::float8, 'on', (coalesce(v."arrivedAt", v."startsAt", e.at) AT TIME ZONE k."timeZone")::date,
    'phase', r.phase, 'verdict', e.verdict, 'rise', e.rise, 'leading', e.leading, 'fan', (
      SELECT json_agg(json_build_object('aspect', f.aspect, 'grade', f.grade, 'phase', f.phase) ORDER BY f.at, f.id) FROM "Finding" f
      WHERE ${counted(which.withVisit)} AND f."visitId" = v.id AND f."unitId" = u.id AND f.aspect = 'condenser_fan' AND f.grade IS NOT NULL AND f."supersededAt" IS NULL)
  ) ORDER BY e.at, e.id)
  FROM "Estimate" e JOIN "Reading" r ON r.id = e."readingId" LEFT JOIN "Visit" v ON v.id = r."visitId"
  WHERE e."unitId" = u.id AND r."supersededAt" IS NULL ${which.withoutReadings ? Prisma.sql`AND r."visitId" IS DISTINCT FROM ${which.withoutReadings}::uuid` : Prisma.empty}
    AND e.at >= coalesce((SELECT max(s.at) FROM "SealedStep" s WHERE s."unitId" = u.id AND s.step = 'charge' AND s."skippedWhy" = '' AND s."supersededAt" IS NULL), '-infinity')`;

export const readingFactOf = ({ rise, fan, ...f }: EstimateFact): ReadingFact => ({
  ...f,
  designRiseK: rise,
  fanFailed: fanDead(seenAt(fan ?? [], f.phase)),
});

/** Days on which its coil was cleaned, each once. From its one task of that kind: a fifth of all that was ever done to it. */
export const cleaningDays = (withVisit?: string) => Prisma.sql`
  SELECT ${DAY} AS day FROM "VisitTask" vt JOIN "Visit" v ON v.id = vt."visitId" AND ${counted(withVisit)}
    JOIN "Task" t ON t.id = vt."taskId" AND t."kindKey" = ${COIL_CLEANING} WHERE t."unitId" = u.id AND vt.outcome = 'done'
  UNION SELECT (e.at AT TIME ZONE k."timeZone")::date FROM "UnitEvent" e WHERE e."unitId" = u.id AND e.kind = ${CLEANED_BEFORE}::"UnitEventKind"
  UNION SELECT t."lastDoneOn" FROM "Task" t WHERE t."unitId" = u.id AND t."kindKey" = ${COIL_CLEANING} AND t."lastDoneOn" IS NOT NULL`;

/** As a list: a fleet has millions of findings, and the names of their parts would be most of what is sent. */
const FINDING = Prisma.sql`json_build_array(${DAY}, f.aspect, f.grade, f.phase, f."byUserId")`;
type FindingRow = [FindingFact['on'], FindingFact['aspect'], grade: string, FindingFact['phase'], by: string | null];
const findingOf = ([on, aspect, grade, phase, by]: FindingRow): FindingFact => ({
  on,
  aspect,
  grade,
  phase,
  ...(by === null ? {} : { by }),
});

const findings = (withVisit?: string) => Prisma.sql`
  SELECT json_build_object('list', json_agg(${FINDING} ORDER BY f.at, f.id)) ${gradedFindings(withVisit)}`;

/** A record begins with its oldest look, also where that was not at the coil. */
const coilFindings = (withVisit?: string) => Prisma.sql`
  SELECT json_build_object('list', json_agg(${FINDING} ORDER BY f.at, f.id) FILTER (WHERE f.aspect IN ('coil', 'condenser_fan')),
    'from', min(${DAY}) FILTER (WHERE f.phase = 'found' AND f.aspect::text = ANY(${[...FAILURE_ASPECTS]}))) ${gradedFindings(withVisit)}`;

const gradedFindings = (withVisit?: string) => Prisma.sql`
  FROM "Finding" f JOIN "Visit" v ON v.id = f."visitId" WHERE f."unitId" = u.id AND f."supersededAt" IS NULL AND f.grade IS NOT NULL AND ${counted(withVisit)}`;

const EVENTS = Prisma.sql`
  SELECT json_agg(json_build_object('on', (e.at AT TIME ZONE k."timeZone")::date, 'kind', e.kind, 'cause', e.cause) ORDER BY e.at, e.id)
  FROM "UnitEvent" e WHERE e."unitId" = u.id AND e.kind IN ('high_pressure_trip', 'washed_through', 'fouls_more', 'fouls_less')`;

type UnitRecords = {
  cleanings: LocalDate[];
  findings: FindingFact[];
  /** Where only the coil is asked for: the oldest look at what else may fail. */ lookedFrom: LocalDate | null;
  facts: EstimateFact[];
  events: { on: LocalDate; kind: UnitEventKind; cause: TripCause | null }[];
};

type Row = { [K in 'cleanings' | 'facts' | 'events']: UnitRecords[K] | null } & {
  id: string;
  findings: { list: FindingRow[] | null; from?: LocalDate | null };
};

export type RecordsAsked = { withVisit?: string; withoutReadings?: string; coilOnly?: boolean };

/** What lies on file about each unit, in one statement: of closed visits, without superseded entries. */
export async function recordsOf(
  db: Tx,
  unitIds: readonly string[],
  { withVisit, withoutReadings, coilOnly }: RecordsAsked,
): Promise<Map<string, UnitRecords>> {
  const rows = await db.$queryRaw<Row[]>(Prisma.sql`
    SELECT u.id, (SELECT json_agg(c.day ORDER BY c.day) FROM (${cleaningDays(withVisit)}) c) AS cleanings,
      (${coilOnly ? coilFindings(withVisit) : findings(withVisit)}) AS findings, (${estimateFacts({ withVisit, withoutReadings })}) AS facts, (${EVENTS}) AS events
    FROM "Unit" u JOIN "Kitchen" k ON k.id = u."kitchenId" WHERE u.id = ANY(${[...unitIds]}::uuid[])`);
  return new Map(
    rows.map(({ id, cleanings, findings: { list, from }, facts, events }) => [
      id,
      {
        cleanings: cleanings ?? [],
        findings: list?.map(findingOf) ?? [],
        lookedFrom: from ?? null,
        facts: facts ?? [],
        events: events ?? [],
      },
    ]),
  );
}
