import { DEFAULT_HYPER, defaultFailurePrior, fitFailurePrior, fitHyper, type FailurePosterior, type FleetUnit } from '../fouling';
import type { FleetBelief } from './beliefs';
import { exposureOf, failuresOf, groupKey } from './beliefs';
import { evidenceOf, type UnitFile } from './unit-file';
import { groupBy } from '../numerics/group-by';

/**
 * What the whole fleet teaches: how coils foul by what they breathe, and how often drains and ice fail by kind of box.
 * `label` tells this fit from others, a date for instance. A fleet without evidence gives back the room's own priors.
 */
export function fitFleet(files: readonly UnitFile[], label: string): FleetBelief {
  const units: FleetUnit[] = [];
  const looks: FailurePosterior[] = [];
  const none: FleetBelief = { fouling: DEFAULT_HYPER, failures: {} };
  for (const file of files) {
    const evidence = evidenceOf(file);
    units.push({ history: evidence.history, exposure: exposureOf(file) });
    looks.push(...Object.values(failuresOf(file, evidence, none)));
  }
  const failures = [...groupBy(looks, (p) => groupKey(p.group))].map(([key, list]) => {
    const first = list[0] as FailurePosterior;
    return [key, fitFailurePrior(list, defaultFailurePrior(first.group))] as const;
  });
  return { fouling: fitHyper(units, DEFAULT_HYPER, label), failures: Object.fromEntries(failures) };
}
