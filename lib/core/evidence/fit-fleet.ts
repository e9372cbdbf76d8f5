import {
  DEFAULT_HYPER, defaultFailurePrior, failurePosterior, fitFailurePrior, fitHyper, learnHumidity,
  type FailurePosterior, type FleetUnit, type WatchedPart,
} from '../fouling'; // prettier-ignore
import { FAILURE_ASPECTS, type FailureAspect } from '../findings/grades';
import type { FleetBelief } from './beliefs';
import { exposureOf, groupKey } from './beliefs';
import { evidenceOf, type UnitEvidence, type UnitFile } from './unit-file';
import { groupBy } from '../numerics/group-by';

const watched = (file: UnitFile, evidence: UnitEvidence, aspect: FailureAspect): WatchedPart => {
  const group = { aspect, kind: file.unit.kind };
  const looks = evidence.looks.filter((l) => l.aspect === aspect);
  return { group, startedOn: evidence.history.startedOn, looks, prior: defaultFailurePrior(group) };
};

/** How coils foul by what they breathe. `label` tells this fit from others, a date for instance. Rests on what is on file of the coils alone. */
export function fitCoils(files: readonly UnitFile[], label: string): FleetBelief['fouling'] {
  const units: FleetUnit[] = files.map((file) => ({ history: evidenceOf(file).history, exposure: exposureOf(file) }));
  return fitHyper(units, DEFAULT_HYPER, label);
}

/** How often drains and ice fail by kind of box. */
export function fitFailures(files: readonly UnitFile[]): FleetBelief['failures'] {
  const parts = files.flatMap((file) => {
    const evidence = evidenceOf(file);
    return FAILURE_ASPECTS.map((aspect) => watched(file, evidence, aspect));
  });
  const looks = [...groupBy(parts, (p) => p.group.aspect).values()].flatMap((list) => {
    const season = learnHumidity(list);
    return list.map((p) => failurePosterior(p.group, p.startedOn, p.looks, season ? { ...p.prior, season } : p.prior));
  });
  const failures = [...groupBy(looks, (p) => groupKey(p.group))].map(([key, list]) => {
    const first = list[0] as FailurePosterior;
    return [key, fitFailurePrior(list, first.prior)] as const;
  });
  return Object.fromEntries(failures);
}

/** What the whole fleet teaches, of coils and of what else fails. A fleet without evidence gives back the room's own priors. */
export const fitFleet = (files: readonly UnitFile[], label: string): FleetBelief => ({
  fouling: fitCoils(files, label),
  failures: fitFailures(files),
});
