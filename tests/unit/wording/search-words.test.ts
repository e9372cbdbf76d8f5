import { describe, expect, it } from 'vitest';
import { LEAST_LETTERS, searchWords } from '@/lib/core/wording/search-words';

describe('what somebody looks for', () => {
  it.each([
    ['Dock Street', ['dock', 'street']],
    ['  Café   Ño ', ['cafe', 'no']],
    ['fry\tfreezer\n2', ['fry', 'freezer', '2']],
    ['one two three four five six', ['one', 'two', 'three', 'four', 'five']],
    // Numbers are one, however they are written.
    ['(555) 014-2', ['5550142']],
    ['+1 555.01/42', ['15550142']],
    ['L06-03', ['l06-03']],
    ['12 Kiln', ['12', 'kiln']],
  ])('%j: %j', (typed, words) => expect(searchWords(typed)).toEqual(words));

  it.each(['', '  ', 'ab', 'a b', '4-2', '( )'])('%j is too little to go by', (typed) => expect(searchWords(typed)).toEqual([]));

  it('takes a word of just enough letters, and a number of just enough digits', () => {
    expect(searchWords('x'.repeat(LEAST_LETTERS))).toHaveLength(1);
    expect(searchWords('7'.repeat(LEAST_LETTERS))).toEqual(['777']);
  });
});
