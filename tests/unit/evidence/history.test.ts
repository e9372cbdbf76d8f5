import { describe, expect, it } from 'vitest';
import { cleanPrior } from '@/lib/core/condenser';
import { baselineFrom, depositOf, evidenceOf, lnKOf, setAsideWhy, type ReadingFact } from '@/lib/core/evidence';
import { DEFAULT_HYPER, posterior } from '@/lib/core/fouling';
import { emptyFile, on } from './unit-file';

const prior = cleanPrior(emptyFile().unit);
const fact = (over: Partial<ReadingFact> & { share?: number }): ReadingFact => {
  const value = prior.cleanRiseK / (over.share ?? 1);
  return {
    at: 0,
    on: on('2026-02-01'),
    phase: 'before',
    designRiseK: { value, lo: value * 0.95, hi: value * 1.05, level: 0.8 },
    verdict: 'fine',
    leading: 'coil_fouling',
    fanFailed: false,
    ...over,
  };
};

describe('readings as evidence', () => {
  it('reads ln(K/K_clean) off the rise at design load', () => {
    const seen = lnKOf(fact({ share: 0.7 }), prior);
    expect(seen?.lnK).toBeCloseTo(Math.log(0.7), 6);
    expect(seen?.sd).toBeGreaterThan(prior.sdK / prior.cleanRiseK);
    expect(lnKOf(fact({ designRiseK: null }), prior)).toBeNull();
  });

  it('holds a coil against one with nothing on it: what cleanings leave is in a clean value that was taught after them, and in no other', () => {
    const seen = fact({ share: 0.7 });
    const taught = baselineFrom(emptyFile().unit, [fact({ phase: 'after' })]);
    expect(depositOf(seen, prior)).toEqual(lnKOf(seen, prior));
    const left = (lnKOf(seen, taught)?.lnK ?? NaN) - (depositOf(seen, taught)?.lnK ?? NaN);
    expect(left).toBeGreaterThan(0.005);
    // Pak, Baek and Groll (2003): within 1 to 7 % of clean after washing.
    expect(left).toBeLessThan(0.07);
    expect(depositOf(seen, taught)?.sd).toBe(lnKOf(seen, taught)?.sd);
    expect(depositOf(fact({ designRiseK: null }), taught)).toBeNull();
  });

  it('sets a reading aside when another cause leads, but not a coil that cleaning did not bring back', () => {
    expect(setAsideWhy(fact({ verdict: 'look_elsewhere', leading: 'non_condensables' }))).toBe('non_condensables');
    expect(setAsideWhy(fact({ verdict: 'look_elsewhere', leading: 'coil_fouling', phase: 'after' }))).toBeNull();
    expect(setAsideWhy(fact({ fanFailed: true }))).toBe('condenser_fan');
    expect(setAsideWhy(fact({ verdict: 'clean_it' }))).toBeNull();
  });

  it('learns the clean rise only after cleanings, in any order given', () => {
    const after = [0.8, 0.85, 0.9].map((share, i) => fact({ share, phase: 'after', at: i }));
    expect(baselineFrom(emptyFile().unit, [fact({ share: 0.5 })])).toEqual(prior);
    const learned = baselineFrom(emptyFile().unit, after);
    expect(learned.readings).toBe(3);
    expect(learned.cleanRiseK).toBeGreaterThan(prior.cleanRiseK * 1.05);
    expect(learned.sdK).toBeLessThan(prior.sdK);
    expect(baselineFrom(emptyFile().unit, [...after].reverse())).toEqual(learned);
  });

  it('brings earlier readings to the newest baseline', () => {
    const before = fact({ share: 0.6, at: 1 });
    const alone = evidenceOf(emptyFile({ readings: [before] })).history.events;
    const later = evidenceOf(emptyFile({ readings: [before, fact({ share: 0.8, phase: 'after', at: 2 })] })).history.events;
    const lnK = (events: typeof alone) => (events[0]?.kind === 'reading' ? events[0].lnK : NaN);
    // A higher clean rise makes the same reading look less fouled.
    expect(lnK(later)).toBeGreaterThan(lnK(alone));
  });

  it('takes a reading after a cleaning for what clean is, not for proof that the coil was: what the eye saw there stands', () => {
    const seen = (readings: ReadingFact[]) => {
      const { history } = evidenceOf(
        emptyFile({
          cleanings: [on('2026-02-01')],
          findings: [
            { on: on('2026-02-01'), aspect: 'coil', grade: 'matted', phase: 'found' },
            { on: on('2026-02-01'), aspect: 'coil', grade: 'furred', phase: 'left' },
          ],
          readings,
        }),
      );
      return posterior(history, { placement: 'line', kitchenId: 'a' }, DEFAULT_HYPER);
    };
    const after = fact({ share: 0.8, phase: 'after', at: 2 });
    const alone = seen([]);
    const read = seen([after]);
    expect(read.lnK).toEqual(alone.lnK);
    expect(read.rate).toEqual(alone.rate);
    expect(read.evidence.readings).toBe(1);
    // Before the cleaning it is evidence like any other, and so is what another day's visit reads.
    expect(seen([fact({ share: 0.5 })]).lnK.mean).not.toBeCloseTo(alone.lnK.mean, 3);
    // One that another cause spoiled teaches nothing, and stays set aside.
    expect(seen([{ ...after, verdict: 'look_elsewhere', leading: 'non_condensables' }]).evidence).toMatchObject({
      readings: 0,
      setAside: 1,
    });
  });

  it('sorts findings to coil, fan and low side, and reaches back to the oldest', () => {
    const file = emptyFile({
      cleanings: [on('2026-02-01')],
      trips: [{ on: on('2026-02-01'), cause: null }],
      findings: [
        { on: on('2025-12-20'), aspect: 'coil', grade: 'furred', phase: 'found' },
        { on: on('2026-02-01'), aspect: 'coil', grade: 'bare', phase: 'left' },
        { on: on('2026-02-01'), aspect: 'drain', grade: 'blocked', phase: 'found' },
        { on: on('2026-02-01'), aspect: 'drain', grade: 'runs', phase: 'left' },
        { on: on('2026-02-01'), aspect: 'condenser_fan', grade: 'sound', phase: 'found' },
        { on: on('2026-02-01'), aspect: 'gasket', grade: 'worn', phase: 'found' },
      ],
    });
    const { history, looks } = evidenceOf(file);
    expect(history.startedOn).toBe('2025-12-20');
    expect(history.events.map((e) => e.kind).sort()).toEqual(['cleaning', 'coil', 'coil', 'fan', 'trip']);
    expect(history.events.filter((e) => e.kind === 'coil').map((e) => ('phase' in e ? e.phase : ''))).toEqual(['before', 'after']);
    expect(looks).toEqual([{ on: '2026-02-01', aspect: 'drain', grade: 'blocked' }]);
  });
});
