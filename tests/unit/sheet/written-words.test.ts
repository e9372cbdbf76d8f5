import { describe, expect, it } from 'vitest';
import { asName, alike } from '@/lib/core/sheet/names';
import { readInterval } from '@/lib/core/sheet/read-interval';
import { readDate } from '@/lib/core/calendar/read-date';
import { massUnitIn, readMass } from '@/lib/core/sheet/read-mass';
import { chargeQuestion, dateQuestion } from '@/lib/core/sheet/questions';
import { guessColumns } from '@/lib/core/sheet/targets';
import { KIND_OPTIONS, PLACEMENT_OPTIONS, refrigerantOptions } from '@/lib/core/sheet/values';
import { isFreezer, kindOf, placementInName, placementOf, SAYS_NOTHING } from '@/lib/core/sheet/vocabulary';

// What people write in their lists, each beside what they mean by it. Common usage, from memory.

const KINDS = {
  walk_in_freezer: ['WIF', 'W/I F', 'W/I frz', 'wi freezer', 'Walk-in freezer', 'walk in frzr', 'Cold room, freezer', 'box freezer', 'freezer (walk-in)'],
  walk_in_cooler: ['WIC', 'W/I', 'WI C', 'wi-cooler', 'Walk in', 'Cold room', 'cool room', 'walkin produce'],
  ice_machine: ['Ice mach.', 'IM', 'cuber', 'flaker'],
  drawer_base: ['4 drawer', 'Chef base', 'chefbase', 'refrigerated base', 'equipment stand', 'equip stand'],
  prep_table: ['Prep', 'sandwich unit', 'salad station', 'salad bar', 'salad', 'pizza table', 'mega-top', 'megatop', 'PT 48', 'make table', 'makeline', 'bain marie'],
  undercounter: ['Undercounter', 'Undercounter salad fridge', 'under cnt', 'U/C', 'UC', 'low boy', 'lowboy', 'worktop', 'work top', 'Back bar', 'bottle cooler', 'Keg box', 'beer cooler', 'draft box', 'draught', 'wine fridge'],
  display: ['display', 'merchandiser', 'deli', 'glass door', 'open-air', 'grab & go', 'pie case', 'showcase', 'sushi'],
  remote_condensing_unit: ['condenser', 'remote', 'CU 3', 'rack', 'RCU'],
  reach_in: ['Reach-in', 'R/I', 'RI', 'RIC', 'upright', 'refrigerator', 'fridge', 'salad fridge', 'freezer', 'frz', 'frzr', 'cooler', '2 door', 'roll-in', 'pass-thru', 'cabinet'],
} as const; // prettier-ignore

const PLACES = {
  outdoors: ['roof', 'Outdoors', 'outside', 'exterior', 'pad', 'alley', 'patio', 'ext.'],
  fryer: ['fry station', 'French fries'],
  charbroiler: ['char', 'broiler'],
  wok: ['wok line', 'woks'],
  griddle: ['griddle', 'flat top', 'flattop', 'plancha', 'grill'],
  bakery: ['bakery', 'baking', 'pastry', 'dough room', 'pizza', 'flour'],
  bar: ['bar', 'FOH', 'front', 'dining', 'server station', 'wait station', 'counter', 'lobby', 'coffee', 'cafe'],
  back_of_house: ['BOH', 'back', 'storage', 'basement', 'dry', 'dish pit', 'pantry', 'receiving', 'hallway', 'mech room', 'prep room', 'cellar', 'bsmt', 'commissary', 'garage'],
  line: ['line', 'cook', 'kitchen', 'kit.', 'saute', 'expo', 'hot side'],
} as const; // prettier-ignore

const pairs = (table: Record<string, readonly string[]>) =>
  Object.entries(table).flatMap(([is, words]) => words.map((word) => [word, is] as const));

