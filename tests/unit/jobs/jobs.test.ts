import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, localDate } from '@/lib/core/calendar';
import {
  canGo,
  countsAgainst,
  isOpen,
  JOB_STATES,
  quotedMinutes,
  quoteLineWords,
  quoteSums,
  waitsFor,
  type QuoteLine,
} from '@/lib/core/jobs';
import { NEEDS_CERTIFICATE, SEALED_STEP_TEXT, SEALED_STEPS } from '@/lib/core/sealed';

describe('a job', () => {
  it('waits for exactly one thing while it is open, and for nothing after', () => {
    for (const state of JOB_STATES)
      for (const needsQuote of [true, false])
        for (const partsWanted of [true, false]) expect(waitsFor({ state, needsQuote, partsWanted }) !== null).toBe(isOpen(state));
  });

  it('can be carried to its end from everywhere, and comes back only from a declined one', () => {
    for (const state of JOB_STATES.filter(isOpen)) {
      expect(canGo(state, 'done') || canGo(state, 'agreed')).toBe(true);
      expect(canGo(state, 'declined')).toBe(true);
    }
    expect(JOB_STATES.filter((to) => canGo('done', to))).toEqual([]);
    expect(JOB_STATES.filter((to) => canGo('declined', to))).toEqual(['asked']);
  });

  it('names a line once, in the reader’s words, where nothing more was said of it', () => {
    expect(quoteLineWords('labour', 'Mano de obra', 'Labour')).toBe('Mano de obra');
    expect(quoteLineWords('labour', 'Mano de obra', ' ')).toBe('Mano de obra');
    expect(quoteLineWords('part', 'Repuesto', 'Hinge')).toBe('Repuesto: Hinge');
  });

  it('asks for the quote, the part and the date in their turn', () => {
    const stand = { needsQuote: true, partsWanted: true };
    expect(waitsFor({ ...stand, state: 'asked' })).toBe('quote');
    expect(waitsFor({ ...stand, state: 'quoted' })).toBe('customer');
    expect(waitsFor({ ...stand, state: 'agreed' })).toBe('part');
    expect(waitsFor({ ...stand, partsWanted: false, state: 'agreed' })).toBe('booking');
    expect(waitsFor({ needsQuote: false, partsWanted: false, state: 'asked' })).toBe('booking');
  });

  it('counts a call within 30 days against what was done at that unit', () => {
    const on = localDate('2026-07-31');
    const past = [
      { on: addDays(on, -30), unitId: 'a', what: 'Coil cleaned' },
      { on: addDays(on, -31), unitId: 'a', what: 'Fan replaced' },
      { on: addDays(on, -2), unitId: 'b', what: 'Drain cleared' },
      { on: addDays(on, 1), unitId: 'a', what: 'later' },
      { on: addDays(on, -3), unitId: 'a', what: 'Gasket' },
    ];
    expect(countsAgainst(on, ['a'], past).map((w) => w.what)).toEqual(['Gasket', 'Coil cleaned']);
    expect(countsAgainst(on, [], past)).toEqual([]);
  });
});

describe('a quote', () => {
  const line = (over: Partial<QuoteLine>): QuoteLine => ({
    kind: 'part',
    what: 'x',
    quantity: 1,
    unit: 'pcs',
    priceCents: 100,
    taxed: true,
    ...over,
  });

  it('adds up as on paper: 2.5 h at 118.00, a fan motor at 64.95 taxed at 10.25 %', () => {
    const sums = quoteSums([line({ kind: 'labour', quantity: 2.5, priceCents: 11_800, taxed: false }), line({ priceCents: 6495 })], 10.25);
    expect(sums).toEqual({ lines: [29_500, 6495], netCents: 35_995, taxCents: 666, totalCents: 36_661 });
  });

  it('does not depend on the order of its lines, and tax is between nothing and all of it', () => {
    const lines = fc.array(
      fc.record({
        quantity: fc.double({ min: 0, max: 100, noNaN: true }),
        priceCents: fc.integer({ min: 0, max: 1e6 }),
        taxed: fc.boolean(),
      }),
      { maxLength: 12 },
    );
    fc.assert(
      fc.property(lines, fc.double({ min: 0, max: 100, noNaN: true }), (list, tax) => {
        const all = list.map(line);
        const sums = quoteSums(all, tax);
        const back = quoteSums([...all].reverse(), tax);
        expect([back.netCents, back.taxCents, back.totalCents]).toEqual([sums.netCents, sums.taxCents, sums.totalCents]);
        expect(sums.taxCents).toBeLessThanOrEqual(sums.netCents);
        expect(Number.isInteger(sums.totalCents)).toBe(true);
      }),
    );
  });

  it('refuses what is no price', () => {
    expect(() => quoteSums([line({ quantity: -1 })], 0)).toThrow(/zero or more/);
    expect(() => quoteSums([line({ priceCents: NaN })], 0)).toThrow(/zero or more/);
    expect(() => quoteSums([], 101)).toThrow(/0 to 100/);
  });
});

describe('steps on a sealed circuit', () => {
  it('a charge that burns is said so before anything is opened, and at the steps where it could', () => {
    const burning = SEALED_STEPS.filter(
      (s) =>
        SEALED_STEP_TEXT[s].caution({ flammable: true, carbonDioxide: false }) !==
        SEALED_STEP_TEXT[s].caution({ flammable: false, carbonDioxide: false }),
    );
    expect(burning).toEqual(['isolate', 'recover', 'open', 'charge']);
    expect(SEALED_STEP_TEXT.isolate.caution({ flammable: true, carbonDioxide: false })).toMatch(/detector on, room ventilated/);
    expect(SEALED_STEP_TEXT.isolate.caution({ flammable: false, carbonDioxide: true })).toMatch(/high pressure when stopped/);
  });

  it('every step has a caution, and whatever touches refrigerant asks for a certificate', () => {
    for (const step of SEALED_STEPS) expect(SEALED_STEP_TEXT[step].caution({ flammable: false, carbonDioxide: false })).not.toBe('');
    expect(SEALED_STEPS.filter((s) => NEEDS_CERTIFICATE[s])).toEqual(['recover', 'open', 'drier', 'pressure_test', 'evacuate', 'charge']);
  });
});

it('the labour of a quote is as long as the visit that is looked for, to the next five minutes', () => {
  const labour = (quantity: number, unit: string) => ({
    kind: 'labour' as const,
    what: 'Labour',
    quantity,
    unit,
    priceCents: 100,
    taxed: false,
  });
  expect(quotedMinutes([labour(1.5, 'h'), labour(12, 'min')])).toBe(105);
  expect(quotedMinutes([labour(1, 'pcs')])).toBeNull();
  expect(quotedMinutes([{ ...labour(3, 'h'), kind: 'part' }])).toBeNull();
});
