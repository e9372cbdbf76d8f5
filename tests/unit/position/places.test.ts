import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { disagrees, isShortPosition, judge, learnt, metresBetween, MOST_ACCURACY_M, readPosition, writePosition, type Candidate } from '@/lib/core/position'; // prettier-ignore
import { houseNumberOf } from '@/lib/core/position/candidates';
import { areaNear, areaOf, isFullCode, isShortCode } from '@/lib/core/position/plus-code';

/**
 * Writes a plus code in whole numbers, as the specification says it (github.com/google/open-location-code, "Encoding"): degrees
 * in the smallest steps of a code of fifteen digits, taken apart from the last digit to the first. Nothing of it is in the reader.
 */
function written(lat: number, lng: number, digits: number): string {
  const letters = '23456789CFGHJMPQRVWX';
  let y = Math.min(Math.floor(Math.round((lat + 90) * 25e6 * 1e6) / 1e6), 180 * 25e6 - 1);
  let x = Math.floor(Math.round((lng + 180) * 8.192e6 * 1e6) / 1e6) % (360 * 8.192e6);
  let code = '';
  for (let i = 0; i < 5; i++) {
    code = `${letters[(y % 5) * 4 + (x % 4)]}${code}`;
    y = Math.floor(y / 5);
    x = Math.floor(x / 4);
  }
  for (let i = 0; i < 5; i++) {
    code = `${letters[y % 20]}${letters[x % 20]}${code}`;
    y = Math.floor(y / 20);
    x = Math.floor(x / 20);
  }
  return `${code.slice(0, 8)}+${code.slice(8, digits)}`;
}
const lat = fc.double({ min: -90, max: 89.999, noNaN: true });
const lng = fc.double({ min: -180, max: 179.999, noNaN: true });
/** Shortest way between two longitudes. */
const turn = (a: number, b: number) => Math.abs(((((a - b + 180) % 360) + 360) % 360) - 180);

