import { fieldOf } from '../core/typed/closed-set';

/** What can go wrong with the tablet's own storage, in words for whoever holds it. */
export type StorageTrouble = { code: 'full' | 'refused' | 'outdated' | 'failed'; message: string };

const MESSAGE: Record<StorageTrouble['code'], string> = {
  full: 'This tablet is full, so the entry was not saved. Free some space (old photos, other apps), then save it again; what was saved before is safe.',
  refused:
    'This browser does not let Rimebook keep anything on the tablet (private window, or storage switched off). Open Rimebook in a normal window: here nothing would survive losing signal.',
  outdated: 'A newer Rimebook is open in another window of this tablet. Close this window and go on there; what was saved is there.',
  failed: 'The tablet could not save the entry. Save it again; what was saved before is safe.',
};

export class StorageError extends Error {
  constructor(readonly trouble: StorageTrouble) {
    super(trouble.message);
    this.name = 'StorageError';
  }
}

export const OUTDATED: StorageTrouble = { code: 'outdated', message: MESSAGE.outdated };

const TALK_WORDS: Partial<Record<StorageTrouble['code'], string>> = {
  full: 'This tablet is full: what the office sent could not be kept. Free some space (old photos, other apps); what was saved before is safe.',
  failed: 'The tablet could not keep what the office sent. It is tried again; what was saved before is safe.',
};

/** DOMException names of the IndexedDB and Storage standards. */
export function troubleOf(error: unknown, during: 'write' | 'open' | 'talk' = 'write'): StorageTrouble {
  const name = fieldOf(error, 'name');
  const code =
    name === 'QuotaExceededError'
      ? 'full'
      : during === 'open' || name === 'SecurityError' || name === 'InvalidStateError'
        ? 'refused'
        : 'failed';
  return { code, message: (during === 'talk' && TALK_WORDS[code]) || MESSAGE[code] };
}
