import { describe, expect, it } from 'vitest';
import { allColumns, planFleet } from '@/lib/core/fleet-csv';
import { FILED_REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';
import { NO_CHOICES, readSheet, type SheetChoices } from '@/lib/core/sheet';
import { TASK_KINDS } from '@/lib/core/tasks/kinds';
import { secondSheet } from '@/tests/support/second-sheet';

const read = (choices: SheetChoices = NO_CHOICES) =>
  readSheet(secondSheet(), choices, {
    refrigerants: FILED_REFRIGERANTS.map((r) => r.id),
    customersOnFile: [],
    dateOrder: 'month first',
    temperature: 'F',
    today: '2026-11-27',
  });
const kinds = TASK_KINDS.map(({ key, label, defaultWeeks, minWeeks, maxWeeks }) => ({ key, label, defaultWeeks, minWeeks, maxWeeks }));

describe('a roster that another shop keeps, with none of our words over its columns', () => {
  const first = read();
  it('is understood by its abbreviations, with five things left to decide (at most twelve)', () => {
    expect([first.headerLine, first.rows]).toEqual([4, 120]);
    expect(first.columns.map((c) => c.target)).toEqual([
      'leave', 'customer', 'address', 'town', 'contact_name', 'contact_phone', 'unit', 'make', 'model', 'serial', 'refrigerant', 'charge', 'placement',
      'last_cleaned', 'interval',
    ]); // prettier-ignore
    const open = [...first.questions.filter((q) => q.open).map((q) => q.id), ...first.groups.filter((g) => g.open).map((g) => g.value)];
    expect(open).toEqual(['same pearl row oysters = pearl row oyster', 'Blast chiller', 'Pass', 'HP-81', 'MO99']);
  });
  it('goes on file whole: what cannot be read stands in the notes', () => {
    const done = read({
      columns: {},
      values: { kind: { 'blast chiller': 'reach_in' }, placement: { pass: 'line' }, refrigerant: { 'hp 81': 'unknown', mo99: 'unknown' } },
      answers: { 'same pearl row oysters = pearl row oyster': 'same' },
    });
    const { units, problems } = planFleet(done.lines, {
      columns: allColumns(kinds),
      kinds,
      onFile: { customers: new Map(), kitchens: new Map(), tags: new Set() },
      shopTimeZone: 'America/Denver',
      now: Date.UTC(2026, 10, 27, 18),
    });
    expect([units.length, problems]).toEqual([120, []]);
    const [head, ...rows] = done.lines;
    const at = (name: string) => head?.cells.indexOf(name) ?? -1;
    const source = secondSheet()[1]?.rows ?? [];
    let [dates, gases] = [0, 0];
    for (const { line, cells } of rows) {
      const raw = source[line - 1] ?? [];
      const notes = cells[at('notes')] ?? '';
      if (raw[13] === 'spring?' || raw[13] === 'never') {
        expect(notes).toContain(raw[13]);
        dates++;
      }
      if (raw[10] === 'HP-81' || raw[10] === 'MO99') {
        expect(notes).toContain(raw[10]);
        gases++;
      }
      if (raw[9]) expect(cells[at('serial')]).toBe(raw[9]);
      // 45292 and 46023.5 as spreadsheets count days: 1 January 2024 and 2026 (ECMA-376 part 1, 18.17.4.1).
      if (raw[13] === '45292') expect(cells[at('coil_cleaning_last_done')]).toBe('2024-01-01');
      if (raw[13] === '46023.5') expect(cells[at('coil_cleaning_last_done')]).toBe('2026-01-01');
      // 1 lb 6 oz is 22 oz: 0.6237 kg (NIST Handbook 44, appendix C: 1 oz = 28.349 523 125 g).
      if (raw[11] === '1 lb 6 oz' || raw[11] === '22 oz') expect(Number(cells[at('charge_kg')])).toBeCloseTo(0.623_689_51, 8);
    }
    expect(dates * gases).toBeGreaterThan(0);
    expect(done.assumptions.map((a) => a.text).join(' ')).toContain('The same serial twice');
  });
  it('asks once which column says what the units are, where none does', () => {
    const sheet = [
      {
        name: 'S',
        rows: [
          ['Customer', 'Model', 'Serial', 'Ding'],
          ['Ash', 'M-1', 'S1001', 'Kiste'],
          ['Ash', 'M-2', 'S1002', 'Truhe'],
        ],
      },
    ];
    const ctx = { refrigerants: [], customersOnFile: [], dateOrder: 'month first', temperature: 'F', today: '2026-11-27' } as const;
    const asked = readSheet(sheet, NO_CHOICES, ctx);
    expect(asked.questions.filter((q) => q.open).map((q) => q.id)).toEqual(['unit', 'placement']);
    expect(asked.groups).toEqual([]);
    const answered = readSheet(sheet, { ...NO_CHOICES, columns: { 3: 'unit' } }, ctx);
    expect(answered.groups.map((g) => g.value)).toEqual(['Kiste', 'Truhe']);
  });
});
