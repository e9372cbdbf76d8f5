import { describe, expect, it } from 'vitest';
import { manyLines, oneLine, plainMarks } from '@/lib/core/wording/plain-text';

describe('what is typed, made plain', () => {
  it('stands on one line: breaks and tabs are blanks', () => {
    expect(oneLine('Dock\r\nStreet')).toBe('Dock Street');
    expect(oneLine('Dock\rStreet\nend')).toBe('Dock Street end');
    expect(oneLine('a\tb\u2028c\u2029d\u0085e')).toBe('a b c d e');
  });

  it('or on several: each break is one line feed, tabs stay', () => {
    expect(manyLines('Ring\r\nat the\rback\u2028door')).toBe('Ring\nat the\nback\ndoor');
    expect(manyLines('key\tsafe')).toBe('key\tsafe');
  });

  it.each([oneLine, manyLines])('holds nothing that is no writing, and keeps what is', (plain) => {
    // A bell, a nul, marks that turn the direction.
    expect(plain('Ki\u0007tchen\u0000 \u202eenil\u202c \u2066x\u2069')).toBe('Kitchen enil x');
    expect(plain('Čerňa’s 冷 🧊, 38 °F & <b>')).toBe('Čerňa’s 冷 🧊, 38 °F & <b>');
    expect(plain('half \ud83e of a sign')).toBe('half \uFFFD of a sign');
    expect(plain('')).toBe('');
  });

  it('has hyphens and blanks as a keyboard has them, and no marks without width', () => {
    expect(plainMarks('Reach\u2011in \u2010 back\uff0dbar')).toBe('Reach-in - back-bar');
    expect(plainMarks('Walk\u00a0in\u2003freezer\u202f2\u3000b')).toBe('Walk in freezer 2 b');
    expect(plainMarks('Dock\u200b\u00ad\u2060\ufeffside')).toBe('Dockside');
    expect(plainMarks('Ice machine, line 2 - 38 °F')).toBe('Ice machine, line 2 - 38 °F');
  });
});
