import { describe, expect, it } from 'vitest';
import { InstanceError } from '@/checks/routing/parse-error';
import { parseSolomon } from '@/checks/routing/solomon';
import { solveInstance } from '@/checks/routing/solve-instance';
import { looksLikeTsplib, parseTsplib } from '@/checks/routing/tsplib';
import { highsLp } from '@/lib/features/planning/verbs/highs-lp';

const TABLE = `id,x,y,demand,ready,due,service
0,0,0,0,0,100,0
1,3,4,5,0,50,2
2,6,8,5,20,60,2
`;
const failing = (parse: (text: string) => unknown, text: string): string => {
  try {
    parse(text);
  } catch (error) {
    expect(error).toBeInstanceOf(InstanceError);
    return (error as Error).message;
  }
  throw new Error('was read without complaint');
};

describe('Solomon files', () => {
  it('reads the table, with columns in any order and a byte-order mark', () => {
    expect(parseSolomon(TABLE).rows).toHaveLength(3);
    const turned = '\uFEFFservice,due,ready,demand,y,x,id\r\n0,100,0,0,0,0,0\r\n2,50,0,5,4,3,a\r\n';
    expect(parseSolomon(turned).rows[1]).toEqual({ id: 'a', x: 3, y: 4, demand: 5, ready: 0, due: 50, service: 2 });
  });

  it('reads the classic text form with fleet and capacity', () => {
    const classic = `T101

VEHICLE
NUMBER     CAPACITY
  25         200

CUSTOMER
CUST NO.   XCOORD.   YCOORD.    DEMAND   READY TIME  DUE DATE   SERVICE   TIME

    0      0         0          0          0        100          0
    1      3         4         10          0         50         10
`;
    const instance = parseSolomon(classic);
    expect(instance).toMatchObject({ name: 'T101', vehicles: 25, capacity: 200 });
    expect(instance.rows).toHaveLength(2);
  });

  it.each([
    ['', /empty/],
    ['id,x,y\n0,1,2\n', /Line 1: column "demand" is missing/],
    [TABLE.replace('3,4,5', '3,x,5'), /Line 3: y is "x", which is not a number/],
    [TABLE.replace('3,4,5', '3,,5'), /Line 3: y is "", which is not a number/],
    [TABLE.replace('1,3,4,5,0,50,2', '1,3,4'), /Line 3: 3 columns where 7 are expected/],
    [TABLE.replace('0,50,2', '70,50,2'), /Line 3: the window of 1 ends \(50\) before it begins \(70\)/],
    [TABLE.replace('3,4,5', '3,4,-5'), /Line 3: the demand of 1 is below zero/],
    [TABLE.replace('\n2,', '\n1,'), /Two rows have the id 1/],
    ['id,x,y,demand,ready,due,service\n', /no rows/],
    ['id,x,y,demand,ready,due,service\n0,0,0,0,0,100,0\n', /no customer/],
  ])('says what is wrong with %j', (text, message) => expect(failing(parseSolomon, text)).toMatch(message));
});

const HEAD = 'NAME: t\nTYPE: TSP\nDIMENSION: 4\nEDGE_WEIGHT_TYPE: EXPLICIT\nEDGE_WEIGHT_FORMAT: ';
const FULL = [0, 1, 2, 3, 1, 0, 4, 5, 2, 4, 0, 6, 3, 5, 6, 0];

