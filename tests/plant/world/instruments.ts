import type { Gauge, GaugeGrade, Reading } from '../../../lib/core/condenser/types';
import type { Chance } from './chance';
import { ampsOf, type Motor } from './motor';
import type { Running } from './solve';

/** What is in the van. Errors that stay with an instrument are drawn once and kept for every visit. */
export type Van = {
  gauge: Gauge;
  suctionGauge: Gauge;
  headOffsetPa: number;
  suctionOffsetPa: number;
  /** Scatter from one look to the next, Pa and K. */
  headScatterPa: number;
  suctionScatterPa: number;
  thermometerSdK: number;
  /** Lasting error of each thermometer. */
  lasting: { air: number; clamp: number; line: number; box: number };
  /** Part of the way from the pipe to the air at which a clamp on it reads. */
  contact: number;
};

const PSI = 6894.757293168;
const PERCENT: Partial<Record<GaugeGrade, number>> = { '2A': 0.5, '1A': 1, A: 1.3, B: 2.3 };
/** Grade limits are bounds for a good gauge: sound ones stray by two thirds of theirs, one in twelve by far more. */
const OF_LIMIT = 0.67;

export function van(c: Chance): Van {
  const grade = c.of<GaugeGrade>(['1A', '1A', '1A', 'A', 'A', 'A', 'B', '2A']);
  const span = 500 * PSI;
  const limit = ((PERCENT[grade] ?? 1) / 100) * OF_LIMIT;
  const tail = () => (c.yes(1 / 12) ? 2.2 : 1);
  const sd = c.yes(0.5) ? 1 : 0.55;
  const lasting = () => c.normal(0, 0.75 * sd);
  return {
    gauge: { grade, spanPa: span },
    suctionGauge: { grade, spanPa: span / 2 },
    headOffsetPa: c.normal(0, 0.85 * limit * span * tail()),
    suctionOffsetPa: c.normal(0, 0.85 * limit * (span / 2) * tail()),
    headScatterPa: 0.5 * limit * span,
    suctionScatterPa: 0.5 * limit * (span / 2),
    thermometerSdK: sd,
    lasting: { air: lasting(), clamp: lasting(), line: lasting(), box: lasting() },
    contact: c.between(0.02, 0.1),
  };
}

/** Everything that could be read of the machine as it runs; an instrument set takes out of it what it has. */
export type Whole = Required<
  Pick<
    Reading,
    | 'headPaGauge'
    | 'condensingClampK'
    | 'airInK'
    | 'roomAirK'
    | 'suctionPaGauge'
    | 'liquidLineK'
    | 'suctionLineK'
    | 'dischargeLineK'
    | 'boxK'
    | 'ampsA'
  >
>;

export type Looked = { running: Running; around: { roomK: number; boxK: number }; motor: Motor; airPa: number; hunting: number };

export function look({ running: r, around, motor, airPa, hunting }: Looked, v: Van, c: Chance): Whole {
  const scatter = (lasting: number) => lasting + c.normal(0, 0.6 * v.thermometerSdK);
  const onPipe = (trueK: number, lasting: number) => trueK - v.contact * (trueK - around.roomK) + scatter(lasting);
  const swing = hunting * c.normal();
  return {
    headPaGauge: r.headPa - airPa + v.headOffsetPa + c.normal(0, v.headScatterPa) + 0.01 * swing * r.headPa,
    suctionPaGauge: r.suctionPa * (1 + 0.05 * swing) - airPa + v.suctionOffsetPa + c.normal(0, v.suctionScatterPa),
    condensingClampK: onPipe(r.middleK, v.lasting.clamp),
    airInK: r.coilAirK + scatter(v.lasting.air) + c.normal(0, 0.4),
    roomAirK: around.roomK + scatter(v.lasting.air) + c.normal(0, 0.5),
    liquidLineK: onPipe(r.liquidK, v.lasting.clamp),
    suctionLineK: onPipe(r.suctionK + 3 * swing, v.lasting.line),
    dischargeLineK: onPipe(r.dischargeK, v.lasting.line),
    boxK: around.boxK + scatter(v.lasting.box),
    ampsA: ampsOf(motor, r.powerW) * c.about(0.04),
  };
}

// prettier-ignore
const SETS = {
  head_air: ['headPaGauge', 'airInK'],
  clamp_air: ['condensingClampK', 'airInK'],
  head_room: ['headPaGauge', 'roomAirK'],
  manifold: ['headPaGauge', 'suctionPaGauge', 'airInK'],
  manifold_box: ['headPaGauge', 'suctionPaGauge', 'airInK', 'boxK'],
  clamps: ['condensingClampK', 'airInK', 'liquidLineK', 'suctionLineK', 'dischargeLineK', 'boxK'],
  full: ['headPaGauge', 'airInK', 'roomAirK', 'suctionPaGauge', 'liquidLineK', 'suctionLineK', 'dischargeLineK', 'boxK', 'ampsA'],
  /** Condensing read twice, by the gauge and by a clamp on the bend. */
  full_bend: ['headPaGauge', 'condensingClampK', 'airInK', 'roomAirK', 'suctionPaGauge', 'liquidLineK', 'suctionLineK', 'dischargeLineK', 'boxK', 'ampsA'],
} as const satisfies Record<string, readonly (keyof Whole)[]>;
export type InstrumentSet = keyof typeof SETS;
export const SET_NAMES = Object.keys(SETS) as InstrumentSet[];

export type Typed = Pick<Reading, 'gauge' | 'suctionGauge' | 'thermometerSdK'> & Partial<Whole>;

/** What goes into the record from a set: the readings, and the class of what was read with where somebody typed it. */
export function typed(whole: Whole, set: InstrumentSet, v: Van, classKnown: boolean): Typed {
  const out: Typed = {};
  for (const key of SETS[set]) out[key] = whole[key];
  if (!classKnown) return out;
  if (out.headPaGauge !== undefined) out.gauge = v.gauge;
  if (out.suctionPaGauge !== undefined) out.suctionGauge = v.suctionGauge;
  out.thermometerSdK = v.thermometerSdK;
  return out;
}
