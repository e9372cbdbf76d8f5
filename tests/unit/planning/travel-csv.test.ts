import { describe, expect, it } from 'vitest';
import { readTravel } from '@/lib/core/planning';

const kitchen = (id: string, customer: string, name: string, tags: string[] = [], lat: number | null = null) => ({
  id,
  customer,
  name,
  tags,
  lat,
  lng: lat === null ? null : -105,
});
const kitchens = [
  kitchen('a', 'Nine Lanterns', 'Pearl Row', ['NL-01']),
  kitchen('b', 'Nine Lanterns', 'Main'),
  kitchen('c', 'Fenwick’s', 'Main', ['FW-7']),
];
const read = (...rows: string[][]) =>
  readTravel(
    [['from', 'to', 'minutes'], ...rows].map((cells, i) => ({ line: i + 1, cells })),
    kitchens,
  );
const problemsOf = (...rows: string[][]) => read(...rows).problems.map((p) => [p.line, p.column, p.severity]);

describe('a file of driving minutes', () => {
  it('finds kitchens by customer and name, by name alone, by a unit’s tag, whatever the case', () => {
    const { pairs, problems } = read(
      ['Nine Lanterns, Pearl Row', 'nine lanterns,  main', '14'],
      ['pearl row', 'FW-7', '9,5'],
      ['fw-7', 'NL-01', '0'],
    );
    expect(problems).toEqual([]);
    expect(pairs).toEqual([
      { fromKitchenId: 'a', toKitchenId: 'b', minutes: 14 },
      { fromKitchenId: 'a', toKitchenId: 'c', minutes: 9.5 },
      { fromKitchenId: 'c', toKitchenId: 'a', minutes: 0 },
    ]);
  });

  it('names every bad line with its column', () => {
    expect(problemsOf(['Pearl Row', 'Nowhere', '5'], ['Main', 'Pearl Row', '5'], ['Pearl Row', 'FW-7', 'ten'], ['', 'FW-7', ''], ['Pearl Row', 'NL-01', '4'], ['FW-7', 'Pearl Row', '601'], ['FW-7', 'Pearl Row', '-3'])).toEqual([
      [2, 'to', 'error'], [3, 'from', 'error'], [4, 'minutes', 'error'], [5, 'from', 'error'], [5, 'minutes', 'error'], [6, 'to', 'error'], [7, 'minutes', 'error'], [8, 'minutes', 'error'],
    ]); // prettier-ignore
    const [ambiguous] = read(['Main', 'Pearl Row', '5']).problems;
    expect(ambiguous!.message).toContain('“Nine Lanterns, Main”');
  });

  it('refuses the same way twice, and knows the way back as another', () => {
    const { problems } = read(['Pearl Row', 'FW-7', '5'], ['FW-7', 'Pearl Row', '6'], ['NL-01', 'FW-7', '7']);
    expect(problems).toMatchObject([{ line: 4, message: expect.stringContaining('line 2') }]);
  });

  it('asks for its columns, in any order', () => {
    expect(
      readTravel(
        [
          { line: 1, cells: ['minutes', 'to', 'From'] },
          { line: 2, cells: ['3', 'FW-7', 'NL-01'] },
        ],
        kitchens,
      ).pairs,
    ).toEqual([{ fromKitchenId: 'a', toKitchenId: 'c', minutes: 3 }]);
    expect(readTravel([{ line: 1, cells: ['from', 'to'] }], kitchens).problems).toMatchObject([
      { line: 1, column: 'minutes', severity: 'error' },
    ]);
    expect(readTravel([], kitchens).problems).toHaveLength(1);
    expect(read().problems).toHaveLength(1);
  });

  it('points at minutes that no van can drive, without refusing them', () => {
    // A degree of latitude is 111 km.
    const far = [kitchen('n', 'X', 'North', [], 40), kitchen('s', 'X', 'South', [], 39)];
    const lines = (minutes: string) => [
      { line: 1, cells: ['from', 'to', 'minutes'] },
      { line: 2, cells: ['North', 'South', minutes] },
    ];
    expect(readTravel(lines('2'), far)).toMatchObject({
      pairs: [{ minutes: 2 }],
      problems: [{ severity: 'note', message: expect.stringContaining('111 km') }],
    });
    expect(readTravel(lines('80'), far).problems).toEqual([]);
  });

  it.each([
    ['from', { lat: null, lng: null }, {}],
    ['to', {}, { lat: null, lng: null }],
    ['from, by half', { lat: null }, {}],
    ['from, by its other half', { lng: null }, {}],
    ['to, by half', {}, { lat: null }],
    ['to, by its other half', {}, { lng: null }],
  ])('doubts no minutes where a place is not on file: %s', (_, from, to) => {
    const pair = [
      { ...kitchen('n', 'X', 'North', [], 40), ...from },
      { ...kitchen('s', 'X', 'South', [], 39), ...to },
    ];
    const rows = [
      ['from', 'to', 'minutes'],
      ['North', 'South', '2'],
    ];
    const { pairs, problems } = readTravel(
      rows.map((cells, n) => ({ line: n + 1, cells })),
      pair,
    );
    expect([pairs.length, problems]).toEqual([1, []]);
  });
});
