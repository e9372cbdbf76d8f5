import 'server-only';
import type { LocalDate } from '../../../core/calendar';
import { baselineFrom, pastLosses } from '../../../core/evidence';
import { condenserUnitOf, type KitchenRecord, type UnitRecord } from '../../../core/condenser/from-record';
import { READING_FIELDS, type PastVisit, type UnitOnFile } from '../../../core/tablet';
import { Prisma, type Tx } from '../../../database/client';
import { asked, FACTS_AND_CLEANINGS, readingFactOf, type EstimateFact } from '../../evidence/reads/unit-records';
import { iso } from './rows';

const LAST_VISITS = 3;
const MOST_THUMBS = 3;

type Row = {
  unitId: string;
  past: PastVisit[] | null;
  thumbs: UnitOnFile['thumbs'] | null;
  facts: EstimateFact[] | null;
  lastCleaned: LocalDate | null;
}; // prettier-ignore

export type OfUnit = Pick<UnitOnFile, 'past' | 'thumbs' | 'baseline' | 'pastLosses'>;
export const NOTHING_OF_UNIT: OfUnit = { past: [], thumbs: [], baseline: null, pastLosses: [] };

const VALUES = Prisma.join(READING_FIELDS.map((f) => Prisma.sql`${Prisma.raw(`'${f}', r."${f}"`)}`));

/**
 * The last finished visits that left something about a unit `u`, newest first. From the kitchen's latest visits, which the index
 * holds in order: gone through from the unit's own entries, all there ever were would be read. Entries of one moment come in one
 * order always: what a tablet holds is compared with this.
 */
const PAST = Prisma.sql`
  SELECT json_agg(json_build_object('visitId', v.id, 'at', v."startsAt", 'by', v.name,
    'findings', coalesce((
      SELECT json_agg(json_build_object('aspect', f.aspect, 'phase', f.phase, 'grade', f.grade, 'notLookedWhy', f."notLookedWhy") ORDER BY f.at, f.id)
      FROM "Finding" f WHERE f."visitId" = v.id AND f."unitId" = u.id AND f."supersededAt" IS NULL), '[]'),
    'readings', coalesce((
      SELECT json_agg(json_build_object('phase', r.phase, 'values', json_strip_nulls(json_build_object(${VALUES})), 'verdict', e.verdict,
        'sentence', coalesce(e.sentence, '')) ORDER BY r.at, r.id)
      FROM "Reading" r LEFT JOIN "Estimate" e ON e."readingId" = r.id WHERE r."visitId" = v.id AND r."unitId" = u.id AND r."supersededAt" IS NULL), '[]')
  ) ORDER BY v."startsAt" DESC, v.id)
  FROM (
    SELECT v.id, v."startsAt", p.name FROM "Visit" v JOIN "User" p ON p.id = v."technicianId"
    WHERE v."kitchenId" = u."kitchenId" AND v.status = 'done'
      AND (EXISTS (SELECT 1 FROM "Finding" x WHERE x."visitId" = v.id AND x."unitId" = u.id) OR EXISTS (SELECT 1 FROM "Reading" x WHERE x."visitId" = v.id AND x."unitId" = u.id))
    ORDER BY v."startsAt" DESC, v.id LIMIT ${LAST_VISITS}
  ) v`;

const THUMBS = Prisma.sql`
  SELECT json_agg(json_build_object('fileId', p."fileId", 'takenAt', p."takenAt", 'aspect', p.aspect, 'phase', p.phase) ORDER BY p."takenAt" DESC, p.id)
  FROM (SELECT * FROM "Photo" WHERE "unitId" = u.id AND "fileId" IS NOT NULL ORDER BY "takenAt" DESC, id LIMIT ${MOST_THUMBS}) p`;

type Unit = UnitRecord & { id: string; archivedAt: Date | null; kitchen: KitchenRecord };

/**
 * What a tablet holds of each unit's past: its last visits and pictures, its clean baseline and its losses since the last cleaning.
 * The tablet's estimate rests on what the office's does (`unitFiles`, which a test holds this against). One statement for them all.
 */
export async function pastOfUnits(db: Tx, units: readonly Unit[]): Promise<Map<string, OfUnit>> {
  const rows = await db.$queryRaw<Row[]>(Prisma.sql`
    WITH ${asked(units.map((u) => u.id))}, ${FACTS_AND_CLEANINGS}
    SELECT u.id AS "unitId", (${PAST}) AS past, (${THUMBS}) AS thumbs, facts.facts, cleanings.days ->> -1 AS "lastCleaned"
    FROM asked u LEFT JOIN facts ON facts."unitId" = u.id LEFT JOIN cleanings ON cleanings."unitId" = u.id`);
  const byId = new Map(units.map((u) => [u.id, u]));
  return new Map(
    rows.map(({ unitId, past, thumbs, facts, lastCleaned }) => {
      const unit = byId.get(unitId);
      return [
        unitId,
        {
          past: (past ?? []).map((v) => ({ ...v, at: iso(new Date(v.at)) })),
          thumbs: (thumbs ?? []).map((t) => ({ ...t, takenAt: iso(new Date(t.takenAt)) })),
          ...(unit && unit.archivedAt === null ? believed(unit, facts ?? [], lastCleaned) : { baseline: null, pastLosses: [] }),
        },
      ];
    }),
  );
}

function believed(unit: Unit, facts: readonly EstimateFact[], lastCleaned: LocalDate | null) {
  const read = facts.map(readingFactOf);
  const baseline = baselineFrom(condenserUnitOf(unit, unit.kitchen), read);
  return { baseline, pastLosses: pastLosses(read, baseline, lastCleaned, Infinity) };
}
