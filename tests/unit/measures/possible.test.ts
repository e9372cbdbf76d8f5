import { describe, expect, it } from 'vitest';
import { MEASURES, entryUnit, type Measure } from '@/lib/core/measures/entry-units';
import { heldTo, possibleIn } from '@/lib/core/measures/possible';
import { LIMITS } from '@/lib/core/equipment/limits';
import { UNIT_KEYS, unitField } from '@/lib/core/equipment/unit-fields';
import { keysOf } from '@/lib/core/typed/closed-set';

type Held = [what: string, measure: Measure, span: readonly [number, number]];
const SPANS: Held[] = [
  ['altitude', 'length', LIMITS.altitudeM],
  ['hot day', 'temperature', LIMITS.hotDayAirK],
  ['gauge', 'pressure', LIMITS.gaugeSpanPa],
  ['cylinder', 'mass', [0, 500]],
  ...UNIT_KEYS.flatMap((key): Held[] => {
    const field = unitField(key);
    return field.type === 'measured' ? [[key, field.measure, field.span]] : [];
  }),
];
const CASES = SPANS.flatMap(([what, measure, span]) => keysOf(MEASURES[measure]).map((unit) => ({ what, measure, span, unit })));

describe('what is said to be possible', () => {
  it.each(CASES)('can be typed: $what in $unit', ({ measure, span, unit }) => {
    const { toSi, fromSi } = entryUnit(measure, unit);
    const [low, high] = possibleIn(span, fromSi).map(Number);
    for (const named of [low, high]) {
      const held = heldTo(span, toSi(named ?? Number.NaN));
      // And what is kept stays inside what the database holds.
      expect(held).toBeGreaterThanOrEqual(span[0]);
      expect(held).toBeLessThanOrEqual(span[1]);
    }
    // Named to three digits: what is left out is less than one in the last of them.
    const width = fromSi(span[1]) - fromSi(span[0]);
    for (const [named = NaN, bound] of [[low, fromSi(span[0])], [high, fromSi(span[1])]] as const) expect(Math.abs(named - bound)).toBeLessThan(0.011 * Math.max(Math.abs(bound), 0.01 * width)); // prettier-ignore
  });
  it('is a bound to the last digits, and nothing beyond it', () => {
    expect([heldTo([213.15, 298.15], 213.14999999999998), heldTo([213.15, 298.15], 298.15), heldTo([213.15, 298.15], 250)]).toEqual([213.15, 298.15, 250]); // prettier-ignore
    expect([heldTo([213.15, 298.15], 213.1), heldTo([213.15, 298.15], 298.2), heldTo([0, 10], Number.NaN)]).toEqual([null, null, null]);
    expect(possibleIn([206_843, 15_000_000], entryUnit('pressure', 'psig').fromSi)).toEqual(['30', '2170']);
    expect(possibleIn([-430, 5000], entryUnit('length', 'ft').fromSi)).toEqual(['-1410', '16400']);
  });
});
