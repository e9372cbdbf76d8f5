import { expect, it } from 'vitest';
import { counted } from '@/lib/core/wording/counted';
import { lower } from '@/lib/core/wording/lower';

it.each([
  [0, 'task', undefined, '0 tasks'],
  [1, 'task', undefined, '1 task'],
  [2, 'box', 'boxes', '2 boxes'],
  [1, 'entry', 'entries', '1 entry'],
  [1234, 'entry', 'entries', '1,234 entries'],
])('counts in words: %d %s', (n, one, many, said) => expect(counted(n, one, many)).toBe(said));

it('puts a sentence within another', () => {
  expect(lower('The drain runs slowly.')).toBe('the drain runs slowly.');
  expect(lower('')).toBe('');
});
