import { describe, expect, it } from 'vitest';
import { FILED_REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';
import { NO_CHOICES, readSheet, type SheetChoices, type SheetContext } from '@/lib/core/sheet';
import { thirdSheet } from '@/tests/support/third-sheet';

const read = (choices: SheetChoices = NO_CHOICES) =>
  readSheet(thirdSheet(), choices, {
    refrigerants: FILED_REFRIGERANTS.map((r) => r.id),
    customersOnFile: [],
    dateOrder: 'month first',
    temperature: 'F',
    today: '2026-11-27',
  });

describe('a list with several units in a row, day numbers of a spreadsheet and days between cleanings', () => {
  const first = read();
  const open = (r: typeof first) => [...r.questions, ...r.groups].filter((q) => q.open);
  it('is understood by its own words, with three things left to decide (at most twelve)', () => {
    expect([first.headerLine, first.rows]).toEqual([4, 150]);
    expect(first.columns.map((c) => c.target)).toEqual([
      'leave', 'customer', 'address', 'town', 'contact_name', 'contact_phone', 'unit', 'count', 'make', 'model', 'serial', 'refrigerant', 'charge', 'placement',
      'last_cleaned', 'interval',
    ]); // prettier-ignore
    expect(open(first).map((q) => ('id' in q ? q.id : q.value))).toEqual([
      'same tidewater chowder house = tidewater chowder hse',
      'several',
      'placement',
    ]);
    expect(first.questions.find((q) => q.id === 'several')).toMatchObject({
      rows: 39,
      examples: ['WIC / WIF', 'Reach in x3', '2x reach-in'],
    });
  });

  const answers = { 'same tidewater chowder house = tidewater chowder hse': 'same', placement: 'back_of_house' };
  const source = thirdSheet()[1]?.rows ?? [];
  it.each(['each', 'one'])('files rows of several units as was decided: %s', (several) => {
    const done = read({ ...NO_CHOICES, answers: { ...answers, several } });
    expect(open(done)).toEqual([]);
    const [head, ...rows] = done.lines;
    const at = (name: string) => head?.cells.indexOf(name) ?? -1;
    const of = (line: number, name: string) => rows.filter((r) => r.line === line).map((r) => r.cells[at(name)]);
    let both = 0;
    source.slice(4).forEach((raw, i) => {
      const line = i + 5;
      if (!/^\d/.test(raw[0] ?? '')) return;
      const box = raw[6] ?? '';
      const n = box === 'Reach in x3' ? 3 : /^2x|\(2\)| \/ W/.test(box) ? 2 : raw[7] === '2' ? 2 : 1;
      expect(of(line, 'kind'), `${line} ${box}`).toHaveLength(several === 'each' ? n : 1);
      const serial = raw[10] ?? '';
      // A number for each goes to each; one number for several stands in the notes of all, and of one row as written.
      if (several === 'each' && box === 'WIC / WIF' && serial.includes('/')) {
        both++;
        expect(of(line, 'serial')).toEqual(serial.split(' / '));
        expect(of(line, 'kind')).toEqual(['walk_in_cooler', 'walk_in_freezer']);
      } else if (several === 'each' && n > 1 && serial) for (const note of of(line, 'notes')) expect(note).toContain(serial);
      else if (serial) expect(of(line, 'serial')).toEqual([serial]);
      // 46098 as spreadsheets count days is 17 March 2026 (ECMA-376 part 1, 18.17.4.1); 90 days are 13 weeks.
      if (raw[14] === '46098') for (const day of of(line, 'coil_cleaning_last_done')) expect(day).toBe('2026-03-17');
      if (raw[15] === '90') for (const weeks of of(line, 'coil_cleaning_rule')) expect(weeks).toBe('13');
    });
    expect(both > 0).toBe(several === 'each');
  });

  it('keeps two lines of a cell apart where each is a unit, and joins what is one address', () => {
    const sheet = [{ name: 'S', rows: [['Customer', 'Address', 'Equipment'], ['Ash', '1 Mill St\nFenwick', 'WIC\nWIF'], ['Ash', '', 'Blue\nreach-in']] }]; // prettier-ignore
    const ctx = { refrigerants: [], customersOnFile: [], dateOrder: 'month first', temperature: 'F', today: '2026-11-27' } as const;
    const { lines } = readSheet(sheet, { ...NO_CHOICES, answers: { several: 'each', placement: 'line' } }, ctx);
    expect(lines.slice(1).map((l) => l.cells.join('|'))).toEqual([
      expect.stringContaining('1 Mill St Fenwick|Walk-in cooler'),
      expect.stringContaining('Walk-in freezer'),
      expect.stringContaining('Blue reach-in'),
    ]);
  });

  it('numbers a unit after one of its name on file that has another serial', () => {
    const sheet = [{ name: 'S', rows: [['Customer', 'Equipment', 'Serial'], ['Ash', 'Reach-in', 'B200'], ['Ash', 'Reach-in', 'B300'], ['Ash', 'Reach-in', 'A100']] }]; // prettier-ignore
    const there = (name: string, serial: string) => ({ id: name, customer: 'Ash', kitchen: 'Ash', values: { name, serial, tag: name, kind: 'reach_in', placement: 'line' } }); // prettier-ignore
    const unitsOnFile = [there('Reach-in', 'A100'), there('Reach-in 2', 'A101')] as unknown as SheetContext['unitsOnFile'];
    const ctx = {
      refrigerants: [],
      customersOnFile: [],
      dateOrder: 'month first',
      temperature: 'F',
      today: '2026-11-27',
      unitsOnFile,
    } as const;
    const { lines } = readSheet(sheet, { ...NO_CHOICES, answers: { placement: 'line' } }, ctx);
    const at = lines[0]?.cells.indexOf('unit') ?? -1;
    expect(lines.slice(1).map((l) => l.cells[at])).toEqual(['Reach-in 3', 'Reach-in 4', 'Reach-in']);
  });
});
