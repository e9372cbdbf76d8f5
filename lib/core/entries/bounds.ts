import { READING_FIELDS, type ReadingField, type ReadingValues } from './entries';
import { toOwn, unitOf, type OwnUnits } from '../tablet/own-units';

type Span = readonly [lowest: number, highest: number];
const KELVIN: Span = [150, 600];
const AIR: Span = [200, 400];
const GAUGE: Span = [-110_000, 20_000_000];

/** What can be filed at all, SI: bounds of the database, not of sense. What is merely odd is asked about and kept with its answer. */
export const READING_BOUNDS: Record<ReadingField, Span> = {
  headPaGauge: GAUGE,
  condensingClampK: KELVIN,
  airInK: AIR,
  boxK: AIR,
  suctionPaGauge: GAUGE,
  suctionLineK: KELVIN,
  liquidLineK: KELVIN,
  dischargeLineK: [150, 700],
  ampsA: [0, 1000],
  steadyMinutes: [0, 1440],
  roomAirK: AIR,
  offCyclePaGauge: GAUGE,
  offCycleAirK: AIR,
};

export function canBeFiled(field: ReadingField, si: number): boolean {
  const [lowest, highest] = READING_BOUNDS[field];
  return si >= lowest && si <= highest;
}

/** Fields of a reading that would have the whole of it refused. */
export const fieldsOutside = (values: ReadingValues): ReadingField[] =>
  READING_FIELDS.filter((f) => {
    const si = values[f];
    return si !== undefined && !canBeFiled(f, si);
  });

/** "−99 to 260 °F": what can be filed, in whole numbers that all can. */
export function spanWords(field: ReadingField, own: OwnUnits): string {
  const [lowest, highest] = READING_BOUNDS[field];
  const whole = (n: number) => String(n).replace('-', '−');
  return `${whole(Math.ceil(toOwn(field, lowest, own)))} to ${whole(Math.floor(toOwn(field, highest, own)))} ${unitOf(field, own)}`;
}

/** Pieces of one part used. */
export const MOST_OF_A_PART = 10_000;
