import { normalCdf } from './bands';
import type { Weighed } from './causes/weigh';
import type { CauseId, Reading, Verdict } from './types';

/** A loss under this is not worth a cleaning by itself. */
const WORTH_CLEANING = 0.1;
/** Called only when clean is this many sigma away: fewer than one clean visit in twenty is told to clean. */
const SURE_SIGMA = 2;
/** From here a loss is worth watching. */
const WATCH = { sigma: 1.2, lost: 0.08 };
/** Evidence of this much log odds stands on its own, whatever the coil does. */
const SPEAKS_FOR_ITSELF = 2;

/** `also` is a second trouble that has evidence of its own beside the leading one. */
export type Judged = { verdict: Exclude<Verdict, 'cannot_say'>; leading: CauseId; also?: CauseId };

/**
 * @param lnRatio ln(K_clean/K), its value and standard deviation
 */
export function judge(lnRatio: { value: number; sd: number }, weighed: Weighed, reading: Reading): Judged {
  const z = lnRatio.value / lnRatio.sd;
  const likelyWorth = 1 - normalCdf((-Math.log(1 - WORTH_CLEANING) - lnRatio.value) / lnRatio.sd);
  const leading = weighed.causes[0]?.id ?? 'coil_fouling';
  const other = weighed.causes.find((c) => c.id !== 'coil_fouling');
  const otherSpeaks = other !== undefined && (weighed.evidence.get(other.id) ?? 0) >= SPEAKS_FOR_ITSELF;
  if (z > SURE_SIGMA && likelyWorth > 0.8) {
    if (leading === 'coil_fouling' && reading.phase !== 'after')
      return { verdict: 'clean_it', leading, also: otherSpeaks ? other.id : undefined };
    return { verdict: 'look_elsewhere', leading };
  }
  if (other && otherSpeaks) return { verdict: 'look_elsewhere', leading: other.id };
  const lost = 1 - Math.exp(-lnRatio.value);
  return { verdict: z > WATCH.sigma && lost > WATCH.lost ? 'watch' : 'fine', leading };
}
