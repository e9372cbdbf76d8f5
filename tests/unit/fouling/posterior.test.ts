import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, localDate } from '@/lib/core/calendar';
import { DEFAULT_HYPER as H, forecast, posterior, updatePosterior, type UnitEvent, type UnitHistory } from '@/lib/core/fouling';
import { GRADES } from '@/lib/core/findings/grades';

const START = localDate('2025-01-01');
const at = (day: number) => addDays(START, day);
const fryer = { placement: 'fryer', kitchenId: 'a' } as const;
const history = (events: UnitEvent[]): UnitHistory => ({ startedOn: START, startedClean: true, events });
const believe = (events: UnitEvent[]) => posterior(history(events), fryer, H);
const coil = (day: number, grade: (typeof GRADES.coil)[number]['grade'], phase: 'before' | 'after' = 'before'): UnitEvent => ({
  kind: 'coil',
  on: at(day),
  grade,
  phase,
});
const reading = (day: number, lnK: number, more: { sd?: number; setAside?: string } = {}): UnitEvent => ({
  kind: 'reading',
  on: at(day),
  lnK,
  sd: 0.08,
  phase: 'before',
  ...more,
});

const anyEvent = fc.oneof(
  fc.record({ kind: fc.constant('cleaning' as const) }),
  fc.record({
    kind: fc.constant('coil' as const),
    grade: fc.constantFrom(...GRADES.coil.map((g) => g.grade)),
    phase: fc.constantFrom('before' as const, 'after' as const),
  }),
  fc.record({
    kind: fc.constant('reading' as const),
    lnK: fc.double({ min: -1.5, max: 0.2, noNaN: true }),
    sd: fc.double({ min: 0.03, max: 0.3, noNaN: true }),
    phase: fc.constantFrom('before' as const, 'after' as const),
  }),
  fc.record({ kind: fc.constant('fan' as const), grade: fc.constantFrom('sound' as const, 'failed' as const) }),
  fc.record({ kind: fc.constant('trip' as const) }),
);
const anyHistory = fc.array(fc.tuple(fc.integer({ min: 0, max: 40 }), anyEvent), { maxLength: 24 }).map((items) => {
  let day = 1;
  return items.map(([gap, e]) => ({ ...e, on: at((day += gap)) }) as UnitEvent);
});

describe('belief about a coil', () => {
  it('starts from what its place usually does', () => {
    const fast = posterior(history([]), { placement: 'wok', kitchenId: 'a' }, H);
    const slow = posterior(history([]), { placement: 'bar', kitchenId: 'a' }, H);
    expect(fast.rate.mean).toBeGreaterThan(3 * slow.rate.mean);
    expect(fast.rate.low).toBeLessThan(fast.rate.mean);
    expect(fast.rate.high).toBeGreaterThan(fast.rate.mean);
    expect(fast.evidence).toEqual({ cleanings: 0, grades: 0, readings: 0, setAside: 0 });
  });

  it('learns the rate from readings that fall in a line', () => {
    const events = [1, 2, 3, 4, 5].flatMap((c): UnitEvent[] => [reading(c * 50, -0.25), { kind: 'cleaning', on: at(c * 50) }]);
    const p = believe(events);
    expect(p.rate.mean).toBeGreaterThan(0.0041);
    expect(p.rate.mean).toBeLessThan(0.0055);
    expect(p.rate.sd).toBeLessThan(0.0015);
  });

  it('takes a grade as an interval: packed at day 90 was reached before day 90', () => {
    const p = believe([coil(90, 'packed')]);
    // At least 0.6 in 90 days, and nothing says it was not much more.
    expect(p.rate.low).toBeGreaterThan(0.0055);
    expect(p.rate.high).toBeGreaterThan(0.009);
    const read = believe([reading(90, -0.62)]);
    expect(p.rate.sd).toBeGreaterThan(read.rate.sd);
  });

  it('lets what cleanings leave behind pile up', () => {
    const events = Array.from({ length: 8 }, (_, c): UnitEvent[] => [
      coil((c + 1) * 40, c < 4 ? 'furred' : 'matted'),
      { kind: 'cleaning', on: at((c + 1) * 40) },
      coil((c + 1) * 40, c < 3 ? 'bare' : 'filmed', 'after'),
    ]).flat();
    const p = believe(events);
    expect(p.residue.mean).toBeLessThan(-0.06);
    expect(p.restore.mean).toBeLessThan(H.restore.mean);
    const deep = believe([...events, { kind: 'cleaning', on: at(321), deep: true }]);
    expect(deep.residue.mean).toBeGreaterThan(p.residue.mean / 3);
  });

  it('chooses growth that levels off when the evidence does', () => {
    const levelling = [20, 40, 60, 90, 120, 160, 200, 260, 320].map((day) => reading(day, -0.6 * (1 - Math.exp(-day / 100)), { sd: 0.05 }));
    const straight = [20, 40, 60, 90, 120, 160, 200, 260, 320].map((day) => reading(day, -0.003 * day, { sd: 0.05 }));
    expect(believe(levelling).levelling).toBeGreaterThan(0.9);
    expect(believe(straight).levelling).toBeLessThan(0.15);
  });
});

