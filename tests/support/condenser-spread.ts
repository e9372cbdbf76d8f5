import { cleanPrior, estimate, type CondenserUnit, type Estimate, type Reading } from '@/lib/core/condenser';
import { APPLICATIONS, EXPANSIONS, PLACEMENTS, UNIT_KINDS } from '@/lib/core/equipment/build';
import { usualBoxK } from '@/lib/core/condenser/from-record';
import { CONDITIONS, F, PSI, readingOf, stateAt } from './condenser';

/** Readings spread over kinds of unit, what was read with, and what is wrong: the net of the condenser's kept answers. */

const REFRIGERANTS = ['R134a', 'R404A', 'R290', 'R448A', 'R449A', 'R513A', 'R407C'] as const;
const pick = <const L extends readonly [unknown, ...unknown[]]>(list: L, i: number): L[number] => list[i % list.length];
const off = (value: number | undefined, by: number) => (value === undefined ? undefined : value + by);

export const SPREAD_UNITS: readonly CondenserUnit[] = UNIT_KINDS.flatMap((kind, k) =>
  APPLICATIONS.map((application, a): CondenserUnit => {
    const i = 2 * k + a;
    return {
      refrigerant: pick(REFRIGERANTS, i),
      kind,
      application,
      expansion: pick(EXPANSIONS, k + (i % 3)),
      circuitAccess: i % 4 === 1 ? 'sealed' : 'ports',
      condenserKind: 'fin_and_tube',
      placement: pick(PLACEMENTS, i),
      boxSetPointK: usualBoxK(kind, application),
      altitudeM: 400 * (i % 4),
      cutoutPaGauge: i % 3 === 0 ? 420 * PSI : undefined,
      hasHeadControl: pick([false, undefined, true], i),
      nominalCoolingW: i % 2 === 0 ? undefined : 700 + 150 * i,
      runHoursPerDay: i % 5 === 0 ? 12 : undefined,
      airOverRoomK: i % 4 === 2 ? 2.5 : undefined,
      airProfile: pick([undefined, 'steady', 'cooking', 'season'] as const, i),
      thermometerClass: pick([undefined, 'pt_a', 'tc_2'] as const, i),
    };
  }),
);

/** What is wrong beside the coil, as it shows in what is read. */
type Change = (r: Reading) => Partial<Reading>;
const TROUBLES: readonly [Change, ...Change[]] = [
  () => ({}),
  (r) => ({ liquidLineK: off(r.liquidLineK, 4), suctionLineK: off(r.suctionLineK, 12), suctionPaGauge: off(r.suctionPaGauge, -9 * PSI), boxK: off(r.boxK, 3) }), // prettier-ignore
  (r) => ({ headPaGauge: off(r.headPaGauge, 35 * PSI), offCyclePaGauge: 150 * PSI, offCycleAirK: r.airInK }),
  (r) => ({ liquidLineK: off(r.liquidLineK, -6), suctionLineK: off(r.suctionLineK, -7) }),
  (r) => ({ suctionPaGauge: off(r.suctionPaGauge, -8 * PSI), suctionLineK: off(r.suctionLineK, -8), boxK: off(r.boxK, 4) }),
  (r) => ({ suctionPaGauge: off(r.suctionPaGauge, 12 * PSI), headPaGauge: off(r.headPaGauge, -18 * PSI), boxK: off(r.boxK, 5) }),
  (r) => ({ boxK: off(r.boxK, 11), suctionPaGauge: off(r.suctionPaGauge, 9 * PSI) }),
  (r) => ({ roomAirK: off(r.airInK, -8) }),
];

/** What a technician had with him. */
const CARRIED: readonly [Change, ...Change[]] = [
  () => ({}),
  () => ({ suctionPaGauge: undefined, liquidLineK: undefined, suctionLineK: undefined, boxK: undefined, gauge: undefined, thermometerSdK: undefined }), // prettier-ignore
  (r) => ({ headPaGauge: undefined, suctionPaGauge: undefined, suctionLineK: undefined, liquidLineK: undefined, condensingClampK: off(r.liquidLineK, 3.5), airInK: undefined, roomAirK: off(r.airInK, -1), steadyMinutes: undefined }), // prettier-ignore
  (r) => ({ liquidLineK: undefined, suctionLineK: undefined, roomAirK: r.roomAirK ?? off(r.airInK, -0.5), gauge: { grade: 'B', spanPa: 500 * PSI }, suctionGauge: { grade: 'A', spanPa: 150 * PSI } }), // prettier-ignore
  (r) => ({ headPaGauge: undefined, suctionPaGauge: undefined, condensingClampK: off(r.liquidLineK, 3), dischargeLineK: 352, thermometerSdK: undefined }), // prettier-ignore
  (r) => ({ suctionPaGauge: undefined, boxK: undefined, dischargeLineK: 348, condensingClampK: off(r.liquidLineK, 4), steadyMinutes: 14 }),
  () => ({ boxK: undefined, gauge: undefined, steadyMinutes: undefined }),
];