describe('a plus code written by the specification', () => {
  it('is read as a place that holds what was written, as small as its digits say', () => {
    fc.assert(
      fc.property(lat, lng, fc.constantFrom(10, 11, 12, 13, 14, 15), (y, x, digits) => {
        const code = written(y, x, digits);
        expect(isFullCode(code)).toBe(true);
        expect(isShortCode(code)).toBe(false);
        const area = areaOf(code);
        const slack = 1e-9;
        expect(area.latLo).toBeLessThanOrEqual(y + slack);
        expect(area.latHi).toBeGreaterThanOrEqual(y - slack);
        expect(area.lngLo).toBeLessThanOrEqual(x + slack);
        expect(area.lngHi).toBeGreaterThanOrEqual(x - slack);
        expect(area.latHi - area.latLo).toBeCloseTo(0.000125 / 5 ** (digits - 10), 10);
        expect(area.lngHi - area.lngLo).toBeCloseTo(0.000125 / 4 ** (digits - 10), 10);
      }),
      { numRuns: 400 },
    );
  });

  it('and cut short is the same place again, from anywhere near it, over the date line and at the poles too', () => {
    const edge = fc.oneof(lng, fc.double({ min: 179.5, max: 179.999, noNaN: true }), fc.double({ min: -180, max: -179.5, noNaN: true }));
    const high = fc.oneof(lat, fc.double({ min: 89, max: 89.999, noNaN: true }), fc.double({ min: -90, max: -89, noNaN: true }));
    fc.assert(
      fc.property(high, edge, fc.constantFrom(2, 4, 6, 8), fc.double({ min: -0.48, max: 0.48, noNaN: true }), fc.double({ min: -0.48, max: 0.48, noNaN: true }), (y, x, cut, dy, dx) => {
        const code = written(y, x, 11);
        const whole = areaOf(code);
        const step = 20 / 20 ** (cut / 2 - 1);
        const short = cut === 8 ? code.slice(8) : code.slice(cut);
        const near = { lat: Math.min(90, Math.max(-90, y + dy * step)), lng: ((((x + dx * step + 180) % 360) + 360) % 360) - 180 };
        expect(isShortCode(short)).toBe(true);
        const found = areaNear(short, near);
        expect(found.latLo).toBeCloseTo(whole.latLo, 8);
        expect(found.latHi).toBeCloseTo(whole.latHi, 8);
        expect(turn(found.lngLo, whole.lngLo)).toBeCloseTo(0, 8);
        // On the globe: no longitude beyond the date line.
        expect((found.lngLo + found.lngHi) / 2).toBeGreaterThanOrEqual(-180);
        expect((found.lngLo + found.lngHi) / 2).toBeLessThan(180);
      }),
      { numRuns: 600 },
    ); // prettier-ignore
  });

  it('of eight digits or fewer with noughts is a square: a degree, a twentieth, twenty degrees', () => {
    const size = (code: string) => {
      const { latLo, latHi, lngLo, lngHi } = areaOf(code);
      return [latHi - latLo, lngHi - lngLo].map((d) => Number(d.toFixed(6)));
    };
    expect([size('86000000+'), size('86HJ0000+'), size('86HJV900+'), size('86HJV9JC+')]).toEqual([
      [20, 20],
      [1, 1],
      [0.05, 0.05],
      [0.0025, 0.0025],
    ]);
  });

  it('is named where it is none', () => {
    expect(() => areaOf('QCJ+2V')).toThrow(/not a full plus code: QCJ\+2V/);
    expect(() => areaOf('Mill Street')).toThrow(RangeError);
    expect(() => areaNear('Mill Street', { lat: 0, lng: 0 })).toThrow(/not a plus code: Mill Street/);
    expect(areaNear('8FVC2222+22', { lat: -40, lng: 100 })).toEqual(areaOf('8FVC2222+22'));
  });

  it('is short with an even number of digits before the plus and two or more after it', () => {
    expect(['+2V', 'CJ+2V', '9QCJ+2V', 'FG9QCJ+2V', ' qcj9+2v '].map(isShortCode)).toEqual([true, true, true, true, true]);
    expect(['', '+', '+2', 'CJ+2', 'QCJ+2V', 'CJ2V', 'C0+2V', 'CJ+2V+', 'AJ+2V', '8FVC2222+22', '8FVC222222+22'].filter(isShortCode)).toEqual([]); // prettier-ignore
    expect(['CJ+2V, Fenwick', 'CJ+2V Fenwick', '  CJ+2V'].map(isShortPosition)).toEqual([true, true, true]);
    expect(['Fenwick CJ+2V', '8FVC2222+22 Fenwick', '41.88, -87.63', ''].filter(isShortPosition)).toEqual([]);
  });
});

