import { describe, expect, it } from 'vitest';
import { addDays, localDate } from '@/lib/core/calendar';
import { defaultFailurePrior, failurePosterior, learnHumidity, seasonFactor, type Inspection, type WatchedPart } from '@/lib/core/fouling';
import { toDay } from '@/lib/core/calendar';
import { reviseInspectionRule } from '@/lib/core/intervals';
import { DEFAULT_POLICY } from '@/lib/core/intervals';
import { RandomStream } from '@/lib/core/numerics/random';

const START = localDate('2023-01-01');
const group = { aspect: 'drain', kind: 'walk_in_freezer' } as const;
const prior = defaultFailurePrior(group);

/** Drains looked at every seven weeks for three years. They stop by a chance of each day's own: damp months by steps, not by a curve. */
function fleet(damp: number, seed = 5): WatchedPart[] {
  return Array.from({ length: 60 }, (_, i) => {
    const s = new RandomStream(seed, `drain ${i}`);
    const looks: Inspection[] = [];
    let stopped = false;
    for (let day = 0, next = s.whole(20, 60); day < 1095; day++) {
      const month = Number(addDays(START, day).slice(5, 7));
      if (s.chance((month >= 6 && month <= 9 ? damp : 1) / 700)) stopped = true;
      if (day < next) continue;
      looks.push({ on: addDays(START, day), aspect: 'drain', grade: stopped ? 'blocked' : 'runs' });
      [stopped, next] = [false, day + s.whole(42, 56)];
    }
    return { group, startedOn: START, looks, prior };
  });
}

describe('a season of humidity', () => {
  it('is found where drains stop in damp months, and nowhere else', () => {
    const season = learnHumidity(fleet(6));
    // About 1 August.
    expect(Math.abs((season?.peak ?? 0) - 212)).toBeLessThan(35);
    const july = toDay(localDate('2026-07-01'));
    expect(seasonFactor(season, july, 60) / seasonFactor(season, july + 182, 60)).toBeGreaterThan(2.5);
    expect(learnHumidity(fleet(1))).toBeUndefined();
    // A few drains tell no year.
    expect(learnHumidity(fleet(6).slice(0, 2))).toBeUndefined();
  });

  it('brings the next look forward before it, and lets it wait after', () => {
    const season = { share: 0.9, kappa: 2, peak: 212 };
    const weeks = (lastDoneOn: ReturnType<typeof localDate>) => {
      const looks = [1, 2, 3].map((n): Inspection => ({
        on: addDays(lastDoneOn, -60 * (3 - n)),
        aspect: 'drain',
        grade: n === 1 ? 'blocked' : 'runs',
      }));
      const posterior = failurePosterior(group, addDays(lastDoneOn, -400), looks, { ...prior, season });
      return reviseInspectionRule({
        task: 'drain_inspection', currentRule: 'FREQ=WEEKLY;INTERVAL=5', anchor: 'last_completed', lastDoneOn, looks, posterior, settings: DEFAULT_POLICY,
      }); // prettier-ignore
    };
    const [june, november] = [weeks(localDate('2026-06-15')), weeks(localDate('2026-11-15'))];
    expect(june.weeks).toBeLessThan(november.weeks);
    expect(november.reason ?? june.reason).toMatch(/at this time of year/);
  });
});
