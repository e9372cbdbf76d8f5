import type { MeasureUnits } from './preferred';
import { btuPerHourToWatt, wattToBtuPerHour } from './energy';
import { footToMetre, metreToFoot } from './length';
import { gramToKilogram, kilogramToGram, kilogramToOunce, kilogramToPound, ounceToKilogram, poundToKilogram } from './mass';
import { barToPascal, pascalToBar, PSI_PA } from './pressure';
import { celsiusToKelvin, fahrenheitToKelvin, kelvinToCelsius, kelvinToFahrenheit } from './temperature';

/** A unit that a value may be typed in: what stands beside the number, the way to SI and back, and decimals that people write. */
export type UnitOfEntry = { label: string; decimals: number; toSi: (x: number) => number; fromSi: (x: number) => number };

const same = (x: number) => x;
const plain = (label: string, decimals: number): UnitOfEntry => ({ label, decimals, toSi: same, fromSi: same });

/** Units of a form, a file or the tablet, by measure. Pressures are above the surrounding atmosphere. */
export const MEASURES = {
  length: { ft: { label: 'ft', decimals: 0, toSi: footToMetre, fromSi: metreToFoot }, m: plain('m', 1) },
  temperature: {
    F: { label: '°F', decimals: 1, toSi: fahrenheitToKelvin, fromSi: kelvinToFahrenheit },
    C: { label: '°C', decimals: 1, toSi: celsiusToKelvin, fromSi: kelvinToCelsius },
  },
  /** A difference of temperatures: no offset. */
  difference: { F: { label: '°F', decimals: 1, toSi: (x: number) => x / 1.8, fromSi: (x: number) => x * 1.8 }, K: plain('K', 1) },
  pressure: {
    psig: { label: 'psig', decimals: 1, toSi: (x: number) => x * PSI_PA, fromSi: (x: number) => x / PSI_PA },
    bar: { label: 'bar', decimals: 2, toSi: barToPascal, fromSi: pascalToBar },
  },
  mass: {
    oz: { label: 'oz', decimals: 2, toSi: ounceToKilogram, fromSi: kilogramToOunce },
    lb: { label: 'lb', decimals: 3, toSi: poundToKilogram, fromSi: kilogramToPound },
    g: { label: 'g', decimals: 1, toSi: gramToKilogram, fromSi: kilogramToGram },
    kg: plain('kg', 3),
  },
  power: { btuh: { label: 'Btu/h', decimals: 0, toSi: btuPerHourToWatt, fromSi: wattToBtuPerHour }, W: plain('W', 0) },
  duration: { h: plain('h', 1) },
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

/** The number that a form shows for a value on file: 106 g is "3.74" ounces, not "3.73904". */
export const shownInForm = (measure: Measure, unit: string, si: number): string => {
  const { fromSi, decimals } = entryUnit(measure, unit);
  return String(Number(fromSi(si).toFixed(decimals)));
};

/** A number that a form showed and that came back as it was means what is on file, to the last digit. */
export function fromForm(measure: Measure, unit: string, typed: number, onFile?: number): number {
  const asShown = onFile !== undefined && Number(shownInForm(measure, unit, onFile)) === typed;
  return asShown ? onFile : entryUnit(measure, unit).toSi(typed);
}

/** "5.3 oz": a nominal value, from a nameplate or a setting. Measured results are written with a band instead. */
export function nominal(measure: Measure, unit: string, si: number, digits = 3): string {
  const { fromSi, label } = entryUnit(measure, unit);
  return `${Number(fromSi(si).toPrecision(digits)).toString().replace('-', '−')} ${label}`;
}
