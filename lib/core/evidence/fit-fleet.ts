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

/**
 * What the whole fleet teaches: how coils foul by what they breathe, and how often drains and ice fail by kind of box.
 * `label` tells this fit from others, a date for instance. A fleet without evidence gives back the room's own priors.
 */
export function fitFleet(files: readonly UnitFile[], label: string): FleetBelief {
  const units: FleetUnit[] = [];
  const parts: WatchedPart[] = [];
  for (const file of files) {
    const evidence = evidenceOf(file);
    units.push({ history: evidence.history, exposure: exposureOf(file) });
    for (const aspect of FAILURE_ASPECTS) parts.push(watched(file, evidence, aspect));
  }
  const looks = [...groupBy(parts, (p) => p.group.aspect).values()].flatMap((list) => {
    const season = learnHumidity(list);
    return list.map((p) => failurePosterior(p.group, p.startedOn, p.looks, season ? { ...p.prior, season } : p.prior));
  });
  const failures = [...groupBy(looks, (p) => groupKey(p.group))].map(([key, list]) => {
    const first = list[0] as FailurePosterior;
    return [key, fitFailurePrior(list, first.prior)] as const;
  });
  return { fouling: fitHyper(units, DEFAULT_HYPER, label), failures: Object.fromEntries(failures) };
}
