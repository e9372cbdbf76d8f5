import * as units from '../core/measures';
import { Measured, type UnitOfEntry } from './fields';

const same = (x: number) => x;

/** Units that a form may be filled in, by measure. Labels are what stands beside the number. */
export const LENGTHS = {
  ft: { label: 'ft', toSi: units.footToMetre, fromSi: units.metreToFoot },
  m: { label: 'm', toSi: same, fromSi: same },
} satisfies Record<string, UnitOfEntry>;

export const TEMPERATURES = {
  F: { label: '°F', toSi: units.fahrenheitToKelvin, fromSi: units.kelvinToFahrenheit },
  C: { label: '°C', toSi: units.celsiusToKelvin, fromSi: units.kelvinToCelsius },
} satisfies Record<string, UnitOfEntry>;

/** Above the surrounding atmosphere, both. */
export const PRESSURES = {
  psig: { label: 'psig', toSi: (x: number) => x * units.PSI_PA, fromSi: (x: number) => x / units.PSI_PA },
  bar: { label: 'bar', toSi: units.barToPascal, fromSi: units.pascalToBar },
} satisfies Record<string, UnitOfEntry>;

export const MASSES = {
  oz: { label: 'oz', toSi: units.ounceToKilogram, fromSi: units.kilogramToOunce },
  g: { label: 'g', toSi: units.gramToKilogram, fromSi: units.kilogramToGram },
} satisfies Record<string, UnitOfEntry>;

export const MEASURES = { length: LENGTHS, temperature: TEMPERATURES, pressure: PRESSURES, mass: MASSES } as const;

export const Altitude = Measured('altitudeM', LENGTHS);
export const HotDayAir = Measured('hotDayAirK', TEMPERATURES);
export const BoxSet = Measured('boxSetK', TEMPERATURES);
export const Cutout = Measured('cutoutPaGauge', PRESSURES);
export const Charge = Measured('chargeKg', MASSES);
