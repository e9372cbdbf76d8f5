import { describe, expect, it } from 'vitest';
import { handedOverIn, NOTHING_HANDED_OVER, onlyHere } from '@/app/(tablet)/round/_lib/handed-over';
import { unsentWords } from '@/app/(tablet)/round/_lib/unsent-words';
import type { Entry } from '@/lib/core/tablet';
import type { KeptEntry } from '@/lib/tablet/database';

const kept = (id: string, seq: number, filed = false): KeptEntry => ({
  id,
  seq,
  visitId: 'v1',
  entry: { id, seq } as Entry,
  ...(filed ? {} : { waiting: 1 as const }),
  outcome: filed ? 'applied' : null,
  note: '',
});
const tablet = (entries: KeptEntry[], pictures: string[] = []) => ({
  entries: new Map(entries.map((k) => [k.id, k])),
  photos: pictures.map((id) => ({ id, visitId: 'v1', problem: '' })),
});
const fileOf = (s: ReturnType<typeof tablet>) =>
  handedOverIn({
    entries: [...s.entries.values()].filter((k) => k.waiting).map((k) => k.entry),
    photos: s.photos.map(({ id }) => ({ id, sha256: '', mime: '', bytes: '' })),
  });

describe('what only the tablet has', () => {
  it('is all that is unsent, without a file', () => {
    expect(onlyHere(tablet([kept('a', 1), kept('b', 2, true)], ['p']), NOTHING_HANDED_OVER)).toEqual({ entries: 1, pictures: 1 });
  });

  it('is nothing once a file has it', () => {
    const s = tablet([kept('a', 1), kept('b', 2)], ['b']);
    expect(onlyHere(s, fileOf(s))).toEqual({ entries: 0, pictures: 0 });
  });

  it('is a picture taken after the file, though its entry is in the office already', () => {
    const file = fileOf(tablet([kept('a', 1)]));
    expect(onlyHere(tablet([kept('a', 1), kept('p', 2, true)], ['p']), file)).toEqual({ entries: 0, pictures: 1 });
  });

  it('is a new entry, though the entries were counted anew and its number is no greater', () => {
    const file = fileOf(tablet([kept('a', 7), kept('b', 8)]));
    expect(onlyHere(tablet([kept('a', 1), kept('b', 2), kept('c', 3)]), file)).toEqual({ entries: 1, pictures: 0 });
    expect(onlyHere(tablet([kept('a', 1), kept('b', 2)]), file)).toEqual({ entries: 0, pictures: 0 });
  });
});

it.each([
  [{ entries: 0, pictures: 0 }, ''],
  [{ entries: 1, pictures: 0 }, '1 entry'],
  [{ entries: 0, pictures: 2 }, '2 pictures'],
  [{ entries: 3, pictures: 1 }, '3 entries and 1 picture'],
])('says what is unsent', (count, expected) => expect(unsentWords(count)).toBe(expected));
