import { describe, expect, it } from 'vitest';
import { addDays, type LocalDate } from '@/lib/core/calendar';
import { CALLED, changeSigns, foundChange, type DayOfLooks } from '@/lib/core/intervals/change-question';
import { RandomStream } from '@/lib/core/numerics/random';

const FIRST = '2026-01-05' as LocalDate;
/** Days of looks a month apart, each so many sd worse than expected. */
const days = (...sds: number[]): DayOfLooks[] =>
  sds.map((z, i) => ({ on: addDays(FIRST, 30 * i), looks: 3, worse: z * 1.2, variance: 1.44 }));

describe('a change in a kitchen', () => {
  it('is found on the second day of looks that are far off, either way, from the first of them on', () => {
    expect(foundChange(days(0.3, -0.4, 2.5))).toBeNull();
    const found = foundChange(days(0.3, -0.4, 2.5, 2.5));
    expect(found).toEqual({ since: '2026-03-06', breathes: 'more', looks: 6 });
    expect(found && changeSigns(found)).toBe('Coils were dirtier than expected at 6 looks since 6 Mar 2026.');
    expect(foundChange(days(0, -2.6, -2.4))).toMatchObject({ breathes: 'less', since: '2026-02-04' });
  });

  it('is not made of one bad day, nor of days that told nothing', () => {
    expect(foundChange([])).toBeNull();
    expect(foundChange(days(3, -1.5, 0.2))).toBeNull();
    expect(foundChange([{ on: FIRST, looks: 2, worse: 1, variance: 0 }])).toBeNull();
  });

  it('is called in vain as seldom as Siegmund’s formula says', () => {
    // Siegmund 1985, "Sequential Analysis", eq. 2.57: one side runs (e^{2kb} − 2kb − 1)/(2k²) days, b = h + 1.166; two sides half of that.
    const k = 0.5;
    const b = CALLED + 1.166;
    const expected = (Math.exp(2 * k * b) - 2 * k * b - 1) / (2 * k * k) / 2;
    const s = new RandomStream(7, 'in vain');
    const run = () => {
      const seen: DayOfLooks[] = [];
      while (foundChange(seen) === null) seen.push({ on: FIRST, looks: 1, worse: s.normal(), variance: 1 });
      return seen.length;
    };
    const runs = Array.from({ length: 120 }, run);
    const mean = runs.reduce((a, n) => a + n, 0) / runs.length;
    expect(Math.abs(mean / expected - 1)).toBeLessThan(0.3);
  });
});
