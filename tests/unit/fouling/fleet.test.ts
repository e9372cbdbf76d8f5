import { describe, expect, it } from 'vitest';
import { PLACEMENTS } from '@/lib/core/equipment/build';
import { DEFAULT_HYPER as H, fitHyper, type FleetUnit } from '@/lib/core/fouling';
import { RandomStream } from '@/lib/core/numerics/random';
import { coilMet, coilUnmet, drawUnit } from '../../support/fouling-model';

describe('hyperparameters from the fleet', () => {
  const truth = {
    ...H,
    lnRate: { ...H.lnRate, fryer: H.lnRate.fryer + 0.5, line: H.lnRate.line - 0.5 },
    unitSd: 0.3,
    kitchenSd: 0.5,
    restore: { ...H.restore, mean: 0.85 },
  };
  const units = Array.from({ length: 90 }, (_, k) => {
    const s = new RandomStream(3, `kitchen ${k}`);
    const effect = truth.kitchenSd * s.normal();
    return Array.from({ length: 5 }, (): FleetUnit => {
      const placement = s.pick(PLACEMENTS);
      return {
        history: drawUnit(s, truth, placement, effect, s.whole(4, 10)).history,
        exposure: { placement, kitchenId: `k${k}` },
      };
    });
  }).flat();

  it('come near those the fleet was drawn with', () => {
    const fitted = fitHyper(units, H, 'test');
    expect(fitted.lnRate.fryer - H.lnRate.fryer).toBeGreaterThan(0.25);
    expect(fitted.lnRate.line - H.lnRate.line).toBeLessThan(-0.25);
    expect(Math.abs(fitted.lnRate.bar - H.lnRate.bar)).toBeLessThan(0.3);
    expect(fitted.kitchenSd).toBeGreaterThan(0.4);
    // Units of the drawing fleet have the model's own heavy tails: 0.3 is the spread of those of their kind.
    expect(fitted.unitSd).toBeLessThan(0.35);
    expect(fitted.restore.mean).toBeLessThan(0.88);
    expect(fitted.modelVersion).toBe(`${H.modelVersion}+test`);
  });

  it('learn how fast the whole shop is from five kitchens, and not half of it', () => {
    const faster = Object.fromEntries(PLACEMENTS.map((p) => [p, H.lnRate[p] + Math.LN2])) as typeof H.lnRate;
    const fast = { ...H, lnRate: faster };
    const shop = Array.from({ length: 5 }, (_, k) => {
      const s = new RandomStream(8, `shop ${k}`);
      const effect = H.kitchenSd * ((k - 2) / 1.4);
      return Array.from({ length: 5 }, (): FleetUnit => {
        const placement = s.pick(PLACEMENTS);
        return { history: drawUnit(s, fast, placement, effect, 10).history, exposure: { placement, kitchenId: `k${k}` } };
      });
    }).flat();
    const fitted = fitHyper(shop, H, 'test');
    const moved = PLACEMENTS.reduce((sum, p) => sum + fitted.lnRate[p] - H.lnRate[p], 0) / PLACEMENTS.length;
    expect(moved).toBeGreaterThan(0.75 * Math.LN2);
    expect(moved).toBeLessThan(1.25 * Math.LN2);
  });

  it('learn from one shop whether its coils level off, or do not', () => {
    const shop = (share: number) => {
      const truth = { ...H, levelling: { ...H.levelling, probability: share }, accelerating: { ...H.accelerating, probability: 0 } };
      return Array.from({ length: 8 }, (_, k) => {
        const s = new RandomStream(12, `levelling ${k}`);
        const effect = H.kitchenSd * s.normal();
        return Array.from({ length: 5 }, (): FleetUnit => {
          const placement = s.pick(PLACEMENTS);
          return { history: drawUnit(s, truth, placement, effect, 14).history, exposure: { placement, kitchenId: `k${k}` } };
        });
      }).flat();
    };
    const believed = (share: number) => fitHyper(shop(share), H, 'test').levelling.probability;
    const [all, none] = [believed(1), believed(0)];
    expect(all).toBeGreaterThan(0.5);
    expect(none).toBeLessThan(0.25);
  });

  it('stay as they were without evidence, and move little for one unit', () => {
    const none = fitHyper([coilUnmet('k')], H, 'none');
    expect({ ...none, modelVersion: H.modelVersion }).toEqual(H);
    const one = fitHyper([coilMet('k', 'packed')], H, 'one');
    // Packed at 60 days four times running, five times as fast as its kind: less than half of that is laid to the shop.
    expect(Math.abs(one.lnRate.line - H.lnRate.line)).toBeLessThan(0.75);
    // What all placements have in common is learned too, of one unit only a little.
    expect(Math.abs(one.lnRate.bar - H.lnRate.bar)).toBeLessThan(0.65);
  });
});
