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

/** `error`: one standard error of `held`, answers about one machine taken together; `machines`: how many there are. */
export type Cover = { n: number; held: number; error: number; machines: number; bias: number; rms: number; half: number };

export function cover(rows: readonly Row[], quantity: Quantity): Cover {
  let n = 0;
  let held = 0;
  let sum = 0;
  let squares = 0;
  let half = 0;
  const machines = new Map<string, { n: number; held: number }>();
  for (const row of rows) {
    const found = claimOf(row, quantity);
    if (!found) continue;
    const { band, truth } = found;
    n++;
    // Both are rounded where they are shown; a truth of nothing is held by a band that begins at nothing.
    const holds = truth >= band.lo - 1e-3 && truth <= band.hi + 1e-3 ? 1 : 0;
    held += holds;
    const machine = `${row.state} ${row.seed}`;
    const mine = machines.get(machine) ?? { n: 0, held: 0 };
    machines.set(machine, { n: mine.n + 1, held: mine.held + holds });
    sum += band.value - truth;
    squares += (band.value - truth) ** 2;
    half += (band.hi - band.lo) / 2;
  }
  let off = 0;
  for (const m of machines.values()) off += (m.held - (m.n * held) / n) ** 2;
  return {
    n,
    held: held / n,
    error: Math.sqrt(off) / n,
    machines: machines.size,
    bias: sum / n,
    rms: Math.sqrt(squares / n),
    half: half / n,
  };
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

/** One standard error of a share of n answers. */
export const errorOf = (p: number, n: number): number => Math.sqrt((p * (1 - p)) / n);

/** How likely n answers of bands that hold exactly four in five come to between 72 and 88 %. */
export function withinByChance(n: number): number {
  let p = 0.2 ** n;
  let sum = 0;
  for (let k = 0; k <= n; k++) {
    if (k / n >= 0.72 && k / n <= 0.88) sum += p;
    p *= ((n - k) / (k + 1)) * 4;
  }
  return sum;
}
