import type { Me } from '@/lib/core/tablet';
import { typedNumber } from '@/lib/core/measures/typed-number';
import { entryUnit, ownUnitOf, type Measure } from '@/lib/core/measures/entry-units';
import { measureUnitsOf } from '@/lib/core/tablet';
import { FILLERS, type SealedStep } from '@/lib/core/sealed/steps';
import { TUBE_SIZES } from '@/lib/core/sealed/tubing';
import { RECOVERED_FOR, TUBE_LINES, type ChangedTube, type SealedWork, type Weighed } from '@/lib/core/sealed/work';
import { readVacuumText } from '@/lib/core/sealed/vacuum-text';

/** A step as it is being typed: texts by the name of their field, ticks as "yes". Every word is kept as it is typed. */
export type Draft = Readonly<Record<string, string>>;
export const NO_DRAFT: Draft = {};

export type DraftUnit = { measure: Measure; unit: string; label: string };

/** The technician's own units on this work: a cylinder's scale reads pounds or kilograms, whatever a charge is weighed in. */
export function draftUnits(me: Pick<Me, 'temperatureUnit' | 'pressureUnit' | 'massUnit'>) {
  const own = measureUnitsOf(me);
  const of = (measure: Measure, unit = ownUnitOf(measure, own)): DraftUnit => ({ measure, unit, label: entryUnit(measure, unit).label });
  return {
    scale: of('mass', me.massUnit === 'oz' ? 'lb' : 'kg'),
    charge: of('mass'),
    pressure: of('pressure'),
    temperature: of('temperature'),
    length: of('length'),
  };
}
export type DraftUnits = ReturnType<typeof draftUnits>;

/** SI of a typed text; null where nothing, or no number, stands there. */
export function siOf(text: string | undefined, { measure, unit }: DraftUnit): number | null {
  const n = typedNumber(text ?? '');
  return n === null ? null : entryUnit(measure, unit).toSi(n);
}
export const fromSi = (si: number, { measure, unit }: DraftUnit, digits = 4): string =>
  String(Number(entryUnit(measure, unit).fromSi(si).toPrecision(digits)));

const FOOT_M2 = 0.3048 * 0.3048;
const INCH_M = 0.0254;
const CM3 = 1e-6;
const inFeet = (u: DraftUnits) => u.length.unit === 'ft';
/** Of a room's floor, and of a capillary's bore. */
export const areaUnit = (u: DraftUnits) =>
  inFeet(u) ? { label: 'ft²', toSi: (x: number) => x * FOOT_M2 } : { label: 'm²', toSi: (x: number) => x };
export const boreUnit = (u: DraftUnits) =>
  inFeet(u) ? { label: 'in', toSi: (x: number) => x * INCH_M } : { label: 'mm', toSi: (x: number) => x / 1000 };

export type Given = {
  units: DraftUnits;
  flammable: boolean;
  /** What was reckoned for the charge, kg. */
  charge: { plateKg: number | null; targetKg: number | null; band: readonly [number, number] | null };
  reading: { id: string; minutes: number } | null;
};
/** The work in SI, or what is still to be said. */
export type Typed = { work: SealedWork } | { lacks: string };

const yes = (d: Draft, key: string) => d[key] === 'yes';
const said = (d: Draft, key: string) => (d[key] ?? '').trim();
const positive = (n: number | null): number | null => (n !== null && n > 0 ? n : null);

/** Where a cylinder that is not on file is named in words. */
export const ELSEWHERE = 'elsewhere';

function weighed(d: Draft, { units }: Given): Weighed | string {
  const [startKg, endKg] = [positive(siOf(d.start, units.scale)), positive(siOf(d.end, units.scale))];
  const elsewhere = d.cylinder === ELSEWHERE;
  if (!d.cylinder || (elsewhere && said(d, 'cylinderWords') === '')) return 'Say which cylinder.';
  if (startKg === null || endKg === null) return 'Weigh the cylinder before and after.';
  return { cylinderId: elsewhere ? null : d.cylinder, cylinderWords: elsewhere ? said(d, 'cylinderWords') : '', startKg, endKg };
}

type Reads = { [S in SealedStep]: (d: Draft, given: Given) => Typed };

