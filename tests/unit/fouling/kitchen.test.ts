import { describe, expect, it } from 'vitest';
import { addDays } from '@/lib/core/calendar';
import {
  DEFAULT_HYPER as H,
  fleetPosteriors,
  kitchenWord,
  posterior,
  updatePosterior,
  usualDays,
  type FleetUnit,
  type UnitEvent,
} from '@/lib/core/fouling';
import { START } from '../../support/fouling-model';

function unit(kitchenId: string, grade: 'bare' | 'packed', visits = 4): FleetUnit {
  const events = Array.from({ length: visits }, (_, c): UnitEvent[] => {
    const on = addDays(START, 60 * (c + 1));
    return [
      { kind: 'coil', on, grade, phase: 'before' },
      { kind: 'cleaning', on },
    ];
  }).flat();
  return { history: { startedOn: START, startedClean: true, events }, exposure: { placement: 'line', kitchenId } };
}
const empty = (kitchenId: string): FleetUnit => ({
  history: { startedOn: START, startedClean: true, events: [] },
  exposure: { placement: 'line', kitchenId },
});

describe('units of one kitchen', () => {
  it('lend each other what they know, and other kitchens nothing', () => {
    const [bad, good, other] = fleetPosteriors(
      [
        empty('greasy'),
        empty('clean'),
        empty('new'),
        unit('greasy', 'packed'),
        unit('greasy', 'packed'),
        unit('clean', 'bare'),
        unit('clean', 'bare'),
      ],
      H,
    );
    expect(bad?.rate.mean).toBeGreaterThan(1.3 * (other?.rate.mean ?? NaN));
    expect(good?.rate.mean).toBeLessThan(0.8 * (other?.rate.mean ?? NaN));
    expect(other?.rate.mean).toBeCloseTo(posterior(empty('new').history, empty('new').exposure, H).rate.mean, 12);
    expect(usualDays(bad as NonNullable<typeof bad>, H, 0.6)).toBeLessThan(usualDays(other as NonNullable<typeof other>, H, 0.6));
  });

  it('give the same belief all at once and visit by visit', () => {
    const units = [unit('k', 'packed'), unit('k', 'bare'), unit('k', 'packed', 2)];
    const whole = fleetPosteriors(units, H);
    const alone = units.map((u) => posterior(u.history, u.exposure, H));
    const again = alone.map((p, i) => updatePosterior(p, [], H, kitchenWord(alone.filter((_, j) => j !== i))));
    again.forEach((p, i) => {
      expect(p.rate.mean).toBeCloseTo(whole[i]?.rate.mean ?? NaN, 12);
      expect(p.rate.sd).toBeCloseTo(whole[i]?.rate.sd ?? NaN, 12);
    });
  });
});
