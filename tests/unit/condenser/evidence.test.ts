import { describe, expect, it } from 'vitest';
import { cleanPrior, estimate, updateBaseline, type CondenserUnit, type Reading } from '@/lib/core/condenser';
import { evidenceOf, type Hypothesis } from '@/lib/core/condenser/inference/evidence';
import { sceneOf } from '@/lib/core/condenser/inference/scene';
import { CHANNELS, solve, type Seen, type Solution } from '@/lib/core/condenser/inference/solve';
import { DRY, FLOODED, OVER, TC, TE, UNKNOWNS } from '@/lib/core/condenser/inference/state';
import { HANGS, MOVES, TAIL, TOGETHER } from '@/lib/core/condenser/inference/together';
import { keysOf } from '@/lib/core/typed/closed-set';
import { CONDITIONS, F, REACH_IN, readingOf, stateAt } from '../../support/condenser';

const VALVED: CondenserUnit = { ...REACH_IN, kind: 'walk_in_cooler', expansion: 'valve', circuitAccess: 'ports' };
const KINDS = ['capillary', 'valve'] as const;
const unitOf = (kind: (typeof KINDS)[number]) => (kind === 'valve' ? VALVED : REACH_IN);

function read(kind: (typeof KINDS)[number], learnt: boolean, more: Partial<Reading> = {}) {
  const unit = unitOf(kind);
  const state = stateAt(unit, 0.8, F(88));
  const reading = readingOf(state, { dischargeLineK: state.dischargeLineK - 2, ...more });
  const scene = sceneOf(unit, reading, cleanPrior(unit), { learnt });
  const solution = scene && solve(scene.machine, scene.sound, scene.seen, scene.start);
  if (!scene || !solution) throw new Error('no solution');
  const hypothesis: Hypothesis = { prior: scene.sound, sound: scene.sound, capillary: kind === 'capillary', learnt };
  return { scene, solution, hypothesis };
}

type Matrix = number[][];
const square = (n: number): Matrix => Array.from({ length: n }, () => new Array<number>(n).fill(0));

/** Determinant and solution of a linear system by elimination with pivoting. */
function eliminated(matrix: Matrix, right: readonly number[]): { lnDet: number; solved: number[] } {
  const n = right.length;
  const a = matrix.map((row, i) => [...row, right[i] ?? 0]);
  let lnDet = 0;
  for (let c = 0; c < n; c++) {
    const pivot = a.slice(c).reduce((best, row, i) => (Math.abs(row[c]!) > Math.abs(a[best]![c]!) ? c + i : best), c);
    [a[c], a[pivot]] = [a[pivot]!, a[c]!];
    lnDet += Math.log(Math.abs(a[c]![c]!));
    for (let r = 0; r < n; r++) {
      if (r === c) continue;
      const times = a[r]![c]! / a[c]![c]!;
      for (let k = c; k <= n; k++) a[r]![k]! -= times * a[c]![k]!;
    }
  }
  return { lnDet, solved: a.map((row, i) => row[n]! / row[i]!) };
}

/** The same evidence the long way: the whole covariance of the unknowns, then of what is seen, then its determinant and inverse. */
function theLongWay(solution: Solution, seen: readonly Seen[], { prior, sound, way, capillary, learnt }: Hypothesis): number {
  const kind = capillary ? 'capillary' : 'valve';
  const hangs = HANGS[kind][learnt ? 'learnt' : 'kind'];
  const moved = way && MOVES[way][kind];
  const P = square(UNKNOWNS);
  for (let i = 0; i < UNKNOWNS; i++) P[i]![i] = prior.sd[i]! ** 2;
  TOGETHER.forEach((i, a) =>
    TOGETHER.forEach((j, b) => {
      let together = 0;
      for (let l = 0; l < TOGETHER.length; l++) together += hangs[a * TOGETHER.length + l]! * hangs[b * TOGETHER.length + l]!;
      P[i]![j] = Math.min(sound.sd[i]!, prior.sd[i]!) * Math.min(sound.sd[j]!, prior.sd[j]!) * together;
      if (a !== b) return;
      const severity = Math.max(0, prior.sd[i]! ** 2 - sound.sd[i]! ** 2) * (moved?.severity ?? 1) ** 2;
      P[i]![j]! += severity + (moved?.sd[a] ?? 0) ** 2;
    }),
  );
  const rows = seen.map((s) => CHANNELS.indexOf(s.channel));
  const slope = (j: number, i: number) => solution.slopes[rows[j]! * UNKNOWNS + i]!;
  const S = square(seen.length);
  const y = seen.map((s, j) => {
    let shown = solution.shown[rows[j]!]!;
    for (let i = 0; i < UNKNOWNS; i++) shown -= slope(j, i) * (solution.x[i]! - prior.mean[i]!);
    TOGETHER.forEach((i, a) => (shown += slope(j, i) * (moved?.mean[a] ?? 0)));
    if (s.channel === 'expansion') shown += moved?.superheatK ?? 0;
    for (let k = 0; k < seen.length; k++)
      for (let a = 0; a < UNKNOWNS; a++) for (let b = 0; b < UNKNOWNS; b++) S[j]![k]! += slope(j, a) * P[a]![b]! * slope(k, b);
    S[j]![j]! += s.sd ** 2;
    return s.value - shown;
  });
  const { lnDet, solved } = eliminated(S, y);
  const squares = y.reduce((sum, v, j) => sum + v * solved[j]!, 0);
  const from = TAIL.from * seen.length;
  const beyond = squares > from ? from + (TAIL.free + from) * Math.log((TAIL.free + squares) / (TAIL.free + from)) : squares;
  return -0.5 * (beyond + lnDet + solution.short) + lnBalances(solution);
}

