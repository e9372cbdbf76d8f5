import { BAR_PA, celsiusToKelvin, fahrenheitToKelvin, kelvinToCelsius, kelvinToFahrenheit, PSI_PA } from '../measures';
import type { MeasureUnits } from '../measures/preferred';
import type { ReadingField } from '../entries/entries';
import type { Me } from './state';

/** Readings as the technician's own instruments show them, and back to SI. */

export type OwnUnits = Pick<Me, 'temperatureUnit' | 'pressureUnit'>;
/** The same for everything that is not a reading. */
export const measureUnitsOf = (me: Pick<Me, 'temperatureUnit' | 'pressureUnit' | 'massUnit'>): MeasureUnits => ({
  temperature: me.temperatureUnit,
  pressure: me.pressureUnit,
  mass: me.massUnit,
});

type Dimension = 'temperature' | 'pressure' | 'amps' | 'minutes';

type FieldInfo = { label: string; dimension: Dimension; hint: string };
/** Words for each quantity, and where it is to be measured. */
export const FIELD_INFO: Record<ReadingField, FieldInfo> = {
  headPaGauge: { label: 'Head pressure', dimension: 'pressure', hint: 'Only where there are service ports.' },
  condensingClampK: { label: 'Condenser bend, clamp', dimension: 'temperature', hint: 'Middle return bend of the condenser, insulated.' },
  airInK: { label: 'Air into the coil', dimension: 'temperature', hint: 'At the face of the coil, not in the room.' },
  boxK: { label: 'Box', dimension: 'temperature', hint: 'In product or simulant, not the display.' },
  suctionPaGauge: { label: 'Suction pressure', dimension: 'pressure', hint: '' },
  suctionLineK: { label: 'Suction line', dimension: 'temperature', hint: 'Clamp near the compressor.' },
  liquidLineK: { label: 'Liquid line', dimension: 'temperature', hint: 'Clamp at the condenser outlet.' },
  dischargeLineK: {
    label: 'Discharge line',
    dimension: 'temperature',
    hint: '6 in (15 cm) from the compressor. Hot: clamp with the unit off.',
  },
  ampsA: { label: 'Compressor current', dimension: 'amps', hint: '' },
  steadyMinutes: { label: 'Running steadily for', dimension: 'minutes', hint: '10 to 15 minutes before a reading means anything.' },
  roomAirK: { label: 'Room air', dimension: 'temperature', hint: '' },
  offCyclePaGauge: { label: 'Standing pressure', dimension: 'pressure', hint: 'Compressor off, condenser at air temperature.' },
  offCycleAirK: { label: 'Air while standing', dimension: 'temperature', hint: '' },
};

export function unitOf(field: ReadingField, own: OwnUnits): string {
  const d = FIELD_INFO[field].dimension;
  if (d === 'temperature') return own.temperatureUnit === 'C' ? '°C' : '°F';
  if (d === 'pressure') return own.pressureUnit;
  return d === 'amps' ? 'A' : 'min';
}

/** SI from a number as typed. */
export function fromOwn(field: ReadingField, value: number, own: OwnUnits): number {
  const d = FIELD_INFO[field].dimension;
  if (d === 'temperature') return own.temperatureUnit === 'C' ? celsiusToKelvin(value) : fahrenheitToKelvin(value);
  if (d === 'pressure') return value * (own.pressureUnit === 'bar' ? BAR_PA : PSI_PA);
  return value;
}

/** The number a person reads, from SI. */
export function toOwn(field: ReadingField, si: number, own: OwnUnits): number {
  const d = FIELD_INFO[field].dimension;
  if (d === 'temperature') return own.temperatureUnit === 'C' ? kelvinToCelsius(si) : kelvinToFahrenheit(si);
  if (d === 'pressure') return si / (own.pressureUnit === 'bar' ? BAR_PA : PSI_PA);
  return si;
}

const DECIMALS: Record<Dimension, number> = { temperature: 1, pressure: 1, amps: 1, minutes: 0 };

/** "178 psig", "86.5 °F": what an instrument can show, no more. */
export function ownText(field: ReadingField, si: number, own: OwnUnits): string {
  const value = toOwn(field, si, own);
  const decimals = FIELD_INFO[field].dimension === 'pressure' && own.pressureUnit === 'bar' ? 2 : DECIMALS[FIELD_INFO[field].dimension];
  const text = value.toFixed(decimals).replace(/\.?0+$/, '');
  return `${(text === '-0' ? '0' : text).replace('-', '−')} ${unitOf(field, own)}`;
}

export const differenceUnit = (own: OwnUnits): string => (own.temperatureUnit === 'C' ? 'K' : '°F');
/** A temperature difference as a person reads it. */
export const ownDifference = (k: number, own: OwnUnits): number => (own.temperatureUnit === 'C' ? k : k * 1.8);

/** A typed number; null for anything that is not one. A comma counts as a point. */
export function typedNumber(text: string): number | null {
  const plain = text.trim().replace(',', '.').replace('−', '-');
  return /^-?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
}
