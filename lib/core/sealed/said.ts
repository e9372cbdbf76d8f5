import { entryUnit, ownUnitOf } from '../measures/entry-units';
import type { MeasureUnits } from '../measures/preferred';
import { FILLER_FOR } from './steps';
import { RECOVERED_FOR_LABEL, TUBE_LINE_LABEL, type SealedWork, type Weighed } from './work';

type Line = readonly [label: string, value: string];

function measured(measure: 'mass' | 'pressure' | 'temperature', si: number, units: MeasureUnits, decimals = 1): string {
  const { fromSi, label } = entryUnit(measure, ownUnitOf(measure, units));
  return `${fromSi(si).toFixed(decimals).replace(/\.0+$/, '').replace('-', '−')} ${label}`;
}
const yes = (x: boolean) => (x ? 'yes' : 'no');
const JOINT = {
  copper_copper: 'copper to copper',
  copper_steel: 'copper to steel',
  copper_brass: 'copper to brass',
  other: 'other',
} as const;

function weighing(w: Weighed, units: MeasureUnits, cylinder: (id: string) => string | undefined): Line[] {
  const named = w.cylinderId === null ? `${w.cylinderWords} (not on file)` : (cylinder(w.cylinderId) ?? 'on file');
  return [
    ['Cylinder', named],
    ['Weight', measured('mass', Math.abs(w.endKg - w.startKg), units)],
    ['Scale', `${measured('mass', w.startKg, units)} before, ${measured('mass', w.endKg, units)} after`],
  ];
}

/** What was done at a step, in words, in the reader's units. */
export function workLines(work: SealedWork, units: MeasureUnits, cylinder: (id: string) => string | undefined = () => undefined): Line[] {
  switch (work.step) {
    case 'isolate':
      return [
        ['Proven dead', yes(work.provenDead)],
        ...(work.flammable
          ? ([
              ['Ventilated', yes(work.flammable.ventilated)],
              ['Detector on', yes(work.flammable.detector)],
              ['No ignition source', yes(work.flammable.noIgnition)],
              ...(work.flammable.roomM2 === null ? [] : [['Room', `${Number(work.flammable.roomM2.toPrecision(3))} m²`] as const]),
            ] as Line[])
          : []),
      ];
    case 'recover':
      return [
        ...weighing(work, units, cylinder),
        ...(work.levelPaGauge === null ? [] : [['Down to', measured('pressure', work.levelPaGauge, units)] as const]),
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
      return [
        ['Drier', work.drier],
        ...(work.capillary
          ? ([['Capillary', `${(work.capillary.boreM * 1000).toFixed(2)} mm bore, ${work.capillary.lengthM.toFixed(2)} m`]] as Line[])
          : []),
        ...work.tubes.map((t): Line => [
          TUBE_LINE_LABEL[t.line],
          `${t.before ?? 'none'} to ${t.now ?? 'none'} in, ${t.lengthM.toFixed(2)} m`,
        ]),
      ];
    case 'pressure_test':
      return [
        ['Start', `${measured('pressure', work.start.paGauge, units)} at ${measured('temperature', work.start.temperatureK, units)}`],
        ['End', `${measured('pressure', work.end.paGauge, units)} at ${measured('temperature', work.end.temperatureK, units)}`],
      ];
    case 'evacuate': {
      const [first, last] = [work.readings[0], work.readings.at(-1)];
      return [
        [
          'Vacuum',
          `${first?.microns ?? '?'} to ${last?.microns ?? '?'} microns in ${(last?.minutes ?? 0) - (first?.minutes ?? 0)} min, ${work.readings.length} readings`,
        ],
      ];
    }
    case 'charge':
      return [
        ...weighing(work, units, cylinder),
        ...(work.targetKg === null ? [] : [['Wanted', measured('mass', work.targetKg, units)] as const]),
      ];
    case 'running_check':
      return [['Ran for', `${work.minutes} min`]];
  }
}