describe('TSPLIB files', () => {
  it.each([
    ['FULL_MATRIX', '0 1 2 3\n1 0 4 5\n2 4 0 6\n3 5 6 0'],
    ['UPPER_ROW', '1 2 3\n4 5\n6'],
    ['LOWER_ROW', '1\n2 4\n3 5 6'],
    ['UPPER_DIAG_ROW', '0 1 2 3 0 4 5 0 6 0'],
    ['LOWER_DIAG_ROW', '0 1 0 2 4 0\n3 5 6 0'],
    ['UPPER_COL', '1 2 4 3 5 6'],
    ['LOWER_COL', '1 2 3 4 5 6'],
    ['UPPER_DIAG_COL', '0 1 0 2 4 0 3 5 6 0'],
    ['LOWER_DIAG_COL', '0 1 2 3 0 4 5 0 6 0'],
  ])('reads %s', (format, weights) => {
    const instance = parseTsplib(`${HEAD}${format}\nEDGE_WEIGHT_SECTION\n${weights}\nEOF\n`);
    expect([...instance.matrix]).toEqual(FULL);
    expect(instance.symmetric).toBe(true);
  });

  // Distances worked by hand from the definitions in "TSPLIB 95" (Reinelt 1995).
  it.each([
    ['EUC_2D', 4], // √13 = 3.606
    ['CEIL_2D', 4],
    ['MAN_2D', 5],
    ['MAX_2D', 3],
    ['ATT', 2], // √1.3 = 1.14, rounded up
  ])('measures %s', (kind, expected) => {
    const instance = parseTsplib(`NAME : t\nTYPE : TSP\nDIMENSION : 2\nEDGE_WEIGHT_TYPE : ${kind}\nNODE_COORD_SECTION\n1 0 0\n2 2 3\nEOF`);
    expect(instance.matrix[1]).toBe(expected);
  });

  it('measures EUC_2D to the nearest and CEIL_2D up', () => {
    const of = (kind: string): number =>
      parseTsplib(`DIMENSION: 2\nEDGE_WEIGHT_TYPE: ${kind}\nNODE_COORD_SECTION\n1 0 0\n2 1 1\n`).matrix[1]!;
    expect(of('EUC_2D')).toBe(1);
    expect(of('CEIL_2D')).toBe(2);
  });

  it.each([
    ['TYPE: CVRP\nDIMENSION: 3\n', /TYPE is CVRP/],
    ['NAME: t\nDIMENSION: 1\n', /DIMENSION is 1/],
    ['NAME: t\nDIMENSION: x\n', /DIMENSION is "x"/],
    ['DIMENSION: 2\nNODE_COORD_SECTION\n1 0 0\n2 1 1\n', /EDGE_WEIGHT_TYPE is missing/],
    ['DIMENSION: 2\nEDGE_WEIGHT_TYPE: GEOM\nNODE_COORD_SECTION\n1 0 0\n2 1 1\n', /"GEOM" is not one of/],
    ['DIMENSION: 3\nEDGE_WEIGHT_TYPE: EUC_2D\nNODE_COORD_SECTION\n1 0 0\n2 1 1\n', /has 2 places where DIMENSION says 3/],
    ['DIMENSION: 2\nEDGE_WEIGHT_TYPE: EUC_2D\nNODE_COORD_SECTION\n1 0 0\n2 1 b\n', /Line 5: y of place 2 is "b"/],
    ['DIMENSION: 2\nEDGE_WEIGHT_TYPE: EUC_2D\nNODE_COORD_SECTION\n1 0 0\n1 1 1\n', /place 1 is listed twice/],
    [`${HEAD}UPPER_ROW\nEDGE_WEIGHT_SECTION\n1 2 3 4 5\n`, /has 5 numbers where UPPER_ROW of 4 needs 6/],
    [`${HEAD}SPIRAL\nEDGE_WEIGHT_SECTION\n1\n`, /EDGE_WEIGHT_FORMAT "SPIRAL"/],
    [`${HEAD}UPPER_ROW\nEDGE_WEIGHT_SECTION\n1 2 3 4 5 -6\n`, /cannot be below zero/],
    ['DIMENSION: 2\nstray words\n', /belongs to no section/],
  ])('says what is wrong with %j', (text, message) => expect(failing(parseTsplib, text)).toMatch(message));

  it('is told apart from a table', () => {
    expect(looksLikeTsplib('NAME : x\n')).toBe(true);
    expect(looksLikeTsplib(TABLE)).toBe(false);
  });
});

describe('solving an instance', () => {
  const minute = () => {
    const until = performance.now() + 60_000;
    return () => until - performance.now();
  };

  it('takes the shorter of two ways to cut distances', async () => {
    const lp = await highsLp();
    // Out to (3,4) and on to (6,8) and back: 20, whatever the decimals.
    expect(solveInstance(TABLE, { seed: 1, lp, remainingMs: minute() })).toMatchObject({
      distance: 20,
      vehicles: 1,
      bound: 20,
      proven: true,
    });
    // Two vehicles are needed when one holds only one load.
    expect(solveInstance(TABLE, { seed: 1, lp, capacity: 5, truncate: 1, remainingMs: minute() })).toMatchObject({
      distance: 30,
      vehicles: 2,
      proven: true,
    });
  });

  it('names who cannot be served instead of failing', async () => {
    const answer = solveInstance(TABLE, {
      seed: 1,
      lp: await highsLp(),
      capacity: 5,
      vehicles: 1,
      remainingMs: minute(),
    });
    expect(answer.unserved).toHaveLength(1);
    expect(answer.vehicles).toBe(1);
  });

  it('solves a one-way tour, where there and back differ', async () => {
    const text =
      'TYPE: ATSP\nDIMENSION: 4\nEDGE_WEIGHT_TYPE: EXPLICIT\nEDGE_WEIGHT_FORMAT: FULL_MATRIX\nEDGE_WEIGHT_SECTION\n0 1 9 9\n9 0 1 9\n9 9 0 1\n1 9 9 0\n';
    expect(solveInstance(text, { seed: 1, lp: await highsLp(), remainingMs: minute() })).toMatchObject({
      distance: 4,
      bound: 4,
      proven: true,
      routes: [['1', '2', '3', '4']],
    });
  });

  it('refuses to cut whole distances', () =>
    expect(
      failing(
        (text) => solveInstance(text, { seed: 1, truncate: 1, remainingMs: () => 1 }),
        'DIMENSION: 2\nEDGE_WEIGHT_TYPE: EUC_2D\nNODE_COORD_SECTION\n1 0 0\n2 1 1\n',
      ),
    ).toMatch(/--truncate/));
});
