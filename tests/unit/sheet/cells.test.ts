import { describe, expect, it } from 'vitest';
import { RandomStream } from '@/lib/core/numerics/random';
import { dateOrderOf, readDate } from '@/lib/core/calendar/read-date';
import { readInterval } from '@/lib/core/sheet/read-interval';
import { massUnitIn, readMass } from '@/lib/core/sheet/read-mass';
import { kindOf, placementOf, refrigerantIn } from '@/lib/core/sheet/vocabulary';
import { nearPairs, phone, spellings } from '@/lib/core/sheet/names';
import { FILED_REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';

describe('dates of a sheet', () => {
  // 45367 is 16 March 2024 and 25569 is 1970-01-01 in the 1900 date system (ECMA-376 part 1, 18.17.4.1).
  it.each([
    ['3/16/24', '2024-03-16'], ['16/3/24', '2024-03-16'], ['45367', '2024-03-16'], ['45367.5', '2024-03-16'], ['2024-03-16 00:00:00', '2024-03-16'],
    ['16-Mar-24', '2024-03-16'], ['March 16th, 2024', '2024-03-16'], ['Mar 2024', '2024-03-01'], ['3.4.2024', '2024-03-04'], ['4/5/98', '1998-04-05'],
    ['13/13/24', null], ['spring', null], ['2024', null], ['3/16', null], ['', null], ['312-555-0141', null],
  ])('%s', (text, date) => expect(readDate(text, 'month first')).toBe(date)); // prettier-ignore
  it('takes the order from the column', () => {
    expect(dateOrderOf(['3/4/24', '16/3/24'], 'month first')).toBe('day first');
    expect(dateOrderOf(['3/4/24', '3/16/24'], 'day first')).toBe('month first');
    expect(readDate('3/4/24', 'day first')).toBe('2024-04-03');
  });
});

describe('masses', () => {
  // 1 lb is 0.45359237 kg exactly (international pound, 1959); 16 oz to the pound.
  it.each([
    ['1 lb 4 oz', 0.5669904625], ['20oz', 0.5669904625], ['1.25#', 0.5669904625], ['1.25 lbs.', 0.5669904625], ['567 g', 0.567], ['1,200 g', 1.2], ['0,5 kg', 0.5],
  ])('%s', (text, kg) => expect(readMass(text, null)).toBeCloseTo(kg, 9)); // prettier-ignore
  it('asks for the unit of a bare number, and takes the header’s', () => {
    expect(readMass('20', null)).toBe('bare');
    expect(readMass('20', massUnitIn('Charge (oz.)'))).toBeCloseTo(0.5669904625, 9);
    expect(massUnitIn('Charge')).toBeNull();
    expect(readMass('about 2', null)).toBeNull();
    expect(readMass('3 cups', null)).toBeNull();
  });
});

it.each([
  ['quarterly', '', 13], ['Q', '', 13], ['90 days', '', 13], ['every 6 wks', '', 6], ['semi annual', '', 26], ['2x/yr', '', 26], ['Monthly', '', 4], ['3 months', '', 13],
  ['8', 'Weeks', 8], ['90', 'Interval (days)', 13], ['8', 'Freq', null], ['as needed', '', null], ['every 500 weeks', '', null],
])('interval %s under “%s” is %s weeks', (text, header, weeks) => expect(readInterval(text, header)).toBe(weeks)); // prettier-ignore

it.each([
  ['WIC', 'walk_in_cooler'], ['W/I Cooler', 'walk_in_cooler'], ['walkin frzr', 'walk_in_freezer'], ['WIF', 'walk_in_freezer'], ['2-dr RI', 'reach_in'], ['T-49 freezer', 'reach_in'],
  ['u/c', 'undercounter'], ['Under counter fridge', 'undercounter'], ['Ice Machine', 'ice_machine'], ['pizza prep', 'prep_table'], ['chef base', 'drawer_base'],
  ['glass door merch.', 'display'], ['remote cond. unit', 'remote_condensing_unit'], ['XB', null], ['hood', null],
])('%s is a %s', (text, kind) => expect(kindOf(text)).toBe(kind)); // prettier-ignore

it.each([
  ['BOH', 'back_of_house'], ['Cook line', 'line'], ['by fryer', 'fryer'], ['ROOF', 'outdoors'], ['FOH', 'bar'], ['Bsmt', 'back_of_house'], ['under griddle', 'griddle'], ['Stn 4', null],
])('%s is %s', (text, place) => expect(placementOf(text)).toBe(place)); // prettier-ignore

const ids = FILED_REFRIGERANTS.map((r) => r.id);
it.each([
  ['R404a', 'R404A'], ['404A', 'R404A'], ['R-404', 'R404A'], ['r 134 a', 'R134a'], ['134', 'R134a'], ['R-290 (propane)', 'R290'], ['Propane', 'R290'], ['CO2', 'R744'],
  ['HFC-507', 'R507A'], ['R-12', 'R12'], ['R408A', 'R408A'], ['R-407', null], ['R-123', null], ['freon', null], ['SN40412', null],
])('refrigerant %s is %s', (text, id) => expect(refrigerantIn(text, ids)).toBe(id)); // prettier-ignore

it.each([
  ['(312) 555-0141', '312-555-0141'], ['312.555.0141', '312-555-0141'], ['+1 312 555 0141', '312-555-0141'], ['3125550141 x2', '312-555-0141 ext 2'], ['call Joe', 'call Joe'], ['555-0141', '555-0141'],
])('phone %s', (text, out) => expect(phone(text)).toBe(out)); // prettier-ignore

it('gives names one spelling, and finds slips of the pen but not branches', () => {
  expect([...spellings(['JOE’S DINER', "Joe's Diner", 'Joes Diner', 'GOLDEN LOTUS']).values()]).toEqual(["Joe's Diner", 'Golden Lotus']);
  expect(nearPairs(['harbour grill', 'harbor grill', 'store 112 mill', 'store 113 mill', 'casa a'])).toEqual([
    ['harbour grill', 'harbor grill'],
  ]);
});

describe('slips of the pen', () => {
  it('are found as by comparing every name with every other', () => {
    const random = new RandomStream(11, 'slips');
    const letters = 'abcdefgh 12';
    const names = Array.from({ length: 120 }, () =>
      Array.from({ length: 6 + Math.floor(random.next() * 12) }, () => letters[Math.floor(random.next() * letters.length)]).join(''),
    );
    const slipped = names.flatMap((name) => [
      name,
      `${name.slice(0, 4)}${name.slice(5)}`,
      `${name.slice(0, 3)}xy${name.slice(5)}`,
      `q${name}`,
    ]);
    const keys = [...new Set(slipped)];
    const expected = keys.flatMap((a, i) =>
      keys
        .slice(i + 1)
        .filter(
          (b) =>
            a.replace(/\D/g, '') === b.replace(/\D/g, '') && Math.min(a.length, b.length) >= 7 && edits(a, b) <= (a.length > 12 ? 2 : 1),
        )
        .map((b) => [a, b]),
    );
    expect(expected.length).toBeGreaterThan(100);
    expect(nearPairs(keys)).toEqual(expected);
  });

  it('are looked for among 20,000 names in a moment', () => {
    const keys = Array.from({ length: 20_000 }, (_, n) => `nobody ${n.toString(26).replace(/\d/g, 'z')} grill`);
    // By the processor, as other tests may be running beside it.
    const before = process.cpuUsage();
    nearPairs([...new Set(keys)]);
    expect(process.cpuUsage(before).user / 1000).toBeLessThan(8000);
  });
});

/** Insertions, deletions and replacements between two words, straight from the definition. */
function edits(a: string, b: string): number {
  const distances = new Map<string, number>();
  const at = (i: number, j: number): number => {
    if (i === 0 || j === 0) return i + j;
    const key = `${i} ${j}`;
    const found = distances.get(key);
    if (found !== undefined) return found;
    const value = Math.min(at(i - 1, j) + 1, at(i, j - 1) + 1, at(i - 1, j - 1) + (a[i - 1] === b[j - 1] ? 0 : 1));
    distances.set(key, value);
    return value;
  };
  return Math.abs(a.length - b.length) > 2 ? 9 : at(a.length, b.length);
}
