import { afterEach, describe, expect, it } from 'vitest';
import * as units from '@/lib/core/measures';
import { entryUnit, fromForm, MEASURES, nominal, ownUnitOf, shownInForm, unitsOfMeasure, type Measure } from '@/lib/core/measures/entry-units'; // prettier-ignore
import { decimal, money, short, whole } from '@/lib/core/measures/figures';
import { DATE_HABIT_LABEL, followHabits, habits } from '@/lib/core/measures/habits';
import { DISTANCE_NAME, distanceWords, REGIONS, regionOfCurrency, SPEED_LABEL, speedShown, speedWords } from '@/lib/core/measures/region';
import { keysOf } from '@/lib/core/typed/closed-set';

const US = { temperature: 'F', pressure: 'psig', mass: 'oz' } as const;
const METRIC = { temperature: 'C', pressure: 'bar', mass: 'g' } as const;

describe('the unit a person reads in', () => {
  it.each([
    ['length', 'ft', 'm'],
    ['temperature', 'F', 'C'],
    ['difference', 'F', 'K'],
    ['pressure', 'psig', 'bar'],
    ['mass', 'oz', 'g'],
    ['power', 'btuh', 'W'],
    ['duration', 'h', 'h'],
  ] as const)('of %s: %s or %s', (measure, us, metric) => {
    expect([ownUnitOf(measure, US), ownUnitOf(measure, METRIC)]).toEqual([us, metric]);
    expect(Object.keys(unitsOfMeasure(measure))).toEqual(expect.arrayContaining([us, metric]));
  });

  // Each value in SI, and what it is by definition (NIST SP 811, appendix B): what a nameplate would say.
  it.each([
    ['length', 'ft', 0.3048, '1 ft'],
    ['length', 'm', 12.34, '12.3 m'],
    ['temperature', 'F', 273.15, '32 °F'],
    ['temperature', 'C', 255.15, '−18 °C'],
    ['difference', 'F', 10, '18 °F'],
    ['difference', 'K', 10, '10 K'],
    ['pressure', 'psig', 6894.757, '1 psig'],
    ['pressure', 'bar', 250_000, '2.5 bar'],
    ['mass', 'oz', 0.45359237, '16 oz'],
    ['mass', 'lb', 0.90718474, '2 lb'],
    ['mass', 'g', 0.106, '106 g'],
    ['mass', 'kg', 2.5, '2.5 kg'],
    ['power', 'btuh', 3516.853, '12000 Btu/h'],
    ['power', 'W', 2800, '2800 W'],
    ['duration', 'h', 16, '16 h'],
  ] as const)('%s in %s', (measure, unit, si, words) => {
    expect(nominal(measure, unit, si)).toBe(words);
    expect(fromForm(measure, unit, Number(words.replace('−', '-').split(' ')[0]))).toBeCloseTo(measure === 'length' && unit === 'm' ? 12.3 : si, 1); // prettier-ignore
  });

  it('is refused by name where a measure has none such', () => {
    expect(() => entryUnit('mass', 'stone')).toThrow('mass is not measured in stone');
  });

  it.each(keysOf(MEASURES))('%s goes there and back in each of its units', (measure: Measure) => {
    for (const [name, unit] of Object.entries(unitsOfMeasure(measure))) {
      expect(unit.fromSi(unit.toSi(7.5)), name).toBeCloseTo(7.5, 9);
      expect(unit.label).not.toBe('');
      expect(shownInForm(measure, name, unit.toSi(7.5)).length).toBeLessThanOrEqual(4);
    }
  });
});

