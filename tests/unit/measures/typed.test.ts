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
    // Thousands with points, with one decimal or more, with any sign; powers of ten with any sign.
    ['1.400,50', 1400.5], ['-1.400,5', -1400.5], ['−1.400,5', -1400.5], ['+1.400,5', 1400.5], ['–1.400,5', -1400.5], ['12.345.678,25', 12_345_678.25], ['123.456,7', 123_456.7],
    ['2.5e-7', 2.5e-7], ['-2.5e-7', -2.5e-7], ['+2e+3', 2000], ['12.25e10', 122_500_000_000], ['1\u200b400', 1400], ['1\u00a0400', 1400],
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
    '1.400,5x',
    'x1.400,5',
    '1.400,5 x',
    '1234.567,8',
    '1.4005,5',
    '$1.400,5',
    '2e10x',
    'x2e10',
    '2.e3',
    '2e1.5',
    '12–3',
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

  // How much one of it is in SI, by definition, however it is written.
  it.each<[Measure, number, string[]]>([
    ['temperature', 255.9278, ['F', 'f.', '°F', '° F', 'º f', 'ºF', 'deg F', 'degF', 'degree F', 'degrees f', 'Deg. F', 'fahrenheit', 'degrees Fahrenheit', 'deg fahrenheit']],
    ['temperature', 274.15, ['C', 'c.', '°C', '° C', 'º c', 'ºC', 'deg C', 'degC', 'degree C', 'degrees c', 'Deg. C', 'celsius', 'degrees Celsius', 'centigrade', 'deg centigrade']],
    ['temperature', 1, ['K', 'kelvin', 'Kelvins']],
    ['difference', 0.5556, ['F', '°F', '° f', 'º F', 'deg F', 'degF', 'degree F', 'deg. f', 'degrees fahrenheit', 'fahrenheit']],
    ['difference', 1, ['C', '°C', '° c', 'º C', 'deg C', 'degC', 'degree c', 'deg. c', 'degrees celsius', 'celsius', 'K', 'kelvin', 'kelvins']],
    ['pressure', 6894.7573, ['psi', 'PSI', 'psig', 'psi g', 'psi.']],
    ['pressure', 1e5, ['bar', 'bars', 'barg', 'bar g', 'bars g']],
    ['pressure', 1e3, ['kPa', 'kpag', 'kPa g']],
    ['pressure', 1e6, ['MPa', 'mpag', 'MPa g']],
    ['mass', 0.45359237, ['lb', 'lbs', 'lb.', 'pound', 'pounds', '#']],
    ['mass', 0.02834952, ['oz', 'ozs', 'oz.', 'ounce', 'ounces']],
    ['mass', 1, ['kg', 'kgs', 'kilo', 'kilos', 'kilogram', 'kilograms']],
    ['mass', 0.001, ['g', 'gr', 'gram', 'grams']],
    ['length', 0.3048, ['ft', 'ft.', 'feet', 'foot', "'", '’', '′']],
    ['length', 1, ['m', 'meter', 'meters', 'metre', 'metres']],
    ['power', 0.29307107, ['Btu', 'btus', 'btuh', 'BTU/h', 'btu/hr', 'btu /h', 'btu / hr', 'btu/hr.']],
    ['power', 1, ['W', 'watt', 'watts']],
    ['power', 1e3, ['kW']],
    ['duration', 1, ['h', 'hr', 'hrs', 'hour', 'hours']],
    ['duration', 1 / 60, ['min', 'mins', 'min.', 'minute', 'minutes']],
  ])('one of %s is %d', (measure, si, words) => {
    for (const word of words) for (const typed of [word, ` ${word} `, word.toUpperCase()]) expect(unitNamed(measure, typed)?.(1), typed).toBeCloseTo(si, 4);
  }); // prettier-ignore

  it.each<[Measure, string[]]>([
    ['temperature', ['°  F', 'xF', 'Fx', 'ff', 'fahr', '°fahrenheit', 'cx', 'xc', 'x°c', 'x° f', 'celsiusx', 'xcelsius', 'ck', 'kel', '°K', 'xk', 'kx', 'degs f', '']],
    ['difference', ['°  F', 'xF', 'Fx', 'x°f', 'cx', 'xc', 'x°c', 'xk', 'kx', 'kel', 'degs c', 'celsiusx', '']],
    ['pressure', ['psia', 'xpsi', 'psi gg', 'psi  g', 'mbar', 'barx', 'bar gx', 'pa', 'hpa', 'xkpa', 'kpax', 'kpa gx', 'xmpa', 'mpax', 'mpa gx', '']],
    ['mass', ['mg', 'xlb', 'lbx', 'poundage', '##', 'floz', 'ozx', 'kgx', 'xkg', 'kilogr', 'gx', 'xg', 'grs', 'program', '']],
    ['length', ['cm', 'mm', 'mx', 'met', 'xft', 'ftx', 'feets', 'xm', '']],
    ['power', ['btu hr', 'xbtu', 'btux', 'btu/', 'wh', 'xw', 'kwh', 'xkw', 'mw', 'wattage', '']],
    ['duration', ['ho', 'xh', 'hx', 'ah', 'xhours', 'minut', 'xmin', 'minx', 'ms', '']],
  ])('none of %s', (measure, words) => {
    for (const word of words) expect(unitNamed(measure, word), word).toBeNull();
  }); // prettier-ignore

  it('stands before its unit with as many blanks and decimals as somebody likes', () => {
    for (const text of ['3 °C', '3°C', '3. °C', '3.°C', '3   °C', ' 3 °C ', '3\n°C', '3\u200b °C', '3,0 °C']) {
      const read = readMeasure('temperature', text);
      expect(read?.toSi?.(read.figure), text).toBeCloseTo(276.15, 9);
    }
    for (const text of ['3 deg.', '3degrees', '3 degree', '3 DEG']) expect(readMeasure('temperature', text), text).toEqual({ figure: 3, toSi: null });
    for (const text of ['3 degs', '3 x°', '3°x', 'a3 C', '°3', 'x 3 deg']) expect(readMeasure('temperature', text), text).toBeNull();
    for (const measure of ['difference', 'length', 'power'] as const) expect(readMeasure(measure, '3 °'), measure).toBeNull();
  }); // prettier-ignore

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
