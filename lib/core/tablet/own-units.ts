import { BAR_PA, celsiusToKelvin, fahrenheitToKelvin, kelvinToCelsius, kelvinToFahrenheit, PSI_PA } from '../measures';
import type { MeasureUnits } from '../measures/preferred';
import { FIELD_INFO, type ReadingField } from '../entries/reading-fields';
import type { Me } from './state';

/** Readings as the technician's own instruments show them, and back to SI. */

export type OwnUnits = Pick<Me, 'temperatureUnit' | 'pressureUnit'>;
/** The same for everything that is not a reading. */
export const measureUnitsOf = (me: Pick<Me, 'temperatureUnit' | 'pressureUnit' | 'massUnit'>): MeasureUnits => ({
  temperature: me.temperatureUnit,
  pressure: me.pressureUnit,
  mass: me.massUnit,
});

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

const DECIMALS: Record<(typeof FIELD_INFO)[ReadingField]['dimension'], number> = { temperature: 1, pressure: 1, amps: 1, minutes: 1 };

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
