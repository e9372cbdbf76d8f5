import { expect, it } from 'vitest';
import { codeOf } from '@/app/(tablet)/round/_lib/read-label';

it.each([
  ['https://cold.example/round#/tag/K7MP3Q', 'K7MP3Q'],
  [' K7MP3Q ', 'K7MP3Q'],
  ['walk-in_2.b', 'WALK-IN_2.B'],
])('reads the code in %j', (raw, code) => expect(codeOf(raw)).toBe(code));

// A maker's plate, a menu, a wrong escape, a wall of text: none may be taken for a code, and none may throw.
it.each([
  'https://maker.example/serial/4711',
  'https://cold.example/round#/tag/100%',
  'WIFI:S:kitchen;P:secret;;',
  '',
  'x'.repeat(41),
  'MODEL 4711\nSERIAL 0815',
])('finds no label of ours in %j', (raw) => expect(codeOf(raw)).toBeNull());