const SEEN: readonly [Partial<Reading>, ...Partial<Reading>[]] = [
  {},
  { coilGrade: 'matted', fanGrade: 'sound' },
  { coilGrade: 'filmed', fanGrade: 'worn', airPathGrade: 'narrowed' },
  { coilGrade: 'packed', fanGrade: 'failed', evaporatorFanGrade: 'sound' },
  { coilGrade: 'bare', evaporatorCoilGrade: 'clogged', iceGrade: 'bridged' },
  { coilGrade: 'furred', fanGrade: 'sound', airPathGrade: 'open', phase: 'after' },
  { airPathGrade: 'blocked', evaporatorFanGrade: 'failed', iceGrade: 'dry', evaporatorCoilGrade: 'dusty' },
];
const LEFT = [1, 0.85, 0.7, 0.5, 0.35] as const;

export type SpreadCase = { unit: CondenserUnit; reading: Reading; i: number };

/** One of the spread: each kind and application met with each set of instruments. */
export function spreadCase(unit: CondenserUnit, set: number, i: number): SpreadCase {
  const sound = readingOf(stateAt(unit, pick(LEFT, i), F(84 + 3 * (i % 4))));
  const wrong = { ...sound, ...pick(TROUBLES, i + set)(sound) };
  return { unit, reading: { ...wrong, ...pick(CARRIED, set)(wrong), ...pick(SEEN, i) }, i };
}

const DAY = 86_400_000;

function answerOf({ unit, reading, i }: SpreadCase): Estimate {
  const prior = cleanPrior(unit);
  const learnt = { ...prior, cleanRiseK: prior.cleanRiseK * 1.05, sdK: 0.5, readings: 3, means: 'gauge, coil air, suction, liquid', own: { lnPumping: 0.04, gain: -0.05, charge: 0.02 } }; // prettier-ignore
  const history = i % 3 === 0 ? [{ at: reading.at - (5 + 20 * (i % 5)) * DAY, lost: 0.05 * (i % 4), sd: 0.05 }] : [];
  return estimate(unit, reading, i % 4 === 3 ? learnt : prior, { ...CONDITIONS, boxK: unit.boxSetPointK }, { history });
}

/** A quantile is found to 1e-5: of a figure this small that is more than Node 20 and 24 may differ by. */
const grainy = (e: Estimate) => (e.status === 'ok' && (e.coolingLostHotDay?.value ?? 1) < 0.03 ? { coolingLostHotDay: undefined } : {});

/** All that an estimate says, each fact once. */
function told(e: Estimate): unknown {
  const { causes, ...rest } = e;
  const facts = new Map<string, string[]>();
  for (const c of causes) {
    for (const text of c.for) facts.set(text, [...(facts.get(text) ?? []), `+${c.id}`]);
    for (const text of c.against) facts.set(text, [...(facts.get(text) ?? []), `-${c.id}`]);
  }
  const weights = Object.fromEntries(causes.map((c) => [c.id, c.weight]));
  const looks = e.status === 'ok' ? Object.fromEntries(e.lookNext.map((l) => [l.look, l.bits])) : undefined;
  const said = Object.fromEntries([...facts].map(([text, of]) => [text, of.toSorted().join(' ')]));
  return { ...rest, ...grainy(e), lookNext: looks, weights, said, next: [...new Set(causes.map((c) => c.next))].toSorted() };
}

const SETS = CARRIED.length;
export const SPREAD: Record<string, () => unknown> = Object.fromEntries(
  SPREAD_UNITS.flatMap((unit, k) =>
    Array.from({ length: SETS }, (_, set) => {
      const i = k * SETS + set;
      return [`spread ${i}: ${unit.kind}, ${unit.application}`, () => told(answerOf(spreadCase(unit, set, i)))];
    }),
  ),
);
