import { describe, expect, it } from 'vitest';
import { estimate, type CauseId, type EstimateOk, type PastLoss, type Reading } from '@/lib/core/condenser';
import { bubblePressure, known } from '@/lib/core/refrigerants';
import { CONDITIONS, F, LEARNT, REACH_IN, readingOf, stateAt } from '../../support/condenser';

const air = F(88);
const bad = stateAt(REACH_IN, 0.6, air);
const clean = stateAt(REACH_IN, 1, air);

function judged(reading: Reading, history: readonly PastLoss[] = []): EstimateOk {
  const e = estimate(REACH_IN, reading, LEARNT, CONDITIONS, { history });
  if (e.status !== 'ok') throw new Error(e.reason);
  return e;
}
const lead = (e: EstimateOk) => e.causes[0]!.id;
const weight = (e: EstimateOk, id: CauseId) => e.causes.find((c) => c.id === id)!.weight;

describe('is it the coil', () => {
  it('leads with the coil when nothing else speaks, and says what would decide', () => {
    const e = judged(readingOf(bad));
    expect(lead(e)).toBe('coil_fouling');
    expect(e.verdict).toBe('clean_it');
    expect(e.causes.reduce((s, c) => s + c.weight, 0)).toBeCloseTo(1, 12);
    for (const c of e.causes) expect(c.next.length).toBeGreaterThan(10);
  });

  it('holds the cleaning back for a standing pressure above saturation', () => {
    const saturation = known(bubblePressure('R134a', air)) - 101325;
    const e = judged(readingOf(bad, { offCyclePaGauge: saturation * 1.25, offCycleAirK: air, liquidLineK: bad.liquidLineK - 4 }));
    expect(lead(e)).toBe('non_condensables');
    expect(e.verdict).toBe('look_elsewhere');
    expect(e.causes[0]!.for.join()).toMatch(/Standing pressure/);
    const agreeing = judged(readingOf(bad, { offCyclePaGauge: saturation, offCycleAirK: air }));
    expect(weight(agreeing, 'non_condensables')).toBeLessThan(0.02);
    expect(agreeing.verdict).toBe('clean_it');
  });

  it('names an overcharge from high subcooling', () => {
    const e = judged(readingOf(bad, { liquidLineK: bad.condensingK - 13 }));
    expect(lead(e)).toBe('overcharge');
    expect(e.verdict).toBe('look_elsewhere');
    expect(e.sentence).toMatch(/overcharge/);
  });

  it('takes a jump for the fan and a trend for the coil', () => {
    const day = 86_400_000;
    const at = readingOf(bad).at;
    const jump = judged(readingOf(bad), [{ at: at - 3 * day, lost: 0.03, sd: 0.04 }]);
    expect(lead(jump)).toBe('condenser_fan');
    expect(jump.verdict).toBe('look_elsewhere');
    const trend = judged(
      readingOf(bad),
      [60, 40, 20].map((d, i) => ({ at: at - d * day, lost: 0.1 + 0.1 * i, sd: 0.05 })),
    );
    expect(lead(trend)).toBe('coil_fouling');
    expect(trend.verdict).toBe('clean_it');
  });

  it('believes the eye: a failed fan, or a bare coil', () => {
    expect(lead(judged(readingOf(bad, { fanGrade: 'failed' })))).toBe('condenser_fan');
    const bare = judged(readingOf(bad, { coilGrade: 'bare' }));
    expect(bare.verdict).toBe('look_elsewhere');
    expect(lead(bare)).not.toBe('coil_fouling');
  });

  it('sees hot air coming round again even with a clean coil', () => {
    const e = judged(readingOf(clean, { roomAirK: air - 8 }));
    expect(lead(e)).toBe('recirculation');
    expect(e.verdict).toBe('look_elsewhere');
  });

  it('names pull-down', () => {
    const warm = stateAt(REACH_IN, 1, air, F(60));
    const e = judged(readingOf(warm));
    expect(lead(e)).toBe('high_load');
    // The load is in the heat rejected, so the coil is not blamed for it.
    expect(Math.abs(e.conductanceLost.value)).toBeLessThan(0.02);
  });

  const starved: Partial<Reading> = {
    liquidLineK: clean.condensingK - 2,
    suctionPaGauge: clean.suctionPaGauge - 45_000,
    suctionLineK: clean.suctionLineK + 6,
    coilGrade: 'matted',
  };

  it('names a low charge that can hide a fouled coil', () => {
    const e = judged(readingOf(clean, { ...starved, headPaGauge: clean.headPaGauge - 90_000 }));
    expect(e.verdict).toBe('look_elsewhere');
    expect(e.sentence).toMatch(/low charge.*can hide a fouled coil/);
    expect(weight(e, 'low_charge')).toBeGreaterThan(0.3);
  });

  it('names a low charge beside a coil that has lost much all the same', () => {
    const e = judged(readingOf(clean, { ...starved, headPaGauge: clean.headPaGauge + 150_000, liquidLineK: clean.condensingK + 3.5 }));
    expect(e.verdict).toBe('clean_it');
    expect(e.sentence).toMatch(/low charge.*larger than it looks/);
  });

  it('does not tell a cleaned coil to be cleaned', () => {
    const e = judged(readingOf(bad, { phase: 'after' }));
    expect(e.verdict).toBe('look_elsewhere');
    expect(e.sentence).toMatch(/after cleaning/);
  });
});
