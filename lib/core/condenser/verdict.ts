import { keysOf } from '../typed/closed-set';
import { normalCdf } from './bands';
import type { Belief } from './inference/infer';
import { calibrated } from './inference/calibrated';
import { BEFORE } from './inference/priors';
import type { LookId, NextLook } from './inference/next-look';
import type { CauseId, Reading, Verdict } from './types';

/** −ln(K/K_clean) from which a cleaning is worth its hour (a tenth of the conductance), and how sure of it. */
const WORTH_CLEANING = 0.105;
const SURE_WORTH = 0.7;
/** A cause is named when it is this likely; trouble of some kind when all of them together are. */
const NAMED = 0.5;
const SURE_COIL = 0.6;
/** Enough where the eye found the coil matted or packed and the fan was looked at: what blocks it must come out in any case. */
const SEEN_COIL = 0.3;
/** Trouble of some kind: the odds of a sound machine have fallen to this part of what they were before the reading. */
const TROUBLE = 0.45;
const WATCH = 0.3;

/** `also` is a second trouble that may well stand beside the leading one. */
export type Judged = { verdict: Exclude<Verdict, 'cannot_say'>; leading: CauseId; also?: CauseId; look?: LookId };

/** Seen through the condenser's air side alone: before coil and fan were looked at they cannot be told apart. */
const AIR_SIDE: readonly CauseId[] = ['coil_fouling', 'condenser_fan', 'blocked_air'];

/** What a verdict is drawn from: causes from the likeliest down, and what was looked at. */
type Case = {
  belief: Belief;
  reading: Reading;
  order: readonly CauseId[];
  leading: CauseId;
  /** A second trouble that may well stand beside the leading one. */
  second: CauseId | undefined;
  /** Coil and fan were looked at. */
  looked: boolean;
  /** The look that would tell most. */
  most: LookId | undefined;
};

export function judge(belief: Belief, reading: Reading, looks: readonly NextLook[]): Judged {
  const { probability } = belief;
  const order = keysOf(probability).sort((a, b) => probability[b] - probability[a]);
  const leading = order[0] ?? 'nothing';
  const second = order.find((c) => c !== leading && c !== 'nothing' && probability[c] > 0.2);
  const looked = reading.coilGrade !== undefined && reading.fanGrade !== undefined;
  const at: Case = { belief, reading, order, leading, second, looked, most: looks[0]?.look };
  return (
    sureOfCoil(at) ??
    namedOther(at) ??
    airSideUnseen(at, looks) ??
    someTrouble(at) ?? { verdict: probability.coil_fouling > WATCH ? 'watch' : 'fine', leading }
  );
}

/** The coil is what blocks it, seen and reckoned: to be cleaned, or cleaned already and yet not well. */
function sureOfCoil({ belief, reading, leading, second, looked, most }: Case): Judged | null {
  const caked = reading.coilGrade === 'matted' || reading.coilGrade === 'packed';
  const sure = belief.probability.coil_fouling > (caked ? SEEN_COIL : SURE_COIL) && (caked || leading === 'coil_fouling');
  if (!sure || !looked || reading.fanGrade === 'failed') return null;
  if (reading.phase === 'after') return { verdict: 'look_elsewhere', leading: 'coil_fouling', look: most };
  if (!(worthCleaning(belief) > SURE_WORTH)) return null;
  return { verdict: 'clean_it', leading: 'coil_fouling', also: leading === 'coil_fouling' ? second : leading, look: most };
}

function namedOther({ belief, leading, second, most }: Case): Judged | null {
  if (leading === 'nothing' || leading === 'coil_fouling' || !(belief.probability[leading] > NAMED)) return null;
  return { verdict: leading === 'not_steady' ? 'look_first' : 'look_elsewhere', leading, also: second, look: most };
}

function airSideUnseen({ belief, reading, leading, second, looked, most }: Case, looks: readonly NextLook[]): Judged | null {
  const airSide = AIR_SIDE.reduce((a, c) => a + belief.probability[c], 0);
  if (looked || !(airSide > NAMED)) return null;
  const unseen = looks.find((l) => (l.look === 'coilGrade' || l.look === 'fanGrade') && reading[l.look] === undefined)?.look;
  return { verdict: 'look_first', leading, also: second, look: unseen ?? most };
}

function someTrouble({ belief, reading, order, leading, second, most }: Case): Judged | null {
  const odds = (p: number) => p / Math.max(1e-9, 1 - p);
  if (!(odds(belief.probability.nothing) < TROUBLE * odds(calibrated(BEFORE, reading).nothing))) return null;
  return { verdict: 'look_first', leading: leading === 'nothing' ? (order[1] ?? leading) : leading, also: second, look: most };
}

/** How likely the coil alone has lost enough to be worth an hour. */
function worthCleaning({ components }: Belief): number {
  let worth = 0;
  let sum = 0;
  for (const { cause, weight, loss, lossSd } of components) {
    if (cause !== 'coil_fouling') continue;
    sum += weight;
    worth += weight * (1 - normalCdf((WORTH_CLEANING - loss) / lossSd));
  }
  return worth / Math.max(1e-9, sum);
}