describe('degrees as they are pasted', () => {
  const read = (text: string) => {
    const found = readPosition(text);
    return 'position' in found ? found.position && [found.position.lat, found.position.lng] : found.problem;
  };
  it.each([
    ['41.88, -87.63', 41.88, -87.63],
    ['-33.86,151.21', -33.86, 151.21],
    ['41.88;-87.63', 41.88, -87.63],
    ['41 -87', 41, -87],
    ['0, 0', 0, 0],
    ['90, 180', 90, 180],
    ['-90, -180', -90, -180],
    ['41.88N 87.63W', 41.88, -87.63],
    ['33.86 s, 70.66 w', -33.86, -70.66],
    ['33.86° S 151.21° E', -33.86, 151.21],
    // The sign and the letter say the same.
    ['-33.86 S, -70.66 W', -33.86, -70.66],
    // A comma where others write a point.
    ['41,88; -87,63', 41.88, -87.63],
    ['41,88, -87,63', 41.88, -87.63],
    ['-33,86 151,21', -33.86, 151.21],
    ['41,88° N 87,63° W', 41.88, -87.63],
    ['https://map.example/@41.88,-87.63,15z', 41.88, -87.63],
    ['Fenwick kitchen 41.88, -87.63', 41.88, -87.63],
    ['41.88, -87.63 Walnut Street', 41.88, -87.63],
    ['41.88 -87.63 East Pier', 41.88, -87.63],
  ])('%s', (text, ...at) => expect(read(text)).toEqual(at)); // prettier-ignore

  it.each([
    '41.88',
    'Suite 4, 12 Main St',
    '12 20 Mill Lane',
    '1234.5, 20',
    '12.5, 1234',
    '3125, 41',
    '41.88.2, 20',
    'N, W',
    '41.88/-87.63',
  ])('no position: %s', (text) => expect(read(text)).toMatch(/^Not a position\. Write it like 41\.88, -87\.63/));
  it.each(['141.88, 20', '90.1, 20', '-91, 20', '20, 180.5', '20, -200', '999, 999'])('not on Earth: %s', (text) =>
    expect(read(text)).toMatch(/^Degrees run to 90/),
  );

  it('is what is written of it, to a metre, wherever on Earth', () => {
    fc.assert(
      fc.property(lat, lng, (y, x) => {
        const back = readPosition(writePosition({ lat: y, lng: x }));
        const at = 'position' in back ? back.position : null;
        expect(at?.lat).toBeCloseTo(y, 4);
        expect(at?.lng).toBeCloseTo(x, 4);
      }),
      { numRuns: 200 },
    );
    expect([writePosition({ lat: null, lng: 3 }), writePosition({ lat: 3, lng: null })]).toEqual(['', '']);
    expect(writePosition({ lat: 41.8765432, lng: -87.6 })).toBe('41.87654, -87.6');
  });

  it('of a plus code is its middle, to six places; a short one needs somewhere near', () => {
    // The middle of 31.4 to 31.400125 north and 121.5 to 121.500125 east lies at six and a half places.
    const middle = { position: { lat: expect.closeTo(31.4000625, 5), lng: expect.closeTo(121.5000625, 5) } };
    for (const [text, near] of [['8Q33CG22+22', null], ['  8q33cg22+22, Fenwick', null], ['CG22+22, Fenwick', { lat: 31.2, lng: 121.6 }]] as const) {
      expect(readPosition(text, near)).toEqual(middle);
      expect(JSON.stringify(readPosition(text, near))).not.toMatch(/\.\d{7}/);
    } // prettier-ignore
    expect(readPosition('2222+22')).toEqual({
      problem: 'A short plus code needs a place near it. Give the shop its position first, or paste the whole code.',
    });
    expect([readPosition(''), readPosition('   ', { lat: 1, lng: 1 })]).toEqual([{ position: null }, { position: null }]);
  });
});

