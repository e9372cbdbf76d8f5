import { entryUnit, ownUnitOf } from '../measures/entry-units';
import type { MeasureUnits } from '../measures/preferred';
import { FILLER_FOR } from './steps';
import { RECOVERED_FOR_LABEL, TUBE_LINE_LABEL, type SealedWork, type Weighed } from './work';

type Line = readonly [label: string, value: string];

function measured(measure: 'mass' | 'pressure' | 'temperature', si: number, units: MeasureUnits, decimals = 1): string {
  const { fromSi, label } = entryUnit(measure, ownUnitOf(measure, units));
  return `${fromSi(si).toFixed(decimals).replace(/\.0+$/, '').replace('-', '−')} ${label}`;
}
/** A cylinder's scale reads pounds or kilograms, whatever a charge is weighed in. */
function onScale(kg: number, units: MeasureUnits): string {
  const { fromSi, label } = entryUnit('mass', units.mass === 'oz' ? 'lb' : 'kg');
  return `${fromSi(kg).toFixed(3)} ${label}`;
}
/** A step that was refused may hold something else where yes or no was asked: it is told as it came, never as yes. */
function yes(x: unknown): string {
  if (typeof x === 'boolean') return x ? 'yes' : 'no';
  return x === undefined || x === null || x === '' ? 'not answered (yes or no was asked)' : `“${String(x)}” (yes or no was asked)`;
}
const JOINT = {
  copper_copper: 'copper to copper',
  copper_steel: 'copper to steel',
  copper_brass: 'copper to brass',
  other: 'other',
} as const;

function weighing(w: Weighed, units: MeasureUnits, cylinder: CylinderName): Line[] {
  const named = w.cylinderId === null ? `${w.cylinderWords} (not on file)` : (cylinder(w.cylinderId) ?? 'on file');
  return [
    ['Cylinder', named],
    ['Weight', measured('mass', Math.abs(w.endKg - w.startKg), units)],
    ['Scale', `${onScale(w.startKg, units)} before, ${onScale(w.endKg, units)} after`],
  ];
}

type Work<S extends SealedWork['step']> = Extract<SealedWork, { step: S }>;
type CylinderName = (id: string) => string | undefined;

/** What was done at a step, in words, in the reader's units. */
export function workLines(work: SealedWork, units: MeasureUnits, cylinder: CylinderName = () => undefined): Line[] {
  switch (work.step) {
    case 'isolate':
      return [['Proven dead', yes(work.provenDead)], ...flammableLines(work.flammable)];
    case 'recover':
      return [
        ...weighing(work, units, cylinder),
        ...lineOf('Down to', work.levelPaGauge, (pa) => measured('pressure', pa, units)),
        ['What becomes of it', RECOVERED_FOR_LABEL[work.recoveredFor].toLowerCase()],
      ];
    case 'open':
      return [['How', work.how]];
    case 'braze':
      return [
        ['Joints', work.joints.map((j) => `${j.count} ${JOINT[j.joint]} (${FILLER_FOR[j.joint]})`).join('; ')],
        ['Nitrogen flowing', yes(work.nitrogen)],
        ['Wet rag', yes(work.wetRag)],
        ['Fire watch', `${work.fireWatchMinutes} min`],
      ];
    case 'drier':
      return drierLines(work);
    case 'pressure_test':
      return [
        ['Start', `${measured('pressure', work.start.paGauge, units)} at ${measured('temperature', work.start.temperatureK, units)}`],
        ['End', `${measured('pressure', work.end.paGauge, units)} at ${measured('temperature', work.end.temperatureK, units)}`],
      ];
    case 'evacuate':
      return [['Vacuum', vacuumWords(work)]];
    case 'charge':
      return [...weighing(work, units, cylinder), ...wanted(work, units)];
    case 'running_check':
      return [['Ran for', `${work.minutes} min`]];
  }
}

function wanted({ targetKg, band }: Work<'charge'>, units: MeasureUnits): Line[] {
  const own = (kg: number) => measured('mass', kg, units);
  return lineOf('Wanted', targetKg, (kg) => (band ? `${own(kg)} (${own(band[0])} to ${own(band[1])}, four times in five)` : own(kg)));
}

/** A line where something was entered. */
const lineOf = <T>(label: string, value: T | null | undefined, say: (value: T) => string): Line[] =>
  value === null || value === undefined ? [] : [[label, say(value)]];

function flammableLines(f: Work<'isolate'>['flammable']): Line[] {
  if (!f) return [];
  return [
    ['Ventilated', yes(f.ventilated)],
    ['Detector on', yes(f.detector)],
    ['No ignition source', yes(f.noIgnition)],
    ...lineOf('Room', f.roomM2, (m2) => `${Number(m2.toPrecision(3))} m²`),
  ];
}

function drierLines({ drier, capillary, tubes }: Work<'drier'>): Line[] {
  return [
    ['Drier', drier],
    ...lineOf('Capillary', capillary, (c) => `${(c.boreM * 1000).toFixed(2)} mm bore, ${c.lengthM.toFixed(2)} m`),
    ...tubes.map((t): Line => [TUBE_LINE_LABEL[t.line], `${t.before ?? 'none'} to ${t.now ?? 'none'} in, ${t.lengthM.toFixed(2)} m`]),
  ];
}

function vacuumWords({ readings }: Work<'evacuate'>): string {
  const [first, last] = [readings[0], readings.at(-1)];
  const minutes = (last?.minutes ?? 0) - (first?.minutes ?? 0);
  return `${first?.microns ?? '?'} to ${last?.microns ?? '?'} microns in ${minutes} min with the pump shut off, ${readings.length} readings`;
}
