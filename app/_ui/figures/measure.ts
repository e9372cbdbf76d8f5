import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { BAR_PA, kelvinToCelsius, kelvinToFahrenheit, PSI_PA } from '@/lib/core/measures';

/** A scale a person reads in: from SI to his number, and the unit that stands beside it. `most`: decimals a band never exceeds. */
export type Scale = { unit: string; of: (si: number) => number; decimals: number; most?: number };

export const temperatureIn = (u: MeasureUnits): Scale =>
  u.temperature === 'C' ? { unit: '°C', of: kelvinToCelsius, decimals: 1 } : { unit: '°F', of: kelvinToFahrenheit, decimals: 0 };

/** A rise, superheat or subcooling: no offset. */
export const differenceIn = (u: MeasureUnits): Scale =>
  u.temperature === 'C' ? { unit: 'K', of: (x) => x, decimals: 1 } : { unit: '°F', of: (x) => x * 1.8, decimals: 0 };

export const gaugePressureIn = (u: MeasureUnits): Scale =>
  u.pressure === 'bar' ? { unit: 'bar', of: (p) => p / BAR_PA, decimals: 1 } : { unit: 'psig', of: (p) => p / PSI_PA, decimals: 0 };

export const PERCENT: Scale = { unit: '%', of: (x) => x * 100, decimals: 0, most: 0 };
export const AS_IS: Scale = { unit: '', of: (x) => x, decimals: 2 };

export function moneyIn(currency: string): Scale {
  return { unit: currency, of: (x) => x, decimals: 2 };
}

/** Costs come per day and are read per 30 days: a fouled coil costs cents a day, and nobody budgets cents. */
const DAYS = 30;
export const moneyPer30Days = (currency: string): Scale => ({ unit: currency, of: (perDay) => perDay * DAYS, decimals: 2, most: 1 });
export const KWH_PER_30_DAYS: Scale = { unit: 'kWh', of: (perDay) => perDay * DAYS, decimals: 1, most: 1 };
