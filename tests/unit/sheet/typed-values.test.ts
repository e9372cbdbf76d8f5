import { describe, expect, it } from 'vitest';
import { FILED_REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';
import { knownUnits, type KnownUnit } from '@/lib/core/fleet-csv';
import { blankUnit } from '@/lib/core/equipment/unit-fields';
import { NO_CHOICES, readSheet, type SheetContext } from '@/lib/core/sheet';
import { readMass } from '@/lib/core/sheet/read-mass';
import { kindOf } from '@/lib/core/sheet/vocabulary';
import { readDate } from '@/lib/core/calendar/read-date';

const ctx: SheetContext = { refrigerants: FILED_REFRIGERANTS.map((r) => r.id), customersOnFile: [], dateOrder: 'month first', temperature: 'F', today: '2026-11-27' }; // prettier-ignore

/** A row of one unit with these cells, in a shop that reads in `temperature`. */
function one(cells: Record<string, string>, temperature: 'F' | 'C' = 'F', answers: Record<string, string> = {}) {
  const all = { Customer: 'Ash', Equipment: 'Reach-in', Gas: 'R290', ...cells };
  const r = readSheet([{ name: '', rows: [Object.keys(all), Object.values(all)] }], { ...NO_CHOICES, answers: { placement: 'line', ...answers } }, { ...ctx, temperature }); // prettier-ignore
  const [head, row] = r.lines;
  const out = Object.fromEntries((head?.cells ?? []).map((h, i) => [h, row?.cells[i] ?? '']));
  return { out, told: r.assumptions, asked: r.questions };
}

describe('degrees in a sheet', () => {
  it('without a unit are the shop’s own', () => {
    expect(one({ 'Set point': '3' }, 'C').out).toMatchObject({ box_c: '3' });
    expect(one({ 'Set point': '38' }, 'F').out).toMatchObject({ box_f: '38' });
    // 3 °C keeps food, 3 °F freezes it.
    expect(one({ Temp: '3' }, 'C').out.temperature).toBe('medium');
    expect(one({ Temp: '3' }, 'F').out.temperature).toBe('low');
    expect(one({ Temp: '-18' }, 'C').out.temperature).toBe('low');
  });

  it('with a unit are in that one, and stand on file in the shop’s', () => {
    expect(one({ 'Set point': '3 °C' }, 'F').out.box_f).toBe('37.4');
    expect(one({ 'Set point': '38F' }, 'C').out.box_c).toBe('3.333333');
    expect(one({ Temp: '3 C' }, 'F').out.temperature).toBe('medium');
    expect(one({ Temp: '3 F' }, 'C').out.temperature).toBe('low');
    expect(one({ 'Set point': '3,5 °C' }, 'C').out.box_c).toBe('3.5');
    expect(one({ 'Set point': '−18' }, 'C').out.box_c).toBe('-18');
  });

  it('are in the unit of the column’s name where that has one', () => {
    for (const name of ['Set point (C)', 'Set point °C', 'Box temp, Celsius', 'Setpoint C'])
      expect(one({ [name]: '3' }, 'F').out.box_f, name).toBe('37.4');
    for (const name of ['Set point (°F)', 'Box temp F', 'Setting (Fahrenheit)'])
      expect(one({ [name]: '50' }, 'C').out.box_c, name).toBe('10');
    // The cell’s own goes before the column’s.
    expect(one({ 'Set point (C)': '37.4 F' }, 'C').out.box_c).toBe('3');
    // “Spec” ends in a letter of a scale and names none.
    expect(one({ 'Set point spec': '38' }, 'F').out.box_f).toBe('38');
  });

  it('without a unit are told once, with what they were taken for, and can be said otherwise', () => {
    const asked = (r: ReturnType<typeof one>) =>
      r.asked.filter((q) => q.id === 'degrees').map((q) => [q.text, q.answer, q.open, q.options.map((o) => o.label)]);
    expect(asked(one({ 'Set point': '3', Temp: '4' }, 'C'))).toEqual([['Temperatures without a unit, like 4', 'C', false, ['°F', '°C']]]);
    expect(asked(one({ 'Set point': '3 C' }, 'C'))).toEqual([]);
    expect(asked(one({ 'Set point (C)': '3' }, 'F'))).toEqual([]);
    expect(one({ 'Set point': '38' }, 'C', { degrees: 'F' }).out.box_c).toBe('3.333333');
    expect(one({ 'Set point': '38' }, 'C', { degrees: 'K' }).out.box_c).toBe('38');
  });

  it('that say a class are what the box is kept at too, unless another column says it', () => {
    expect(one({ Temp: '38' }).out).toMatchObject({ temperature: 'medium', box_f: '38' });
    expect(one({ Temp: '38' }).told).toContainEqual({ column: 'Temp', text: 'Degrees: what the box is kept at, too.', rows: 1, lines: [2], examples: ['38'] }); // prettier-ignore
    expect(one({ Temp: '38', 'Set point': '36' }).out).toMatchObject({ temperature: 'medium', box_f: '36' });
  });
});

it('a kind is one however its words are joined', () => {
  const joints = ['-', ' ', '  ', '‑', '‐', ' - ', ' – ', '–', '_', '', '\u00a0', '-\u200b', '\u00ad', ' ‑'];
  for (const [a, b, kind] of [['Reach', 'in', 'reach_in'], ['WALK', 'IN', 'walk_in_cooler'], ['Walk', 'In Freezer', 'walk_in_freezer'], ['under', 'counter', 'undercounter'], ['Chef', 'base', 'drawer_base'], ['Glass', 'door merch', 'display']] as const)
    for (const joint of joints) expect(kindOf(`${a}${joint}${b}`), `${a}${joint}${b}`).toBe(kind);
  expect(kindOf('Ｗａｌｋ－ｉｎ')).toBe('walk_in_cooler');
  expect(kindOf('preach infrequently')).toBe('reach_in'); // The words are looked for anywhere: nobody has such a unit.
  expect(kindOf('reach the inn')).toBeNull();
}); // prettier-ignore

it('a unit on file is found by its name however its words are joined, if only one has it', () => {
  const known = (id: string, name: string): KnownUnit => ({
    id,
    version: 1,
    customer: 'Ash',
    kitchen: 'Ash',
    values: { ...blankUnit('reach_in'), kind: 'reach_in' as const, placement: 'line' as const, refrigerant: 'R290', name, tag: id },
  });
  const row = (name: string) => ({ names: { customer: 'ASH', kitchen: 'Ash' }, kitchen: {}, unit: { name }, tasks: new Map() });
  const find = knownUnits([known('a', 'Reach-in by the bar'), known('b', 'Prep-1'), known('c', 'Prep 1'), known('d', 'Line - 2')]);
  for (const name of ['reach in by the bar', 'REACH‑IN BY THE BAR', 'Reach - in  by the bar']) expect(find(row(name))?.id, name).toBe('a');
  expect([find(row('Prep-1'))?.id, find(row('prep 1'))?.id, find(row('Prep - 1'))?.id]).toEqual(['b', 'c', undefined]);
  expect([find(row('Line 2'))?.id, find(row('Line2'))?.id, find(row('Reachin by the bar'))?.id]).toEqual(['d', undefined, undefined]);
});

describe('other values as people type them', () => {
  it('masses in fractions, and a comma that can only be that of decimals', () => {
    for (const text of ['1 1/4 lb', '1-1/4 lbs', '1¼ lb', '1 ¼#', '5/4 lb', '1 lb 4 oz', '1,25 lb'])
      expect(readMass(text, null), text).toBeCloseTo(0.5669904625, 9);
    expect(readMass('½ oz', null)).toBeCloseTo(0.0141747615625, 12);
    expect(readMass('3/4', 'lb')).toBeCloseTo(0.3401942775, 9);
    expect(readMass('0,500 kg', null)).toBeCloseTo(0.5, 12);
    expect(readMass('1,200 g', null)).toBeCloseTo(1.2, 12);
    for (const text of ['1/0 lb', '1/2/3 lb', '/2 lb', '½']) expect(readMass(text, null), text).toBe(text === '½' ? 'bare' : null);
  });

  it('days with dots and blanks between', () => {
    for (const text of ['16.3.2026', '16. 3. 2026', '16.03.26', '16 . 3 . 26', '16.3.26.', '16 / 3 / 2026'])
      expect(readDate(text, 'month first'), text).toBe('2026-03-16');
    for (const text of ['16..3.26', '16.3', '.16.3.26', '16.3.26..']) expect(readDate(text, 'month first'), text).toBeNull();
  });

  it.each([
    ['$0.14', '0.14'], ['0,17 €/kWh', '0.17'], ['14 cents', '0.14'], ['14c', '0.14'], ['12.5¢', '0.125'], ['.14 per kWh', '0.14'], ['USD 0.14', '0.14'],
  ])('a price “%s” is %s', (text, price) => expect(one({ 'kWh price': text }).out.energy_price_per_kwh).toBe(price)); // prettier-ignore

  it.each([
    ['y', 'yes'], ['Yes - hatch', 'yes'], ['✓', 'yes'], ['Ladder', 'yes'], ['sí', 'yes'], ['No', ''], ['not', ''], ['✗', ''], ['ground', ''], ['?', ''], ['n/a', ''], ['none', ''], ['false', ''],
  ])('on the roof “%s” is “%s”', (text, roof) => {
    const { out, told } = one({ Roof: text });
    expect([out.roof_work ?? '', out.notes ?? '', told]).toEqual([roof, '', []]);
  }); // prettier-ignore
});

/** What each column of a sheet does with nonsense. */
const NONSENSE: readonly [column: string, text: string, field: 'notes' | 'access_notes', kept: string, understood: RegExp][] = [
  ['Temp', 'warmish', 'notes', 'Temp: warmish', /cooler, freezer.*3 °C/],
  ['Set point', '36-38', 'notes', 'Set point: 36-38', /38, 38 °F or 3 °C/],
  ['Set point', '3,4,5', 'notes', 'Set point: 3,4,5', /38, 38 °F or 3 °C/],
  ['Charge', 'plenty', 'notes', 'Charge: plenty', /1 lb 4 oz/],
  ['Last cleaned', '31.2.26', 'notes', 'Last cleaned: 31.2.26', /2026-03-16, .*16\.3\.2026/],
  ['Last cleaned', '12/24/27', 'notes', 'Last cleaned: 12/24/27', /up to today/],
  ['How often', 'when dirty', 'notes', 'How often: when dirty', /90 days/],
  ['Tag', 'BP/02!', 'notes', 'Tag: BP/02!', /2 to 40 letters/],
  ['Roof', 'hatch B', 'notes', 'Roof: hatch B', /yes, no/],
  ['kWh price', 'see bill', 'access_notes', 'Energy price: see bill', /\$0\.14/],
  ['Hours', 'whenever', 'access_notes', 'Hours: whenever', /06:00-10:30/],
  ['GPS', 'behind the church', 'access_notes', 'Position: behind the church', /41\.88, -87\.63/],
  ['Email', 'ask Ann', 'access_notes', 'E-mail: ask Ann', /@/],
];
it.each(NONSENSE)(
  '%s “%s” is kept, and told with its column, its row and what would be understood',
  (column, text, field, kept, understood) => {
    const { out, told } = one({ [column]: text });
    expect(out[field]).toBe(kept);
    expect(told).toEqual([{ column, text: expect.stringMatching(understood), rows: 1, lines: [2], examples: [text] }]);
  },
);
