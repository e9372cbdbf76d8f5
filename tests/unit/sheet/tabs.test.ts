import { describe, expect, it } from 'vitest';
import { ALL_TABS, NO_CHOICES, readSheet, viewOf, type RawSheet, type SheetChoices } from '@/lib/core/sheet';
import { FILED_REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';

const ctx = { refrigerants: FILED_REFRIGERANTS.map((r) => r.id), customersOnFile: [], dateOrder: 'month first', temperature: 'F', today: '2026-11-28' } as const; // prettier-ignore
const read = (sheets: readonly RawSheet[], over: Partial<SheetChoices> = {}) => readSheet(sheets, { ...NO_CHOICES, ...over }, ctx);
const rowsIn = (r: ReturnType<typeof read>) => {
  const [head, ...rows] = r.lines;
  return rows.map(({ line, cells }) => ({
    line,
    ...Object.fromEntries((head?.cells ?? []).flatMap((h, i) => (cells[i] ? [[h, cells[i]]] : []))),
  }));
};

const cover: RawSheet = { name: 'Cover', rows: [['Tern Street Refrigeration'], ['kept by Ansa']] };
const osprey: RawSheet = {
  name: 'Osprey Diner',
  rows: [
    ['OSPREY'],
    ['114 Wharf Rd, Chicago'],
    [],
    ['Unit', 'Gas', 'Where', 'Last cleaned'],
    ['Reach-in', '134a', 'fryer', '6/1/26'],
    ['', '', '', ''],
    ['WIC', '404A', 'roof', ''],
    ['Total', '2'],
  ],
};
const anchor: RawSheet = {
  name: 'Bell & Anchor',
  rows: [['9 Quay St'], ['Unit', 'Where', 'Gas', 'Last  Cleaned', 'Remarks'], ['Prep table', 'line', '290', '5/5/26', 'drain slow']],
};
const marigold: RawSheet = {
  name: 'Marigold',
  rows: [
    ['Unit', 'Gas', 'Where', 'Last cleaned'],
    ['Display case', '290', 'bar', ''],
  ],
};
const parts: RawSheet = {
  name: 'Parts',
  rows: [
    ['Part', 'Price'],
    ['Gasket', '40'],
  ],
};

describe('a workbook with a tab for each kitchen', () => {
  const book = [cover, osprey, parts, anchor, marigold];
  it('is read as one list: each tab its customer, columns by their names, the address from above the table', () => {
    const r = read(book);
    expect(rowsIn(r)).toEqual([
      expect.objectContaining({ line: 2, customer: 'Osprey Diner', kitchen: 'Osprey Diner', address: '114 Wharf Rd, Chicago', kind: 'reach_in', placement: 'fryer', refrigerant: 'R134a', coil_cleaning_last_done: '2026-06-01' }),
      expect.objectContaining({ line: 3, customer: 'Osprey Diner', kind: 'walk_in_cooler', roof_work: 'yes' }),
      expect.objectContaining({ line: 4, customer: 'Bell & Anchor', address: '9 Quay St', kind: 'prep_table', placement: 'line', refrigerant: 'R290', notes: 'drain slow', coil_cleaning_last_done: '2026-05-05' }),
      expect.objectContaining({ line: 5, customer: 'Marigold', kind: 'display' }),
    ]); // prettier-ignore
    expect(r.questions.filter((q) => q.open)).toEqual([]);
    const told = r.assumptions.map((a) => [a.text, a.rows, a.examples]);
    expect(told).toContainEqual(['Tabs with the same columns are read as one list, its rows counted through.', 3, ['Osprey Diner', 'Bell & Anchor', 'Marigold']]); // prettier-ignore
    expect(told).toContainEqual(['A total or an end of the list: left out.', 1, ['Total · 2']]);
  });

  it('shows that it is, and reads one tab alone where that is picked', () => {
    const shown = (over: Partial<SheetChoices> = {}) => viewOf(read(book, over), book, { ...NO_CHOICES, ...over });
    expect(shown()).toMatchObject({ chosen: ALL_TABS, tabs: 3, rows: 4 });
    expect(shown({ sheet: 3 })).toMatchObject({ chosen: 3, tabs: 3, rows: 1 });
    expect(read(book, { sheet: 3 }).questions.filter((q) => q.open).map((q) => q.id)).toEqual(['customer']); // prettier-ignore
  });

  it('keeps a column for addresses to what it says', () => {
    const own = (name: string, address: string): RawSheet => ({ name, rows: [['1 Above St'], ['Unit', 'Address', 'Area'], ['Reach-in', address, 'line']] }); // prettier-ignore
    expect(rowsIn(read([own('Ash', '7 Elm St'), own('Oak', '8 Elm St')]))).toMatchObject([
      { address: '7 Elm St' },
      { address: '8 Elm St' },
    ]);
  });
});

describe('other workbooks', () => {
  const list = (name: string, customer: string): RawSheet => ({ name, rows: [['Customer', 'Unit', 'Area'], [customer, 'Reach-in', 'line']] }); // prettier-ignore
  it('with customers in their columns are read tab by tab, until somebody wants all of them', () => {
    const book = [list('North', 'Ash'), list('South', 'Elm')];
    const first = read(book);
    expect(rowsIn(first)).toMatchObject([{ customer: 'Ash' }]);
    expect(viewOf(first, book, NO_CHOICES)).toMatchObject({ chosen: 0, tabs: 2 });
    const all = read(book, { sheet: ALL_TABS });
    expect(rowsIn(all)).toMatchObject([{ customer: 'Ash', notes: 'Tab: North' }, { customer: 'Elm', notes: 'Tab: South' }]); // prettier-ignore
  });

  it('that keep one list over time are no customers’ tabs', () => {
    const year = (name: string): RawSheet => ({ name, rows: [['Unit', 'Area'], ['Reach-in', 'line']] }); // prettier-ignore
    for (const names of [
      ['2025', '2026'],
      ['Jan', 'February 2026', 'Mar.'],
      ['Week 11', 'Week 12'],
      ['3/1/26', '4/1/26'],
    ]) {
      // prettier-ignore
      const book = names.map(year);
      expect(viewOf(read(book), book, NO_CHOICES).chosen, names.join()).toBe(0);
      expect(read(book).questions[0]?.id).toBe('customer');
    }
    // Names that only begin like a month are names.
    const book = ['Marigold', 'Mayfair', 'Decatur Grill'].map(year);
    expect(rowsIn(read(book))).toMatchObject([{ customer: 'Marigold' }, { customer: 'Mayfair' }, { customer: 'Decatur Grill' }]);
  });

  it('of one sheet, or of sheets unlike each other, are read as before', () => {
    expect(viewOf(read([marigold]), [marigold], NO_CHOICES)).toMatchObject({ chosen: 0, tabs: 0, sheets: ['Marigold'] });
    expect(viewOf(read([marigold, parts]), [marigold, parts], NO_CHOICES)).toMatchObject({ chosen: 0, tabs: 0 });
  });
});
