import 'fake-indexeddb/auto';
import { describe, expect, it, vi } from 'vitest';
import { Drafts, draftsOf } from '@/app/(tablet)/round/_lib/drafts';
import { unsavedOf } from '@/app/(tablet)/round/_lib/use-unsaved';
import { openDatabase } from '@/lib/tablet/database';
import type { VisitOnFile } from '@/lib/core/tablet';

describe('a draft', () => {
  it('is one wherever it shows, and is there again after a fall', async () => {
    const db = await openDatabase('ana');
    const [here, there] = [draftsOf(db), draftsOf(db)];
    const seen: unknown[] = [];
    there.subscribe(() => seen.push(there.read('draft:clock').value));
    here.write('draft:clock', { at: 5 });
    expect(seen).toEqual([{ at: 5 }]);
    await vi.waitFor(async () => expect(await db.get('meta', 'draft:clock')).toEqual({ at: 5 }));
    const after = new Drafts(db);
    expect(after.read('draft:clock').value).toBeUndefined();
    await vi.waitFor(() => expect(after.read('draft:clock').value).toEqual({ at: 5 }));
    here.clear('draft:clock');
    await vi.waitFor(async () => expect(await db.get('meta', 'draft:clock')).toBeUndefined());
  });

  it('that cannot be kept says so; what is typed before the disk answers is the newer', async () => {
    const nowhere = new Drafts(null);
    nowhere.write('x', 'a');
    expect(nowhere.read('x')).toEqual({ value: 'a', kept: false });
    const db = await openDatabase('ben');
    await db.put('meta', 'old', 'y');
    const drafts = new Drafts(db);
    drafts.read('y');
    drafts.write('y', 'new');
    await db.get('meta', 'y');
    await new Promise((done) => setTimeout(done, 20));
    expect(drafts.read('y')).toEqual({ value: 'new', kept: true });
  });
});

it('what was typed and not saved is asked about at the closing, with where it waits', () => {
  const visit = { id: 'v', units: [{ id: 'u', name: 'Line fridge' }] } as unknown as VisitOnFile;
  const unsavedText = (name: string, value: unknown) => unsavedOf(visit, name, value)?.words ?? null;
  expect(unsavedText('u:before', { text: { airInK: '86' }, answers: {} })).toMatch(/^Line fridge: readings before/);
  expect(unsavedText('u:before', { text: { airInK: '' }, answers: { a: 'x' } })).toBeNull();
  expect(unsavedText('u:follow-up', { what: 'New gasket', urgency: null })).toMatch(/work that is wanted/);
  expect(unsavedText('u:follow-up', { what: ' ', urgency: 'now' })).toBeNull();
  expect(unsavedText('u:running', { at: 5 })).toBeNull();
  expect(unsavedText('part', { what: '', quantity: '1' })).toBeNull();
  expect(unsavedText('part', { what: 'Fan clip', quantity: '1' })).toMatch(/^A part/);
  expect(unsavedText(':food', { degrees: '47', toldTo: '' })).toMatch(/food/);
  expect(unsavedText('signer', 'Ines')).toBeNull();
  expect(unsavedOf(visit, 'u:event', { kind: null, note: 'Twice at noon' })?.href).toBe('#/visit/v/unit/u/leave');
});
