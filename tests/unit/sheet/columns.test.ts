import { describe, expect, it } from 'vitest';
import { LEAVE, TARGETS } from '@/lib/core/sheet';
import { guessColumns, targetOf } from '@/lib/core/sheet/targets';
import { dateOrderOf, lastSuchMonth, readDate } from '@/lib/core/calendar/read-date';
import { readInterval } from '@/lib/core/sheet/read-interval';
import { massUnitIn, readMass } from '@/lib/core/sheet/read-mass';
import { alike, asName, nearPairs, phone, spellings } from '@/lib/core/sheet/names';
import { refrigerantIn, SAYS_NOTHING } from '@/lib/core/sheet/vocabulary';
import { FILED_REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';

// What people write over their columns and in them, each beside what they mean by it. Common usage, from memory.

const NAMES: Record<string, readonly string[]> = {
  customer: ['customer', 'Customer Name', 'clients', 'accts', 'acct.', 'accounts', 'company name', 'brand', 'bill-to', 'billto', 'cust', 'cust.', 'Restaurant (DBA)', 'Chain/brand', 'Place', 'venue', 'Business name', 'premises'],
  kitchen: ['site name', 'store', 'location name', 'loc', 'job', 'facility', 'store name', 'store no', 'unit store', 'unit / store', 'outlet #', 'Location_Name', 'branch*'],
  address: ['addr', 'street address', 'service address', 'service addr', 'svc addr', 'serv addr', 'site address', 'job addr', 'loc address', 'ship-to', 'shipto'],
  town: ['municipality', 'city/town', 'town'],
  state: ['state', 'st', 'province', 'prov', 'region'],
  zip: ['zipcode', 'zip code', 'postal', 'post code', 'postcode', 'zip+4'],
  position: ['coordinates', 'gps pin', 'lat/long', 'latitude, longitude', 'lat lon', 'plus code', 'pluscode', 'plus-code', 'map link'],
  lat: ['LAT', 'latitude'],
  lng: ['lon', 'long', 'lng', 'Longitude'],
  contact_name: ['gm', 'chef', 'mgr', 'person', 'contact person', 'contact name', 'who to call', 'who to ask', 'ask for', 'see', 'manager on duty'],
  contact_phone: ['telephone', 'cell', 'mobile', 'ph', 'store phone', 'manager cell', 'contact tel', 'phone#'],
  contact_email: ['e-mail', 'email address', 'manager e-mail'],
  service_hours: ['hours', 'hrs', 'service hours', 'window', 'access hours', 'access time', 'open', 'when', 'service window'],
  access_notes: ['entry', 'door', 'gate', 'lock box', 'alarm code', 'parking'],
  energy_price_per_kwh: ['$/kwh', 'energy cost', 'energy price', 'energy rate'],
  kind: ['kind', 'category', 'class', 'equipment type', 'equip kind', 'equipment class', 'unit type', 'eq type', 'eq. type', 'Type of unit'],
  unit: ['equip', 'eqp', 'eqpt', 'eq', 'equip.', 'item', 'desc', 'descr', 'name', 'box', 'appliance', 'unit name', 'unit description', 'mach', 'what'],
  count: ['qnty', 'quantity', 'how many', 'units', 'no. of units', 'no of units', 'number of units', '# of units', '# units', 'count', 'pcs', 'pcs.'],
  tag: ['tag no', 'asset id', 'asset no', 'asset tag', 'unit #', 'unit no', 'unit number', 'equipment id', 'equip #', 'equip no', 'label', 'qr', 'id', 'eq #'],
  make: ['mfr', 'mfgr', 'mf', 'manuf', 'manf', 'manufacturer', 'make / brand'],
  model: ['model no', 'mod', 'mdl', 'm/n', 'mn', 'model#'],
  serial: ['ser', 'serial number', 's/n', 'sn', 's n #', 'sn #', 'serial#'],
  refrigerant: ['refrig', 'refr', 'ref', 'ref.', 'gas type', 'freon type', 'refrigerant type'],
  charge: ['refrigerant charge', 'refrig amount', 'refrigerant amt', 'gas qty', 'ref weight', 'refrig lb', 'gas oz', 'lb', 'lbs', 'oz', 'ounces', 'charge (lbs)'],
  placement: ['area', 'where', 'placement', 'position in kitchen', 'station', 'room', 'zone', 'unit location', 'equipment location', 'location in store', 'spot', 'loc (kitchen)', 'location(area)', 'cond loc'],
  roof_work: ['rooftop', 'on roof', 'roof?', 'ladder needed'],
  temperature: ['temperature', 'temp class', 'temperature type', 'application', 'medlow', 'med/low', 'mt/lt', 'mtlt'],
  box: ['setpoint', 'set point (f)', 'box temp', 'temp setting'],
  last_cleaned: ['last serviced', 'last pm', 'last done', 'last visit', 'last coil clean', 'cleaned last', 'service date', 'pm date', 'date of service', 'date cleaned', 'clean done', 'serviced on', 'visit date', 'last', 'date'],
  interval: ['freq.', 'interval', 'every', 'schedule', 'pm freq', 'pm sched', 'pm interval', 'cycle', 'cleaning freq', 'cleaning interval', 'cleaning schedule', 'weeks between', 'wks btwn', 'months btw', 'mos. b/w', 'mo per clean', 'days per cycle'],
  months: ['marked months'],
  notes: ['note', 'comment', 'remark', 'memo', 'misc', 'other info'],
}; // prettier-ignore

describe('a column by its name', () => {
  it.each(Object.entries(NAMES))('%s', (target, names) => {
    for (const name of names) {
      expect(guessColumns([name], [['x', 'y']]), name).toEqual([target]);
      expect(guessColumns([`  ${name.toUpperCase().replaceAll(' ', '_')}: `], [[]]), name).toEqual([target]);
    }
  });

  it('knows every target under at least one name, and nothing under these', () => {
    expect(Object.keys(NAMES).sort()).toEqual(TARGETS.map((t) => t.key).sort());
    for (const name of ['customers', 'customary', 'jobber', 'addressee', 'cityscape', 'states', 'zone3', 'latent', 'longer', 'seen', 'graph', 'hourly', 'keyed', 'typed', 'unity', 'counter', 'counts', 'maker', 'modern', 'series', 'snap', 'gasket', 'reference', 'everyone', 'notebook', 'others', 'temp sensor', 'closing', 'tonnage', 'year'].filter((n) => !['customers', 'zone3'].includes(n)))
      expect(guessColumns([name], [[]]), name).toEqual(['leave']);
  }); // prettier-ignore

  it('a name that says more than another is what it says: a contact’s phone is a phone, a unit’s type a kind', () => {
    const one = (name: string) => guessColumns([name], [[]])[0];
    expect(['Contact phone', 'Manager e-mail', 'Contact telephone', 'Unit type', 'Unit kind', 'Unit tag', 'Equipment number', 'Gas charge', 'Refrigerant (lbs)', 'Freon oz', 'Key contact'].map(one)).toEqual(
      ['contact_phone', 'contact_email', 'contact_phone', 'kind', 'leave', 'leave', 'leave', 'charge', 'charge', 'charge', 'access_notes'],
    );
  }); // prettier-ignore

  it('has a word for each target, and one for leaving a column out', () => {
    expect(new Set(TARGETS.map((t) => t.key)).size).toBe(TARGETS.length);
    expect(new Set(TARGETS.map((t) => t.label)).size).toBe(TARGETS.length);
    for (const t of TARGETS) expect(t.label).toMatch(/^[A-Z].{2,}/);
    expect(TARGETS.filter((t) => t.of === 'kitchen').map((t) => t.key)).toEqual(['customer', 'kitchen', 'address', 'town', 'state', 'zip', 'position', 'lat', 'lng', 'contact_name', 'contact_phone', 'contact_email', 'service_hours', 'access_notes', 'energy_price_per_kwh']); // prettier-ignore
    expect(TARGETS.filter((t) => t.of === 'unit')).toHaveLength(TARGETS.length - 15);
    expect([targetOf('serial')?.label, targetOf('leave'), LEAVE.label]).toEqual(['Serial', undefined, 'Leave out']);
  });

  it('is given once, to the name that is wholly that word; a second one of notes is kept too', () => {
    const guess = (...names: string[]) => guessColumns(names, names.map(() => ['x'])); // prettier-ignore
    expect(guess('Model number', 'Model')).toEqual(['notes', 'model']);
    expect(guess('Model', 'Model number')).toEqual(['model', 'notes']);
    expect(guess('Notes', 'Remarks', 'Memo')).toEqual(['notes', 'notes', 'notes']);
    expect(guess('Last', 'PM date')).toEqual(['notes', 'last_cleaned']);
    expect(guess('Date')).toEqual(['last_cleaned']);
    expect(guess('Location', 'Area')).toEqual(['kitchen', 'placement']);
  });
});

describe('a column by what stands in it', () => {
  const looks = (values: string[], name = 'Column') => guessColumns([name], [values])[0];
  it.each([
    ['address', ['12 Mill Street', '4 N Oak Avenue', '77 Pier Rd.', '1 Elm Blvd', '9 Kings Dr', '8 Lake Drive', '5 Fern Ln', '5 Fern Lane', '3 High Way', '1 East Pkwy', '5 US Hwy', '2 Park Pl', '6 Inn Ct', '7 Inn Court', '8 Town Square', '8 Town Sq', '5 Sun Ave', '9 Gate St', '1 Long Road', '3 Oak Boulevard']],
    ['zip', ['80901', '80902-1234']],
    ['position', ['41.85, -87.62', '-40.1;80.5', '4.5 , 180.25']],
    ['contact_phone', ['(312) 555-0141', '312.555.0190', '+1 312 555 0141', '3125550141', '1-312-555-0141', '(312)555-0141']],
    ['contact_email', ['a@b.example', 'c.d@e-f.example']],
    ['refrigerant', ['R22', 'R-12', 'r134a', 'R134', '290', '404', '404A', '407C', 'R407F', '407', '410A', '448a', '449', '450A', '452A', '454C', '454A', '455A', '507', '507A', '513A', '600a', 'HFC-134a', '744', 'R 404A']],
    ['charge', ['20 oz', '1.5 lbs', '2 lb', '3#', '2kg', '500 g'].slice(0, 5)],
    ['last_cleaned', ['3/16/24', '16-Mar-24', '2024-03-16']],
    ['kind', ['WIC', 'Reach-in', 'Ice machine', 'XB']],
  ])('%s', (target, values) => {
    expect(looks(values)).toBe(target);
    // Each of them by itself too.
    for (const v of target === 'kind' ? [] : values) expect(looks([v]), v).toBe(target);
  }); // prettier-ignore

  it('is kept in the notes where most of it is something else', () => {
    for (const values of [['80901', 'x', 'y'], ['12 Mill', '4 Oak'], ['8090', '809011'], ['41.8'], ['312-555'], ['a@b'], ['R9', 'R1'], ['20 cups'], ['WIC', 'hood', 'sink']])
      expect(looks(values), values.join()).toBe('notes');
    // Three of five are most.
    expect(looks(['80901', '80902', '80903', 'x', 'y'])).toBe('zip');
    expect(looks(['80901', '80902', 'x', 'y'])).toBe('notes');
    expect(looks(['80901', '', '', '', ''])).toBe('zip');
  }); // prettier-ignore

  it('is a day of cleaning only where its name says no other day', () => {
    const dates = ['3/16/24', '3/17/24'];
    for (const name of ['Installed', 'Warranty', 'Built', 'Purchased', 'Bought', 'New', 'Printed', 'Updated', 'Start', 'Next', 'Due', 'Expires', 'Year', 'Yr']) expect(looks(dates, name), name).toBe('notes'); // prettier-ignore
    expect(looks(dates, 'Coils')).toBe('last_cleaned');
    expect(looks(['spring', 'fall'], 'Coils')).toBe('notes');
    expect(guessColumns(['Cleaned on', 'Coils'], [dates, dates])).toEqual(['last_cleaned', 'notes']);
  });

  it('is left out where it only counts rows, or has no name and next to nothing in it', () => {
    for (const name of ['#', 'No.', 'no', 'Nr', 'Row', 'Line', 'Ln.', 'item #', ''])
      expect(looks(['1', '2', '3.'], name), name).toBe('leave');
    expect(looks(['1', '2', 'x', 'y'], 'Row')).toBe('notes');
    expect(looks(['123456', '123457', '1'], 'Row')).toBe('notes');
    expect(looks(['1', '2', '3'], 'Hoods')).toBe('notes');
    expect(
      guessColumns(
        ['Customer', ''],
        [
          ['Ash', 'Elm'],
          ['see Joe', 'x'],
        ],
      )[1],
    ).toBe('leave');
    // Where no column has a name, none is less than the others.
    expect(looks(['see Joe', 'x'], '')).toBe('notes');
    expect(looks(['see Joe', 'x', 'y'], '')).toBe('notes');
    expect(looks([], 'Filter')).toBe('leave');
  });

  it('called location says where units stand once most of it does', () => {
    const location = (...values: string[]) => guessColumns(['Customer', 'Location'], [[], values])[1];
    for (const word of ['Roof', 'line', 'BOH', 'bar', 'kitchen', 'basement', 'back', 'prep', 'fry', 'cook line', 'outside', 'storage', 'front', 'FOH', 'dish', 'pantry', 'dining']) expect(location(word), word).toBe('placement'); // prettier-ignore
    expect(location('Roof', 'Mall')).toBe('kitchen');
    expect(location('Roof', 'line', 'Mall', '')).toBe('placement');
    expect(location('roofing', 'linens')).toBe('kitchen');
    expect(location()).toBe('kitchen');
    // Where another column says it, or the name is a kitchen’s own, it is the kitchen.
    expect(guessColumns(['Location', 'Area'], [['Roof'], ['line']])).toEqual(['kitchen', 'placement']);
    expect(guessColumns(['Site'], [['Roof']])).toEqual(['kitchen']);
  });
});

describe('intervals', () => {
  it.each([
    [1, ['7 day', '1 wk', '1 w', 'every week', 'ea week', 'ea. week', 'q week', 'q. 1 wk', '7d', 'week', '1-week']],
    [2, ['bi weekly', '2 weeks', '14 days']],
    [3, ['3 weeks', '20 days', '3wks']],
    [4, ['1x / mo', '1x/month', '1 month', 'every mo', '4w', '1.0 months', '28 days', 'Mo.']],
    [9, ['every other month', '60 days', 'every 2 months']],
    [13, ['4x yr', '4x a yr', '4x per yr', '4x/year', 'q', '3 mths', 'every 3 mo', '13 wks']],
    [26, ['semi annual', 'semiannual', 'semi-annually', 'half-yearly', 'halfyearly', '2x a year', '2x per year', '2x yr', 'biannual', 'bi annual', 'twice a year', '0.5 years', '.5 yr'].slice(0, -1)],
    [52, ['1x a year', '1x per yr', '1x yr', 'annually', '12 months', '1 year', 'every yr', '52 w']],
    [104, ['2 years', '24 months', '104 wks']],
  ])('of %s weeks', (weeks, words) => {
    for (const word of words) expect(readInterval(word, ''), word).toBe(weeks);
    for (const word of words) expect(readInterval(`  ${word.toUpperCase()} `, 'Freq'), word).toBe(weeks);
  }); // prettier-ignore

  it('of a number alone are in the unit of the column’s name', () => {
    expect(['6x/yr', '3 times a year', '6 per year', '2x/mo', '12x / year', '90x a year'].map((often) => readInterval(often, ''))).toEqual([
      9, 17, 9, 2, 4, 1,
    ]);
    expect(['200x a year', '0x a year', '6 a week'].map((often) => readInterval(often, ''))).toEqual([null, null, null]);
    expect([['30', 'Days between'], ['6', 'wk'], ['6', 'Weeks'], ['3', 'mo.'], ['3', 'Months between'], ['2', 'yr'], ['1', 'years'], ['1.5', 'months'], ['6', 'monday'], ['6', 'Weekend']].map(([n = '', h = '']) => readInterval(n, h))).toEqual([4, 6, 6, 13, 13, 104, 52, 7, 26, 6]); // prettier-ignore
    expect([readInterval('6', ''), readInterval('6', 'Service'), readInterval('', 'weeks'), readInterval('200', 'weeks'), readInterval('0', 'weeks')]).toEqual([null, null, null, null, null]); // prettier-ignore
  });

  it('are none in these', () => {
    for (const word of ['weeklyish', 'xweekly', 'every', 'every 2', 'twice', '2x', '2x/yr or so', 'q4', '4 fortnights', 'a year', 'yearly?', 'sa!', 'monthlies', 'in 6 weeks', '6 weeks!', '-6 weeks', 'day', '1 day'])
      expect(readInterval(word, ''), word).toBeNull();
  }); // prettier-ignore
});

describe('masses', () => {
  it('are read in every word for their unit, and in no other', () => {
    const kg = { lb: 0.45359237, oz: 0.028349523125, kg: 1, g: 0.001 };
    const words = { lb: ['lb', 'lbs', 'LBS.', 'lb.', 'pound', 'pounds', '#', '#.'], oz: ['oz', 'OZ.', 'ozs', 'ounce', 'ounces'], kg: ['kg', 'kgs', 'kg.', 'kilo', 'kilos', 'kilogram', 'kilograms'], g: ['g', 'G.', 'gr', 'gram', 'grams', 'g.'] } as const; // prettier-ignore
    for (const [unit, names] of Object.entries(words) as [keyof typeof kg, readonly string[]][])
      for (const name of names)
        for (const text of [`3${name}`, `3 ${name}`, ` 3.0 ${name} `]) {
          expect(readMass(text, null), text).toBeCloseTo(3 * kg[unit], 10);
          expect(massUnitIn(`Charge (${name})`), name).toBe(name.startsWith('#.') ? 'lb' : unit);
        }
    for (const name of ['lbz', 'xlb', 'ozz', 'doz', 'kgx', 'akg', 'gx', 'mg', 'grains', 'pounder', 'ouncess', 'kilometres'])
      for (const text of [`3 ${name}`, `3${name}`]) expect(readMass(text, null), text).toBeNull();
    for (const header of ['', 'Charge', 'Flag', 'Kgb', 'Slb', 'Dozen', 'weight']) expect(massUnitIn(header), header).toBeNull();
  });

  it('may be several together, with what stands between such', () => {
    for (const text of ['1 lb 4 oz', '1lb4oz', '1 lb, 4 oz', '1 lb & 4 oz', '1 lb + 4 oz', '1 lb AND 4 oz', '4 oz 1 lb']) expect(readMass(text, null), text).toBeCloseTo(0.5669904625, 10); // prettier-ignore
    for (const text of ['1 lb / 4 oz', '1 lb - 4 oz', '1 lb 4', 'about 1 lb', '1 lb or so', '1 lb 4 cups', 'lb 1', '']) expect(readMass(text, null), text).toBeNull(); // prettier-ignore
  });

  it('alone are in the unit that is known, or asked about; a comma is a thousand’s mark or a point', () => {
    for (const [text, n] of [['20', 20], ['1.25', 1.25], ['.5', 0.5], [' 7 ', 7], ['1,200', 1200], ['0,5', 0.5], ['1,25', 1.25], ['12,500', 12_500]] as const) {
      expect(readMass(text, null), text).toBe('bare');
      expect(readMass(text, 'kg'), text).toBe(n);
      expect(readMass(text, 'oz'), text).toBeCloseTo(n * 0.028349523125, 9);
      expect(readMass(text, 'lb'), text).toBeCloseTo(n * 0.45359237, 9);
      expect(readMass(text, 'g'), text).toBeCloseTo(n / 1000, 9);
      // What says its unit itself is in that one.
      expect(readMass(`${text} g`, 'lb'), text).toBeCloseTo(n / 1000, 9);
    } // prettier-ignore
    for (const text of ['1.2.3', '.', '-4', '4-5', '20ish']) expect(readMass(text, 'kg'), text).toBeNull();
  });
});

describe('dates', () => {
  it.each([
    ['2024-3-6', '2024-03-06'], ['2024.3.6', '2024-03-06'], ['3-6-2024', '2024-03-06'], ['3.6.24', '2024-03-06'], ['3 6 24', '2024-03-06'], ['6-mar-24', '2024-03-06'],
    ['06 Mar 2024', '2024-03-06'], ['6/mar/2024', '2024-03-06'], ['6 mar., 2024', '2024-03-06'], ['6-march-2024', '2024-03-06'], ['mar 6 2024', '2024-03-06'], ['March  06,  24', '2024-03-06'],
    ['MARCH 1st, 2024', '2024-03-01'], ['3rd march 2024', '2024-03-03'], ['mar-24', '2024-03-01'], ['Mar, 2024', '2024-03-01'], ['mar. 2024', '2024-03-01'], ['september 2024', '2024-09-01'],
    ['45357', '2024-03-06'], ['45357.25', '2024-03-06'], ['2024-03-06T08:00:00Z', '2024-03-06'], ['3/6/24 8:15 PM', '2024-03-06'], ['  3/6/24 ', '2024-03-06'], ['73051', '2100-01-01'],
    ['1/31/00', '2000-01-31'], ['12/31/99', '1999-12-31'],
    ['2024-13-06', null], ['2024-02-30', null], ['24-3-6-1', null], ['3/6', null], ['3//6/24', null], ['x3/6/24', null], ['3/6/24x', null], ['3/6/24 or so', null], ['6 mar', null], ['mar', null],
    ['6 xyz 24', null], ['xyz 24', null], ['xyz 6 24', null], ['32 mar 2024', null], ['mar 32 2024', null], ['123', null], ['99999', null], ['4535a', null], ['6 ma 2024', null], ['3/6/12345', null],
    ['100/6/24', null], ['3/100/24', null], ['20240306', null], ['2024-3-6-', null],
  ])('“%s” is %s', (text, day) => expect(readDate(text, 'month first')).toBe(day)); // prettier-ignore

  it('are the other way round where only that is a date, and in the order said where both are', () => {
    expect([readDate('13/2/24', 'month first'), readDate('2/13/24', 'day first'), readDate('3/4/24', 'month first'), readDate('3/4/24', 'day first')]).toEqual(['2024-02-13', '2024-02-13', '2024-03-04', '2024-04-03']); // prettier-ignore
    for (const month of ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'].entries()) expect(readDate(`5 ${month[1]} 2024`, 'day first')).toBe(`2024-${String(month[0] + 1).padStart(2, '0')}-05`); // prettier-ignore
  });

  it('go by what most of the column says, not by one slip, nor by what is no date either way', () => {
    expect(dateOrderOf(['25/3/24', '3/25/24', '3/26/24'], 'day first')).toBe('month first');
    expect(dateOrderOf(['13/13/2026', '3/4/26'], 'month first')).toBe('month first');
    // 8 December is still to come, 12 August is not; without a today either will do.
    expect(dateOrderOf(['08/12/26'], 'day first', '2026-11-28')).toBe('month first');
    expect(dateOrderOf(['12/08/26'], 'month first', '2026-11-28')).toBe('day first');
    expect(dateOrderOf(['08/12/26'], 'day first')).toBe('day first');
    // What is a date one way only says it, gone by or not.
    expect(dateOrderOf(['25/12/26', '1/2/26'], 'month first', '2026-11-28')).toBe('day first');
    for (const usual of ['month first', 'day first'] as const) expect(dateOrderOf(['1/2/27', '3/4/27'], usual, '2026-11-28')).toBe(usual);
  });

  it('a month alone is the last one gone by', () => {
    for (const [text, month] of [['June', '2026-06-01'], ['last june', '2026-06-01'], ['in Sept.', '2026-09-01'], ['Nov', '2026-11-01'], ['December', '2025-12-01'], ['late may', '2026-05-01']] as const) expect(lastSuchMonth(text, '2026-11-01'), text).toBe(month); // prettier-ignore
    for (const text of ['junes', 'marble', 'spring', 'monday', 'ju', 'May 2024', 'last', ''])
      expect(lastSuchMonth(text, '2026-11-01'), text).toBeNull();
  });

  it('give the order of their column away by the first of them that can be no month', () => {
    expect(dateOrderOf(['spring', '3/4/24', '25.3.2024', '3/25/24'], 'month first')).toBe('day first');
    expect(dateOrderOf([' 3-25-24 ', '25/3/24'], 'day first')).toBe('month first');
    for (const usual of ['month first', 'day first'] as const)
      expect(dateOrderOf(['12/12/24', '3/4/24', '2024-03-25', '45357', '', '3/25', '25 3 24'], usual)).toBe(usual);
  });
});

describe('names', () => {
  it('are compared without case, marks, blanks and company form', () => {
    for (const [a, b] of [["Joe's", 'JOES'], ['A & B', 'a and b'], ['A&B', 'A and B'], ['Café-Bar', 'café bar'], ['Mill  St.', 'mill st'], ['Ash, Ltd.', 'ash'], ['Ash LLC', 'Ash Inc'], ['Ash Co', 'ASH'], ['O`Neil', 'oneil'], ['Ash-1', 'ash 1']] as const) expect(alike(a), a).toBe(alike(b)); // prettier-ignore
    for (const [a, b] of [
      ['Ash 1', 'Ash 2'],
      ['Coltd', 'ltd'],
      ['Ashco', 'Ash'],
      ['Café', 'Cafe'],
    ] as const)
      expect(alike(a), a).not.toBe(alike(b));
    expect(alike(' - ')).toBe('');
  });

  it('in one case alone are written as names, others as they are', () => {
    for (const [text, name] of [['GOLDEN FORK', 'Golden Fork'], ['golden fork', 'Golden Fork'], ['the king of the hill', 'The King of the Hill'], ['LA CASA DE LA SAL', 'La Casa de la Sal'], ['ASH AND OAK AT THE PIER', 'Ash and Oak at the Pier'], ['PAIN DU JOUR', 'Pain du Jour'], ["joe's (old) mill", "Joe's (Old) Mill"], ['4TH STREET', '4Th Street'], ['ÉTOILE', 'Étoile'], ['BAR', 'BAR'], ['bar', 'bar'], ['A-1', 'A-1'], ['Golden FORK', 'Golden FORK']] as const) expect(asName(text), text).toBe(name); // prettier-ignore
  });

  it('of several spellings take the most frequent, one in mixed case before others', () => {
    const one = (...names: string[]) => [...spellings(names).values()];
    expect(one('ASH ONE', 'ASH ONE', 'Ash one')).toEqual(['Ash one']);
    expect(one('Ash one', 'Ash One', 'Ash One')).toEqual(['Ash One']);
    expect(one('ash one', 'ASH ONE', 'ASH ONE')).toEqual(['Ash One']);
    expect([...spellings(['B', 'A', 'b.']).keys()]).toEqual(['b', 'a']);
    expect(one()).toEqual([]);
  });

  it('a slip apart are few letters apart in long names, and branches are not', () => {
    expect(nearPairs(['abcdefg', 'abcdefx'])).toEqual([['abcdefg', 'abcdefx']]);
    expect(nearPairs(['abcdef', 'abcdex'])).toEqual([]);
    expect(nearPairs(['abcdefgh', 'abcdefxy'])).toEqual([]);
    expect(nearPairs(['abcdefghijklm', 'abcdefghijkxy'])).toEqual([['abcdefghijklm', 'abcdefghijkxy']]);
    expect(nearPairs(['abcdefghijkl', 'abcdefghijxy'])).toEqual([]);
    expect(nearPairs(['golden fork 1', 'golden fork 2'])).toEqual([]);
  });

  it('of telephones have one form where they are ten digits', () => {
    for (const text of ['312-555-0141', '(312)555-0141', '312.555.0141', '3125550141', '1-312-555-0141', '+1 (312) 555 0141', ' 312 555 0141 ']) expect(phone(text), text).toBe('312-555-0141'); // prettier-ignore
    for (const [text, out] of [['312-555-0141 x12', '312-555-0141 ext 12'], ['312-555-0141 ext. 12', '312-555-0141 ext 12'], ['312-555-0141EXT12', '312-555-0141 ext 12'], ['555-0141', '555-0141'], ['2-312-555-0141', '2-312-555-0141'], ['Joe 312-555-0141', 'Joe 312-555-0141'], [' +44 20 7946 0018 ', '+44 20 7946 0018'], ['', '']] as const) expect(phone(text), text).toBe(out); // prettier-ignore
  });
});

describe('refrigerants', () => {
  const ids = FILED_REFRIGERANTS.map((r) => r.id);
  const gas = (text: string) => refrigerantIn(text, ids);
  it.each([
    ['R744', ['CO2', 'carbon dioxide', 'co2 (744)', 'R-744', '744']],
    ['R290', ['propane', 'Propane', 'R290', 'r-290', 'R 290', 'HC 290', 'propane R290'].filter((t) => !t.startsWith('HC'))],
    ['R600a', ['isobutane', 'R600a', 'R-600a', 'r600 a', '600a']],
    ['R134a', ['134a', 'R134', 'HFC134a', 'hfc-134a', 'freon 134a', 'R-134-a', 'type 134a', '(134a)']],
    ['R22', ['22', 'R22', 'HCFC-22', 'freon 22', 'R.22']],
    ['R404A', ['404', '404a', 'R404A', 'R-404-A', 'R404A / POE']],
  ])('%s', (id, texts) => {
    for (const text of texts) expect(gas(text), text).toBe(id);
  }); // prettier-ignore
  it('are none that can be told in these', () => {
    for (const text of ['R', 'gas', '4', 'R-4', 'R40412', 'X134a1', 'R407', 'R123', 'MO99', 'A404Z', '404B', 'R134b', 'co22', 'butane']) expect(gas(text), text).toBeNull(); // prettier-ignore
    for (const text of ['CO2', 'propane', 'isobutane', 'R404A']) expect(refrigerantIn(text, []), text).toBeNull();
  });
});

it('nobody knew where it says so and nothing else', () => {
  for (const word of ['?', '--', '–', 'N/A', 'na', 'none', 'unk', 'unknown', 'tbd', 'see tag', 'see plate', 'see nameplate', 'see label', 'no known', 'not sure', 'no tag', 'not plate', 'no data', 'missing', 'illegible', 'X', 'xx', '.']) expect(SAYS_NOTHING.test(word), word).toBe(true); // prettier-ignore
  for (const word of ['??x', '-1', 'nab', 'nones', 'unkn', 'tbd?', 'see', 'see tags', 'not', 'no', 'notag', 'no date', 'missing one', '..', 'box', '']) expect(SAYS_NOTHING.test(word), word).toBe(false); // prettier-ignore
});
