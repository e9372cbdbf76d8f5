import { kelvinToCelsius, kelvinToFahrenheit } from '../../lib/core/measures';
import type { Figure } from '../../lib/core/condenser/types';
import type { LogResult } from './analyse';

/** Columns of the printed table; ratios are followed by the ends of their 80 % band. */
export const LOG_HEADER = [
  'line',
  'unit',
  'timestamp',
  'state',
  'condensing_c',
  'condensing_f',
  'rise_k',
  'rise_f',
  'conductance_ratio',
  'conductance_ratio_lo',
  'conductance_ratio_hi',
  'power_ratio',
  'power_ratio_lo',
  'power_ratio_hi',
  'cooling_ratio',
  'cooling_ratio_lo',
  'cooling_ratio_hi',
  'status',
] as const;

/** Beside them where causes were asked for. */
export const CAUSE_HEADER = ['likely_cause', 'likely_cause_probability'] as const;

type LogRecord = Record<(typeof LOG_HEADER)[number], string | number | null> &
  Partial<Record<(typeof CAUSE_HEADER)[number], string | number>>;

const rounded = (x: number | undefined, digits: number) => (x === undefined ? null : Number(x.toFixed(digits)));

export function logRecord(r: LogResult): LogRecord {
  const { row } = r;
  const ends = (f: Figure | undefined) => [rounded(f?.value, 4), rounded(f?.lo, 4), rounded(f?.hi, 4)] as const;
  const [k, kLo, kHi] = ends(r.conductanceRatio);
  const [p, pLo, pHi] = ends(r.powerRatio);
  const [q, qLo, qHi] = ends(r.coolingRatio);
  return {
    line: row.line,
    unit: row.unit,
    timestamp: row.timestamp,
    state: row.state,
    condensing_c: rounded(r.condensingK && kelvinToCelsius(r.condensingK), 3),
    condensing_f: rounded(r.condensingK && kelvinToFahrenheit(r.condensingK), 3),
    rise_k: rounded(r.riseK, 3),
    rise_f: rounded(r.riseK === undefined ? undefined : r.riseK * 1.8, 3),
    conductance_ratio: k,
    conductance_ratio_lo: kLo,
    conductance_ratio_hi: kHi,
    power_ratio: p,
    power_ratio_lo: pLo,
    power_ratio_hi: pHi,
    cooling_ratio: q,
    cooling_ratio_lo: qLo,
    cooling_ratio_hi: qHi,
    status: r.status,
    ...(r.cause ? { likely_cause: r.cause.id, likely_cause_probability: Number(r.cause.probability.toFixed(3)) } : {}),
  };
}
