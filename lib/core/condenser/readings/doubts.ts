import { entriesOf } from '../../typed/closed-set';
import { atmosphereAt } from '../../measures';
import { differenceWords, temperatureWords } from '../words/both-units';
import { fluidOf, meanT } from '../fluid/fluid';
import { isKnownRefrigerant } from '../fluid/limits';
import type { CondenserUnit, Doubt, Reading } from '../types';

const C = (c: number) => c + 273.15;
const psi = (pa: number) => `${Math.round(pa / 6894.757)} psig`;

/** Temperatures outside of which a kitchen or its machines are not to be believed, K. */
const PLAUSIBLE: Partial<Record<keyof Reading, readonly [number, number, string]>> = {
  airInK: [C(-35), C(65), 'air at the coil'],
  airAgainK: [C(-35), C(65), 'air at the coil'],
  roomAirK: [C(-35), C(60), 'room air'],
  offCycleAirK: [C(-35), C(60), 'air while it stood'],
  boxK: [C(-45), C(40), 'box'],
  liquidLineK: [C(-30), C(90), 'liquid line'],
  suctionLineK: [C(-60), C(50), 'suction line'],
  dischargeLineK: [C(0), C(165), 'discharge line'],
  condensingClampK: [C(-20), C(95), 'condenser bend'],
};

/** The reading without the entries that cannot be so. */
function withoutImpossible(reading: Reading, doubts: readonly Doubt[]): Reading {
  const out = { ...reading };
  for (const d of doubts) if (d.leftOut && d.field !== 'at' && d.field !== 'phase') delete out[d.field];
  for (const [first, again] of TWICE) {
    if (out[first] !== undefined) continue;
    out[first] = out[again];
    delete out[again];
  }
  return out;
}

/** What may be read a second time with another instrument, which stands in where the first says nothing. */
const TWICE = [
  ['headPaGauge', 'headAgainPaGauge'],
  ['airInK', 'airAgainK'],
] as const;

/**
 * Entries that cannot be or hardly can be, as questions to whoever typed them: asked, never silently taken and
 * never silently dropped. Empty when nothing is odd.
 */
export function questionReading(unit: CondenserUnit, reading: Reading): Doubt[] {
  // Without properties, with water instead of air, or above the critical point there is nothing to compare with.
  if (!isKnownRefrigerant(unit.refrigerant) || unit.refrigerant === 'R744') return numbers(reading);
  if (unit.condenserKind === 'water_cooled') return [...numbers(reading), ...pressures(unit, reading)];
  const impossible = [...numbers(reading), ...ranges(reading), ...pressures(unit, reading)];
  return [...impossible, ...relations(unit, withoutImpossible(reading, impossible))];
}

/** What of a reading can be worked with, and what there is to ask of it. */
export function sifted(unit: CondenserUnit, reading: Reading): { sound: Reading; doubts: Doubt[] } {
  const doubts = questionReading(unit, reading);
  return { sound: withoutImpossible(reading, doubts), doubts };
}

function numbers(reading: Reading): Doubt[] {
  return entriesOf(reading)
    .filter(([, v]) => typeof v === 'number' && !Number.isFinite(v))
    .map(([field]) => ({ field, question: 'That is not a number. What did the instrument show?', leftOut: true }));
}

function ranges(reading: Reading): Doubt[] {
  const doubts: Doubt[] = [];
  for (const [field, [lo, hi, name]] of Object.entries(PLAUSIBLE) as [keyof Reading, readonly [number, number, string]][]) {
    const value = reading[field];
    if (typeof value === 'number' && (value < lo || value > hi))
      doubts.push({
        field,
        question: `${temperatureWords(value)} for ${name}: is the unit or the number mistyped?`,
        leftOut: true,
      });
  }
  if (reading.ampsA !== undefined && (reading.ampsA < 0 || reading.ampsA > 100))
    doubts.push({ field: 'ampsA', question: `${reading.ampsA} A: is the decimal point right?` });
  if (reading.steadyMinutes !== undefined && reading.steadyMinutes < 0)
    doubts.push({ field: 'steadyMinutes', question: 'Minutes of running cannot be negative.', leftOut: true });
  return doubts;
}

function pressures(unit: CondenserUnit, r: Reading): Doubt[] {
  const fluid = fluidOf(unit.refrigerant);
  const atmosphere = atmosphereAt(unit.altitudeM);
  const doubts: Doubt[] = [];
  for (const field of ['headPaGauge', 'headAgainPaGauge', 'suctionPaGauge', 'offCyclePaGauge'] as const) {
    const gauge = r[field];
    if (gauge === undefined || !Number.isFinite(gauge)) continue;
    if (gauge <= -atmosphere) doubts.push({ field, question: 'Below a perfect vacuum: is the sign right?', leftOut: true });
    else if (Number.isNaN(fluid.dewT(gauge + atmosphere)))
      doubts.push({
        field,
        question: `${psi(gauge)} is outside what ${unit.refrigerant} can condense at: right refrigerant, right unit?`,
        leftOut: true,
      });
    if (r.gauge && gauge > r.gauge.spanPa) doubts.push({ field, question: 'More than the gauge can show: which gauge was it?' });
  }
  if (unit.cutoutPaGauge && r.headPaGauge !== undefined && r.headPaGauge > unit.cutoutPaGauge * 1.03)
    doubts.push({
      field: 'headPaGauge',
      question: `Above its cut-out of ${psi(unit.cutoutPaGauge)}, yet running: check the entry and the cut-out.`,
    });
  return doubts;
}

