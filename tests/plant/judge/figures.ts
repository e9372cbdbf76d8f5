import type { Figure } from '../../../lib/core/condenser';
import type { Row } from './cases';

export const QUANTITIES = ['conductance', 'cooling', 'energy', 'discharge'] as const;
export type Quantity = (typeof QUANTITIES)[number];

/**
 * The band told and the truth of it; null where either is lacking or they do not speak of the same thing. What is told lost
 * is never below nothing, so a machine that gained a little (less liquid in its coil) has lost nothing.
 */
function claimOf(row: Row, quantity: Quantity): { band: Figure; truth: number } | null {
  const { answer: a, truth: t, state } = row;
  if (a.status !== 'ok') return null;
  if (quantity === 'conductance') {
    // A gauge or thermometer that is broken says nothing of the coil.
    return state === 'bad_instrument' ? null : { band: a.conductanceLost, truth: Math.max(0, t.conductanceLost) };
  }
  // "Air at the coil on a hot day": with air coming back to the inlet the question has two answers.
  if (state === 'recirculation' || state === 'bad_instrument') return null;
  const band =
    quantity === 'cooling' ? a.coolingLostHotDay : quantity === 'energy' ? a.extraEnergyKwhPerDay : (a.dischargeHotDayK?.now ?? null);
  const truth = quantity === 'cooling' ? lostOf(t.coolingLost) : quantity === 'energy' ? lostOf(t.extraKwhPerDay) : t.dischargeNowK;
  return band && truth !== null && !(quantity === 'energy' && t.cannotKeepUp) ? { band, truth } : null;
}

const lostOf = (x: number | null) => (x === null ? null : Math.max(0, x));

export type Cover = { n: number; held: number; bias: number; rms: number; half: number };

export function cover(rows: readonly Row[], quantity: Quantity): Cover {
  let n = 0;
  let held = 0;
  let sum = 0;
  let squares = 0;
  let half = 0;
  for (const row of rows) {
    const found = claimOf(row, quantity);
    if (!found) continue;
    const { band, truth } = found;
    n++;
    // Both are rounded where they are shown; a truth of nothing is held by a band that begins at nothing.
    if (truth >= band.lo - 1e-3 && truth <= band.hi + 1e-3) held++;
    sum += band.value - truth;
    squares += (band.value - truth) ** 2;
    half += (band.hi - band.lo) / 2;
  }
  return { n, held: held / n, bias: sum / n, rms: Math.sqrt(squares / n), half: half / n };
}

export function grouped<K extends string>(rows: readonly Row[], key: (row: Row) => K): Map<K, Row[]> {
  const out = new Map<K, Row[]>();
  for (const row of rows) {
    const k = key(row);
    const list = out.get(k);
    if (list) list.push(row);
    else out.set(k, [row]);
  }
  return out;
}

export const share = (rows: readonly Row[], holds: (row: Row) => boolean): number => rows.filter(holds).length / rows.length;
