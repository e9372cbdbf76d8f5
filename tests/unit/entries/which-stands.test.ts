import { describe, expect, it } from 'vitest';
import type { Entry, EntryKind } from '@/lib/core/entries/entries';
import { stands } from '@/lib/core/entries/newer';
import { askedFirst, fitsUnit, READING_FIELDS, readingHint } from '@/lib/core/entries/reading-fields';
import { readingsDiffer } from '@/lib/core/entries/readings-differ';
import { upgraded, upgradedEntry } from '@/lib/core/entries/upgrade';

describe('of two entries for one place', () => {
  const at = (time: string, id: string) => ({ at: `2026-11-25T${time}`, id });
  it('the later made one stands; of one instant the greater id, whichever comes first', () => {
    expect(stands(at('16:05:00.001Z', 'a'), at('16:05:00.000Z', 'b'))).toBe(true);
    expect(stands(at('16:05:00.000Z', 'b'), at('16:05:00.001Z', 'a'))).toBe(false);
    expect(stands(at('16:05:00.000Z', 'b'), at('16:05:00.000Z', 'a'))).toBe(true);
    expect(stands(at('16:05:00.000Z', 'a'), at('16:05:00.000Z', 'b'))).toBe(false);
    // By the instant, not by how it is written.
    expect(stands(at('16:05:00Z', 'b'), at('16:05:00.000Z', 'a'))).toBe(true);
    expect(stands(at('16:05:00Z', 'a'), at('16:05:00Z', 'a'))).toBe(false);
  });
});

describe('two readings of one unit', () => {
  const both = (a: Parameters<typeof readingsDiffer>[0], b: typeof a) => {
    expect(readingsDiffer(a, b)).toBe(readingsDiffer(b, a));
    return readingsDiffer(a, b);
  };
  it('are alike within what two instruments differ by', () => {
    expect(both({}, {})).toBe(false);
    expect(both({ boxK: 277 }, { boxK: 278.1 })).toBe(false);
    expect(both({ boxK: 277 }, { boxK: 278.3 })).toBe(true);
    // Four in a hundred of the greater, and 15 kPa at the least.
    expect(both({ headPaGauge: 1_000_000 }, { headPaGauge: 1_040_000 })).toBe(false);
    expect(both({ headPaGauge: 1_000_000 }, { headPaGauge: 1_043_000 })).toBe(true);
    expect(both({ suctionPaGauge: 100_000 }, { suctionPaGauge: 114_000 })).toBe(false);
    expect(both({ suctionPaGauge: 100_000 }, { suctionPaGauge: 116_000 })).toBe(true);
    // To the very edge they are still alike.
    expect(both({ suctionPaGauge: 100_000 }, { suctionPaGauge: 115_000 })).toBe(false);
    expect(both({ headPaGauge: 2_000_000 }, { headPaGauge: 1_920_000 })).toBe(false);
    expect(both({ ampsA: 9 }, { ampsA: 10 })).toBe(false);
    expect(both({ ampsA: 0 }, { ampsA: 0 })).toBe(false);
    // In a vacuum the sign changes nothing.
    expect(both({ suctionPaGauge: -100_000 }, { suctionPaGauge: -80_000 })).toBe(true);
    expect(both({ ampsA: 5 }, { ampsA: 5.5 })).toBe(false);
    expect(both({ ampsA: 5 }, { ampsA: 5.6 })).toBe(true);
    expect(both({ steadyMinutes: 10 }, { steadyMinutes: 90 })).toBe(false);
  });
  it('differ where one holds what the other lacks', () => {
    expect(both({ boxK: 277 }, {})).toBe(true);
    expect(both({ boxK: 277, airInK: 303 }, { boxK: 277 })).toBe(true);
  });
});

