import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { changedFields, dropKept, readKept, toPutBack, writeKept } from '@/app/_ui/forms/kept-words';

const DAY = 86_400_000;

function fakeStorage(most = Infinity): Storage {
  const held: Record<string, string> = {};
  const methods = {
    getItem: (key: string) => held[key] ?? null,
    setItem(key: string, text: string) {
      if (text.length > most) throw new DOMException('full', 'QuotaExceededError');
      held[key] = text;
    },
    removeItem: (key: string) => void delete held[key],
  };
  return new Proxy(held, {
    get: (_, name) => Reflect.get(methods, name) ?? held[String(name)],
  }) as unknown as Storage;
}

describe('what was typed into a form', () => {
  beforeEach(() => vi.stubGlobal('window', { localStorage: fakeStorage() }));
  afterEach(() => vi.unstubAllGlobals());

  it('is what differs from the page as it came; a field that is not shown at the moment stays known', () => {
    const before = { hidden: { was: [''], is: ['kept'] } };
    expect(changedFields({ name: ['A'], tick: [], same: ['1'] }, { name: ['B'], tick: ['on'], same: ['1'] }, before)).toEqual({
      hidden: { was: [''], is: ['kept'] },
      name: { was: ['A'], is: ['B'] },
      tick: { was: [], is: ['on'] },
    });
  });

  it('goes back only where it differs, and says when somebody saved other words meanwhile', () => {
    const kept = { at: 0, version: '3', fields: { name: { was: ['A'], is: ['B'] }, phone: { was: [''], is: ['1'] } } };
    expect(toPutBack(kept, { name: ['A'], phone: ['1'] }, '3')).toEqual({ fields: { name: ['B'] }, changedSince: false });
    // Another field was saved meanwhile: nothing of this is at odds with it.
    expect(toPutBack(kept, { name: ['A'], phone: [''] }, '4').changedSince).toBe(false);
    expect(toPutBack(kept, { name: ['C'], phone: [''] }, '4').changedSince).toBe(true);
  });

  it('is kept a fortnight, let go when nothing differs, and of many forms the oldest go', () => {
    const fields = { name: { was: ['A'], is: ['B'] } };
    for (let i = 0; i < 45; i++) writeKept(`form ${i}`, { at: i, version: '', fields });
    expect(readKept('form 0', 45)).toBeNull();
    expect(readKept('form 44', 45)?.fields).toEqual(fields);
    expect(readKept('form 44', 44 + 14 * DAY)).toBeNull();
    writeKept('form 44', { at: 46, version: '', fields: {} });
    expect(readKept('form 44', 46)).toBeNull();
    dropKept('form 43');
    expect(readKept('form 43', 46)).toBeNull();
  });

  it('asks for nothing of a browser whose storage is full, closed or holds something else', () => {
    vi.stubGlobal('window', { localStorage: fakeStorage(3) });
    expect(() => writeKept('form', { at: 1, version: '', fields: { a: { was: [], is: ['x'] } } })).not.toThrow();
    vi.stubGlobal('window', {
      get localStorage(): Storage {
        throw new DOMException('closed', 'SecurityError');
      },
    });
    expect(readKept('form', 1)).toBeNull();
    vi.stubGlobal('window', { localStorage: { getItem: () => '{"at":' } });
    expect(readKept('form', 1)).toBeNull();
  });
});
