import { keysOf } from '../../typed/closed-set';
import { CONTACT_SD_K } from '../readings/instruments';
import type { CauseId, Reading } from '../types';
import { coilGradeGiven, LOOKS, lookGiven, type Look } from './looks';
import type { Belief, Component } from './infer';
import { airError, boxGiven, roomGiven, standingGiven } from './outside';
import { thermometerOf, type Scene } from './scene';
import { CHANNELS, covarianceOf, varianceOf, type Channel, type Solution } from './solve';
import { AIR, UNKNOWNS } from './state';

export type LookId = Look | 'condensingClampK' | 'liquidLineK' | 'suctionLineK' | 'dischargeLineK' | 'headPaGauge' | 'suctionPaGauge' | 'airInK' | 'airAgainK' | 'headAgainPaGauge' | 'roomAirK' | 'boxK' | 'offCyclePaGauge' | 'steadyMinutes'; // prettier-ignore

/** A look or reading not taken yet, and what it is expected to tell of the cause, in bits. */
export type NextLook = { look: LookId; bits: number };

const GRID = 16;
/** Components lighter than this change no choice. */
const LEAST = 0.03;
/** Less than this tells nothing: rounding would choose, and a tablet otherwise than the office. */
const LEAST_BITS = 1e-6;
/** A second gauge or thermometer is seldom at hand: what it tells counts for this part where looks are put in order (judgement). */
const ANOTHER = 0.6;
const SECOND: readonly LookId[] = ['airAgainK', 'headAgainPaGauge'];

/** What to look at next: every look this unit allows, the most telling first. */
export function nextLooks(belief: Belief): NextLook[] {
  const { scene } = belief;
  const { reading, unit } = scene;
  const heavy = belief.components.filter((c) => c.weight >= LEAST);
  const sum = heavy.reduce((a, c) => a + c.weight, 0);
  const parts = heavy.map((c) => ({ ...c, weight: c.weight / sum }));
  const covariances = new Map<Solution, Float64Array>();
  const covOf = ({ solution }: Component): Float64Array => {
    const cov = covariances.get(solution) ?? covarianceOf(solution);
    covariances.set(solution, cov);
    return cov;
  };
  const out: NextLook[] = [];
  const add = (look: LookId, bitsOf: () => number) => {
    const bits = reading[look] === undefined ? bitsOf() : 0;
    if (bits >= LEAST_BITS) out.push({ look, bits });
  };
  for (const look of keysOf(LOOKS)) add(look, () => discrete(parts, look));
  // On a sealed system too, where they are on already.
  const gauges = unit.circuitAccess === 'ports' || reading.headPaGauge !== undefined;
  const may = { always: true, gauges, again: reading.headPaGauge !== undefined };
  for (const [look, channel, allowed] of READINGS)
    if (may[allowed]) add(look, () => continuous(parts, (c) => predicted(c, covOf(c), channel, errorOf(scene.reading, channel))));
  const over = (read: (value: number) => Reading, given: (s: Scene, c: Component) => number, from: number, to: number) => () => {
    const scenes = Array.from({ length: GRID }, (_, r) => ({ ...scene, reading: read(from + ((to - from) * (r + 0.5)) / GRID) }));
    return gridded(parts, from, to, (c, _value, _i, r) => given(scenes[r]!, c));
  };
  const set = unit.boxSetPointK;
  add(
    'boxK',
    over(
      (v) => ({ ...reading, boxK: v }),
      (s, { cause }) => boxGiven(s, cause),
      set - 6,
      set + 22,
    ),
  );
  const { airInK, roomAirK } = reading;
  if (airInK !== undefined)
    add(
      'roomAirK',
      over(
        (v) => ({ ...reading, roomAirK: v }),
        (s, { cause }) => roomGiven(s, cause),
        airInK - 20,
        airInK + 6,
      ),
    );
  if (airInK !== undefined || roomAirK !== undefined)
    add(airInK === undefined ? 'airInK' : 'airAgainK', () =>
      continuous(parts, (c) => ({
        mean: c.solution.x[4]!,
        sd: Math.hypot(Math.sqrt(varianceOf(c.solution, AIR)), thermometerOf(reading)),
      })),
    );
  if (gauges && airInK !== undefined) {
    const { fluid } = scene.machine;
    const saturation = Math.exp(fluid.lnDewP(airInK));
    const at = (v: number): Reading => ({ ...reading, offCycleAirK: airInK, offCyclePaGauge: v });
    const airs = new Map(parts.map(({ solution }) => [solution, airError(scene, solution)]));
    const given = (s: Scene, c: Component) => standingGiven(s, c.cause, airs.get(c.solution));
    add('offCyclePaGauge', over(at, given, 0.3 * saturation - scene.atmospherePa, 1.7 * saturation - scene.atmospherePa));
  }
  if (reading.steadyMinutes === undefined) {
    const p = belief.probability.not_steady;
    add('steadyMinutes', () => (p > 0 && p < 1 ? -(p * Math.log2(p) + (1 - p) * Math.log2(1 - p)) : 0));
  }
  const worth = ({ look, bits }: NextLook) => Math.round(((SECOND.includes(look) ? ANOTHER : 1) * bits) / LEAST_BITS);
  return out.sort((a, b) => worth(b) - worth(a));
}

