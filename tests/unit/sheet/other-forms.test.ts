import { describe, expect, it } from 'vitest';
import { forTheNext, NO_CHOICES, readSheet, type SheetChoices } from '@/lib/core/sheet';
import { FILED_REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';

// Lists as small shops keep them, invented: a count for each kind, no names over the columns, a calendar of marks.

const ctx = { refrigerants: FILED_REFRIGERANTS.map((r) => r.id), customersOnFile: [], dateOrder: 'month first', temperature: 'F', today: '2026-11-28' } as const; // prettier-ignore
const read = (text: string, answers: Record<string, string> = {}, over: Partial<SheetChoices> = {}) =>
  readSheet([{ name: '', rows: text.trim().split('\n').map((l) => l.split(',').map((c) => c.trim())) }], { ...NO_CHOICES, answers, ...over }, ctx); // prettier-ignore
const rowsIn = (r: ReturnType<typeof read>) => {
  const [head, ...rows] = r.lines;
  return rows.map(({ line, cells }) => ({
    line,
    ...Object.fromEntries((head?.cells ?? []).flatMap((h, i) => (cells[i] ? [[h, cells[i]]] : []))),
  }));
};
const open = (r: ReturnType<typeof read>) => r.questions.filter((q) => q.open).map((q) => q.id);

describe('how many of each kind a kitchen has', () => {
  const list = `
    Customer, Address, Reach-ins, Walk-in coolers, Ice machines, Notes
    Osprey Diner, 114 Wharf Rd, 2, 1, -, packs fast
    Marigold Bakery, 40 Alder Blvd, , x, 0,
    Closed Place, 1 Elm St, , , ,`;
  it('is a unit each, and what a kitchen has none of is none', () => {
    const r = read(list, { several: 'each', placement: 'line' });
    expect(rowsIn(r)).toMatchObject([
      { line: 2, customer: 'Osprey Diner', unit: 'Reach-in', kind: 'reach_in', notes: 'packs fast' },
      { line: 2, customer: 'Osprey Diner', unit: 'Reach-in 2', kind: 'reach_in' },
      { line: 2, customer: 'Osprey Diner', unit: 'Walk-in cooler', kind: 'walk_in_cooler' },
      { line: 3, customer: 'Marigold Bakery', kind: 'walk_in_cooler' },
    ]);
    expect(r.assumptions.map((a) => [a.text, a.lines])).toContainEqual(['Nothing of a unit in the row: left out.', [4]]);
    expect(open(read(list))).toEqual(['several', 'placement']);
  });

  it('is read so only where the cells are counts', () => {
    const r = read('Customer, Walk-in, Ice\nAsh, by the door, none\nElm, 2, 1');
    expect(r.columns.map((c) => c.header)).toEqual(['Customer', 'Walk-in', 'Ice']);
    // One such column may be anything.
    expect(read('Customer, Equipment, Ice\nAsh, WIC, 1').columns.map((c) => c.header)).toEqual(['Customer', 'Equipment', 'Ice']);
  });
});

describe('a list without names over its columns', () => {
  const list = `
    Osprey Diner, 114 Wharf Rd, reach-in, R134a, 6/1/26
    Bell & Anchor, 9 Quay St, ice machine, R404A, 5/2/26`;
  it('loses no row, goes by what stands in the columns, and asks which one names the customer', () => {
    const r = read(list);
    expect(r.headerLine).toBe(0);
    expect(r.columns.map((c) => c.target)).toEqual(['notes', 'address', 'unit', 'refrigerant', 'last_cleaned']);
    expect(open(r)).toEqual(['customer', 'placement']);
    const told = read(list, { placement: 'line' }, { columns: { 0: 'customer' } });
    expect(rowsIn(told)).toMatchObject([
      { line: 1, customer: 'Osprey Diner', kind: 'reach_in', refrigerant: 'R134a', coil_cleaning_last_done: '2026-06-01' },
      { line: 2, customer: 'Bell & Anchor', kind: 'ice_machine', refrigerant: 'R404A', coil_cleaning_last_done: '2026-05-02' },
    ]);
  });

  it('so also a few lines out of a letter', () => {
    const r = read('Osprey Diner - reach-in, by the fryer\nBell & Anchor - ice machine, scale');
    expect([r.headerLine, r.rows]).toEqual([0, 2]);
    expect(rowsIn(r)).toMatchObject([
      { kind: 'reach_in', unit: 'Osprey Diner - reach-in', notes: 'by the fryer' },
      { kind: 'ice_machine' },
    ]);
  });

  it('is told from names that look a little like values', () => {
    for (const names of ['Customer, Reach-in, Walk-in', 'Name 2, R404A?, Unit', 'Kunde, Ort, Maschine'])
      expect(read(`${names}\nAsh, 1, 2`).headerLine, names).toBe(1);
  });
});

describe('a calendar with a mark in each month', () => {
  const list = `
    Kitchen, Unit, Area, Jan, Feb, Mar, Apr, May, June, Jul, Aug, Sep, Oct, Nov, Dec
    Osprey Diner, Reach-in, line, x, , , x, , , x, , , x, ,
    Ash, Walk-in, line, , , , , , , , , , , , 14
    Elm, Ice machine, bar, , , , , , , , , , , ,`;
  it('is asked about once, and stays in the notes meanwhile', () => {
    const r = read(list);
    expect(r.questions).toMatchObject([{ id: 'months', rows: 2, open: true, examples: ['Jan, Apr, Jul, Oct', 'Dec 14'] }]);
    expect(rowsIn(r)[0]).toMatchObject({ notes: 'Marked months: Jan, Apr, Jul, Oct' });
    for (const months of ['leave', ''] as const) {
      const [row] = rowsIn(read(list, { months }));
      expect(row).not.toHaveProperty('coil_cleaning_last_done');
      expect(row).not.toHaveProperty('coil_cleaning_rule');
    }
  });

  it('of what was done gives the last month gone by', () => {
    expect(rowsIn(read(list, { months: 'done' }))).toMatchObject([
      { coil_cleaning_last_done: '2026-10-01' },
      { coil_cleaning_last_done: '2025-12-01' },
      { kind: 'ice_machine' },
    ]);
    expect(rowsIn(read(list, { months: 'done' }))[2]).not.toHaveProperty('coil_cleaning_last_done');
  });

  it('of what is to be done gives how often', () => {
    const [four, one, none] = rowsIn(read(list, { months: 'plan' }));
    expect([four, one]).toMatchObject([{ coil_cleaning_rule: '13' }, { coil_cleaning_rule: '52' }]);
    expect(none).not.toHaveProperty('coil_cleaning_rule');
  });

  it('is one only where most of a year has its columns', () => {
    const r = read('Customer, Unit, Area, May, June, Note\nAsh, WIC, line, x, x, y');
    expect(r.columns.map((c) => c.header)).toEqual(['Customer', 'Unit', 'Area', 'May', 'June', 'Note']);
    const beside = read(list.replace('Area, Jan', 'Market, Jan'));
    expect(beside.columns.map((c) => c.header)).toEqual(['Kitchen', 'Unit', 'Market', 'Marked months']);
  });
});

describe('a list that is all of one kitchen', () => {
  const list = '\nOsprey Diner,,\n"114 Wharf Rd",,\nUnit, Gas, Area\nReach-in, 134a, line\nWIC, 404A, roof';
  const text = list.replaceAll('"', '');
  it('can be given to the name that stands over it, with the street there', () => {
    const r = read(text);
    expect(r.questions).toMatchObject([{ id: 'customer', rows: 2, open: true }]);
    expect(r.questions[0]?.options[0]).toEqual({ value: 'all:Osprey Diner', label: 'All of it is of “Osprey Diner”' });
    expect(r.assumptions.at(-1)).toMatchObject({ text: 'Over the names of the columns: left out.', examples: ['Osprey Diner', '114 Wharf Rd'] }); // prettier-ignore
    const told = read(text, { customer: 'all:Osprey Diner' });
    expect(open(told)).toEqual([]);
    expect(told.questions).toMatchObject([{ id: 'customer', answer: 'all:Osprey Diner' }]);
    expect(rowsIn(told)).toMatchObject([
      { customer: 'Osprey Diner', kitchen: 'Osprey Diner', address: '114 Wharf Rd', kind: 'reach_in' },
      { customer: 'Osprey Diner', kind: 'walk_in_cooler' },
    ]);
  });

  it('is so for this list alone: the next of the same columns is asked anew', () => {
    const answers = { customer: 'all:Osprey Diner', placement: 'line', 'same all': 'apart' };
    expect(forTheNext({ ...NO_CHOICES, answers })).toEqual({ ...NO_CHOICES, answers: { placement: 'line' } });
    const kept = { ...NO_CHOICES, answers: { customer: 'address' } };
    expect(forTheNext(kept)).toBe(kept);
  });

  it('or to the name of its sheet, unless that is no name; a customer in a row stands', () => {
    const sheet = (name: string, rows = [['Unit', 'Area'], ['Reach-in', 'line']]) => [{ name, rows }]; // prettier-ignore
    const first = (name: string) => readSheet(sheet(name), NO_CHOICES, ctx).questions[0]?.options[0]?.value;
    expect([first('Osprey Diner'), first('Sheet1'), first('2026'), first('')]).toEqual(['all:Osprey Diner', '0', '0', '0']);
    const mixed = sheet('North', [['Customer', 'Unit', 'Area'], ['', 'WIC', 'line'], ['Ash', 'Reach-in', 'line']]); // prettier-ignore
    const r = readSheet(mixed, { ...NO_CHOICES, answers: { customer: 'all:North' } }, ctx);
    expect(rowsIn(r).map((u) => (u as { customer?: string }).customer)).toEqual(['North', 'Ash']);
  });
});
