import type { Metre, Pascal, PascalGauge, Psia, Psig } from './quantities';

/** Pound-force per square inch: 0.45359237 kg × 9.80665 m/s² on (0.0254 m)², exact by definition. */
export const PSI_PA = (0.45359237 * 9.80665) / (0.0254 * 0.0254);
export const BAR_PA = 1e5;
/** Conventional inch of mercury, 0 °C (NIST SP 811). */
const INCH_OF_MERCURY_PA = 3386.389;
/** Conventional micrometre of mercury: vacuum gauges. */
const MICRON_PA = 0.1333224;
export const STANDARD_ATMOSPHERE_PA = 101325;

export const psiToPascal = (x: number) => (x * PSI_PA) as Pascal;
export const pascalToPsi = (x: number) => (x / PSI_PA) as Psia;
export const barToPascal = (x: number) => (x * BAR_PA) as Pascal;
export const pascalToBar = (x: number) => x / BAR_PA;
export const kilopascalToPascal = (x: number) => (x * 1e3) as Pascal;
export const pascalToKilopascal = (x: number) => x / 1e3;
export const inchOfMercuryToPascal = (x: number) => (x * INCH_OF_MERCURY_PA) as Pascal;
export const pascalToInchOfMercury = (x: number) => x / INCH_OF_MERCURY_PA;
export const micronToPascal = (x: number) => (x * MICRON_PA) as Pascal;
export const pascalToMicron = (x: number) => x / MICRON_PA;

/**
 * Pressure of the standard atmosphere (Pa) at a geometric altitude (m), ISO 2533:1975, troposphere:
 * p = 101325·(1 − 0.0065·H/288.15)^5.2558797, H = r·z/(r + z) the geopotential altitude, r = 6 356 766 m.
 * Valid from −2000 to 11 000 m; NaN outside.
 */
export function atmosphereAt(altitude: number): Pascal {
  const geopotential = (6_356_766 * altitude) / (6_356_766 + altitude);
  if (!(geopotential >= -2000 && geopotential <= 11_000)) return NaN as Pascal;
  const exponent = 9.80665 / (287.05287 * 0.0065);
  return (STANDARD_ATMOSPHERE_PA * Math.pow(1 - (0.0065 * geopotential) / 288.15, exponent)) as Pascal;
}

/** Gauge reading (Pa) to absolute pressure, by the altitude (m) where the gauge is read. */
export function gaugeToAbsolute(gauge: number, altitude: Metre | number): Pascal {
  return (gauge + atmosphereAt(altitude)) as Pascal;
}

export function absoluteToGauge(absolute: number, altitude: Metre | number): PascalGauge {
  return (absolute - atmosphereAt(altitude)) as PascalGauge;
}

export function psigToPascal(reading: number, altitude: Metre | number): Pascal {
  return gaugeToAbsolute(reading * PSI_PA, altitude);
}

export function pascalToPsig(absolute: number, altitude: Metre | number): Psig {
  return (absoluteToGauge(absolute, altitude) / PSI_PA) as number as Psig;
}
