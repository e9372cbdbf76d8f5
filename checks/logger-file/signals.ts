import { atmosphereAt } from '../../lib/core/measures';
import { infer, runningSeen } from '../../lib/core/condenser/inference/infer';
import { machineOf, type Machine } from '../../lib/core/condenser/inference/equations';
import { sceneOf, type Scene } from '../../lib/core/condenser/inference/scene';
import type { CauseId, CleanBaseline, CondenserUnit, Reading } from '../../lib/core/condenser/types';
import { loggedUnit, type LoggedKind } from './equipment';
import type { LogRow } from './rows';

/** Suction and line temperatures, as bits: which of them a row holds. */
const SIGNALS = ['suctionPa', 'liquidK', 'suctionLineK', 'dischargeK'] as const;
const SUCTION_BIT = 1 << 0;
const LIQUID_BIT = 1 << 1;
const SUCTION_LINE_BIT = 1 << 2;
const DISCHARGE_BIT = 1 << 3;
/** A signal counts for comparing with clean rows when most of these have it too. */
const MOSTLY = 0.8;
/** A suction line this much above saturation, or less than none, is no superheat but a fault of the clamp, K. */
const SUPERHEAT_RANGE_K = [0, 45] as const;
/** Discharge gas this far below isentropic or above it is a fault of the clamp, K. */
const DISCHARGE_RANGE_K = [-8, 90] as const;

export type Values = { lnK: number; lnPower: number; lnCooling: number; riseK: number };

/** A log's machine: the equations of the joint estimate, sized by what is usual. */
export type Logged = { unit: CondenserUnit; machine: Machine; atmospherePa: number };

/** Null where the refrigerant has no numbers. */
export function loggedMachine(kind: LoggedKind, refrigerant: string): Logged | null {
  const { unit, profile } = loggedUnit(kind, refrigerant);
  const machine = machineOf(unit, profile);
  return machine && { unit, machine, atmospherePa: atmosphereAt(unit.altitudeM) };
}

/** Signals that a running row holds and that can be believed: a clamp that fell off is as good as absent. */
export function believedSignals({ machine: { fluid } }: Logged, row: LogRow): number {
  const held = SIGNALS.reduce((mask, s, bit) => (row[s] === undefined ? mask : mask | (1 << bit)), 0);
  if (row.suctionPa === undefined || row.headPa === undefined || !(held & (SUCTION_LINE_BIT | DISCHARGE_BIT))) return held;
  const te = fluid.dewT(row.suctionPa);
  const within = (x: number, [lo, hi]: readonly [number, number]) => x >= lo && x <= hi;
  const line = row.suctionLineK === undefined || within(row.suctionLineK - te, SUPERHEAT_RANGE_K);
  const gas = row.dischargeK === undefined || within(row.dischargeK - fluid.idealEndK(te, fluid.dewT(row.headPa)), DISCHARGE_RANGE_K);
  return held & ~(line ? 0 : SUCTION_LINE_BIT) & ~(gas ? 0 : DISCHARGE_BIT);
}

/** Signals that most of the rows have. */
export function commonSignals(masks: readonly number[]): number {
  return SIGNALS.reduce((common, _, bit) => {
    const share = masks.filter((m) => m & (1 << bit)).length / Math.max(1, masks.length);
    return share >= MOSTLY ? common | (1 << bit) : common;
  }, 0);
}

/** Conductance, power and cooling by the joint estimate from the signals in the mask alone, so that rows compare like with like. */
export function valuesOf(logged: Logged, row: LogRow, mask: number): Values | null {
  const scene = sceneFor(logged, row, mask, usualClean(logged), false);
  return scene && runningSeen(scene);
}

/** The likeliest cause of a row by the joint estimate, against what the unit's clean rows showed. */
export function causeOf(logged: Logged, row: LogRow, mask: number, clean: { riseK: number; sd: number }): LoggedCause | null {
  const baseline = { cleanRiseK: clean.riseK, sdK: clean.riseK * clean.sd, readings: 1 };
  const scene = sceneFor(logged, row, mask, baseline, true);
  const belief = scene && infer(scene, 0);
  if (!belief) return null;
  let found: LoggedCause = { id: 'nothing', probability: 0 };
  for (const [id, probability] of Object.entries(belief.probability) as [CauseId, number][])
    if (probability > found.probability) found = { id, probability };
  return found;
}
export type LoggedCause = { id: CauseId; probability: number };

const usualClean = ({ machine: { profile } }: Logged): CleanBaseline => ({
  cleanRiseK: profile.cleanRiseK,
  sdK: profile.cleanRiseSdK,
  readings: 0,
});

function sceneFor(logged: Logged, row: LogRow, mask: number, baseline: CleanBaseline, learnt: boolean): Scene | null {
  const { unit, machine, atmospherePa } = logged;
  if (row.headPa === undefined) return null;
  // Rows of a log are written while it runs; whether it had settled is looked at before.
  const reading: Reading = { at: 0, phase: 'log', steadyMinutes: 60, headPaGauge: row.headPa - atmospherePa, airInK: row.airInK };
  if (mask & SUCTION_BIT && row.suctionPa !== undefined) reading.suctionPaGauge = row.suctionPa - atmospherePa;
  if (mask & LIQUID_BIT) reading.liquidLineK = row.liquidK;
  if (mask & SUCTION_LINE_BIT) reading.suctionLineK = row.suctionLineK;
  if (mask & DISCHARGE_BIT) reading.dischargeLineK = row.dischargeK;
  return sceneOf(unit, reading, baseline, { learnt, own: machine });
}