describe('words for units and places', () => {
  it.each(pairs(KINDS))('“%s” is a %s', (word, kind) => expect(kindOf(word)).toBe(kind));
  it.each(pairs(PLACES))('“%s” is %s', (word, place) => expect(placementOf(word)).toBe(place));

  it('are whole words where they are short: letters of another word say nothing', () => {
    for (const word of ['policy', 'claims', 'ruckus', 'brickwork', 'scrubs']) expect(kindOf(word), word).toBeNull();
    for (const word of ['barn', 'padlock', 'text', 'kite', 'photos', 'drywall']) expect(placementOf(word), word).toBeNull();
  });

  it('in a unit’s name say only what stands beside it', () => {
    expect(
      ['Roof unit', 'fryer drawer', 'charbroiler base', 'broiler base', 'wok fridge', 'griddle stand', 'bar cooler', 'outdoor bar'].map(
        placementInName,
      ),
    ).toEqual(['outdoors', 'fryer', 'charbroiler', 'charbroiler', 'wok', 'griddle', 'bar', 'outdoors']);
    for (const name of ['pizza prep', 'back cooler', 'line fridge', 'barn door']) expect(placementInName(name), name).toBeNull();
  });

  it('tell a freezer from a cooler', () => {
    for (const word of ['Freezer', 'frz', 'FRZR', 'WIF', 'RIF', 'low temp', 'low-temp', 'LT', 'L.T.'])
      expect(isFreezer(word), word).toBe(true);
    for (const word of ['cooler', 'belt', 'fridge', 'wife', 'alt']) expect(isFreezer(word), word).toBe(false);
  });

  it('say that nobody knew', () => {
    for (const word of [
      '?',
      '???',
      '-',
      '—',
      'n/a',
      'NA',
      'none',
      'unk',
      'Unknown',
      'TBD',
      'see tag',
      'see nameplate',
      'not known',
      'no sure',
      'no plate',
      'no data',
      'missing',
      'illegible',
      'xxx',
      '.',
    ])
      // prettier-ignore
      expect(SAYS_NOTHING.test(word), word).toBe(true);
    for (const word of ['R290', 'nobody', 'see Joe', 'x1', 'none of it']) expect(SAYS_NOTHING.test(word), word).toBe(false);
  });
});

describe('intervals as they are written', () => {
  it.each([
    [1, ['w', 'wkly', 'Weekly', '7 days', 'every week', 'every wk.']],
    [2, ['biweekly', 'bi-weekly', 'every other week', 'fortnightly', '2 wks', '14d', 'q 2 weeks', 'ea. 2 weeks']],
    [4, ['m', 'mo', 'monthly', '1x/mo', '1x month', 'every month', '30 days', '1 mth']],
    [9, ['every other month', '2 months', 'every 2 mo.']],
    [13, ['Q', 'qtr', 'qtrly', 'quarterly', '4x/yr', '4x a year', '4x per year', '90 days', '3-month']],
    [26, ['semi-annual', 'semiannually', 'half yearly', 's', 'SA', '2x/yr', 'twice a year', 'bi-annually', '6 months']],
    [52, ['a', 'annual', 'Annually', 'yearly', '1x/yr', 'once a year', '1 yr', 'every year', '365 days']],
  ])('of %s weeks', (weeks, words) => {
    for (const word of words) expect(readInterval(word, ''), word).toBe(weeks);
  });

  it('are none where they are no time, no length or too long', () => {
    for (const word of ['', 'every', 'never', '0 days', '3 days', '105 weeks', '3 years', 'monthlyish', 'x 4 weeks'].slice(1)) expect(readInterval(word, ''), word).toBeNull(); // prettier-ignore
    expect(readInterval('104 weeks', '')).toBe(104);
    expect(readInterval('4', 'Wks')).toBe(4);
    expect(readInterval('2', 'PM (months)')).toBe(9);
    expect(readInterval('1', 'years')).toBe(52);
    expect(readInterval('10 days', 'weeks')).toBe(1);
  });
});

