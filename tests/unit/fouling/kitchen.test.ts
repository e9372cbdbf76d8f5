import { describe, expect, it } from 'vitest';
import { DEFAULT_HYPER as H, fleetPosteriors, kitchenWord, posterior, updatePosterior, usualDays } from '@/lib/core/fouling';
import { coilMet, coilUnmet } from '../../support/fouling-model';

describe('units of one kitchen', () => {
  it('lend each other what they know, and other kitchens nothing', () => {
    const [bad, good, other] = fleetPosteriors(
      [
        coilUnmet('greasy'),
        coilUnmet('clean'),
        coilUnmet('new'),
        coilMet('greasy', 'packed'),
        coilMet('greasy', 'packed'),
        coilMet('clean', 'bare'),
        coilMet('clean', 'bare'),
      ],
      H,
    );
    expect(bad?.rate.mean).toBeGreaterThan(1.3 * (other?.rate.mean ?? NaN));
    expect(good?.rate.mean).toBeLessThan(0.8 * (other?.rate.mean ?? NaN));
    expect(other?.rate.mean).toBeCloseTo(posterior(coilUnmet('new').history, coilUnmet('new').exposure, H).rate.mean, 12);
    expect(usualDays(bad as NonNullable<typeof bad>, H, 0.6)).toBeLessThan(usualDays(other as NonNullable<typeof other>, H, 0.6));
  });

  it('give the same belief all at once and visit by visit', () => {
    const units = [coilMet('k', 'packed'), coilMet('k', 'bare'), coilMet('k', 'packed', 2)];
    const whole = fleetPosteriors(units, H);
    const alone = units.map((u) => posterior(u.history, u.exposure, H));
    const again = alone.map((p, i) => updatePosterior(p, [], H, kitchenWord(alone.filter((_, j) => j !== i))));
    again.forEach((p, i) => {
      expect(p.rate.mean).toBeCloseTo(whole[i]?.rate.mean ?? NaN, 12);
      expect(p.rate.sd).toBeCloseTo(whole[i]?.rate.sd ?? NaN, 12);
    });
  });
});
