import 'server-only';
import { SEALED_STEPS, type OpenRecord, type SealedStepEntry } from '../../../core/sealed';
import type { Prisma } from '../../../database/generated/client';
import { STORED_SEALED_WORK } from '../../../database/stored/sealed';

type Row = Prisma.SealedStepGetPayload<object>;

export const sealedEntry = (s: Row): SealedStepEntry => ({
  id: s.id,
  recordId: s.recordId,
  unitId: s.unitId,
  step: s.step,
  work: STORED_SEALED_WORK.readOrNull(s.work),
  skippedWhy: s.skippedWhy,
  certificateId: s.certificateId,
  overruledBy: s.overruledBy,
  overruledWhy: s.overruledWhy,
  note: s.note,
  at: s.at.toISOString(),
});

const IN_TIME = [{ at: 'asc' }, { id: 'asc' }] as const;

/** Standing steps in the order they were made. */
export const STANDING_STEPS = {
  where: { supersededAt: null },
  orderBy: [...IN_TIME],
} satisfies Prisma.SealedRecord$stepsArgs & Prisma.Visit$sealedStepsArgs;
/** A unit's latest repair record. */
export const LATEST_RECORD = {
  orderBy: [{ begunAt: 'desc' }, { id: 'asc' }],
  take: 1,
  include: { steps: STANDING_STEPS },
} satisfies Prisma.Unit$sealedRecordsArgs;

/** A unit's latest repair record where it is not finished: its standing steps. */
export function openRecord([latest]: readonly { id: string; steps: readonly Row[] }[]): OpenRecord | null {
  return latest && latest.steps.length > 0 && latest.steps.length < SEALED_STEPS.length
    ? { recordId: latest.id, steps: latest.steps.map(sealedEntry) }
    : null;
}