describe('dates and masses as they are written', () => {
  it.each([
    ['1/2/69', '2069-01-02'], ['1/2/70', '1970-01-02'], ['2024/3/6', '2024-03-06'], ['2024.03.06', '2024-03-06'], ['6 mar 2024', '2024-03-06'], ['6/March/24', '2024-03-06'],
    ['Mar. 6 24', '2024-03-06'], ['march 2nd 2024', '2024-03-02'], ['Sep-2024', '2024-09-01'], ['1 2 2024', '2024-01-02'], ['3/6/24 14:05', '2024-03-06'], ['2024-03-06T08:00', '2024-03-06'],
    ['29221', '1980-01-01'], ['29220', null], ['73050', '2099-12-31'], ['73052', null], ['31-Feb-24', null], ['2/30/24', null], ['6 mxr 2024', null], ['1/2/024', null],
  ])('the day of “%s”', (text, day) => expect(readDate(text, 'month first')).toBe(day)); // prettier-ignore

  it.each([
    ['2 pounds', 0.90718474], ['3#', 1.36077711], ['8 ounces', 0.226796185], ['8 ozs', 0.226796185], ['2 kilos', 2], ['2 kilograms', 2], ['50 gr', 0.05], ['1 gram', 0.001], ['.5 kg', 0.5],
    ['1 lb & 4 oz', 0.5669904625], ['1 lb, 4 oz', 0.5669904625], ['1lb+4oz', 0.5669904625], ['1 lb and 4 oz', 0.5669904625], ['1,250 g', 1.25], ['2 lb of it', null], ['lb', null], ['2 x', null],
  ])('the mass of “%s”', (text, kg) => (kg === null ? expect(readMass(text, null)).toBeNull() : expect(readMass(text, null)).toBeCloseTo(kg, 9))); // prettier-ignore

  it('take the unit of their column', () => {
    expect(['Charge lbs', 'Chg (g)', 'oz', 'kg.', 'Charge #', 'Gas', 'pounds of gas'].map(massUnitIn)).toEqual([
      'lb',
      'g',
      'oz',
      'kg',
      'lb',
      null,
      'lb',
    ]);
    expect(readMass('500', 'g')).toBeCloseTo(0.5, 12);
    expect(readMass('.5', 'kg')).toBe(0.5);
  });
});

it('what may be chosen stands there with its words: kinds, places, and “Not known” before the gases', () => {
  for (const options of [KIND_OPTIONS, PLACEMENT_OPTIONS, refrigerantOptions(['R290', 'R404A'])]) {
    expect(new Set(options.map((o) => o.value)).size).toBe(options.length);
    for (const { label } of options) expect(label).toMatch(/^[A-Z]/);
  }
  expect(refrigerantOptions(['R290', 'R404A']).map((o) => o.value)).toEqual(['unknown', 'R290', 'R404A']);
  expect(KIND_OPTIONS).toContainEqual({ value: 'reach_in', label: 'Reach-in' });
  expect(PLACEMENT_OPTIONS).toContainEqual({ value: 'bar', label: 'Bar' });
  expect(chargeQuestion(['20', '12'])[0]).toMatchObject({ rows: 2, open: true, options: [{ value: 'oz', label: 'Ounces' }, { value: 'lb' }, { value: 'g' }, { value: 'kg' }, { value: 'leave' }] }); // prettier-ignore
  expect(dateQuestion(['3/4/24', 'spring'], 'day first')[0]).toMatchObject({ rows: 2, answer: 'day first', open: false });
  expect([dateQuestion(['2024-03-04', '12/24'], 'day first'), chargeQuestion([])]).toEqual([[], []]);
  expect(dateQuestion(['12.11.2024'], 'month first')).toHaveLength(1);
});

describe('names', () => {
  it('are the same whatever their case, marks and company form', () => {
    expect(alike("  Joe's  Diner, Inc. ")).toBe('joes diner');
    expect(alike('Smith & Co')).toBe('smith and');
    expect(alike('A.B. Café–Bar LLC')).toBe('ab café bar');
    expect(alike('Coast')).toBe('coast');
  });

  it('shouted or whispered are written as names are, small words small', () => {
    expect(asName('THE HOUSE OF THE SUN')).toBe('The House of the Sun');
    expect(asName('casa de la playa')).toBe('Casa de la Playa');
    expect(asName('(old) mill')).toBe('(Old) Mill');
    for (const name of ['BBQ', 'McCoy Grill', 'T-49']) expect(asName(name)).toBe(name);
  });
});

