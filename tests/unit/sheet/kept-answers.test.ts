import { describe } from 'vitest';
import { FILED_REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';
import { NO_CHOICES, readSheet, type RawSheet, type SheetChoices, type SheetContext } from '@/lib/core/sheet';
import { viewOf } from '@/lib/core/sheet/view';
import { keptAnswers } from '../../support/kept-answers';
import { messySheets } from '../../support/messy-sheet';
import { secondSheet } from '../../support/second-sheet';
import { thirdSheet } from '../../support/third-sheet';

// A regression, nothing more: see tests/support/kept-answers.ts. Anew by `node scripts/keep-answers.mjs sheet`.

const ctx: SheetContext = { refrigerants: FILED_REFRIGERANTS.map((r) => r.id), customersOnFile: ['Golden Lotus Inc.'], dateOrder: 'month first', temperature: 'F', today: '2026-11-27', shop: { lat: 41.88, lng: -87.63 } }; // prettier-ignore
const answers = (given: Record<string, string>, more: Partial<SheetChoices> = {}): SheetChoices => ({
  ...NO_CHOICES,
  answers: given,
  ...more,
});
const one = (...rows: string[][]): RawSheet[] => [{ name: 'Sheet1', rows }];

/** What is made of a sheet: every `step`th row of it, and all that is asked and told. */
const told =
  (sheets: RawSheet[], choices: SheetChoices = NO_CHOICES, step = 1, at = ctx) =>
  () => {
    const r = readSheet(sheets, choices, at);
    const [head, ...rows] = r.lines;
    const shown = rows.filter((_, i) => i % step === 0);
    return {
      columns: r.columns.map((c) => [c.header, c.target, c.filled, c.chosen]),
      header: [r.headerLine, r.rows],
      groups: r.groups.map((g) => [g.target, g.key, g.rows, g.taken, g.chosen, g.open]),
      questions: r.questions.map((q) => [q.id, q.text, q.rows, q.examples, q.options.length, q.answer, q.open]),
      assumptions: r.assumptions.map((a) => [a.text, a.rows, a.examples, a.column, a.lines]),
      ...Object.fromEntries(shown.map(({ line, cells }) => [`line ${line}`, Object.fromEntries((head?.cells ?? []).flatMap((h, i) => (cells[i] ? [[h, cells[i]]] : [])))])), // prettier-ignore
    };
  };

const HEAD = ['Customer', 'Kitchen', 'Address', 'City', 'State', 'Zip', 'GPS', 'Contact', 'Phone', 'Email', 'Hours', 'Access', 'Equipment', 'Type', 'Qty', 'Tag', 'Model', 'Serial', 'Gas', 'Charge', 'Area', 'Roof', 'Temp', 'Set point', 'Last cleaned', 'Freq', 'kWh price', 'Notes', 'Filter']; // prettier-ignore
const row = (cells: Record<string, string>) => HEAD.map((h) => cells[h] ?? '');
const ODD: RawSheet[] = one(
  HEAD,
  row({ Customer: 'BLUE PLATE', Kitchen: 'Main', Address: '1 Main St', City: 'Fairhaven', State: 'IL', Zip: '60601', GPS: '41.8583, -87.6233', Contact: 'Ann', Phone: '312-555-0101', Email: 'ann@plate.example', Hours: 'M-F 6-10:30', Access: 'Back door', Equipment: 'Walk in', Type: 'WIC', Tag: '#bp 01', Serial: 'A1', Gas: 'R-404A', Charge: '5 lb', Area: 'Roof', Roof: 'y', Temp: '38', 'Set point': '36 F', 'Last cleaned': '3/4/26', Freq: 'Q', 'kWh price': '$0.14', Notes: 'loud', Filter: '20x20' }), // prettier-ignore
  row({ Kitchen: 'Main', Phone: '312-555-0102', Hours: 'whenever', GPS: 'behind the church', Email: 'not an address', Equipment: 'Reach-in freezer', Tag: 'BP/02!', Gas: '?', Charge: '12', Area: 'pass', Temp: 'warm', 'Set point': 'cold', 'Last cleaned': '12/24/27', Freq: 'as needed' }), // prettier-ignore
  row({ Customer: 'Blue Plate', Kitchen: 'Mall', Address: '9 Mall Rd', Equipment: '2x reach-in', Serial: 'S1 / S2', Tag: 'T1, T2, T3', Gas: 'R-407', Charge: '900 kg', Temp: 'F', 'Last cleaned': 'spring', Freq: '3 months' }), // prettier-ignore
  row({ Customer: 'Golden Lotus', Address: '88 Lake Ave', Equipment: 'Wok fridge / prep table', Type: 'UC', Gas: 'propane', Charge: 'see plate', Area: 'by wok', Temp: '-10', 'Set point': '-5' }), // prettier-ignore
  row({
    Customer: 'golden lotus',
    Address: '90 Lake Ave',
    Type: 'Ice machine',
    Model: 'IM-1',
    Qty: '2',
    Gas: 'CO2',
    Area: 'bar',
    Temp: 'med',
  }),
  HEAD,
  row({ Customer: 'Total', Qty: '6' }),
);

const ANSWERS = { 'same harbour grill = harbor grill': 'same', placement: 'back_of_house', charge: 'oz' };
const THIRD = { 'same tidewater chowder house = tidewater chowder hse': 'apart', placement: 'line', several: 'each' };

describe('kept answers of sheets', () => {
  keptAnswers(import.meta.dirname, {
    'a first sheet': told(messySheets(), NO_CHOICES, 19),
    'a first sheet, decided': told(messySheets(), answers(ANSWERS, { values: { placement: { 'stn 4': 'line' } } }), 13),
    'a second sheet': told(secondSheet(), NO_CHOICES, 17),
    'a second sheet, another of its sheets and columns': told(secondSheet(), { ...NO_CHOICES, sheet: 0 }),
    'a second sheet, columns chosen': told(secondSheet(), answers({ charge: 'leave', dates: 'day first' }, { columns: { 6: 'notes', 12: 'leave', 13: 'last_cleaned' } }), 29), // prettier-ignore
    'a third sheet, each its row': told(thirdSheet(), answers(THIRD), 23),
    'a third sheet, one a row': told(thirdSheet(60), answers({ ...THIRD, several: 'one', dates: 'day first' }), 11),
    'odd cells': told(ODD),
    'odd cells, decided': told(ODD, answers({ several: 'each', placement: 'line', charge: 'leave' }, { values: { refrigerant: { 'r 407': 'unknown' }, placement: { pass: '' } } })), // prettier-ignore
    'odd cells, units on file': told(ODD, answers({ charge: 'oz' }), 1, { ...ctx, customersOnFile: [], dateOrder: 'day first', today: '2020-01-01', shop: null }), // prettier-ignore
    'headings over their units': told(one(['Unit', 'Gas', 'Serial #', 'Area'], ['Blue Plate Café'], ['Walk in cooler', '404A', 'A1', 'Roof'], ['Reach in', '134a', 'A2', 'Line'], ['OLD MILL TAVERN'], ['Keg cooler', '134a', 'B1', 'Bar'], ['Total units: 3'])), // prettier-ignore
    'a single heading is a remark': told(one(['Unit', 'Gas', 'Serial #', 'Area'], ['Walk in cooler', '404A', 'A1', 'Roof'], ['see Joe'], ['Reach in', '134a', 'A2', 'Line'])), // prettier-ignore
    'no column says what a unit is': told(one(['Customer', 'Model', 'Gas'], ['Blue Plate', 'T-49', '134a'], ['', 'Q-2', 'R290'])),
    'no column names the customer': told(one(['Equipment', 'Gas', 'Area'], ['Reach in', '134a', 'line'])),
    'merged cells': told(one(['Customer', 'Site', 'Equipment', 'Phone'], ['Pho Corner', 'Argyle', 'WIC', '312 555 0154'], ['', '', 'RI', ''], ['', 'Broadway', 'Prep', ''], ['', '', 'UC', ''], ['Casa Lupe', '', 'WIC', ''])), // prettier-ignore
    'nothing at all': told([]),
    'as a page shows it': () => {
      const sheets = secondSheet();
      const { lines, groups, moreGroups, ...view } = viewOf(readSheet(sheets, NO_CHOICES, ctx), sheets, NO_CHOICES);
      const many = one(
        ['Customer', 'Equipment', 'Area'],
        ...Array.from({ length: 150 }, (_, i) => ['A', 'Reach in', `${i % 3 ? 'spot' : 'bar'} ${i}`]),
      );
      const large = viewOf(readSheet(many, NO_CHOICES, ctx), many, { ...NO_CHOICES, sheet: 0 });
      return { lines: lines.length, groups: groups.length, moreGroups, sheets: view.sheets, chosen: view.chosen, large: [large.groups.length, large.moreGroups, large.groups.filter((g) => g.open).length, large.lines.length] }; // prettier-ignore
    },
  });
});
