import { readingSpan } from '@/lib/core/entries/reading-fields';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  canBeFiled,
  fieldsOutside,
  fromOwn,
  MOST_OF_A_PART,
  READING_FIELDS,
  spanWords,
  type OwnUnits,
  type ReadingField,
} from '@/lib/core/tablet';
import { PAYLOADS } from '@/lib/schemas/tablet/entries';

const AMERICAN: OwnUnits = { temperatureUnit: 'F', pressureUnit: 'psig' };
const METRIC: OwnUnits = { temperatureUnit: 'C', pressureUnit: 'bar' };
const ID = '6f1f3a58-2a0e-4d43-9e68-0c3b0a5f3a10';
const reading = (field: ReadingField, si: number) => ({
  unitId: ID,
  phase: 'before',
  values: { [field]: si },
  gaugeGrade: null,
  gaugeSpanPa: null,
  entered: {},
  questioned: [],
  replaces: null,
});

describe('what can be filed', () => {
  it('is said in the person’s own units', () => {
    expect(spanWords('airInK', AMERICAN)).toBe('−99 to 260 °F');
    expect(spanWords('airInK', METRIC)).toBe('−73 to 126 °C');
    expect(spanWords('headPaGauge', AMERICAN)).toBe('−15 to 2900 psig');
    expect(spanWords('headPaGauge', METRIC)).toBe('−1 to 200 bar');
    expect(spanWords('ampsA', METRIC)).toBe('0 to 1000 A');
  });

  it('names the fields whose point slipped', () => {
    const boxK = fromOwn('boxK', 470, AMERICAN);
    expect(fieldsOutside({ boxK, airInK: fromOwn('airInK', 86, AMERICAN), ampsA: -1 })).toEqual(['boxK', 'ampsA']);
    expect(fieldsOutside({ boxK: fromOwn('boxK', 47, AMERICAN) })).toEqual([]);
    expect(fieldsOutside({})).toEqual([]);
  });

  it('is the same on the tablet and in the office', () =>
    fc.assert(
      fc.property(fc.constantFrom(...READING_FIELDS), fc.double({ min: -1, max: 2, noNaN: true }), (field, along) => {
        const [lowest, highest] = readingSpan(field);
        const si = lowest + along * (highest - lowest);
        expect(PAYLOADS['reading.add'].safeParse(reading(field, si)).success).toBe(canBeFiled(field, si));
      }),
    ));

  it('takes the ends of the span it says', () => {
    for (const own of [AMERICAN, METRIC])
      for (const field of READING_FIELDS) {
        const ends = spanWords(field, own).replaceAll('−', '-').match(/-?\d+/g)?.map(Number) ?? [];
        expect(ends).toHaveLength(2);
        for (const n of ends) expect(canBeFiled(field, fromOwn(field, n, own)), `${field} ${n}`).toBe(true);
      }
  });

  it('holds for a warning about food and for parts too', () => {
    const warning = (boxK: number) => ({ unitId: ID, boxK, toldTo: 'Ines', toldAt: '2026-11-25T16:00:00Z', note: '' });
    expect(PAYLOADS['food_warning.add'].safeParse(warning(fromOwn('boxK', 470, AMERICAN))).success).toBe(false);
    expect(PAYLOADS['food_warning.add'].safeParse(warning(fromOwn('boxK', 47, AMERICAN))).success).toBe(true);
    const parts = (quantity: number) => PAYLOADS['part.use'].safeParse({ unitId: null, what: 'Clip', quantity }).success;
    expect([parts(MOST_OF_A_PART), parts(MOST_OF_A_PART + 1)]).toEqual([true, false]);
  });
});
