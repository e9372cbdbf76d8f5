import 'server-only';
import { toLocalDate } from '../../../core/calendar/date-column';
import { urgencySaid } from '../../../core/jobs';
import { STORED_QUESTIONED } from '../../../database/stored/records';
import { STORED_COMPRESSOR_MAP } from '../../../database/stored/shop';
import { unitValues } from '../../../core/equipment/unit-fields';
import { READING_FIELDS, type FindingEntry, type ReadingEntry, type ReadingValues, type UnitOnFile } from '../../../core/tablet';
import type { Prisma } from '../../../database/generated/client';

/** Database rows as the tablet holds them. Enumerations are text in the database and kept by the schemas at the door. */

export const iso = (d: Date) => d.toISOString();
const isoOrNull = (d: Date | null) => (d ? d.toISOString() : null);
export { isoOrNull };

type ReadingRow = Prisma.ReadingGetPayload<object>;

export function readingValues(r: ReadingRow): ReadingValues {
  const values: ReadingValues = {};
  for (const f of READING_FIELDS) if (r[f] !== null) values[f] = r[f];
  return values;
}

export const readingEntry = (r: ReadingRow): ReadingEntry => ({
  id: r.id,
  unitId: r.unitId,
  phase: r.phase as ReadingEntry['phase'],
  at: iso(r.at),
  values: readingValues(r),
  gaugeGrade: r.gaugeGrade,
  gaugeSpanPa: r.gaugeSpanPa,
  questioned: [...STORED_QUESTIONED.read(r.questioned)],
});

export const findingEntry = (f: Prisma.FindingGetPayload<object>): FindingEntry => ({
  id: f.id,
  unitId: f.unitId,
  aspect: f.aspect,
  phase: f.phase,
  grade: f.grade,
  notLookedWhy: f.notLookedWhy,
  note: f.note,
  at: iso(f.at),
});

export const OPEN_JOBS = {
  jobs: {
    where: { job: { closedAt: null } },
    orderBy: [{ job: { createdAt: 'asc' } }, { jobId: 'asc' }],
    select: { job: { select: { what: true, urgency: true, needsQuote: true } } },
  },
} as const satisfies Prisma.UnitInclude;
export const STANDING_TASKS = {
  tasks: { where: { active: true }, orderBy: [{ kind: { sort: 'asc' } }, { id: 'asc' }], include: { kind: true } },
} as const satisfies Prisma.UnitInclude;
export const OLD_DEPOSIT = { fouling: { select: { oldDeposit: true } } } as const satisfies Prisma.UnitInclude;
type UnitRow = Prisma.UnitGetPayload<{ include: typeof OPEN_JOBS & typeof STANDING_TASKS & typeof OLD_DEPOSIT }>;

export const unitOnFile = (
  u: UnitRow,
  more: Pick<UnitOnFile, 'past' | 'baseline' | 'pastLosses' | 'thumbs' | 'openSealed'>,
): UnitOnFile => ({
  id: u.id,
  ...unitValues(u),
  compressorMap: STORED_COMPRESSOR_MAP.readOrNull(u.compressorMap),
  tasks: u.tasks.map((t) => ({
    taskId: t.id,
    kindKey: t.kindKey,
    label: t.kind.label,
    minutes: t.kind.minutes,
    lowSide: t.kind.lowSide,
    dueOn: toLocalDate(t.dueOn),
  })),
  openFollowUps: u.jobs.map(({ job }) => ({ what: job.what, urgency: urgencySaid(job) })),
  oldDeposit: u.fouling?.oldDeposit ?? null,
  ...more,
});
