import { cleanPrior } from '@/lib/core/condenser';
import { normalCdf } from '@/lib/core/condenser/bands';
import { shellLossOf } from '@/lib/core/condenser/compressor/compressor';
import { typicalCompressor } from '@/lib/core/condenser/compressor/kinds';
import { efficiencyAt } from '@/lib/core/condenser/compressor/published';
import { volumetricEfficiency } from '@/lib/core/condenser/compressor/volumetric';
import { floodedFor, subcooling } from '@/lib/core/condenser/condenser/zones';
import { dryFor, outletSuperheat } from '@/lib/core/condenser/evaporator/dry-zone';
import { capillaryCurve, flashLoss, subcoolingGain } from '@/lib/core/condenser/expansion/capillary';
import { valveSuperheat } from '@/lib/core/condenser/expansion/valve';
import { chebyshev, chebyshev2 } from '@/lib/core/condenser/fluid/chebyshev';
import { dewFromMean, fluidOf, meanT } from '@/lib/core/condenser/fluid/fluid';
import { dewCeilingK } from '@/lib/core/condenser/fluid/limits';
import { quickFluid } from '@/lib/core/condenser/fluid/quick-fluid';
import { airside } from '@/lib/core/condenser/inference/airside';
import { calibrated } from '@/lib/core/condenser/inference/calibrated';
import { machineOf, newOutcome, run } from '@/lib/core/condenser/inference/equations';
import { settle } from '@/lib/core/condenser/inference/forward';
import { conductanceSeen, infer, ownSeen, runningSeen, type Belief } from '@/lib/core/condenser/inference/infer';
import { coilGradeGiven, lookGiven, LOOKS, looksGiven } from '@/lib/core/condenser/inference/looks';
import { quantile } from '@/lib/core/condenser/inference/mixture';
import { nextLooks } from '@/lib/core/condenser/inference/next-look';
import { againGiven, airError, boxGiven, roomGiven, standingGiven } from '@/lib/core/condenser/inference/outside';
import { BEFORE } from '@/lib/core/condenser/inference/priors';
import { sceneOf, type Scene } from '@/lib/core/condenser/inference/scene';
import { covarianceOf } from '@/lib/core/condenser/inference/solve';
import { OVER, UNKNOWNS } from '@/lib/core/condenser/inference/state';
import { see } from '@/lib/core/condenser/machine/inverse';
import { modelOf } from '@/lib/core/condenser/machine/model';
import { profileOf } from '@/lib/core/condenser/machine/profiles';
import { increasingRoot } from '@/lib/core/condenser/machine/root';
import { resolve } from '@/lib/core/condenser/readings/resolve';
import { scatterSd } from '@/lib/core/condenser/readings/steadiness';
import { CAUSES, type Reading } from '@/lib/core/condenser/types';
import { widthOf } from '@/lib/core/condenser/widths';
import { keysOf } from '@/lib/core/typed/closed-set';
import { SPREAD_UNITS, spreadCase } from './condenser-spread';

/** What the parts of the condenser's room answer by themselves, for its kept answers. */

const FLUIDS = ['R134a', 'R404A', 'R290', 'R448A', 'R407C', 'R410A', 'R999'] as const;
const causes = (of: (cause: (typeof CAUSES)[number]) => unknown) => CAUSES.map(of);

function fluid(id: string): unknown {
  const f = fluidOf(id);
  const p = f.dewP(310);
  const low = f.dewP(265);
  const suction = f.gas(275, low);
  const q = quickFluid(id);
  return {
    saturation: [240, 265, 290, 310, 325, 500].map((T) => [f.bubbleP(T), f.dewP(T), f.bubbleT(f.bubbleP(T)), f.dewT(f.dewP(T))]),
    gas: [f.gas(310, p), f.gas(310.015, p), f.gas(330, p), suction, f.compressed(p, suction.s)],
    liquid: [290, 300, f.bubbleT(p) - 0.5, f.bubbleT(p) - 0.01, f.bubbleT(p), f.bubbleT(p) + 5].map((T) => f.liquidH(T, p)),
    mean: [meanT(f, p), dewFromMean(f, 300), dewFromMean(f, 320), dewFromMean(f, 600)],
    ceiling: dewCeilingK(id),
    quick: q && {
      ...q,
      at: [238, 262, 285, 300, 318, 330].map((T) => [q.lnDewP(T), q.dewT(Math.exp(q.lnDewP(T))), q.glide(T), q.hVapour(T), q.lnRhoVapour(T), q.cpVapour(Math.min(T, 299)), q.hLiquid(T), q.lnRhoLiquid(T), q.cpDischarge(Math.max(T, 285))]), // prettier-ignore
      work: [[245, 300], [262, 315], [270, 328]].map(([te = NaN, tc = NaN]) => [q.work(te, tc), q.idealEndK(te, tc)]), // prettier-ignore
      beyond: [q.dewT(1), q.dewT(1e8)],
      tube: [290, 305, 320].map((tc) => capillaryCurve(q)(tc)),
    },
  };
}

