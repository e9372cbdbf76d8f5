import { bubblePressure, bubbleTemperature, dewPressure, dewTemperature, unwrap } from '@/lib/core/refrigerants';
import type { Comparison } from './comparison';
import { readTable, Worst, type Row } from './support';

/**
 * Printed pressure–temperature charts against the product. What a row may differ by comes of the print and the equations
 * alone: one unit of its last printed digit (nobody says whether a chart was rounded or cut), and twice the stated
 * uncertainty of the equations' saturation pressure, as the chart was made with equations that are no better known.
 *
 * Stated, %: R-404A, R-507A, R-407C 0.5 (Lemmon 2003, Int. J. Thermophys. 24, 991); R-407A 0.5 (Lemmon & Jacobsen 2004,
 * J. Phys. Chem. Ref. Data 33, 593); R-448A, R-449A 1 (Bell 2023, J. Phys. Chem. Ref. Data 52, 013101). Of R-22 0.2 (Kamei et
 * al. 1995) and R-134a 0.02 (Tillner-Roth & Baehr 1994), from memory.
 */
const CHARTS: Record<string, { stated: number; rows: number }> = {
  R22: { stated: 0.2, rows: 11 },
  R134a: { stated: 0.02, rows: 14 },
  R404A: { stated: 0.5, rows: 23 },
  R407A: { stated: 0.5, rows: 19 },
  R448A: { stated: 1, rows: 20 },
  R449A: { stated: 1, rows: 20 },
};

/**
 * Rows that differ by more, or of which that cannot be said. Chart A's R-134a at −40 is contradicted by chart E and by
 * Çengel & Boles, whose own is 0.06 % from the equations of 1994; chart B's R-407A dew at −40 falls out of its own column;
 * the saturation table agrees with the equations to 0.03 % for R-22, so its R-507A and R-407C come of other equations than
 * Lemmon's; R-290 is a meter's own equation, which does not say how close it is. These are judged by what a clamp
 * thermometer would notice, 1 K.
 */
const APART = (row: Row): boolean =>
  row.refrigerant === 'R507A' ||
  row.refrigerant === 'R407C' ||
  row.refrigerant === 'R290' ||
  (row.refrigerant === 'R134a' && Number(row.T_C) === -40 && /chart A|Çengel/.test(row.source ?? '')) ||
  (row.refrigerant === 'R407A' && Number(row.T_C) === -40 && row.branch === 'dew');
const APART_ROWS = 18;
const NOTICED_K = 1;

const KPA: Record<string, number> = { psig: 6.894757, psia: 6.894757, inHg: 3.386389, kPa: 1 };

/** One unit of the last printed digit, kPa. */
function lastDigit(asPrinted: string): number {
  const [, decimals = '', unit = ''] = /-?\d+(?:\.(\d+))? (psig|psia|inHg|kPa)/.exec(asPrinted) ?? [];
  const size = KPA[unit];
  if (size === undefined) throw new Error(`“${asPrinted}” has no unit that is known here.`);
  return size * 10 ** -decimals.length;
}

export function comparisons(): Comparison[] {
  const table = readTable('published-pressure-temperature.csv');
  const sourcesOf = (rows: readonly Row[]) => [...new Set(rows.map((r) => r.source))].join('; ');
  const charts = Object.entries(CHARTS).map(([id, { stated, rows: expectedSamples }]): Comparison => {
    const rows = table.filter((r) => r.refrigerant === id && !APART(r));
    const book = new Worst();
    for (const row of rows) {
      const [T, printed] = [Number(row.T_C) + 273.15, Number(row.P_abs_kPa)];
      const p = unwrap(row.branch === 'bubble' ? bubblePressure(id, T) : dewPressure(id, T)) / 1e3;
      book.add((p - printed) / (lastDigit(row.as_printed ?? '') + (2 * stated * printed) / 100));
    }
    return {
      id: `refrigerants.charts.${id}`,
      source: sourcesOf(rows),
      quantity: `${id} printed pressures, difference over last digit + 2 × ${stated} %`,
      unit: '×',
      tolerance: 1,
      expectedSamples,
      worst: book.worst,
      samples: book.samples,
    };
  });
  const apart = table.filter(APART);
  const book = new Worst();
  for (const row of apart) {
    const [id, p] = [row.refrigerant ?? '', Number(row.P_abs_kPa) * 1e3];
    book.add(unwrap(row.branch === 'bubble' ? bubbleTemperature(id, p) : dewTemperature(id, p)) - (Number(row.T_C) + 273.15));
  }
  return [
    ...charts,
    {
      id: 'refrigerants.charts.apart',
      source: sourcesOf(apart),
      quantity: 'R507A, R407C, R290 and three rows at −40 that other print contradicts, as temperature',
      unit: 'K',
      tolerance: NOTICED_K,
      expectedSamples: APART_ROWS,
      worst: book.worst,
      samples: book.samples,
    },
  ];
}
