import { describe, expect, it } from 'vitest';
import { stillWanted, unitTyped } from '@/app/(tablet)/round/_lib/typed-unit';

import type { MeasureUnits } from '@/lib/core/measures/preferred';

const own: MeasureUnits = { temperature: 'F', pressure: 'psig', mass: 'oz' };

describe('a unit put on file on the spot', () => {
  it('says what must still be said, and is whole once nothing is left', () => {
    expect(stillWanted({})).toEqual(['Name', 'Kind', 'Placement', 'Refrigerant']);
    const typed = { name: ' ', kind: 'reach_in', placement: 'fryer', refrigerant: 'R290' };
    expect(stillWanted(typed)).toEqual(['Name']);
    expect(unitTyped(typed, own)).toBeNull();
    expect(unitTyped({ ...typed, name: 'Bread base' }, own)).toMatchObject({ name: 'Bread base', kind: 'reach_in' });
  });
});
