import { describe, expect, it } from 'vitest';
import { entriesOf, fieldOf, isKeyOf, isOneOf, keysOf, labelOf, recordOf } from '@/lib/core/typed/closed-set';

const LABEL = { van: 'the van', shop: 'the shop', none: '' };

describe('closed sets', () => {
  it('know their members and nothing else', () => {
    expect([isOneOf(['van', 'shop'], 'shop'), isOneOf(['van', 'shop'], 'toString'), isOneOf([], 'van'), isOneOf([1], '1')]).toEqual([
      true,
      false,
      false,
      false,
    ]);
    expect([isKeyOf(LABEL, 'van'), isKeyOf(LABEL, 'toString'), isKeyOf(LABEL, 'cellar')]).toEqual([true, false, false]);
  });

  it('have a word for each member, and leave as it came what is none or has none', () => {
    expect([labelOf(LABEL, 'van'), labelOf(LABEL, 'toString'), labelOf(LABEL, 'cellar'), labelOf(LABEL, 'none')]).toEqual([
      'the van',
      'toString',
      'cellar',
      'none',
    ]);
  });

  it('are gone through in the order in which they are declared', () => {
    expect(keysOf(LABEL)).toEqual(['van', 'shop', 'none']);
    expect(entriesOf(LABEL)).toEqual([
      ['van', 'the van'],
      ['shop', 'the shop'],
      ['none', ''],
    ]);
    expect(recordOf(['a', 'bc'], (m) => m.length)).toEqual({ a: 1, bc: 2 });
  });

  it('a field is read of anything', () => {
    const named = Object.assign(() => 0, { at: 3 });
    expect([fieldOf({ at: 1 }, 'at'), fieldOf(named, 'at'), fieldOf(new Error('no'), 'message')]).toEqual([1, 3, 'no']);
    expect([fieldOf(null, 'at'), fieldOf(undefined, 'at'), fieldOf('text', 'length'), fieldOf({}, 'at')]).toEqual(
      Array.from({ length: 4 }, () => undefined),
    );
  });
});