const READINGS: readonly (readonly [LookId, Channel, 'always' | 'gauges' | 'again'])[] = [
  ['condensingClampK', 'bendK', 'always'],
  ['liquidLineK', 'liquidK', 'always'],
  ['suctionLineK', 'suctionK', 'always'],
  ['dischargeLineK', 'dischargeK', 'always'],
  ['headPaGauge', 'headPa', 'gauges'],
  ['suctionPaGauge', 'suctionPa', 'gauges'],
  ['headAgainPaGauge', 'headPa', 'again'],
];

function errorOf(reading: Reading, channel: Channel): number {
  if (channel === 'headPa') return 35_000;
  if (channel === 'suctionPa') return 15_000;
  return Math.hypot(thermometerOf(reading), CONTACT_SD_K, channel === 'dischargeK' ? 2.5 : channel === 'bendK' ? 1.2 : 0.5);
}

/** What an instrument would show under one hypothesis. */
function predicted(c: Component, cov: Float64Array, channel: Channel, error: number): { mean: number; sd: number } {
  const row = CHANNELS.indexOf(channel) * UNKNOWNS;
  const { slopes } = c.solution;
  let v = error * error;
  for (let i = 0; i < UNKNOWNS; i++) {
    const a = slopes[row + i]!;
    if (a === 0) continue;
    for (let k = 0; k < UNKNOWNS; k++) v += a * cov[i * UNKNOWNS + k]! * slopes[row + k]!;
  }
  return { mean: c.solution.outcome[channel], sd: Math.sqrt(Math.max(v, error * error)) };
}

const entropyTerm = (p: number) => (p > 1e-12 ? -p * Math.log2(p) : 0);

/** Same cause twice is one cause: what is asked is how much is learnt of the cause. */
function byCause(parts: readonly Component[]): Map<CauseId, number> {
  const sums = new Map<CauseId, number>();
  for (const c of parts) sums.set(c.cause, (sums.get(c.cause) ?? 0) + c.weight);
  return sums;
}

/** Mutual information between the cause and a result, from the table results × components. */
function information(parts: readonly Component[], table: Float64Array, results: number): number {
  const before = [...byCause(parts).values()].reduce((h, p) => h + entropyTerm(p), 0);
  const index = new Map<CauseId, number>();
  const causeOf = parts.map((c) => {
    const k = index.get(c.cause) ?? index.size;
    index.set(c.cause, k);
    return k;
  });
  const n = parts.length;
  const joint = new Float64Array(index.size);
  let after = 0;
  for (let r = 0; r < results; r++) {
    joint.fill(0);
    let total = 0;
    for (let i = 0; i < n; i++) {
      const p = parts[i]!.weight * table[r * n + i]!;
      joint[causeOf[i]!] = joint[causeOf[i]!]! + p;
      total += p;
    }
    if (total <= 1e-12) continue;
    for (let k = 0; k < joint.length; k++) after += total * entropyTerm(joint[k]! / total);
  }
  return Math.max(0, before - after);
}

function discrete(parts: readonly Component[], look: Look): number {
  const n = parts.length;
  const found = LOOKS[look];
  const table = new Float64Array(found.length * n);
  found.forEach((grade, r) =>
    parts.forEach((c, i) => {
      const own = look === 'coilGrade' && c.cause === 'coil_fouling';
      table[r * n + i] = own
        ? (coilGradeGiven(grade, c.loss - c.lossSd) + 2 * coilGradeGiven(grade, c.loss) + coilGradeGiven(grade, c.loss + c.lossSd)) / 4
        : lookGiven(look, grade, c.cause);
    }),
  );
  return information(parts, table, found.length);
}

function continuous(parts: readonly Component[], read: (c: Component) => { mean: number; sd: number }): number {
  const each = parts.map(read);
  const from = Math.min(...each.map((e) => e.mean - 2.5 * e.sd));
  const to = Math.max(...each.map((e) => e.mean + 2.5 * e.sd));
  return gridded(parts, from, to, (_, value, i) => {
    const { mean, sd } = each[i]!;
    return Math.exp(-0.5 * ((value - mean) / sd) ** 2) / sd;
  });
}

function gridded(
  parts: readonly Component[],
  from: number,
  to: number,
  density: (c: Component, value: number, i: number, r: number) => number,
): number {
  const n = parts.length;
  const table = new Float64Array(GRID * n);
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let r = 0; r < GRID; r++) {
      const p = density(parts[i]!, from + ((to - from) * (r + 0.5)) / GRID, i, r);
      table[r * n + i] = p;
      sum += p;
    }
    for (let r = 0; r < GRID; r++) table[r * n + i] = sum > 0 ? table[r * n + i]! / sum : 0;
  }
  return information(parts, table, GRID);
}