describe('a jump is not a trend', () => {
  const steady = [1, 2, 3].flatMap((c): UnitEvent[] => [
    reading(c * 60, -0.15),
    coil(c * 60, 'furred'),
    { kind: 'cleaning', on: at(c * 60) },
  ]);

  it('with a dead fan: the reading is set aside', () => {
    const before = believe(steady);
    const after = believe([...steady, { kind: 'fan', on: at(240), grade: 'failed' }, reading(240, -0.9)]);
    expect(after.rate.mean).toBeCloseTo(before.rate.mean, 12);
    expect(after.evidence.setAside).toBe(1);
    const mended = believe([
      ...steady,
      { kind: 'fan', on: at(240), grade: 'failed' },
      { kind: 'fan', on: at(240), grade: 'sound' },
      reading(240, -0.9),
      reading(250, -0.2),
    ]);
    expect(mended.evidence).toMatchObject({ setAside: 1, readings: 4 });
  });

  it('with a door left open: set aside by whoever took it, or held to what the coil itself shows', () => {
    const before = believe(steady);
    const belief = believe([...steady, reading(240, -0.9, { setAside: 'door open' })]);
    expect(belief.rate.mean).toBeCloseTo(before.rate.mean, 12);
    const untold = believe([...steady, reading(240, -0.9), coil(240, 'furred')]);
    expect(untold.rate.mean).toBeLessThan(1.35 * before.rate.mean);
  });

  it('even unexplained: one reading cannot make a rate, and a worse one never counts for less', () => {
    const rates = [-0.2, -0.4, -0.6, -0.9, -1.5].map((lnK) => believe([...steady, reading(240, lnK)]).rate.mean);
    for (let i = 1; i < rates.length; i++) expect(rates[i]).toBeGreaterThanOrEqual((rates[i - 1] as number) - 1e-12);
    expect(rates[4]).toBeLessThan(2 * (rates[0] as number));
  });
});

describe('keeping up', () => {
  it('event by event gives exactly what the whole history gives, through JSON', () => {
    fc.assert(
      fc.property(anyHistory, (events) => {
        let p = posterior(history([]), fryer, H);
        for (const e of events) p = JSON.parse(JSON.stringify(updatePosterior(p, [e], H))) as typeof p;
        expect(p).toEqual(JSON.parse(JSON.stringify(posterior(history(events), fryer, H))));
      }),
      { numRuns: 150 },
    );
  });

  it('does not care in which order the findings of a day arrive', () => {
    fc.assert(
      fc.property(anyHistory, fc.infiniteStream(fc.nat()), (events, stream) => {
        const keyed = events.map((e) => ({ e, key: stream.next().value as number }));
        const shuffled = keyed.sort((a, b) => (a.e.on === b.e.on ? a.key - b.key : a.e.on < b.e.on ? -1 : 1)).map((k) => k.e);
        expect(posterior(history(shuffled), fryer, H)).toEqual(posterior(history(events), fryer, H));
      }),
      { numRuns: 150 },
    );
  });

  it('never gives a number that is none', () => {
    fc.assert(
      fc.property(anyHistory, (events) => {
        const p = believe(events);
        for (const n of [
          p.rate.mean,
          p.rate.sd,
          p.rate.low,
          p.rate.high,
          p.lnK.mean,
          p.lnK.sd,
          p.restore.mean,
          p.residue.mean,
          p.levelling,
          p.logEvidence,
        ])
          expect(Number.isFinite(n)).toBe(true);
        expect(p.rate.low).toBeLessThanOrEqual(p.rate.high);
        expect(p.state.weights.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
        const q = forecast(p, { name: 'x', lnK: -0.45 }).quantiles;
        const dates = [q.p10, q.p20, q.p50, q.p80, q.p90].map((d) => d ?? '9999');
        expect([...dates].sort()).toEqual(dates);
      }),
      { numRuns: 300 },
    );
  });

  it('refuses evidence from before the newest day, and a belief of another model', () => {
    const p = believe([coil(50, 'filmed')]);
    expect(() => updatePosterior(p, [coil(40, 'filmed')], H)).toThrow(/rebuild/);
    expect(() => updatePosterior(p, [coil(60, 'filmed')], { ...H, modelVersion: 'other' })).toThrow(/rebuild/);
    expect(() => posterior({ ...history([coil(3, 'bare')]), startedOn: at(10) }, fryer, H)).toThrow(/older than the record/);
  });
});
