import { expect, it } from 'vitest';
import { counted } from '@/lib/core/wording/counted';

it.each([
  [counted(0, 'task'), '0 tasks'],
  [counted(1, 'task'), '1 task'],
  [counted(1234, 'entry', 'entries'), '1,234 entries'],
])('counts in words: %s', (said, expected) => expect(said).toBe(expected));
