import { describe, expect, it } from 'vitest';
import { NO_CHOICES, PLACEMENT_OPTIONS, readSheet, type RawSheet, type SheetChoices, type SheetContext } from '@/lib/core/sheet';
import { findTable, likelySheet } from '@/lib/core/sheet/find-table';
import { eachItsRow, severalQuestion } from '@/lib/core/sheet/several';
import { filledDown, placesOf, rowsOf, type SheetRow } from '@/lib/core/sheet/rows';
import { teller } from '@/lib/core/sheet/tell';
import { blankUnit, type UnitValues } from '@/lib/core/equipment/unit-fields';
import { FILED_REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';
import type { Out } from '@/lib/core/sheet/unit-row';
import type { KnownUnit } from '@/lib/core/fleet-csv';

const ctx: SheetContext = { refrigerants: FILED_REFRIGERANTS.map((r) => r.id), customersOnFile: [], dateOrder: 'month first', temperature: 'F', today: '2026-11-27' }; // prettier-ignore
const sheet = (rows: string[][], name = 'Sheet1'): RawSheet => ({ name, rows });
const read = (rows: string[][], answers: Record<string, string> = {}, over: Partial<SheetContext> = {}, more: Partial<SheetChoices> = {}) =>
  readSheet([sheet(rows)], { ...NO_CHOICES, answers, ...more }, { ...ctx, ...over });
const rowsIn = ({ lines }: ReturnType<typeof read>): Out[] => {
  const [head, ...rows] = lines;
  return rows.map((r) => Object.fromEntries((head?.cells ?? []).flatMap((h, i) => (r.cells[i] ? [[h, r.cells[i]]] : []))));
};
const open = (r: ReturnType<typeof read>) => r.questions.filter((q) => q.open).map((q) => q.id);
const texts = (r: ReturnType<typeof read>) => r.assumptions.map((a) => a.text);

describe('a wall calendar typed off by hand', () => {
  const typed = [
    ['Place', 'Street', 'Unit', 'Gas', 'Where it sits', 'Last cleaned'],
    ['Osprey Diner', '114 Wharf Rd', 'Reach-in', '134a 12oz', 'next to fryer', '6/3/26'],
    ['Osprey Diner', '114 Wharf Road', 'Walk in cooler', '404A / 2 lb 4 oz', 'roof', 'June'],
    ['Marigold Bakery', '', 'Display case', 'R-290', 'rooftop bar', '13/13/2026'],
    ['Marigold Bakery', '', 'Prep table', '290', 'line', '08/12/26'],
  ];
  it('keeps every kitchen to its own customer, however its street is written, and its days and charges', () => {
    const r = read(typed);
    expect(rowsIn(r)).toMatchObject([
      { customer: 'Osprey Diner', kitchen: 'Osprey Diner', refrigerant: 'R134a', charge_kg: '0.3401942775', placement: 'fryer', coil_cleaning_last_done: '2026-06-03' },
      { customer: 'Osprey Diner', kitchen: 'Osprey Diner', refrigerant: 'R404A', charge_kg: '1.0205828325', roof_work: 'yes', coil_cleaning_last_done: '2026-06-01' },
      { customer: 'Marigold Bakery', kitchen: 'Marigold Bakery', placement: 'bar', notes: 'Last cleaned: 13/13/2026' },
      { customer: 'Marigold Bakery', coil_cleaning_last_done: '2026-08-12' },
    ]); // prettier-ignore
    expect(rowsIn(r)[2]).not.toHaveProperty('roof_work');
    expect(texts(r)).toContain('A month alone: read as the last one gone by, from its first day.');
  });

  it('says that days are read the other way round than the shop writes them', () => {
    const told = (over: Partial<SheetContext>, answers: Record<string, string> = {}) => texts(read(typed, answers, over)).filter((t) => t.startsWith('Most dates')); // prettier-ignore
    expect(told({})).toEqual([]);
    expect(told({ dateOrder: 'day first' })).toEqual(['Most dates fit only with the month first: 3/4/24 is read as 4 March.']);
    expect(told({ dateOrder: 'day first' }, { dates: 'month first' })).toEqual([]);
  });

  it('a charge beside the refrigerant stays a note where another column has the charge', () => {
    const [row] = rowsIn(read([['Customer', 'Unit', 'Gas', 'Charge'], ['Ash', 'Reach-in', '134a 12oz', '14 oz']])); // prettier-ignore
    expect(row).toMatchObject({ charge_kg: '0.39689332375', notes: 'Refrigerant in the sheet: 134a 12oz' });
  });

  it('asks who the customers are before streets stand for them', () => {
    const rows = [['Street', 'Unit', 'Area'], ['9 Quay St', 'Reach-in', 'line'], ['', 'Walk-in', 'line']]; // prettier-ignore
    expect(read(rows).questions).toMatchObject([{ id: 'customer', rows: 2, open: true, options: [{ value: 'address', label: 'None: each address is a customer' }, { value: '0', label: 'Street' }, { value: '1' }, { value: '2' }] }]); // prettier-ignore
    const r = read(rows, { customer: 'address' });
    expect(r.questions).toMatchObject([{ answer: 'address', open: false }]);
    expect(rowsIn(r)).toMatchObject([{ customer: '9 Quay St' }, { customer: '9 Quay St' }]);
  });

  it('“place” and “when” are what their cells say', () => {
    const targets = (head: string[], ...rows: string[][]) => read([head, ...rows]).columns.map((c) => c.target);
    expect(targets(['Customer', 'Unit', 'Place'], ['Ash', 'WIC', 'roof'], ['Ash', 'RI', 'cook line'])[2]).toBe('placement');
    expect(targets(['Customer', 'Unit', 'Place'], ['Ash', 'WIC', 'Harbor Mall'], ['Ash', 'RI', 'Station Rd'])[2]).toBe('kitchen');
    expect(targets(['Customer', 'Unit', 'When'], ['Ash', 'WIC', '3/4/26'], ['Ash', 'RI', '6-10'], ['Elm', 'RI', '1/4/26'])[2]).toBe('last_cleaned'); // prettier-ignore
    expect(targets(['Customer', 'Unit', 'When'], ['Ash', 'WIC', '6-10'], ['Ash', 'RI', 'Mon-Fri 6-10'])[2]).toBe('service_hours');
  });

  it('a list of units in one cell is a unit each once that was chosen; a name’s own comma is none', () => {
    const of = (text: string) => rowsIn(read([['Customer', 'Equipment'], ['Ash', text]], { several: 'each', placement: 'line' })).map((u) => u.kind); // prettier-ignore
    expect(of('Reach-in (2), prep table, WIC')).toEqual(['reach_in', 'reach_in', 'prep_table', 'walk_in_cooler']);
    expect(of('undercounter x3; 1 walk-in; bar cooler')).toEqual(['undercounter', 'undercounter', 'undercounter', 'walk_in_cooler', 'reach_in']); // prettier-ignore
    expect(of('2 reach-ins, 1 ice machine')).toEqual(['reach_in', 'reach_in', 'ice_machine']);
    for (const one of ['Reach-in, 2 door', 'Freezer, upright', '2 door reach-in']) expect(of(one), one).toHaveLength(1);
  });
});

describe('one cell of a unit', () => {
  /** What a row of a customer with these cells comes to, beside what every row has. */
  const one = (cells: Record<string, string>, answers: Record<string, string> = { placement: 'line' }) => {
    const all = { Customer: 'Ash', Equipment: 'Reach-in', Gas: 'R290', ...cells };
    const r = read([Object.keys(all), Object.values(all)], answers);
    return { ...rowsIn(r)[0], told: texts(r).join(' | '), asked: r.questions.map((q) => q.id), groups: r.groups.filter((g) => g.open).map((g) => g.value) }; // prettier-ignore
  };

  it.each([
    ['38', 'medium'], ['25', 'medium'], ['24.9', 'low'], ['-10', 'low'], ['0 °F', 'low'], ['36F', 'medium'], ['Low', 'low'], ['Freezer', 'low'], ['frz', 'low'], ['LT', 'low'], ['L.T.', 'low'], ['F', 'low'],
    ['Med', 'medium'], ['cooler', 'medium'], ['refrigerator', 'medium'], ['fridge', 'medium'], ['MT', 'medium'], ['m.t.', 'medium'], ['high', 'medium'], ['R', 'medium'], ['C', 'medium'],
  ])('temperature “%s” is %s', (text, temperature) => expect(one({ Temp: text }).temperature).toBe(temperature)); // prettier-ignore
  it('temperature that is no class is kept in the notes under its column’s name', () => {
    for (const text of ['warm', 'x', 'alt', 'mto', 'FR']) {
      const got = one({ 'Temp class': text });
      expect([got.temperature, got.notes], text).toEqual([undefined, `Temp class: ${text}`]);
      expect(got.told).toContain('Not a class of temperature: kept in the notes.');
    }
    // A reach-in that is called a freezer is one; said otherwise, it is as said.
    expect(one({ Equipment: 'Reach-in freezer' }).temperature).toBe('low');
    expect(one({ Equipment: 'Reach-in freezer', Temp: 'cooler' }).temperature).toBe('medium');
    expect(one({ Equipment: 'Reach-in' }).temperature).toBeUndefined();
    expect(one({ Equipment: 'Display freezer' }).temperature).toBeUndefined();
  });

  it('a walk-in that is said to freeze is a walk-in freezer, wherever it is said', () => {
    expect([one({ Equipment: 'Walk-in' }).kind, one({ Equipment: 'Walk-in freezer' }).kind, one({ Equipment: 'Walk-in', Temp: 'low temp' }).kind, one({ Equipment: 'Walk-in', Temp: 'freezer' }).kind, one({ Equipment: 'Walk-in', Temp: '38' }).kind, one({ Equipment: 'Big box', Type: 'WIC', Temp: 'freezer' }).kind]).toEqual(['walk_in_cooler', 'walk_in_freezer', 'walk_in_freezer', 'walk_in_freezer', 'walk_in_cooler', 'walk_in_freezer']); // prettier-ignore
  });

  it('a kind is told by its column, else by the unit’s name, else by its model; else it is asked', () => {
    expect(one({ Equipment: 'Bertha', Type: 'Reach-in' })).toMatchObject({ kind: 'reach_in', unit: 'Bertha' });
    expect(one({ Equipment: 'Ice machine', Type: 'XB' }).kind).toBe('ice_machine');
    expect(one({ Equipment: 'Bertha', Type: 'XB' })).toMatchObject({ groups: ['XB'] });
    expect(one({ Equipment: 'Bertha', Model: 'Prep 48' }).kind).toBe('prep_table');
    expect(one({ Equipment: 'Bertha' }).groups).toEqual(['Bertha']);
  });

  it.each([
    ['36', '36'], ['36 F', '36'], ['-5°', '-5'], ['-5.5 °f', '-5.5'], [' 38 ', '38'],
  ])('set point “%s” is %s °F', (text, f) => expect(one({ 'Set point': text }).box_f).toBe(f)); // prettier-ignore
  it('set point of another form is kept in the notes', () => {
    for (const text of ['cold', '3 psi', '36-38', '36 to 38']) expect(one({ 'Set point': text })).toMatchObject({ notes: `Set point: ${text}`, told: expect.stringContaining('Not a set point that can be read: kept in the notes.') }); // prettier-ignore
  });

  it('charges are masses that a unit can hold, others are kept', () => {
    expect(one({ Charge: '1 lb 4 oz' }).charge_kg).toBe('0.5669904625');
    for (const ok of ['5 g', '500 kg']) expect(one({ Charge: ok }).notes, ok).toBeUndefined();
    for (const odd of ['4 g', '501 kg', 'plenty', '0 oz']) expect(one({ Charge: odd })).toMatchObject({ notes: `Charge: ${odd}`, told: expect.stringContaining('Not a charge that can be read: kept in the notes.') }); // prettier-ignore
    for (const nothing of ['?', 'see plate', 'n/a']) expect(one({ Charge: nothing }).notes, nothing).toBeUndefined();
    expect(one({ Charge: '12' }).asked).toContain('charge');
    expect(one({ 'Charge (lbs)': '2' })).toMatchObject({ charge_kg: '0.90718474', asked: ['placement'] });
    expect(one({ Charge: '12' }, { placement: 'line', charge: 'leave' })).toMatchObject({ notes: 'Charge: 12', asked: ['placement'], told: expect.stringContaining('A charge without a unit: kept in the notes.') }); // prettier-ignore
  });

  it('the last cleaning is a day up to today; others are kept under their column’s name', () => {
    expect(one({ 'Last cleaned': '11/27/26' }).coil_cleaning_last_done).toBe('2026-11-27');
    expect(one({ 'Last PM': '11/28/26' })).toMatchObject({ notes: 'Last PM: 11/28/26', told: expect.stringContaining('A date still to come: kept in the notes.') }); // prettier-ignore
    expect(one({ 'Last PM': 'spring' })).toMatchObject({ notes: 'Last PM: spring', told: expect.stringContaining('Not a date that can be read: kept in the notes.') }); // prettier-ignore
    expect(one({ 'Last PM': 'unknown' }).notes).toBeUndefined();
  });

  it('how often is weeks; others are kept', () => {
    expect([one({ Freq: 'Q' }).coil_cleaning_rule, one({ 'Days between': '90' }).coil_cleaning_rule]).toEqual(['13', '13']);
    expect(one({ Freq: 'as needed' })).toMatchObject({ notes: 'Freq: as needed', told: expect.stringContaining('Not an interval that can be read: kept in the notes.') }); // prettier-ignore
    expect(one({ Freq: 'N/A' }).notes).toBeUndefined();
  });

  it('tags are what fits a label, with blanks as dashes; others are kept', () => {
    expect(one({ Tag: '#ab 01' }).tag).toBe('AB-01');
    expect(one({ Tag: 'A  1' }).tag).toBe('A-1');
    for (const odd of ['BP/02!', '#', 'X']) expect(one({ Tag: odd })).toMatchObject({ notes: `Tag: ${odd}`, told: expect.stringContaining('Not a tag that fits a label: kept in the notes, a tag is made.') }); // prettier-ignore
  });

  it('a gas that is not said is not known, one that nobody can tell is asked about, one that was given up stands in the notes', () => {
    expect(one({ Gas: '404' })).toMatchObject({ refrigerant: 'R404A' });
    for (const none of ['', '?', 'unknown']) expect(one({ Gas: none, Model: 'M' })).toMatchObject({ refrigerant: 'unknown', told: expect.stringContaining('No refrigerant given: filed as not known.') }); // prettier-ignore
    expect(one({ Gas: 'HP-81' })).toMatchObject({ groups: ['HP-81'] });
    const r = read([['Customer', 'Equipment', 'Gas'], ['Ash', 'RI', 'HP-81']], { placement: 'line' }, {}, { values: { refrigerant: { 'hp 81': 'unknown' } } }); // prettier-ignore
    expect(rowsIn(r)[0]).toMatchObject({ refrigerant: 'unknown', notes: 'Refrigerant in the sheet: HP-81' });
  });

  it('where it stands is said, seen in its name, or on the roof outdoors; else it is asked once for all', () => {
    expect(one({ Area: 'by fryer' })).toMatchObject({ placement: 'fryer', asked: [] });
    expect(one({ Equipment: 'Wok fridge' })).toMatchObject({ placement: 'wok', asked: [] });
    for (const yes of ['y', 'Yes', 'x', 'TRUE', '1', 'Roof']) expect(one({ Roof: yes }), yes).toMatchObject({ placement: 'outdoors', roof_work: 'yes' }); // prettier-ignore
    for (const no of ['n', 'no', '0', '']) expect(one({ Roof: no, Model: 'M' }, {}).roof_work, no).toBeUndefined();
    expect(one({ Area: 'roof over line' })).toMatchObject({ roof_work: 'yes', placement: 'outdoors' });
    expect(one({ Area: 'line', Roof: 'x' })).toMatchObject({ roof_work: 'yes', placement: 'line' });
    expect(one({}, {}).asked).toEqual(['placement']);
    expect(one({}, { placement: 'bar' })).toMatchObject({ placement: 'bar', asked: ['placement'] });
    expect(one({ Area: 'Stn 4' }).groups).toEqual(['Stn 4']);
    // A place that is no unit’s name stands with the name, and in the notes where the unit has none of its own.
    expect(one({ Equipment: '', Type: 'Reach-in', Area: 'Cook line' })).toMatchObject({ unit: 'Reach-in, cook line', notes: 'Placement: Cook line' }); // prettier-ignore
  });

  it('is called what the sheet calls it, where that is a name; else by its kind', () => {
    const name = (cells: Record<string, string>) => one(cells).unit;
    expect([name({ Equipment: 'BIG BERTHA' }), name({ Equipment: 'WIC' }), name({ Equipment: 'Reach-in', Type: 'reach in' }), name({ Equipment: 'RI 2' }), name({ Equipment: 'Kiste', Type: 'WIC' })]).toEqual(['Big Bertha', 'Walk-in cooler', 'Reach-in', 'RI 2', 'Kiste']); // prettier-ignore
    expect(name({ Equipment: 'long '.repeat(40) })?.length).toBe(110);
  });

  it('keeps the rest under its column’s name, but for notes, which are notes', () => {
    expect(one({ Notes: 'loud', Filter: '20x20', Hood: 'A' }).notes).toBe('loud\nFilter: 20x20\nHood: A');
    expect(one({ Comments: 'loud', Remarks: 'old' }).notes).toBe('loud\nold');
    expect(one({ Notes: 'x'.repeat(5000) }).notes?.length).toBe(3900);
  });

  it('of make, model and serial is as it is written', () => expect(one({ Make: 'Holm', Model: 'D-52', Serial: 's 77-31' })).toMatchObject({ make: 'Holm', model: 'D-52', serial: 's 77-31' })); // prettier-ignore
});

describe('a kitchen’s own cells', () => {
  const HEAD = ['Customer', 'Site', 'Address', 'City', 'State', 'Zip', 'Contact', 'Phone', 'Email', 'Hours', 'Access', 'GPS', 'Lat', 'Long', 'kWh price', 'Equipment', 'Gas', 'Area']; // prettier-ignore
  const kitchen = (...rows: Record<string, string>[]) => {
    const r = read([HEAD, ...rows.map((cells, i) => HEAD.map((h) => ({ Customer: 'Ash', Site: 'Ash One', Equipment: `Unit RI ${i}`, Gas: 'R290', Area: 'line', ...cells })[h] ?? ''))]); // prettier-ignore
    return { first: rowsIn(r)[0] ?? {}, all: rowsIn(r), told: texts(r) };
  };

  it('stand on its first row, wherever in its rows they were given', () => {
    const { all } = kitchen({}, { Phone: '3125550141', Contact: 'Ann', Address: '1 Mill St', City: 'Fenwick', State: 'IL', Zip: '60601', 'kWh price': '$0.14', Lat: '41.8', Long: '-87.6' }); // prettier-ignore
    expect(all[0]).toMatchObject({ contact_phone: '312-555-0141', contact_name: 'Ann', address: '1 Mill St, Fenwick, IL 60601', energy_price_per_kwh: '0.14', lat: '41.8', lng: '-87.6' }); // prettier-ignore
    expect(Object.keys(all[1] ?? {}).filter((k) => /contact|address|energy|lat|lng/.test(k))).toEqual([]);
    expect(kitchen({ Address: '1 Mill St', State: 'IL' }).first.address).toBe('1 Mill St, IL');
    expect(kitchen({ City: 'Fenwick', Zip: '60601' }).first.address).toBe('Fenwick, 60601');
  });

  it('given most often stand; the others are kept with its access notes, each once', () => {
    const { first, told } = kitchen({ Contact: 'Ann' }, { Contact: 'Bo' }, { Contact: 'Bo' }, { Contact: 'Cy', Access: 'Back door' });
    expect(first.contact_name).toBe('Bo');
    expect(first.access_notes).toBe('Back door\nAlso: Ann\nAlso: Cy');
    expect(told).toContain('Rows of one kitchen disagree: the value given most often stands, the others are kept with the access notes.'); // prettier-ignore
    // Spelt otherwise is not otherwise.
    expect(kitchen({ Contact: 'Ann B.' }, { Contact: 'ANN B' }).first.access_notes).toBeUndefined();
    // Another address is a slip, or another kitchen: the first one given most often stands.
    expect(kitchen({ Address: '1 Mill St' }, { Address: '1 Mill Street' }).first).not.toHaveProperty('access_notes');
  });

  it.each([
    ['M-F 6-10:30', 'Mon-Fri 06:00-10:30'],
    ['Mon-Fri 06:00-10:30', 'Mon-Fri 06:00-10:30'],
    ['M – F 6-10:30', 'Mon-Fri 06:00-10:30'],
    ['M-S 7-9', 'Mon-Sat 07:00-09:00'],
    ['M-Sat 7-9', 'Mon-Sat 07:00-09:00'],
    ['weekdays 7-9', 'Mon-Fri 07:00-09:00'],
    ['Monday 7-9', 'Mon 07:00-09:00'],
    ['Tues 7-9', 'Tue 07:00-09:00'],
    ['Thurs 7-9', 'Thu 07:00-09:00'],
    ['Wednesday 7-9; Saturdays 7-9', 'Wed 07:00-09:00; Sat 07:00-09:00'],
    ['6am-10am', 'Mon-Sun 06:00-10:00'],
  ])('hours “%s” are %s', (text, hours) => expect(kitchen({ Hours: text }).first.service_hours).toBe(hours));

  describe('with a note of closed days', () => {
    const HEADS = ['Customer', 'Site', 'Hours', 'Equipment', 'Gas', 'Area', 'Notes'];
    const noted = (...rows: [hours: string, note: string][]) => {
      const r = read([HEADS, ...rows.map(([hours, note], i) => ['Ash', 'Ash One', hours, `Unit RI ${i}`, 'R290', 'line', note])]);
      return { hours: rowsIn(r)[0]?.service_hours, notes: rowsIn(r).map((row) => row.notes), told: r.assumptions };
    };
    const READ = 'Closed days in a note are read as hours for us, and the note stays.';
    it('are read where they are plain, told, and the note stays', () => {
      const { hours, notes, told } = noted(['', 'closed Mon'], ['', 'back door']);
      expect(hours).toBe('Tue-Sun 00:00-24:00');
      expect(notes).toEqual(['closed Mon', 'back door']);
      expect(told.find((a) => a.text === READ)).toMatchObject({ column: 'Notes', rows: 1, lines: [2], examples: ['closed Mon: Tue-Sun 00:00-24:00'] }); // prettier-ignore
      expect(noted(['6-10', 'closed Mon']).hours).toBe('Tue-Sun 06:00-10:00');
      expect(noted(['6-10', 'closed Sat'], ['', 'Sun closed']).hours).toBe('Mon-Fri 06:00-10:00');
      expect(noted(['6-10, closed Mon', '']).hours).toBe('Tue-Sun 06:00-10:00');
      expect(noted(['closed Mon', '']).hours).toBe('Tue-Sun 00:00-24:00');
    });
    it('leave hours that agree as they are, without a word', () => {
      const { hours, told } = noted(['Tue-Fri 6-10', 'closed Mon']);
      expect([hours, told.map((a) => a.text).filter((text) => /closed/i.test(text))]).toEqual(['Tue-Fri 06:00-10:00', []]);
    });
    it('change nothing where hours name that day, or the words are not plain, and say so', () => {
      const against = noted(['Mon-Fri 6-10', 'closed Mon']);
      expect(against.hours).toBe('Mon-Fri 06:00-10:00');
      expect(against.told.map((a) => a.text)).toContain('Hours and a note about closed days disagree: the hours stand, and the note stays a note.'); // prettier-ignore
      const unclear = noted(['', 'closed Mon in winter']);
      expect(unclear.hours).toBeUndefined();
      expect(unclear.told.find((a) => a.text.startsWith('Speaks of closed days'))).toMatchObject({ column: 'Notes', lines: [2], examples: ['closed Mon in winter'] }); // prettier-ignore
    });
  });

  it('of hours, places and addresses that cannot be read are kept with the access notes, and told', () => {
    const { first, told } = kitchen({ Hours: 'whenever', GPS: 'behind the church', Email: 'ask Ann' });
    expect(first.access_notes?.split('\n').toSorted()).toEqual(['E-mail: ask Ann', 'Hours: whenever', 'Position: behind the church']);
    expect(first).not.toHaveProperty('service_hours');
    expect(first).not.toHaveProperty('contact_email');
    expect(told).toEqual(expect.arrayContaining(['Not a position that can be read', 'Not an e-mail address', 'Not hours that can be read'].map((t) => expect.stringMatching(`^${t}.*kept with the access notes. Understood are `)))); // prettier-ignore
    expect(kitchen({ Email: 'ann@plate.example' }).first).toMatchObject({ contact_email: 'ann@plate.example' });
    expect(kitchen({ GPS: '41.8583, -87.6233' }).first).toMatchObject({ lat: '41.8583', lng: '-87.6233' });
  });

  it('are each kitchen’s own', () => {
    const { all } = kitchen({ Phone: '312-555-0101' }, { Site: 'Ash Two', Phone: '312-555-0102' }, { Site: 'ASH ONE.' });
    expect(all.map((r) => [r.kitchen, r.contact_phone])).toEqual([['Ash One', '312-555-0101'], ['Ash Two', '312-555-0102'], ['Ash One', undefined]]); // prettier-ignore
  });
});

describe('rows that belong to the one above', () => {
  const row = (cells: Record<string, string>): SheetRow => ({ line: 1, cells, notes: [] });
  const down = (...cells: Record<string, string>[]) => {
    const { rows, filled } = filledDown(cells.map(row));
    return [rows.map((r) => r.cells), filled] as const;
  };
  it('take its customer, its kitchen and what is said of it', () => {
    expect(down({ customer: 'Ash', kitchen: 'One', contact_phone: '1', unit: 'A' }, { unit: 'B' }, { customer: 'Elm', unit: 'C' }, { unit: 'D' })).toEqual([
      [
        { customer: 'Ash', kitchen: 'One', contact_phone: '1', unit: 'A' },
        { customer: 'Ash', kitchen: 'One', contact_phone: '1', unit: 'B' },
        { customer: 'Elm', unit: 'C' },
        { customer: 'Elm', unit: 'D' },
      ],
      2,
    ]); // prettier-ignore
  });
  it('of a new kitchen or address under one customer take nothing else', () => {
    const [rows] = down({ customer: 'Ash', kitchen: 'One', address: '1 Mill', contact_phone: '1' }, { kitchen: 'Two', unit: 'B' }, { unit: 'C' }, { customer: 'Ash', address: '9 Oak' }); // prettier-ignore
    expect(rows[1]).toEqual({ customer: 'Ash', kitchen: 'Two', unit: 'B' });
    expect(rows[2]).toEqual({ customer: 'Ash', kitchen: 'Two', unit: 'C' });
    expect(rows[3]).toEqual({ customer: 'Ash', kitchen: 'Two', address: '9 Oak' });
    // The same kitchen spelt otherwise is no new one.
    expect(down({ customer: 'Ash', kitchen: 'One', contact_phone: '1' }, { kitchen: 'ONE.', unit: 'B' })[0][1]).toMatchObject({ contact_phone: '1' }); // prettier-ignore
  });
  it('are led by the kitchen, or by the address, where no row names a customer', () => {
    expect(down({ kitchen: 'One', unit: 'A' }, { unit: 'B' })).toEqual([[{ kitchen: 'One', unit: 'A' }, { kitchen: 'One', unit: 'B' }], 1]); // prettier-ignore
    expect(down({ address: '1 Mill', unit: 'A' }, { unit: 'B' })).toEqual([[{ address: '1 Mill', unit: 'A' }, { address: '1 Mill', unit: 'B' }], 1]); // prettier-ignore
    expect(down({ unit: 'A' }, { unit: 'B' })).toEqual([[{ unit: 'A' }, { unit: 'B' }], 0]);
    expect(down()).toEqual([[], 0]);
  });
  it('of the same customer once more keep what was said above', () => {
    expect(down({ customer: 'Ash', contact_name: 'Ann' }, { customer: 'ASH', unit: 'B' })).toEqual([[{ customer: 'Ash', contact_name: 'Ann' }, { customer: 'ASH', contact_name: 'Ann', unit: 'B' }], 0]); // prettier-ignore
  });
  it('say how many they were', () => {
    const r = read([
      ['Customer', 'Equipment', 'Area'],
      ['Ash', 'WIC', 'line'],
      ['', 'RI', 'line'],
      ['', 'UC', 'line'],
    ]);
    expect(r.assumptions.find((a) => a.text.startsWith('No customer in the row'))).toMatchObject({ text: 'No customer in the row: it belongs to the one above.', rows: 2 }); // prettier-ignore
  });

  it('are told apart by address where the sheet names no kitchen', () => {
    const spelled = (n: string) => n;
    const places = (...cells: Record<string, string>[]) => placesOf(cells.map(row), spelled).map((p) => p.kitchen);
    expect(places({ customer: 'Ash', address: '1 Mill St, Fenwick' }, { customer: 'Ash', address: '9 Oak' }, { customer: 'Elm', address: '2 Pier' })).toEqual(['1 Mill St', '9 Oak', 'Elm']); // prettier-ignore
    expect(places({ customer: 'Ash', address: '1 Mill' }, { customer: 'Ash', address: '1 MILL.' }, { customer: 'Ash' })).toEqual(['Ash', 'Ash', 'Ash']); // prettier-ignore
    expect(places({ customer: 'Ash', kitchen: 'One', address: '1 Mill' }, { customer: 'Ash', address: '9 Oak' })).toEqual(['One', 'Ash']);
    expect(placesOf([row({ kitchen: 'One' }), row({ address: '1 Mill' }), row({})], spelled).map((p) => p.customer)).toEqual(['One', '1 Mill', '']); // prettier-ignore
  });

  it('of two columns of one thing have both, a comma between', () => {
    const table = { headers: ['a', '', 'Filter', 'Notes', 'b'], headerLine: 1, above: [], body: [{ line: 7, cells: ['x', 'loose', '20', 'loud', 'y'] }, { line: 8, cells: ['', '', '', '', 'z'] }], dropped: [] }; // prettier-ignore
    expect(rowsOf(table, ['address', 'notes', 'notes', 'notes', 'address'])).toEqual([
      { line: 7, cells: { address: 'x, y' }, notes: ['loose', 'Filter: 20', 'loud'] },
      { line: 8, cells: { address: 'z' }, notes: [] },
    ]);
    expect(rowsOf(table, ['leave', 'leave', 'leave', 'leave', 'leave'])[0]).toEqual({ line: 7, cells: {}, notes: [] });
  });
});

describe('several units in a row', () => {
  const row = (cells: Record<string, string>): SheetRow => ({ line: 3, cells, notes: ['n'] });
  const each = (cells: Record<string, string>) => eachItsRow([row(cells)], { ...NO_CHOICES, answers: { several: 'each' } });
  const names = (text: string, more: Record<string, string> = {}) => each({ unit: text, ...more }).map((r) => r.cells.unit);

  it.each([
    ['WIC / WIF', ['WIC', 'WIF']], ['WIC & WIF', ['WIC', 'WIF']], ['WIC + WIF', ['WIC', 'WIF']], ['WIC; WIF', ['WIC', 'WIF']], ['WIC;WIF', ['WIC', 'WIF']], ['WIC and WIF', ['WIC', 'WIF']],
    ['Reach-in / prep table / ice machine', ['Reach-in', 'prep table', 'ice machine']],
    ['2x reach-in', ['reach-in', 'reach-in']], ['2 x reach-in', ['reach-in', 'reach-in']], ['(2) reach-in', ['reach-in', 'reach-in']], ['(2)x reach-in', ['reach-in', 'reach-in']], ['3× reach-in', ['reach-in', 'reach-in', 'reach-in']],
    ['reach-in x2', ['reach-in', 'reach-in']], ['reach-in (x2)', ['reach-in', 'reach-in']], ['reach-in (2)', ['reach-in', 'reach-in']], ['reach-in × 2', ['reach-in', 'reach-in']],
    ['12x reach-in', Array(12).fill('reach-in')],
    // One, more than a row can mean, no kind of unit, or a word with a stroke in it: one unit, as written.
    ['13x reach-in', ['13x reach-in']], ['1x reach-in', ['1x reach-in']], ['2x hood', ['2x hood']], ['WIC / hood', ['WIC / hood']], ['W/I cooler', ['W/I cooler']], ['Sandy cooler', ['Sandy cooler']], ['reach-in', ['reach-in']],
  ])('“%s”', (text, units) => expect(names(text)).toEqual(units)); // prettier-ignore

  it('by a number beside the name, from two to twelve', () => {
    expect([names('RI', { count: '3' }), names('RI', { count: '1' }), names('RI', { count: '0' }), names('RI', { count: '13' }), names('RI', { count: '2.5' }), names('RI', { count: 'two' }), names('RI', { count: '12' })].map((n) => n.length)).toEqual([3, 1, 1, 1, 1, 1, 12]); // prettier-ignore
    // The name’s own number goes before.
    expect(names('2x reach-in', { count: '3' })).toHaveLength(2);
    expect(names(Array(12).fill('WIC').join(' / '))).toHaveLength(12);
    expect(names(Array(13).fill('WIC').join(' / '))).toHaveLength(1);
  });

  it('have serials and tags of their own where there are as many; else these stand with each of them', () => {
    const two = (cells: Record<string, string>) => each({ unit: 'WIC / WIF', ...cells });
    for (const sep of [' / ', '/', ', ', '; ', ' & ', ' + ', ' and ']) {
      const got = two({ serial: ['S1', 'S2'].join(sep), tag: ['T1', 'T2'].join(sep) });
      expect(got.map((r) => [r.cells.serial, r.cells.tag, r.notes]), sep).toEqual([['S1', 'T1', ['n']], ['S2', 'T2', ['n']]]); // prettier-ignore
    }
    const odd = two({ serial: 'S1', tag: 'T1, T2, T3' });
    for (const r of odd) {
      expect([r.cells.serial, r.cells.tag]).toEqual([undefined, undefined]);
      expect(r.notes).toEqual(['n', 'Serial in the sheet, for 2 units: S1', 'Tag in the sheet, for 2 units: T1, T2, T3']);
    }
    expect(two({ serial: '?' }).map((r) => [r.cells.serial, r.notes])).toEqual([['?', ['n']], ['?', ['n']]]); // prettier-ignore
    // Sand is no "and".
    expect(two({ serial: 'SAND1' }).every((r) => r.notes.length === 2)).toBe(true);
  });

  it('of two kinds have no kind of one of them; of one kind keep it', () => {
    expect(each({ unit: 'WIC / WIF', kind: 'WIC' }).map((r) => r.cells.kind)).toEqual([undefined, undefined]);
    expect(each({ unit: '2x reach-in', kind: 'RI' }).map((r) => r.cells.kind)).toEqual(['RI', 'RI']);
    expect(each({ kind: 'WIC / WIF' }).map((r) => [r.cells.kind, r.cells.unit])).toEqual([['WIC', undefined], ['WIF', undefined]]); // prettier-ignore
  });

  it('are asked about once, and one row stays one where that was chosen or nothing was', () => {
    const rows = [row({ unit: 'WIC / WIF' }), row({ unit: 'RI', count: '2' }), row({ unit: 'RI' }), row({ unit: 'WIC / WIF' })];
    expect(severalQuestion(rows, NO_CHOICES)).toEqual([
      { id: 'several', text: 'Rows that name more than one unit', rows: 3, examples: ['WIC / WIF', 'RI, 2'], options: [{ value: 'each', label: 'A unit of its own for each' }, { value: 'one', label: 'One unit a row, as written' }], answer: '', open: true },
    ]); // prettier-ignore
    expect(severalQuestion(rows, { ...NO_CHOICES, answers: { several: 'one' } })[0]).toMatchObject({ answer: 'one', open: false });
    expect(severalQuestion([row({ unit: 'RI' })], NO_CHOICES)).toEqual([]);
    expect(eachItsRow(rows, NO_CHOICES)).toEqual(rows);
    expect(eachItsRow(rows, { ...NO_CHOICES, answers: { several: 'each' } }).map((r) => r.line)).toEqual(Array(7).fill(3));
  });
});

describe('the table of a sheet', () => {
  it('begins under titles and blank rows, at the row with most names that are known', () => {
    const t = findTable(sheet([['Larkspur Refrigeration'], [], ['as of', '2026-01-02'], ['Customer', 'Equipment', 'Serial'], ['Ash', 'WIC', '1'], ['', '', ''], ['Ash', 'RI']])); // prettier-ignore
    expect(t).toEqual({ headers: ['Customer', 'Equipment', 'Serial'], headerLine: 4, above: ['Larkspur Refrigeration', 'as of', '2026-01-02'], body: [{ line: 5, cells: ['Ash', 'WIC', '1'] }, { line: 7, cells: ['Ash', 'RI', ''] }], dropped: [] }); // prettier-ignore
    // Rows that are wider than the names keep what they have.
    expect(findTable(sheet([['Customer', 'Equipment'], ['Ash', 'WIC', 'extra']]))).toMatchObject({ headers: ['Customer', 'Equipment', ''], body: [{ cells: ['Ash', 'WIC', 'extra'] }] }); // prettier-ignore
    // Not so far down.
    const deep = (n: number) => findTable(sheet([...Array.from({ length: n }, () => ['x']), ['Customer', 'Equipment'], ['Ash', 'WIC']])).headerLine; // prettier-ignore
    expect([deep(39), deep(40)]).toEqual([40, 1]);
    expect(findTable(sheet([]))).toEqual({ headers: [], headerLine: 1, above: [], body: [], dropped: [] });
  });

  it.each(['Total', 'TOTAL units: 3', 'Grand total', 'Subtotal', 'sub-total', 'Sub total', 'Count', 'Sum', 'End of list', 'end of report', 'Page 2'])('leaves out “%s”', (text) => {
    const { body, dropped } = findTable(sheet([['Customer', 'Equipment', 'Serial', 'Gas'], ['Ash', 'WIC', '1', ''], [text, '', '', ''], ['', text, '3', '']])); // prettier-ignore
    expect(body).toHaveLength(1);
    expect(dropped.map((d) => [d.line, d.why])).toEqual([[3, 'total'], [4, 'total']]); // prettier-ignore
    expect(dropped[1]?.text).toBe(`${text} · 3`);
  }); // prettier-ignore

  it('leaves no row out that only begins alike, or says so beside a whole unit', () => {
    const { body } = findTable(sheet([['Customer', 'Equipment', 'Serial', 'Gas'], ['Totally Fresh', 'WIC', '1', ''], ['Countryside', 'RI', '2', ''], ['Ash', 'Total box', '3', '404'], ['Pages', 'RI', '', '']])); // prettier-ignore
    expect(body.map((r) => r.cells[0])).toEqual(['Totally Fresh', 'Countryside', 'Ash', 'Pages']);
  });

  it('leaves out its names where they come again, in any case', () => {
    const head = ['Customer', 'Equipment'];
    const { body, dropped } = findTable(sheet([head, ['Ash', 'WIC'], ['CUSTOMER', 'equipment'], ['Customer', 'Equipment x']]));
    expect([body.length, dropped]).toEqual([2, [{ line: 3, text: 'CUSTOMER · equipment', why: 'header again' }]]);
  });

  it('takes rows of one value over others for customers, where no column names one', () => {
    const head = ['Unit', 'Gas', 'Serial', 'Area'];
    const unit = (s: string) => ['RI', '404', s, 'line'];
    const t = findTable(sheet([head, ['Ash'], unit('1'), unit('2'), ['Elm'], unit('3')]));
    expect(t.headers).toEqual(['Customer (heading row)', ...head]);
    expect(t.body.map((r) => [r.line, r.cells[0]])).toEqual([[3, 'Ash'], [4, 'Ash'], [6, 'Elm']]); // prettier-ignore
    expect(t.dropped).toEqual([]);
    // One alone, the first one late, or a column that names customers: remarks, left out and told.
    const whys = (...rows: string[][]) => findTable(sheet(rows)).dropped.map((d) => `${d.line} ${d.text} ${d.why}`);
    expect(whys(head, ['Ash'], unit('1'))).toEqual(['3 Ash too little']);
    expect(whys(head, unit('1'), ['see Joe'], unit('2'), ['see Ann'], unit('3'))).toEqual(['4 see Joe too little', '6 see Ann too little']);
    expect(whys(['Customer', ...head], ['see Joe'], ['Ash', ...unit('1')], ['see Ann'], ['Ash', ...unit('2')])).toHaveLength(2);
    expect(whys(['Customer', ...head], ['see Joe'], ['', ...unit('1')], ['see Ann'], ['Ash', ...unit('2')])).toEqual([]);
    expect(whys(head, unit('1'), ['end'])).toEqual(['2 end too little']);
    // A value elsewhere than in front, or in a narrow sheet, is a row.
    expect(findTable(sheet([head, ['', 'Ash'], unit('1')])).body).toHaveLength(2);
    expect(findTable(sheet([['Unit', 'Gas', 'Area'], ['Ash'], ['RI', '404', 'line']])).body).toHaveLength(2);
  });

  it('is looked for in the sheet that names and holds most', () => {
    const good = sheet([
      ['Customer', 'Equipment', 'Serial'],
      ['Ash', 'WIC', '1'],
    ]);
    const names = sheet([['Name', 'Phone']]);
    expect([likelySheet([names, good]), likelySheet([good, names]), likelySheet([sheet([['x']]), good]), likelySheet([]), likelySheet([sheet([])])]).toEqual([1, 0, 1, 0, 0]); // prettier-ignore
    const long = sheet([...good.rows, ...Array.from({ length: 30 }, () => ['Ash', 'RI', '2'])]);
    expect(likelySheet([good, long])).toBe(1);
  });
});

describe('what a sheet is asked', () => {
  it('names a slip of the pen apart: the rarer after the more frequent; as it was answered', () => {
    const rows = [['Customer', 'Equipment', 'Area'], ['Harbor Grill', 'WIC', 'line'], ['Harbour Grill', 'RI', 'line'], ['Harbour Grill', 'UC', 'line']]; // prettier-ignore
    const id = 'same harbour grill = harbor grill';
    const q = read(rows).questions;
    expect(q).toEqual([
      { id, text: 'Is “Harbor Grill” the same as “Harbour Grill”?', rows: 1, examples: [], options: [{ value: 'same', label: 'The same' }, { value: 'apart', label: 'Two different ones' }], answer: '', open: true },
    ]); // prettier-ignore
    const customers = (answers: Record<string, string>, onFile: string[] = []) => rowsIn(read(rows, answers, { customersOnFile: onFile })).map((r) => r.customer); // prettier-ignore
    expect(customers({})).toEqual(['Harbor Grill', 'Harbour Grill', 'Harbour Grill']);
    expect(customers({ [id]: 'same' })).toEqual(['Harbour Grill', 'Harbour Grill', 'Harbour Grill']);
    expect(customers({ [id]: 'apart' })).toEqual(['Harbor Grill', 'Harbour Grill', 'Harbour Grill']);
    expect(read(rows, { [id]: 'apart' }).questions[0]).toMatchObject({ answer: 'apart', open: false });
    // What is on file is spelt as it is there.
    expect(customers({}, ['HARBOUR GRILL, Inc.'])[1]).toBe('HARBOUR GRILL, Inc.');
    // Of two as frequent the first one stands.
    expect(read(rows.slice(0, 3)).questions[0]?.id).toBe('same harbor grill = harbour grill');
  });

  it('nothing of names that look alike where their streets, or the file, tell two customers', () => {
    const asked = (a: string[], b: string[], onFile: string[] = []) =>
      open(
        read(
          [
            ['Customer', 'Address', 'Equipment', 'Area'],
            [...a, 'WIC', 'line'],
            [...b, 'RI', 'line'],
          ],
          {},
          { customersOnFile: onFile },
        ),
      );
    expect(asked(['Amber Pantry', '4 Mill St'], ['Umber Pantry', '4 mill street'])).toEqual(['same amber pantry = umber pantry']);
    expect(asked(['Amber Pantry', ''], ['Umber Pantry', '9 Canal St'])).toEqual(['same amber pantry = umber pantry']);
    expect(asked(['Amber Pantry', '4 Mill St'], ['Umber Pantry', '9 Canal St'])).toEqual([]);
    // One letter within a name may be a slip at another kitchen of the same customer; two are not.
    expect(asked(['Harbor Grill', '4 Mill St'], ['Harbour Grill', '9 Canal St'])).toEqual(['same harbor grill = harbour grill']);
    expect(asked(['Willow Tavern', '4 Mill St'], ['Wallaw Tavern', '9 Canal St'])).toEqual([]);
    expect(asked(['Willow Tavern', '4 Mill St'], ['Wallaw Tavern', '4 Mill St'])).toEqual(['same willow tavern = wallaw tavern']);
    expect(asked(['Amber Pantry', ''], ['Umber Pantry', ''], ['Amber Pantry', 'Umber Pantry'])).toEqual([]);
    expect(asked(['Amber Pantry', ''], ['Umber Pantry', ''], ['Umber Pantry'])).toEqual(['same amber pantry = umber pantry']);
  });

  it('once of many pairs of names, before each of them', () => {
    const heads = ['Hearth', 'Grill', 'Tavern', 'Bakery', 'Canteen'];
    const rows = [['Customer', 'Equipment', 'Area'], ...heads.flatMap((w) => [[`Amber ${w}`, 'WIC', 'line'], [`Umber ${w}`, 'RI', 'line']])]; // prettier-ignore
    const all = read(rows);
    expect(all.questions).toEqual([
      {
        id: 'same all',
        text: '5 pairs of names differ by a letter or two. Are all of them different customers?',
        rows: 5,
        examples: [
          'Umber Hearth / Amber Hearth',
          'Umber Grill / Amber Grill',
          'Umber Tavern / Amber Tavern',
          'Umber Bakery / Amber Bakery',
        ],
        options: [
          { value: 'apart', label: 'Yes, all of them are different' },
          { value: 'each', label: 'No: ask me about each pair' },
        ],
        answer: '',
        open: true,
      },
    ]);
    const apart = read(rows, { 'same all': 'apart' });
    expect(open(apart)).toEqual([]);
    expect(apart.questions.map((q) => q.answer)).toEqual(Array(6).fill('apart'));
    expect(new Set(rowsIn(apart).map((r) => r.customer)).size).toBe(10);
    expect(open(read(rows, { 'same all': 'each' }))).toHaveLength(5);
    // One that was answered for itself stands.
    const one = read(rows, { 'same all': 'apart', 'same amber grill = umber grill': 'same' });
    expect(new Set(rowsIn(one).map((r) => r.customer)).size).toBe(9);
    // Of few pairs each is asked about.
    expect(open(read(rows.slice(0, 9)))).toHaveLength(4);
  });

  it('which column says what units are, or names the customer, with every column to choose from', () => {
    const what = read(
      [
        ['Customer', 'Model', ''],
        ['Ash', 'M1', 'x'],
        ['Ash', 'M2', 'y'],
      ],
      { placement: 'line' },
    ).questions[0];
    expect(what).toEqual({ id: 'unit', text: 'Which column says what each unit is?', rows: 2, examples: [], options: [{ value: '0', label: 'Customer' }, { value: '1', label: 'Model' }, { value: '2', label: 'Column 3' }], answer: '', open: true }); // prettier-ignore
    const who = read([
      ['Equipment', 'Area'],
      ['WIC', 'line'],
      ['RI', 'line'],
    ]).questions;
    expect(who).toMatchObject([{ id: 'customer', text: 'Which column names the customer?', rows: 2, open: true }]);
    expect(
      read([
        ['Customer', 'Equipment', 'Area'],
        ['Ash', 'RI', 'line'],
      ]).questions,
    ).toEqual([]);
  });

  it('where units stand, in what charges are, which way dates go', () => {
    const r = read([['Customer', 'Equipment', 'Charge', 'Last cleaned'], ['Ash', 'WIC', '12', '3/4/24'], ['Ash', 'RI', '13', '3/5/24'], ['Ash', 'UC', '14', '3/6/24'], ['Ash', 'Prep', '15', '3/7/24']]); // prettier-ignore
    expect(r.questions.map((q) => [q.id, q.rows, q.examples, q.answer, q.open])).toEqual([
      ['placement', 4, ['WIC', 'RI', 'UC'], '', true],
      ['charge', 4, ['12', '13', '14'], '', true],
      ['dates', 4, ['3/4/24', '3/5/24', '3/6/24'], 'month first', false],
    ]);
    const [placement, charge, dates] = r.questions;
    expect(placement?.text).toBe('Where do the units stand of which the sheet does not say it? Greasy places are cleaned more often.');
    expect(placement?.options).toEqual(PLACEMENT_OPTIONS);
    expect(charge?.text).toBe('What is the charge given in?');
    expect(charge?.options.map((o) => o.label)).toEqual(['Ounces', 'Pounds', 'Grams', 'Kilograms', 'Nobody knows: keep it in the notes']);
    expect(dates?.text).toBe('Dates like 3/4/24');
    expect(dates?.options).toEqual([{ value: 'month first', label: 'Month first (4 March)' }, { value: 'day first', label: 'Day first (3 April)' }]); // prettier-ignore
    const answered = (over: Record<string, string>) => rowsIn(read([['Customer', 'Equipment', 'Charge', 'Last cleaned'], ['Ash', 'WIC', '12', '3/4/24']], { placement: 'bar', charge: 'lb', ...over }))[0]; // prettier-ignore
    expect(answered({})).toMatchObject({ placement: 'bar', charge_kg: '5.44310844', coil_cleaning_last_done: '2024-03-04' });
    expect(answered({ dates: 'day first' })).toMatchObject({ coil_cleaning_last_done: '2024-04-03' });
    expect(answered({ dates: 'sideways' })).toMatchObject({ coil_cleaning_last_done: '2024-03-04' });
  });
});

describe('rows beside units on file', () => {
  const known = (id: string, over: Partial<UnitValues> = {}, kitchen = 'Ash'): KnownUnit => ({ id, version: 1, customer: 'Ash', kitchen, values: { ...blankUnit('reach_in'), kind: 'reach_in', name: 'Reach-in', tag: id.toUpperCase(), placement: 'fryer', refrigerant: 'R290', ...over } }); // prettier-ignore
  const beside = (units: KnownUnit[], ...rows: string[][]) => read([['Customer', 'Equipment', 'Tag', 'Serial', 'Notes'], ...rows], {}, { unitsOnFile: units }); // prettier-ignore
  const told = (r: ReturnType<typeof read>) => rowsIn(r).map((u) => [u.unit, u.tag ?? '', u.serial ?? '', u.notes ?? '']);

  it('keep what the sheet need not say again: kind, place and gas are not asked about', () => {
    const r = beside([known('t-1', { serial: 'SN100' })], ['Elm', 'Fridge', 't-1', '', 'loud']);
    expect(rowsIn(r)[0]).toEqual({ customer: 'Ash', kitchen: 'Ash', unit: 'Reach-in', tag: 'T-1', kind: 'reach_in', placement: 'fryer', refrigerant: 'R290', notes: 'loud' }); // prettier-ignore
    expect(r.questions).toEqual([]);
    expect(r.groups).toEqual([]);
    // Known by its serial, or by its name in its kitchen.
    expect(told(beside([known('t-1', { serial: 'SN100' })], ['Ash', 'Prep', '', 'sn-100', '']))).toEqual([['Reach-in', 'T-1', 'sn-100', '']]); // prettier-ignore
    expect(told(beside([known('t-1')], ['ash', 'REACH-IN', '', '', '']))).toEqual([['Reach-in', 'T-1', '', '']]);
  });

  it('twice about one unit on file both say its name and tag, and that is told; neither gets a tag of its own', () => {
    const r = beside([known('t-1', { serial: 'SN100' })], ['Ash', 'Fridge', 't-1', '', 'a'], ['Ash', 'Fridge', '', 'SN100', 'b'], ['Ash', 'Fridge', 'T-1', 'SN100', 'c']); // prettier-ignore
    expect(told(r)).toEqual([['Reach-in', 'T-1', '', 'a'], ['Reach-in', 'T-1', 'SN100', 'b'], ['Reach-in', 'T-1', 'SN100', 'c']]); // prettier-ignore
    expect(r.assumptions).toContainEqual({ column: '', lines: [3, 4], text: 'Two rows about one unit on file: where they differ the first one stands.', rows: 2, examples: ['T-1'] }); // prettier-ignore
    expect(texts(r).join()).not.toMatch(/same tag twice|same serial twice|second unit of the same name/);
  });

  it('of one name are one unit on file only once: the next is a unit of its own, and numbered', () => {
    const r = beside([known('t-1')], ['Ash', 'Reach-in', '', '', ''], ['Ash', 'Reach-in', '', '', ''], ['Ash', 'Reach-in', '', '', '']);
    expect(told(r).map(([unit, tag]) => [unit, tag])).toEqual([['Reach-in', 'T-1'], ['Reach-in 2', ''], ['Reach-in 3', '']]); // prettier-ignore
    expect(r.assumptions).toContainEqual({ column: '', lines: [3, 4], text: 'A second unit of the same name in a kitchen: numbered.', rows: 2, examples: ['Reach-in'] }); // prettier-ignore
    // One known by its tag is not taken for a second row by its name.
    expect(told(beside([known('t-1')], ['Ash', 'Reach-in', '', '', ''], ['Ash', 'Reach-in', 'T-1', '', ''])).map((u) => u[0])).toEqual(['Reach-in 2', 'Reach-in']); // prettier-ignore
  });

  it('of one tag that is on no file: the second one gets its own, and the tag stands in its notes', () => {
    const r = beside([], ['Ash', 'Reach-in', 'A 1', '', ''], ['Ash', 'Prep', 'a-1', '', 'loud'], ['Ash', 'WIC', '', '', ''], ['Ash', 'Ice', '', '', '']); // prettier-ignore
    expect(told(r)).toEqual([['Reach-in', 'A-1', '', ''], ['Prep', '', '', 'loud\nTag in the sheet: A-1'], ['Walk-in cooler', '', '', ''], ['Ice machine', '', '', '']]); // prettier-ignore
    expect(r.assumptions).toContainEqual({
      column: '',
      lines: [3],
      text: 'The same tag twice: the second unit gets a tag of its own.',
      rows: 1,
      examples: ['A-1'],
    });
  });

  it('of one serial both go on file with it, and it is told; short ones and none say nothing', () => {
    const r = beside([], ['Ash', 'Reach-in', '', 'SN-100', ''], ['Ash', 'Prep', '', 'sn 100', ''], ['Ash', 'WIC', '', '123', ''], ['Ash', 'UC', '', '123', ''], ['Ash', 'Ice', '', '', '']); // prettier-ignore
    expect(told(r).map((u) => u[2])).toEqual(['SN-100', 'sn 100', '123', '123', '']);
    expect(r.assumptions.filter((a) => a.text.startsWith('The same serial twice'))).toEqual([{ column: '', lines: [3], text: 'The same serial twice: both units go on file with it. Look at their plates.', rows: 1, examples: ['sn 100'] }]); // prettier-ignore
  });

  it('of one name in different kitchens are not numbered', () => {
    const r = read([['Customer', 'Site', 'Equipment', 'Area'], ['Ash', 'One', 'Reach-in', 'line'], ['Ash', 'Two', 'Reach-in', 'line'], ['Elm', 'One', 'Reach-in', 'line']]); // prettier-ignore
    expect(rowsIn(r).map((u) => u.unit)).toEqual(['Reach-in', 'Reach-in', 'Reach-in']);
  });
});

describe('a reading as a whole', () => {
  it('says of each column what it holds and what it is taken for, chosen or guessed', () => {
    const rows = [
      ['Customer', 'Thing', 'Filter'],
      ['Ash', 'WIC', '20'],
      ['Ash', 'RI', ''],
      ['Ash', 'UC', '20'],
      ['Elm', 'Ice', '30'],
    ];
    const { columns } = read(rows, { placement: 'line' }, {}, { columns: { 1: 'unit', 2: 'nonsense' } });
    expect(columns).toEqual([
      { at: 0, header: 'Customer', samples: ['Ash', 'Elm'], filled: 4, target: 'customer', chosen: false },
      { at: 1, header: 'Thing', samples: ['WIC', 'RI', 'UC'], filled: 4, target: 'unit', chosen: true },
      { at: 2, header: 'Filter', samples: ['20', '30'], filled: 3, target: 'leave', chosen: true },
    ]);
  });

  it.each([['Equipment type', 'Walk-in cooler'], ['Model', 'KX-49'], ['Serial', 'SN-100'], ['Tag', 'A-7'], ['Refrigerant', 'R290']])('keeps a row that says no more of a unit than its %s', (header, value) => {
    const r = read([['Customer', 'Equipment', header, 'Phone'], ['Ash', 'WIC', value === 'R290' ? 'R404A' : '', ''], ['Elm', '', value, '312-555-0141'], ['Fir', '', '', '312-555-0142']]);
    expect([r.rows, r.assumptions.filter((a) => a.text.startsWith('Nothing of a unit')).map((a) => a.lines)]).toEqual([2, [[4]]]);
  }); // prettier-ignore

  it('leaves out rows with nothing of a unit, and says what was in them', () => {
    const r = read([
      ['Customer', 'Equipment', 'Phone', 'Area'],
      ['Ash', 'WIC', '', 'line'],
      ['Elm', '', '312-555-0141', ''],
    ]);
    expect(r.rows).toBe(1);
    expect(r.assumptions).toContainEqual({
      column: '',
      lines: [3],
      text: 'Nothing of a unit in the row: left out.',
      rows: 1,
      examples: ['Elm · 312-555-0141'],
    });
    expect(r.lines.map((l) => l.line)).toEqual([1, 2]);
  });

  it('has only the columns that something stands in, customer and kitchen always', () => {
    expect(
      read([
        ['Customer', 'Equipment'],
        ['Ash', 'WIC'],
      ]).lines[0]?.cells,
    ).toEqual(['customer', 'kitchen', 'unit', 'kind', 'refrigerant']);
    expect(read([]).lines).toEqual([{ line: 1, cells: ['customer', 'kitchen'] }]);
  });

  it('gathers values that read alike into one decision, the open and the frequent first', () => {
    const r = read([['Customer', 'Equipment', 'Area'], ['Ash', 'WIC', 'Stn 4'], ['Ash', 'RI', 'stn-4'], ['Ash', 'UC', 'bar'], ['Ash', 'Ice', 'line'], ['Ash', 'Prep', 'LINE']]); // prettier-ignore
    expect(r.groups.filter((g) => g.target === 'placement')).toEqual([
      { target: 'placement', key: 'stn 4', value: 'Stn 4', rows: 2, taken: '', chosen: false, open: true },
      { target: 'placement', key: 'line', value: 'line', rows: 2, taken: 'line', chosen: false, open: false },
      { target: 'placement', key: 'bar', value: 'bar', rows: 1, taken: 'bar', chosen: false, open: false },
    ]);
  });

  it('tells what it did with three examples at most, each once and short', () => {
    const t = teller();
    for (const example of ['a', 'a', 'b', '', 'c', 'd', 'x'.repeat(99)]) t.say('Done.', example);
    t.say('Else.');
    t.say('Long.', 'x'.repeat(99));
    expect(t.all()).toEqual([
      { column: '', lines: [], text: 'Done.', rows: 7, examples: ['a', 'b', 'c'] },
      { column: '', lines: [], text: 'Else.', rows: 1, examples: [] },
      { column: '', lines: [], text: 'Long.', rows: 1, examples: ['x'.repeat(60)] },
    ]);
  });
});
