import { describe, expect, it } from 'vitest';
import { readFigure, readMeasure, unitNamed } from '@/lib/core/measures/typed';
import type { Measure } from '@/lib/core/measures/entry-units';

describe('a number as somebody typed it', () => {
  it.each([
    ['3', 3], ['-3', -3], ['+3', 3], ['−3.5', -3.5], ['–3', -3], [' 12 ', 12], ['.5', 0.5], ['5.', 5], ['1e3', 1000], ['1.5E-2', 0.015],
    // Decimals after a comma, and thousands marked as here and as there.
    ['3,5', 3.5], ['-0,25', -0.25], [',5', 0.5], ['0,125', 0.125], ['1,4000', 1.4], ['1,400.5', 1400.5], ['1.400,5', 1400.5], ['12,345,678', 12_345_678], ['1 400', 1400], ['1,400', 1400], ['0,400', 0.4], ['$1,400', 1400],
    // A point is that of decimals.
    ['1.400', 1.4], ['1234.567', 1234.567],
  ])('%s is %s', (text, n) => expect(readFigure(text)).toBe(n)); // prettier-ignore

  it.each([
    '',
    ' ',
    '-',
    '.',
    ',',
    'x',
    '3x',
    'x3',
    '1.2.3',
    '1,2,3',
    '1,23,456',
    '1.400,5,5',
    '0.400,5',
    '1e',
    'e3',
    '3-4',
    '--3',
    '1,400,',
    '1.40,5',
    '1,4000.5',
    '3 C',
  ])('none is “%s”', (text) => expect(readFigure(text)).toBeNull());
});

describe('a measure as somebody typed it', () => {
  // By definition: °C + 273.15, (°F + 459.67) / 1.8, 6894.757 Pa, 0.45359237 kg, 0.3048 m, 0.29307107 W.
  it.each([
    ['temperature', '3 °C', 276.15], ['temperature', '3C', 276.15], ['temperature', '3º c', 276.15], ['temperature', '-18 celsius', 255.15], ['temperature', '38F', 276.4833], ['temperature', '38 deg F', 276.4833],
    ['temperature', '38 Fahrenheit', 276.4833], ['temperature', '276 K', 276], ['temperature', '3,5 °C', 276.65], ['temperature', '−10°F', 249.8167], ['temperature', '3\u00a0°C', 276.15],
    ['difference', '18 °F', 10], ['difference', '10 °C', 10], ['difference', '10 K', 10],
    ['pressure', '100 psi', 689_475.7], ['pressure', '100PSIG', 689_475.7], ['pressure', '6.9 bar', 690_000], ['pressure', '690 kPa', 690_000], ['pressure', '0,69 MPa', 690_000], ['pressure', '6,9 bar g', 690_000],
    ['mass', '20 oz.', 0.5669905], ['mass', '1,25 lbs', 0.5669905], ['mass', '1.25#', 0.5669905], ['mass', '567 g', 0.567], ['mass', '0,567 kilos', 0.567],
    ['length', '100 ft', 30.48], ['length', '100′', 30.48], ['length', '30.48 metres', 30.48],
    ['power', '12,000.0 BTU/h', 3516.853], ['power', '12000 btuh', 3516.853], ['power', '3.5 kW', 3500], ['power', '3500W', 3500],
    ['duration', '1.5 hrs', 1.5], ['duration', '90 min', 1.5],
  ] as const)('%s %s', (measure, text, si) => {
    const read = readMeasure(measure, text);
    expect(read?.toSi?.(read.figure)).toBeCloseTo(si, si > 1000 ? 0 : 4);
  }); // prettier-ignore

  it('says no unit where a bare number stands, with a mere degree sign too', () => {
    for (const text of ['3', ' 3 ', '3°', '3 º', '3 deg', '3 degrees']) expect(readMeasure('temperature', text), text).toEqual({ figure: 3, toSi: null }); // prettier-ignore
    expect(readMeasure('mass', '3°')).toBeNull();
  });

  it('is none with another thing’s unit, with two, or with none that there is', () => {
    for (const [measure, text] of [
      ['temperature', '3 psi'], ['temperature', '3 C F'], ['temperature', '36-38'], ['temperature', '36 to 38'], ['temperature', 'cold'], ['temperature', ''], ['temperature', 'C'], ['temperature', '3 cc'], ['pressure', '150 psia'], ['pressure', '20 inHg'], ['pressure', '3 bars of soap'],
      ['mass', '3 floz'], ['mass', '1 lb 4 oz'], ['length', '3 mm'], ['power', '2 hp'], ['power', '2 tons'], ['duration', '3 days'], ['difference', '3 R'],
    ] as const) expect(readMeasure(measure, text), `${measure} ${text}`).toBeNull(); // prettier-ignore
  });

  it('has its words to itself: none is of another measure of its kind', () => {
    const words: Record<string, Measure> = {
      psi: 'pressure',
      bar: 'pressure',
      oz: 'mass',
      lb: 'mass',
      ft: 'length',
      kw: 'power',
      hours: 'duration',
    };
    for (const [word, own] of Object.entries(words))
      for (const measure of ['temperature', 'difference', 'pressure', 'mass', 'length', 'power', 'duration'] as const)
        expect(unitNamed(measure, word) !== null, `${word} of ${measure}`).toBe(measure === own);
  });
});
