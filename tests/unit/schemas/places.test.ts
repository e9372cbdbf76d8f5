import { expect, it } from 'vitest';
import { Places } from '@/lib/schemas/customers/geocoder';

// What a place-finding service answers, and what is kept of it.
const PLACE = { lat: '41.88', lon: '-87.63', display_name: '12, Mill Street, Fenwick', place_rank: 30, boundingbox: ['41.88', '41.89', '-87.63', '-87.63'], address: { house_number: '12' } }; // prettier-ignore
const read = (over: object = {}) => Places.parse([{ ...PLACE, ...over }])[0];

it('keeps of a place what tells it apart', () => {
  expect(read()).toEqual({
    lat: 41.88,
    lng: -87.63,
    label: '12, Mill Street, Fenwick',
    precision: 'house',
    houseNumber: '12',
    withinM: 556,
  });
  expect(Places.parse([{ lat: 1, lon: 2 }])).toEqual([{ lat: 1, lng: 2, label: '', precision: 'area', houseNumber: '', withinM: null }]);
  expect(read({ display_name: 'n'.repeat(301) })?.label).toHaveLength(300);
  expect(read({ address: { house_number: '1'.repeat(21) } })?.houseNumber).toHaveLength(20);
  // A number that is none is no word of the house, but it is numbered.
  expect(read({ place_rank: 10, address: { house_number: 12 } })).toMatchObject({ precision: 'house', houseNumber: '' });
  expect(Places.parse(Array.from({ length: 7 }, (_, i) => ({ ...PLACE, lat: i }))).map((p) => p.lat)).toEqual([0, 1, 2, 3, 4]);
});

it('says how near a place is by its rank', () => {
  const of = (place_rank?: number) => read({ place_rank, address: {} })?.precision;
  expect([of(), of(25), of(26), of(27), of(28), of(30)]).toEqual(['area', 'area', 'street', 'street', 'house', 'house']);
  expect(read({ place_rank: 30, address: undefined })?.precision).toBe('house');
});

it('holds places to the globe, and a box to its four sides', () => {
  for (const over of [
    { lat: 90, lon: 180 },
    { lat: -90, lon: -180 },
  ])
    expect(Places.safeParse([{ ...PLACE, ...over }]).success).toBe(true);
  for (const over of [{ lat: 90.1 }, { lat: -90.1 }, { lon: 180.1 }, { lon: -180.1 }, { lat: 'north' }, { boundingbox: [1, 2, 3] }, { boundingbox: [1, 2, 3, 4, 5] }, { address: 'Mill Street' }]) expect(Places.safeParse([{ ...PLACE, ...over }]).success, JSON.stringify(over)).toBe(false); // prettier-ignore
});
