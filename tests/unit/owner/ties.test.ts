import { describe, expect, it } from 'vitest';
import type { LocalDate } from '@/lib/core/calendar';
import { quarterOf } from '@/lib/core/evidence/seasons';
import { filterAddress, foulingFilter } from '@/lib/core/owner/fouling-filter';
import { notApartFrom, places } from '@/lib/core/owner/ties';

const day = (text: string) => text as LocalDate;

describe('places that can be told apart', () => {
  it('goes by how far beliefs overlap, not by how far their means are apart', () => {
    const sharp = [{ rate: 3, sd: 0.1 }, { rate: 2, sd: 0.1 }, { rate: 1, sd: 0.1 }]; // prettier-ignore
    expect(places(sharp, sharp)).toEqual([{ best: 1, worst: 1 }, { best: 2, worst: 2 }, { best: 3, worst: 3 }]); // prettier-ignore
    const blurred = sharp.map((s) => ({ ...s, sd: 2 }));
    expect(places(blurred, blurred)).toEqual(Array(3).fill({ best: 1, worst: 3 }));
  });

  it('is sure from nine chances in ten', () => {
    // Two beliefs of the same spread: apart by 1.2816 x sqrt(2) is nine in ten.
    const at = (apart: number) => places([{ rate: apart, sd: 1 }], [{ rate: apart, sd: 1 }, { rate: 0, sd: 1 }])[0]; // prettier-ignore
    expect(at(1.82)).toEqual({ best: 1, worst: 1 });
    expect(at(1.8)).toEqual({ best: 1, worst: 2 });
  });

  it('names those that cannot be told from one, also past one that can', () => {
    const one = { rate: 3, sd: 0.1 };
    const near = { name: 'near', rate: 2.9, sd: 0.1 };
    const sharp = { name: 'sharp', rate: 2, sd: 0.1 };
    const vague = { name: 'vague', rate: 1, sd: 2 };
    expect(notApartFrom(one, [near, sharp, vague])).toEqual([near, vague]);
    expect(notApartFrom(sharp, [{ ...one, name: 'faster' }])).toEqual([]);
  });
});

describe('what a ranking is narrowed by', () => {
  it('comes from the address and leaves out what is none', () => {
    const id = '6f9619ff-8b86-4d01-b42d-00cf4fc964ff';
    expect(foulingFilter({ by: 'unit', customer: id, kind: 'reach_in', place: 'fryer', who: "'; DROP", from: 'soon' }, day('2026-11-27'))).toEqual({
      by: 'unit', customer: id, kind: 'reach_in', place: 'fryer', days: { from: '2025-11-28', to: '2026-11-28' },
    }); // prettier-ignore
    expect(foulingFilter({ by: 'x', kind: 'boat' }, day('2026-11-27'))).toEqual({ by: 'kitchen' });
    expect(filterAddress({ by: 'unit', kind: undefined, skip: '9', from: '2026-01-01' }, { skip: '40' })).toBe(
      'by=unit&from=2026-01-01&skip=40',
    );
  });
});

describe('quarters', () => {
  it.each([
    ['2026-01-01', '2026-01-01', '2026-04-01'],
    ['2026-06-30', '2026-04-01', '2026-07-01'],
    ['2026-12-31', '2026-10-01', '2027-01-01'],
  ])('%s', (on, from, to) => expect(quarterOf(day(on))).toEqual({ from, to }));
});