/** ln |∂(balances)/∂(state)|: the balances' error has a density, and what is seen is a function of the state. */
function lnBalances({ slopes }: Solution): number {
  const balances = ['condenser', 'evaporator', 'expansion', 'charge'] as const;
  const rows = balances.map((b) => [TC, TE, FLOODED, DRY].map((i) => slopes[CHANNELS.indexOf(b) * UNKNOWNS + i]!));
  return eliminated(rows, [0, 0, 0, 0]).lnDet;
}

describe('the evidence of a hypothesis', () => {
  it.each(KINDS.flatMap((kind) => [false, true].map((learnt) => [kind, learnt] as const)))(
    'is what the whole covariance gives: %s, against its own baseline %s',
    (kind, learnt) => {
      const { scene, solution, hypothesis } = read(kind, learnt);
      for (const way of [undefined, ...keysOf(MOVES)]) {
        const prior = { mean: scene.sound.mean, sd: scene.sound.sd.map((sd, i) => (i === OVER || i === 9 ? 2 * sd : sd)) };
        const given = { ...hypothesis, prior, way };
        const long = theLongWay(solution, scene.seen, given);
        expect(Math.abs(evidenceOf(solution, scene.seen, given) - long)).toBeLessThan(1e-6 * (1 + Math.abs(long)));
      }
    },
  );

  it('falls slower than a normal’s the further a reading lies out', () => {
    const at = (offK: number) => {
      const { scene, solution, hypothesis } = read('capillary', false);
      const seen = scene.seen.map((s) => (s.channel === 'dischargeK' ? { ...s, value: s.value + offK } : s));
      return evidenceOf(solution, seen, hypothesis);
    };
    const [near, far, further] = [at(0) - at(20), at(0) - at(40), at(0) - at(80)];
    expect(near).toBeGreaterThan(0);
    expect(far).toBeGreaterThan(near);
    expect(far).toBeLessThan(4 * near);
    expect(further).toBeLessThan(4 * far);
  });

  it.each(KINDS)('weighs discharge gas off its own usual heavier than off what is usual for its kind: %s', (kind) => {
    const cost = (learnt: boolean) => {
      const { scene, solution, hypothesis } = read(kind, learnt);
      const own = { mean: scene.sound.mean, sd: scene.sound.sd };
      const sound = { ...own, sd: own.sd.map((sd, i) => (learnt && i === OVER ? sd * 0.45 : sd)) };
      const off = scene.seen.map((s) => (s.channel === 'dischargeK' ? { ...s, value: s.value + 12 } : s));
      const given = { ...hypothesis, prior: sound, sound };
      return evidenceOf(solution, scene.seen, given) - evidenceOf(solution, off, given);
    };
    expect(cost(true)).toBeGreaterThan(cost(false));
  });
});

describe('a machine that was read after its cleanings', () => {
  const state = stateAt(VALVED, 1, F(88));
  const whole = (more: Partial<Reading> = {}) => readingOf(state, { dischargeLineK: state.dischargeLineK - 2, coilGrade: 'bare', fanGrade: 'sound', ...more }); // prettier-ignore
  const learnt = [1, 2, 3].reduce(
    (own, day) => updateBaseline(own, estimate(VALVED, whole({ phase: 'after', at: day * 9e9 }), own, CONDITIONS)),
    cleanPrior(VALVED),
  );
  const worn = (hotterK: number, own = learnt) => {
    const e = estimate(VALVED, whole({ at: 4 * 9e9, dischargeLineK: state.dischargeLineK - 2 + hotterK }), own, CONDITIONS);
    return e.causes.find((c) => c.id === 'weak_compressor')?.weight ?? 0;
  };

  it('has worn valves as soon as its discharge gas is hotter than its own usual, one never read later', () => {
    expect(worn(12)).toBeGreaterThan(3 * worn(0));
    expect(worn(12)).toBeGreaterThan(2 * worn(12, cleanPrior(VALVED)));
  });
});
