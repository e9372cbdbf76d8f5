import type { DateHabit, PaperSize } from './habits';
import type { MeasureUnits } from './preferred';

export type DistanceUnit = 'mi' | 'km';
type RegionInfo = {
  label: string;
  /** Of roads. Speeds go with it. */
  distance: DistanceUnit;
  /** What a customer reads in, who has no setting of their own. */
  customers: MeasureUnits;
  /** How dates and times are written there, and English (BCP 47). */
  dates: DateHabit;
  english: string;
  paper: PaperSize;
};

const GAUGES_OF_THE_US: MeasureUnits = { temperature: 'F', pressure: 'psig', mass: 'oz' };
const METRIC: MeasureUnits = { temperature: 'C', pressure: 'bar', mass: 'g' };

const DAY_FIRST = { dates: 'day_first', english: 'en-GB', paper: 'A4' } as const;

/** Where a shop works: the one setting that distances, dates and customers’ units follow. Miles on the roads of the US and the UK. */
export const REGIONS = {
  us: { label: 'United States', distance: 'mi', customers: GAUGES_OF_THE_US, dates: 'month_first', english: 'en-US', paper: 'LETTER' },
  ca: {
    label: 'Canada',
    distance: 'km',
    customers: { ...METRIC, pressure: 'psig' },
    dates: 'month_first',
    english: 'en-CA',
    paper: 'LETTER',
  },
  gb: { label: 'United Kingdom', distance: 'mi', customers: METRIC, ...DAY_FIRST },
  ie: { label: 'Ireland', distance: 'km', customers: METRIC, ...DAY_FIRST, english: 'en-IE' },
  au: { label: 'Australia', distance: 'km', customers: METRIC, ...DAY_FIRST, english: 'en-AU' },
  nz: { label: 'New Zealand', distance: 'km', customers: METRIC, ...DAY_FIRST, english: 'en-NZ' },
  za: { label: 'South Africa', distance: 'km', customers: METRIC, ...DAY_FIRST },
  elsewhere: { label: 'Elsewhere, metric', distance: 'km', customers: METRIC, ...DAY_FIRST },
} as const satisfies Record<string, RegionInfo>;
export type Region = keyof typeof REGIONS;
export const REGION_NAMES = ['us', 'ca', 'gb', 'ie', 'au', 'nz', 'za', 'elsewhere'] as const satisfies readonly Region[];

const BY_CURRENCY: Record<string, Region> = { USD: 'us', CAD: 'ca', GBP: 'gb', AUD: 'au', NZD: 'nz', ZAR: 'za' };
/** Where a new shop is taken to be until it says. */
export const regionOfCurrency = (currency: string): Region => BY_CURRENCY[currency] ?? 'elsewhere';

/** The international mile of 1959, exact. */
const MILE_KM = 1.609344;
const PER_KM: Record<DistanceUnit, number> = { km: 1, mi: 1 / MILE_KM };

export const kmIn = (km: number, unit: DistanceUnit): number => km * PER_KM[unit];
export const kmFrom = (x: number, unit: DistanceUnit): number => x / PER_KM[unit];
/** A speed as a form shows it: to a tenth. */
export const speedShown = (kmh: number, unit: DistanceUnit): number => Number(kmIn(kmh, unit).toFixed(1));
export const SPEED_LABEL: Record<DistanceUnit, string> = { mi: 'mph', km: 'km/h' };
export const DISTANCE_NAME: Record<DistanceUnit, string> = { mi: 'mile', km: 'kilometre' };

/** "4.2 mi", "12 km": a distance as a driver reads it; below a tenth in feet or metres. */
export function distanceWords(km: number, unit: DistanceUnit): string {
  const x = kmIn(km, unit);
  if (x < 0.1) return unit === 'mi' ? `${Math.round((km * 1000) / 0.3048 / 10) * 10} ft` : `${Math.round(km * 100) * 10} m`;
  return `${x < 10 ? x.toFixed(1) : Math.round(x)} ${unit}`;
}

/** "22 mph": a speed on file in km/h. */
export const speedWords = (kmh: number, unit: DistanceUnit): string => `${Number(kmIn(kmh, unit).toPrecision(3))} ${SPEED_LABEL[unit]}`;