/** The equations at the design point and beside it, each unknown moved by itself. */
function equations(i: number): unknown {
  const unit = SPREAD_UNITS[i];
  const machine = unit && machineOf(unit, profileOf(unit.kind, unit.application));
  if (!machine) return null;
  const o = newOutcome();
  const at = (move: (x: Float64Array) => void, m = machine) => {
    const x = Float64Array.from(m.design);
    move(x);
    run(m, x, o);
    return Object.values(o);
  };
  const by = [6, 5, -0.1, 0.3, 8, -0.4, 0.15, -0.5, 6, -0.2, 0.15, 0.2, -0.6, 6];
  const settled = (airK: number, boxK: number, change: (x: Float64Array) => void = () => undefined) => {
    const x = Float64Array.from(machine.design);
    change(x);
    const found = settle(machine, x, { airK, boxK });
    return found ? Array.from(x) : found;
  };
  const box = machine.design[8] ?? NaN;
  return {
    machine: { ...machine, fluid: undefined, profile: undefined, cap: undefined },
    design: at(() => undefined),
    up: by.map((d, k) => at((x) => void (x[k] = (x[k] ?? NaN) + d))),
    down: by.map((d, k) => at((x) => void (x[k] = (x[k] ?? NaN) - d))),
    leaking: at((x) => void (x[9] = -0.3), { ...machine, leaking: true }),
    settled: [
      settled(300, box),
      settled(312, box + 4),
      settled(305, box, (x) => void (x[5] = -0.5)),
      settled(305, box, (x) => void (x[12] = -0.7)),
      settled(305, box, (x) => void (x[11] = -0.2)),
      settled(305, box, (x) => void (x[6] = 0.12)),
      settled(450, box),
    ],
  };
}

function sceneFor(i: number, more: Partial<Reading> = {}, learnt = i % 4 === 3): Scene {
  const unit = SPREAD_UNITS[i % SPREAD_UNITS.length];
  if (!unit) throw new Error('no such unit');
  const { reading } = spreadCase(unit, i % 7, i);
  const history = i % 3 === 0 ? [{ at: reading.at - 9e8, lost: 0.15, sd: 0.05 }] : [];
  const scene = sceneOf(unit, { ...reading, ...more }, cleanPrior(unit), { history, learnt });
  if (!scene) throw new Error('no scene');
  return scene;
}

function believed(i: number): unknown {
  const scene = sceneFor(i);
  const b: Belief | null = infer(scene, i % 3);
  const cov = b && covarianceOf(b.plain);
  return (
    b &&
    cov && {
      scene: { ...scene, unit: undefined, machine: undefined, reading: undefined },
      components: b.components.filter((c) => c.weight > 1e-4).map((c) => [c.cause, c.weight, c.loss, c.lossSd]),
      probability: b.probability,
      measured: b.measured,
      plain: b.plain.x,
      spread: Array.from({ length: UNKNOWNS }, (_, k) => Math.sqrt(cov[k * UNKNOWNS + k] ?? NaN)),
      over: Array.from(cov.slice(OVER * UNKNOWNS, (OVER + 1) * UNKNOWNS)),
      evidence: [b.plain.lnEvidence, b.plain.misfit],
      looks: nextLooks(b).map((l) => [l.look, l.bits]),
      widths: (['conductance', 'cooling', 'energy', 'discharge'] as const).flatMap((w) => [widthOf(w, b), widthOf(w, b, 0.4)]),
      airside: airside(scene, { mean: b.measured.lnK, sd: b.measured.sd, ln: 0 }, BEFORE).map((p) => [p.cause, p.lnEvidence, p.loss, p.lossSd]), // prettier-ignore
      own: [conductanceSeen(scene), ownSeen(scene), runningSeen(scene)],
    }
  );
}

function resolved(i: number): unknown {
  const unit = SPREAD_UNITS[i];
  const model = unit && modelOf(unit);
  if (!unit || !model) return null;
  const { reading } = spreadCase(unit, i % 7, i);
  const r = resolve(unit, model, reading);
  return { r, seen: r && { ...see(model, r), cycle: undefined }, model: { ...model, fluid: undefined, profile: undefined } };
}

