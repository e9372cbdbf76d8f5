import { cleanPrior } from './baseline';
import { figure, Z80 } from './bands';
import { isKnownRefrigerant } from './fluid/limits';
import { conductanceSeen } from './inference/infer';
import { sceneOf } from './inference/scene';
import { sifted } from './readings/doubts';
import { measuredOf, meansOf } from './readings/measured';
import { unreadable } from './readings/readable';
import { SHORTEST_STEADY_MIN } from './readings/steadiness';
import { differenceWords } from './words/both-units';
import { cannotSaySentence } from './words/sentence';
import type { CannotSayReason, CondenserUnit, Figure, Reading } from './types';

export type BeforeAfter =
  | {
      status: 'ok';
      outcome: 'better' | 'no_change' | 'worse';
      /** Conductance after over before, less one: 0.25 is a quarter more. */
      regained: Figure;
      riseBeforeK: Figure;
      riseAfterK: Figure;
      sentence: string;
    }
  | { status: 'cannot_say'; reason: CannotSayReason; sentence: string };

/**
 * What is left of a reading's error against another of the same visit: one gauge, one thermometer, one machine, within the
 * hour (judgement). Readings a day or more apart share the machine's own errors only.
 */
const LEFT_SAME_VISIT = 0.4;
const SAME_VISIT_MS = 6 * 3_600_000;
const SURE_SIGMA = 1.65;
const LEAST_SD = 0.02;
/** A change smaller than this is none, however sure. */
const SMALLEST_CHANGE = 0.04;

/** What a cleaning did, from readings before and after it. "No change" is an outcome of its own: look for another cause. */
export function compareBeforeAfter(unit: CondenserUnit, before: Reading, after: Reading): BeforeAfter {
  const a = looked(unit, before);
  const b = looked(unit, after);
  if (typeof a === 'string') return no(a);
  if (typeof b === 'string') return no(b);
  const same = Math.abs(after.at - before.at) < SAME_VISIT_MS && JSON.stringify(before.gauge) === JSON.stringify(after.gauge);
  const alike = a.means === b.means;
  const sdOf = (x: Looked) => (alike ? (same ? LEFT_SAME_VISIT * x.repeatSd : x.repeatSd) : x.sd);
  const sd = Math.max(Math.hypot(sdOf(a), sdOf(b)), LEAST_SD);
  const change = b.lnK - a.lnK;
  const lo = change - Z80 * sd;
  const hi = change + Z80 * sd;
  const regained = figure(Math.expm1(change), Math.expm1(lo), Math.expm1(hi));
  const z = change / sd;
  const real = Math.abs(z) > SURE_SIGMA && Math.abs(regained.value) > SMALLEST_CHANGE;
  const outcome = !real ? 'no_change' : change > 0 ? 'better' : 'worse';
  return {
    status: 'ok',
    outcome,
    regained,
    riseBeforeK: a.rise,
    riseAfterK: b.rise,
    sentence: outcomeSentence(outcome, a.rise.value, b.rise.value, regained),
  };
}

type Looked = { lnK: number; sd: number; repeatSd: number; means: string; rise: Figure };

function looked(unit: CondenserUnit, entered: Reading): Looked | CannotSayReason {
  if (!isKnownRefrigerant(unit.refrigerant)) return 'unknown_refrigerant';
  const reading = sifted(unit, entered).sound;
  const lacking = unreadable(unit, entered) ?? (unreadable(unit, reading) && 'impossible_reading');
  if (lacking) return lacking;
  if (reading.steadyMinutes !== undefined && reading.steadyMinutes < SHORTEST_STEADY_MIN) return 'not_steady';
  const scene = sceneOf(unit, reading, cleanPrior(unit), { learnt: false });
  const measured = scene && measuredOf(scene);
  if (!scene || !measured) return 'out_of_range';
  if (!(measured.riseK.value > 2)) return 'rise_too_small';
  const seen = conductanceSeen(scene);
  if (!seen) return 'out_of_range';
  return { ...seen, means: meansOf(reading), rise: measured.riseK };
}

function no(reason: CannotSayReason): BeforeAfter {
  return { status: 'cannot_say', reason, sentence: cannotSaySentence(reason) };
}

function outcomeSentence(outcome: 'better' | 'no_change' | 'worse', before: number, after: number, regained: Figure): string {
  const p = (x: number) => Math.round(x * 100);
  const band = `${p(regained.value)} % (${p(regained.lo)}–${p(regained.hi)})`;
  const rise = `Head was ${differenceWords(before)} over the air before and ${differenceWords(after)} after.`;
  if (outcome === 'better') return `${rise} The coil carries ${band} more.`;
  if (outcome === 'worse') return `${rise} It carries less than before: check fan, air path and the readings.`;
  return `${rise} No change after cleaning: look for another cause.`;
}
