import { describe, expect, it } from 'vitest';
import { questionReading, type Reading } from '@/lib/core/condenser';
import { F, PSI, REACH_IN, readingOf, stateAt } from '../../support/condenser';

const state = stateAt(REACH_IN, 0.8, F(85));
const asked = (more: Partial<Reading>) => questionReading(REACH_IN, readingOf(state, more)).map((d) => d.field);

describe('entries that cannot be', () => {
  it('asks nothing of a sound reading', () => {
    expect(
      asked({
        roomAirK: F(83),
        ampsA: 4.2,
        dischargeLineK: state.dischargeLineK,
        offCyclePaGauge: 85 * PSI,
        offCycleAirK: F(84),
      }),
    ).toEqual([]);
  });
  it.each([
    ['headPaGauge', { headPaGauge: 999 * PSI }],
    ['headPaGauge', { headPaGauge: 60 * PSI }],
    ['headPaGauge', { headPaGauge: 275 * PSI }],
    ['headPaGauge', { headPaGauge: NaN }],
    ['headPaGauge', { headPaGauge: 140 * PSI, gauge: { grade: '1A', spanPa: 100 * PSI } }],
    ['airInK', { airInK: F(999) }],
    ['airInK', { airInK: F(85), roomAirK: F(30) }],
    ['boxK', { boxK: F(138) }],
    ['suctionPaGauge', { suctionPaGauge: state.headPaGauge + 1 }],
    ['suctionPaGauge', { suctionPaGauge: -15 * PSI }],
    ['liquidLineK', { liquidLineK: state.condensingK + 15 }],
    ['dischargeLineK', { dischargeLineK: F(80) }],
    ['suctionLineK', { suctionLineK: state.evaporatingDewK - 6 }],
    ['condensingClampK', { headPaGauge: undefined, condensingClampK: F(70) }],
    ['ampsA', { ampsA: 420 }],
    ['steadyMinutes', { steadyMinutes: -3 }],
  ] as [keyof Reading, Partial<Reading>][])('asks about %s in %o', (field, more) => expect(asked(more)).toContain(field));

  it('asks in words that say what to check', () => {
    for (const d of questionReading(REACH_IN, readingOf(state, { headPaGauge: 999 * PSI, airInK: F(999) })))
      expect(d.question).toMatch(/\?|\.$/);
  });
});
