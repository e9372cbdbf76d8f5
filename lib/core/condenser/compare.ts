import { figure, Z80 } from './bands';
import { differenceWords } from './words/both-units';
import { sifted } from './readings/doubts';
import { assumedGauge, gaugeSdPa } from './readings/instruments';
import { meanT } from './fluid/fluid';
import { isKnownRefrigerant } from './fluid/limits';
import { modelOf } from './machine/model';
import { unreadable } from './readings/readable';
import { meansOf, resolve } from './readings/resolve';
import { cannotSaySentence } from './words/sentence';
import { seeWithSpread, type Spreads } from './readings/spread';
import { scatterSd, SHORTEST_STEADY_MIN } from './readings/steadiness';
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
 * Part of an instrument's error that is the same before and after, as one gauge and one thermometer were used within
 * the hour: most of it cancels in the ratio. Readings a day or more apart share nothing.
 */
const SHARED_VARIANCE = 0.85;
const SAME_VISIT_MS = 6 * 3_600_000;
const SURE_SIGMA = 1.65;
/** A change smaller than this is none, however sure. */
const SMALLEST_CHANGE = 0.04;

/** What a cleaning did, from readings before and after it. "No change" is an outcome of its own: look for another cause. */
export function compareBeforeAfter(unit: CondenserUnit, before: Reading, after: Reading): BeforeAfter {
  const a = looked(unit, before);
  const b = looked(unit, after);
  if (typeof a === 'string') return no(a);
  if (typeof b === 'string') return no(b);
  const same = Math.abs(after.at - before.at) < SAME_VISIT_MS && JSON.stringify(before.gauge) === JSON.stringify(after.gauge);
  const shared = same ? SHARED_VARIANCE : 0;
  const which = a.means === b.means ? 'repeat' : 'whole';
  const [lnA, lnB] = [a.ln[which], b.ln[which]];
  const cancelled = shared * (a.instrument * a.instrument + b.instrument * b.instrument);
  const down = Math.hypot(lnA.up, lnB.down) ** 2 - cancelled;
  const up = Math.hypot(lnA.down, lnB.up) ** 2 - cancelled;
  const floor = 0.01;
  const change = lnB.value - lnA.value;
  const lo = change - Math.sqrt(Math.max(down, floor * floor));
  const hi = change + Math.sqrt(Math.max(up, floor * floor));
  const regained = figure(Math.expm1(change), Math.expm1(lo), Math.expm1(hi));
  const z = change / ((change > 0 ? change - lo : hi - change) / Z80);
  const real = Math.abs(z) > SURE_SIGMA && Math.abs(regained.value) > SMALLEST_CHANGE;
  const outcome = !real ? 'no_change' : change > 0 ? 'better' : 'worse';
  return {
    status: 'ok',
    outcome,
    regained,
    riseBeforeK: a.rise,
    riseAfterK: b.rise,
    sentence: told(outcome, a.rise.value, b.rise.value, regained),
  };
}

type Looked = { ln: Spreads; means: string; instrument: number; rise: Figure };

function looked(unit: CondenserUnit, entered: Reading): Looked | CannotSayReason {
  if (!isKnownRefrigerant(unit.refrigerant)) return 'unknown_refrigerant';
  const reading = sifted(unit, entered).sound;
  const lacking = unreadable(unit, entered) ?? (unreadable(unit, reading) && 'impossible_reading');
  if (lacking) return lacking;
  if (reading.steadyMinutes !== undefined && reading.steadyMinutes < SHORTEST_STEADY_MIN) return 'not_steady';
  const model = modelOf(unit);
  const resolved = model && resolve(unit, model, reading);
  if (!model || !resolved) return 'out_of_range';
  const s = seeWithSpread(model, resolved, scatterSd(reading));
  if (!(s.seen.riseK > 2)) return 'rise_too_small';
  const ln = s.lnConductance;
  if (![ln.whole.value, ln.whole.down, ln.whole.up].every(Number.isFinite)) return 'out_of_range';
  // Head and air instruments make most of the error of the rise; at 80 %, relative to the rise.
  const gauge = reading.gauge ?? assumedGauge(unit.refrigerant);
  const p = resolved.head.value;
  const headK =
    reading.headPaGauge === undefined
      ? resolved.head.sd
      : meanT(model.fluid, p + gaugeSdPa(gauge, reading.headPaGauge)) - s.seen.condensingK;
  const instrument = (Z80 * Math.hypot(headK, resolved.airK.sd)) / s.seen.riseK;
  const { value, down, up } = s.riseK;
  const most = Math.min(instrument, ln.repeat.down, ln.repeat.up);
  return { ln, means: meansOf(resolved), instrument: most, rise: figure(value, value - down, value + up) };
}

function no(reason: CannotSayReason): BeforeAfter {
  return { status: 'cannot_say', reason, sentence: cannotSaySentence(reason) };
}

function told(outcome: 'better' | 'no_change' | 'worse', before: number, after: number, regained: Figure): string {
  const p = (x: number) => Math.round(x * 100);
  const band = `${p(regained.value)} % (${p(regained.lo)}–${p(regained.hi)})`;
  const rise = `Head was ${differenceWords(before)} over the air before and ${differenceWords(after)} after.`;
  if (outcome === 'better') return `${rise} The coil carries ${band} more.`;
  if (outcome === 'worse') return `${rise} It carries less than before: check fan, air path and the readings.`;
  return `${rise} No change after cleaning: look for another cause.`;
}