const READS: Reads = {
  isolate: (d, { flammable, units }) => {
    if (!yes(d, 'dead')) return { lacks: 'Prove it dead first.' };
    if (!flammable) return { work: { step: 'isolate', provenDead: true, flammable: null } };
    const all = ['ventilated', 'detector', 'ignition'].every((key) => yes(d, key));
    if (!all) return { lacks: 'Ventilation, detector and ignition come before anything is opened.' };
    const room = positive(typedNumber(d.room ?? ''));
    return {
      work: {
        step: 'isolate',
        provenDead: true,
        flammable: { ventilated: true, detector: true, noIgnition: true, roomM2: room === null ? null : areaUnit(units).toSi(room) },
      },
    };
  },
  recover: (d, given) => {
    const w = weighed(d, given);
    if (typeof w === 'string') return { lacks: w };
    if (w.endKg < w.startKg) return { lacks: 'After recovering the cylinder weighs more, not less.' };
    const recoveredFor = RECOVERED_FOR.find((r) => r === d.recoveredFor);
    if (!recoveredFor) return { lacks: 'Say what becomes of it.' };
    return { work: { step: 'recover', ...w, levelPaGauge: siOf(d.level, given.units.pressure), recoveredFor } };
  },
  open: (d) => (said(d, 'how') === '' ? { lacks: 'Say how it was opened.' } : { work: { step: 'open', how: said(d, 'how') } }),
  braze: (d) => {
    const joints = FILLERS.flatMap((joint) => {
      const count = typedNumber(d[joint] ?? '');
      return count !== null && count >= 1 ? [{ joint, count: Math.round(count) }] : [];
    });
    if (joints.length === 0) return { lacks: 'Count the joints.' };
    const fireWatchMinutes = typedNumber(d.watch ?? '');
    if (fireWatchMinutes === null || fireWatchMinutes < 0) return { lacks: 'Say how long somebody watched for fire.' };
    return { work: { step: 'braze', joints, nitrogen: yes(d, 'nitrogen'), wetRag: yes(d, 'rag'), fireWatchMinutes } };
  },
  drier: (d, { units }) => {
    const cm3 = (key: string) => {
      const n = positive(typedNumber(d[key] ?? ''));
      return n === null ? null : n * CM3;
    };
    const tubes = TUBE_LINES.flatMap((line): ChangedTube[] => {
      const lengthM = positive(siOf(d[`${line}.length`], units.length));
      const size = (key: string) => TUBE_SIZES.find((s) => s === d[`${line}.${key}`]) ?? null;
      const [before, now] = [size('before'), size('now')];
      return lengthM !== null && (before ?? now) !== null ? [{ line, before, now, lengthM }] : [];
    });
    const [bore, length] = [positive(typedNumber(d.bore ?? '')), positive(siOf(d.capillary, units.length))];
    if ((bore === null) !== (length === null)) return { lacks: 'A capillary has a bore and a length.' };
    if (said(d, 'drier') === '') return { lacks: 'Say which drier was fitted.' };
    return {
      work: {
        step: 'drier',
        drier: said(d, 'drier'),
        drierBeforeM3: cm3('drierBefore'),
        drierNowM3: cm3('drierNow'),
        condenserBeforeM3: cm3('condenserBefore'),
        condenserNowM3: cm3('condenserNow'),
        capillary: bore !== null && length !== null ? { boreM: boreUnit(units).toSi(bore), lengthM: length } : null,
        tubes,
      },
    };
  },
  pressure_test: (d, { units }) => {
    const at = (key: 'start' | 'end') => {
      const [paGauge, temperatureK] = [siOf(d[`${key}P`], units.pressure), siOf(d[`${key}T`], units.temperature)];
      return paGauge === null || temperatureK === null || !d[`${key}At`] ? null : { at: d[`${key}At`] ?? '', paGauge, temperatureK };
    };
    const [start, end] = [at('start'), at('end')];
    if (!start) return { lacks: 'Begin the test: pressure and tube temperature.' };
    if (!end) return { lacks: 'End the test: pressure and tube temperature again.' };
    if (!(Date.parse(end.at) > Date.parse(start.at))) return { lacks: 'The test ends after it began.' };
    const gaugeDivisionPa = positive(siOf(d.division, units.pressure));
    if (gaugeDivisionPa === null) return { lacks: 'Say what one division of the gauge is.' };
    return {
      work: { step: 'pressure_test', platePaGauge: yes(d, 'noPlate') ? null : siOf(d.plate, units.pressure), gaugeDivisionPa, start, end },
    };
  },
  evacuate: (d) => {
    const { readings } = readVacuumText(d.readings ?? '');
    const limitMicrons = positive(typedNumber(d.limit ?? ''));
    if (limitMicrons === null) return { lacks: 'Say where it may level off, in microns.' };
    return readings.length < 2
      ? { lacks: 'At least two readings after the pump was shut off.' }
      : { work: { step: 'evacuate', limitMicrons, readings } };
  },
  charge: (d, given) => {
    const w = weighed(d, given);
    if (typeof w === 'string') return { lacks: w };
    if (w.endKg > w.startKg) return { lacks: 'After charging the cylinder weighs less, not more.' };
    return { work: { step: 'charge', ...w, ...given.charge } };
  },
  running_check: (_, { reading }) =>
    reading
      ? { work: { step: 'running_check', readingId: reading.id, minutes: reading.minutes } }
      : { lacks: 'Read it after an hour of steady running.' },
};

export const typedWork = (step: SealedStep, draft: Draft, given: Given): Typed => READS[step](draft, given);