describe('what is asked at a unit', () => {
  const unit = { kind: 'reach_in', condenserKind: 'fin_and_tube', circuitAccess: 'ports' } as const;
  const first = (over: Partial<Parameters<typeof askedFirst>[1]>) => READING_FIELDS.filter((f) => askedFirst(f, { ...unit, ...over }));
  it('first is a gauge where there are ports, a clamp where there are none; water, ice and box by what it is', () => {
    expect(first({})).toEqual(['headPaGauge', 'airInK', 'boxK', 'steadyMinutes']);
    expect(first({ circuitAccess: 'sealed' })).toEqual(['condensingClampK', 'airInK', 'boxK', 'steadyMinutes']);
    expect(first({ condenserKind: 'water_cooled' })).toEqual(['headPaGauge', 'waterInK', 'waterOutK', 'boxK', 'steadyMinutes']);
    expect(first({ kind: 'ice_machine' })).toEqual(['headPaGauge', 'airInK', 'harvestMinutes', 'steadyMinutes']);
    expect(first({ kind: 'remote_condensing_unit' })).toEqual(['headPaGauge', 'airInK', 'steadyMinutes']);
  });
  it('at all leaves out what cannot be read there', () => {
    const without = (over: object) => READING_FIELDS.filter((f) => !fitsUnit(f, { ...unit, ...over }));
    expect(without({})).toEqual(['waterInK', 'waterOutK', 'harvestMinutes']);
    expect(without({ condenserKind: 'water_cooled' })).toEqual(['airInK', 'harvestMinutes', 'roomAirK', 'airAgainK', 'offCycleAirK']);
    expect(without({ kind: 'ice_machine' })).toEqual(['waterInK', 'waterOutK', 'boxK']);
  });
  it('asks nobody to open a sealed circuit for a number', () => {
    for (const field of ['headPaGauge', 'suctionPaGauge', 'headAgainPaGauge', 'offCyclePaGauge'] as const) {
      expect(readingHint(field, { circuitAccess: 'sealed' })).toMatch(/^On file as sealed/);
      expect(readingHint(field, { circuitAccess: 'ports' })).not.toMatch(/sealed/);
    }
    expect(readingHint('airInK', { circuitAccess: 'sealed' })).toMatch(/face of the coil/);
  });
});

describe('an entry of an older tablet', () => {
  it('is brought up step by step, and what it said stays', () => {
    expect(upgraded('finding.set', 1, { aspect: 'coil', grade: 'matted' })).toEqual({
      ...{ aspect: 'coil', grade: 'matted', phase: 'found', replaces: null },
    });
    expect(upgraded('finding.set', 1, { aspect: 'coil', phase: 'left', replaces: 'x' })).toMatchObject({ phase: 'left', replaces: 'x' });
    expect(upgraded('reading.add', 1, { values: {} })).toEqual({ values: {}, replaces: null, questioned: [] });
    expect(upgraded('visit.close', 1, { leftAt: 't' })).toEqual({ leftAt: 't', taskIds: [] });
    expect(upgraded('event.add', 1, { kind: 'note' })).toEqual({ kind: 'note', cause: null });
    expect(upgraded('event.add', 4, { kind: 'note', cause: 'fan' })).toEqual({ kind: 'note', cause: 'fan' });
    expect(upgraded('event.add', 6, { kind: 'note' })).toEqual({ kind: 'note' });
    expect(upgraded('task.done', 1, { taskId: 't' })).toEqual({ taskId: 't' });
  });
  it('that graded “Fans” is the condenser’s, with a word of doubt where one was bad', () => {
    const fan = (grade: string, note?: string) => upgraded('finding.set', 2, { aspect: 'fan', grade, ...(note ? { note } : {}) });
    expect(fan('sound')).toEqual({ aspect: 'condenser_fan', grade: 'sound' });
    for (const grade of ['worn', 'failed'])
      expect(fan(grade, 'Hums')).toMatchObject({ aspect: 'condenser_fan', note: expect.stringMatching(/^Hums Graded as “Fans”/) });
    expect(upgraded('photo.attach', 2, { aspect: 'fan' })).toEqual({ aspect: 'condenser_fan' });
    expect(upgraded('photo.attach', 2, { aspect: 'coil' })).toEqual({ aspect: 'coil' });
    expect(upgraded('finding.set', 3, { aspect: 'fan' })).toEqual({ aspect: 'fan' });
  });
  it('that is nothing to be read is left as it came', () => {
    for (const odd of [null, 'words', 7, [1], undefined]) expect(upgraded('finding.set', 1, odd)).toBe(odd);
  });
  it('is shown as of today, and one of today is the same', () => {
    const entry = (version: number, kind: EntryKind, payload: object) => ({ id: 'e', seq: 1, version, kind, payload }) as unknown as Entry;
    expect(upgradedEntry(entry(1, 'event.add', { kind: 'note' }))).toMatchObject({ version: 6, payload: { kind: 'note', cause: null } });
    const now = entry(6, 'event.add', { kind: 'note' });
    expect(upgradedEntry(now)).toBe(now);
  });
});
