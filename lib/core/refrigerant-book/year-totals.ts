import type { CylinderWay } from './ways';

/** A year of the book by gas. Masses in kg; CO2 equivalents in tonnes by the GWP given, whose report the caller names. */

export type BookLine = {
  gas: string;
  kg: number;
  way: CylinderWay;
};

export type GasYear = {
  gas: string;
  bought: number;
  charged: number;
  recovered: number;
  toReclaim: number;
  toDestruction: number;
  /** Charged less recovered: what the units lost or newly hold. */
  netIntoUnits: number;
  /** The same as tonnes of CO2; null where the gas has no GWP on file. */
  co2Tonnes: number | null;
};

const SUM_OF = {
  bought: 'bought',
  charged: 'charged',
  recovered: 'recovered',
  to_reclaim: 'toReclaim',
  to_destruction: 'toDestruction',
  moved: null,
  scale_check: null,
} as const;

const FLOWS = ['bought', 'charged', 'recovered', 'toReclaim', 'toDestruction'] as const;

/** Totals by gas, in the order of their ids, of gases that went anywhere. Signs don't matter: the way says the direction. */
export function yearTotals(lines: readonly BookLine[], gwpOf: (gas: string) => number | null): GasYear[] {
  const years = new Map<string, GasYear>();
  for (const { gas, kg, way } of lines) {
    const year = years.get(gas) ?? {
      gas,
      bought: 0,
      charged: 0,
      recovered: 0,
      toReclaim: 0,
      toDestruction: 0,
      netIntoUnits: 0,
      co2Tonnes: null,
    };
    const key = SUM_OF[way];
    if (key) year[key] += Math.abs(kg);
    years.set(gas, year);
  }
  return [...years.values()]
    .filter((y) => FLOWS.some((key) => y[key] > 0))
    .sort((a, b) => (a.gas < b.gas ? -1 : 1))
    .map((year) => {
      const netIntoUnits = year.charged - year.recovered;
      const gwp = gwpOf(year.gas);
      return { ...year, netIntoUnits, co2Tonnes: gwp === null ? null : (netIntoUnits * gwp) / 1000 };
    });
}
