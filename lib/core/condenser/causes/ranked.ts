import type { Belief } from '../inference/infer';
import type { LookId, NextLook } from '../inference/next-look';
import { lookWords } from '../words/looks';
import { CAUSES, type Cause, type CauseId, type CondenserUnit, type Measured } from '../types';
import { factsOf } from './facts';

/** The reading or look that would decide for or against each cause. */
const DECIDES: Record<CauseId, readonly LookId[]> = {
  nothing: ['coilGrade', 'boxK'],
  coil_fouling: ['coilGrade', 'fanGrade'],
  condenser_fan: ['fanGrade', 'coilGrade'],
  blocked_air: ['airPathGrade', 'coilGrade', 'roomAirK'],
  recirculation: ['airInK', 'roomAirK'],
  non_condensables: ['offCyclePaGauge', 'condensingClampK', 'liquidLineK'],
  overcharge: ['liquidLineK', 'condensingClampK'],
  low_charge: ['suctionLineK', 'liquidLineK', 'suctionPaGauge'],
  evaporator_coil: ['iceGrade', 'evaporatorCoilGrade', 'evaporatorFanGrade'],
  evaporator_fan: ['evaporatorFanGrade', 'evaporatorCoilGrade'],
  weak_compressor: ['suctionPaGauge', 'dischargeLineK', 'boxK'],
  high_load: ['boxK'],
  head_pressure_control: ['steadyMinutes'],
  not_steady: ['steadyMinutes'],
  reading_fault: ['condensingClampK', 'headPaGauge', 'headAgainPaGauge', 'airAgainK'],
};
const AGAIN: Partial<Record<CauseId, string>> = {
  high_load: 'Read again when the box is at its set point with the doors shut.',
  head_pressure_control: 'Read again in warmer air, or with the control satisfied.',
  not_steady: 'Read again after 10 to 15 minutes of steady running.',
  reading_fault: 'Try the thermometer in ice water, the gauge off the machine with its hose open, and take the odd entries again.',
  low_charge: 'Look for oil at the joints, and for frost at drier or strainer.',
  weak_compressor: 'Have the compressor’s pumping tested by someone licensed to.',
  blocked_air: 'Look for what stands before the coil: boxes, a filter, a panel.',
};

/** Causes by belief, strongest first, with what speaks for and against each in words. */
export function causesOf(belief: Belief, measured: Measured | null, unit: CondenserUnit, looks: readonly NextLook[]): Cause[] {
  const facts = factsOf(belief, measured);
  const open = new Set<LookId>(looks.map((l) => l.look));
  return CAUSES.map((id) => {
    // What doubts the reading is what tells most of it; else the nearest look.
    const own = DECIDES[id];
    const look = id === 'reading_fault' ? looks.find((l) => own.includes(l.look))?.look : own.find((l) => open.has(l));
    return {
      id,
      weight: belief.probability[id],
      for: facts.filter((f) => f.for.includes(id)).map((f) => f.text),
      against: facts.filter((f) => f.against.includes(id)).map((f) => f.text),
      next: look ? lookWords(look, unit) : (AGAIN[id] ?? 'Nothing more to look at: go by what was seen.'),
    };
  }).sort((a, b) => b.weight - a.weight);
}