/** Temperatures that a reading puts beside each other, K; NaN where it lacks one of them, and then nothing is asked. */
type Beside = ReturnType<typeof besideOf>;
export function besideOf(unit: CondenserUnit, r: Reading) {
  const fluid = fluidOf(unit.refrigerant);
  const atmosphere = atmosphereAt(unit.altitudeM);
  const gauged = r.headPaGauge !== undefined;
  const p2 = (r.headPaGauge ?? NaN) + atmosphere;
  const clamp = r.condensingClampK ?? NaN;
  return {
    condensing: gauged ? meanT(fluid, p2) : clamp,
    /** What the condensing temperature was read with. */
    by: gauged ? ('headPaGauge' as const) : ('condensingClampK' as const),
    /** The clamp, where a gauge can be held against it. */
    bend: gauged ? clamp : NaN,
    dew: fluid.dewT(p2),
    air: r.airInK ?? r.roomAirK ?? NaN,
    evaporating: r.suctionPaGauge === undefined ? NaN : fluid.dewT(r.suctionPaGauge + atmosphere),
    liquid: r.liquidLineK ?? NaN,
    /** By how much two instruments that read the same are apart. */
    gauges: Math.abs(meanT(fluid, (r.headAgainPaGauge ?? NaN) + atmosphere) - meanT(fluid, p2)),
    thermometers: Math.abs((r.airAgainK ?? NaN) - (r.airInK ?? NaN)),
    discharge: r.dischargeLineK ?? NaN,
    suction: r.suctionLineK ?? NaN,
  };
}

type Ask = (when: boolean, field: keyof Reading, question: string, leftOut?: true) => void;

function relations(unit: CondenserUnit, r: Reading): Doubt[] {
  const doubts: Doubt[] = [];
  const ask: Ask = (when, field, question, leftOut) => void (when && doubts.push({ field, question, ...(leftOut ? { leftOut } : {}) }));
  const beside = besideOf(unit, r);
  highSide(beside, ask);
  ask(
    (r.headPaGauge ?? NaN) - (r.suctionPaGauge ?? NaN) <= 0,
    'suctionPaGauge',
    'Suction is not below head: are the hoses crossed, or was it standing?',
    true,
  );
  lines(beside, r, ask);
  return doubts;
}

/** From here two instruments that read the same are asked about, K: some three spreads of a sound pair (judgement). */
export const APART_K = 4;

function highSide({ condensing, by, bend, air, gauges, thermometers }: Beside, ask: Ask): void {
  ask(
    condensing <= air,
    by,
    `Condensing at ${temperatureWords(condensing)} in air of ${temperatureWords(air)}: it cannot give off heat. Was it running?`,
  );
  ask(condensing - air > 45, by, `${differenceWords(condensing - air)} over the air: right refrigerant and right gauge?`);
  ask(
    bend - condensing > 5,
    'condensingClampK',
    `Bend at ${temperatureWords(bend)}, yet the gauge says ${temperatureWords(condensing)}: it cannot be hotter than that. Which is wrong?`,
  );
  ask(
    condensing - bend > 7,
    'headPaGauge',
    `Gauge says ${temperatureWords(condensing)}, the bend ${temperatureWords(bend)}: air in the system, or is the gauge off?`,
  );
  ask(gauges > APART_K, 'headAgainPaGauge', `Gauges ${differenceWords(gauges)} apart: which shows 0 off the machine, hose open?`);
  ask(thermometers > APART_K, 'airAgainK', `Thermometers ${differenceWords(thermometers)} apart: which is right in ice water?`);
}

function lines({ liquid, discharge, suction, evaporating, dew, air }: Beside, r: Reading, ask: Ask): void {
  ask(liquid > dew + 2, 'liquidLineK', 'Liquid line hotter than condensing: is the clamp on the discharge line?');
  ask(liquid < air - 3, 'liquidLineK', 'Liquid colder than the air that cools it: where was the clamp?');
  ask(discharge < dew - 2, 'dischargeLineK', 'Discharge colder than condensing: clamp loose, or liquid coming back?');
  ask(suction < evaporating - 2, 'suctionLineK', 'Suction line colder than evaporating: gauge, clamp or refrigerant is wrong.');
  ask(
    evaporating > (r.boxK ?? NaN) + 2,
    'suctionPaGauge',
    'Evaporating warmer than the box: it would heat it. Check gauge and refrigerant.',
  );
  ask(Math.abs((r.airInK ?? NaN) - (r.roomAirK ?? NaN)) > 20, 'airInK', 'Coil air and room air are far apart: is one of them mistyped?');
}