describe('a figure as it is written', () => {
  it('parts thousands, and drops what would tell nothing', () => {
    expect([0, 999.4, 999.5, 1000, 1400, -1400, 1_234_567].map(whole)).toEqual(['0', '999', '1,000', '1,000', '1,400', '-1,400', '1,234,567']); // prettier-ignore
    expect([0, 4.24, 9.96, 10, 10.4, -4.24, -12.6, 1400].map(short)).toEqual(['0.0', '4.2', '10.0', '10', '10', '-4.2', '-13', '1,400']);
    expect([decimal(1400.5, 1), decimal(1400, 2), decimal(0.126, 2)]).toEqual(['1,400.5', '1,400.00', '0.13']);
  });

  it('has its unit after it, or none', () => {
    expect(units.formatQuantity(12.5, 1)).toBe('12.5');
    expect(units.formatQuantity(1234.5, 1, 'W')).toBe('1,234.5 W');
    expect(units.formatQuantity(1000, 1, 'W')).toBe('1,000.0 W');
    expect(units.formatQuantity(999.94, 1, 'W')).toBe('999.9 W');
    expect(units.formatQuantity(-1234.5, 0, 'W')).toBe('−1,234 W');
    expect(units.formatQuantity(1234, -2, 'W')).toBe('1,200 W');
    expect(units.formatUncertain(31.2345, 0.43)).toBe('31.2 ± 0.4');
    expect(units.formatUncertain(1234, 150, 'W')).toBe('1,230 ± 150 W');
    expect(units.formatUncertain(3.14159, 0, 'K')).toBe('3.14 ± 0.00 K');
    expect(units.formatUncertain(31, Infinity, 'K')).toBe('can’t say');
  });

  it('shows of a band what it can tell apart', () => {
    expect([0, Infinity, NaN, 0.2, 0.4, 1, 3, 4, 20, 40, 300, -4].map(units.decimalsForBand)).toEqual([0, 0, 0, 2, 1, 1, 1, 0, 0, -1, -1, 0]); // prettier-ignore
    expect(units.formatBand(0, 0, 0, 'K')).toBe('0 K (0–0)');
    expect(units.formatBand(9.4, 8.5, 10.5, '%')).toBe('9 % (9–11)');
    expect(units.formatBand(9, 8, 9.99, '%')).toBe('9.0 % (8.0–10.0)');
    expect(units.formatBand(-1, -2.5, -0.5, 'K')).toBe('−1.0 K (−2.5 to −0.5)');
    expect(units.formatBand(1, NaN, 2)).toBe('can’t say');
  });
});

describe('how a shop writes', () => {
  afterEach(() => {
    globalThis.rimebookHabits = undefined;
  });

  it('is usual where nobody has said, and only what is said is changed', () => {
    globalThis.rimebookHabits = undefined;
    expect(habits()).toEqual({ dates: 'day_first', english: 'en-US', paper: 'LETTER' });
    followHabits({ paper: 'A4' });
    expect(habits()).toEqual({ dates: 'day_first', english: 'en-US', paper: 'A4' });
    expect(DATE_HABIT_LABEL).toEqual({ day_first: 'Tue 3 Nov 2026, 14:30', month_first: 'Tue, Nov 3, 2026, 2:30 PM' });
  });

  it('money as it looks there', () => {
    expect(money(124_050, 'USD')).toBe('$1,240.50');
    followHabits({ english: 'en-CA' });
    expect([money(124_050, 'CAD'), money(-5, 'CAD')]).toEqual(['$1,240.50', '-$0.05']);
    followHabits({ english: 'en-GB' });
    expect(money(100, 'USD')).toBe('US$1.00');
  });

  it('goes by where it works: paper, dates, units and English', () => {
    const us = { distance: 'mi', customers: US, dates: 'month_first', english: 'en-US', paper: 'LETTER' };
    const gb = { distance: 'mi', customers: METRIC, dates: 'day_first', english: 'en-GB', paper: 'A4' };
    expect(REGIONS).toMatchObject({
      us: { ...us, label: 'United States' },
      ca: { ...us, label: 'Canada', distance: 'km', customers: { ...METRIC, pressure: 'psig' }, english: 'en-CA' },
      gb: { ...gb, label: 'United Kingdom' },
      ie: { ...gb, label: 'Ireland', distance: 'km', english: 'en-IE' },
      au: { ...gb, label: 'Australia', distance: 'km', english: 'en-AU' },
      nz: { ...gb, label: 'New Zealand', distance: 'km', english: 'en-NZ' },
      za: { ...gb, label: 'South Africa', distance: 'km' },
      elsewhere: { ...gb, label: 'Elsewhere, metric', distance: 'km' },
    });
    expect(['AUD', 'NZD', 'ZAR', 'XXX'].map(regionOfCurrency)).toEqual(['au', 'nz', 'za', 'elsewhere']);
  });

  it('distances and speeds as a driver reads them', () => {
    expect([0.099, 0.1, 9.94, 10, 10.6].map((km) => distanceWords(km, 'km'))).toEqual(['100 m', '0.1 km', '9.9 km', '10 km', '11 km']);
    expect(distanceWords(0.15, 'mi')).toBe('490 ft');
    expect([speedShown(45, 'mi'), speedShown(45.04, 'km')]).toEqual([28, 45]);
    expect([speedWords(50.25, 'km'), speedWords(50, 'mi')]).toEqual(['50.3 km/h', '31.1 mph']);
    expect([DISTANCE_NAME.mi, DISTANCE_NAME.km, SPEED_LABEL.mi, SPEED_LABEL.km]).toEqual(['mile', 'kilometre', 'mph', 'km/h']);
  });
});
