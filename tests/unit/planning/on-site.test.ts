import { describe, expect, it } from 'vitest';
import { learnAccess, learnSiteTimes, minutesOnSite, siteTimeOf, siteTimeWords, STANDARD_ACCESS } from '@/lib/core/planning';
import { between, seededRandom } from '@/lib/core/planning/random';

const normalOf = (random: () => number) => () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

describe('access minutes learned from finished visits', () => {
  it('starts from the standard and is unsure', () => {
    const { minutes, low, high } = learnAccess([]);
    expect(minutes).toBeCloseTo(STANDARD_ACCESS, 6);
    expect(low).toBeLessThan(4);
    expect(high).toBeGreaterThan(16);
  });

  it('tells access from slow work by visits of different size', () => {
    // 20 minutes at the door, work by the book: only the intercept moves.
    const visits = [20, 30, 45, 60, 90, 120, 150].flatMap((w) => Array.from({ length: 6 }, () => ({ taskMinutes: w, minutes: 20 + w })));
    const learned = learnAccess(visits);
    expect(Math.abs(learned.minutes - 20)).toBeLessThan(2.5);
    // Everything half as long again: access in standard minutes stays what it was.
    const slow = learnAccess(visits.map((v) => ({ ...v, minutes: 1.5 * (10 + v.taskMinutes) })));
    expect(Math.abs(slow.minutes - 10)).toBeLessThan(2.5);
  });

  it('leaves out a visit that was never closed', () => {
    const usual = Array.from({ length: 12 }, (_, i) => ({ taskMinutes: 20 + 5 * i, minutes: 30 + 5 * i }));
    expect(learnAccess([...usual, { taskMinutes: 40, minutes: 40_000 }])).toEqual(learnAccess(usual));
  });

  it('finds the access that made-up shops were drawn from, nine times in ten within the band', () => {
    const random = seededRandom(11);
    const normal = normalOf(random);
    let inside = 0;
    const shops = 400;
    for (let t = 0; t < shops; t++) {
      const access = Math.max(0.5, STANDARD_ACCESS + 5 * normal());
      const speed = Math.exp(0.25 * normal());
      const visits = Array.from({ length: 40 }, () => {
        const taskMinutes = between(random, 15, 150);
        return { taskMinutes, minutes: speed * (access + taskMinutes) * (1 + 0.25 * normal()) };
      }).filter((v) => v.minutes > 0);
      const { low, high } = learnAccess(visits);
      if (access >= low && access <= high) inside++;
    }
    expect(inside / shops).toBeGreaterThan(0.85);
    expect(inside / shops).toBeLessThan(0.97);
  });
});

describe('time on site', () => {
  const visits = Array.from({ length: 9 }, (_, i) => ({ kitchenId: 'slow', taskMinutes: 30 + 10 * i, minutes: 1.5 * (10 + 30 + 10 * i) }));

  it('gives a kitchen its own, one without visits the shop’s, and says which', () => {
    const times = learnSiteTimes(visits);
    const slow = siteTimeOf(times, 'slow');
    expect(slow.durationFactor).toBeGreaterThan(1.25);
    expect(siteTimeWords(slow)).toMatch(/^usually 1\.\d × standard here \([\d.]+–[\d.]+\), from 9 visits$/);
    expect(siteTimeWords(siteTimeOf(times, 'new'))).toMatch(/^no finished visit here yet; [\d.]+ × standard in this shop/);
    expect(siteTimeWords(siteTimeOf(learnSiteTimes([]), 'new'))).toBe('by standard minutes, no finished visit to learn from yet');
  });

  it('counts whole minutes a task, as the plan does', () => {
    expect(minutesOnSite({ accessMinutes: 9.2, durationFactor: 1.5 }, [18, 5, 4])).toBe(10 + 27 + 8 + 6);
    expect(minutesOnSite({ accessMinutes: 0, durationFactor: 1 }, [18, 5, 4])).toBe(27);
  });
});
