import { describe, expect, it } from 'vitest';
import { allColumns, planFleet } from '@/lib/core/fleet-csv';
import { NO_CHOICES, readSheet, type RawSheet, type SheetChoices, type SheetContext } from '@/lib/core/sheet';
import { FILED_REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';
import { TASK_KINDS } from '@/lib/core/tasks/kinds';
import { messySheets } from '@/tests/support/messy-sheet';

const ctx: SheetContext = {
  refrigerants: FILED_REFRIGERANTS.map((r) => r.id),
  customersOnFile: [],
  dateOrder: 'month first',
  temperature: 'F',
  today: '2026-11-27',
};
const read = (sheets: RawSheet[], choices: SheetChoices = NO_CHOICES) => readSheet(sheets, choices, ctx);
const rowsOf = ({ lines }: ReturnType<typeof read>) => {
  const [head, ...rows] = lines;
  return rows.map((r) => Object.fromEntries((head?.cells ?? []).map((h, i) => [h, r.cells[i] ?? ''])));
};
const one = (...rows: string[][]): RawSheet[] => [{ name: 'Sheet1', rows }];
const open = (r: ReturnType<typeof read>) => [
  ...r.questions.filter((q) => q.open).map((q) => q.id),
  ...r.groups.filter((g) => g.open).map((g) => g.value),
];
const kinds = TASK_KINDS.map(({ key, label, defaultWeeks, minWeeks, maxWeeks }) => ({ key, label, defaultWeeks, minWeeks, maxWeeks }));

/** What the fleet file says to it. */
const plan = (r: ReturnType<typeof read>) =>
  planFleet(r.lines, {
    columns: allColumns(kinds),
    kinds,
    onFile: { customers: new Map(), kitchens: new Map(), tags: new Set() },
    shopTimeZone: 'America/Chicago',
    now: Date.UTC(2026, 10, 27, 18),
  });

describe('a sheet of 150 units as a shop keeps it', () => {
  const first = read(messySheets());
  it('finds the sheet, the header under its titles, and every unit', () => {
    expect([first.headerLine, first.rows]).toEqual([4, 150]);
    expect(first.columns.map((c) => c.target)).toEqual([
      'customer', 'address', 'town', 'contact_name', 'contact_phone', 'unit', 'kind', 'make', 'model', 'serial', 'refrigerant', 'charge', 'placement', 'last_cleaned',
      'interval', 'notes', 'notes',
    ]); // prettier-ignore
  });
  it('leaves four things to decide', () =>
    expect(open(first)).toEqual(['same harbour grill = harbor grill', 'placement', 'charge', 'Stn 4']));
  it('goes on file without a complaint once they are decided', () => {
    const choices: SheetChoices = {
      columns: {},
      values: { placement: { 'stn 4': 'line' } },
      answers: { 'same harbour grill = harbor grill': 'same', placement: 'back_of_house', charge: 'oz' },
    };
    const done = read(messySheets(), choices);
    expect(open(done)).toEqual([]);
    const { units, kitchens, problems } = plan(done);
    expect(problems).toEqual([]);
    expect(units).toHaveLength(150);
    expect(new Set(kitchens.map((k) => k.customer)).size).toBe(12);
    expect(kitchens.length).toBe(14);
    expect(rowsOf(done)[0]).toMatchObject({
      customer: 'Harbour Grill', contact_phone: '312-555-0141', unit: 'Walk-in cooler', kind: 'walk_in_cooler', placement: 'outdoors', roof_work: 'yes',
      refrigerant: 'R404A', charge_kg: '0.5669904625', coil_cleaning_rule: '13', coil_cleaning_last_done: '2024-03-16',
    }); // prettier-ignore
  });
});

describe('a charge without a unit', () => {
  const sheet = one(['Customer', 'Unit', 'Charge'], ['Blue Plate Café', 'Reach in', '20']);
  const answered = (charge: string) => rowsOf(read(sheet, { columns: {}, values: {}, answers: { charge } }))[0];
  it('is taken in the unit that was said', () => expect(answered('lb')).toMatchObject({ charge_kg: '9.0718474' }));
  it('goes into the notes where nobody knows', () => {
    expect(answered('leave')).not.toHaveProperty('charge_kg');
    expect(answered('leave')).toMatchObject({ notes: 'Charge: 20' });
  });
});

describe('other forms', () => {
  it('reads customers that stand as headings over their units', () => {
    const r = read(
      one(
        ['Unit', 'Gas', 'Serial #', 'Area'],
        ['Blue Plate Café'],
        ['Walk in cooler', '404A', 'A1', 'Roof'],
        ['Reach in', '134a', 'A2', 'Line'],
        ['OLD MILL TAVERN'],
        ['Keg cooler', '134a', 'B1', 'Bar'],
        ['Total units: 3'],
      ),
    );
    expect(rowsOf(r).map((u) => [u.customer, u.unit, u.placement])).toEqual([
      ['Blue Plate Café', 'Walk in cooler', 'outdoors'],
      ['Blue Plate Café', 'Reach in', 'line'],
      ['Old Mill Tavern', 'Keg cooler', 'bar'],
    ]);
    expect(open(r)).toEqual([]);
  });

  it('takes what a hand chose over its guess, and asks only where nobody can tell', () => {
    const sheet = one(['Name', 'Thing', 'Freon'], ['Blue Plate', 'Blast unit 3', 'R-407'], ['Blue Plate', 'WIC', 'R407C']);
    expect(open(read(sheet))).toEqual(expect.arrayContaining(['placement', 'R-407']));
    const columns = { 0: 'customer', 1: 'unit' };
    const r = read(sheet, {
      columns,
      values: { kind: { 'blast unit 3': 'reach_in' }, refrigerant: { 'r 407': 'R407A' } },
      answers: { placement: 'line' },
    });
    expect(open(r)).toEqual([]);
    expect(rowsOf(r).map((u) => [u.customer, u.unit, u.kind, u.refrigerant])).toEqual([
      ['Blue Plate', 'Blast unit 3', 'reach_in', 'R407A'],
      ['Blue Plate', 'Walk-in cooler', 'walk_in_cooler', 'R407C'],
    ]);
  });

  it('tells two addresses of one customer apart, and keeps what rows of one kitchen disagree on', () => {
    const r = read(
      one(
        ['Customer', 'Address', 'Phone', 'Equipment', 'Refrigerant', 'Location'],
        ['Golden Lotus', '1 Main St', '555-0101', 'Reach-in', 'R290', 'line'],
        ['golden lotus', '1 Main St', '555-0102', 'Prep table', 'R290', 'line'],
        ['GOLDEN LOTUS', '88 Lake Ave', '', 'Reach-in', 'R290', 'line'],
      ),
    );
    expect(rowsOf(r).map((u) => [u.customer, u.kitchen, u.unit])).toEqual([
      ['Golden Lotus', '1 Main St', 'Reach-in'],
      ['Golden Lotus', '1 Main St', 'Prep table'],
      ['Golden Lotus', '88 Lake Ave', 'Reach-in'],
    ]);
    expect(rowsOf(r)[0]).toMatchObject({ contact_phone: '555-0101', access_notes: 'Also: 555-0102' });
  });

  it('reads positions as they are pasted, and keeps one that cannot be read with the access notes', () => {
    const head = ['Customer', 'Address', 'Equipment', 'Refrigerant', 'GPS'];
    const r = read(
      one(
        head,
        ['Copper Pan', '9 Foundry Ln', 'Walk-in cooler', 'R-404A', '41.8583, -87.6233'],
        ['', '', 'Prep table', 'R-290', ''],
        ['Night Owl', '2 Oak St', 'Reach-in', 'R-134a', 'behind the church'],
      ),
    );
    expect(rowsOf(r)[0]).toMatchObject({ lat: '41.8583', lng: '-87.6233' });
    expect(rowsOf(r)[2]?.lat ?? '').toBe('');
    expect(rowsOf(r)[2]?.access_notes).toContain('behind the church');
  });

  it('has nothing to say about an empty sheet', () => expect(read(one())).toMatchObject({ rows: 0, questions: [] }));
});

describe('what is marked as the same as above', () => {
  const sheet = (mark: string) =>
    one(
      ['Customer', 'Kitchen', 'Unit', 'Gas', 'Where', 'Last cleaned'],
      ['Blue Heron', 'Alder St', 'Reach-in', 'R-290', 'by fryer', '9/14/2026'],
      [mark, mark, 'Undercounter', mark, 'bar', mark],
      [mark, mark, 'Prep table', 'R-134a', mark, ''],
    );
  it.each(['"', '”', '〃', '- " -', 'ditto', 'Do.', 'same', 'Same as above'])('takes %s from the row above, and says so', (mark) => {
    const r = read(sheet(mark));
    expect(rowsOf(r).map((u) => [u.customer, u.kitchen, u.refrigerant, u.placement, u.coil_cleaning_last_done])).toEqual([
      ['Blue Heron', 'Alder St', 'R290', 'fryer', '2026-09-14'],
      ['Blue Heron', 'Alder St', 'R290', 'bar', '2026-09-14'],
      ['Blue Heron', 'Alder St', 'R134a', 'bar', ''],
    ]);
    expect(r.assumptions).toContainEqual({ column: '', text: 'Marked as the same as above: taken from there.', rows: 2, lines: [3, 4], examples: ['Blue Heron'] }); // prettier-ignore
  });
  it('is nothing under nothing', () => {
    const r = read(one(['Customer', 'Unit', 'Gas'], ['Ash', 'Reach-in', 'ditto'], ['Ash', 'Prep table', 'R-290']));
    expect(rowsOf(r).map((u) => u.refrigerant)).toEqual(['unknown', 'R290']);
  });
});
