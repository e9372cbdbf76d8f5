import { SEALED_STEPS, type SealedStep } from './steps';
import type { OpenRecord, SealedStepEntry, SealedWork, WorkOf } from './work';

/** Where a repair record stands. */
export type RecordState = {
  /** Null before the first step. */
  recordId: string | null;
  steps: ReadonlyMap<SealedStep, SealedStepEntry>;
  /** The first that was neither done nor left out; null once all were. */
  next: SealedStep | null;
};

/** The standing steps of the visit at hand, with those of an earlier visit under them. */
export function recordState(here: readonly SealedStepEntry[], before: OpenRecord | null): RecordState {
  const recordId = here.at(-1)?.recordId ?? before?.recordId ?? null;
  const steps = new Map<SealedStep, SealedStepEntry>();
  for (const s of [...(before?.steps ?? []), ...here]) if (s.recordId === recordId) steps.set(s.step, s);
  return { recordId, steps, next: SEALED_STEPS.find((s) => !steps.has(s)) ?? null };
}

/** What was done at a step; null where it was left out or not reached. */
export function workOf<S extends SealedStep>(state: Pick<RecordState, 'steps'>, step: S): WorkOf<S> | null {
  const work = state.steps.get(step)?.work ?? null;
  return isOf(work, step) ? work : null;
}

const isOf = <S extends SealedStep>(work: SealedWork | null, step: S): work is WorkOf<S> => work?.step === step;

/** What the weighing of a step did to its cylinder, kg into it; null where the step weighs nothing. */
export function weighedKg(work: SealedWork | null): { way: 'charged' | 'recovered'; kg: number } | null {
  if (work?.step !== 'recover' && work?.step !== 'charge') return null;
  const kg = work.endKg - work.startKg;
  return kg === 0 ? null : { way: work.step === 'charge' ? 'charged' : 'recovered', kg };
}
