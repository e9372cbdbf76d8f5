import { describe, expect, it } from 'vitest';
import { addDays } from '@/lib/core/calendar';
import { PLACEMENTS } from '@/lib/core/equipment/build';
import { GRADES, type CoilGrade } from '@/lib/core/findings/grades';
import { DEFAULT_HYPER as H, fitHyper, type FleetUnit, type UnitEvent } from '@/lib/core/fouling';
import { RandomStream } from '@/lib/core/numerics/random';
import { coilMet, coilUnmet, drawUnit, START } from '../../support/fouling-model';

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

  it('learn from a shop whether its coils level off, or do not', () => {
    const shop = (share: number, seed: number) => {
      const truth = { ...H, levelling: { ...H.levelling, probability: share }, accelerating: { ...H.accelerating, probability: 0 } };
      return Array.from({ length: 8 }, (_, k) => {
        const s = new RandomStream(seed, `levelling ${k}`);
        const effect = H.kitchenSd * s.normal();
        return Array.from({ length: 5 }, (): FleetUnit => {
          const placement = s.pick(PLACEMENTS);
          return { history: drawUnit(s, truth, placement, effect, 14).history, exposure: { placement, kitchenId: `k${k}` } };
        });
      }).flat();
    };
    // Of one shop a few coils' luck may speak for it: the mean of two.
    const believed = (share: number) =>
      [12, 13].reduce((sum, seed) => sum + fitHyper(shop(share, seed), H, 'test').levelling.probability / 2, 0);
    const [all, none] = [believed(1), believed(0)];
    expect(all).toBeGreaterThan(0.5);
    expect(none).toBeLessThan(0.25);
  });

  it('learn how unevenly cleanings clean, and how much they take off where it is far from what was judged', () => {
    const poor = { ...H, restore: { ...H.restore, mean: 0.72, cleaningSd: 0.16, baked: 0.1 } };
    const shop = Array.from({ length: 12 }, (_, k) => {
      const s = new RandomStream(21, `uneven ${k}`);
      const effect = H.kitchenSd * s.normal();
      return Array.from({ length: 5 }, (): FleetUnit => {
        const placement = s.pick(PLACEMENTS);
        return { history: drawUnit(s, poor, placement, effect, 16).history, exposure: { placement, kitchenId: `k${k}` } };
      });
    }).flat();
    const { restore } = fitHyper(shop, H, 'test');
    expect(Math.abs(restore.mean - 0.72)).toBeLessThan(0.08);
    expect(restore.cleaningSd).toBeGreaterThan(0.1);
  });

  it('lay to the season what is its, and not to luck, misread looks or changes', () => {
    // Fluff for six weeks of the year, twelve times as fast as else; coils grow in a line, no look is misread, nothing changes.
    const shop = Array.from({ length: 6 }, (_, k) => {
      const s = new RandomStream(31, `fluff ${k}`);
      return Array.from({ length: 5 }, (): FleetUnit => {
        const rate = Math.exp(H.lnRate.outdoors + 0.7 + 0.3 * s.normal());
        const events: UnitEvent[] = [];
        for (let day = 0, next = s.whole(40, 100), deposit = 0; day < 1400; day++) {
          const d = (day + 1) % 365.25;
          deposit += rate * (d > 143 && d < 187 ? 5.2 : 0.42);
          if (day < next) continue;
          const on = addDays(START, day);
          const grade = H.grades.thresholds.filter((c) => deposit + 0.04 * s.normal() > c).length;
          events.push({ kind: 'coil', on, grade: (GRADES.coil[grade] as { grade: CoilGrade }).grade, phase: 'before' });
          events.push({ kind: 'cleaning', on });
          deposit *= 0.05;
          next = day + s.whole(40, 100);
        }
        return { history: { startedOn: START, startedClean: true, events }, exposure: { placement: 'outdoors', kitchenId: `k${k}` } };
      });
    }).flat();
    const fitted = fitHyper(shop, H, 'test');
    expect(Math.abs((fitted.season.outdoors?.peak ?? 0) - 165)).toBeLessThan(15);
    expect(fitted.diffusion).toBeLessThanOrEqual(H.diffusion);
    expect(fitted.misread).toBeLessThanOrEqual(H.misread);
    expect(fitted.changePerYear).toBeLessThanOrEqual(H.changePerYear);
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
