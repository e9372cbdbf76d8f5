import { describe, expect, it } from 'vitest';
import { calibrated } from '@/lib/core/condenser/inference/calibrated';
import { BEFORE } from '@/lib/core/condenser/inference/priors';
import { keysOf } from '@/lib/core/typed/closed-set';
import type { CauseId, Reading } from '@/lib/core/condenser';

const HEAD: Reading = { at: 0, phase: 'before' };
const LINES: Reading = { ...HEAD, suctionLineK: 280 };
const sum = (p: Record<CauseId, number>) => keysOf(p).reduce((a, c) => a + p[c], 0);
const order = (p: Record<CauseId, number>) => keysOf(p).sort((a, b) => p[b] - p[a]);

describe('causes as often as they come', () => {
  it('still sum to one, and none is made out of nothing', () => {
    for (const reading of [HEAD, LINES]) {
      const p = calibrated({ ...BEFORE, overcharge: 0, nothing: BEFORE.nothing + BEFORE.overcharge }, reading);
      expect(sum(p)).toBeCloseTo(1, 12);
      expect(p.overcharge).toBe(0);
    }
  });

  it('leave room for what the reading does not speak for, though not for what it rules out', () => {
    const none = Object.fromEntries(keysOf(BEFORE).map((c) => [c, 0])) as Record<CauseId, number>;
    const sure = { ...none, coil_fouling: 1 - 1e-9, low_charge: 1e-9 };
    const p = calibrated(sure, LINES);
    expect(p.low_charge).toBeGreaterThan(0.002);
    expect(p.coil_fouling).toBeGreaterThan(0.98);
    expect(p.overcharge).toBe(0);
  });

  it('stand in the order of their evidence without line temperatures, the likeliest told surer', () => {
    const p = calibrated(BEFORE, HEAD);
    expect(order(p)).toEqual(order(BEFORE));
    expect(p.coil_fouling).toBeGreaterThan(BEFORE.coil_fouling);
  });

  it('make a rare cause that line temperatures would show count for more than one told too often', () => {
    const even = { ...BEFORE, high_load: 0.1, low_charge: 0.1 };
    const p = calibrated(even, LINES);
    expect(p.high_load).toBeGreaterThan(p.low_charge);
  });

  it('are told surer where coil and fan were looked at', () => {
    for (const reading of [HEAD, LINES]) {
      const seen = calibrated(BEFORE, { ...reading, coilGrade: 'furred', fanGrade: 'sound' });
      expect(seen.coil_fouling).toBeGreaterThan(calibrated(BEFORE, reading).coil_fouling);
      expect(calibrated(BEFORE, { ...reading, coilGrade: 'furred' })).toEqual(calibrated(BEFORE, reading));
    }
  });
});
