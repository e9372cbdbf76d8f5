import { keysOf } from '../../typed/closed-set';
import type { CauseId, Reading } from '../types';
import { normalCdf } from '../bands';

/** What the eye finds, as likelihoods. All tables are judgement; the coil's steps are those the fouling room uses. */

const COIL_GRADES = ['bare', 'filmed', 'furred', 'matted', 'packed'] as const;
/** Deposits (−ln K) at which an eye moves to the next grade, and the spread between eyes and machines. */
const STEPS = [0.05, 0.15, 0.32, 0.6] as const;
const EYE_SD = 0.14;
/** One look in fifty is of another coil, or written down wrong. */
const SLIP = 0.02;

/** Probability of a coil grade given the coil's own deposit. */
export function coilGradeGiven(grade: string, deposit: number): number {
  const i = COIL_GRADES.indexOf(grade as (typeof COIL_GRADES)[number]);
  if (i < 0) return 1;
  const over = i === 0 ? 1 : normalCdf((deposit - (STEPS[i - 1] ?? 0)) / EYE_SD);
  const above = i === COIL_GRADES.length - 1 ? 0 : normalCdf((deposit - (STEPS[i] ?? 0)) / EYE_SD);
  return SLIP / 5 + (1 - SLIP) * Math.max(0, over - above);
}

/** Of coils that are not the trouble. */
const USUAL_COIL: Record<string, number> = { bare: 0.42, filmed: 0.4, furred: 0.155, matted: 0.02, packed: 0.005 };
/** Of coils beside a fault of the machine: nobody came before it was called, and dirt comes along (judgement: three in ten have lost 15 to 35 %). */
const COIL_BESIDE: Record<string, number> = { bare: 0.395, filmed: 0.38, furred: 0.17, matted: 0.045, packed: 0.01 };
const FAULTS: readonly CauseId[] = ['condenser_fan', 'recirculation', 'non_condensables', 'overcharge', 'low_charge', 'evaporator_coil', 'evaporator_fan', 'weak_compressor']; // prettier-ignore
const usualCoil = (grade: string, cause: CauseId): number => (FAULTS.includes(cause) ? COIL_BESIDE : USUAL_COIL)[grade] ?? 1;

/** A fan that stands, and one that turns too slowly, which an eye may pass as worn. */
const DEAD_FAN: Record<string, number> = { sound: 0.02, worn: 0.06, failed: 0.92 };
const SLOW_FAN: Record<string, number> = { sound: 0.12, worn: 0.5, failed: 0.38 };
/** In the order of the two ways in which a fan fails (`LOSS` in `priors.ts`). */
export const FAILED_FAN = [DEAD_FAN, SLOW_FAN] as const;
const badFan = (found: string): number => ((DEAD_FAN[found] ?? 1) + (SLOW_FAN[found] ?? 1)) / 2;
const LIVE_FAN: Record<string, number> = { sound: 0.81, worn: 0.18, failed: 0.01 };
const BLOCKED_AIR: Record<string, number> = { open: 0.06, narrowed: 0.34, blocked: 0.6 };
const FREE_AIR: Record<string, number> = { open: 0.8, narrowed: 0.185, blocked: 0.015 };
const GOOD_EVAPORATOR: Record<string, number> = { clean: 0.62, dusty: 0.315, clogged: 0.05, choked: 0.015 };
const NOT_ICED: Record<string, number> = { dry: 0.6, even_frost: 0.33, part_iced: 0.05, bridged: 0.015, block: 0.005 };
/** An evaporator gets too little air by its ice or by its dirt, seldom by both. */
const CAKED: Record<string, number> = { clean: 0.06, dusty: 0.16, clogged: 0.43, choked: 0.35 };
const ICED: Record<string, number> = { dry: 0.06, even_frost: 0.1, part_iced: 0.26, bridged: 0.34, block: 0.24 };
const halves = (a: Record<string, number>, b: Record<string, number>) =>
  Object.fromEntries(Object.entries(a).map(([grade, p]) => [grade, 0.5 * (p + (b[grade] ?? 0))]));

export type Look = 'coilGrade' | 'fanGrade' | 'airPathGrade' | 'evaporatorFanGrade' | 'evaporatorCoilGrade' | 'iceGrade';
export const LOOKS: Record<Look, readonly string[]> = {
  coilGrade: COIL_GRADES,
  fanGrade: ['sound', 'worn', 'failed'],
  airPathGrade: ['open', 'narrowed', 'blocked'],
  evaporatorFanGrade: ['sound', 'worn', 'failed'],
  evaporatorCoilGrade: ['clean', 'dusty', 'clogged', 'choked'],
  iceGrade: ['dry', 'even_frost', 'part_iced', 'bridged', 'block'],
};

/** Looks that speak of one cause: that cause, what is found where it is at work, and else. */
const SPEAKS_OF = {
  airPathGrade: ['blocked_air', BLOCKED_AIR, FREE_AIR],
  evaporatorFanGrade: ['evaporator_fan', DEAD_FAN, LIVE_FAN],
  evaporatorCoilGrade: ['evaporator_coil', halves(CAKED, GOOD_EVAPORATOR), GOOD_EVAPORATOR],
  iceGrade: ['evaporator_coil', halves(ICED, NOT_ICED), NOT_ICED],
} as const satisfies Partial<Record<Look, readonly [CauseId, Record<string, number>, Record<string, number>]>>;

/** Probability of what a look finds under a cause; a fouled coil's own grade depends on its deposit instead, a fan's on what it still moves. */
export function lookGiven(look: Look, found: string, cause: CauseId): number {
  if (look === 'coilGrade') return usualCoil(found, cause);
  if (look === 'fanGrade') return cause === 'condenser_fan' ? badFan(found) : (LIVE_FAN[found] ?? 1);
  const [of, then, otherwise] = SPEAKS_OF[look];
  return (cause === of ? then : otherwise)[found] ?? 1;
}

/** Those that depend on how much is lost, and are weighed with it. */
const withLoss = (look: Look, cause: CauseId): boolean =>
  (look === 'coilGrade' && cause === 'coil_fouling') || (look === 'fanGrade' && cause === 'condenser_fan');

const ofEvaporator = (look: Look): boolean => look === 'iceGrade' || look === 'evaporatorCoilGrade';

/** What takes an evaporator's air. */
export type Starved = 'ice' | 'dirt';

/** What both looks find of an evaporator that is the trouble, by what took its air. */
function evaporatorGiven({ iceGrade, evaporatorCoilGrade }: Reading, by: Starved): number {
  const [ice, dirt] = by === 'ice' ? [ICED, GOOD_EVAPORATOR] : [NOT_ICED, CAKED];
  return (iceGrade === undefined ? 1 : (ice[iceGrade] ?? 1)) * (evaporatorCoilGrade === undefined ? 1 : (dirt[evaporatorCoilGrade] ?? 1));
}

/** All looks of a reading but those weighed with the loss. */
export function looksGiven(reading: Reading, cause: CauseId, by?: Starved): number {
  let p = by ? evaporatorGiven(reading, by) : 1;
  for (const look of keysOf(LOOKS)) {
    const found = reading[look];
    if (found === undefined || withLoss(look, cause) || (by && ofEvaporator(look))) continue;
    p *= lookGiven(look, found, cause);
  }
  return p;
}
