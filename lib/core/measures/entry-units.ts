import type { MeasureUnits } from './preferred';
import { btuPerHourToWatt, wattToBtuPerHour } from './energy';
import { footToMetre, metreToFoot } from './length';
import { gramToKilogram, kilogramToGram, kilogramToOunce, kilogramToPound, ounceToKilogram, poundToKilogram } from './mass';
import { barToPascal, pascalToBar, PSI_PA } from './pressure';
import { celsiusToKelvin, fahrenheitToKelvin, kelvinToCelsius, kelvinToFahrenheit } from './temperature';

/** A unit that a value may be typed in: what stands beside the number, and the way to SI and back. */
export type UnitOfEntry = { label: string; toSi: (x: number) => number; fromSi: (x: number) => number };

const same = (x: number) => x;
const plain = (label: string): UnitOfEntry => ({ label, toSi: same, fromSi: same });

/** Units of a form, a file or the tablet, by measure. Pressures are above the surrounding atmosphere. */
export const MEASURES = {
  length: { ft: { label: 'ft', toSi: footToMetre, fromSi: metreToFoot }, m: plain('m') },
  temperature: {
    F: { label: '°F', toSi: fahrenheitToKelvin, fromSi: kelvinToFahrenheit },
    C: { label: '°C', toSi: celsiusToKelvin, fromSi: kelvinToCelsius },
  },
  /** A difference of temperatures: no offset. */
  difference: { F: { label: '°F', toSi: (x: number) => x / 1.8, fromSi: (x: number) => x * 1.8 }, K: plain('K') },
  pressure: {
    psig: { label: 'psig', toSi: (x: number) => x * PSI_PA, fromSi: (x: number) => x / PSI_PA },
    bar: { label: 'bar', toSi: barToPascal, fromSi: pascalToBar },
  },
  mass: {
    oz: { label: 'oz', toSi: ounceToKilogram, fromSi: kilogramToOunce },
    lb: { label: 'lb', toSi: poundToKilogram, fromSi: kilogramToPound },
    g: { label: 'g', toSi: gramToKilogram, fromSi: kilogramToGram },
    kg: plain('kg'),
  },
  power: { btuh: { label: 'Btu/h', toSi: btuPerHourToWatt, fromSi: wattToBtuPerHour }, W: plain('W') },
  duration: { h: plain('h') },
} as const satisfies Record<string, Record<string, UnitOfEntry>>;
export type Measure = keyof typeof MEASURES;

const OWN: Record<Measure, (own: MeasureUnits) => string> = {
  length: (own) => (own.temperature === 'F' ? 'ft' : 'm'),
  temperature: (own) => own.temperature,
  difference: (own) => (own.temperature === 'F' ? 'F' : 'K'),
  pressure: (own) => own.pressure,
  mass: (own) => own.mass,
  power: (own) => (own.temperature === 'F' ? 'btuh' : 'W'),
  duration: () => 'h',
};

/** Which of a measure's units a person reads in. */
export const ownUnitOf = (measure: Measure, own: MeasureUnits): string => OWN[measure](own);

/** Every unit of a measure, by its name. */
export const unitsOfMeasure = (measure: Measure): Readonly<Record<string, UnitOfEntry>> => MEASURES[measure];

/** @throws Error where the measure has no such unit: a slip of ours. */
export function entryUnit(measure: Measure, unit: string): UnitOfEntry {
  const found = unitsOfMeasure(measure)[unit];
  if (!found) throw new Error(`${measure} is not measured in ${unit}`);
  return found;
}

/** "5.3 oz": a nominal value, from a nameplate or a setting. Measured results are written with a band instead. */
export function nominal(measure: Measure, unit: string, si: number, digits = 3): string {
  const { fromSi, label } = entryUnit(measure, unit);
  return `${Number(fromSi(si).toPrecision(digits)).toString().replace('-', '−')} ${label}`;
}
