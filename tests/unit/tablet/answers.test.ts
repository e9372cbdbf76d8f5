import { expect, it } from 'vitest';
import { countUnread } from '@/app/(tablet)/round/_lib/answers';
import type { Entry } from '@/lib/core/tablet';
import type { KeptEntry } from '@/lib/tablet/database';

const kept = (change: Partial<KeptEntry>): KeptEntry => ({
  id: 'a',
  visitId: 'v1',
  seq: 1,
  entry: {} as Entry,
  outcome: null,
  note: '',
  ...change,
});

it('counts what the office did not take or asked about, until it is read', () => {
  const list = [
    kept({ waiting: 1 }),
    kept({ outcome: 'applied' }),
    kept({ outcome: 'conflict', note: 'Two readings.' }),
    kept({ outcome: 'rejected', note: 'Not that unit.' }),
    kept({ outcome: 'rejected', note: '' }),
    kept({ outcome: 'rejected', seen: true }),
    // Goes once more, as to an office set back to a backup.
    kept({ outcome: 'rejected', waiting: 1 }),
  ];
  expect(countUnread(new Map(list.map((k, i) => [String(i), k])))).toBe(3);
  expect(countUnread(new Map())).toBe(0);
});