const GRID = [-0.2, 0, 0.02, 0.1, 0.25, 0.4, 0.7, 0.95];
export const PARTS: Record<string, () => unknown> = {
  ...Object.fromEntries(FLUIDS.map((id) => [`fluid ${id}`, () => fluid(id)])),
  ...Object.fromEntries([0, 1, 4, 7, 9, 12, 16].map((i) => [`equations ${i}`, () => equations(i)])),
  ...Object.fromEntries(Array.from({ length: 24 }, (_, i) => [`belief ${i}`, () => believed(5 * i + 1)])),
  ...Object.fromEntries(SPREAD_UNITS.map((_, i) => [`resolved ${i}`, () => resolved(i)])),
  'what looks find': () => keysOf(LOOKS).flatMap((look) => LOOKS[look].map((found) => [look, found, ...causes((c) => lookGiven(look, found, c))])), // prettier-ignore
  'coils graded by deposit': () => LOOKS.coilGrade.map((grade) => [-0.1, 0, 0.05, 0.12, 0.3, 0.5, 0.8, 1.4].map((d) => coilGradeGiven(grade, d))), // prettier-ignore
  'looks together': () => {
    const reading = { at: 0, phase: 'log', iceGrade: 'bridged', evaporatorCoilGrade: 'clogged', fanGrade: 'worn', coilGrade: 'furred', airPathGrade: 'narrowed' } as const; // prettier-ignore
    return [undefined, 'ice', 'dirt'].map((by) => causes((c) => looksGiven(reading, c, by as 'ice' | 'dirt' | undefined)));
  },
  'box by cause': () => [-3, 0, 1.9, 2.1, 5, 12].map((d) => causes((c) => boxGiven(sceneFor(0, { boxK: (SPREAD_UNITS[0]?.boxSetPointK ?? NaN) + d }), c))), // prettier-ignore
  'room by cause': () => [-2, 0, 1, 4, 9, 15].map((d) => causes((c) => roomGiven(sceneFor(0, { airInK: 305, roomAirK: 305 - d }), c))),
  'standing by cause': () =>
    [0.2, 0.6, 0.9, 1, 1.1, 1.3].map((part) => {
      const scene = sceneFor(0, { offCycleAirK: 303, offCyclePaGauge: part * 7.7e5 - 1e5 });
      const plain = infer(scene, 0)?.plain;
      return plain ? causes((c) => standingGiven(scene, c, airError(scene, plain))) : null;
    }),
  'air by another thermometer': () => [-9, -3, -1, 0, 1, 6].map((over) => [undefined, 6, -6].map((off) => againGiven(sceneFor(0, { airInK: 303, airAgainK: 303 + over }), off))), // prettier-ignore
  'calibrated causes': () =>
    ([{}, { suctionLineK: 280 }, { coilGrade: 'bare', fanGrade: 'sound' }, { coilGrade: 'bare' }] as const).map((r) =>
      calibrated({ ...BEFORE, high_load: 0 }, { at: 0, phase: 'log', ...r }),
    ),
  'zones, dry part, tube and valve': () => [
    GRID.map((x) => [subcooling(x, 180_000, 1500, 12, 10), outletSuperheat(x, 150_000, 900, 9), valveSuperheat(x), valveSuperheat(-x), flashLoss(x), subcoolingGain(20 * x, 0.025)]), // prettier-ignore
    [0.5, 4, 9].map((K) => [floodedFor(K, 180_000, 1500, 12, 10), dryFor(K, 150_000, 900, 10)]),
    valveSuperheat(3),
  ],
  compressors: () => (['small_reciprocating', 'reciprocating', 'scroll'] as const).flatMap((kind) => [false, true].map((low) => {
    const c = typicalCompressor(kind, low);
    return [c, [1.5, 4, 8, 300].map((r) => [efficiencyAt(c, r), volumetricEfficiency(r, c.clearance, c.exponent)]), shellLossOf({ by: 'constants', constants: c, displacement: 1 })];
  })), // prettier-ignore
  'curves through points': () => {
    const one = chebyshev((x) => Math.exp(x / 7) + x * x, 2, 9, 7);
    const two = chebyshev2((x, y) => x * x * y + Math.sin(y), [0, 3, 5], [1, 4, 6]);
    return [[1, 2, 3.3, 5.5, 8, 9, 11].map(one), [[0, 1], [1.2, 2.2], [3, 4], [2, 5], [-1, 2]].map(([x = NaN, y = NaN]) => two(x, y))]; // prettier-ignore
  },
  'mixtures and bands': () => {
    const parts = [{ weight: 0.6, value: 1, down: 0.2, up: 0.5 }, { weight: 0.3, value: 2, down: 0.1, up: 0.1 }, { weight: 0.1, value: 4, down: 0, up: 0 }]; // prettier-ignore
    return [[0.05, 0.2, 0.5, 0.8, 0.92, 0.99].map((p) => quantile(parts, p)), [-3, -1, -0.1, 0, 0.4, 2].map(normalCdf)];
  },
  roots: () => [
    increasingRoot((x) => x ** 3 - 5, { lo: 0, hi: 4, start: 1, tolerance: 1e-9 }),
    increasingRoot((x) => Math.exp(x) - 9, { lo: -20, hi: 30, start: 99, tolerance: 1e-6 }),
    increasingRoot((x) => x - 9, { lo: 0, hi: 4, start: 1, tolerance: 1e-6 }),
    increasingRoot(() => NaN, { lo: 0, hi: 4, start: 1, tolerance: 1e-6 }),
  ].map((r) => [r.status, r.value, Math.abs(r.residual) < 1e-4]), // prettier-ignore
  'scatter by minutes': () => [undefined, 0, 5, 10, 30].map((steadyMinutes) => scatterSd({ at: 0, phase: 'log', steadyMinutes })),
};
