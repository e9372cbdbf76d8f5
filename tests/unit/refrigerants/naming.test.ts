import { describe, expect, it } from 'vitest';
import { flammableCaution, refrigerantId } from '@/lib/core/refrigerants/naming';
import { REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';

describe('refrigerants as people write them', () => {
  it.each([
    ['R-404A', 'R404A'], ['r404a', 'R404A'], ['404A', 'R404A'], ['propane', 'R290'], ['R 1234ze(E)', 'R1234ze(E)'],
  ])('%s is %s', (text, id) => expect(refrigerantId(text)).toBe(id)); // prettier-ignore
  it('guesses at nothing', () => expect(['R999', '', 'freon'].map(refrigerantId)).toEqual([null, null, null]));
});

describe('caution beside the choice', () => {
  it('stands with every refrigerant that burns, defers to code and licence, and with no other', () => {
    for (const { id, safetyClass } of Object.values(REFRIGERANTS)) {
      const caution = flammableCaution(id);
      if (safetyClass === 'A1') expect(caution).toBeNull();
      else expect(caution).toMatch(/[Ff]lammable|[Bb]urns.*/);
      if (caution) expect(caution).toMatch(/licensed people.*local code/);
    }
  });
});
