import type { UnitKind } from '../../../lib/core/equipment/build';
import type { RandomStream } from '../../../lib/core/numerics/random';
import { psiToPascal } from '../../../lib/core/measures';
import type { UnitSeed } from './kitchens';

/** What a unit of a kind usually holds, drawn from its own stream. */

type Choice = { refrigerant: string; share: number };
type Usual = { medium: Choice[]; low: Choice[]; chargeKg: Record<string, number>; expansion: 'capillary' | 'valve'; ports: number };

const mix = (...pairs: [string, number][]): Choice[] => pairs.map(([refrigerant, share]) => ({ refrigerant, share }));
const SMALL: Usual = {
  medium: mix(['R290', 0.5], ['R134a', 0.32], ['R513A', 0.08], ['R600a', 0.1]),
  low: mix(['R290', 0.5], ['R404A', 0.4], ['R452A', 0.1]),
  chargeKg: { R290: 0.11, R600a: 0.075, R134a: 0.32, R513A: 0.33, R404A: 0.42, R452A: 0.44 },
  expansion: 'capillary',
  ports: 0.25,
};
const WALK_IN: Usual = {
  medium: mix(['R448A', 0.45], ['R404A', 0.35], ['R134a', 0.2]),
  low: mix(['R404A', 0.5], ['R448A', 0.3], ['R449A', 0.2]),
  chargeKg: { R448A: 3.4, R404A: 3.2, R134a: 2.8, R449A: 3.4 },
  expansion: 'valve',
  ports: 1,
};
const ICE: Usual = {
  medium: mix(['R404A', 0.6], ['R290', 0.4]),
  low: mix(['R404A', 1]),
  chargeKg: { R404A: 0.75, R290: 0.14 },
  expansion: 'valve',
  ports: 0.7,
};
const REMOTE: Usual = {
  medium: mix(['R448A', 0.5], ['R404A', 0.3], ['R407A', 0.2]),
  low: mix(['R404A', 1]),
  chargeKg: { R448A: 7.5, R404A: 7.1, R407A: 7.3 },
  expansion: 'valve',
  ports: 1,
};
const USUAL: Record<UnitKind, Usual> = {
  reach_in: SMALL,
  undercounter: SMALL,
  drawer_base: SMALL,
  prep_table: SMALL,
  display: SMALL,
  walk_in_cooler: WALK_IN,
  walk_in_freezer: WALK_IN,
  ice_machine: ICE,
  remote_condensing_unit: REMOTE,
};

/** High-pressure cut-outs, psig: common practice, from memory; the nameplate rules. */
const CUTOUT_PSIG: Record<string, number> = {
  R134a: 250,
  R513A: 260,
  R290: 325,
  R404A: 425,
  R448A: 425,
  R449A: 425,
  R452A: 425,
  R407A: 400,
};

const MAKES = ['Norrhold', 'Kestrel Cold', 'Halden', 'Brightmoor', 'Ostrava Works', 'Polder & Sons'] as const;

function chosen(random: RandomStream, choices: readonly Choice[]): string {
  let at = random.next();
  for (const c of choices) if ((at -= c.share) < 0) return c.refrigerant;
  return (choices[0] as Choice).refrigerant;
}

function boxSetK(kind: UnitKind, low: boolean): number {
  if (kind === 'ice_machine') return 272.15;
  if (low) return 253.15;
  return kind === 'walk_in_cooler' || kind === 'remote_condensing_unit' ? 275.4 : 276.5;
}

/** A unit's own data; whoever wants it placed adds kitchen, tag and name. */
export function unitDetails([kind, placement, , low]: UnitSeed, random: RandomStream) {
  const usual = USUAL[kind];
  const refrigerant = chosen(random, low ? usual.low : usual.medium);
  const ports = random.chance(usual.ports) && refrigerant !== 'R290' && refrigerant !== 'R600a';
  const cutout = CUTOUT_PSIG[refrigerant];
  const fitted = kind === 'walk_in_cooler' || kind === 'walk_in_freezer' || kind === 'remote_condensing_unit' || random.chance(0.5);
  const make = random.pick(MAKES);
  return {
    kind,
    make,
    model: `${make.slice(0, 2).toUpperCase()}-${random.whole(12, 89)}${low ? 'F' : 'C'}`,
    serial: String(random.whole(10_000_000, 99_999_999)),
    refrigerant,
    chargeKg: Number(((usual.chargeKg[refrigerant] as number) * random.between(0.9, 1.12)).toFixed(3)),
    application: low ? 'low' : 'medium',
    expansion: usual.expansion,
    circuitAccess: ports ? 'ports' : 'sealed',
    condenserKind: kind === 'undercounter' && random.chance(0.15) ? 'microchannel' : 'fin_and_tube',
    placement,
    cutoutPaGauge: cutout !== undefined && fitted ? psiToPascal(cutout) : null,
    boxSetK: boxSetK(kind, low === 'low'),
    // Plug-in units have none; of walk-ins nobody wrote it down.
    headControl: kind === 'remote_condensing_unit' ? true : kind === 'walk_in_cooler' || kind === 'walk_in_freezer' ? null : false,
    roofWork: kind === 'remote_condensing_unit',
  } as const;
}
