import { keysOf } from '../typed/closed-set';
import type { CircuitAccess, CondenserKind, UnitKind } from '../equipment/build';

type Span = readonly [lowest: number, highest: number];
const KELVIN: Span = [150, 600];
const AIR: Span = [200, 400];
const GAUGE: Span = [-110_000, 20_000_000];

/** `span`: what can be filed at all, SI; bounds of the database, not of sense. `first`: asked before the rest, on which circuits. */
type ReadingFieldInfo = {
  label: string;
  dimension: 'temperature' | 'pressure' | 'amps' | 'minutes';
  /** Where it is to be measured. */
  hint: string;
  /** Said in its place on a circuit on file as sealed: nobody is asked to open it for a number. */
  sealedHint?: string;
  span: Span;
  first?: readonly ('sealed' | 'ports')[];
  /** On which units it can be read at all; on all where nothing is said. */
  fits?: (unit: ReadUnit) => boolean;
};

type ReadUnit = { kind: UnitKind; condenserKind: CondenserKind; circuitAccess: CircuitAccess };
const byWater = (u: ReadUnit) => u.condenserKind === 'water_cooled';
const byAir = (u: ReadUnit) => !byWater(u);
const makesIce = (u: ReadUnit) => u.kind === 'ice_machine';

const SEALED = 'On file as sealed: only where a port has been fitted.';

const ANY = ['sealed', 'ports'] as const;

/**
 * The quantities of a reading, once, in the order the form asks for them; schema and migration hold a column of the same
 * name. SI. What the estimate makes of one is said in the condenser's room.
 */
export const FIELD_INFO = {
  headPaGauge: { label: 'Head pressure', dimension: 'pressure', hint: 'At the high-side service port.', sealedHint: SEALED, span: GAUGE, first: ['ports'] },
  condensingClampK: { label: 'Condenser bend, clamp', dimension: 'temperature', hint: 'Middle return bend of the condenser, insulated.', span: KELVIN, first: ['sealed'] },
  airInK: { label: 'Air into the coil', dimension: 'temperature', hint: 'At the face of the coil, not in the room.', span: AIR, first: ANY, fits: byAir },
  waterInK: { label: 'Water in', dimension: 'temperature', hint: 'Clamp on the pipe into the condenser.', span: AIR, first: ANY, fits: byWater },
  waterOutK: { label: 'Water out', dimension: 'temperature', hint: 'Clamp on the pipe out of the condenser.', span: AIR, first: ANY, fits: byWater },
  harvestMinutes: { label: 'Harvest takes', dimension: 'minutes', hint: 'From hot gas on until the plate is bare.', span: [0, 240], first: ANY, fits: makesIce },
  boxK: { label: 'Box', dimension: 'temperature', hint: 'In product or simulant, not the display.', span: AIR, first: ANY, fits: (u) => !makesIce(u) && u.kind !== 'remote_condensing_unit' },
  suctionPaGauge: { label: 'Suction pressure', dimension: 'pressure', hint: 'At the low-side service port.', sealedHint: SEALED, span: GAUGE },
  suctionLineK: { label: 'Suction line', dimension: 'temperature', hint: 'Clamp near the compressor.', span: KELVIN },
  liquidLineK: { label: 'Liquid line', dimension: 'temperature', hint: 'Clamp at the condenser outlet.', span: KELVIN },
  dischargeLineK: { label: 'Discharge line', dimension: 'temperature', hint: '6 in (15 cm) from the compressor. Hot: clamp with the unit off.', span: [150, 700] },
  ampsA: { label: 'Compressor current', dimension: 'amps', hint: '', span: [0, 1000] },
  steadyMinutes: { label: 'Running steadily for', dimension: 'minutes', hint: '10 to 15 minutes before a reading means anything.', span: [0, 1440], first: ANY },
  roomAirK: { label: 'Room air', dimension: 'temperature', hint: '', span: AIR, fits: byAir },
  headAgainPaGauge: { label: 'Head pressure again', dimension: 'pressure', hint: 'With another gauge.', sealedHint: SEALED, span: GAUGE },
  airAgainK: { label: 'Coil air again', dimension: 'temperature', hint: 'With another thermometer, beside the first.', span: AIR, fits: byAir },
  offCyclePaGauge: { label: 'Standing pressure', dimension: 'pressure', hint: 'Compressor off, condenser at air temperature.', sealedHint: SEALED, span: GAUGE },
  offCycleAirK: { label: 'Air while standing', dimension: 'temperature', hint: '', span: AIR, fits: byAir },
} as const satisfies Record<string, ReadingFieldInfo>; // prettier-ignore

export type ReadingField = keyof typeof FIELD_INFO;
export const READING_FIELDS = keysOf(FIELD_INFO);
export const isReadingField = (key: string): key is ReadingField => Object.hasOwn(FIELD_INFO, key);
export const readingSpan = (field: ReadingField): Span => FIELD_INFO[field].span;

export function readingHint(field: ReadingField, unit: Pick<ReadUnit, 'circuitAccess'>): string {
  const info: ReadingFieldInfo = FIELD_INFO[field];
  return (unit.circuitAccess === 'sealed' && info.sealedHint) || info.hint;
}

/** What can be read on a unit: no air where water cools it, no box where it makes ice. */
export function fitsUnit(field: ReadingField, unit: ReadUnit): boolean {
  const info: ReadingFieldInfo = FIELD_INFO[field];
  return info.fits?.(unit) ?? true;
}

/** What is asked first: a clamp on sealed systems, a gauge where there are ports. The rest is one tap away. */
export function askedFirst(field: ReadingField, unit: ReadUnit): boolean {
  const info: ReadingFieldInfo = FIELD_INFO[field];
  return fitsUnit(field, unit) && (info.first?.includes(unit.circuitAccess) ?? false);
}
