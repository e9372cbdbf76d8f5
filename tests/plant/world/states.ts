import { condensingConductance } from './condenser';
import { flowOf } from './fan';
import { lnPressureAt, sat } from './fluid';
import type { Chance } from './chance';
import { SOUND, type Faults, type Machine } from './machine';

/** What a machine may be found in. `foul15` to `foul50`: so much of the coil's conductance lost to dirt. */
export const STATES = [
  'clean', 'foul15', 'foul30', 'foul50', 'blocked', 'dead_fan', 'slow_fan', 'recirculation', 'gas', 'overcharge', 'low_charge',
  'restriction', 'iced', 'dirty_evaporator', 'dead_box_fan', 'leaking_valves', 'head_control', 'high_load', 'not_steady', 'bad_instrument',
] as const; // prettier-ignore
export type State = (typeof STATES)[number];

const FOULED: Partial<Record<State, number>> = { foul15: 0.15, foul30: 0.3, foul50: 0.5 };

/** Part of the condensing conductance that a state's dirt is meant to take; the solved machine says what it took. */
export const aimedLoss = (state: State): number => FOULED[state] ?? 0;

/** Dirt that takes the part `lost` of the coil's conductance, by a mixture of narrowed gaps, film and shut face. */
export function dirt(m: Machine, lost: number, c: Chance): Pick<Faults, 'open' | 'resistance' | 'film'> {
  const mix = { open: c.between(0, 0.35), resistance: c.between(1, 7), film: c.between(0, 0.5) };
  const at = (z: number) => ({ open: 1 - mix.open * Math.min(1, z), resistance: 1 + mix.resistance * z * (1 + z), film: mix.film * z });
  const kept = (z: number) => {
    const d = at(z);
    const air = { inK: 300, flow: flowOf(m.fan, 1, d.resistance), open: d.open, filmR: d.film * m.coil.airR };
    return condensingConductance(m.coil, air);
  };
  const clean = kept(0);
  let lo = 0;
  let hi = 12;
  for (let i = 0; i < 40; i++) {
    const z = (lo + hi) / 2;
    if (kept(z) > (1 - lost) * clean) lo = z;
    else hi = z;
  }
  return at((lo + hi) / 2);
}

/** A machine's faults in a state; severities drawn from mild to plain. */
export function faultsOf(state: State, m: Machine, c: Chance): Faults {
  const f = m.fluid;
  const traces = dirt(m, c.between(0, 0.05), c);
  const lost = aimedLoss(state);
  const coil = lost > 0 ? dirt(m, lost * c.between(0.85, 1.15), c) : traces;
  const base: Faults = { ...SOUND, ...coil };
  const headPa = Math.exp(lnPressureAt(f, f.dewK, 315));
  switch (state) {
    case 'blocked':
      return { ...base, resistance: coil.resistance * c.between(4, 25) };
    case 'dead_fan':
      return { ...base, fanSpeed: 0 };
    case 'slow_fan':
      return { ...base, fanSpeed: c.between(0.35, 0.62) };
    case 'recirculation':
      return c.yes(0.7) ? { ...base, recirculation: c.between(0.3, 0.6) } : { ...base, inletK: c.between(6, 14) };
    case 'gas':
      return { ...base, gasPa: headPa * c.between(0.08, 0.2) };
    case 'overcharge':
      return { ...base, charge: m.receiver > 0 ? c.between(1.5, 2.6) : c.between(1.15, 1.5) };
    case 'low_charge':
      return { ...base, charge: m.receiver > 0 ? c.between(0.35, 0.8) : c.between(0.6, 0.9) };
    case 'restriction':
      return c.yes(0.5) ? { ...base, opening: c.between(0.35, 0.75) } : { ...base, drierPa: headPa * c.between(0.2, 0.6) };
    case 'iced':
      return { ...base, boxOpen: c.between(0.35, 0.7), boxResistance: c.between(3, 15), boxFilm: c.between(0.2, 1) };
    case 'dirty_evaporator':
      return { ...base, boxResistance: c.between(1.8, 4), boxFilm: c.between(0.2, 0.7), boxOpen: c.between(0.8, 1) };
    case 'dead_box_fan':
      return { ...base, boxFanSpeed: 0 };
    case 'leaking_valves': {
      const xe = m.home.xe;
      const lift = Math.exp(m.home.xc) - Math.exp(xe);
      const nozzle = Math.sqrt(2 * lift * sat(f, f.rhoG, m.home.xc));
      return { ...base, leakArea: (c.between(0.2, 0.5) * m.coil.nominalFlow) / nozzle };
    }
    default:
      return base;
  }
}
