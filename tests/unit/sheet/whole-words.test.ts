import { describe, expect, it } from 'vitest';
import { findTable } from '@/lib/core/sheet/find-table';
import { readDate } from '@/lib/core/calendar/read-date';
import { readInterval } from '@/lib/core/sheet/read-interval';
import { readMass } from '@/lib/core/sheet/read-mass';
import { eachItsRow } from '@/lib/core/sheet/several';
import { isFreezer, kindOf, placementOf } from '@/lib/core/sheet/vocabulary';

// What is read is the whole of a cell: with something more before or after it, it says something else, and is asked or kept.

describe('a cell that says more', () => {
  it('is no interval', () => {
    const words = ['w', 'wkly', 'weekly', 'biweekly', 'bi-weekly', 'every other week', 'fortnightly', 'm', 'mo', 'monthly', '1x/mo', '1x month', 'q', 'qtr', 'qtrly', 'quarterly', '4x/yr', '4x a year', 'semi-annual', 'semiannually', 'half-yearly', 's', 'sa', '2x/yr', '2x per year', 'twice a year', 'biannual', 'bi-annually', 'a', 'annual', 'annually', 'yearly', '1x/yr', '1x a year', 'once a year', 'every other month', '6 weeks', '90 days', '3 mo', '1 yr']; // prettier-ignore
    for (const word of words) {
      expect(readInterval(word, ''), word).not.toBeNull();
      for (const more of [`about ${word}`, `${word} or so`, `!${word}`, `${word}!`, `n${word}`])
        expect(readInterval(more, ''), more).toBeNull();
    }
  });

  it('is no date and no mass', () => {
    const dates = [
      '3/16/24',
      '2024-03-16',
      '16-Mar-24',
      '16 mar 2024',
      'Mar 16, 2024',
      'mar 16 24',
      'March 2024',
      'mar-24',
      '45367',
      '45367.5',
    ];
    for (const text of dates) {
      expect(readDate(text, 'month first'), text).not.toBeNull();
      for (const more of [`about ${text}`, `${text} or so`, `!${text}`, `${text}!`]) expect(readDate(more, 'month first'), more).toBeNull();
    }
    for (const text of ['1 lb 4 oz', '20 oz', '3 kg', '500 g', '2#'])
      for (const more of [`about ${text}`, `${text} or so`, `!${text}`, `${text}!`]) expect(readMass(more, null), more).toBeNull();
  });

  it('is no end of a list', () => {
    const kept = (text: string) => findTable({ name: '', rows: [['Customer', 'Equipment', 'Serial', 'Gas'], [text, 'WIC', '1', '404'], [text, 'RI', '', '']] }).body.length; // prettier-ignore
    for (const text of ['My total', 'Grandtotal', 'Totals', 'Account', 'Recount', 'Summer House', 'Weekend of list', 'The end of list', 'End of road', 'Page', 'Page two', 'Homepage 2'])
      expect(kept(text), text).toBe(2);
    for (const text of ['Total', 'Grand total', 'Subtotal', 'Sub total', 'Count', 'Sum', 'End of list', 'End of report', 'Page 2'])
      expect(kept(text), text).toBe(0);
  }); // prettier-ignore
});

describe('words of two', () => {
  const forms = (two: string) => [' ', '-', ''].map((join) => two.replace(' ', join));
  it.each([
    ['walk_in_freezer', ['walk in freezer', 'cold room freezer', 'walk in frz', 'freezer walk in', 'frz. walk in']],
    ['walk_in_cooler', ['walk in', 'cold room', 'cool room']],
    ['drawer_base', ['chef base']],
    ['prep_table', ['mega top', 'make table', 'make line']],
    ['undercounter', ['under counter', 'under cnt', 'low boy', 'work top', 'back bar']],
    ['display', ['glass door', 'open air', 'show case']],
    ['reach_in', ['reach in', 'roll in', 'pass thru']],
  ])('%s, whether joined, parted or hyphened', (kind, words) => {
    for (const word of words) for (const text of forms(word)) expect(kindOf(text), text).toBe(kind);
  });
  it('of places and of cold too', () => {
    for (const text of forms('flat top')) expect(placementOf(text), text).toBe('griddle');
    for (const text of forms('low temp')) expect(isFreezer(text), text).toBe(true);
  });
});

describe('headings and names', () => {
  const under = (column: string, filled: readonly string[]) =>
    findTable({
      name: '',
      rows: [[column, 'Equipment', 'Serial', 'Gas'], ['Ash'], [filled[0] ?? '', 'WIC', '1', '404'], ['Elm'], [filled[1] ?? '', 'RI', '2', '290']],
    }).headers[0]; // prettier-ignore
  it('are customers only where the column that should name them is empty', () => {
    for (const column of ['Customer', 'Customers', 'client', 'Account #', 'Company name', 'RESTAURANT']) {
      expect(under(column, ['', '']), column).toBe('Customer (heading row)');
      expect(under(column, ['A', '']), column).toBe('Customer (heading row)');
      expect(under(column, ['A', 'B']), column).toBe(column);
    }
    // A column of something else may be as full as it likes.
    for (const column of ['Unit', 'Bad customer', 'Accounting']) expect(under(column, ['A', 'B']), column).toBe('Customer (heading row)'); // prettier-ignore
  });
});

it('pieces of a cell are parted by a word of its own, not by letters within one', () => {
  const two = (serial: string) => eachItsRow([{ line: 1, cells: { unit: 'WIC / WIF', serial }, notes: [] }], { columns: {}, values: {}, answers: { several: 'each' } }).map((r) => r.cells.serial); // prettier-ignore
  for (const text of ['S1 and S2', 'S1  AND  S2', 'S1/S2', 'S1 , S2', 'S1;S2', 'S1&S2', 'S1 + S2'])
    expect(two(text), text).toEqual(['S1', 'S2']);
  for (const text of ['S1 andS2', 'S1and S2', 'S1-S2', 'SANDS', 'S1 S2', 'S1 / S2 / S3'])
    expect(two(text), text).toEqual([undefined, undefined]);
});
