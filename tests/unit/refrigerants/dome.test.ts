import { describe, expect, it } from 'vitest';
import { isFailure, unwrap, rangeOf, REFRIGERANT_IDS, saturationDome } from '@/lib/core/refrigerants';

describe('the saturation dome', () => {
  it.each(REFRIGERANT_IDS)('%s closes towards its top', (id) => {
    const { liquid, vapour } = unwrap(saturationDome(id, 233.15, 30));
    expect(liquid).toHaveLength(30);
    expect(liquid[0]!.T).toBeCloseTo(233.15, 9);
    for (let i = 1; i < 30; i++) {
      expect(liquid[i]!.p).toBeGreaterThan(liquid[i - 1]!.p);
      expect(liquid[i]!.h).toBeGreaterThan(liquid[i - 1]!.h);
    }
    const latent = (k: number) => vapour[29 - k]!.h - liquid[k]!.h;
    expect(latent(29)).toBeGreaterThan(0);
    expect(latent(29)).toBeLessThan(0.35 * latent(0));
  });

  it('hands on a status', () => {
    expect(isFailure(saturationDome('R134a', 90))).toBe(true);
    expect(isFailure(saturationDome('R999', 250))).toBe(true);
    expect(isFailure(rangeOf('R999'))).toBe(true);
    expect(unwrap(rangeOf('R134a')).criticalT).toBeCloseTo(374.21, 2);
  });
});
