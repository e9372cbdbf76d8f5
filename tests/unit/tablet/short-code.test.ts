import { expect, it } from 'vitest';
import { shortCode } from '@/lib/core/tablet/short-code';

it('makes the same code of the same id, of the length asked, from letters nobody mixes up', () => {
  const codes = Array.from({ length: 5000 }, (_, i) => shortCode(`id ${i}`));
  for (const code of codes) expect(code).toMatch(/^[34679ACDEFGHJKMNPQRTWXY]{6}$/);
  expect(codes[17]).toBe(shortCode('id 17'));
  expect(shortCode('id 17', 9)).toMatch(/^.{9}$/);
  // 5,000 codes of 23^6: about 0.08 pairs alike are expected by chance.
  expect(new Set(codes).size).toBeGreaterThan(4996);
});