describe('columns by what they are called', () => {
  it.each([
    ['customer', ['Customer', 'Client', 'Acct', 'Account', 'Company', 'Owner', 'Chain', 'Bill To', 'Restaurant', 'Cust. name']],
    ['kitchen', ['Kitchen', 'Site', 'Store #', 'Location', 'Branch', 'Outlet', 'Property']],
    ['address', ['Address', 'Street', 'Svc Addr', 'Ship to']],
    ['town', ['City', 'Town', 'twn']],
    ['zip', ['Zip', 'Postal code']],
    ['lat', ['Lat', 'latitude']],
    ['lng', ['Lng', 'longitude']],
    ['contact_name', ['Contact', 'Manager', 'Who to see', 'Attn', 'POC']],
    ['contact_phone', ['Phone', 'Tel.', 'Contact phone', 'Cell']],
    ['contact_email', ['Email', 'E-mail', 'contact e-mail']],
    ['access_notes', ['Access', 'Key', 'Gate code']],
    ['kind', ['Type', 'Category', 'Equip type', 'Class']],
    ['unit', ['Unit', 'Equipment', 'Asset', 'Description', 'Box', 'Machine']],
    ['count', ['Qty', 'How many', '# of units']],
    ['tag', ['Tag', 'Asset #', 'Unit ID', 'Barcode']],
    ['make', ['Make', 'Mfg', 'Mfr', 'Manufacturer']],
    ['model', ['Model', 'Mdl', 'M/N']],
    ['serial', ['Serial', 'S/N', 'SN', 'Ser #']],
    ['refrigerant', ['Refrigerant', 'Gas', 'Freon', 'Ref type']],
    ['charge', ['Charge', 'Refrig lbs', 'Gas weight', 'oz']],
    ['placement', ['Area', 'Where', 'Station', 'Equip Location', 'Condenser loc']],
    ['roof_work', ['Roof', 'On roof', 'Ladder']],
    ['temperature', ['Temp', 'Application', 'Med/Low']],
    ['box', ['Set point', 'Box temp']],
    ['last_cleaned', ['Last Cleaned', 'Last PM', 'Coil clean date', 'Date', 'Cleaned on']],
    ['interval', ['Freq', 'Frequency', 'How often', 'PM schedule', 'Days between']],
    ['notes', ['Notes', 'Comments', 'Remarks', 'Misc']],
  ])('%s', (target, names) => {
    for (const name of names) expect(guessColumns([name], [[]]), name).toEqual([target]);
  });

  it('are told by their values where their names say nothing', () => {
    const looks = (values: string[], name = 'Column') => guessColumns([name], [values])[0];
    expect(looks(['12 Mill St', '4 Oak Ave', '77 Pier Rd'])).toBe('address');
    expect(looks(['80901', '80902-1234'])).toBe('zip');
    expect(looks(['41.85, -87.62', '40.1;-80.5'])).toBe('position');
    expect(looks(['(312) 555-0141', '312.555.0190'])).toBe('contact_phone');
    expect(looks(['a@b.example', 'c@d.example'])).toBe('contact_email');
    expect(looks(['WIC', 'reach in', 'Ice machine'])).toBe('kind');
    expect(looks(['R404A', 'R-290', '134a'])).toBe('refrigerant');
    expect(looks(['20 oz', '1.5 lbs'])).toBe('charge');
    expect(looks(['3/16/24', '3/17/24'])).toBe('last_cleaned');
    expect(looks(['3/16/24', '3/17/24'], 'Installed')).toBe('notes');
    expect(looks(['1', '2', '3'], '#')).toBe('leave');
    expect(looks(['', ''])).toBe('leave');
    expect(looks(['20x20', '16x20', '20x20x2'])).toBe('notes');
  });

  it('called location are places in the kitchen where they say line and roof', () => {
    expect(
      guessColumns(
        ['Customer', 'Location'],
        [
          ['A', 'B'],
          ['Roof', 'line'],
        ],
      ),
    ).toEqual(['customer', 'placement']);
    expect(
      guessColumns(
        ['Customer', 'Location'],
        [
          ['A', 'B'],
          ['Mall', 'Pier'],
        ],
      ),
    ).toEqual(['customer', 'kitchen']);
  });

  it('are none where another word begins alike', () => {
    expect(guessColumns(['Statement'], [[]])).toEqual(['leave']);
    expect(guessColumns(['Region'], [[]])).toEqual(['state']);
    expect(guessColumns(['Unit type'], [[]])).toEqual(['kind']);
    expect(guessColumns(['Refrigerant charge'], [[]])).toEqual(['charge']);
  });

  it('are given once, to the name that says it best', () => {
    expect(guessColumns(['Date', 'Last cleaned', 'Notes', 'Comments'], [[], [], [], []])).toEqual([
      'leave',
      'last_cleaned',
      'notes',
      'notes',
    ]);
  });
});
