import {
  failurePosterior, beforeKitchen, kitchenWord, defaultFailurePrior,
  type FailureGroup, type FailurePosterior, type FailurePrior, type FoulingPosterior, type Hyper,
} from '../fouling'; // prettier-ignore
import { FAILURE_ASPECTS, type FailureAspect } from '../findings/grades';
import { evidenceOf, type UnitEvidence, type UnitFile } from './unit-file';

/** What the fleet as a whole has taught: of coils, and of drains and ice by kind of box. */
export type FleetBelief = { fouling: Hyper; failures: Record<string, FailurePrior> };

export const groupKey = ({ aspect, kind }: FailureGroup): string => `${aspect}/${kind}`;

export type CoilBelief = { file: UnitFile; evidence: UnitEvidence; fouling: FoulingPosterior };
export type UnitBelief = CoilBelief & { failures: Record<FailureAspect, FailurePosterior> };

export const exposureOf = (file: UnitFile) => ({ placement: file.unit.placement, kitchenId: file.kitchenId });

function failureOf(file: UnitFile, evidence: UnitEvidence, aspect: FailureAspect, fleet: FleetBelief): FailurePosterior {
  const group: FailureGroup = { aspect, kind: file.unit.kind };
  const prior = fleet.failures[groupKey(group)] ?? defaultFailurePrior(group);
  return failurePosterior(
    group,
    evidence.history.startedOn,
    evidence.looks.filter((l) => l.aspect === aspect),
    prior,
  );
}

/** Every aspect that fails unseen. */
export const failuresOf = (file: UnitFile, evidence: UnitEvidence, fleet: FleetBelief) =>
  Object.fromEntries(FAILURE_ASPECTS.map((a) => [a, failureOf(file, evidence, a, fleet)])) as Record<FailureAspect, FailurePosterior>;

/**
 * Beliefs about the units of one kitchen, each informed by the others. `neighbourPosteriors` are those of neighbours whose
 * files have not changed and need not be gone through again.
 */
export const kitchenBeliefs = (
  files: readonly UnitFile[],
  fleet: FleetBelief,
  neighbourPosteriors: ReadonlyMap<string, Pick<FoulingPosterior, 'message'>> = new Map(),
): UnitBelief[] => coilBeliefs(files, fleet, neighbourPosteriors).map((b) => ({ ...b, failures: failuresOf(b.file, b.evidence, fleet) }));

/** The same of their coils alone. */
export function coilBeliefs(
  files: readonly UnitFile[],
  fleet: FleetBelief,
  neighbourPosteriors: ReadonlyMap<string, Pick<FoulingPosterior, 'message'>> = new Map(),
): CoilBelief[] {
  const alone = files.map((file) => {
    const evidence = evidenceOf(file);
    return { file, evidence, own: beforeKitchen(evidence.history, exposureOf(file), fleet.fouling) };
  });
  const neighbours = [...neighbourPosteriors].filter(([id]) => !files.some((f) => f.unitId === id)).map(([, p]) => p);
  return alone.map(({ file, evidence, own }, i) => ({
    file,
    evidence,
    fouling: own.whole(kitchenWord([...neighbours, ...alone.filter((_, j) => j !== i).map((a) => a.own)])),
  }));
}
