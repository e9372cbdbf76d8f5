import { estimate, type CleanBaseline, type Estimate, type Reading } from '../../../lib/core/condenser';
import type { Case } from '../world/case';
import { SET_NAMES } from '../world/instruments';

/** Minutes that somebody answers who is asked how long it ran. */
const RAN = { settling: 3, steady: 20 };

/**
 * The reading with what was asked for taken too: of the same machine at the same moment, or standing still; null where nothing was asked
 * for or the plant cannot take it. `seen`: what a look finds.
 */
export function taken(c: Case, reading: Reading, look: string | undefined, seen: Partial<Reading>): Reading | null {
  const { readings, standing, again, state } = c;
  if (look === undefined || look in reading) return null;
  if (look === 'offCyclePaGauge') return { ...reading, ...standing };
  if (look === 'steadyMinutes') return { ...reading, steadyMinutes: state === 'not_steady' ? RAN.settling : RAN.steady };
  const all: Partial<Reading> = { ...Object.assign({}, ...SET_NAMES.map((s) => readings[s])), ...again, ...seen };
  const key = Object.keys(all).find((k): k is keyof Reading => k === look);
  return key && all[key] !== undefined ? { ...reading, [key]: all[key] } : null;
}

/** Answers after one, two … of the looks that were asked for first; the last one again where no more is asked or can be taken. */
export function followed(c: Case, reading: Reading, baseline: CleanBaseline, seen: Partial<Reading>, looks: number): Estimate[] {
  const out: Estimate[] = [];
  let [now, answer] = [reading, estimate(c.unit, reading, baseline, c.conditions)];
  for (let i = 0; i < looks; i++) {
    const next = taken(c, now, answer.status === 'ok' ? answer.lookNext[0]?.look : undefined, seen);
    if (next) [now, answer] = [next, estimate(c.unit, next, baseline, c.conditions)];
    out.push(answer);
  }
  return out;
}