describe('what several arrivals teach', () => {
  const M = 1 / 111_195; // a metre of latitude in degrees, on a sphere of the IUGG mean radius
  const fix = (north: number, accuracyM = 5, east = 0) => ({ lat: 40 + north * M, lng: 10 + (east * M) / Math.cos((40 * Math.PI) / 180), accuracyM }); // prettier-ignore
  const taught = (...fixes: ReturnType<typeof fix>[]) => learnt(fixes) ?? expect.fail('enough');

  it('is the middle of the good ones: half and four in five of them are no farther off', () => {
    // North of the middle by 0, 10, 20, 30 and 40 m: the median is at 20 m.
    const found = taught(fix(40), fix(0), fix(30), fix(10), fix(20));
    expect((found.lat - 40) / M).toBeCloseTo(20, 4);
    expect([found.n, found.halfWithinM, found.mostWithinM]).toEqual([5, expect.closeTo(10, 3), expect.closeTo(20, 3)]);
    // Of an even number, between the two in the middle.
    const even = taught(fix(0), fix(10), fix(30), fix(100));
    expect((even.lat - 40) / M).toBeCloseTo(20, 4);
    expect([even.halfWithinM, even.mostWithinM]).toEqual([expect.closeTo(10, 3), expect.closeTo(80, 3)]);
    // East as north.
    const east = taught(fix(0, 5, 0), fix(0, 5, 10), fix(0, 5, 20), fix(0, 5, 30), fix(0, 5, 40));
    expect(metresBetween(east, fix(0, 5, 20))).toBeLessThan(0.01);
    expect(east.mostWithinM).toBeCloseTo(20, 2);
  });

  it('leaves out what was not sure to 200 m, and counts what was to the very metre', () => {
    expect(MOST_ACCURACY_M).toBe(200);
    expect(learnt([fix(0), fix(0), fix(900, 201)])).toBeNull();
    expect(learnt([fix(0), fix(0), fix(900, 200)])).toMatchObject({ n: 3 });
    expect(learnt([fix(900, 201), fix(0), fix(0), fix(0)])).toMatchObject({ n: 3, lat: 40 });
    expect([learnt([]), learnt([fix(0), fix(0)])]).toEqual([null, null]);
  });

  it('is no finer than the tablets were sure, the surer the more there are', () => {
    expect(taught(fix(0, 30), fix(0, 40), fix(0, 60)).halfWithinM).toBeCloseTo(40 / Math.sqrt(3), 6);
    expect(taught(fix(0, 40), fix(0, 40), fix(0, 40), fix(0, 40))).toMatchObject({ halfWithinM: 20, mostWithinM: 20 });
  });

  it('has its middle on the globe, on either side of the date line, whichever comes first', () => {
    const at = (lng: number) => ({ lat: 0, lng, accuracyM: 5 });
    for (const first of [179.999, -179.999])
      for (const [middle, edge] of [[179.999, -179.998], [-179.999, 179.998]] as const) {
        const found = learnt([at(first), at(middle), at(middle), at(edge)]) ?? expect.fail('enough');
        expect(Math.abs(found.lng)).toBeLessThanOrEqual(180);
        expect(metresBetween(found, at(middle))).toBeLessThan(340);
        expect(found.mostWithinM).toBeLessThan(500);
      } // prettier-ignore
  });

  it('contradicts what is on file from 300 m on, or from three times its own spread where that is more', () => {
    const close = taught(fix(0), fix(0), fix(0));
    expect([disagrees(fix(299), close), disagrees(fix(301), close)]).toEqual([false, true]);
    const wide = taught(fix(-200), fix(0), fix(0), fix(150), fix(200));
    expect(wide.mostWithinM).toBeCloseTo(200, 3);
    expect([disagrees(fix(599), wide), disagrees(fix(-601), wide)]).toEqual([false, true]);
  });
});

describe('the number of a house', () => {
  it.each([
    ['3821 Alder Street', '3821'], ['12B Mill Ln', '12b'], ['Suite 4, 12 Main St', '12'], ['Ste. 4, Mill Lane 9', '9'], ['Alder Mall,7 Pier Road', '7'], ['123456 County Road', '123456'],
    ['Hauptstraße 7', '7'], ['Hauptstraße 12a , München', '12a'], ['Alder Street', ''], ['Route 66', '66'], ['Mill Ln, CO 80901', ''], ['', ''],
  ])('of “%s” is “%s”', (address, number) => expect(houseNumberOf(address)).toBe(number)); // prettier-ignore

  it('is compared without regard to case, and other places count only where they are houses elsewhere', () => {
    const at = (metres: number, over: Partial<Candidate> = {}): Candidate => ({ lat: metres / 111_195, lng: 0, label: 'x', precision: 'house', houseNumber: '12B', withinM: null, ...over }); // prettier-ignore
    expect(judge('12b Mill Ln', [at(0)]).confidence).toBe('fits');
    expect(judge('12b Mill Ln', [at(0), at(251), at(252), at(253)]).message).toBe('3 other places fit as well.');
    expect(judge('12b Mill Ln', [at(0), at(249), at(900, { precision: 'area' })]).confidence).toBe('fits');
    // The street, or no more than a part of town, whatever else there is.
    expect(judge('12b Mill Ln', [at(0, { precision: 'street' }), at(900)]).message).toBe('The street was found, not the house.');
    expect(judge('', [at(0)]).message).toBe('A place of this name; the address has no house number.');
  });
});
